"""Every kind of record as plain values, for programs that read the archive.

``document`` is the record in the plain form of the evening file: the same keys that a person writes there.
"""

from __future__ import annotations

import datetime as dt  # noqa: TC003 (parts of public types, which are asked for when the program runs)
from typing import Any, NamedTuple
from uuid import UUID  # noqa: TC003 (as above)

from wetside.errors import UnknownNameError
from wetside.records import models
from wetside.services.records.documents import raw_of
from wetside.services.records.reading_on import Piece, piece_of
from wetside.services.records.sheets import raw_of_sheet

MOST_LINES = 500


class SheetRead(NamedTuple):
    """One piece of film. ``state`` is waiting, planned, developed or lost."""

    id: UUID
    label: str
    holder: str
    film: str
    lot: str
    size: str
    process: str
    aim: str
    state: str
    exposed: dt.date | None
    developed_at: dt.datetime | None
    negative: str
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime
    document: dict[str, Any]


class SideRead(NamedTuple):
    """One side of a holder. ``state`` is empty, loaded, exposed, suspect or unloaded."""

    side: str
    state: str
    film: str
    lot: str
    loaded_on: dt.date | None


class HolderRead(NamedTuple):
    """A film holder with its sides."""

    id: UUID
    name: str
    size: str
    notch: str
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime
    sides: list[SideRead]


class NamedRead(NamedTuple):
    """A film, a developer, an aim or a vessel, by its name."""

    id: UUID
    name: str
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime
    document: dict[str, Any]


class LotRead(NamedTuple):
    """A box or emulsion number of a film."""

    id: UUID
    film: str
    number: str
    size: str
    expires: dt.date | None
    opened: dt.date | None
    bought: int | None
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime


class VersionRead(NamedTuple):
    """One state of a process, never rewritten."""

    version: int
    made_at: dt.datetime
    why: str
    document: dict[str, Any]


class ProcessRead(NamedTuple):
    """A process with its versions, the newest first."""

    id: UUID
    name: str
    newest: int
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime
    versions: list[VersionRead]


class BottleRead(NamedTuple):
    """A bottle: what is left of it [ml], None where nobody said, and the film that it saw. [units of 516 cm2]"""

    id: UUID
    mark: str
    holds: str
    role: str
    product: str
    left_ml: float | None
    seen_units: float
    emptied_at: dt.datetime | None
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime
    document: dict[str, Any]


class LineRead(NamedTuple):
    """A line of a bottle's ledger, never changed; an undone one is undone by a later one."""

    number: int
    at: dt.datetime
    by: str
    kind: str
    change_ml: float
    area_units: float
    film_class: str
    clearing_s: float | None
    temp_c: float | None
    film: str
    fresh: bool
    note: str
    undoes: int | None


class InstrumentRead(NamedTuple):
    """An instrument; ``reads_high`` is what it shows too much, in its unit: degrees Celsius for a thermometer."""

    id: UUID
    name: str
    kind: str
    reads_high: float
    checked: dt.date | None
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime


class PlanRead(NamedTuple):
    """An evening's plan. ``frozen_at`` None for a draft."""

    id: UUID
    name: str
    date: dt.date | None
    short: bool
    frozen_at: dt.datetime | None
    note: str
    revision: int
    made_at: dt.datetime
    changed_at: dt.datetime


class FrozenRead(NamedTuple):
    """A frozen plan: the evening file that it stands on, and the plan as ``wetside plan --json`` prints it."""

    id: UUID
    name: str
    frozen_at: dt.datetime
    evening: str
    document: dict[str, Any]


class Lines(NamedTuple):
    """Lines of a ledger, and the number after which the next piece begins; None at the end."""

    items: list[LineRead]
    next: int | None


def _meta(row: models.Kept) -> dict[str, Any]:
    return {name: getattr(row, name) for name in ("note", "revision", "made_at", "changed_at")} | {"id": row.pk}


def _sheet(row: models.Sheet) -> SheetRead:
    return SheetRead(
        label=row.label,
        holder=row.holder,
        film=row.film.name,
        lot=row.lot.number if row.lot else "",
        size=row.size,
        process=row.process.name if row.process else "",
        aim=row.aim.name if row.aim else "",
        state=row.state,
        exposed=row.exposed,
        developed_at=row.developed_at,
        negative=row.negative,
        document=raw_of_sheet(row),
        **_meta(row),
    )


def _holder(row: models.Holder) -> HolderRead:
    sides = [
        SideRead(
            one.side, one.state, one.film.name if one.film else "", one.lot.number if one.lot else "", one.loaded_on
        )
        for one in sorted(row.sides.all(), key=lambda side: side.side)
        if one.removed_at is None
    ]
    return HolderRead(name=row.name, size=row.size, notch=row.notch, sides=sides, **_meta(row))


