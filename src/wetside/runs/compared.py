"""Two runs side by side: why two negatives do not match, ranked by what each difference is likely worth.

Every difference that can be put in figures is a share of developing time, so that shares add, and density and zones
follow from the sum by one rule (:mod:`wetside.runs.worth`). What cannot is listed after them; what nobody knows is
named, and widens the sum.
"""

from __future__ import annotations

from math import fsum, hypot, sqrt
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError
from wetside.runs.compared_setting import setting_differences
from wetside.runs.compared_time import coefficient_per_c, time_differences
from wetside.runs.compared_words import comparable, missing_facts, text_differences
from wetside.runs.difference import Difference, Missing, Side
from wetside.runs.integral import widest_aim
from wetside.runs.known import NOTHING, Known
from wetside.runs.parts import parts_of
from wetside.runs.worth import Worth, worth_of_share

if TYPE_CHECKING:
    from wetside.runs.state import State

NOISE = 0.045
"""What a run differs by from the same run again, as a share of time, one standard deviation: thermometer 1.8 %, pour
and drain 1.9 %, dilution 2 %, movement 3 % (corrections 3.1; the last two from memory). [1]"""


class Run(NamedTuple):
    """A run to be compared: its folded state, how long it has lasted [s], and what is known beside it."""

    state: State
    now_s: float
    known: Known = NOTHING


class Ranked(NamedTuple):
    """A difference with what it is worth; None where no figure can be given."""

    difference: Difference
    worth: Worth | None


class Comparison(NamedTuple):
    """The second run beside the first.

    ``ranked`` differences with figures, the largest first; ``listed`` those without; ``missing`` facts that nobody
    knows; ``share`` the sum of all figures [1] and ``worth`` what it is worth, with all that widens it; ``noise`` what
    two runs that are done alike differ by; ``reference_range`` the density range that figures are given at [density];
    ``direct`` whether the two times were held against each other, or each run against its own plan; ``measured`` the
    difference that a densitometer read, None where it did not read both. [density]
    """

    ranked: tuple[Ranked, ...]
    listed: tuple[Difference, ...]
    missing: tuple[Missing, ...]
    share: float
    spread: float
    worth: Worth | None
    noise: Worth
    reference_range: float
    direct: bool
    measured: float | None

    @property
    def explains(self) -> bool:
        """Whether the sum is more than two runs differ by that are done alike."""
        return self.worth is None or abs(self.worth.density) > self.noise.density_spread

    @property
    def left(self) -> float | None:
        """What was measured and is not explained; None where nothing was. [density]"""
        return None if self.measured is None or self.worth is None else self.measured - self.worth.density


def compare(one: Run, other: Run) -> Comparison:
    """Compare two runs of any process.

    Parameters
    ----------
    one, other : Run
        Figures tell what the second has more than the first; the other way round gives the same figures with the other
        sign.
    """
    sides = [_side(run) for run in (one, other)]
    before, after = sides
    direct = comparable(before, after)
    found = (
        *time_differences(before, after, comparable=direct),
        *setting_differences(before, after, comparable=direct),
        *text_differences(before, after),
    )
    missing = tuple(missing_facts(before, after, coefficient_per_c(before, after)))
    reference_range = sqrt(widest_aim(before.script) * widest_aim(after.script))
    with_figures = sorted((one for one in found if one.share is not None), key=lambda one: -abs(one.share or 0.0))
    share = fsum(one.share or 0.0 for one in with_figures)
    noise = NOISE * sqrt(2.0)
    spread = hypot(noise, *(one.spread for one in found), *(one.spread for one in missing))
    ranges = [run.known.measured_range for run in (one, other)]
    quiet = worth_of_share(0.0, reference_range, noise)
    assert quiet is not None  # noqa: S101 (nothing at all is never too far)
    return Comparison(
        ranked=tuple(
            Ranked(difference, worth_of_share(difference.share or 0.0, reference_range, difference.spread))
            for difference in with_figures
        ),
        listed=tuple(one for one in found if one.share is None),
        missing=missing,
        share=share,
        spread=spread,
        worth=worth_of_share(share, reference_range, spread),
        noise=quiet,
        reference_range=reference_range,
        direct=direct,
        measured=None if ranges[0] is None or ranges[1] is None else ranges[1] - ranges[0],
    )


def _side(run: Run) -> Side:
    """Run with its parts.

    Raises
    ------
    RefusedError
        If it was never opened.
    """
    if run.state.script is None:
        raise RefusedError("runs.compared.not_opened")
    return Side(run.state, run.state.script, parts_of(run.state, run.now_s), run.known)
