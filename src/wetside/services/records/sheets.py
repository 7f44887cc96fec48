"""Keeping sheets: entry, correction, taking a correction back, removal, and what became of them.

A holder's side and the sheet that lies in it change together, in one transaction.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.db import transaction

from wetside.errors import ConflictError, InputError, Place, RefusedError, UnknownNameError
from wetside.planning.documents.evening import Sheet as SheetDocument
from wetside.planning.documents.keys import declared_keys
from wetside.records.models import LABEL_LENGTH, HolderSide, Sheet, SheetState, SideState
from wetside.services.records import changes
from wetside.services.records.documents import columns_and_facts, document_of, raw_of
from wetside.services.records.sheets_names import UNDEVELOPED, named_by, side_of
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping
    from uuid import UUID

OPEN_SIDES = (SideState.EMPTY, SideState.LOADED, SideState.SUSPECT, SideState.UNLOADED)
"""States of a side that a new sheet may come from: whoever writes it down knows better than the page."""


SheetRecord = Sheet
"""A kept sheet, for those who only hand it on."""


def sheet_by_key(key: UUID, *, removed: bool = False) -> Sheet:
    """Sheet by its identity, with the records that it refers to.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    rows = Sheet.objects.select_related("film", "lot", "process", "aim", "twin", "side__holder")
    found: Sheet | None = rows.filter(pk=key).first()
    if found is None or (found.removed_at is not None and not removed):
        raise UnknownNameError("services.records.not_found", what="sheet")
    return found


def raw_of_sheet(sheet: Sheet) -> dict[str, Any]:
    """Sheet as the plain table that stands in an evening file."""
    related: dict[str, Any] = {"film": sheet.film.name}
    for key, record in (("process", sheet.process), ("aim", sheet.aim), ("twin", sheet.twin)):
        if record is not None:
            related[key] = str(record)
    if sheet.size:
        related["size"] = sheet.size
    if sheet.state == SheetState.DEVELOPED:
        related["done"] = True
    return raw_of("sheet", sheet, related)


def checked_sheet(raw: Mapping[str, Any]) -> SheetDocument:
    """Document of a sheet's plain table, checked key by key.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken.
    """
    document: SheetDocument = document_of("sheet", raw)
    return document


def add_sheet(raw: Mapping[str, Any], *, lot: str = "", note: str = "", make_film: bool = False) -> Sheet:
    """Keep a new sheet; a label or a holder side, and a film, are enough.

    Parameters
    ----------
    raw : mapping
        Plain table of the sheet.
    lot : str
        Number of the film's lot.
    note : str
    make_film : bool
        Whether a film that is not known is made with just its name.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken; nothing is written.
    """
    document = checked_sheet(raw)
    with transaction.atomic():
        values = _values(document, lot=lot, note=note, make_film=make_film)
        # What is developed already has left its holder: another sheet may lie there by now.
        side = None if document.done else side_of(document.holder or "")
        if document.done:
            values["state"] = SheetState.DEVELOPED
        if side is not None and side.state in OPEN_SIDES:
            values["side"] = side
        sheet = changes.make(Sheet, values)
        if sheet.side is not None:
            _side_exposed(sheet)
        _pair(sheet)
    return sheet


def correct_sheet(
    sheet: Sheet,
    raw: Mapping[str, Any],
    *,
    revision: int | None = None,
    lot: str | None = None,
    note: str | None = None,
    make_film: bool = False,
    why: str = "",
) -> Sheet:
    """Correct a sheet; the state before stays in its history.

    Parameters
    ----------
    sheet : Sheet
    raw : mapping
        The whole plain table: what it does not hold is taken away.
    revision : int, optional
        The state that the person saw.
    lot, note : str, optional
        Left as they are if absent.
    make_film : bool
    why : str

    Raises
    ------
    WetsideError
        As :func:`add_sheet`; a conflict if the sheet was changed meanwhile.
    """
    document = checked_sheet(raw)
    with transaction.atomic():
        number = (sheet.lot.number if sheet.lot else "") if lot is None else lot
        if lot is None and plain_name(document.film) != sheet.film.name_key:
            number = ""
        values = _values(
            document, lot=number, note=sheet.note if note is None else note, make_film=make_film, itself=sheet
        )
        if sheet.side is not None and plain_name(document.holder or "") != plain_name(sheet.holder):
            values["side"] = None
            _side_loaded(sheet.side, sheet)
        new_side = side_of(document.holder or "") if values.get("side", sheet.side) is None else None
        if new_side is not None and sheet.state in UNDEVELOPED and new_side.state in OPEN_SIDES:
            values["side"] = new_side
        changed = changes.change(sheet, values, revision=revision, why=why)
        if changed.side is not None and changed.state in UNDEVELOPED:
            _side_exposed(changed)
        _pair(changed)
    return changed


