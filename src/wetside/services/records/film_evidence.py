"""All that is known of a film, by developer and dilution: own tests, published rows, times; and long exposures.

Everything is worked out anew from what is kept and what ships; nothing of it is stored.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import F

from wetside.adapters.printing_data import load_speed_classes
from wetside.errors import ManyErrors, WetsideError
from wetside.planning.basis import FamilyBasis, family_of_test
from wetside.planning.misexposure import reciprocity_of
from wetside.records.models import Aim, Developer, ProcessVersion, Vessel
from wetside.sensitometry.measures import curve_measures
from wetside.sensitometry.readings import curves_of_readings
from wetside.sensitometry.speed import speed_of_family_iso6
from wetside.services.library import load_library
from wetside.services.records.documents import document_of, raw_of
from wetside.services.records.film_evidence_weakest import Finding, Known, findings_of
from wetside.services.records.films import film_document
from wetside.values.dilution import STOCK
from wetside.values.evidence import Evidence
from wetside.values.names import name_key, plain_name
from wetside.wording import shown

if TYPE_CHECKING:
    from wetside.cards.curve_chart import CurveChart
    from wetside.development import StartingPoint
    from wetside.planning.documents.evening import Film as FilmDocument
    from wetside.planning.documents.evening import FilmTest, FilmTime
    from wetside.planning.library import Library
    from wetside.records.models import Film
    from wetside.sensitometry.speed import IsoSpeed
    from wetside.values.curve import CharacteristicCurve

METERED_S = (0.125, 8.0, 60.0)
"""Metered times at which a film's loss of speed is told: the end of hand-held times, and two long ones. [s]"""

RELATIVE_STOPS = 2.0
"""A speed further than this from the film's index is no speed: the log exposures are relative. Our choice. [stops]"""


class MeasuredTime(NamedTuple):
    """One developing time of a test; None with a reason in the test's ``missing`` where the readings do not reach."""

    dev_s: float
    base_fog: float
    gradient_150: float | None
    contrast_index: float | None
    gamma: float | None
    readings: tuple[tuple[float, float], ...]


class OwnTest(NamedTuple):
    """An own test: its curves measured, or the error that keeps it from being used.

    ``number`` counts the film's tests from 0; ``charts`` are the curves for a broad page and for a phone; ``missing``
    are codes with parameters.
    """

    number: int
    test: FilmTest
    times: tuple[MeasuredTime, ...]
    charts: tuple[CurveChart, ...]
    family: FamilyBasis | None
    speed: IsoSpeed | None
    missing: tuple[WetsideError | Finding, ...]
    error: WetsideError | None

    @property
    def evidence(self) -> Evidence:
        """Own readings are tested."""
        return Evidence.TESTED


class TimeEvidence(NamedTuple):
    """A time of one's own, of a sheet or of a box."""

    time: FilmTime
    evidence: Evidence


class Span(NamedTuple):
    """Times of sources that disagree under the same conditions. [s]"""

    low_s: float
    high_s: float
    temp_c: float
    agitation: str
    sources: tuple[str, ...]


class DeveloperEvidence(NamedTuple):
    """What is known of a film in one developer and dilution.

    ``evidence`` is what a plan would rest on, None where it could not be made; ``spans`` where sources disagree;
    ``used`` whether the darkroom has tests, times or a process in it, and not the maker's sheet alone.
    """

    developer: str
    dilution: str
    tests: tuple[OwnTest, ...]
    times: tuple[TimeEvidence, ...]
    published: tuple[StartingPoint, ...]
    spans: tuple[Span, ...]
    evidence: Evidence | None
    findings: tuple[Finding, ...]
    used: bool


class LongExposure(NamedTuple):
    """What a long exposure asks of a film: metered and given time [s], difference on the lens [stops]; or why not."""

    metered_s: float
    given_s: float | None
    stops: float | None
    error: WetsideError | None

    @property
    def metered_text(self) -> str:
        """Metered time as it is engraved or counted."""
        return shown(self.metered_s, "shutter")

    @property
    def given_text(self) -> str:
        """Time to give as it is engraved or counted."""
        return "" if self.given_s is None else shown(self.given_s, "shutter")

    @property
    def stops_text(self) -> str:
        """What that is more, in stops."""
        return "" if self.stops is None else shown(self.stops, "stops_said")


class ReciprocityEvidence(NamedTuple):
    """A film's loss of speed: ``kind`` is table, power, published or none; the numbers that it consists of."""

    kind: str
    evidence: Evidence
    source: str
    power: float | None
    threshold_s: float | None
    points: tuple[tuple[float, float], ...]
    exposures: tuple[LongExposure, ...]
    other: tuple[float, str] | None


