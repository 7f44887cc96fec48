"""What a sheet's time starts from: a tested family, a time of one's own, a published row, or a bare time."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.development import Way, most_stated
from wetside.errors import RefusedError
from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import Printing
from wetside.planning.resolved import has_presoak
from wetside.planning.ways import agitation_of, same_way_first
from wetside.values.conditions import Conditions
from wetside.values.dilution import STOCK
from wetside.values.evidence import Evidence, Source
from wetside.values.names import name_key, plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.development import StartingPoint
    from wetside.planning.documents.evening import Aim, Film, FilmTest, FilmTime, Process, Vessel
    from wetside.planning.library import Library
    from wetside.planning.resolved import ResolvedSheet
    from wetside.sensitometry import ReadingReport
    from wetside.values.conditions import Agitation
    from wetside.values.family import ContrastFamily

TOLD_DIP = 0.02
"""A smoothed dip below this is the noise of a densitometer and not worth a word. Our choice. [density]"""

BOX = Source("own", "a bare time from the box")


class TimeBasis(NamedTuple):
    """A time, or a span of times, with the conditions that it belongs to."""

    low_s: float
    high_s: float
    conditions: Conditions
    evidence: Evidence
    source: Source
    notes: tuple[Note, ...] = ()
    way: Way = Way.ONE_BATH


class FamilyBasis(NamedTuple):
    """A tested family of curves."""

    family: ContrastFamily
    notes: tuple[Note, ...] = ()
    way: Way = Way.ONE_BATH


def _same_dilution(row: FilmTime | FilmTest, process: Process) -> bool:
    return row.dilution is None or row.dilution.text == (process.dilution or STOCK).text


def _fit(
    agitation: Agitation, temp_c: float, presoak: bool | None, process: Process, vessel: Vessel
) -> tuple[bool, bool, float]:
    """How far the conditions of a row are from the evening's: the smaller, the better."""
    return (
        agitation is not agitation_of(process, vessel),
        presoak is not None and presoak != has_presoak(process),
        abs(temp_c - process.temp_c),
    )


def _conditions(row: FilmTime | FilmTest, gradient: float | None) -> Conditions:
    return Conditions(
        developer=row.developer,
        dilution=row.dilution.text if row.dilution else "any",
        temp_c=row.temp_c,
        agitation=row.agitation,
        presoak=row.presoak,
        clock=row.clock,
        stop=row.stop,
        agent_ml_per_cm2=row.agent_ml_per_cm2,
        gradient=gradient,
    )


def _depth(report: ReadingReport) -> float:
    dip = report.params["dip"]
    return dip if isinstance(dip, float) else 0.0


def family_of_test(film: Film, test: FilmTest) -> FamilyBasis:
    """Reading family of one test of a film.

    Raises
    ------
    WetsideError
        If the readings do not make curves; the test's developer is named.
    """
    from wetside.sensitometry import family_of_readings

    family, reports = family_of_readings(
        [(dev_min * 60.0, log_h, density) for dev_min, log_h, density in test.rows],
        film=film.name,
        conditions=_conditions(test, None),
        base_fog=test.base_fog,
        channel=test.channel.value,
        evidence=Evidence.TESTED,
        source=Source("own", test.source or "own test"),
    )
    notes = tuple(
        Note("planning.dip_smoothed", {"film": film.name, **report.params})
        for report in reports
        if report.code == "sensitometry.readings.dip_smoothed" and _depth(report) >= TOLD_DIP
    )
    return FamilyBasis(family, notes, test.way)


