"""Published times, time pairs, long-exposure figures and advice: ours from the package, then a user's own folder.

A user's folder holds CSV files of the same columns: times straight in it or in ``starting_points/``, pairs in
``coefficients/``, long exposures in ``reciprocity/``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.published_rows import TEMP_C, PublishedRow, load_rows, unknown_name
from wetside.development import (
    ContinuousCut,
    PresoakAdvice,
    PublishedFloor,
    StartingPoint,
    TimePair,
    agree_on_time,
    coefficient_of_pair,
    most_stated,
)
from wetside.errors import AmbiguousError, InputError, WetsideError
from wetside.values.conditions import Agitation, ClockRule, StopKind
from wetside.values.evidence import Evidence, Source
from wetside.values.names import name_key

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from pathlib import Path

    from wetside.planning.library import PublishedReciprocity

POINT_COLUMNS = (
    *("film", "ei", "developer", "dilution", "time_low_s", "time_high_s", "temp_c", "agitation", "gradient"),
    *("agent_ml_per_cm2", "clock", "stop", "presoak", "source", "sheet_date", "page", "note", "evidence"),
)
PAIR_COLUMNS = (
    *("film", "ei", "developer", "dilution", "cold_c", "cold_low_s", "cold_high_s", "warm_c", "warm_s"),
    *("rounding_s", "source", "sheet_date", "page", "note", "evidence"),
)
RECIPROCITY_COLUMNS = ("film", "power", "threshold_s", "metered_s", "factor", "source", "sheet_date", "page", "note")


class AgitationAdvice(NamedTuple):
    """What makers' sheets say of continuous agitation, a pre-soak and short times, as values for the core."""

    cuts: tuple[ContinuousCut, ...]
    presoak: tuple[PresoakAdvice, ...]
    floors: tuple[PublishedFloor, ...]


def _point_of_row(row: PublishedRow) -> StartingPoint | None:
    low_s = row.seconds("time_low_s", required=True)
    high_s = row.seconds("time_high_s")
    temp_c = row.number("temp_c", *TEMP_C)
    if low_s is not None and high_s is not None and high_s < low_s:
        row.wrong("time_high_s", InputError("starting_points.time.reversed", low_s=low_s, high_s=high_s))
    point = StartingPoint(
        film=row.text("film", required=True),
        ei=row.number("ei", 0.1, 100000.0),
        developer=row.text("developer", required=True),
        dilution=row.dilution("dilution"),
        time_low_s=low_s or 0.0,
        time_high_s=high_s or low_s or 0.0,
        temp_c=20.0 if temp_c is None else temp_c,
        agitation=row.choice("agitation", Agitation) or Agitation.INTERMITTENT,
        gradient=row.number("gradient", 0.1, 3.0),
        agent_ml_per_cm2=row.number("agent_ml_per_cm2", 0.0001, 100.0),
        clock=row.choice("clock", ClockRule),
        stop=row.choice("stop", StopKind),
        presoak=row.flag("presoak"),
        source=row.source(),
        note=row.text("note"),
        evidence=row.choice("evidence", Evidence) or Evidence.PUBLISHED,
    )
    return point if low_s is not None else None


def load_starting_points(folder: Path | None = None) -> tuple[StartingPoint, ...]:
    """Load the cited starting points, then the rows of a user's own folder.

    Parameters
    ----------
    folder : Path, optional
        A user's folder; see the head of this module.

    Returns
    -------
    points : tuple of StartingPoint
        In the order of files and lines, ours first. Contradictions are kept.

    Raises
    ------
    InputError
        If there is no such folder.
    ManyErrors
        All errors of all files, each with file, line, column and what is allowed.
    """
    required = ("film", "developer", "dilution", "time_low_s", "source")
    return tuple(load_rows("starting_points", folder, POINT_COLUMNS, required, _point_of_row, also_top=True))


def find_starting_points(
    points: Iterable[StartingPoint],
    film: str,
    developer: str | None = None,
    dilution: str | None = None,
    ei: float | None = None,
    source: str | None = None,
) -> tuple[StartingPoint, ...]:
    """Find all rows of a film, narrowed by what else is named.

    Parameters
    ----------
    points : iterable of StartingPoint
        Of :func:`load_starting_points`.
    film, developer : str
        Names, compared by :func:`wetside.values.names.name_key`.
    dilution : str, optional
        As ``1+3`` or ``stock``.
    ei : float, optional
        Exposure index. [1]
    source : str, optional
        Key of the sheet.

    Raises
    ------
    UnknownNameError
        For the first name that no row answers to, with the known ones and the nearest.
    """
    rows = list(points)
    wanted: tuple[tuple[str, str | None, Callable[[StartingPoint], str], Callable[[str], str]], ...] = (
        ("starting_points.film.unknown", film, lambda row: row.film, name_key),
        ("starting_points.developer.unknown", developer, lambda row: row.developer, name_key),
        (
            "starting_points.dilution.unknown",
            dilution,
            lambda row: row.dilution.text,
            lambda text: "".join(text.split()),
        ),
        ("starting_points.index.unknown", _index(ei), lambda row: _index(row.ei) or "", str),
        ("starting_points.source.unknown", source, lambda row: row.source.key, str),
    )
    for code, value, part, key in wanted:
        if value is None:
            continue
        left = [row for row in rows if key(part(row)) == key(value)]
        if not left:
            raise unknown_name(code, value, map(part, rows))
        rows = left
    return tuple(rows)