def _values(
    document: SheetDocument, *, lot: str, note: str, make_film: bool, itself: Sheet | None = None
) -> dict[str, Any]:
    named = named_by(document, lot=lot, make_film=make_film, itself=itself)
    values = columns_and_facts("sheet", document)
    return {
        **values,
        "facts": {key: _engraved(value) for key, value in values["facts"].items()},
        "film": named.film,
        "process": named.process,
        "aim": named.aim,
        "twin": named.twin,
        "lot": named.lot,
        "size": document.size.name if document.size else "",
        "note": note,
    }


def _engraved(value: Any) -> Any:
    """Inner table with its short time as it is engraved: 1/15 s reads back as the same number, and people know it."""
    text = value.get("time") if isinstance(value, dict) else None
    if not isinstance(text, str) or not text.startswith("0.") or not text.endswith(" s"):
        return value
    seconds = float(text.removesuffix(" s"))
    part = round(1 / seconds) if seconds else 0
    return {**value, "time": f"1/{part} s"} if part > 1 and 1 / part == seconds else value


def _pair(sheet: Sheet) -> None:
    """Twins name each other; a twin that names another sheet already is left as it is."""
    twin = sheet.twin
    if twin is not None and twin.twin is None and twin.removed_at is None:
        changes.change(twin, {"twin": sheet}, why=f"twin of {sheet}"[:120])


def _side_exposed(sheet: Sheet) -> None:
    state = SideState.SUSPECT if sheet.suspect else SideState.EXPOSED
    side = changes.find(HolderSide, sheet.side_id)  # type: ignore[arg-type]
    changes.change(side, {"state": state, "film": sheet.film, "lot": sheet.lot or side.lot}, why=f"sheet {sheet}")


def _side_loaded(side: HolderSide, sheet: Sheet) -> None:
    """The entry was a slip: the side is as loaded as it was before."""
    changes.change(side, {"state": SideState.LOADED, "film": sheet.film}, why=f"not sheet {sheet}")


def _side_unloaded(side: HolderSide, sheet: Sheet) -> None:
    changes.change(
        side, {"state": SideState.UNLOADED, "film": None, "lot": None, "loaded_on": None}, why=f"sheet {sheet} is out"
    )


def remove_sheet(sheet: Sheet, at: dt.datetime, *, why: str = "") -> Sheet:
    """Take a sheet away; its holder side counts as loaded again.

    Raises
    ------
    RefusedError
        If it is removed already, or stands in a frozen plan.
    """
    if sheet.state == SheetState.PLANNED:
        raise RefusedError("services.sheets.planned", what=str(sheet))
    with transaction.atomic():
        side = sheet.side
        removed = changes.remove(sheet, at, why=why)
        if side is not None and sheet.state in UNDEVELOPED:
            _side_loaded(side, sheet)
    return removed


def bring_sheet_back(sheet: Sheet) -> Sheet:
    """Undo a removal; where its holder side was used meanwhile, the sheet comes back without it.

    Raises
    ------
    ConflictError
        If its label was taken meanwhile.
    """
    with transaction.atomic():
        side = sheet.side
        free = side is not None and side.removed_at is None and side.state == SideState.LOADED
        waits = sheet.state in UNDEVELOPED
        values: dict[str, Any] = {"removed_at": None}
        if side is not None and waits and not free:
            values["side"] = None
        back = changes.change(sheet, values, why="brought back")
        if back.side is not None and waits:
            _side_exposed(back)
    return back


def end_sheet(sheet: Sheet, state: str, *, at: dt.datetime | None = None, negative: str = "", why: str = "") -> Sheet:
    """Note that a sheet is developed or lost; its holder side is unloaded.

    Parameters
    ----------
    sheet : Sheet
    state : str
        ``developed`` or ``lost``.
    at : datetime, optional
        When it was developed.
    negative : str
        Where the negative is kept.
    why : str

    Raises
    ------
    RefusedError
        If the sheet does not wait.
    """
    if sheet.state not in UNDEVELOPED:
        raise RefusedError("services.sheets.not_waiting", what=str(sheet), state=sheet.state)
    if state not in (SheetState.DEVELOPED, SheetState.LOST):
        raise InputError("services.sheets.no_end", value=state)
    kept_at = _negative(negative) or sheet.negative
    with transaction.atomic():
        side = sheet.side
        values: dict[str, Any] = {"state": SheetState(state), "side": None, "negative": kept_at}
        if state == SheetState.DEVELOPED:
            values["developed_at"] = at
        ended = changes.change(sheet, values, why=why)
        if side is not None:
            _side_unloaded(side, sheet)
    return ended


