"""Differences between two runs that nobody can put in figures, and facts that nobody knows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.planning.documents.note import Note
from wetside.runs.compared_setting import agitation_of
from wetside.runs.difference import Difference, Missing
from wetside.runs.events import Where
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wetside.runs.difference import Side

UNCHECKED_C = 0.5
"""Our choice: how far an instrument may be off that nobody ever checked, and a bath that nobody read. [C]"""


def text_differences(one: Side, other: Side) -> Iterator[Difference]:
    """Differences in words, in the order in which a practitioner asks for them."""
    yield from _differing("film", one, other, _films)
    yield from _differing("developer", one, other, developer_of)
    yield from _differing("process", one, other, _process)
    yield from _differing("version", one, other, _version)
    yield from _differing("aim", one, other, _aim)
    yield from _differing("vessel", one, other, _vessel)
    yield from _differing("lot", one, other, _lots)
    yield from _differing("where", one, other, _wheres)
    yield from _differing("incident", one, other, _incidents)


def _differing(kind: str, one: Side, other: Side, told: Any) -> Iterator[Difference]:
    values = [told(side) for side in (one, other)]
    if values[0] == values[1] or None in values:
        return
    yield Difference(kind, tuple(value if isinstance(value, Note) else _words(value) for value in values))


def _words(value: str) -> Note:
    return Note("runs.compared.words", {"words": value})


def _films(side: Side) -> str:
    films = sorted({sheet.film for sheet in side.script.sheets if sheet.film and sheet.id not in side.state.lost})
    return ", ".join(films) or side.script.name


def developer_of(side: Side) -> str:
    """Developer with its dilution, as it is told."""
    return f"{side.script.developer} {side.script.dilution}".strip()


def comparable(one: Side, other: Side) -> bool:
    """Whether both share a film in the same developer, developed the same way: only then their times compare."""
    films = [{plain_name(name) for name in _films(side).split(", ")} for side in (one, other)]
    developers = {plain_name(developer_of(side)) for side in (one, other)}
    ways = {side.known.way for side in (one, other)} - {None}
    return bool(films[0] & films[1]) and len(developers) == 1 and len(ways) < 2


def _process(side: Side) -> str | None:
    return side.known.process


def _version(side: Side) -> Note | None:
    if side.known.process is None or side.known.process_version is None:
        return None
    params = {"process": side.known.process, "version": side.known.process_version}
    return Note("runs.compared.version_value", params)


def _aim(side: Side) -> Note | None:
    ranges = sorted({sheet.aim_range for sheet in side.script.sheets if sheet.id not in side.state.lost})
    if not ranges:
        return None
    return Note("runs.compared.aim_value", {"low": ranges[0], "high": ranges[-1]})


def _vessel(side: Side) -> str | None:
    return side.script.vessel or None


def _lots(side: Side) -> str | None:
    return None if side.known.lots is None else ", ".join(sorted(side.known.lots))


def _wheres(side: Side) -> Note | None:
    wheres = () if side.parts is None else side.parts.wheres
    return Note("runs.compared.where_value", {"where": tuple(where.value for where in wheres)}) if wheres else None


def _incidents(side: Side) -> Note | None:
    found = {(incident.what.value, incident.sheets) for incident in side.state.incidents}
    if side.state.lost:
        found.add(("lost", tuple(side.state.lost)))
    if not found:
        return Note("runs.compared.no_incident")
    return Note("runs.compared.incident_value", {"incidents": tuple(sorted(found))})


def missing_facts(one: Side, other: Side, per_c: float | None) -> Iterator[Missing]:
    """Facts that nobody knows of one of the runs: named, and never taken as equal.

    Parameters
    ----------
    one, other : Side
    per_c : float or None
        What a degree is worth. [1/C]
    """
    unsure = 0.0 if per_c is None else per_c * UNCHECKED_C
    same_instrument = one.script.thermometer == other.script.thermometer
    for side, first in ((one, True), (other, False)):
        if side.parts is None:
            yield Missing(first, Note("runs.compared.missing_development"))
            continue
        if side.known.checked_high_c is None:
            code = "runs.compared.missing_check_same" if same_instrument else "runs.compared.missing_check"
            params = {"name": side.script.thermometer, "unsure_c": UNCHECKED_C}
            yield Missing(first, Note(code, params), 0.0 if same_instrument else unsure)
        if Where.DEVELOPER not in side.parts.wheres and Where.POURED_OUT not in side.parts.wheres:
            yield Missing(first, Note("runs.compared.missing_reading", {"unsure_c": UNCHECKED_C}), unsure)
        if side.parts.untold:
            yield Missing(first, Note("runs.compared.missing_acts", {"count": len(side.parts.untold)}))
        if side.script.per_c is None:
            yield Missing(first, Note("runs.compared.missing_coefficient", {"developer": side.script.developer}))
        if agitation_of(side) is None:
            yield Missing(first, Note("runs.compared.missing_vessel"))
        if not side.script.volume_ml:
            yield Missing(first, Note("runs.compared.missing_volume"))
        if side.known.process is None:
            yield Missing(first, Note("runs.compared.missing_process"))
        if side.known.lots is None:
            yield Missing(first, Note("runs.compared.missing_lot"))
