"""Differences between two runs in instrument, movement, liquid and its past: by figures or guides."""

from __future__ import annotations

from math import log
from typing import TYPE_CHECKING

from wetside.chemistry.amount import activity_ratio
from wetside.development.agitation import agitation_factor, presoak_cancels_cut
from wetside.development.ways import Way
from wetside.errors import OutOfRangeError, RefusedError
from wetside.planning.documents.note import Note
from wetside.planning.documents.words import BathKind, VesselKind
from wetside.planning.resolved import AGITATION_OF_VESSEL
from wetside.planning.ways import STILL
from wetside.runs.compared_time import coefficient_per_c
from wetside.runs.difference import UNKNOWN, Backing, Difference
from wetside.runs.load_check import load_check
from wetside.runs.script import bath_number, developing_baths
from wetside.values.conditions import Agitation
from wetside.values.evidence import Evidence
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wetside.runs.difference import Side
    from wetside.runs.script import Script

BACKING_OF = {
    Evidence.TESTED: Backing.PUBLISHED,
    Evidence.PUBLISHED: Backing.PUBLISHED,
    Evidence.CONVERTED: Backing.PUBLISHED,
    Evidence.ASSUMED: Backing.GUIDE,
}


def setting_differences(one: Side, other: Side, *, comparable: bool) -> Iterator[Difference]:
    """Differences of thermometer, movement, amount of developer, and what it had seen before.

    Parameters
    ----------
    one, other : Side
    comparable : bool
        See :func:`wetside.runs.compared_time.time_differences`: where each run has a time of its own, the movement and
        the used developer are in that time.
    """
    yield from _thermometer(one, other)
    if comparable:
        yield from _agitation(one, other)
        yield from _reused(one, other)
    yield from _agent(one, other)


def _thermometer(one: Side, other: Side) -> Iterator[Difference]:
    """What a later check of an instrument says of the temperature that was believed then."""
    names = [side.script.thermometer for side in (one, other)]
    checked = [side.known.checked_high_c for side in (one, other)]
    believed = [side.script.reads_high_c for side in (one, other)]
    values = tuple(
        Note("runs.compared.thermometer_value", {"name": name, "high_c": high_c})
        if checked_c is None
        else Note("runs.compared.thermometer_checked", {"name": name, "high_c": high_c, "checked_c": checked_c})
        for name, high_c, checked_c in zip(names, believed, checked, strict=True)
    )
    if checked[0] is None or checked[1] is None:
        if names[0] != names[1] or believed[0] != believed[1]:
            yield Difference("thermometer", tuple(values), remark=Note("runs.compared.thermometer_unknown"))
        return
    # It shows more too much than was allowed for: the liquid was colder than believed.
    colder_c = [have_c - allowed_c for have_c, allowed_c in zip(checked, believed, strict=True) if have_c is not None]
    off_c = colder_c[0] - colder_c[1]
    per_c = coefficient_per_c(one, other)
    if abs(off_c) < 1e-9 and names[0] == names[1]:
        return
    if per_c is None:
        yield Difference("thermometer", tuple(values), remark=Note("runs.compared.no_coefficient"))
        return
    yield Difference("thermometer", tuple(values), per_c * off_c, backing=Backing.PUBLISHED)


def agitation_of(side: Side) -> Agitation | None:
    """How the liquid moved; None where nobody named the vessel."""
    if not side.script.vessel and not side.known.vessel_kept:
        return None
    if side.known.way in STILL:
        return Agitation.STAND
    return AGITATION_OF_VESSEL[VesselKind(side.script.vessel_kind)]


def presoak_s(script: Script) -> float | None:
    """How long water stood on the film before the developer; None where none did. [s]"""
    first = min(developing_baths(script), default=0)
    inside = [act for act in script.acts if act.kind == BathKind.PRESOAK.value and 0 < bath_number(act.key) < first]
    if not inside:
        return None
    return sum(act.offset_s for act in inside if act.does == "drain")