def _index(ei: float | None) -> str | None:
    return None if ei is None else f"{ei:g}"


def pick_starting_point(
    points: Iterable[StartingPoint],
    film: str,
    developer: str | None = None,
    dilution: str | None = None,
    ei: float | None = None,
    source: str | None = None,
    temp_c: float = 20.0,
) -> StartingPoint:
    """Pick the one row that answers.

    Of rows at several temperatures those nearest to ``temp_c`` are taken; a tested row outranks printed ones; of sheets
    that agree, the one that states most of its conditions.

    Parameters
    ----------
    points, film, developer, dilution, ei, source
        As for :func:`find_starting_points`; the exposure index is a pure number. [1]
    temp_c : float, optional
        Temperature that will be used. [C]

    Raises
    ------
    UnknownNameError
        If no row answers.
    AmbiguousError
        If rows are left that do not say the same; ``choices`` lists them.
    """
    rows = find_starting_points(points, film, developer, dilution, ei, source)
    nearest_c = min(abs(row.temp_c - temp_c) for row in rows)
    rows = tuple(row for row in rows if abs(row.temp_c - temp_c) == nearest_c)
    tested = tuple(row for row in rows if row.evidence is Evidence.TESTED)
    groups: list[list[StartingPoint]] = []
    for row in tested or rows:
        for group in groups:
            if all(agree_on_time(row, other) for other in group):
                group.append(row)
                break
        else:
            groups.append([row])
    if len(groups) > 1:
        choices = [row_label(most_stated(tuple(group))) for group in groups]
        raise AmbiguousError("starting_points.ambiguous", film=film, choices=choices)
    return most_stated(tuple(groups[0]))


def row_label(point: StartingPoint) -> str:
    """One line that tells a row from its neighbours: names, figures and source, no sentence.

    Examples
    --------
    >>> from wetside.values.dilution import Dilution
    >>> row = StartingPoint("Tolland 100", 100, "Brackwater", Dilution((1,), 4), 420, 480)
    >>> row_label(row._replace(source=Source("own notes")))
    'Tolland 100 EI 100, Brackwater 1+4, 7:00-8:00 at 20 C, own notes'
    """
    low, high = (f"{round(time_s) // 60}:{round(time_s) % 60:02d}" for time_s in (point.time_low_s, point.time_high_s))
    index = "" if point.ei is None else f" EI {point.ei:g}"
    return (
        f"{point.film}{index}, {point.developer} {point.dilution.text}, {low if low == high else f'{low}-{high}'} "
        f"at {point.temp_c:g} C, {point.source.key}"
    )


def _pair_of_row(row: PublishedRow) -> tuple[str, TimePair] | None:
    developer, source = row.text("developer", required=True), row.source()
    low_s, high_s = row.seconds("cold_low_s", required=True), row.seconds("cold_high_s")
    warm_s = row.seconds("warm_s", required=True)
    cold_c, warm_c = row.number("cold_c", *TEMP_C, required=True), row.number("warm_c", *TEMP_C, required=True)
    soft_s = row.number("rounding_s", 0.0, 600.0) or 0.0
    if low_s is None or warm_s is None or cold_c is None or warm_c is None:
        return None
    high_s = low_s if high_s is None else high_s
    if high_s < low_s:
        row.wrong("cold_high_s", InputError("starting_points.time.reversed", low_s=low_s, high_s=high_s))
    index = row.number("ei", 0.1, 100000.0)
    where = " ".join(
        part
        for part in (row.text("film"), f"EI {index:g}" if index else "", row.text("dilution"), source.where)
        if part
    )
    pair = TimePair(
        cold_c,
        (low_s + high_s) / 2.0,
        warm_c,
        warm_s,
        row.choice("evidence", Evidence) or Evidence.PUBLISHED,
        source._replace(where=where),
        max((high_s - low_s) / 2.0, soft_s),
        soft_s,
    )
    try:
        coefficient_of_pair(pair)
    except WetsideError as error:
        row.wrong("warm_s", error)
    return developer, pair


