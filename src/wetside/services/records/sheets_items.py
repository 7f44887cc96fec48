"""Items of the outbox about sheets and holders: from what was typed to the work, and what the page is told.

The pages without scripts do the same work through the same functions.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from django.utils import timezone

from wetside.adapters.clock import today
from wetside.errors import InputError, Place
from wetside.records.models import HolderSide, Sheet
from wetside.services.records import changes, holders_moves
from wetside.services.records.darkroom import darkroom_settings
from wetside.services.records.holders import day_of, sides_named
from wetside.services.records.holders_items import revision_of
from wetside.services.records.sheets import add_sheet, checked_sheet, correct_sheet, raw_of_sheet, tap
from wetside.services.records.sheets_next import next_label
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.services.records.outbox import Fields

ROW = ("holder", "label", "film", "size", "process", "aim", "n", "exposed", "importance", "suspect")
"""Keys of the fast row."""

WHOLE = (
    *ROW, "scene", "shadow", "highlight", "meant", "set", "mishaps", "in_holder", "second", "twin",
)  # fmt: skip
"""Keys of a sheet's own page."""


def raw_of_fields(fields: Any, names: tuple[str, ...]) -> dict[str, Any]:
    """What was typed, in a sheet's plain form, bare numbers taken in the darkroom's units."""
    from wetside.planning.documents.evening import Sheet as SheetDocument
    from wetside.services.records.typed_fields import raw_of_typed

    return raw_of_typed(SheetDocument, names, fields, units=darkroom_settings().units)


def take_sheet(fields: Fields) -> dict[str, Any]:
    """Keep a new sheet; the answer holds what the next row carries over."""
    raw = raw_of_fields(fields, WHOLE)
    sheet = add_sheet(raw, lot=fields.text("lot"), note=fields.text("note"), make_film=fields.text("make_film") == "on")
    return {
        "said": sentence("services.sheets.kept", {"what": str(sheet), "film": sheet.film.name}),
        "id": str(sheet.pk),
        "address": f"/sheets/{sheet.pk}/",
        "next": carried(sheet),
    }


def carried(sheet: Sheet) -> dict[str, str]:
    """What the next row begins with: film, size, process, aim and day as they were; labels counted up."""
    return {
        "holder": next_label(sheet.holder),
        "label": next_label(sheet.label),
        "film": sheet.film.name,
        "size": sheet.size,
        "process": str(sheet.process) if sheet.process else "",
        "aim": str(sheet.aim) if sheet.aim else "",
        "exposed": sheet.exposed.isoformat() if sheet.exposed else "",
    }


def take_correction(fields: Fields) -> dict[str, Any]:
    """Correct a sheet by its page's form; a mishap that was tapped is told or no longer told."""
    sheet = _record(Sheet, fields.text("id"))
    raw = _with_other_keys(sheet, raw_of_fields(fields, WHOLE), fields)
    tapped = fields.text("tap")
    if tapped:
        raw = tap(sheet, raw, tapped)
    changed = correct_sheet(
        sheet,
        raw,
        revision=revision_of(fields),
        lot=fields.text("lot"),
        note=fields.text("note"),
        make_film=fields.text("make_film") == "on",
        why=tapped.replace("-", " "),
    )
    return {
        "said": sentence("services.sheets.corrected", {"what": str(changed)}),
        "id": str(changed.pk),
        "revision": changed.revision,
        "address": f"/sheets/{changed.pk}/",
    }


def _with_other_keys(sheet: Sheet, raw: Mapping[str, Any], fields: Fields) -> dict[str, Any]:
    """A form that sends only some keys leaves the others as they stand."""
    shown = fields.getlist("shown")
    kept = {} if not shown else {k: v for k, v in raw_of_sheet(sheet).items() if k not in shown and k != "done"}
    return {**kept, **raw}


def _record(kind: Any, key: str) -> Any:
    from uuid import UUID

    try:
        return changes.find(kind, UUID(key))
    except ValueError:
        raise InputError("services.sheets.no_identity") from None


def take_move(fields: Fields) -> dict[str, Any]:
    """Make a move of one holder side.

    Raises
    ------
    InputError
        If there is no such move.
    """
    side = _record(HolderSide, fields.text("side"))
    move = fields.text("move")
    answer: dict[str, Any] = {"address": "/holders/"}
    if move == "expose":
        day = day_of(fields.text("exposed"), "exposed") or _day_of_typing(fields)
        sheet = holders_moves.expose(side, day)
        answer |= {"id": str(sheet.pk), "address": f"/sheets/{sheet.pk}/"}
        said = sentence("services.holders.done_expose", {"what": holders_moves.side_text(side), "sheet": str(sheet)})
    elif move in holders_moves.SINGLE:
        holders_moves.SINGLE[move](side)
        said = sentence(f"services.holders.done_{move}", {"what": holders_moves.side_text(side)})
    elif move == "take-back":
        holders_moves.take_back(side, timezone.now())
        said = sentence("services.holders.done_take_back", {"what": holders_moves.side_text(side)})
    else:
        raise InputError(
            "services.holders.no_move",
            place=Place(field="move"),
            value=move[:40],
            allowed=[*holders_moves.MOVES, "take-back"],
        )
    return {**answer, "said": said}


def _day_of_typing(fields: Fields) -> dt.date:
    """Day on which it was tapped, which may be days before it is handed over; today where the page did not say."""
    typed = fields.text("typed_on")
    try:
        return dt.date.fromisoformat(typed) if typed else today()
    except ValueError:
        return today()


def take_loading(fields: Fields) -> dict[str, Any]:
    """Load named sides with a film."""
    loaded = holders_moves.load(
        sides_named(fields.text("holders")),
        fields.text("film"),
        lot=fields.text("lot"),
        day=day_of(fields.text("loaded_on"), "loaded_on") or _day_of_typing(fields),
        today=today(),
        make_film=fields.text("make_film") == "on",
    )
    film = loaded.sides[0].film
    said = sentence(
        "services.holders.done_load", {"count": len(loaded.sides), "film": film.name if film is not None else ""}
    )
    if loaded.lot_says:
        said += " " + sentence(f"services.holders.lot_{loaded.lot_says}", {"lot": fields.text("lot")})
    return {"said": said, "address": "/holders/"}


def checked_fields(fields: Any) -> Any:
    """Document of what stands in a form now, for what is reckoned while one types.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken.
    """
    return checked_sheet(raw_of_fields(fields, WHOLE))
