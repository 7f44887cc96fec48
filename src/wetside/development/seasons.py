"""A bath that the season has made too warm or too cold: three ways out, each with what it costs.

Bring the bath to the temperature of the time; or change the time by the developer's own coefficient, inside its span;
or use another dilution, for which only a tested time counts. Rules of thumb that are printed too disagree, and are
shown beside each other.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_liquid, require_not_negative, require_positive
from wetside.development.coefficient import (
    GENERAL_COEFFICIENT,
    TemperatureCoefficient,
    is_inside_span,
    named_coefficient,
    sourced_temperature_factor,
    temperature_factor,
)
from wetside.development.floor import FloorCheck, floor_check
from wetside.development.limits_warm import HYDROQUINONE_SLOW_C, longest_remarks
from wetside.development.ways import Remark
from wetside.errors import OutOfRangeError
from wetside.values.conditions import Agitation
from wetside.values.evidence import Evidence, Sourced, moved_evidence

if TYPE_CHECKING:
    from collections.abc import Iterable

SHORT_RULE_PER_C = 0.1
"""Ten percent a degree, either way (harman-powder-developers-2010, p. 4; harman-ddx-2019, p. 5). [1/C]"""


class SeasonalWay(StrEnum):
    """Ways out of a bath at the wrong temperature."""

    TEMPER = "temper"
    TIME = "time"
    DILUTE = "dilute"


class WayOut(NamedTuple):
    """One way out.

    ``time`` the developing time [s], None where the way is closed; ``temp_c`` the bath's temperature then [C];
    ``degrees_c`` by how much the bath must be moved, negative to cool [C]; ``floor`` how the time stands to the floor.
    """

    way: SeasonalWay
    is_open: bool
    time: Sourced | None
    temp_c: float
    degrees_c: float
    floor: FloorCheck | None
    remarks: tuple[Remark, ...]


class RuleTime(NamedTuple):
    """A time by one published rule; None where the rule ends before that temperature. [s]"""

    rule: str
    time_s: float | None
    source: str


class RuleSpan(NamedTuple):
    """What published rules make of the same time; ``spread_share`` the longest over the shortest less one [1]."""

    times: tuple[RuleTime, ...]
    low_s: float
    high_s: float
    spread_share: float


def ways_out(
    time: Sourced,
    time_temp_c: float,
    bath_c: float,
    coefficient: TemperatureCoefficient,
    *,
    floor_s: float = 300.0,
    pour_s: float = 10.0,
    drain_s: float = 15.0,
    agitation: Agitation = Agitation.ROTARY,
    hydroquinone: bool | None = None,
    tested_dilution: Sourced | None = None,
) -> tuple[WayOut, WayOut, WayOut]:
    """Ways out of a bath that is not at the temperature of its time, cheapest in risk first.

    Parameters
    ----------
    time : Sourced
        Developing time. [s]
    time_temp_c : float
        Temperature that it belongs to. [C]
    bath_c : float
        Temperature that the season gives. [C]
    coefficient : TemperatureCoefficient
        The developer's own, or one that the user names.
    floor_s : float
        Shortest time that develops evenly. [s]
    pour_s, drain_s : float
        Of the vessel. [s]
    agitation : Agitation
        How the liquid moves.
    hydroquinone : bool, optional
        Whether the developer holds hydroquinone; None where not known.
    tested_dilution : Sourced, optional
        A time that was tested at the bath's temperature with another dilution. [s]

    Returns
    -------
    ways : tuple of WayOut
        Temper, change the time, dilute. What tempering costs in heat or ice is chemistry's to say, from ``degrees_c``.

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    Examples
    --------
    >>> ways = ways_out(Sourced(600.0, Evidence.PUBLISHED), 20.0, 26.0, named_coefficient(0.0565))
    >>> [(way.way.value, way.is_open, way.degrees_c) for way in ways]
    [('temper', True, -6.0), ('time', True, 0.0), ('dilute', False, 0.0)]
    >>> round(ways[1].time.value)
    427
    """
    require_positive(time.value, "development.seasons.time_not_positive")
    require_liquid(time_temp_c)
    require_liquid(bath_c)

    def held(value_s: float) -> FloorCheck:
        return floor_check(value_s, pour_s, drain_s, floor_s)

    temper = WayOut(
        SeasonalWay.TEMPER,
        is_open=True,
        time=time,
        temp_c=time_temp_c,
        degrees_c=time_temp_c - bath_c,
        floor=held(time.value),
        remarks=longest_remarks(time.value, agitation),
    )
    return (
        temper,
        _changed(time, time_temp_c, bath_c, coefficient, held, agitation, hydroquinone),
        _diluted(tested_dilution, bath_c, held, agitation),
    )


def _changed(
    time: Sourced,
    time_temp_c: float,
    bath_c: float,
    coefficient: TemperatureCoefficient,
    held: _Held,
    agitation: Agitation,
    hydroquinone: bool | None,
) -> WayOut:
    closed = WayOut(SeasonalWay.TIME, False, None, bath_c, 0.0, None, ())
    if bath_c != time_temp_c:
        for temp_c in (time_temp_c, bath_c):
            if not is_inside_span(coefficient, temp_c):
                low_c, high_c = coefficient.span_c or (temp_c, temp_c)
                params: dict[str, float | str | None] = {"temp_c": temp_c, "low_c": low_c, "high_c": high_c}
                return closed._replace(remarks=(Remark("development.seasons.outside_span", params),))
        if hydroquinone and bath_c < HYDROQUINONE_SLOW_C:
            character = Remark("development.cold.character", {"temp_c": bath_c, "low_c": HYDROQUINONE_SLOW_C})
            return closed._replace(remarks=(character,))
    factor = sourced_temperature_factor(coefficient, time_temp_c, bath_c)
    value_s = time.value * factor.value
    parts = [(one.spread or 0.0) / one.value for one in (time, factor)]
    known = time.spread is not None or factor.spread is not None
    spread = value_s * (parts[0] ** 2 + parts[1] ** 2) ** 0.5 if known else None
    evidence = time.evidence if bath_c == time_temp_c else moved_evidence(time.evidence, factor.evidence)
    check = held(value_s)
    remarks = list(longest_remarks(value_s, agitation))
    if check.below:
        below: dict[str, float | str | None] = {"time_s": value_s, "floor_s": value_s - check.margin_s}
        remarks.append(Remark("development.seasons.below_floor", below | {"share": check.handling_share}))
    changed = Sourced(value_s, evidence, factor.source or time.source, spread)
    return WayOut(SeasonalWay.TIME, True, changed, bath_c, 0.0, check, tuple(remarks))


def _diluted(tested: Sourced | None, bath_c: float, held: _Held, agitation: Agitation) -> WayOut:
    if tested is None or tested.evidence not in (Evidence.TESTED, Evidence.PUBLISHED):
        remark = Remark("development.seasons.dilution_untested", {"temp_c": bath_c})
        return WayOut(SeasonalWay.DILUTE, False, None, bath_c, 0.0, None, (remark,))
    require_positive(tested.value, "development.seasons.time_not_positive")
    remarks = (
        Remark("development.seasons.dilution_agent", {"temp_c": bath_c}),
        *longest_remarks(tested.value, agitation),
    )
    return WayOut(SeasonalWay.DILUTE, True, tested, bath_c, 0.0, held(tested.value), remarks)


def short_rule_factor(from_c: float, to_c: float, per_c: float = SHORT_RULE_PER_C, *, compound: bool = False) -> float:
    """Factor of a printed rule of thumb: a share of the time for each degree.

    Parameters
    ----------
    from_c, to_c : float
        [C]
    per_c : float
        Share for each degree; positive. [1/C]
    compound : bool
        Whether each degree takes its share of what the last one left, and not of the first time.

    Raises
    ------
    OutOfRangeError
        If nothing would be left of the time, or a value is not possible.

    References
    ----------
    .. [1] harman-powder-developers-2010, p. 4; harman-ddx-2019, p. 5.

    Examples
    --------
    >>> round(short_rule_factor(20, 16), 3), round(short_rule_factor(20, 24, compound=True), 4)
    (1.4, 0.6561)
    """
    require_liquid(from_c)
    require_liquid(to_c)
    require_positive(per_c, "development.seasons.rule_not_positive")
    colder_c = from_c - to_c
    if not compound:
        factor = 1.0 + per_c * colder_c
    elif per_c >= 1.0:
        factor = 0.0
    else:
        factor = (1.0 + per_c) ** colder_c if colder_c > 0 else (1.0 - per_c) ** -colder_c
    if factor <= 0.0:
        raise OutOfRangeError("development.seasons.rule_ends", from_c=from_c, to_c=to_c, per_c=per_c)
    return factor


def published_rules_span(
    time_s: float, from_c: float, to_c: float, own: Iterable[TemperatureCoefficient] = ()
) -> RuleSpan:
    """What the published rules make of a time at another temperature, beside each other.

    Parameters
    ----------
    time_s : float
        Positive. [s]
    from_c, to_c : float
        [C]
    own : iterable of TemperatureCoefficient
        Coefficients of the developer, one for each source; used here beyond their spans, for comparison only.

    Returns
    -------
    span : RuleSpan
        Never a plan: no single one of them is chosen here.

    Raises
    ------
    OutOfRangeError
        If a value is not possible.

    Examples
    --------
    >>> span = published_rules_span(360, 20, 16)
    >>> [(one.rule, round(one.time_s / 60, 1)) for one in span.times]
    [('chart', 8.8), ('short-added', 8.4), ('short-compounded', 8.8)]
    """
    require_positive(time_s, "development.seasons.time_not_positive")
    require_liquid(from_c)
    require_liquid(to_c)
    chart = GENERAL_COEFFICIENT
    times = [
        RuleTime("own", time_s * _unbounded(one, from_c, to_c), one.source.key if one.source else "") for one in own
    ]
    times.append(RuleTime("chart", time_s * _unbounded(chart, from_c, to_c), chart.source.key if chart.source else ""))
    for rule, compound in (("short-added", False), ("short-compounded", True)):
        try:
            rule_s: float | None = time_s * short_rule_factor(from_c, to_c, compound=compound)
        except OutOfRangeError:
            rule_s = None
        times.append(RuleTime(rule, rule_s, "harman-powder-developers-2010"))
    said = [one.time_s for one in times if one.time_s is not None]
    return RuleSpan(tuple(times), min(said), max(said), max(said) / min(said) - 1.0)


def _unbounded(coefficient: TemperatureCoefficient, from_c: float, to_c: float) -> float:
    require_not_negative(coefficient.per_c, "development.seasons.rule_not_positive")
    return temperature_factor(named_coefficient(coefficient.per_c), from_c, to_c)


if TYPE_CHECKING:
    from collections.abc import Callable

    _Held = Callable[[float], FloorCheck]
