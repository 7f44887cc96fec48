"""A developed negative looked at between loads: what it showed is kept with its run.

What a look means for the time of the others is worked out in :mod:`wetside.services.records.runs_replanned`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils import timezone

from wetside.errors import InputError, ManyErrors, OutOfRangeError, Place, RefusedError, UnknownNameError, WetsideError
from wetside.planning.judged import Verdict, judgement_of
from wetside.records import models
from wetside.services.records.changes import change
from wetside.services.records.runs import standing
from wetside.units import parse_number
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

DENSITOMETER, PRINT, EYE = "densitometer", "print", "eye"
WAYS = (DENSITOMETER, PRINT, EYE)
"""How a negative is looked at: read, judged by its print, judged by eye over a light."""
MOST_DENSITY = 5.0
"""No film is denser. [density]"""
LEAST_RANGE, MOST_RANGE = 0.1, 4.0
"""Ranges that the evening file takes. [density]"""


class Look(NamedTuple):
    """What a sheet showed, as it is kept; ``said`` what that means in words, ``at`` when."""

    rank: int
    sheet: str
    how: str
    density_range: float | None
    change_percent: float | None
    said: str
    at: str


def can_look(run: models.Run) -> bool:
    """Whether a negative of a run can be looked at: it is over, was no rehearsal, and its sheets have names."""
    return run.state == models.RunState.ENDED and not run.rehearsal and bool(standing(run).state.sheets)


def look_reason(run: models.Run) -> str:
    """Why a look pays after this load, as its plan's course has it; empty where it does not, or was done."""
    if not can_look(run) or run.facts.get("looks") or run.plan is None or not run.plan.document:
        return ""
    steps = (run.plan.document.get("course") or {}).get("steps", ())
    step = next((one for one in steps if one["does"] == "look" and one["load"] == run.load), None)
    return "" if step is None else sentence(step["code"], step["params"])


def looks_of(run: models.Run) -> tuple[Look, ...]:
    """Looks at a run's sheets, in the order in which they were told."""
    return tuple(_look(rank, row) for rank, row in enumerate(run.facts.get("looks", ())))


def _look(rank: int, row: Mapping[str, Any]) -> Look:
    at = str(row.get("at", ""))
    if row.get("range") is not None:
        params = {"range": row["range"], "shadow": row["shadow_density"], "highlight": row["highlight_density"]}
        return Look(rank, row["sheet"], row["how"], row["range"], None, sentence("services.look.read", params), at)
    judged = judgement_of(Verdict(row["shadow"]), Verdict(row["highlight"]))
    said = sentence(judged.code, {"percent": judged.change_percent})
    return Look(rank, row["sheet"], row["how"], None, judged.change_percent, said, at)


def add_look(run: models.Run, typed: Mapping[str, str]) -> models.Run:
    """Keep a look.

    Parameters
    ----------
    run : Run
        One that is over.
    typed : mapping
        ``sheet``, ``how``, and ``shadow_density`` with ``highlight_density``, or ``shadow`` with ``highlight``.

    Raises
    ------
    RefusedError
        If the run is not over, or was a rehearsal.
    InputError
        With the field of everything that must be put right.
    """
    if not can_look(run):
        raise RefusedError("services.look.not_over")
    row = _row(typed, standing(run).state.sheets)
    return change(run, {"facts": lambda facts: {**facts, "looks": [*facts.get("looks", ()), row]}}, why="looked at")


def take_look_back(run: models.Run, rank: int) -> models.Run:
    """Take a look back; the history keeps it.

    Raises
    ------
    UnknownNameError
        If there is none of that number.
    """
    seen = list(run.facts.get("looks", ()))
    if not 0 <= rank < len(seen):
        raise UnknownNameError("services.look.none")

    def without(facts: Mapping[str, Any]) -> dict[str, Any]:
        if seen[rank] not in facts.get("looks", ()):
            raise UnknownNameError("services.look.none")
        return {**facts, "looks": [one for one in facts["looks"] if one != seen[rank]]}

    return change(run, {"facts": without}, why="look taken back")


def _row(typed: Mapping[str, str], sheets: tuple[str, ...]) -> dict[str, Any]:
    errors: list[WetsideError] = []
    by_name = {plain_name(name): name for name in sheets}
    sheet = by_name.get(plain_name(typed.get("sheet", "")))
    if sheet is None:
        errors.append(UnknownNameError("services.look.sheet", place=Place(field="sheet"), sheets=sheets))
    how = typed.get("how", "")
    if how not in WAYS:
        errors.append(InputError("services.look.how", place=Place(field="how")))
    row: dict[str, Any] = {"sheet": sheet, "how": how, "at": timezone.now().isoformat()}
    if how == DENSITOMETER:
        row |= _read(typed, errors)
    elif how in WAYS:
        row |= _judged(typed, errors)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return row


def _read(typed: Mapping[str, str], errors: list[WetsideError]) -> dict[str, float]:
    found: dict[str, float] = {}
    for field in ("shadow_density", "highlight_density"):
        try:
            text = typed.get(field, "").strip()
            if not text:
                raise InputError("services.plans.wanted")
            value = parse_number(text)
            if not 0.0 <= value <= MOST_DENSITY:
                raise OutOfRangeError("services.look.density", value=value, most=MOST_DENSITY)
            found[field] = value
        except WetsideError as error:
            error.place = Place(field=field)
            errors.append(error)
    if len(found) == 2:
        found["range"] = round(found["highlight_density"] - found["shadow_density"], 4)
        if not LEAST_RANGE <= found["range"] <= MOST_RANGE:
            params = {"value": found["range"], "low": LEAST_RANGE, "high": MOST_RANGE}
            errors.append(OutOfRangeError("services.look.range", place=Place(field="highlight_density"), **params))
    return found


def _judged(typed: Mapping[str, str], errors: list[WetsideError]) -> dict[str, str]:
    found = {}
    for field in ("shadow", "highlight"):
        try:
            found[field] = Verdict(typed.get(field, "")).value
        except ValueError:
            errors.append(InputError("services.look.verdict", place=Place(field=field)))
    return found