class FilmEvidence(NamedTuple):
    """The whole page of a film."""

    document: FilmDocument
    groups: tuple[DeveloperEvidence, ...]
    reciprocity: ReciprocityEvidence

    @property
    def tested(self) -> int:
        """Developers and dilutions with a test that a plan can use."""
        return sum(any(test.family for test in group.tests) for group in self.groups)

    @property
    def weakest(self) -> tuple[DeveloperEvidence, Finding] | None:
        """The finding that weighs most of all, with where it belongs; of what the darkroom uses, if anything."""
        found = [(group, finding) for group in self.groups if group.used for finding in group.findings]
        return max(found, key=lambda pair: pair[1].weight) if found else None


def film_evidence(film: Film) -> FilmEvidence:
    """Gather the evidence of a film.

    Parameters
    ----------
    film : Film

    Returns
    -------
    evidence : FilmEvidence
        Groups with a test first, then by name.
    """
    document, library = film_document(film), load_library()
    groups = _grouped(document, library)
    known = _known(document, library)
    made = [
        _group(document, developer, dilution, tests, times, points, known)
        for (developer, dilution), (tests, times, points) in groups.items()
    ]
    made.sort(
        key=lambda group: (
            not group.used,
            not group.tests,
            not group.times,
            plain_name(group.developer),
            group.dilution,
        )
    )
    return FilmEvidence(document, tuple(made), reciprocity_evidence(document, library))


Rows = tuple[list[tuple[int, "FilmTest"]], list["FilmTime"], list["StartingPoint"]]


def _grouped(document: FilmDocument, library: Library) -> dict[tuple[str, str], Rows]:
    """Tests, times and published rows by developer and dilution; a row of any dilution stands for itself."""
    groups: dict[tuple[str, str], tuple[str, Rows]] = {}

    def rows_of(developer: str, dilution: str) -> Rows:
        return groups.setdefault((name_key(developer), dilution), (developer, ([], [], [])))[1]

    for number, test in enumerate(document.tests):
        rows_of(test.developer, test.dilution.text if test.dilution else "any")[0].append((number, test))
    for time in document.times:
        rows_of(time.developer, time.dilution.text if time.dilution else "any")[1].append(time)
    name = name_key(document.published or document.name)
    for point in library.points:
        if name_key(point.film) == name:
            rows_of(point.developer, point.dilution.text)[2].append(point)
    return {(developer, dilution): rows for (_, dilution), (developer, rows) in groups.items()}


def _known(document: FilmDocument, library: Library) -> Known:
    """What else the archive knows that bears on a film: developers, newest processes, aims, a vessel."""
    versions = ProcessVersion.objects.select_related("process").filter(
        process__removed_at=None, version=F("process__newest")
    )
    processes = [document_of("process", raw_of("process", row, {"name": row.process.name})) for row in versions]
    developers = {
        plain_name(row.name): document_of("developer", raw_of("developer", row)) for row in Developer.kept.all()
    }
    aims = tuple(document_of("aim", raw_of("aim", row)) for row in Aim.kept.all()[:20])
    vessels = tuple(document_of("vessel", raw_of("vessel", row)) for row in Vessel.kept.order_by("name_key")[:1])
    return Known(document, library, developers, tuple(processes), aims, vessels[0] if vessels else None)


def _group(
    document: FilmDocument,
    developer: str,
    dilution: str,
    tests: list[tuple[int, FilmTest]],
    times: list[FilmTime],
    points: list[StartingPoint],
    known: Known,
) -> DeveloperEvidence:
    tested = tuple(evidence_of_test(document, number, test) for number, test in tests)
    findings, evidence = findings_of(
        known, developer, STOCK.text if dilution == "any" else dilution, tuple((one.test, one.family) for one in tested)
    )
    return DeveloperEvidence(
        developer,
        dilution,
        tested,
        tuple(TimeEvidence(time, evidence_of_time(time)) for time in times),
        tuple(sorted(points, key=lambda point: (point.temp_c, point.ei or 0.0, point.source.key))),
        spans_of(times, points, document.ei),
        evidence,
        findings,
        bool(tests or times or known.uses(developer, dilution)),
    )


def evidence_of_time(time: FilmTime) -> Evidence:
    """Class of a time: proved by oneself, with a source, or bare."""
    if time.own:
        return Evidence.TESTED
    return Evidence.PUBLISHED if time.source else Evidence.ASSUMED


