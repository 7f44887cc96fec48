"""What the temperature did to the development: from readings, and from how a vessel follows its jacket.

A thermometer in the developer, and one in what was poured out, show the liquid. One in the jacket shows what the liquid
goes towards: ``T_jacket + (T_0 - T_jacket) * exp(-t / tau)``. Between two readings of the liquid the course is that
curve, moved so that it passes through both; without a jacket or its pace it is a straight line.

How the liquid came from one reading to the next nobody saw. The span of the answer runs from a step right after the
first reading to a step right before the second.
"""

from __future__ import annotations

from math import exp
from typing import TYPE_CHECKING, NamedTuple

from wetside.development import density_range_change_assumed
from wetside.development.coefficient import TemperatureCoefficient
from wetside.development.integral import effective_time_s
from wetside.runs.events import Where
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wetside.runs.script import Script
    from wetside.runs.state import ReadingAt

DEAD_BAND = 0.03
"""Below this nothing is proposed: 0.3 to 0.4 C do as much (corrections 3.5). [1]"""
STEP_S = 5.0
"""A curve is drawn in straight pieces of this length; the error is under 1e-5 of the time. [s]"""
SHORTEST_TAU_S = 30.0


class Course(NamedTuple):
    """Temperature of a developer over its time: knots that are known [s], [C], and the curve between and after them."""

    begins_s: float
    knots: tuple[tuple[float, float], ...]
    jacket: tuple[tuple[float, float], ...]
    tau_s: float | None

    def at(self, when_s: float) -> float:
        """Temperature. [C]"""
        earlier = [knot for knot in self.knots if knot[0] <= when_s]
        later = [knot for knot in self.knots if knot[0] > when_s]
        since_s, since_c = earlier[-1] if earlier else self.knots[0]
        free_c = self._free(since_s, since_c, when_s)
        if not later or not earlier:
            return free_c
        next_s, next_c = later[0]
        missed_c = next_c - self._free(since_s, since_c, next_s)
        return free_c + missed_c * (when_s - since_s) / (next_s - since_s)

    def _free(self, since_s: float, since_c: float, when_s: float) -> float:
        """Temperature if nothing but the jacket acts on the liquid. [C]"""
        if self.tau_s is None or not self.jacket:
            return since_c
        temp_c, at_s = since_c, since_s
        changes = [(when, jacket_c) for when, jacket_c in self.jacket if since_s < when < when_s]
        begun = [jacket_c for when, jacket_c in self.jacket if when <= since_s]
        towards_c = begun[-1] if begun else self.jacket[0][1]
        for when, jacket_c in (*changes, (when_s, 0.0)):
            temp_c = towards_c + (temp_c - towards_c) * exp(-(when - at_s) / self.tau_s)
            at_s, towards_c = when, jacket_c
        return temp_c

    def points(self, begins_s: float, ends_s: float) -> list[tuple[float, float]]:
        """Course between two moments, in pieces short enough for any curve. [s], [C]"""
        marks = {begins_s, ends_s, *(when for when, _ in (*self.knots, *self.jacket) if begins_s < when < ends_s)}
        pieces = max(1, int((ends_s - begins_s) / STEP_S))
        marks |= {begins_s + (ends_s - begins_s) * piece / pieces for piece in range(1, pieces)}
        return [(when, self.at(when)) for when in sorted(marks)]


class Effective(NamedTuple):
    """Development by the integral.

    ``time_s`` would have done the same at the planned temperature [s], between ``least_s`` and ``most_s`` as the liquid
    may have gone between its readings [s]; ``outside`` where it left the span of the coefficient's pairs.
    """

    time_s: float
    least_s: float
    most_s: float
    outside: bool


class Correction(NamedTuple):
    """What a reading means for the end.

    ``ratio`` effective over planned time, if the end stays [1]; ``density`` what that is worth; ``shift_s`` by how much
    the end moves [s], 0 inside the dead band; ``left`` the ratio that is left after it [1]; ``bound`` what kept it from
    moving further: ``floor``, ``share``, ``past``, or None; ``code`` says why nothing is moved, or None.
    """

    ratio: float
    density: float | None
    shift_s: float
    left: float
    bound: str | None
    code: str | None


def coefficient_of_script(script: Script) -> TemperatureCoefficient | None:
    """Coefficient that a script carries; None where the developer's is not known."""
    if script.per_c is None:
        return None
    return TemperatureCoefficient(script.per_c, script.span_c, Evidence.PUBLISHED)


def course_of(
    script: Script, readings: Sequence[ReadingAt], begins_s: float, ends_s: float, held_until_s: Sequence[float] = ()
) -> Course:
    """Course of the developer's temperature from its pour to its drain.

    Parameters
    ----------
    script : Script
        Its temperature stands for the pour where nobody read it.
    readings : sequence of ReadingAt
        Of the run. [s], [C]
    begins_s, ends_s : float
        The bath's own time; readings of the liquid outside it belong to another bath. One of what was poured out may
        come later, and holds for the end. [s]
    held_until_s : sequence of float
        Moments up to which the tempering bath is known to have held the planned temperature, such as when the power
        went. [s]
    """
    knots = {begins_s: script.temp_c}
    for until_s in held_until_s:
        if begins_s < until_s < ends_s:
            knots[until_s] = script.temp_c
    for reading in readings:
        if reading.where is Where.DEVELOPER and reading.at_s <= ends_s and reading.at_s >= begins_s - 60.0:
            knots[max(begins_s, reading.at_s)] = reading.temp_c
        elif reading.where is Where.POURED_OUT and reading.at_s >= begins_s:
            knots[min(ends_s, reading.at_s)] = reading.temp_c
    jacket = [(reading.at_s, reading.temp_c) for reading in readings if reading.where is Where.JACKET]
    if not jacket and script.jacket_c is not None:
        jacket = [(begins_s, script.jacket_c)]
    tau_s = script.tau_s if script.tau_s is not None and script.tau_s >= SHORTEST_TAU_S else None
    return Course(begins_s, tuple(sorted(knots.items())), tuple(jacket), tau_s)


