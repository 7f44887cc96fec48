"""After the negative: keep it, print it softer or harder, intensify, reduce, or make it again.

No method with chromium or mercury is proposed, and no formula is given: for a treatment the product's own sheet counts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.aims import grade_change, zones_of_range_change
from wetside.sensitometry.density import opacity_of_density
from wetside.sensitometry.grades import PrintingAim, PrintingRange, printing_for_range
from wetside.values.evidence import Evidence, weakest_evidence

if TYPE_CHECKING:
    from collections.abc import Sequence

SELENIUM_GAIN = (0.15, 0.20)
"""Share by which selenium raises net density; recalled (handbook, corrections 2.5): assumed. [1]"""
MOST_REDUCED = 0.30
"""Share of a range beyond which proportional reduction is not proposed; our choice. [1]"""

COPY_FIRST = "sensitometry.after.copy_first"
PRODUCT_SHEET = "sensitometry.after.product_sheet"
SELENIUM_TOXIC = "sensitometry.after.selenium_toxic"
SELENIUM_AMMONIA = "sensitometry.after.selenium_ammonia"
FIXED_AND_WASHED = "sensitometry.after.fixed_and_washed"
TRY_SPARE = "sensitometry.after.try_spare"
NO_WAY_BACK = "sensitometry.after.no_way_back"

KEEP, PRINT, INTENSIFY, REDUCE, CUT, REMAKE = "keep", "print", "intensify", "reduce", "cut", "remake"


class NegativeReading(NamedTuple):
    """A finished negative: net densities of its placed shadow and highlight in the printing's light, and its state.

    ``fixed_and_washed`` is true only where it is known; ``repeatable`` whether the picture can be made again.
    """

    shadow_net: float
    highlight_net: float
    fixed_and_washed: bool = False
    repeatable: bool = False
    evidence: Evidence = Evidence.TESTED

    @property
    def density_range(self) -> float:
        """Highlight less shadow. [density]"""
        return self.highlight_net - self.shadow_net


class AfterOption(NamedTuple):
    """One way on, with what it would give.

    ``range_after`` is the predicted range, ``range_after_low`` and ``range_after_high`` its span; ``wanted`` the range
    of the printing that it goes to [density]; ``deviation`` is |range - wanted| / tolerance [1]; ``printing`` the row
    to print on where the paper changes, ``grades`` the change of grade that it amounts to, positive for harder;
    ``print_factor`` what the treatment does to the print exposure of the middle tone [1]; ``lost`` what it takes off
    the shadow for good [density]; ``possible`` is false with ``reason`` where it is only shown.
    """

    act: str
    range_after: float
    range_after_low: float
    range_after_high: float
    wanted: float
    deviation: float
    printing: PrintingRange | None
    grades: float
    print_factor: float
    lost: float
    zones: float
    evidence: Evidence
    cautions: tuple[str, ...]
    possible: bool
    reason: str | None


class AfterDecision(NamedTuple):
    """The negative's range and how far it is off [density; deviation 1], all ways on, and the one advised."""

    range_before: float
    off: float
    deviation: float
    options: tuple[AfterOption, ...]
    advised: AfterOption


def print_time_s(time_s: float, density: float, new_density: float) -> float:
    """Print time under a denser or thinner negative.

    Parameters
    ----------
    time_s : float
        Under the known density; positive. [s]
    density, new_density : float
        In the light that the paper sees. [density]

    Returns
    -------
    print_time_s : float
        ``time · 10^(new - old)``; much longer or shorter ones are better split with the aperture, because paper loses
        speed too. [s]

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    References
    ----------
    .. [1] gluedideas-printing, 12 s under density 1.5 becomes 30 s under 1.9.

    Examples
    --------
    >>> round(print_time_s(12.0, 1.5, 1.9))
    30
    """
    if not 0.0 < time_s < 1e7:
        raise OutOfRangeError("sensitometry.density.print_time", value=time_s)
    return time_s * opacity_of_density(new_density - density)


def intensified_density(net_density: float, gain: float) -> float:
    """Net density after an intensifier that adds the same share everywhere.

    Parameters
    ----------
    net_density : float
        Above base + fog; 0 to 6. [density]
    gain : float
        0 to 1; selenium about 0.15 to 0.20 (assumed). [1]

    Returns
    -------
    net_density : float
        [density]

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    Examples
    --------
    >>> [round(intensified_density(1.2, gain), 2) for gain in SELENIUM_GAIN]
    [1.38, 1.44]
    """
    if not 0.0 <= gain <= 1.0:
        raise OutOfRangeError("sensitometry.after.gain", value=gain)
    return _net(net_density) * (1.0 + gain)


