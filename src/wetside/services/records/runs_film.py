"""Film that a run's baths have seen: from its plan, from the records that are attached to it, or from what is said.

A run at once names no sheets, and a log may name sheets whose size nobody knows: then a person is asked, and "not
known" is an answer.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.fixer import fixer_weight
from wetside.development.two_bath import DRUM_WALLS_ML, carried_over_ml
from wetside.errors import WetsideError
from wetside.planning.documents.words import BathKind, FixClass
from wetside.records import models
from wetside.services.records.documents import raw_of
from wetside.services.records.runs_sheets import sheets_of_run
from wetside.services.records.runs_tied import TIED
from wetside.services.records.sheets import checked_sheet
from wetside.services.records.sheets_reckoned import stop_errors
from wetside.units import parse_size
from wetside.values.names import plain_name
from wetside.values.sheet_size import UNIT_AREA_CM2, SheetSize

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.plan import Plan as PlanDocument
    from wetside.runs.script import Script
    from wetside.runs.state import State
    from wetside.services.records.bottles_entries import FilmEntry


class Piece(NamedTuple):
    """Film of one sheet, or of several alike [cm2], its class, and the stops that it got more than was meant."""

    area_cm2: float
    tabular: bool
    stops: float = 0.0


class RunFilm(NamedTuple):
    """Film of a run.

    ``named`` is how many sheets of it the run names and the baths have seen; ``unmeasured`` names those of them whose
    size nobody knows. ``from_records`` says that records of the archive told of exposure and class.
    """

    pieces: tuple[Piece, ...] = ()
    named: int = 0
    unmeasured: tuple[str, ...] = ()
    from_records: bool = False

    @property
    def asked(self) -> bool:
        """Whether a person has to say what went through."""
        return self.named == 0 or bool(self.unmeasured)

    def units(self, kind: BathKind) -> tuple[float, float]:
        """Ordinary and tabular film as a bath counts it. [units of 516 cm2]

        In the fixer a sheet counts by the silver that it leaves there; every other bath sees its plain area.
        """
        ordinary = tabular = 0.0
        for one in self.pieces:
            weight = fixer_weight(one.stops) if kind is BathKind.FIX else 1.0
            units = one.area_cm2 / UNIT_AREA_CM2 * weight
            if one.tabular:
                tabular += units
            else:
                ordinary += units
        return round(ordinary, 2), round(tabular, 2)

    @property
    def kept_back_ml(self) -> float:
        """What film and the walls of a drained vessel keep of a bath, at most (torzynski-2004; walls assumed). [ml]"""
        area_cm2 = sum(one.area_cm2 for one in self.pieces)
        return carried_over_ml(area_cm2).total_ml if area_cm2 > 0 else DRUM_WALLS_ML

    def with_said(self, said: Iterable[FilmEntry]) -> RunFilm:
        """The same with what a person says of the sheets that the run does not know."""
        pieces = (Piece(one.size.area_cm2 * one.count, one.film_class is FixClass.TABULAR) for one in said)
        return self._replace(pieces=(*self.pieces, *pieces))


def film_of_run(run: models.Run, state: State, document: PlanDocument | None, evening: Evening | None) -> RunFilm:
    """Film that the baths of a run have seen.

    Parameters
    ----------
    run : Run
    state : State
        What was lost dry is not counted.
    document, evening : Plan, Evening or None
        As they were frozen; None where there is none, or where it cannot be read.

    Notes
    -----
    A full plan knows its sheets, and its document tells of their exposure as it was reckoned then. A plan of the short
    way knows only how many: what was attached to it tells the rest, as do the records that somebody tied to a log.
    """
    script = state.script
    if script is None:
        return RunFilm()
    records = _records(run, document)
    films = {one.pk: one for one in models.Film.objects.filter(pk__in={one.film_id for one in records.values()})}
    stops = {} if document is None else {sheet.id: sheet.stop_error for sheet in document.sheets}
    stops |= _stops_of_records(records, films)
    tabular = _tabular(evening, script)
    seen = set(state.in_liquid)
    pieces: list[Piece] = []
    unmeasured: list[str] = []
    for sheet in script.sheets:
        if sheet.id not in seen:
            continue
        record = records.get(sheet.id)
        area_cm2 = (0.0 if record is None else _area_cm2(record.size)) or sheet.area_cm2
        is_tabular = plain_name(sheet.film) in tabular
        if record is not None:
            is_tabular = films[record.film_id].facts.get("fixing") == FixClass.TABULAR.value
        if area_cm2 <= 0:
            unmeasured.append(sheet.id)
        else:
            pieces.append(Piece(area_cm2, is_tabular, stops.get(sheet.id, 0.0)))
    return RunFilm(tuple(pieces), len(seen), tuple(unmeasured), bool(records))


def _records(run: models.Run, document: PlanDocument | None) -> Mapping[str, models.Sheet]:
    """Records that tell what no plan tells, by the name in the script; none where a full plan is there."""
    plan = run.plan
    if plan is None:
        return sheets_of_run(run) if run.facts.get(TIED) else {}
    return sheets_of_run(run) if plan.short or document is None else {}


def _stops_of_records(records: Mapping[str, models.Sheet], films: Mapping[object, models.Film]) -> dict[str, float]:
    documents: dict[str, object] = {}
    for name, record in records.items():
        size = {"size": record.size} if record.size else {}
        try:
            documents[name] = checked_sheet(raw_of("sheet", record, {"film": films[record.film_id].name, **size}))
        except WetsideError:  # written by another version: then nothing is told of its exposure
            continue
    given: Sequence[object] = list(documents.values())
    return dict(zip(documents, stop_errors(given), strict=True))  # type: ignore[arg-type]  # checked just above


def _area_cm2(size: str) -> float:
    try:
        return SheetSize(*parse_size(size)).area_cm2 if size else 0.0
    except WetsideError:
        return 0.0


def _tabular(evening: Evening | None, script: Script) -> frozenset[str]:
    """Films of a run that fix as tabular ones, by its plan's evening; without one as the records know them."""
    if evening is not None:
        return frozenset(plain_name(film.name) for film in evening.films if film.fixing is FixClass.TABULAR)
    names = {plain_name(sheet.film) for sheet in script.sheets if sheet.film}
    if not names:
        return frozenset()
    return frozenset(
        film.name_key
        for film in models.Film.kept.filter(name_key__in=names)
        if film.facts.get("fixing") == FixClass.TABULAR.value
    )
