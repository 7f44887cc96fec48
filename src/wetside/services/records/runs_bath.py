"""A booking as it stands in the fields of its page: each bath, the water, and what is said of the film."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.errors import ConflictError, ManyErrors, Place, WetsideError
from wetside.planning.documents.keys import kept_table, key
from wetside.services.records.bottles_entries import FilmEntry, read_entry
from wetside.services.records.typed_fields import raw_of_typed

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.services.records.runs_after import After, Row
    from wetside.services.records.typed_fields import Posted


@kept_table
class BathBooked:
    """One bath of a run as it is to be booked."""

    bottle: str | None = key("bottle", "name", "Bottle that it came from; none leaves it out.", default=None)
    drawn_ml: float = key(
        "drawn", "volume", "Taken out of the bottle.", default=0.0, low=0.0, high=1_000_000.0, example="20 ml"
    )
    returned_ml: float = key(
        "returned", "volume", "Poured back into it.", default=0.0, low=0.0, high=1_000_000.0, example="480 ml"
    )
    ordinary: float = key(
        "ordinary",
        "number",
        "Ordinary film that went through, in units of 516 cm2.",
        default=0.0,
        low=0.0,
        high=10_000.0,
        example="1.5",
    )
    tabular: float = key(
        "tabular", "number", "Tabular film, in the same units.", default=0.0, low=0.0, high=10_000.0, example="0"
    )
    waste: str | None = key("waste", "name", "Waste vessel that took it.", default=None)
    waste_ml: float = key(
        "wasted", "volume", "How much went there.", default=0.0, low=0.0, high=1_000_000.0, example="300 ml"
    )
    lost_ml: float = key(
        "lost",
        "volume",
        "Spilt, or gone elsewhere; what clings to film and vessel need not be told.",
        default=0.0,
        low=0.0,
        high=1_000_000.0,
        example="20 ml",
    )


@kept_table
class RunBooked:
    """What belongs to the whole run."""

    water_ml: float = key(
        "water", "volume", "Water from the tap, washes included.", default=0.0, low=0.0, high=1e7, example="4 l"
    )
    film_not_known: bool = key(
        "film_not_known", "flag", "Nobody knows how much film went through: its bottles say so.", default=False
    )


BATH_NAMES = ("bottle", "drawn", "returned", "ordinary", "tabular", "waste", "wasted", "lost")
WHOLE_NAMES = ("water", "film_not_known")
FILM_ROWS = ("film1", "film2", "film3")
"""Kinds of sheets that a person can tell of: sizes and classes of one load. Our choice."""
FILM_NAMES = ("count", "size", "class")


class Booking(NamedTuple):
    """What a person lets be booked: each bath by the name of its row, and the water. [ml]

    ``film`` is what somebody says of sheets that the run does not know; ``film_not_known`` that nobody can.
    """

    baths: tuple[tuple[str, BathBooked], ...]
    water_ml: float
    film: tuple[FilmEntry, ...] = ()
    film_not_known: bool = False


def booking_of(after: After) -> Booking:
    """The proposal as it stands, unchanged by anybody."""
    return Booking(tuple((row.name, _as_booked(row)) for row in after.rows), after.water_ml)


def _as_booked(row: Row) -> BathBooked:
    return BathBooked(
        bottle=None if row.bottle is None else str(row.bottle.pk),
        drawn_ml=row.drawn_ml,
        returned_ml=row.returned_ml,
        ordinary=row.ordinary,
        tabular=row.tabular,
        waste=None if row.waste is None else str(row.waste.pk),
        waste_ml=row.waste_ml,
    )


def booking_of_posted(rows: Iterable[str], posted: Posted, *, units: str = "metric") -> Booking:
    """What a page sent.

    Parameters
    ----------
    rows : iterable of str
        Names of the rows that the page showed.
    posted : mapping
        Fields such as ``b2.drawn``.
    units : str
        That a bare number is taken in.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken, of all rows at once; or if a row is not among what was
        sent, because the run changed after the page was shown.
    """
    rows = tuple(rows)
    errors: list[WetsideError] = []

    def read(document: type, names: tuple[str, ...], prefix: str) -> Any:
        own = {name: posted.get(f"{prefix}{name}", "") for name in names}
        try:
            return read_entry(document, raw_of_typed(document, names, own, units=units))
        except ManyErrors as error:
            errors.extend(one.at(Place(field=prefix.rstrip(".") or None)) for one in error.errors)
        except WetsideError as error:
            errors.append(error.at(Place(field=prefix.rstrip(".") or None)))
        return None

    baths = tuple((row, read(BathBooked, BATH_NAMES, f"{row}.")) for row in rows)
    whole = read(RunBooked, WHOLE_NAMES, "")
    told = [row for row in FILM_ROWS if any(str(posted.get(f"{row}.{name}", "")).strip() for name in ("count", "size"))]
    film = tuple(read(FilmEntry, FILM_NAMES, f"{row}.") for row in told)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    if any(f"{row}.bottle" not in posted for row in rows):
        raise ConflictError("services.run_after.not_as_shown")
    if film and whole.film_not_known:
        raise ConflictError("services.run_after.film_both", place=Place(field="film_not_known"))
    return Booking(baths, whole.water_ml, film, whole.film_not_known)
