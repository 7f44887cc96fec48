"""Moves of a holder's side, from one table: load, expose, doubt, trust, unload, dust; and the last one taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction

from wetside.errors import ConflictError, InputError, Place, RefusedError
from wetside.records.models import Film, FilmLot, HolderSide, Sheet, SideState
from wetside.services.records import changes
from wetside.services.records.holders import lot_says
from wetside.services.records.sheets import free_label, remove_sheet
from wetside.services.records.sheets_names import UNDEVELOPED, film_of, lot_of

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

    from wetside.errors import WetsideError


class Move(NamedTuple):
    """States that a move may start from."""

    start: frozenset[str]


EMPTY, LOADED, EXPOSED, SUSPECT, UNLOADED = (
    SideState.EMPTY, SideState.LOADED, SideState.EXPOSED, SideState.SUSPECT, SideState.UNLOADED,
)  # fmt: skip

MOVES: Mapping[str, Move] = {
    "load": Move(frozenset({EMPTY, UNLOADED})),
    "expose": Move(frozenset({LOADED, SUSPECT})),
    "suspect": Move(frozenset({EMPTY, LOADED, EXPOSED})),
    "trust": Move(frozenset({SUSPECT})),
    "unload": Move(frozenset({LOADED, EXPOSED, SUSPECT})),
    "dust": Move(frozenset({UNLOADED})),
}
"""Every move and where it may start; anything else is refused."""


class Loaded(NamedTuple):
    """Sides that were loaded, and what their lot's date says."""

    sides: tuple[HolderSide, ...]
    lot_says: str


def _legal(side: HolderSide, move: str) -> None:
    if side.state not in MOVES[move].start:
        raise RefusedError(
            f"services.holders.move_{move}", what=side_text(side), state=SideState(side.state).label.casefold()
        )


def side_text(side: HolderSide) -> str:
    """Holder and side as a sheet names them: ``3 left``, ``7A``."""
    gap = "" if len(side.side) == 1 else " "
    return f"{side.holder.name}{gap}{side.side}"


def sheet_in(side: HolderSide) -> Sheet | None:
    """Sheet that waits in a side."""
    found: Sheet | None = (
        Sheet.kept.filter(side=side, state__in=UNDEVELOPED)
        .select_related("film", "process", "aim", "twin", "lot")
        .first()
    )
    return found


def _change(
    side: HolderSide, values: Mapping[str, Any], move: str, *, sheet: Sheet | None = None, made: bool = False
) -> HolderSide:
    """Write a move, and beside it what stood before, so that it can be taken back."""
    before = {
        "move": move,
        "state": str(side.state),
        "film": str(side.film_id) if side.film_id else None,
        "lot": str(side.lot_id) if side.lot_id else None,
        "loaded_on": side.loaded_on.isoformat() if side.loaded_on else None,
        "sheet": str(sheet.pk) if sheet else None,
        "made": made,
    }
    return changes.change(side, {**values, "facts": {**side.facts, "before": before}}, why=move)


def load(
    sides: Iterable[HolderSide],
    film: str,
    *,
    lot: str = "",
    day: dt.date | None = None,
    today: dt.date,
    make_film: bool = False,
) -> Loaded:
    """Load sides with a film; all of them or none.

    Parameters
    ----------
    sides : iterable of HolderSide
    film : str
        Its name.
    lot : str
        Number of its lot; empty where none is said.
    day : date, optional
        Day of loading.
    today : date
        For what the lot's date says.
    make_film : bool
        Whether a film that is not known is made with just its name.

    Raises
    ------
    WetsideError
        If film or lot are not known, or a side is not empty: it is named.
    """
    errors: list[WetsideError] = []
    with transaction.atomic():
        found = film_of(" ".join(film.split()), errors, make_film=make_film)
        if found is None:
            raise errors[0]
        known = _lot_of(found, lot)
        loaded = []
        for side in sides:
            _legal(side, "load")
            values = {"state": LOADED, "film": found, "lot": known, "loaded_on": day}
            loaded.append(_change(side, values, "load"))
        if not loaded:
            raise InputError("services.holders.none_named", place=Place(field="holders"))
    return Loaded(tuple(loaded), lot_says(known, today))


def _lot_of(film: Film, number: str) -> FilmLot | None:
    if not number.strip():
        return None
    lot = lot_of(film, number)
    if lot is None:
        raise InputError("services.sheets.lot_unknown", place=Place(field="lot"), value=number[:80], film=film.name)
    return lot


