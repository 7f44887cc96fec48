"""An evening file into records: looked through first, then everything or nothing.

What has the name of a record and says the same is that record. What has the name and says something else is told, and
the person chooses which of the two holds.
"""

from __future__ import annotations

import dataclasses
import tempfile
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.utils import timezone

from wetside.adapters.evening_file import evening_of_text, read_evening
from wetside.adapters.evening_writer import plain_values
from wetside.errors import InputError, ManyErrors, OutOfRangeError, Place, WetsideError
from wetside.planning.documents.evening import Film, Sheet, Thermometer
from wetside.planning.documents.keys import declared_keys
from wetside.planning.documents.words import BathKind
from wetside.records import models
from wetside.services.records.changes import change, make, worker
from wetside.services.records.documents import FORMS, columns_and_facts, document_of, raw_of
from wetside.services.records.evenings import TABLES, raw_sheet
from wetside.services.records.ledger import NewLine, book_locked, locked
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.keys import Key

OURS, THEIRS = "ours", "theirs"
"""Which of two that bear one name holds: the record, or the file."""

NEW, SAME, DIFFERS = "new", "same", "differs"

APART = {"format", "name", "date", "process", "aim", "thermometer", "sheet_list", *TABLES, "sheets"}
"""Keys of an evening that are records or columns; all others are choices of the plan."""

ROLES = {
    BathKind.DEVELOP: models.BottleRole.DEVELOPER,
    BathKind.STOP: models.BottleRole.STOP,
    BathKind.FIX: models.BottleRole.FIXER,
    BathKind.WASH_AID: models.BottleRole.WASH_AID,
    BathKind.WETTING: models.BottleRole.WETTING,
}


class Found(NamedTuple):
    """One thing of a file beside the records.

    ``state`` is ``new``, ``same`` or ``differs``; ``differs_in`` names the keys that say something else.
    """

    kind: str
    name: str
    state: str
    differs_in: tuple[str, ...] = ()

    @property
    def answer(self) -> str:
        """Name of the answer that settles it."""
        return f"{self.kind}:{self.name}"


class Preview(NamedTuple):
    """All that an import would do; nothing is written yet."""

    found: tuple[Found, ...]

    def counted(self, state: str) -> int:
        """How many things are in a state."""
        return sum(one.state == state for one in self.found)

    @property
    def new(self) -> int:
        """Records that would be made."""
        return self.counted(NEW)

    @property
    def same(self) -> int:
        """Records that are there already and say the same."""
        return self.counted(SAME)

    @property
    def differing(self) -> tuple[Found, ...]:
        """What the person must choose about."""
        return tuple(one for one in self.found if one.state == DIFFERS)


def evening_of_files(files: Mapping[str, bytes]) -> Evening:
    """Evening of files that a browser handed over: one ``.toml``, and the tables that it names.

    Parameters
    ----------
    files : mapping of str to bytes
        By their names, without folders.

    Raises
    ------
    WetsideError
        As the reader of the file; places carry the file's own name.
    """
    evenings = [name for name in files if PurePath(name).suffix.casefold() == ".toml"]
    if len(evenings) != 1:
        raise InputError("services.plans.one_evening", count=len(evenings))
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        for name, data in files.items():
            (folder / PurePath(name).name).write_bytes(data)
        try:
            return read_evening(folder / PurePath(evenings[0]).name)
        except WetsideError as error:
            for one in error.errors if isinstance(error, ManyErrors) else (error,):
                if one.place is not None and one.place.file:
                    one.place = one.place._replace(file=PurePath(one.place.file).name)
                if "folder" in one.params:
                    one.params = {**one.params, "folder": "."}
            raise


def preview(evening: Evening) -> Preview:
    """Look through an evening beside the records; a query a table.

    Parameters
    ----------
    evening : Evening
        As the reader returns it.

    Raises
    ------
    WetsideError
        If something in it is too long to be kept, naming it.
    """
    return Preview(tuple(one for one, _, _ in _look(evening)))


def _look(evening: Evening) -> list[tuple[Found, Any, Any]]:
    """Things of a file, each with its document and the record that bears its name."""
    _check_lengths(evening)
    looked: list[tuple[Found, Any, Any]] = []
    for table, (kind, model) in TABLES.items():
        items = list(getattr(evening, table))
        if table == "films" and not items:
            items = [Film(name=name, published=name) for name in dict.fromkeys(s.film for s in evening.sheets)]
        known = _known(model, kind, [_name(item) for item in items])
        looked += [_compared(kind, item, known.get(plain_name(_name(item)))) for item in items]
    if evening.thermometer.name != Thermometer().name or evening.thermometer.reads_high_c:
        looked.append(_thermometer(evening.thermometer))
    known = _known_sheets(evening.sheets)
    return looked + [_compared("sheet", sheet, known.get(plain_name(sheet.id))) for sheet in evening.sheets]


def _name(document: Any) -> str:
    return str(document.mark if hasattr(document, "mark") else document.name)


