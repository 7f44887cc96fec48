"""What runs teach of a vessel, in sentences: how many runs, their values, and what is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.count import counted
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.services.records.runs_learned import Taught


class TaughtSaid(NamedTuple):
    """What is taught of one column: its name, the sentence, and what is offered as a button says it."""

    taught: Taught
    name: str
    said: str
    offered: str

    @property
    def seen(self) -> str:
        """The offer as a page hands it back, so that no other is taken for it."""
        return "" if self.taught.offered is None else f"{self.taught.offered:g}"


def taught_said(all_taught: Iterable[Taught]) -> tuple[TaughtSaid, ...]:
    """Say what runs teach."""
    return tuple(
        TaughtSaid(
            taught,
            sentence(f"services.run_after.teaches_{taught.column}", {}),
            _said(taught),
            "" if taught.offered is None else _value(taught.column, taught.offered),
        )
        for taught in all_taught
    )


def _said(taught: Taught) -> str:
    lesson = taught.lesson
    params = {
        "runs": counted("run", len(lesson.values)),
        "values": ", ".join(_value(taught.column, value) for value in lesson.values),
        "kept": "" if taught.kept is None else _value(taught.column, taught.kept),
        "value": "" if lesson.value is None else _value(taught.column, lesson.value),
    }
    if lesson.few:
        how = "few"
    elif lesson.value is None:
        how = "disagree"
    elif taught.refused:
        how = "refused"
    elif taught.offered is None:
        how = "agree"
    else:
        how = "offer"
    first = sentence(f"services.run_after.taught_{how}", params)
    if taught.kept is None:
        return f"{first} {sentence('services.run_after.none_kept', {})}"
    return f"{first} {sentence('services.run_after.kept', params)}"


def _value(column: str, value: float) -> str:
    shape = {"pour_s": "short", "drain_s": "short", "jacket_off_c": "degrees"}.get(column, "long")
    exact = round(value, 1) if shape == "degrees" else value
    return sentence(f"services.run_after.value_{shape}", {"value": exact})
