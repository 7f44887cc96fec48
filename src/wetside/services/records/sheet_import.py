"""A pasted or uploaded list of sheets: every row and every error shown first, then all of it is kept or nothing.

The rows that were shown go back to the server as they were read, and are checked once more when they are kept. A list
is known by a hash of its rows, so that the same list is recognised however it comes.
"""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction

from wetside.adapters.binder import Binder
from wetside.adapters.findings import EnoughError, Findings
from wetside.adapters.sheet_list import sheet_columns, sheet_table_of
from wetside.errors import ConflictError, InputError, ManyErrors, OutOfRangeError, Place, WetsideError
from wetside.planning.documents.evening import Sheet as SheetDocument
from wetside.records.models import Aim, Film, Process, Receipt, Sheet
from wetside.services.records.outbox import Taken, sign
from wetside.services.records.sheets import add_sheet
from wetside.services.records.sheets_names import UNDEVELOPED, day_mistake, unknown_film, unknown_name
from wetside.values.names import plain_name
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

MOST_ROWS = 2000
MOST_CELLS = 200_000
"""Of one list that a page takes; our choice. A year's work has fewer."""
KIND = "sheet.list"


class RowError(NamedTuple):
    """What is wrong with one value of a row; ``column`` is empty where it is the row itself."""

    column: str
    value: str
    said: str


class Row(NamedTuple):
    """A row as it was read, with all its errors and what will be done beside keeping it."""

    line: int
    raw: Mapping[str, Any]
    label: str
    cells: tuple[str, ...]
    errors: tuple[RowError, ...]
    notes: tuple[str, ...]


class ListPreview(NamedTuple):
    """All rows of a list before anything is written.

    ``mistakes`` are of the heading or the file; ``new_films`` would be made with just their names; ``taken`` is the
    receipt of the same list, if it was kept before.
    """

    name: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]
    mistakes: tuple[str, ...]
    new_films: tuple[str, ...]
    taken: Receipt | None
    packed: str

    @property
    def wrong(self) -> int:
        """Rows that have errors."""
        return sum(bool(row.errors) for row in self.rows)

    @property
    def good(self) -> bool:
        """Whether the list can be kept."""
        return bool(self.rows) and not self.wrong and not self.mistakes and self.taken is None


def preview(name: str, data: bytes | str, *, make_films: bool = True) -> ListPreview:
    """Read a list and find all that is wrong with it.

    Parameters
    ----------
    name : str
        Of the file; for its ending, and for what is told.
    data : bytes or str
        Content of a file, or pasted text.
    make_films : bool
        Whether films that are not known are made with just their names.

    Raises
    ------
    InputError
        If it is no list at all, or larger than one can be.
    """
    findings = Findings()
    try:
        table = sheet_table_of(name, data, findings, most_rows=MOST_ROWS, most_cells=MOST_CELLS)
    except EnoughError:
        raise InputError("services.sheets.list_hopeless", place=Place(file=name)) from None
    rows = [(row.line, row.raw) for row in table.rows]
    return _looked(name, rows, findings, make_films=make_films)


def unpacked(text: str) -> list[tuple[int, dict[str, Any]]]:
    """Rows of a preview as the page sends them back.

    Raises
    ------
    InputError
        If they were changed on the way.
    """
    try:
        rows = json.loads(text)
        found = [(int(line), dict(raw)) for line, raw in rows]
    except (ValueError, TypeError, RecursionError) as error:
        raise InputError("services.sheets.list_changed") from error
    if len(found) > MOST_ROWS:
        raise OutOfRangeError("services.sheets.list_too_long", most=MOST_ROWS)
    return found