def _known(model: Any, kind: str, names: Iterable[str]) -> dict[str, Any]:
    column = "mark_key" if kind == "bottle" else "name_key"
    records = model.kept.filter(**{f"{column}__in": [plain_name(name) for name in names]})
    if kind == "bottle":
        records = records.filter(emptied_at=None)
    if kind == "process":
        records = records.prefetch_related("versions")
    return {getattr(record, column): record for record in records}


def _known_sheets(sheets: Iterable[Sheet]) -> dict[str, models.Sheet]:
    records = models.Sheet.kept.filter(
        label_key__in=[plain_name(sheet.id) for sheet in sheets],
        state__in=[models.SheetState.WAITING, models.SheetState.PLANNED],
    ).select_related("film", "process", "aim", "twin")
    return {record.label_key: record for record in records}


def _raw(kind: str, record: Any) -> dict[str, Any]:
    if kind == "sheet":
        return raw_sheet(record)
    if kind == "process":
        newest = max(record.versions.all(), key=lambda version: version.version)
        return raw_of("process", newest, {"name": record.name})
    return raw_of(kind, record)


def _compared(kind: str, document: Any, record: Any) -> tuple[Found, Any, Any]:
    name = document.id if kind == "sheet" else _name(document)
    if record is None:
        return Found(kind, name, NEW), document, None
    ours = document_of(kind, _raw(kind, record), title=name)
    apart = tuple(
        key.name
        for key in declared_keys(FORMS[kind].document).values()
        if key.name not in ("name", "mark", "version") and _meant(key, ours) != _meant(key, document)
    )
    return Found(kind, name, DIFFERS if apart else SAME, apart), document, record


def _meant(key: Key, document: Any) -> Any:
    """Value of a key as it is compared: a table of places has no order, and not every database keeps one."""
    value = getattr(document, key.attribute)
    return dict(value) if key.kind == "places" else value


def _thermometer(instrument: Thermometer) -> tuple[Found, Any, Any]:
    record = models.Instrument.kept.filter(name_key=plain_name(instrument.name)).first()
    if record is None:
        return Found("thermometer", instrument.name, NEW), instrument, None
    same = record.reads_high == instrument.reads_high_c and record.kind == models.InstrumentKind.THERMOMETER
    found = (
        Found("thermometer", record.name, SAME) if same else Found("thermometer", record.name, DIFFERS, ("reads_high",))
    )
    return found, instrument, record


def _check_lengths(evening: Evening) -> None:
    """Refuse what a column has no room for before anything is written."""
    wrong = [_too_long("name", evening.name)]
    for table, (kind, _) in {**TABLES, "sheets": ("sheet", models.Sheet)}.items():
        form = FORMS[kind]
        for item in getattr(evening, table):
            for attribute in form.columns:
                value = getattr(item, attribute)
                title = item.id if kind == "sheet" else _name(item)
                if isinstance(value, str):
                    wrong.append(_too_long(f"{kind} {title[:30]}: {attribute}", value))
    errors = [error for error in wrong if error is not None]
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)


def _too_long(field: str, text: str) -> OutOfRangeError | None:
    if len(text) <= models.LABEL_LENGTH:
        return None
    return OutOfRangeError(
        "services.plans.too_long", place=Place(field=field), length=len(text), most=models.LABEL_LENGTH
    )


def take(
    evening: Evening, answers: Mapping[str, str] | None = None, *, unanswered: str = "", demo: bool = False
) -> models.Plan:
    """Make records of an evening, and a draft plan of it: everything or nothing.

    Parameters
    ----------
    evening : Evening
        As the reader returns it.
    answers : mapping, optional
        For each thing that differs, by :attr:`Found.answer`: ``ours`` keeps the record, ``theirs`` takes the file.
    unanswered : str
        Taken where nothing was answered; empty refuses.
    demo : bool
        Mark what is made as the demo darkroom's.

    Returns
    -------
    plan : Plan
        A draft with the evening's sheets and choices.

    Raises
    ------
    WetsideError
        If something differs and nobody chose; nothing was written.
    """
    given = dict(answers or {})
    with transaction.atomic():
        looked = _look(evening)
        open_ones = [
            InputError("services.plans.choose", place=Place(field=f"{one.kind} {one.name}"), keys=list(one.differs_in))
            for one, _, _ in looked
            if one.state == DIFFERS and given.get(one.answer, unanswered) not in (OURS, THEIRS)
        ]
        if open_ones:
            raise open_ones[0] if len(open_ones) == 1 else ManyErrors(open_ones)
        taker = _Taker(evening, demo=demo)
        for found, document, record in looked:
            theirs = found.state == DIFFERS and given.get(found.answer, unanswered) == THEIRS
            taker.take(found.kind, document, record, theirs=theirs)
        return taker.plan()


