"""``wetside take --untie`` and ``--remove``: what a log brought is taken back, shown first."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.errors import Place, RefusedError
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.services.records.runs_taken import Looked
    from wetside.services.records.runs_untied import Goes


def untie_shown(looked: Looked, *, yes: bool, json: bool) -> None:
    """Show what untying the run of a log would do; do it where that was said.

    Raises
    ------
    WetsideError
        If it is not in the archive, nothing is tied to it, or something must be undone first.
    """
    from wetside.services.records.runs_untied import untie, untying_of

    run = _run_of(looked)
    found = untying_of(run)
    if found.blocked is not None:
        raise found.blocked
    if yes:
        found = untie(run)
    if json:
        sheets = [
            {"sheet": str(one.sheet), "named": one.name, "state": one.state, "number": one.number or None}
            for one in found.sheets
        ]
        print_json({"run": str(run.pk), "load": found.load or None, "sheets": sheets, "untied": yes})
        return
    lines = [sentence("cli.take.untie_load", {"load": found.load})] if found.load else []
    lines += [_goes_said(one) for one in found.sheets]
    _print([*lines, "", sentence("cli.take.untied" if yes else "cli.take.untie_ask", {"key": str(run.pk)})])


def _goes_said(one: Goes) -> str:
    how = one.state or ("shared" if one.shared else "stays")
    said = sentence(f"cli.take.goes_{how}", {"sheet": str(one.sheet)})
    return f"{said} {sentence('cli.take.goes_number', {'number': one.number})}" if one.number else said


def remove_shown(looked: Looked, *, yes: bool, json: bool) -> None:
    """Show which run of a log would be removed; do it where that was said.

    Raises
    ------
    WetsideError
        If it is not in the archive, or is tied or booked.
    """
    from wetside.services.records.runs_removed import remove_taken, why_not_removed

    run = _run_of(looked)
    kept_by = why_not_removed(run)
    if kept_by is not None:
        raise kept_by
    if yes:
        run = remove_taken(run)
    if json:
        print_json({"run": str(run.pk), "removed": yes})
        return
    _print([sentence("cli.take.removed" if yes else "cli.take.remove_ask", {"run": run.name})])


def _run_of(looked: Looked) -> Any:
    """Run of the archive that a log is."""
    if looked.run is None:
        raise RefusedError("cli.take.not_there", place=Place(looked.name))
    if looked.removed_at is not None:
        raise RefusedError("cli.take.gone", place=Place(looked.name), run=looked.run.name)
    return looked.run


def _print(texts: list[str]) -> None:
    print_lines(line for text in texts for line in wrapped(text, text_width()))
