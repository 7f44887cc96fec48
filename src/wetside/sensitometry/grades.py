"""What papers, filters, alternative processes and scanners ask of a negative: ranges, grades, aims."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.aims import default_tolerance
from wetside.sensitometry.channels import channels_of_printing
from wetside.sensitometry.paper import log_exposure_range_iso6846
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.values.curve import CharacteristicCurve
    from wetside.values.evidence import Source

_RANGES = (0.05, 4.0)
"""No printing asks for less or more. [log10]"""


class PrintingRange(NamedTuple):
    """One row of the printing data: the density range that a grade, filter, enlarger or process takes, or a limit.

    ``kind`` says what the row is (``grade``, ``filter``, ``enlarger``, ``process``, ``limit``); ``printing`` what it
    prints on, as tolerances and channels know it; ``name`` is the row's own (``2``, ``platinum``); ``product`` the
    paper it belongs to, if one; the ends of the range are equal where one figure is published [density]. A limit is
    the net density that a highlight shall not pass, and no aim.
    """

    kind: str
    printing: str
    name: str
    range_low: float
    range_high: float
    product: str
    evidence: Evidence
    source: Source
    note: str = ""

    @property
    def range_mid(self) -> float:
        """Middle of the range. [density]"""
        return 0.5 * (self.range_low + self.range_high)


class PrintingAim(NamedTuple):
    """What a negative shall come to: range and tolerance [density], for which printing, read in which channels."""

    density_range: float
    tolerance: float
    printing: str
    channels: tuple[str, ...]
    evidence: Evidence
    source: Source | None


class PrintingFit(NamedTuple):
    """The row that suits a density range best.

    ``off`` is the negative's range less the row's nearest end or figure, 0 inside a row that spans a range [density].
    ``softer`` and ``harder`` are the rows on either side of the range where it lies between two rows' middles, and
    ``share`` how far it lies from the softer to the harder one [1]; None at an end.
    """

    row: PrintingRange
    off: float
    softer: PrintingRange | None
    harder: PrintingRange | None
    share: float | None


def iso_range_iso6846(log_exposure_range: float) -> int:
    """Range number of a paper: a hundred times its log exposure range, to the nearest ten.

    Parameters
    ----------
    log_exposure_range : float
        0.05 to 4. [log10]

    Returns
    -------
    iso_range : int
        [1]

    Raises
    ------
    OutOfRangeError
        If no paper has such a range.

    Notes
    -----
    The factor is read; the rounding to ten is recalled, and agrees with every number that was read.

    References
    ----------
    .. [1] grainmag-grades, R = 100 times the range; iso-6846-1992.

    Examples
    --------
    >>> iso_range_iso6846(1.12), iso_range_iso6846(0.55)
    (110, 60)
    """
    return 10 * math.floor(10.0 * _checked(log_exposure_range) + 0.5 + 1e-9)


def grade_of_range(log_exposure_range: float, grades: Sequence[PrintingRange]) -> PrintingRange:
    """Grade whose span holds a paper's log exposure range; on a limit, the softer of the two.

    Parameters
    ----------
    log_exposure_range : float
        Of the paper, or the density range of a negative that shall fill it. [log10]
    grades : sequence of PrintingRange
        Spans of the grades, as the package's own data holds them.

    Returns
    -------
    grade : PrintingRange

    Raises
    ------
    OutOfRangeError
        If no grade holds the range.

    References
    ----------
    .. [1] focal-encyclopedia, p. 679: 0.50 to 1.70 divided into grades 0 to 5, and 0.35 to 0.50 added as 6.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> rows = [
    ...     PrintingRange("grade", "graded-paper", name, low, high, "", Evidence.ASSUMED, Source("focal-encyclopedia"))
    ...     for name, low, high in (("1", 1.15, 1.40), ("2", 0.95, 1.15))
    ... ]
    >>> grade_of_range(1.05, rows).name, grade_of_range(1.15, rows).name
    ('2', '1')
    """
    value = _checked(log_exposure_range)
    holding = [row for row in grades if row.range_low - 1e-9 <= value <= row.range_high + 1e-9]
    if not holding:
        raise OutOfRangeError(
            "sensitometry.grade.none_holds",
            value=value,
            low=min((row.range_low for row in grades), default=0.0),
            high=max((row.range_high for row in grades), default=0.0),
        )
    return max(holding, key=lambda row: row.range_mid)


def printing_for_range(density_range: float, rows: Sequence[PrintingRange]) -> PrintingFit:
    """Grade or filter that suits a negative's density range best.

    Parameters
    ----------
    density_range : float
        Of the negative, in the channel that the paper sees. [density]
    rows : sequence of PrintingRange
        Grades of one scheme, or filters of one paper.

    Returns
    -------
    fit : PrintingFit

    Raises
    ------
    OutOfRangeError
        If no negative has such a range.
    RefusedError
        If there is no row to choose from.

    Notes
    -----
    A row that spans the range fits exactly; else the nearest counts, and of two equally near the softer, which loses
    no highlight. Between the middles of two rows the place is taken as straight in density.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> rows = [
    ...     PrintingRange("filter", "variable-paper", name, r, r, "", Evidence.PUBLISHED, Source("grainmag-grades"))
    ...     for name, r in (("1", 1.30), ("2", 1.10), ("3", 0.90))
    ... ]
    >>> fit = printing_for_range(1.05, rows)
    >>> fit.row.name, round(fit.off, 2), fit.softer.name, fit.harder.name, round(fit.share, 2)
    ('2', -0.05, '2', '3', 0.25)
    """
    value = _checked(density_range)
    if not rows:
        raise RefusedError("sensitometry.grade.no_rows")
    ordered = sorted(rows, key=lambda row: -row.range_mid)
    best = min(ordered, key=lambda row: (round(abs(_off(value, row)), 9), -row.range_mid))
    softer = next((row for row in reversed(ordered) if row.range_mid >= value), None)
    harder = next((row for row in ordered if row.range_mid < value), None)
    share = None
    if softer is not None and harder is not None:
        share = (softer.range_mid - value) / (softer.range_mid - harder.range_mid)
    return PrintingFit(best, _off(value, best), softer, harder, share)


def aim_of_row(row: PrintingRange) -> PrintingAim:
    """Aim for a published grade, filter, process or scanner: the middle of its range.

    Parameters
    ----------
    row : PrintingRange

    Returns
    -------
    aim : PrintingAim
        With the tolerance of its printing, or half its published span where that is wider.

    Raises
    ------
    RefusedError
        If the row is a limit: a scanner, for one, sets how dense a highlight may be, not how long the range shall be.
    OutOfRangeError
        If the printing is not known.

    Examples
    --------
    >>> from wetside.values.evidence import Source
    >>> source = Source("altphotolist-1996")
    >>> row = PrintingRange("process", "alternative", "platinum", 1.8, 1.8, "", Evidence.PUBLISHED, source)
    >>> aim_of_row(row).density_range, aim_of_row(row).tolerance, aim_of_row(row).channels
    (1.8, 0.1, ('uv',))
    """
    if row.kind == "limit":
        raise RefusedError("sensitometry.grade.limit_is_no_aim", name=row.name, net_density=row.range_low)
    # A grade's span holds many papers; its width is no leave for one of them.
    half_span = 0.0 if row.kind == "grade" else 0.5 * (row.range_high - row.range_low)
    return PrintingAim(
        row.range_mid,
        max(default_tolerance(row.printing), half_span),
        row.printing,
        channels_of_printing(row.printing),
        row.evidence,
        row.source,
    )


def aim_of_paper(
    curve: CharacteristicCurve, printing: str = "graded-paper", *, evidence: Evidence = Evidence.TESTED
) -> PrintingAim:
    """Aim for a paper from its own curve: its log exposure range by ISO 6846.

    Parameters
    ----------
    curve : CharacteristicCurve
        Reflection densities up to the paper's black.
    printing : str
        ``graded-paper`` or ``variable-paper``.
    evidence : Evidence
        Where the curve comes from.

    Returns
    -------
    aim : PrintingAim

    Raises
    ------
    OutOfRangeError
        If the printing is not known, or the range is not a paper's.
    RefusedError
        If the curve does not hold the paper's lightest tone.

    References
    ----------
    .. [1] focal-encyclopedia, p. 679.

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> round(aim_of_paper(characteristic_curve(120.0, (0.0, 1.2), (0.0, 2.0))).density_range, 3)
    1.056
    """
    tolerance = default_tolerance(printing)
    paper_range = _checked(log_exposure_range_iso6846(curve))
    return PrintingAim(paper_range, tolerance, printing, channels_of_printing(printing), evidence, None)


def _checked(value: float) -> float:
    if not _RANGES[0] <= value <= _RANGES[1]:
        raise OutOfRangeError("sensitometry.grade.range_impossible", value=value, low=_RANGES[0], high=_RANGES[1])
    return value


def _off(value: float, row: PrintingRange) -> float:
    """Difference to the nearest end of a row's span, 0 inside."""
    return value - min(max(value, row.range_low), row.range_high)
