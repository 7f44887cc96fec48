"""Time in developer that has been used before, by the area that went through it, and where reuse ends."""

from __future__ import annotations

from math import floor, sqrt
from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_positive
from wetside.development.ways import Remark
from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence, Source, Sourced
from wetside.values.sheet_size import UNIT_AREA_CM2

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.values.window import Window

NARROWEST_WINDOW = 0.1
"""A step of the rule is 10 % of the time, so a sheet that asks for less is not put in used developer. [1]"""
UNEVEN_USE = 0.25
"""Our choice: from a quarter more or less than plain area on, the history counts as dense or thin. [1]"""
_ROUNDING = 1e-9


class ReuseRule(NamedTuple):
    """What a sheet prints of one developer used again.

    ``capacity_units`` units of 80 square inches that a litre takes [1/l], None where the developer is for single use;
    ``added_per_unit`` share of the standard time for each unit in a litre [1]; ``one_session`` whether it is not kept.
    """

    developer: str
    dilution: str
    capacity_units: float | None
    added_per_unit: float
    one_session: bool
    source: Source
    note: str = ""


class UsedArea(NamedTuple):
    """Film that went through; ``weight`` over 1 for dense sheets, under 1 for thin ones [1]."""

    area_cm2: float
    weight: float = 1.0


class ReusedTime(NamedTuple):
    """Time of the next load in used developer.

    ``number`` tells which turn of the developer it is, 1 for unused: the evidence condition that belongs to the time;
    ``time`` [s]; ``factor`` on the standard time [1]; ``passed_units`` film before this load and ``weighted_units``
    the same by weight [1]; ``left_units`` what the maker's count leaves after this load [1].
    """

    number: int
    time: Sourced
    factor: float
    passed_units: float
    weighted_units: float
    left_units: float
    remarks: tuple[Remark, ...]


def reused_time(
    standard_s: float,
    history: Iterable[UsedArea],
    load_cm2: float,
    rule: ReuseRule,
    litres: float = 1.0,
    *,
    is_push: bool = False,
) -> ReusedTime:
    """Time of a load in developer that other film went through before.

    Parameters
    ----------
    standard_s : float
        Time in unused developer; positive. [s]
    history : iterable of UsedArea
        Film before this load, in any order.
    load_cm2 : float
        Film of this load. [cm2]
    rule : ReuseRule
        Of the developer's sheet.
    litres : float
        Developer that takes turns, mixed again after each load; at least one. [l]
    is_push : bool
        Whether the time is for an exposure index above the film's own.

    Returns
    -------
    time : ReusedTime
        ``converted`` from the second turn on; its spread is half a step, because a load stands anywhere between two.

    Raises
    ------
    RefusedError
        If the developer is for single use, its count would be passed, or the film is pushed in used developer.
    OutOfRangeError
        If a value is not possible.

    Notes
    -----
    ``1 + added * floor(units / litres)``: it adds, it does not compound. The steps are the maker's, who counts whole
    films; area stands for films, so that four 4x5 in sheets are one.

    References
    ----------
    .. [1] harman-powder-developers-2010, pp. 7-9; harman-ddx-2019, p. 6.

    Examples
    --------
    >>> rule = ReuseRule("Brackwater", "stock", 10.0, 0.1, False, Source("own notes"))
    >>> third = reused_time(480, [UsedArea(129.032)] * 8, 516.128, rule)
    >>> third.number, round(third.factor, 2), round(third.time.value), round(third.left_units, 2)
    (3, 1.2, 576, 7.0)
    """
    require_positive(standard_s, "development.reuse.time_not_positive")
    require_positive(load_cm2, "development.reuse.area_not_positive")
    if rule.capacity_units is None:
        raise RefusedError("development.reuse.single_use", developer=rule.developer, dilution=rule.dilution)
    require_positive(rule.capacity_units, "development.reuse.capacity_not_positive")
    require_positive(rule.added_per_unit, "development.reuse.capacity_not_positive")
    if not 1.0 <= litres <= 1e6:
        raise OutOfRangeError("development.reuse.under_a_litre", value=litres)
    passed = weighted = 0.0
    for entry in history:
        require_positive(entry.area_cm2, "development.reuse.area_not_positive")
        require_positive(entry.weight, "development.reuse.weight_not_positive")
        passed += entry.area_cm2 / UNIT_AREA_CM2
        weighted += entry.area_cm2 / UNIT_AREA_CM2 * entry.weight
    left = rule.capacity_units * litres - passed - load_cm2 / UNIT_AREA_CM2
    if left < -_ROUNDING:
        raise RefusedError(
            "development.reuse.used_up",
            passed=passed,
            load=load_cm2 / UNIT_AREA_CM2,
            most=rule.capacity_units * litres,
        )
    steps = floor(passed / litres + _ROUNDING)
    if steps and is_push:
        raise RefusedError("development.reuse.no_push", source=rule.source.key)
    factor = 1.0 + rule.added_per_unit * steps
    used = passed > _ROUNDING
    half_step_s = standard_s * rule.added_per_unit / 2.0 if used else 0.0
    evidence = Evidence.CONVERTED if used else Evidence.PUBLISHED
    time = Sourced(standard_s * factor, evidence, rule.source, half_step_s)
    return ReusedTime(
        steps + 1, time, factor, passed, weighted, max(0.0, left), _remarks(rule, passed, weighted, steps + 1)
    )


def _remarks(rule: ReuseRule, passed: float, weighted: float, number: int) -> tuple[Remark, ...]:
    if passed <= _ROUNDING:
        return ()
    remarks = [Remark("development.reuse.turn", {"number": number, "passed": passed})]
    if abs(weighted / passed - 1.0) > UNEVEN_USE:
        code = "development.reuse.dense_history" if weighted > passed else "development.reuse.thin_history"
        remarks.append(Remark(code, {"passed": passed, "weighted": weighted}))
    if rule.one_session:
        remarks.append(Remark("development.reuse.one_session", {"source": rule.source.key}))
    return tuple(remarks)


def require_window_for_reuse(window: Window, number: int) -> None:
    """Refuse to put a sheet with a narrow window into used developer.

    Parameters
    ----------
    window : Window
        Of the sheet. [s]
    number : int
        Turn of the developer; 1, unused, is never refused. [1]

    Raises
    ------
    RefusedError
        ``development.reuse.window_narrow`` where the window is less than 10 % either side of its middle.
    OutOfRangeError
        If the window is no span of times.

    Examples
    --------
    >>> from wetside.values.window import Window
    >>> require_window_for_reuse(Window(600 / 1.1, 600 * 1.1), 3)
    """
    require_positive(window.low_s, "development.reuse.time_not_positive")
    if not window.low_s <= window.high_s < float("inf"):
        raise OutOfRangeError("development.reuse.window_reversed", low_s=window.low_s, high_s=window.high_s)
    half_share = sqrt(window.high_s / window.low_s) - 1.0
    if number > 1 and half_share < NARROWEST_WINDOW - _ROUNDING:
        raise RefusedError("development.reuse.window_narrow", share=half_share, least=NARROWEST_WINDOW)