def choose_basis(
    resolved: ResolvedSheet,
    vessel: Vessel,
    library: Library,
    families: dict[tuple[str, int], FamilyBasis],
    channel: str,
) -> TimeBasis | FamilyBasis:
    """Choose the strongest evidence that there is for a sheet in a vessel.

    Own tests come before own times, own times before published rows, and those before bare times. Among equals the row
    whose agitation, pre-soak and temperature are nearest to the evening's is taken.

    Raises
    ------
    RefusedError
        If nothing is known of the film in that developer, or only readings in another light than the aim's.
    """
    film, process = resolved.film, resolved.process
    developer = plain_name(process.developer)
    tests = [test for test in film.tests if plain_name(test.developer) == developer and _same_dilution(test, process)]
    channels = {test.channel.value for test in tests}
    tests = same_way_first([test for test in tests if test.channel.value == channel], process)
    if tests:
        best = min(tests, key=lambda test: _fit(test.agitation, test.temp_c, test.presoak, process, vessel))
        key = (film.name, film.tests.index(best))
        if key not in families:
            families[key] = family_of_test(film, best)
        return families[key]
    times = same_way_first(
        [row for row in film.times if plain_name(row.developer) == developer and _same_dilution(row, process)], process
    )
    if times:
        return _basis_of_time(
            min(
                times,
                key=lambda row: (
                    not row.own,
                    row.source is None,
                    _fit(row.agitation, row.temp_c, row.presoak, process, vessel),
                ),
            )
        )
    if channels:
        raise RefusedError("planning.other_channel", film=film.name, wanted=channel, have=sorted(channels))
    return basis_of_points(library.points, film, process)


def require_no_stain_unseen(resolved: ResolvedSheet, aim: Aim) -> None:
    """Refuse readings of a stained negative in a light that its printing does not see.

    Parameters
    ----------
    resolved : ResolvedSheet
        Whose time rests on readings of a tablet.
    aim : Aim
        One for a scanner is let pass: what the scanner reads is its own light.

    Raises
    ------
    RefusedError
        If the developer stains and the aim's light is not one of the printing's.
    """
    from wetside.sensitometry.channels import channels_of_printing

    if resolved.developer is None or not resolved.developer.stains or aim.printing is Printing.SCANNER:
        return
    needed = channels_of_printing(aim.printing.value)
    if aim.channel.value not in needed:
        raise RefusedError(
            "planning.stain_unseen",
            film=resolved.film.name,
            developer=resolved.developer.name,
            read_in=aim.channel.value,
            needed=list(needed),
        )


def _basis_of_time(row: FilmTime) -> TimeBasis:
    if row.own:
        evidence, source = Evidence.TESTED, Source("own", row.source or "own practice")
    elif row.source:
        evidence, source = Evidence.PUBLISHED, Source("own", row.source)
    else:
        evidence, source = Evidence.ASSUMED, BOX
    return TimeBasis(row.span_s[0], row.span_s[1], _conditions(row, row.gradient), evidence, source, way=row.way)


def basis_of_points(points: Iterable[StartingPoint], film: Film, process: Process) -> TimeBasis:
    """Published row for a film in a developer; the newest sheet where several speak, the others named beside it.

    Raises
    ------
    RefusedError
        If there is none, or if rows for several exposure indexes are left and the film does not say which.
    """
    name, developer = name_key(film.published or film.name), name_key(process.developer)
    dilution = (process.dilution or STOCK).text
    rows = [
        row
        for row in points
        if name_key(row.film) == name and name_key(row.developer) == developer and row.dilution.text == dilution
    ]
    if film.ei is not None:
        rows = [row for row in rows if row.ei == film.ei]
    if not rows:
        raise RefusedError("planning.no_time", film=film.name, developer=process.developer, dilution=dilution)
    indexes = sorted({row.ei for row in rows if row.ei is not None})
    if len(indexes) > 1:
        raise RefusedError("planning.which_index", film=film.name, choices=[f"{ei:g}" for ei in indexes])
    nearest_c = min({row.temp_c for row in rows}, key=lambda temp_c: (abs(temp_c - process.temp_c), temp_c))
    rows = [row for row in rows if row.temp_c == nearest_c]
    newest = max(rows, key=lambda row: (row.source.date, row.time_low_s))
    # Sheets that print the same time complete each other: the one that states most of its conditions speaks.
    best = most_stated(tuple(row for row in rows if _span(row) == _span(newest)))
    others = {_span(row): row for row in rows if _span(row) != _span(newest)}
    notes = tuple(
        Note(
            "planning.sources_disagree",
            {
                "film": film.name,
                "time_s": newest.time_low_s,
                "source": newest.source.key,
                "other_s": row.time_low_s,
                "other_source": row.source.key,
            },
        )
        for row in others.values()
    )
    return TimeBasis(best.time_low_s, best.time_high_s, best.conditions, best.evidence, best.source, notes)


def _span(row: StartingPoint) -> tuple[float, float]:
    return row.time_low_s, row.time_high_s
