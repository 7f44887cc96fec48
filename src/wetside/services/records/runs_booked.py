"""Booking what a run has used: all lines in one act, once a run, undone by lines that say so."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction

from wetside.errors import ConflictError, InputError, ManyErrors, Place, RefusedError, UnknownNameError, WetsideError
from wetside.records import models
from wetside.runs.fold import is_over
from wetside.runs.schedule import schedule_at
from wetside.services.records.bottles import WASTE, bottle_key
from wetside.services.records.changes import change
from wetside.services.records.ledger import NewLine, book_locked, undo
from wetside.services.records.replenished import count_top_up, holds_replenisher_of
from wetside.services.records.runs import gone_run
from wetside.services.records.runs import standing as standing_of
from wetside.services.records.runs_after import WASTE_ROLE, Row, after_run, emptied_s
from wetside.services.records.runs_bath import (
    BATH_NAMES,
    FILM_NAMES,
    FILM_ROWS,
    WHOLE_NAMES,
    BathBooked,
    Booking,
    RunBooked,
    booking_of,
    booking_of_posted,
)
from wetside.services.records.runs_sums import check_film, check_sums

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping
    from uuid import UUID

    from wetside.records.models import Bottle, BottleLine, Run
    from wetside.runs.moment import Moment
    from wetside.services.records.runs_after import After

__all__ = [
    "BATH_NAMES",
    "FILM_NAMES",
    "FILM_ROWS",
    "WHOLE_NAMES",
    "BathBooked",
    "Booked",
    "Booking",
    "RunBooked",
    "book_run",
    "booked_of",
    "booking_of",
    "booking_of_posted",
    "mark_dry",
    "unbook_run",
]

DRIES_LEAST_S, DRIES_MOST_S = 60.0, 86_400.0
"""No vessel is rinsed and dry sooner, and nobody who tells a day later was looking. Our choice. [s]"""


Wanted = list[tuple[Row, BathBooked, tuple["UUID | None", "UUID | None"]]]
"""Rows with what is to be booked of each, and its bottle and waste vessel."""


class Booked(NamedTuple):
    """What was booked for a run: when, its lines that stand, the water [ml].

    ``film`` is what a person said of it, as count, size and class; ``lost`` what was told lost, as bath and ml.
    """

    at: str
    lines: tuple[BottleLine, ...]
    water_ml: float
    film: tuple[tuple[int, str, str], ...] = ()
    film_not_known: bool = False
    lost: tuple[tuple[str, float], ...] = ()


def booked_of(run: Run) -> Booked | None:
    """What stands in the books for a run; None where nothing does, or where all of it was undone line by line."""
    found = run.facts.get("booked")
    if not found:
        return None
    keys = found.get("lines", [])
    lines = models.BottleLine.objects.filter(pk__in=keys, undone_by=None).select_related("bottle", "drawn_for")
    standing = tuple(sorted(lines, key=lambda line: keys.index(str(line.pk))))
    if keys and not standing:
        return None
    return _booked_of(found, standing)


def _booked_of(found: Mapping[str, Any], lines: tuple[BottleLine, ...]) -> Booked:
    return Booked(
        found["at"],
        lines,
        found.get("water_ml", 0.0),
        tuple((count, size, word) for count, size, word in found.get("film", ())),
        bool(found.get("film_not_known")),
        tuple((bath, lost_ml) for bath, lost_ml in found.get("lost", ())),
    )


def book_run(run: Run, booking: Booking, at: dt.datetime) -> Booked:
    """Book what a run has used, all of it or nothing.

    Parameters
    ----------
    run : Run
        One that has ended, or that was given up after something was poured.
    booking : Booking
    at : datetime

    Returns
    -------
    booked : Booked
        What stands in the books; where the run was booked before, what was booked then, and nothing is written.

    Raises
    ------
    UnknownNameError
        If the run was removed meanwhile.
    RefusedError
        If the run is on, was a rehearsal, or a bottle has less than is drawn from it; with the field.
    InputError
        If liquid or film is named without a bottle.
    """
    with transaction.atomic():
        run = models.Run.objects.select_for_update(of=("self",)).select_related("plan").get(pk=run.pk)
        if run.removed_at is not None:
            raise gone_run(run)
        before = booked_of(run)
        if before is not None:
            return before
        after = after_run(run)
        if after.blocked:
            raise RefusedError(after.blocked)
        kinds = {row.name: row for row in after.rows}
        if not {name for name, _ in booking.baths} <= set(kinds):
            raise ConflictError("services.run_after.not_as_shown")
        lines = _lines(run, after, booking, at)
        moment = at.isoformat()
        facts = {
            "at": moment,
            "lines": [str(line.pk) for line in lines],
            "water_ml": booking.water_ml,
            "mixed": {str(one.line): one.left_ml for one in after.mixings},
            **_said(booking, kinds),
        }
        change(run, {"facts": {**run.facts, "booked": facts}}, why="booked")
        return _booked_of(facts, tuple(lines))


def _said(booking: Booking, rows: Mapping[str, Row]) -> dict[str, Any]:
    """What a person said that stands in no line of a ledger."""
    found: dict[str, Any] = {}
    if booking.film:
        found["film"] = [[one.count, one.size.name, str(one.film_class)] for one in booking.film]
    if booking.film_not_known:
        found["film_not_known"] = True
    lost = [[rows[name].bath or rows[name].kind.value, bath.lost_ml] for name, bath in booking.baths if bath.lost_ml]
    return found | ({"lost": lost} if lost else {})


def _lines(run: Run, after: After, booking: Booking, at: dt.datetime) -> list[BottleLine]:
    shown = {row.name: row for row in after.rows}
    wanted = [(shown[name], bath, _bottle_keys(shown[name], bath)) for name, bath in booking.baths]
    rows = _standing(wanted)
    _check_vessels(wanted, rows)
    check_sums(
        after.film.with_said(booking.film),
        [(row, bath, None if keys[0] is None else rows[keys[0]]) for row, bath, keys in wanted],
        booking,
    )
    check_film(after.film, [(row, bath) for row, bath, _ in wanted], booking)
    unknown = after.film.asked and booking.film_not_known
    note = run.name
    lines: list[BottleLine] = []
    bottle_of = {row.name: bottle for row, _, (bottle, _) in wanted}
    for row, bath, (bottle, waste) in wanted:
        if row.tops:
            lines += _top_up_lines(row, bath, rows, bottle, bottle_of.get(row.tops), at, note)
            continue
        if bottle is not None:
            here = rows[bottle]
            if here.role.startswith(WASTE):
                raise InputError(
                    "services.run_after.from_waste", place=Place(field=f"{row.name}.bottle"), mark=here.mark
                )
            for field, line in _bottle_lines(bath, note, unknown=unknown and row.part == 1):
                lines.append(_booked(here, line, at, f"{row.name}.{field}"))
        if waste is not None and bath.waste_ml > 0:
            vessel = rows[waste]
            line = NewLine("filled", bath.waste_ml, note=f"{note}: {row.bath or row.kind.value}")
            lines.append(_booked(vessel, line, at, f"{row.name}.wasted"))
    return lines


def _check_vessels(wanted: Wanted, rows: dict[UUID, Bottle]) -> None:
    """Each kind of waste goes into its own vessel."""
    for row, bath, (_, waste) in wanted:
        if waste is not None and bath.waste_ml > 0 and rows[waste].role != WASTE_ROLE.get(row.kind):
            raise RefusedError(
                "services.run_after.other_waste",
                place=Place(field=f"{row.name}.waste"),
                bath=row.bath or row.kind.value,
                vessel=rows[waste].mark,
            )


def _standing(wanted: Wanted) -> dict[UUID, Bottle]:
    """Bottles of a booking, locked; each that left the shelf after the page was shown is named beside its field."""
    keys = {one for _, _, both in wanted for one in both if one is not None}
    found = models.Bottle.objects.select_for_update().filter(pk__in=keys).order_by("pk")
    rows = {bottle.pk: bottle for bottle in found}
    errors: list[WetsideError] = []
    for row, _, both in wanted:
        for field, one in zip(("bottle", "waste"), both, strict=True):
            place = Place(field=f"{row.name}.{field}")
            bottle = None if one is None else rows.get(one)
            if one is not None and bottle is None:
                errors.append(UnknownNameError("services.records.not_found", what="bottle", place=place))
            elif bottle is not None and (bottle.removed_at is not None or bottle.emptied_at is not None):
                why = "removed" if bottle.removed_at is not None else "emptied"
                errors.append(ConflictError(f"services.run_after.bottle_{why}", place=place, mark=bottle.mark))
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return rows


def _top_up_lines(
    row: Row,
    bath: BathBooked,
    rows: Mapping[UUID, Bottle],
    source: UUID | None,
    into: UUID | None,
    at: dt.datetime,
    note: str,
) -> list[BottleLine]:
    """Replenisher out of its bottle and into the bath's: two lines, undone together."""
    if source is None or bath.drawn_ml <= 0:
        return []
    if into is None:
        raise InputError("services.run_after.top_up_whereto", place=Place(field=f"{row.tops}.bottle"))
    here, target = rows[source], rows[into]
    if source == into or here.role.startswith(WASTE):
        raise InputError("services.run_after.top_up_itself", place=Place(field=f"{row.name}.bottle"), mark=here.mark)
    field = f"{row.name}.drawn"
    if target.left_ml is None:
        raise RefusedError("services.ledger.count_first", place=Place(field=field), mark=target.mark)
    drawn = _booked(here, NewLine("drawn", bath.drawn_ml, note=note, drawn_for=into), at, field)
    filled = _booked(target, NewLine("filled", bath.drawn_ml, note=note, drawn_for=into), at, field)
    if holds_replenisher_of(here, target):
        count_top_up(target, bath.drawn_ml, f"topped up: {note}")
    return [drawn, filled]