def spans_of(times: list[FilmTime], points: list[StartingPoint], ei: float | None = None) -> tuple[Span, ...]:
    """Where several sources give other times under the same conditions: from the shortest to the longest.

    Parameters
    ----------
    times : list of FilmTime
    points : list of StartingPoint
        Of one film, developer and dilution.
    ei : float, optional
        Index of the film [1]; rows for another one stand apart.
    """
    found: dict[tuple[float, str, float | None], list[tuple[float, float, str]]] = {}
    for time in times:
        key: tuple[float, str, float | None] = (round(time.temp_c, 1), time.agitation.value, None)
        found.setdefault(key, []).append((*time.span_s, time.source or "box"))
    for point in points:
        other_ei = point.ei if ei is not None and point.ei not in (None, ei) else None
        key = (round(point.temp_c, 1), point.agitation.value, other_ei)
        found.setdefault(key, []).append((point.time_low_s, point.time_high_s, point.source.key))
    return tuple(
        Span(
            min(low for low, _, _ in rows),
            max(high for _, high, _ in rows),
            temp_c,
            agitation,
            tuple(dict.fromkeys(source for _, _, source in rows)),
        )
        for (temp_c, agitation, _), rows in sorted(found.items(), key=lambda item: item[0][:2])
        if len({(low, high) for low, high, _ in rows}) > 1 and len({source for _, _, source in rows}) > 1
    )


def evidence_of_test(document: FilmDocument, number: int, test: FilmTest) -> OwnTest:
    """Measure a test: curves, gradients by time, family, ISO speed where the exposures give one.

    Parameters
    ----------
    document : Film
    number : int
        From 0, among the film's tests.
    test : FilmTest
    """
    from wetside.cards.curve_chart import BROAD, NARROW, curve_chart

    try:
        curves, _ = curves_of_readings(
            [(dev_min * 60.0, log_h, density) for dev_min, log_h, density in test.rows], base_fog=test.base_fog
        )
    except WetsideError as error:
        return OwnTest(number, test, (), (), None, None, (), error)
    drawn = [(curve.dev_s / 60.0, curve) for curve in curves]
    charts = tuple(curve_chart(drawn, frame) for frame in (BROAD, NARROW))
    missing: list[WetsideError | Finding] = []
    family = speed = reason = None
    try:
        family = family_of_test(document, test)
        speed = speed_of_family_iso6(family.family, load_speed_classes())
    except WetsideError as refused:
        if family is None:
            reason = refused
        else:
            missing.extend(refused.errors if isinstance(refused, ManyErrors) else (refused,))
    if speed is not None and document.ei is not None:
        import math

        stops = math.log2(speed.arithmetic / document.ei)
        if abs(stops) > RELATIVE_STOPS:
            missing.append(Finding("services.evidence.speed_relative", {"speed": speed.arithmetic, "ei": document.ei}))
            speed = None
    return OwnTest(number, test, tuple(map(_measured, curves)), charts, family, speed, tuple(missing), reason)


def _measured(curve: CharacteristicCurve) -> MeasuredTime:
    found = curve_measures(curve)
    return MeasuredTime(
        curve.dev_s,
        curve.base_fog,
        found.gradient_150,
        found.contrast_index,
        found.gamma,
        tuple(zip(curve.log_h, curve.density, strict=True)),
    )


def reciprocity_evidence(document: FilmDocument, library: Library) -> ReciprocityEvidence:
    """What is known of a film's long exposures, and what it does at three metered times.

    Parameters
    ----------
    document : Film
    library : Library

    Returns
    -------
    reciprocity : ReciprocityEvidence
        ``other`` is what the published figure gives at the longest time where one's own stands before it.
    """
    import math

    own, model = document.reciprocity, reciprocity_of(document, library)
    named = (own.published if own is not None else None) or document.published or document.name
    published = library.reciprocity.get(name_key(named))
    kind, evidence, source = "none", Evidence.ASSUMED, ""
    if own is not None and (own.points or own.power is not None):
        kind = "table" if own.points else "power"
        evidence = Evidence.PUBLISHED if own.source else Evidence.ASSUMED
        source = own.source or ""
    elif published is not None:
        kind, evidence, source = "published", Evidence.PUBLISHED, published.source
    exposures = []
    for metered_s in METERED_S:
        try:
            given_s = model.corrected_s(metered_s)
            exposures.append(LongExposure(metered_s, given_s, math.log2(given_s / metered_s), None))
        except WetsideError as error:
            exposures.append(LongExposure(metered_s, None, None, error))
    other = None
    if kind in ("table", "power") and published is not None:
        try:
            other = (published.model.corrected_s(METERED_S[-1]), published.source)
        except WetsideError:
            other = None
    numbers: dict[str, Any] = {
        "power": getattr(model, "p", None),
        "threshold_s": getattr(model, "threshold_s", None),
        "points": getattr(model, "points", ()),
    }
    if kind == "none":
        numbers = {"power": None, "threshold_s": None, "points": ()}
    return ReciprocityEvidence(kind, evidence, source, exposures=tuple(exposures), other=other, **numbers)