def load_time_pairs(folder: Path | None = None) -> dict[str, tuple[TimePair, ...]]:
    """Load times at two temperatures, by the developer's name as it is printed; ours, then a user's own.

    Parameters
    ----------
    folder : Path, optional
        A user's folder, with CSV files in ``coefficients/``.

    Raises
    ------
    InputError
        If there is no such folder.
    ManyErrors
        All errors of all files.
    """
    required = ("developer", "cold_c", "cold_low_s", "warm_c", "warm_s", "source")
    by_key: dict[str, tuple[str, list[TimePair]]] = {}
    for developer, pair in load_rows("coefficients", folder, PAIR_COLUMNS, required, _pair_of_row):
        by_key.setdefault(name_key(developer), (developer, []))[1].append(pair)
    return {name: tuple(pairs) for name, pairs in by_key.values()}


def pairs_for_developer(name: str, source: str | None = None, folder: Path | None = None) -> tuple[TimePair, ...]:
    """Find the times at two temperatures of one developer.

    Parameters
    ----------
    name : str
        Compared by :func:`wetside.values.names.name_key`.
    source : str, optional
        Key of the only sheet that is wanted.
    folder : Path, optional
        A user's folder.

    Returns
    -------
    pairs : tuple of TimePair
        Empty where nothing is known.
    """
    key = name_key(name)
    pairs = next((pairs for known, pairs in load_time_pairs(folder).items() if name_key(known) == key), ())
    return tuple(pair for pair in pairs if source is None or (pair.source is not None and pair.source.key == source))


def _reciprocity_of_row(row: PublishedRow) -> tuple[str, str, float | None, float, float | None, float | None] | None:
    power = row.number("power", 1.0, 3.0)
    metered_s, factor = row.number("metered_s", 0.0001, 100000.0), row.number("factor", 1.0, 1000.0)
    threshold_s = row.number("threshold_s", 0.0, 1000.0)
    film, source = row.text("film", required=True), row.source().key
    if (power is None) == (metered_s is None or factor is None):
        row.wrong("power", InputError("starting_points.reciprocity.neither"))
    return film, source, power, 1.0 if threshold_s is None else threshold_s, metered_s, factor


def load_reciprocity(folder: Path | None = None) -> dict[str, PublishedReciprocity]:
    """Load what is published of long exposures, by the film's name as it is printed.

    Parameters
    ----------
    folder : Path, optional
        A user's folder, with CSV files in ``reciprocity/``; a film named there replaces ours.

    Raises
    ------
    InputError
        If there is no such folder.
    ManyErrors
        All errors of all files.
    """
    from wetside.exposure import ReciprocityPower, ReciprocityTable
    from wetside.planning.library import PublishedReciprocity

    tables: dict[tuple[str, str], list[tuple[float, float]]] = {}
    found: dict[str, PublishedReciprocity] = {}
    rows = load_rows("reciprocity", folder, RECIPROCITY_COLUMNS, ("film", "source"), _reciprocity_of_row)
    for film, source, power, threshold_s, metered_s, factor in rows:
        if power is not None:
            model: ReciprocityPower | ReciprocityTable = ReciprocityPower(power, threshold_s)
        else:
            points = tables.setdefault((name_key(film), source), [])
            points.append((metered_s or 0.0, factor or 1.0))
            model = ReciprocityTable(tuple(sorted(points)))
        found[name_key(film)] = PublishedReciprocity(film, model, source)
    return {entry.film: entry for entry in found.values()}


def reciprocity_for_film(name: str, folder: Path | None = None) -> PublishedReciprocity | None:
    """Find what is published of a film's long exposures; None where nothing is.

    Parameters
    ----------
    name : str
        Compared by :func:`wetside.values.names.name_key`.
    folder : Path, optional
        A user's folder.
    """
    key = name_key(name)
    return next((entry for film, entry in load_reciprocity(folder).items() if name_key(film) == key), None)


def load_agitation_advice() -> AgitationAdvice:
    """Load what makers' sheets say of continuous agitation, a pre-soak and short times."""
    import tomllib
    from importlib.resources import files

    table = tomllib.loads((files("wetside") / "data" / "agitation" / "advice.toml").read_text("utf-8"))
    return AgitationAdvice(
        tuple(
            ContinuousCut(
                row["maker"],
                Agitation(row["agitation"]),
                row["factor"],
                row["spread"],
                _source_of_table(row),
                row.get("note", ""),
            )
            for row in table["cut"]
        ),
        tuple(
            PresoakAdvice(
                row["maker"], row["advises"], row.get("duration_s"), _source_of_table(row), row.get("note", "")
            )
            for row in table["presoak"]
        ),
        tuple(
            PublishedFloor(row["maker"], row["floor_s"], _source_of_table(row), row.get("note", ""))
            for row in table["floor"]
        ),
    )


def _source_of_table(row: Mapping[str, str]) -> Source:
    return Source(row["source"], row.get("page", ""), row.get("date", ""))