def _bottle_keys(row: Row, bath: BathBooked) -> tuple[UUID | None, UUID | None]:
    bottle = bottle_key(bath.bottle, f"{row.name}.bottle")
    waste = bottle_key(bath.waste, f"{row.name}.waste")
    if bottle is None and (bath.drawn_ml or bath.returned_ml or bath.ordinary or bath.tabular):
        raise InputError("services.run_after.no_bottle", place=Place(field=f"{row.name}.bottle"))
    return bottle, waste


def _bottle_lines(bath: BathBooked, note: str, *, unknown: bool) -> list[tuple[str, NewLine]]:
    """Lines of one bath in the order in which it happened: out of the bottle, film through it, back again."""
    found = []
    if bath.drawn_ml > 0:
        found.append(("drawn", NewLine("drawn", bath.drawn_ml, note=note)))
    for field, units in (("ordinary", bath.ordinary), ("tabular", bath.tabular)):
        if units > 0:
            line = NewLine("film", area_units=units, film_class=field, note=note)
            found.append((field, line))
    if unknown and bath.returned_ml > 0:
        found.append(("returned", NewLine("film", note=note)))
    if bath.returned_ml > 0:
        found.append(("returned", NewLine("returned", bath.returned_ml, note=note)))
    return found


def _booked(bottle: Bottle, line: NewLine, at: dt.datetime, field: str) -> BottleLine:
    try:
        return book_locked(bottle, line, at)
    except RefusedError as error:
        raise error.at(Place(field=field)) from None