class _Taker:
    """One import, inside one transaction."""

    def __init__(self, evening: Evening, *, demo: bool) -> None:
        self._evening = evening
        self._demo = demo
        self._records: dict[str, dict[str, Any]] = {kind: {} for kind in (*FORMS, "thermometer")}
        self._twins: list[tuple[models.Sheet, str]] = []
        self._roles: dict[str, Any] = {}
        for process in evening.processes:
            self._roles.setdefault(plain_name(process.developer), models.BottleRole.DEVELOPER)
            for bath in process.baths:
                if bath.bottle and bath.does in ROLES:
                    self._roles.setdefault(plain_name(bath.bottle), ROLES[bath.does])

    def take(self, kind: str, document: Any, record: Any, *, theirs: bool) -> None:
        """Make, change or leave one record."""
        if record is None:
            record = self._made(kind, document)
        elif theirs:
            record = self._changed(kind, document, record)
        name = document.id if kind == "sheet" else _name(document)
        self._records[kind][plain_name(name)] = record
        if kind == "sheet" and document.twin is not None:
            self._twins.append((record, document.twin))

    def _made(self, kind: str, document: Any) -> Any:
        demo = {"demo": self._demo}
        if kind == "thermometer":
            values = {"name": document.name, "kind": models.InstrumentKind.THERMOMETER}
            return make(models.Instrument, {**values, "reads_high": document.reads_high_c, **demo})
        values = columns_and_facts(kind, document)
        if kind == "process":
            process = make(models.Process, {"name": document.name, "newest": document.version, **demo})
            models.ProcessVersion.objects.create(process=process, made_by=worker(), **values)
            return process
        if kind == "sheet":
            return make(models.Sheet, {**values, **self._relations(document), **demo})
        if kind == "bottle":
            role = self._roles.get(plain_name(document.mark)) or self._roles.get(plain_name(document.holds))
            values |= {"left_ml": None, "seen_units": 0.0, "role": role or models.BottleRole.OTHER}
            bottle = make(models.Bottle, {**values, **demo})
            self._book(bottle, document, models.BottleLineKind.FILLED)
            return bottle
        return make(FORMS[kind].table, {**values, **demo})

    def _changed(self, kind: str, document: Any, record: Any) -> Any:
        if kind == "thermometer":
            return change(record, {"reads_high": document.reads_high_c})
        values = columns_and_facts(kind, document)
        if kind == "process":
            version = max(record.newest + 1, document.version)
            models.ProcessVersion.objects.create(process=record, made_by=worker(), **{**values, "version": version})
            return change(record, {"newest": version})
        if kind == "sheet":
            return change(record, {**values, **self._relations(document)})
        if kind == "bottle":
            values = {key: value for key, value in values.items() if key not in ("left_ml", "seen_units")}
            record = change(record, values)
            self._book(record, document, models.BottleLineKind.COUNTED)
            return record
        return change(record, values)

    @staticmethod
    def _book(bottle: Any, document: Any, kind: str) -> None:
        """Book what the file says of a bottle, so that it is the sum of the ledger from now on."""
        now = timezone.now()
        row = locked([bottle.pk])[bottle.pk]
        if document.volume_ml is not None:
            book_locked(row, NewLine(kind, document.volume_ml), now)
        units = document.seen_units - row.seen_units
        if units:
            book_locked(row, NewLine(models.BottleLineKind.FILM, area_units=units), now)

    def _relations(self, sheet: Sheet) -> dict[str, Any]:
        def named(kind: str, name: str | None) -> Any:
            return None if name is None else self._records[kind].get(plain_name(name))

        state = models.SheetState.DEVELOPED if sheet.done else models.SheetState.WAITING
        return {
            "film": named("film", sheet.film),
            "size": sheet.size.name if sheet.size else "",
            "process": named("process", sheet.process),
            "aim": named("aim", sheet.aim),
            "state": state,
        }

    def plan(self) -> models.Plan:
        """Twins, then the plan with its sheets in their order."""
        sheets = self._records["sheet"]
        for record, name in self._twins:
            other = sheets.get(plain_name(name))
            if other is not None and record.twin_id != other.pk:
                sheets[record.label_key] = change(record, {"twin": other})
        evening = self._evening
        keys = {key: value for key, value in plain_values(evening).items() if key not in APART}
        jacket = plain_values(dataclasses.replace(evening.thermometer, name=Thermometer().name, reads_high_c=0.0))
        if jacket:
            keys["thermometer"] = jacket
        tables = {
            table: [str(self._records[kind][plain_name(_name(item))].pk) for item in getattr(evening, table)]
            for table, (kind, _) in TABLES.items()
        }
        choices: dict[str, Any] = {"keys": keys, "tables": tables}
        for key in ("process", "aim"):
            name = getattr(evening, key)
            if name is not None:
                choices[key] = str(self._records[key][plain_name(name)].pk)
        for instrument in self._records["thermometer"].values():
            choices["thermometer"] = str(instrument.pk)
        plan = make(models.Plan, {"name": evening.name, "date": evening.date, "choices": choices, "demo": self._demo})
        models.PlanSheet.objects.bulk_create(
            models.PlanSheet(plan=plan, sheet=sheets[plain_name(sheet.id)], rank=rank)
            for rank, sheet in enumerate(evening.sheets)
        )
        return plan


def evening_of_kept_text(text: str) -> Evening:
    """Evening of a text that a page kept between preview and import.

    Raises
    ------
    WetsideError
        As the reader of the file.
    """
    return evening_of_text(text, "evening.toml")