def expose(side: HolderSide, day: dt.date | None) -> Sheet:
    """Note that a loaded side was exposed: its sheet is made, with film, lot and size of the holder.

    Raises
    ------
    RefusedError
        If the side is not loaded, or nobody knows what film is in it.
    """
    _legal(side, "expose")
    if side.film is None:
        raise RefusedError("services.holders.film_unknown", what=side_text(side))
    with transaction.atomic():
        holder = side_text(side)
        label = free_label(holder, day)
        sheet = changes.make(
            Sheet,
            {
                "label": "" if label == holder else label,
                "holder": holder,
                "film": side.film,
                "lot": side.lot,
                "size": side.holder.size,
                "side": side,
                "exposed": day,
                "suspect": side.state == SUSPECT,
            },
            why="exposed",
        )
        _change(side, {"state": SUSPECT if sheet.suspect else EXPOSED}, "expose", sheet=sheet, made=True)
    return sheet


def doubt(side: HolderSide) -> HolderSide:
    """Note that nobody is sure of a side any more; the sheet in it becomes suspect and is developed alone.

    Raises
    ------
    RefusedError
        If it is in doubt already, or waits to be dusted.
    """
    _legal(side, "suspect")
    with transaction.atomic():
        sheet = sheet_in(side)
        if sheet is not None and not sheet.suspect:
            changes.change(sheet, {"suspect": True}, why="its holder side is in doubt")
        return _change(side, {"state": SUSPECT}, "suspect", sheet=sheet)


def trust(side: HolderSide) -> HolderSide:
    """Note that a side is certain after all: exposed where a sheet is in it, loaded where a film is, else empty.

    Raises
    ------
    RefusedError
        If it is not in doubt.
    """
    _legal(side, "trust")
    with transaction.atomic():
        sheet = sheet_in(side)
        if sheet is not None and sheet.suspect:
            changes.change(sheet, {"suspect": False}, why="its holder side is certain")
        state = EXPOSED if sheet is not None else LOADED if side.film_id else EMPTY
        return _change(side, {"state": state}, "trust", sheet=sheet)


def unload(side: HolderSide) -> HolderSide:
    """Note that the film was taken out; a sheet that was exposed goes on waiting, in a box.

    Raises
    ------
    RefusedError
        If nothing is in it.
    """
    _legal(side, "unload")
    with transaction.atomic():
        sheet = sheet_in(side)
        if sheet is not None:
            changes.change(sheet, {"side": None}, why="taken out of its holder")
        return _change(side, {"state": UNLOADED, "film": None, "lot": None, "loaded_on": None}, "unload", sheet=sheet)


def dust(side: HolderSide) -> HolderSide:
    """Note that a side is clean and empty.

    Raises
    ------
    RefusedError
        If it was not unloaded.
    """
    _legal(side, "dust")
    return _change(side, {"state": EMPTY}, "dust")


SINGLE: Mapping[str, Any] = {"suspect": doubt, "trust": trust, "unload": unload, "dust": dust}
"""Moves that need nothing but the side."""


def take_back(side: HolderSide, at: dt.datetime) -> HolderSide:
    """Take the last move of a side back, with what it did to the sheet.

    Raises
    ------
    RefusedError
        If there is no move, or sheet or side were changed since.
    """
    before = side.facts.get("before")
    if not before:
        raise RefusedError("services.holders.nothing_before", what=side_text(side))
    with transaction.atomic():
        sheet = Sheet.kept.filter(pk=before["sheet"]).first() if before["sheet"] else None
        move = before["move"]
        lies_in = sheet_in(side)
        due = None if move == "unload" else before["sheet"]
        gone = before["sheet"] and (sheet is None or sheet.state not in UNDEVELOPED)
        if gone or (str(lies_in.pk) if lies_in else None) != due:
            raise ConflictError("services.holders.sheet_gone", what=side_text(side))
        if sheet is not None:
            if move == "expose":
                changes.change(sheet, {"side": None}, why="exposure taken back")
                remove_sheet(changes.find(Sheet, sheet.pk), at, why="exposure taken back")
            elif move == "unload":
                changes.change(sheet, {"side": side}, why="unloading taken back")
            elif move in ("suspect", "trust"):
                changes.change(sheet, {"suspect": before["state"] == SUSPECT}, why=f"{move} taken back")
        facts = {key: value for key, value in side.facts.items() if key != "before"}
        return changes.change(
            side,
            {
                "state": SideState(before["state"]),
                "film_id": _uuid(before["film"]),
                "lot_id": _uuid(before["lot"]),
                "loaded_on": _day(before["loaded_on"]),
                "facts": facts,
            },
            why=f"{move} taken back",
        )


def _uuid(text: str | None) -> Any:
    from uuid import UUID

    return UUID(text) if text else None


def _day(text: str | None) -> dt.date | None:
    import datetime as dt

    return dt.date.fromisoformat(text) if text else None