def reduced_proportionally(net_density: float, share: float) -> float:
    """Net density after a reducer that takes the same share everywhere: it lowers contrast.

    Parameters
    ----------
    net_density : float
        Above base + fog; 0 to 6. [density]
    share : float
        0 up to, not including, 1. [1]

    Returns
    -------
    net_density : float
        [density]

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    Examples
    --------
    >>> round(reduced_proportionally(1.5, 0.2), 2)
    1.2
    """
    if not 0.0 <= share < 1.0:
        raise OutOfRangeError("sensitometry.after.share", value=share)
    return _net(net_density) * (1.0 - share)


def reduced_by_cutting(net_density: float, cut: float) -> float:
    """Net density after a reducer that takes the same amount everywhere: contrast stays, thin shadows go.

    Parameters
    ----------
    net_density : float
        Above base + fog; 0 to 6. [density]
    cut : float
        Taken off; not negative. [density]

    Returns
    -------
    net_density : float
        Not less than 0: what was thinner than the cut is gone for good. [density]

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    Examples
    --------
    >>> round(reduced_by_cutting(1.5, 0.3), 2), reduced_by_cutting(0.2, 0.3)
    (1.2, 0.0)
    """
    return max(_net(net_density) - _net(cut), 0.0)


def decide_after_negative(
    negative: NegativeReading,
    aim: PrintingAim,
    rows: Sequence[PrintingRange] = (),
    *,
    cut: float | None = None,
    own_gain: float | None = None,
) -> AfterDecision:
    """Ways on with a finished negative, each with its predicted range, and the gentlest that serves.

    Parameters
    ----------
    negative : NegativeReading
    aim : PrintingAim
        What it was meant for.
    rows : sequence of PrintingRange
        Grades or filters at hand; none for a process without grades, or where only the one paper is there.
    cut : float, optional
        Density that a cutting reducer would take off a dense negative, to show what that does. [density]

    own_gain : float, optional
        Share by which your own selenium toner raised a negative that was measured before and after; selenium's span
        if absent. [1]

    Returns
    -------
    decision : AfterDecision
        Advised is the first of keep, print on another grade, intensify, make again, reduce that lies inside the
        tolerance; where none does, the nearest among those that change nothing for good, and making again where the
        picture can be made again.

    Raises
    ------
    OutOfRangeError
        If a density or the gain is impossible.
    RefusedError
        If the highlight is not denser than the shadow.

    Notes
    -----
    Selenium multiplies net densities by 1.15 to 1.20; the middle counts. Proportional reduction takes the share
    ``1 - aim / range``. Cutting leaves the range as it is until the shadow reaches base + fog.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> aim = PrintingAim(1.05, 0.08, "graded-paper", ("blue",), Evidence.TESTED, None)
    >>> decision = decide_after_negative(NegativeReading(0.10, 1.00, fixed_and_washed=True), aim)
    >>> decision.advised.act, round(decision.advised.range_after, 3)
    ('intensify', 1.058)
    """
    shadow, highlight = _net(negative.shadow_net), _net(negative.highlight_net)
    before = highlight - shadow
    if before <= 0.01:
        raise RefusedError("sensitometry.after.no_range", shadow=shadow, highlight=highlight)
    off = before - aim.density_range
    options = [_option(KEEP, negative, aim, before)]
    if rows:
        options.append(_print_option(negative, aim, rows))
    if own_gain is not None:
        intensified_density(highlight, own_gain)
    options.append(_intensify_option(negative, aim, rows, own_gain))
    options += [_remake_option(negative, aim), _reduce_option(negative, aim)]
    if cut is not None:
        options.append(_cut_option(negative, aim, cut))
    return AfterDecision(before, off, abs(off) / aim.tolerance, tuple(options), _advised(options))


def _net(value: float) -> float:
    if not 0.0 <= value <= 6.0:
        raise OutOfRangeError("sensitometry.density.impossible", value=value)
    return value


def _option(
    act: str,
    negative: NegativeReading,
    aim: PrintingAim,
    after: float,
    *,
    span: tuple[float, float] | None = None,
    wanted: float | None = None,
    row: PrintingRange | None = None,
    moved: float = 0.0,
    lost: float = 0.0,
    evidence: Evidence | None = None,
    cautions: tuple[str, ...] = (),
    reason: str | None = None,
) -> AfterOption:
    """Fill in what all options have in common; ``moved`` is what the treatment adds to the middle tone. [density]"""
    wanted = aim.density_range if wanted is None else wanted
    return AfterOption(
        act=act,
        range_after=after,
        range_after_low=span[0] if span else after,
        range_after_high=span[1] if span else after,
        wanted=wanted,
        deviation=abs(after - wanted) / aim.tolerance,
        printing=row,
        grades=grade_change(aim.density_range - wanted),
        print_factor=opacity_of_density(moved),
        lost=lost,
        zones=zones_of_range_change(after, aim.density_range) if after > 1e-3 else 0.0,
        evidence=weakest_evidence(negative.evidence, aim.evidence) if evidence is None else evidence,
        cautions=cautions,
        possible=reason is None,
        reason=reason,
    )