def keep_list(name: str, packed: str, *, make_films: bool = True) -> Taken:
    """Keep every sheet of a list that was looked through, or none.

    Parameters
    ----------
    name : str
        Of the file.
    packed : str
        Rows as the preview packed them.
    make_films : bool

    Returns
    -------
    taken : Taken
        ``again`` where the same list was kept before: nothing is written then.

    Raises
    ------
    WetsideError
        If anything is wrong with it now.
    """
    rows = unpacked(packed)
    looked = _looked(name, rows, Findings(), make_films=make_films)
    if looked.taken is not None:
        return Taken(looked.taken.answer, again=True)
    if not looked.good:
        raise ConflictError("services.sheets.list_wrong", rows=looked.wrong)
    with transaction.atomic():
        waiting = list(looked.rows)
        made: list[Sheet] = []
        # A twin may stand further down: whoever names it is kept first without, and told of it at the end.
        for row in waiting:
            plain = {key: value for key, value in row.raw.items() if key != "twin"}
            try:
                made.append(add_sheet(plain, make_film=make_films))
            except WetsideError as error:
                for one in error.errors if isinstance(error, ManyErrors) else (error,):
                    one.at(Place(file=name, line=row.line))
                raise
        _name_twins(waiting, made)
        answer = {
            "said": sentence("services.sheets.list_kept", {"count": len(made), "name": name}),
            "ids": [str(sheet.pk) for sheet in made],
            "address": "/sheets/",
        }
        sign(_device_of(rows), 1, KIND, {"name": name, "rows": len(made)}, answer)
    return Taken(answer, again=False)


def _name_twins(rows: Sequence[Row], made: Sequence[Sheet]) -> None:
    from wetside.services.records import changes

    by_label = {sheet.label_key: sheet for sheet in made}
    for row, sheet in zip(rows, made, strict=True):
        twin = row.raw.get("twin")
        if twin:
            key = plain_name(str(twin))
            other = by_label.get(key) or Sheet.kept.filter(label_key=key).order_by("-made_at").first()
            changes.change(changes.find(Sheet, sheet.pk), {"twin": other})
            if other is not None and other.twin_id is None:
                changes.change(changes.find(Sheet, other.pk), {"twin": sheet})


def _device_of(rows: Iterable[tuple[int, Mapping[str, Any]]]) -> str:
    """Identity of a list: a hash of its rows, whatever file they came in and on whatever lines they stood."""
    plain = json.dumps([[(name, cell) for name in sheet_columns() if (cell := _cell(raw, name))] for _, raw in rows])
    return f"list-{hashlib.sha256(plain.encode()).hexdigest()[:50]}"


def _looked(
    name: str, rows: Sequence[tuple[int, Mapping[str, Any]]], findings: Findings, *, make_films: bool
) -> ListPreview:
    by_line: dict[int, list[RowError]] = {}
    mistakes: list[str] = []
    lines = {line for line, _ in rows}
    for _, error in findings.found:
        line = error.place.line if error.place is not None else None
        said = sentence(error.code, error.params)
        if line in lines:
            by_line.setdefault(line, []).append(_row_error(error, (), {}))
        else:
            mistakes.append(f"line {line}: {said}" if line else said)
    documents = _bound(rows, by_line)
    new_films = _cross_checked(rows, documents, by_line, make_films=make_films)
    columns = tuple(column for column in sheet_columns() if any(_cell(raw, column) for _, raw in rows))
    packed = json.dumps([[line, raw] for line, raw in rows], default=str)
    shown = tuple(
        Row(
            line,
            raw,
            str(raw.get("label") or raw.get("holder") or ""),
            tuple(_cell(raw, column) for column in columns),
            tuple(by_line.get(line, ())),
            (),
        )
        for line, raw in rows
    )
    if not rows and not mistakes:
        mistakes.append(sentence("services.sheets.list_empty", {}))
    taken = Receipt.objects.filter(device=_device_of(rows), number=1).first() if rows else None
    return ListPreview(name, columns, shown, tuple(mistakes), new_films, taken, packed)


def _cell(raw: Mapping[str, Any], column: str) -> str:
    value: Any = raw
    for key in sheet_columns()[column].keys:
        value = value.get(key) if isinstance(value, dict) else None
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.15g}"
    return " ".join(map(str, value)) if isinstance(value, list) else str(value)