def _agitation(one: Side, other: Side) -> Iterator[Difference]:
    kinds = [agitation_of(side) for side in (one, other)]
    waters_s = [presoak_s(side.script) for side in (one, other)]
    before, after = kinds
    moved = before is not None and after is not None and before is not after
    wetted = [presoak_cancels_cut(water_s) for water_s in waters_s]
    rotary = Agitation.ROTARY in kinds and wetted[0] != wetted[1]
    share, spread, backing, remark = None, 0.0, Backing.NONE, None
    if before is not None and after is not None and (moved or rotary):
        try:
            found = agitation_factor(before, after, presoak_from=wetted[0], presoak_to=wetted[1])
            # The factor lengthens the time to make up for it: what it makes up for is the opposite.
            share, spread, backing = -log(found.value), (found.spread or 0.0) / found.value, BACKING_OF[found.evidence]
            remark = Note("runs.compared.with_water") if rotary else None
        except RefusedError:
            remark = Note("runs.compared.stand")
    if moved:
        values = (Note("runs.compared.agitation_value", {"agitation": str(kind)}) for kind in (before, after))
        yield Difference("agitation", tuple(values), share, spread, backing, remark)
    if waters_s[0] != waters_s[1]:
        waters = (
            Note("runs.compared.no_water")
            if water_s is None
            else Note("runs.compared.water_value", {"time_s": water_s})
            for water_s in waters_s
        )
        if moved or not rotary or share is None:
            yield Difference("presoak", tuple(waters), remark=Note("runs.compared.water_unsure"))
        else:
            yield Difference("presoak", tuple(waters), share, spread, backing)


def _reused(one: Side, other: Side) -> Iterator[Difference]:
    """Developer that other film went through before acts as if the time were shorter by the maker's own factor."""
    if Way.REUSED not in (one.known.way, other.known.way):
        return
    factors = [_reuse_factor(side) for side in (one, other)]
    values = [
        UNKNOWN if factor is None else Note("runs.compared.reuse_value", {"percent": (factor - 1.0) * 100.0})
        for factor in factors
    ]
    if factors[0] is None or factors[1] is None:
        yield Difference("reuse", tuple(values))
    elif factors[0] != factors[1]:
        yield Difference("reuse", tuple(values), log(factors[0] / factors[1]), backing=Backing.GUIDE)


def _reuse_factor(side: Side) -> float | None:
    """Factor of the maker's rule; 1 for a developer that is used once. [1]"""
    if side.known.reuse_factor is not None:
        return side.known.reuse_factor
    return 1.0 if side.known.way in (Way.ONE_BATH, Way.INSPECTION) else None


def _agent(one: Side, other: Side) -> Iterator[Difference]:
    """Developing agent for the film that was in, by the declared guide; above the reference it changes nothing."""
    volumes = [side.script.volume_ml for side in (one, other)]
    given = [_given_ml(side) for side in (one, other)]
    ratios = [load_check(side.state).agent_ratio for side in (one, other)]
    if volumes[0] == volumes[1] and given[0] == given[1] and ratios[0] == ratios[1]:
        return
    values = [
        UNKNOWN
        if not volume_ml
        else Note("runs.compared.volume_value", {"volume_ml": volume_ml})
        if agent_ml is None
        else Note("runs.compared.agent_value", {"volume_ml": volume_ml, "agent_ml": agent_ml})
        for volume_ml, agent_ml in zip(volumes, given, strict=True)
    ]
    shares = [_activity(*pair) for pair in zip(given, ratios, strict=True)]
    if shares[0] is None or shares[1] is None:
        yield Difference("agent", tuple(values), remark=Note("runs.compared.no_reference"))
        return
    yield Difference(
        "agent",
        tuple(values),
        shares[1] - shares[0],
        backing=Backing.GUIDE,
        remark=Note("runs.compared.enough") if shares[0] == shares[1] == 0.0 else None,
    )


def _given_ml(side: Side) -> float | None:
    """Stock or concentrate to a unit of film, weighted, for the sheets that it saw. [ml]"""
    area = sum(sheet.area_cm2 * sheet.weight for sheet in side.script.sheets if sheet.id in side.state.in_liquid)
    if area <= 0 or side.script.concentrate_ml <= 0:
        return None
    return side.script.concentrate_ml / (area / UNIT_AREA_CM2)


def _activity(given_ml: float | None, ratio: float | None) -> float | None:
    """Logarithm of how active the developer is with that much of it. [1]"""
    if given_ml is None or ratio is None or ratio <= 0:
        return None
    try:
        return log(activity_ratio(given_ml, given_ml / ratio))
    except OutOfRangeError:
        return None