def _print_option(negative: NegativeReading, aim: PrintingAim, rows: Sequence[PrintingRange]) -> AfterOption:
    fit = printing_for_range(negative.density_range, rows)
    inside = min(max(negative.density_range, fit.row.range_low), fit.row.range_high)
    evidence = weakest_evidence(negative.evidence, fit.row.evidence)
    return _option(PRINT, negative, aim, negative.density_range, wanted=inside, row=fit.row, evidence=evidence)


def _intensify_option(
    negative: NegativeReading, aim: PrintingAim, rows: Sequence[PrintingRange], own_gain: float | None
) -> AfterOption:
    """Intensify, and print on another grade as well where intensifying alone is not enough."""
    before = negative.density_range
    gains = SELENIUM_GAIN if own_gain is None else (own_gain, own_gain)
    low, high = (before * (1.0 + gain) for gain in gains)
    gain = 0.5 * sum(gains)
    after = before * (1.0 + gain)
    row, wanted = None, None
    if rows and abs(after - aim.density_range) > aim.tolerance:
        row = printing_for_range(after, rows).row
        wanted = min(max(after, row.range_low), row.range_high)
    reason = None
    if before >= aim.density_range:
        reason = "sensitometry.after.hard_enough"
    elif not negative.fixed_and_washed:
        reason = FIXED_AND_WASHED
    return _option(
        INTENSIFY,
        negative,
        aim,
        after,
        span=(low, high),
        wanted=wanted,
        row=row,
        moved=0.5 * (negative.shadow_net + negative.highlight_net) * gain,
        evidence=Evidence.ASSUMED if own_gain is None else None,
        cautions=(COPY_FIRST, FIXED_AND_WASHED, SELENIUM_TOXIC, SELENIUM_AMMONIA, TRY_SPARE, PRODUCT_SHEET),
        reason=reason,
    )


def _reduce_option(negative: NegativeReading, aim: PrintingAim) -> AfterOption:
    before = negative.density_range
    share = max(1.0 - aim.density_range / before, 0.0)
    reason = None
    if share == 0.0:
        reason = "sensitometry.after.soft_enough"
    elif not negative.fixed_and_washed:
        reason = FIXED_AND_WASHED
    elif share > MOST_REDUCED:
        reason = "sensitometry.after.too_much_reduction"
    share = min(share, MOST_REDUCED)
    return _option(
        REDUCE,
        negative,
        aim,
        before * (1.0 - share),
        moved=-0.5 * (negative.shadow_net + negative.highlight_net) * share,
        lost=negative.shadow_net * share,
        evidence=Evidence.ASSUMED,
        cautions=(COPY_FIRST, NO_WAY_BACK, FIXED_AND_WASHED, TRY_SPARE, PRODUCT_SHEET),
        reason=reason,
    )


def _cut_option(negative: NegativeReading, aim: PrintingAim, cut: float) -> AfterOption:
    shadow = reduced_by_cutting(negative.shadow_net, cut)
    highlight = reduced_by_cutting(negative.highlight_net, cut)
    return _option(
        CUT,
        negative,
        aim,
        highlight - shadow,
        moved=0.5 * (shadow + highlight - negative.shadow_net - negative.highlight_net),
        lost=negative.shadow_net - shadow,
        evidence=Evidence.ASSUMED,
        cautions=(COPY_FIRST, NO_WAY_BACK, FIXED_AND_WASHED, TRY_SPARE, PRODUCT_SHEET),
        reason=None if negative.fixed_and_washed else FIXED_AND_WASHED,
    )


def _remake_option(negative: NegativeReading, aim: PrintingAim) -> AfterOption:
    reason = None if negative.repeatable else "sensitometry.after.not_repeatable"
    return _option(REMAKE, negative, aim, aim.density_range, reason=reason)


def _advised(options: Sequence[AfterOption]) -> AfterOption:
    """First that serves, in the order in which the options stand; a cut changes no contrast and is never advised."""
    offered = [option for option in options if option.possible and option.act != CUT]
    serving = next((option for option in offered if option.deviation <= 1.0 + 1e-9), None)
    if serving is not None:
        return serving
    return min((option for option in offered if option.act in (KEEP, PRINT)), key=lambda option: option.deviation)