def _bound(rows: Sequence[tuple[int, Mapping[str, Any]]], by_line: dict[int, list[RowError]]) -> list[SheetDocument]:
    """Documents of the rows; what cannot be taken is noted under its line."""
    documents = []
    binder_findings = Findings()
    binder = Binder(binder_findings)
    seen = 0
    for line, raw in rows:
        try:
            documents.append(binder.table(SheetDocument, raw, ()))
        except EnoughError:
            raise InputError("services.sheets.list_hopeless") from None
        for path, error in binder_findings.found[seen:]:
            by_line.setdefault(line, []).append(_row_error(error, path, raw))
        seen = len(binder_findings.found)
    return documents


def _row_error(error: WetsideError, path: Sequence[str | int], raw: Mapping[str, Any]) -> RowError:
    column = " ".join(str(part).replace("_", " ") for part in path)
    if not column and error.place is not None and error.place.field:
        column = error.place.field.removeprefix('column "').removesuffix('"')
    value = (_cell(raw, column) if column in sheet_columns() else "") or str(error.params.get("value", ""))
    return RowError(column, value[:80], sentence(error.code, error.params))


def _cross_checked(
    rows: Sequence[tuple[int, Mapping[str, Any]]],
    documents: Sequence[SheetDocument],
    by_line: dict[int, list[RowError]],
    *,
    make_films: bool,
) -> tuple[str, ...]:
    """Names against the archive and against each other, with five queries for the whole list."""
    films = dict(Film.kept.values_list("name_key", "name"))
    known: dict[str, dict[str, str]] = {
        "process": dict(Process.kept.values_list("name_key", "name")),
        "aim": dict(Aim.kept.values_list("name_key", "name")),
    }
    waiting = set(Sheet.kept.filter(state__in=UNDEVELOPED).values_list("label_key", flat=True))
    labels = [plain_name(document.id) for document in documents]
    asked = {plain_name(document.twin) for document in documents if document.twin} - set(labels)
    elsewhere = set(Sheet.kept.filter(label_key__in=list(asked)[:900]).values_list("label_key", flat=True))
    first: dict[str, int] = {}
    new_films: dict[str, str] = {}

    def note(at: int, column: str, text: str | None, code: str, params: Mapping[str, Any] | None = None) -> None:
        by_line.setdefault(at, []).append(RowError(column, (text or "")[:80], sentence(code, params or {})))

    for (line, _), document, label in zip(rows, documents, labels, strict=True):
        wrong = {one.column for one in by_line.get(line, ())}
        if not document.film and "film" not in wrong:
            note(line, "film", "", "services.sheets.no_film")
        for name in filter(None, (document.film, document.in_holder)):
            if plain_name(name) in films:
                continue
            if make_films:
                new_films.setdefault(plain_name(name), name)
            else:
                error = unknown_film(name, list(films.values()))
                note(line, "film", name, error.code, error.params)
        for field, names in known.items():
            name = getattr(document, field)
            if name and plain_name(name) not in names:
                error = unknown_name(field, name, list(names.values()))
                note(line, field, name, error.code, error.params)
        wrong_day = day_mistake(document.exposed)
        if wrong_day is not None:
            note(line, "exposed", str(document.exposed), wrong_day.code, wrong_day.params)
        if not label:
            if not wrong & {"label", "holder"}:
                note(line, "label", "", "services.sheets.no_label")
        elif label in first:
            note(
                line, "label", document.id, "services.sheets.label_twice", {"value": document.id, "line": first[label]}
            )
        elif label in waiting and not document.done:
            note(line, "label", document.id, "records.rule.sheet_label_once_while_waiting", {"what": document.id})
        first.setdefault(label, line)
        twin = plain_name(document.twin or "")
        if twin and (twin == label or (twin not in labels and twin not in elsewhere)):
            note(line, "twin", document.twin, "services.sheets.twin_unknown", {"value": document.twin})
    return tuple(new_films.values())