def note_negative(sheet: Sheet, negative: str) -> Sheet:
    """Note where the negative of a developed sheet is kept; empty takes it back.

    Raises
    ------
    RefusedError
        If the sheet is not developed.
    InputError
        If the text is too long, or holds what cannot be kept.
    """
    if sheet.state != SheetState.DEVELOPED:
        raise RefusedError("services.sheets.no_negative", what=str(sheet))
    return changes.change(sheet, {"negative": _negative(negative)})


def _negative(text: str) -> str:
    text = " ".join(text.split())
    if len(text) > LABEL_LENGTH or not text.isprintable():
        raise InputError("services.runs.long_name", place=Place(field="negative"), most=LABEL_LENGTH)
    return text


def wait_again(sheet: Sheet, *, why: str = "") -> Sheet:
    """Take back that a sheet is developed or lost.

    Raises
    ------
    RefusedError
        If it waits already.
    ConflictError
        If its label was taken meanwhile.
    """
    if sheet.state in UNDEVELOPED:
        raise RefusedError("services.sheets.waits_already", what=str(sheet))
    return changes.change(sheet, {"state": SheetState.WAITING, "developed_at": None}, why=why)


def planned_again(sheet: Sheet, *, why: str = "") -> Sheet:
    """Take back that a planned sheet was developed: it lies in its holder side again, if nothing else does by now.

    Parameters
    ----------
    sheet : Sheet
        A developed one.
    why : str
    """
    before = sheet.history.filter(state=SheetState.PLANNED).first()
    side = HolderSide.kept.filter(pk=before.side_id).first() if before is not None and before.side_id else None
    free = side is not None and side.state == SideState.UNLOADED
    with transaction.atomic():
        values: dict[str, Any] = {"state": SheetState.PLANNED, "developed_at": None}
        back = changes.change(sheet, values | ({"side": side} if free else {}), why=why)
        if free:
            _side_exposed(back)
    return back


def undo_last(sheet: Sheet, *, revision: int | None = None) -> Sheet:
    """Put back what stood before the last correction; that too can be undone.

    Parameters
    ----------
    sheet : Sheet
    revision : int, optional
        The state that the person saw.

    Raises
    ------
    RefusedError
        If the sheet was never corrected, or what changed is no correction of its facts.
    ConflictError
        If a label that stood before was taken meanwhile.
    """
    states = list(sheet.history.all()[:2])
    if len(states) < 2:
        raise RefusedError("services.sheets.nothing_before", what=str(sheet))
    before = states[1]
    if before.removed_at != sheet.removed_at or before.state != sheet.state:
        raise RefusedError("services.sheets.no_correction", what=str(sheet))
    values = {name: getattr(before, name) for name in _CORRECTED}
    with transaction.atomic():
        if before.holder != sheet.holder and sheet.side is not None:
            values["side"] = None
            _side_loaded(sheet.side, sheet)
        undone = changes.change(sheet, values, revision=revision, why="last correction taken back")
        side = side_of(undone.holder) if undone.side is None else None
        if side is not None and undone.state in UNDEVELOPED and side.state in OPEN_SIDES:
            undone = changes.change(undone, {"side": side}, why="last correction taken back")
        if undone.side is not None and undone.state in UNDEVELOPED:
            _side_exposed(undone)
    return undone


_CORRECTED = (
    "label",
    "holder",
    "film_id",
    "lot_id",
    "size",
    "process_id",
    "aim_id",
    "n",
    "scene_stops",
    "exposed",
    "importance",
    "suspect",
    "twin_id",
    "note",
    "facts",
    "negative",
)


def tap(sheet: Sheet, raw: Mapping[str, Any], mishap: str) -> dict[str, Any]:
    """Plain table with a mishap told, or no longer told where it was.

    Parameters
    ----------
    sheet : Sheet
        Named in the error.
    raw : mapping
        Plain table.
    mishap : str
        Word of :class:`wetside.planning.documents.words.Mishap`.

    Raises
    ------
    InputError
        If there is no such mishap.
    """
    words = [str(word) for word in declared_keys(SheetDocument)["mishaps"].choices or ()]
    if mishap not in words:
        raise InputError("services.sheets.no_mishap", what=str(sheet), value=mishap, allowed=words)
    told = [word for word in words if (word in raw.get("mishaps", ())) != (word == mishap)]
    return {**{key: value for key, value in raw.items() if key != "mishaps"}, **({"mishaps": told} if told else {})}


def free_label(wanted: str, day: dt.date | None) -> str:
    """Label that no waiting sheet has: the holder side itself, else with the day, else counted up.

    Raises
    ------
    ConflictError
        If a hundred of them wait.
    """
    stem = f"{wanted}, {day.isoformat()}" if day else wanted
    for label in (wanted, stem, *(f"{stem} ({count})" for count in range(2, 100))):
        if not Sheet.kept.filter(label_key=plain_name(label), state__in=UNDEVELOPED).exists():
            return label
    raise ConflictError("services.sheets.no_label_free", value=wanted)