def _named(kind: str) -> Any:
    def read(row: Any) -> NamedRead:
        return NamedRead(name=row.name, document=raw_of(kind, row), **_meta(row))

    return read


def _lot(row: models.FilmLot) -> LotRead:
    own = {name: getattr(row, name) for name in ("number", "size", "expires", "opened", "bought")}
    return LotRead(film=row.film.name, **own, **_meta(row))


def _process(row: models.Process) -> ProcessRead:
    versions = [
        VersionRead(one.version, one.made_at, one.why, raw_of("process", one, {"name": row.name}))
        for one in sorted(row.versions.all(), key=lambda version: -version.version)
    ]
    return ProcessRead(name=row.name, newest=row.newest, versions=versions, **_meta(row))


def _bottle(row: models.Bottle) -> BottleRead:
    names = ("mark", "holds", "role", "product", "left_ml", "seen_units", "emptied_at")
    return BottleRead(**{name: getattr(row, name) for name in names}, document=raw_of("bottle", row), **_meta(row))


def _instrument(row: models.Instrument) -> InstrumentRead:
    return InstrumentRead(name=row.name, kind=row.kind, reads_high=row.reads_high, checked=row.checked, **_meta(row))


def _plan(row: models.Plan) -> PlanRead:
    return PlanRead(name=row.name, date=row.date, short=row.short, frozen_at=row.frozen_at, **_meta(row))


class _Kind(NamedTuple):
    rows: Any
    read: Any


def _kinds() -> dict[str, _Kind]:
    kept = {
        model: model.objects.filter(removed_at=None)
        for model in (
            models.Sheet, models.Holder, models.Film, models.FilmLot, models.Developer, models.Process, models.Aim,
            models.Vessel, models.Bottle, models.Instrument, models.Plan,
        )
    }  # fmt: skip
    return {
        "sheets": _Kind(kept[models.Sheet].select_related("film", "lot", "process", "aim", "twin"), _sheet),
        "holders": _Kind(kept[models.Holder].prefetch_related("sides__film", "sides__lot"), _holder),
        "films": _Kind(kept[models.Film], _named("film")),
        "lots": _Kind(kept[models.FilmLot].select_related("film"), _lot),
        "developers": _Kind(kept[models.Developer], _named("developer")),
        "processes": _Kind(kept[models.Process].prefetch_related("versions"), _process),
        "aims": _Kind(kept[models.Aim], _named("aim")),
        "vessels": _Kind(kept[models.Vessel], _named("vessel")),
        "bottles": _Kind(kept[models.Bottle], _bottle),
        "instruments": _Kind(kept[models.Instrument], _instrument),
        "plans": _Kind(kept[models.Plan].defer("document", "evening", "choices"), _plan),
    }


def read_list(kind: str, after: str | None, most: int, **asked: str) -> Piece:
    """A piece of the list of a kind.

    Parameters
    ----------
    kind : str
        ``sheets``, ``holders``, ``films``, ``lots``, ``developers``, ``processes``, ``aims``, ``vessels``, ``bottles``,
        ``instruments`` or ``plans``.
    after : str, optional
        Cursor of the piece before.
    most : int
    **asked
        Columns with the one value that is asked for.

    Raises
    ------
    InputError
        If the cursor is none.
    """
    known = _kinds()[kind]
    return piece_of(known.rows.filter(**asked), after, most, known.read)


def read_one(kind: str, key: UUID) -> Any:
    """One record of a kind.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    known = _kinds()[kind]
    row = known.rows.filter(pk=key).first()
    if row is None:
        raise UnknownNameError("services.records.not_found", what=kind.removesuffix("s").replace("processe", "process"))
    return known.read(row)


def read_ledger(key: UUID, after: int, most: int) -> Lines:
    """A piece of a bottle's ledger, the oldest line first; errors as :func:`read_one`."""
    read_one("bottles", key)
    rows = list(
        models.BottleLine.objects.filter(bottle=key, number__gt=after)
        .select_related("undoes")
        .order_by("number")[: most + 1]
    )
    cut = rows[:most]
    names = [name for name in LineRead._fields if name != "undoes"]
    items = [
        LineRead(**{name: getattr(row, name) for name in names}, undoes=row.undoes.number if row.undoes else None)
        for row in cut
    ]
    return Lines(items, cut[-1].number if len(rows) > most else None)


def read_frozen(key: UUID) -> FrozenRead:
    """The document of a frozen plan.

    Raises
    ------
    UnknownNameError
        If there is no such plan, or it is a draft.
    """
    row = models.Plan.objects.filter(removed_at=None, pk=key).first()
    if row is None or row.frozen_at is None or row.document is None:
        code = "services.records.not_found" if row is None else "services.plans.is_draft_here"
        raise UnknownNameError(code, what="plan")
    return FrozenRead(row.pk, row.name, row.frozen_at, row.evening, row.document)
