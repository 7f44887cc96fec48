"""Rescue of a misexposed sheet: what each developing time would give, how far to contract, and what is lost for good.

Overexposure moves the tones along the curve; it does not widen their range. So the normal time stands, and printing
takes more light, unless the highlight passes a stated limit.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError, WetsideError
from wetside.sensitometry.aims import grade_change
from wetside.sensitometry.density import opacity_of_density
from wetside.sensitometry.shoulder import longest_time_before_shoulder, shoulder_log_h_at
from wetside.values.evidence import Evidence, weakest_evidence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.values.family import ContrastFamily

STOP_LOG = math.log10(2.0)
SMALLEST_STOPS = 0.05
"""An error below this is none: no shutter is that true. Our choice. [stops]"""
TIME_STEPS = 9
"""Times shown across the tested span if none are asked for. Our choice. [1]"""

NORMAL, CONTRACT, LENGTHEN = "normal", "contract", "lengthen"


class DensityLimit(NamedTuple):
    """What sets a limit (``scanner``, ``printing``), the net density not to be passed [density], how sure it is."""

    kind: str
    net_density: float
    evidence: Evidence


class Misexposure(NamedTuple):
    """A sheet whose exposure missed.

    ``shadow_log_h`` is where the placed shadow was meant to lie [log10 lux-second, or the readings' own scale],
    ``log_range`` the scene's range on the film, flare subtracted once [log10]; ``stop_error`` and
    ``highlight_stop_error`` what the film really got more (positive) or less; the second differs after a double
    exposure only, None where it is the same [stops].
    """

    shadow_log_h: float
    log_range: float
    stop_error: float
    highlight_stop_error: float | None = None

    @property
    def film_log_h(self) -> tuple[float, float]:
        """Exposures of shadow and highlight as they are. [log10 lux-second, or the readings' own scale]"""
        high = self.stop_error if self.highlight_stop_error is None else self.highlight_stop_error
        return (
            self.shadow_log_h + STOP_LOG * self.stop_error,
            self.shadow_log_h + self.log_range + STOP_LOG * high,
        )


class RescuePrediction(NamedTuple):
    """What a developing time [s] gives: net shadow and highlight, and their range [density].

    None, with code and parameters of the reason, where the readings do not reach.
    """

    dev_s: float
    shadow_net: float | None
    highlight_net: float | None
    density_range: float | None
    code: str | None = None
    params: Mapping[str, object] | None = None


class RescueNote(NamedTuple):
    """Something to tell, as a code with parameters."""

    code: str
    params: Mapping[str, object]


class RescueAdvice(NamedTuple):
    """What to do with a misexposed sheet.

    ``act`` is ``normal``, ``contract`` or ``lengthen``; ``dev_s`` the advised time and ``normal_s`` the planned one
    [s]; ``meant`` the sheet rightly exposed at the normal time, ``at_normal`` and ``advised`` the sheet as it is;
    ``predictions`` over a span of times; ``denser`` by how much its middle tone lies above the meant one [density] and
    ``print_factor`` the exposure that makes up for it [1]; ``lost_stops`` how far the placed shadow lies below the
    speed point [stops], ``lost_density`` what separates it from the meant shadow [density]; ``grades`` the change of
    paper that the advised range asks for, positive for softer.
    """

    act: str
    dev_s: float
    normal_s: float
    meant: RescuePrediction
    at_normal: RescuePrediction
    advised: RescuePrediction
    predictions: tuple[RescuePrediction, ...]
    limit: DensityLimit | None
    denser: float | None
    print_factor: float | None
    lost_stops: float
    lost_density: float | None
    grades: float | None
    notes: tuple[RescueNote, ...]
    evidence: Evidence


class PracticeCut(NamedTuple):
    """Cut of developing time that is common practice: least and most of it [1], and how sure it is."""

    low: float
    high: float
    evidence: Evidence
    code: str


def practice_cut(stop_error: float) -> PracticeCut:
    """Cut of developing time for a misexposed sheet where no family was tested: declared common practice, a guess.

    Parameters
    ----------
    stop_error : float
        What the film got more (positive) or less, to the nearest whole stop. [stops]

    Returns
    -------
    cut : PracticeCut
        Up to two stops over nothing; three, a tenth to 15 %; four and more, 20 to 30 %. Under: nothing, and no push.

    Raises
    ------
    OutOfRangeError
        If it is no number of stops.

    References
    ----------
    .. [1] Common practice; handbook, corrections 3.6.

    Examples
    --------
    >>> practice_cut(3.0)[:3], practice_cut(2.0)[:2]
    ((0.1, 0.15, <Evidence.ASSUMED: 'assumed'>), (0.0, 0.0))
    """
    _check_stops(stop_error)
    if stop_error >= 3.5:
        return PracticeCut(0.20, 0.30, Evidence.ASSUMED, "sensitometry.rescue.practice_large")
    if stop_error >= 2.5:
        return PracticeCut(0.10, 0.15, Evidence.ASSUMED, "sensitometry.rescue.practice_three")
    if stop_error > -SMALLEST_STOPS:
        return PracticeCut(0.0, 0.0, Evidence.ASSUMED, "sensitometry.rescue.practice_none")
    return PracticeCut(0.0, 0.0, Evidence.ASSUMED, "sensitometry.rescue.practice_under")


def rescue_predictions(
    family: ContrastFamily, sheet: Misexposure, times_s: Iterable[float] | None = None, *, widen: bool = False
) -> tuple[RescuePrediction, ...]:
    """Net shadow and highlight of a misexposed sheet over a span of developing times.

    Parameters
    ----------
    family : ContrastFamily
    sheet : Misexposure
    times_s : iterable of float, optional
        Times to try; nine across the tested span if absent. [s]
    widen : bool
        Also permit a tenth beyond the span; such answers are assumed.

    Returns
    -------
    predictions : tuple of RescuePrediction

    Raises
    ------
    OutOfRangeError
        If a time lies outside the span, or a number of the sheet is not possible.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.family import contrast_family
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(s, (-3.0, 1.0), (0.1, 0.1 + 4 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> (one,) = rescue_predictions(family, Misexposure(-2.8, 1.8, 3.0), (375.0,))
    >>> round(one.shadow_net, 2), round(one.highlight_net, 2), round(one.density_range, 2)
    (0.61, 1.6, 0.99)
    """
    _check_sheet(sheet)
    if times_s is None:
        low_s, high_s = family.extended_span_s() if widen else family.span_s
        times_s = [low_s + (high_s - low_s) * at / (TIME_STEPS - 1) for at in range(TIME_STEPS)]
    return tuple(_prediction(family, sheet.film_log_h, dev_s, widen=widen) for dev_s in times_s)


def longest_time_under_limit(
    family: ContrastFamily, highlight_log_h: float, limit_net: float, normal_s: float
) -> float | None:
    """Longest time, up to the normal one, that keeps a highlight at or under a net density.

    Parameters
    ----------
    family : ContrastFamily
    highlight_log_h : float
        Exposure of the highlight on the film. [log10 lux-second, or the readings' own scale]
    limit_net : float
        Above base + fog; positive. [density]
    normal_s : float
        Inside the tested span. [s]

    Returns
    -------
    dev_s : float or None
        None where even the shortest tested time passes the limit. [s]

    Raises
    ------
    OutOfRangeError
        If the time lies outside the span, or the limit is no density.
    RefusedError
        If the readings do not reach the highlight.

    Notes
    -----
    Net density at one exposure is straight in time between two tested times, so the answer is exact.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.family import contrast_family
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(s, (-3.0, 1.0), (0.1, 0.1 + 4 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> round(longest_time_under_limit(family, 0.2, 1.9, 450.0), 1)
    440.6
    """
    if not 0.0 < limit_net <= 6.0:
        raise OutOfRangeError("sensitometry.rescue.limit", value=limit_net)
    times = sorted({normal_s, family.span_s[0], *(c.dev_s for c in family.curves if c.dev_s < normal_s)}, reverse=True)
    nets = [family.density_at(dev_s, highlight_log_h) - family.base_fog_at(dev_s) for dev_s in times]
    if nets[0] <= limit_net:
        return times[0]
    for (late_s, late), (early_s, early) in pairwise(zip(times, nets, strict=True)):
        if early <= limit_net:
            return early_s + (late_s - early_s) * (limit_net - early) / (late - early)
    return None


def rescue_sheet(
    family: ContrastFamily,
    sheet: Misexposure,
    normal_s: float,
    aim_range: float,
    tolerance: float,
    *,
    limit: DensityLimit | None = None,
    twin: bool = False,
    times_s: Iterable[float] | None = None,
) -> RescueAdvice:
    """Advise on a misexposed sheet by a tested family.

    Parameters
    ----------
    family : ContrastFamily
    sheet : Misexposure
    normal_s : float
        Time that the sheet would get if its exposure were right; inside the tested span. [s]
    aim_range : float
        Density range that the printing asks for. [density]
    tolerance : float
        Either side of it; positive. [density]
    limit : DensityLimit, optional
        What the highlight shall not pass; none if absent: then only the film's own shoulder is watched.
    twin : bool
        Whether a second sheet was exposed alike.
    times_s : iterable of float, optional
        Times to show; see :func:`rescue_predictions`. [s]

    Returns
    -------
    advice : RescueAdvice
        Over: the normal time and more printing light; shorter only as far as brings the highlight under the limit
        and in front of the film's own shoulder, where a tested time does. Under: longer only until the range is what
        the paper can use, and only where it is too small for it.

    Raises
    ------
    OutOfRangeError
        If a time lies outside the tested span or a number is not possible.
    RefusedError
        If the readings do not reach the sheet as it was meant.

    References
    ----------
    .. [1] Handbook, corrections 3.6.

    Examples
    --------
    >>> from wetside.values.conditions import Agitation, Conditions
    >>> from wetside.values.curve import characteristic_curve
    >>> from wetside.values.family import contrast_family
    >>> family = contrast_family(
    ...     "Tolland 100",
    ...     [characteristic_curve(s, (-3.0, 1.0), (0.1, 0.1 + 4 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7))],
    ...     conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
    ...     channel="visual",
    ...     evidence=Evidence.TESTED,
    ... )
    >>> advice = rescue_sheet(family, Misexposure(-2.8, 1.8, 3.0), 375.0, 1.0, 0.08)
    >>> advice.act, round(advice.denser, 2), round(advice.print_factor, 1)
    ('normal', 0.5, 3.1)
    """
    _check_sheet(sheet)
    for value in (aim_range, tolerance):
        if not 1e-3 <= value <= 6.0:
            raise OutOfRangeError("sensitometry.aim.density_range", value=value)
    meant = _prediction(family, (sheet.shadow_log_h, sheet.shadow_log_h + sheet.log_range), normal_s)
    if meant.density_range is None:
        raise RefusedError("sensitometry.rescue.meant_not_read", film=family.film, dev_s=normal_s)
    at_normal = _prediction(family, sheet.film_log_h, normal_s)
    notes = [RescueNote("sensitometry.rescue.twin_first" if twin else "sensitometry.rescue.look_first", {})]
    dev_s = normal_s
    if sheet.stop_error > SMALLEST_STOPS or sheet.film_log_h[1] > sheet.shadow_log_h + sheet.log_range + 0.01:
        dev_s = _contracted(family, sheet, normal_s, limit, notes)
    elif sheet.stop_error < -SMALLEST_STOPS:
        dev_s = _lengthened(family, sheet, at_normal, aim_range, tolerance, notes)
    advised = _prediction(family, sheet.film_log_h, dev_s)
    if advised.code is not None:
        notes.append(RescueNote("sensitometry.rescue.not_read", {"dev_s": dev_s}))
    act = CONTRACT if dev_s < normal_s - 1e-6 else LENGTHEN if dev_s > normal_s + 1e-6 else NORMAL
    if act != NORMAL:
        notes.append(RescueNote("sensitometry.rescue.own_load", {"dev_s": dev_s, "normal_s": normal_s}))
    denser = _middle_difference(advised, meant)
    low = _lost_stops(family, sheet, dev_s)
    if low > 0.0:
        notes.append(RescueNote("sensitometry.rescue.shadow_lost", {"stops": low}))
    limits = () if limit is None or act != CONTRACT else (limit.evidence,)
    return RescueAdvice(
        act=act,
        dev_s=dev_s,
        normal_s=normal_s,
        meant=meant,
        at_normal=at_normal,
        advised=advised,
        predictions=rescue_predictions(family, sheet, times_s),
        limit=limit,
        denser=denser,
        print_factor=None if denser is None else opacity_of_density(denser),
        lost_stops=low,
        lost_density=_shadow_loss(meant, advised),
        grades=None if advised.density_range is None else grade_change(advised.density_range - aim_range),
        notes=tuple(notes),
        evidence=weakest_evidence(family.evidence, *limits),
    )


def _check_stops(value: float) -> None:
    if not abs(value) <= 15.0:
        raise OutOfRangeError("sensitometry.rescue.stops", value=value)


def _check_sheet(sheet: Misexposure) -> None:
    _check_stops(sheet.stop_error)
    _check_stops(sheet.highlight_stop_error or 0.0)
    if not abs(sheet.shadow_log_h) <= 20.0:
        raise OutOfRangeError("sensitometry.zone.anchor", value=sheet.shadow_log_h)
    if not 1e-3 <= sheet.log_range <= 6.0:
        raise OutOfRangeError("sensitometry.aim.log_range", value=sheet.log_range)


def _prediction(
    family: ContrastFamily, log_h: tuple[float, float], dev_s: float, *, widen: bool = False
) -> RescuePrediction:
    base = family.base_fog_at(dev_s, widen=widen)
    nets: list[float | None] = []
    reason: WetsideError | None = None
    for place in log_h:
        try:
            nets.append(family.density_at(dev_s, place, widen=widen) - base)
        except RefusedError as error:
            nets.append(None)
            reason = reason or error
    shadow, highlight = nets
    found = None if shadow is None or highlight is None else highlight - shadow
    if reason is None:
        return RescuePrediction(dev_s, shadow, highlight, found)
    return RescuePrediction(dev_s, shadow, highlight, found, reason.code, reason.params)


def _contracted(
    family: ContrastFamily,
    sheet: Misexposure,
    normal_s: float,
    limit: DensityLimit | None,
    notes: list[RescueNote],
) -> float:
    """Time for too much exposure: the normal one, unless the highlight passes shoulder or limit. [s]"""
    highlight = sheet.film_log_h[1]
    more = max(sheet.stop_error, (highlight - sheet.shadow_log_h - sheet.log_range) / STOP_LOG)
    notes.append(RescueNote("sensitometry.rescue.print_longer", {"stops": more}))
    dev_s = _before_shoulder(family, highlight, normal_s, notes)
    if limit is None:
        return dev_s
    try:
        under_s = longest_time_under_limit(family, highlight, limit.net_density, dev_s)
    except RefusedError:
        return dev_s  # what is not read cannot be held under a limit; the caller says so
    told = {"kind": limit.kind, "net_density": limit.net_density}
    if under_s is None:
        under_s = family.span_s[0]
        net = family.density_at(under_s, highlight) - family.base_fog_at(under_s)
        notes.append(RescueNote("sensitometry.rescue.limit_not_held", {**told, "dev_s": under_s, "highlight": net}))
    elif under_s < dev_s:
        notes.append(RescueNote("sensitometry.rescue.contracted", {**told, "dev_s": under_s}))
    return under_s


def _before_shoulder(family: ContrastFamily, highlight: float, normal_s: float, notes: list[RescueNote]) -> float:
    """Time that brings the highlight in front of the shoulder; the normal one where none does. [s]"""
    start = shoulder_log_h_at(family, normal_s)
    if start is None or highlight <= start:
        return normal_s
    stops = (highlight - start) / STOP_LOG
    dev_s = longest_time_before_shoulder(family, highlight, normal_s)
    if dev_s is None:
        notes.append(RescueNote("sensitometry.rescue.on_shoulder", {"stops": stops}))
        return normal_s
    notes.append(RescueNote("sensitometry.rescue.before_shoulder", {"stops": stops, "dev_s": dev_s}))
    return dev_s


def _lengthened(
    family: ContrastFamily,
    sheet: Misexposure,
    at_normal: RescuePrediction,
    aim_range: float,
    tolerance: float,
    notes: list[RescueNote],
) -> float:
    """Time for too little exposure: longer only until the range is what the paper can use. [s]"""
    notes.append(RescueNote("sensitometry.rescue.no_shadow_by_push", {"stops": -sheet.stop_error}))
    notes.append(RescueNote("sensitometry.rescue.offer_after", {}))
    found = at_normal.density_range
    if found is None or found >= aim_range - tolerance:
        return at_normal.dev_s
    low, high = sheet.film_log_h
    best_s, best = at_normal.dev_s, found
    for dev_s in (curve.dev_s for curve in family.curves if curve.dev_s > at_normal.dev_s):
        further = _prediction(family, (low, high), dev_s).density_range
        if further is None or further <= best:
            break
        if further >= aim_range:
            return best_s + (dev_s - best_s) * (aim_range - best) / (further - best)
        best_s, best = dev_s, further
    notes.append(RescueNote("sensitometry.rescue.range_not_reached", {"density_range": best, "wanted": aim_range}))
    return best_s


def _lost_stops(family: ContrastFamily, sheet: Misexposure, dev_s: float) -> float:
    """Stops by which the placed shadow lies below the speed point; 0 above it, or where there is none. [stops]"""
    try:
        speed_point = family.speed_log_h_at(dev_s)
    except RefusedError:
        return 0.0
    return max((speed_point - sheet.film_log_h[0]) / STOP_LOG, 0.0)


def _middle_difference(one: RescuePrediction, other: RescuePrediction) -> float | None:
    """Mean of the differences at shadow and highlight: what the print exposure has to make up for. [density]"""
    if one.shadow_net is None or one.highlight_net is None or other.shadow_net is None or other.highlight_net is None:
        return None
    return 0.5 * (one.shadow_net + one.highlight_net - other.shadow_net - other.highlight_net)


def _shadow_loss(meant: RescuePrediction, advised: RescuePrediction) -> float | None:
    if meant.shadow_net is None or advised.shadow_net is None:
        return None
    return max(meant.shadow_net - advised.shadow_net, 0.0)