def unbook_run(run: Run, at: dt.datetime) -> Run:
    """Undo what stands in the books for a run: further lines in the ledgers, and the run can be booked anew.

    A single line can be undone on its bottle's page too; what is undone there is left alone here.

    Raises
    ------
    RefusedError
        If later lines build upon it.
    UnknownNameError
        If nothing is booked.
    """
    with transaction.atomic():
        run = models.Run.objects.select_for_update().get(pk=run.pk)
        before = booked_of(run)
        if before is None:
            raise UnknownNameError("services.run_after.not_booked")
        done: set[UUID] = set()
        for line in reversed(before.lines):
            # Both lines of a top-up are for one bottle, and whichever is undone undoes the other.
            if line.drawn_for_id is None or line.drawn_for_id not in done:
                undo(line.pk, at)
            if line.drawn_for_id is not None:
                done.add(line.drawn_for_id)
        facts = {name: value for name, value in run.facts.items() if name != "booked"}
        return change(run, {"facts": facts}, why="booking undone")


def mark_dry(run: Run, now: Moment | None = None) -> Run:
    """Keep how long the vessel of a run took to be dry again, from the last liquid that left it; vessels learn from it.

    Parameters
    ----------
    run : Run
    now : Moment, optional
        This moment if absent.

    Raises
    ------
    InputError
        If that is under a minute or over a day.
    RefusedError
        If no liquid left it as far as is known.
    """
    found = standing_of(run, now)
    empty_s = emptied_s(schedule_at(found.state, found.now_s))
    if run.rehearsal or empty_s is None or found.state.doubtful or not is_over(found.state):
        raise RefusedError("services.run_after.dry_unknown")
    seconds = found.now_s - empty_s
    if not DRIES_LEAST_S <= seconds <= DRIES_MOST_S:
        raise InputError("services.run_after.dry_time", value_s=seconds, low_s=DRIES_LEAST_S, high_s=DRIES_MOST_S)
    return change(run, {"facts": lambda facts: {**facts, "dried_s": round(seconds)}}, why="vessel dry")
