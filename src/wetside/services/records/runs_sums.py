"""Whether the amounts of a booking can be: what went back, to waste and astray against what was poured.

A difference that film and the walls of the vessel may have kept is let be; any other is told at its field. Nothing is
cut to size.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import InputError, ManyErrors, Place, RefusedError
from wetside.services.records.runs_followed import LEAST_ML, dilutes, mixed_unknown

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.errors import WetsideError
    from wetside.records.models import Bottle
    from wetside.services.records.runs_after import After, Row
    from wetside.services.records.runs_bath import BathBooked, Booking
    from wetside.services.records.runs_film import RunFilm

READ_ML = 1.0
"""A measure is read, and a field shown, no finer: so far amounts may miss each other. Our choice. [ml]"""


def wrong_sums(after: After, booking: Booking) -> tuple[WetsideError, ...]:
    """What is wrong with the amounts of a booking as it stands in the fields, each with its field; nothing is raised.

    Parameters
    ----------
    after : After
        What was proposed.
    booking : Booking
    """
    bottles = {str(one.pk): one for one in after.bottles}
    shown = {row.name: row for row in after.rows}
    baths = [(shown[name], bath, bottles.get(bath.bottle or "")) for name, bath in booking.baths if name in shown]
    short = [_short(row, bath, bottle) for row, bath, bottle in baths if bottle is not None]
    return (*(one for one in short if one is not None), *_all_wrong(after.film.with_said(booking.film), baths, booking))


def _short(row: Row, bath: BathBooked, bottle: Bottle) -> WetsideError | None:
    """What the ledger would refuse; it is asked again, with its bottle locked, when the run is booked."""
    if bottle.left_ml is None or bath.drawn_ml <= bottle.left_ml + LEAST_ML:
        return None
    params = {"mark": bottle.mark, "left_ml": bottle.left_ml, "amount_ml": bath.drawn_ml}
    return RefusedError("services.ledger.not_enough", place=Place(field=f"{row.name}.drawn"), **params)


def check_sums(film: RunFilm, baths: Sequence[tuple[Row, BathBooked, Bottle | None]], booking: Booking) -> None:
    """Refuse amounts that cannot be.

    Parameters
    ----------
    film : RunFilm
        With what is said of it: what clings to it may be missing.
    baths : sequence of (Row, BathBooked, Bottle or None)
        Each with the bottle that it came from.
    booking : Booking
        Where nobody knows the film, nothing is said of what is missing.

    Raises
    ------
    WetsideError
        With the field of every amount that cannot be: more poured back than was poured, more gone than was there, a
        waste vessel that got less than is missing, or waste without a vessel.
    """
    errors = _all_wrong(film, baths, booking)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)


def _all_wrong(
    film: RunFilm, baths: Sequence[tuple[Row, BathBooked, Bottle | None]], booking: Booking
) -> list[WetsideError]:
    measured = bool(film.pieces) and not booking.film_not_known and (bool(booking.film) or not film.unmeasured)
    errors: list[WetsideError] = []
    for row, bath, bottle in baths:
        if not row.tops:
            errors.extend(_wrong(row, bath, bottle, film.kept_back_ml if measured else None))
    return errors


def _wrong(row: Row, bath: BathBooked, bottle: Bottle | None, kept_back_ml: float | None) -> list[WetsideError]:
    drawn_ml = bath.drawn_ml + row.mixed_ml
    if bath.returned_ml > drawn_ml:
        return [_told("more_back", row, "returned", returned_ml=bath.returned_ml, drawn_ml=bath.drawn_ml)]
    if bath.waste_ml > 0 and bath.waste is None:
        return [_told("waste_whereto", row, "waste", wasted_ml=bath.waste_ml)]
    least_ml, most_ml = _poured_ml(row, bath, bottle)
    back_ml = 0.0 if dilutes(row, bottle) else bath.returned_ml
    gone_ml = back_ml + bath.waste_ml + bath.lost_ml
    params = {"poured_ml": most_ml, "returned_ml": back_ml, "wasted_ml": bath.waste_ml, "lost_ml": bath.lost_ml}
    if most_ml > 0 and gone_ml > most_ml + READ_ML:
        return [_told("more_gone", row, "wasted" if bath.waste_ml else "lost", over_ml=gone_ml - most_ml, **params)]
    missing_ml = least_ml - gone_ml
    if bath.waste is not None and kept_back_ml is not None and missing_ml > kept_back_ml + READ_ML:
        params["poured_ml"] = least_ml
        return [_told("less_gone", row, "wasted", missing_ml=missing_ml, kept_back_ml=kept_back_ml, **params)]
    return []


def _poured_ml(row: Row, bath: BathBooked, bottle: Bottle | None) -> tuple[float, float]:
    """Least and most that was in the vessel: as the run has it, and as was drawn; 0 where neither is known. [ml]"""
    if mixed_unknown(row, bottle):
        return 0.0, 0.0
    drawn_ml = bath.drawn_ml + row.mixed_ml
    if dilutes(row, bottle):
        # More concentrate may have been a stronger bath, or more of it; so may less.
        volume_ml = row.volume_ml or 0.0
        as_drawn = volume_ml if not drawn_ml or not row.part_ml else volume_ml * drawn_ml / row.part_ml
    else:
        volume_ml = drawn_ml if row.volume_ml is None else row.volume_ml
        as_drawn = drawn_ml if bottle is not None and drawn_ml else volume_ml
    return min(volume_ml, as_drawn), max(volume_ml, as_drawn)


def check_film(film: RunFilm, baths: Sequence[tuple[Row, BathBooked]], booking: Booking) -> None:
    """Ask for the film of a bath that goes back to its bottle, where the run does not know it.

    Raises
    ------
    InputError
        If neither how much it was is said, nor that nobody knows.
    """
    if not film.asked or booking.film or booking.film_not_known:
        return
    for row, bath in baths:
        told = not film.unmeasured and (bath.ordinary > 0 or bath.tabular > 0)
        if bath.bottle is not None and bath.returned_ml > 0 and row.part == 1 and not row.tops and not told:
            raise InputError(
                "services.run_after.film_asked",
                place=Place(field="film_not_known"),
                bath=row.bath or row.kind.value,
            )


def _told(what: str, row: Row, field: str, **params: object) -> InputError:
    return InputError(f"services.run_after.{what}", place=Place(field=f"{row.name}.{field}"), **params)