def effective_of_course(
    course: Course, coefficient: TemperatureCoefficient, at_c: float, begins_s: float, ends_s: float
) -> Effective:
    """Time at the planned temperature that would have done the same.

    Parameters
    ----------
    course : Course
    coefficient : TemperatureCoefficient
    at_c : float
        Planned temperature. [C]
    begins_s, ends_s : float
        [s]
    """
    points = course.points(begins_s, ends_s)

    def whole(path: Sequence[tuple[float, float]]) -> float:
        return effective_time_s(path, coefficient, at_c, strict=False)

    steps: list[float] = []
    for stays in (True, False):
        path = _stepped(course, begins_s, ends_s, stays=stays)
        steps.append(whole(path))
    likely_s = whole(points)
    span = coefficient.span_c
    temps_c = [temp_c for _, temp_c in points]
    moved = max(temps_c) > at_c + 1e-9 or min(temps_c) < at_c - 1e-9
    outside = moved and span is not None and not (span[0] <= min(temps_c) and max(temps_c) <= span[1])
    return Effective(likely_s, min(*steps, likely_s), max(*steps, likely_s), outside)


def _stepped(course: Course, begins_s: float, ends_s: float, *, stays: bool) -> list[tuple[float, float]]:
    """Course that keeps each reading until the next, or takes the next at once."""
    knots = [knot for knot in course.knots if knot[0] < ends_s]
    later = [knot for knot in course.knots if knot[0] >= ends_s]
    path: list[tuple[float, float]] = [(begins_s, course.at(begins_s))]
    known = [knot for knot in knots if knot[0] > begins_s]
    last_c = later[0][1] if later else course.at(ends_s)
    for when, temp_c in (*known, (ends_s, last_c)):
        at_s, before_c = path[-1]
        path += [(when, before_c), (when, temp_c)] if stays else [(at_s, temp_c), (when, temp_c)]
    return path


def correction_of(
    script: Script, course: Course, begins_s: float, planned_end_s: float, now_s: float, old_shift_s: float = 0.0
) -> Correction | None:
    """What the temperatures so far mean for a developing end that still lies ahead.

    Parameters
    ----------
    script : Script
    course : Course
        Readings so far; after them the liquid follows its jacket, or stays as it is.
    begins_s, planned_end_s : float
        The developing time's ends by the script. [s]
    now_s : float
        An end cannot be moved to before now. [s]
    old_shift_s : float, optional
        By how much the end was moved before: the dead band lies around the end as it stands. [s]

    Returns
    -------
    correction : Correction or None
        None without a coefficient: temperatures are kept, and nothing can be reckoned from them.
    """
    coefficient = coefficient_of_script(script)
    if coefficient is None:
        return None
    wanted_s = planned_end_s - begins_s

    def reached(ends_s: float) -> float:
        return effective_of_course(course, coefficient, script.temp_c, begins_s, ends_s).time_s

    found = effective_of_course(course, coefficient, script.temp_c, begins_s, planned_end_s + old_shift_s)
    ratio = found.time_s / wanted_s
    density = density_of_ratio(widest_aim(script), ratio)
    if found.outside or density is None:
        return Correction(ratio, density, 0.0, ratio, None, "runs.integral.outside")
    if abs(ratio - 1.0) < DEAD_BAND:
        return Correction(ratio, density, 0.0, ratio, None, "runs.integral.dead_band")
    exact_s = _end_that_reaches(reached, wanted_s, begins_s, planned_end_s)
    ends_s, bound = exact_s, None
    most_s = script.most_shift * wanted_s
    if abs(ends_s - planned_end_s) > most_s:
        ends_s, bound = planned_end_s + (most_s if ends_s > planned_end_s else -most_s), "share"
    floor_s = min(script.floor_s, planned_end_s - begins_s)
    if ends_s - begins_s < floor_s:
        ends_s, bound = begins_s + floor_s, "floor"
    if ends_s < now_s:
        ends_s, bound = min(now_s, planned_end_s), "past"
    return Correction(ratio, density, ends_s - planned_end_s, reached(ends_s) / wanted_s, bound, None)


def _end_that_reaches(
    reached: Callable[[float], float], wanted_s: float, begins_s: float, planned_end_s: float
) -> float:
    """End at which the wanted effective time is reached: halved between nothing and four times the plan. [s]"""
    low_s, high_s = begins_s + 1.0, begins_s + 4.0 * (planned_end_s - begins_s)
    while high_s - low_s > 0.1:
        middle_s = (low_s + high_s) / 2.0
        if reached(middle_s) < wanted_s:
            low_s = middle_s
        else:
            high_s = middle_s
    return round(high_s)


def density_of_ratio(aim_range: float, ratio: float) -> float | None:
    """Change of density range that a ratio of developing times is worth.

    Parameters
    ----------
    aim_range : float
        Range that the sheet was to get. [density]
    ratio : float
        Real over planned time. [1]

    Returns
    -------
    density : float or None
        None outside a third to three times the plan, where no rule of thumb holds. [density]
    """
    return density_range_change_assumed(aim_range, ratio) if 1 / 3 <= ratio <= 3.0 else None


def widest_aim(script: Script) -> float:
    """Largest range that a sheet was to get; that of the middle paper grade where none is known. [density]"""
    return max((sheet.aim_range for sheet in script.sheets), default=1.05)
