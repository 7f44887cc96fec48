"""The paper test by eye: a tablet printed on one's own paper gives the aim, the clear rebate the proof time."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.aims import default_tolerance
from wetside.sensitometry.channels import channels_of_printing
from wetside.sensitometry.grades import PrintingAim
from wetside.sensitometry.tablet import nominal_tablet
from wetside.values.evidence import Evidence, Source

if TYPE_CHECKING:
    from collections.abc import Sequence

ELASTICITY = 0.65
"""Share of contrast that a share of developing time moves, near a normal time (handbook, corrections 3.1: traced
family, 0.645 at 6 minutes); here only to say what an error is worth. [1]"""


class PaperTest(NamedTuple):
    """What a printed tablet says of a paper.

    ``log_exposure_range`` is the range that fills the paper, true to ``uncertainty`` either side [log10];
    ``toned_steps`` the steps that are neither black nor white; ``range_share`` the uncertainty as a share of the range,
    ``time_share`` what that is worth of developing time [1].
    """

    log_exposure_range: float
    uncertainty: float
    toned_steps: int
    range_share: float
    time_share: float


class BlackTime(NamedTuple):
    """Least time for black through clear film: the first strip that equals the next, and the one before it. [s]"""

    time_s: float
    low_s: float


def paper_range_of_steps(
    first_not_black: int, last_not_white: int, tablet_densities: Sequence[float] | None = None
) -> PaperTest:
    """Log exposure range of a paper from a step tablet printed on it and judged by eye.

    Parameters
    ----------
    first_not_black : int
        Number of the first step that can be told from full black; the tablet's clear step is 1.
    last_not_white : int
        Number of the last step that can be told from the paper's white.
    tablet_densities : sequence of float, optional
        Measured densities of the tablet, the clear step first; 21 nominal steps of 0.15 if absent. [density]

    Returns
    -------
    test : PaperTest

    Raises
    ------
    OutOfRangeError
        If the tablet's densities do not rise, or a step is not on it.
    RefusedError
        If no step is black or none is white, so that an end was not found, or the two steps are the wrong way round.

    Notes
    -----
    The range is more than from the first toned step to the last, and less than from the last black one to the first
    white one. Half way between the two is ``count · 0.15`` on an even tablet, and the uncertainty one step.

    References
    ----------
    .. [1] analogica-t5675, 0.15 a step; handbook, corrections 2.

    Examples
    --------
    >>> test = paper_range_of_steps(5, 11)
    >>> round(test.log_exposure_range, 2), round(test.uncertainty, 2), test.toned_steps
    (1.05, 0.15, 7)
    >>> round(test.range_share, 2), round(test.time_share, 2)
    (0.14, 0.22)
    """
    tablet = nominal_tablet() if tablet_densities is None else tuple(tablet_densities)
    for value in tablet:
        if not 0.0 <= value <= 6.0:
            raise OutOfRangeError("sensitometry.tablet.density", value=value)
    for before, after in pairwise(tablet):
        if after <= before:
            raise OutOfRangeError("sensitometry.paper_test.tablet_falls", before=before, after=after)
    for step in (first_not_black, last_not_white):
        if not 1 <= step <= len(tablet) or step != int(step):
            raise OutOfRangeError("sensitometry.tablet.step", step=step, count=len(tablet))
    first, last = int(first_not_black), int(last_not_white)
    if last < first:
        raise RefusedError("sensitometry.paper_test.wrong_way", first=first, last=last)
    if first == 1:
        raise RefusedError("sensitometry.paper_test.no_black")
    if last == len(tablet):
        raise RefusedError("sensitometry.paper_test.no_white", count=len(tablet))
    inner = tablet[last - 1] - tablet[first - 1]
    outer = tablet[last] - tablet[first - 2]
    middle, half = 0.5 * (inner + outer), 0.5 * (outer - inner)
    return PaperTest(middle, half, last - first + 1, half / middle, half / middle / ELASTICITY)


def mean_paper_test(tests: Sequence[PaperTest]) -> PaperTest:
    """Mean of several printed tablets; the uncertainty of the mean falls with the root of their number.

    Parameters
    ----------
    tests : sequence of PaperTest
        Prints made and judged apart, best with the time shifted by part of a step; one at least.

    Returns
    -------
    test : PaperTest

    Raises
    ------
    RefusedError
        If there is none.

    Examples
    --------
    >>> tests = [paper_range_of_steps(5, 11), paper_range_of_steps(5, 12)]
    >>> round(mean_paper_test(tests).log_exposure_range, 3), round(mean_paper_test(tests).uncertainty, 3)
    (1.125, 0.106)
    """
    if not tests:
        raise RefusedError("sensitometry.paper_test.none")
    count = len(tests)
    middle = math.fsum(test.log_exposure_range for test in tests) / count
    half = math.sqrt(math.fsum(test.uncertainty**2 for test in tests)) / count
    toned = round(math.fsum(test.toned_steps for test in tests) / count)
    return PaperTest(middle, half, toned, half / middle, half / middle / ELASTICITY)


def aim_of_test(test: PaperTest, printing: str) -> PrintingAim:
    """Aim for a paper that was tested by eye: its range, with the tolerance of the printing; evidence tested.

    Parameters
    ----------
    test : PaperTest
    printing : str
        ``graded-paper``, ``variable-paper`` or ``alternative``: the tablet printed through the filter and under the
        light that will be used.

    Returns
    -------
    aim : PrintingAim
        The test's own uncertainty is larger than the tolerance; it shifts every sheet alike and is told beside it.

    Raises
    ------
    OutOfRangeError
        If the printing is not known.

    Examples
    --------
    >>> aim = aim_of_test(paper_range_of_steps(5, 11), "graded-paper")
    >>> round(aim.density_range, 2), aim.tolerance, aim.evidence.value
    (1.05, 0.08, 'tested')
    """
    return PrintingAim(
        test.log_exposure_range,
        default_tolerance(printing),
        printing,
        channels_of_printing(printing),
        Evidence.TESTED,
        Source("own", "paper test by eye"),
    )


def strip_times_s(first_s: float, stops_apart: float, count: int) -> tuple[float, ...]:
    """Exposure times of a test strip in equal steps of light.

    Parameters
    ----------
    first_s : float
        Shortest; positive. [s]
    stops_apart : float
        Between two strips; a third is fine enough for a proof. [stops]
    count : int
        Strips, 2 to 30.

    Returns
    -------
    times_s : tuple of float
        Of each strip in all, not the added part. [s]

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    Examples
    --------
    >>> [round(time_s, 1) for time_s in strip_times_s(8.0, 0.5, 4)]
    [8.0, 11.3, 16.0, 22.6]
    """
    _positive(first_s)
    if not 0.01 <= stops_apart <= 5.0:
        raise OutOfRangeError("sensitometry.paper_test.stops_apart", value=stops_apart)
    if not 2 <= count <= 30:
        raise OutOfRangeError("sensitometry.paper_test.strips", count=count)
    return tuple(first_s * 2.0 ** (stops_apart * at) for at in range(count))


def minimum_black_time(times_s: Sequence[float], first_full_black: int) -> BlackTime:
    """Least time for black through clear film, from a test strip through the clear rebate.

    Parameters
    ----------
    times_s : sequence of float
        Of each strip in all, rising. [s]
    first_full_black : int
        Number of the first strip that cannot be told from the next one, when dry; 1 is the shortest.

    Returns
    -------
    black : BlackTime
        With this time every negative of that film and base is proofed; shadows too thin or highs too dense then show.

    Raises
    ------
    OutOfRangeError
        If the times do not rise, or there is no such strip.
    RefusedError
        If it is the first, so that less may do, or the last, so that nothing shows that more adds nothing.

    References
    ----------
    .. [1] Common practice; handbook, corrections 2.

    Examples
    --------
    >>> minimum_black_time((8.0, 11.0, 16.0, 22.0), 3)
    BlackTime(time_s=16.0, low_s=11.0)
    """
    for value in times_s:
        _positive(value)
    for before, after in pairwise(times_s):
        if after <= before:
            raise OutOfRangeError("sensitometry.paper_test.times_fall", before=before, after=after)
    if not 1 <= first_full_black <= len(times_s) or first_full_black != int(first_full_black):
        raise OutOfRangeError("sensitometry.paper_test.strip", strip=first_full_black, count=len(times_s))
    at = int(first_full_black)
    if at == 1:
        raise RefusedError("sensitometry.paper_test.first_black", time_s=times_s[0])
    if at == len(times_s):
        raise RefusedError("sensitometry.paper_test.last_black", time_s=times_s[-1])
    return BlackTime(float(times_s[at - 1]), float(times_s[at - 2]))


def black_time_for_base_s(time_s: float, base_fog: float, new_base_fog: float) -> float:
    """Least time for black once base + fog has changed: another film, or the same one with more fog.

    Parameters
    ----------
    time_s : float
        That was found; positive. [s]
    base_fog, new_base_fog : float
        Then and now, in the light that the paper sees; 0 to 6. [density]

    Returns
    -------
    time_s : float
        ``time · 10^(new - old)``. [s]

    Raises
    ------
    OutOfRangeError
        If a number is not possible.

    References
    ----------
    .. [1] zone2tone-density, density as a factor on the print time.

    Examples
    --------
    >>> round(black_time_for_base_s(10.0, 0.20, 0.30), 1)
    12.6
    """
    _positive(time_s)
    for value in (base_fog, new_base_fog):
        if not 0.0 <= value <= 6.0:
            raise OutOfRangeError("sensitometry.density.impossible", value=value)
    return float(time_s * 10.0 ** (new_base_fog - base_fog))


def _positive(time_s: float) -> None:
    if not 0.0 < time_s < 1e7:
        raise OutOfRangeError("sensitometry.density.print_time", value=time_s)
