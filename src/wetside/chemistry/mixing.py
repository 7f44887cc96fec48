"""Volumes to measure: of a dilution, of a percentage, of a working solution that is made weaker."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_amount_ml, check_positive
from wetside.errors import OutOfRangeError

if TYPE_CHECKING:
    from wetside.values.dilution import Dilution

SMALLEST_MEASURE_ML = 10.0
"""Least amount to measure with a cylinder; below it a graduated pipette (harman-ddx-2019, p. 2). [ml]"""

ROUNDING_TOLD_FROM = 0.01
"""Change of strength from rounding to a mark that is told, as a share. Our choice. [1]"""

_MARKS_ML = (
    (10.0, 0.2),
    (25.0, 0.5),
    (100.0, 1.0),
    (250.0, 2.0),
    (500.0, 5.0),
    (math.inf, 10.0),
)
"""Size of a cylinder and the distance of its marks: common practice, a default that a caller can change. [ml]"""


class Mix(NamedTuple):
    """What to measure. [ml]"""

    concentrates_ml: tuple[float, ...]
    water_ml: float
    total_ml: float


def mix_volumes(dilution: Dilution, total_ml: float) -> Mix:
    """Volumes of each concentrate and of water for a volume of working solution. [ml]

    Parameters
    ----------
    dilution : Dilution
        [parts]
    total_ml : float
        Working solution wanted, 0.1 ml to 1000 l. [ml]

    Raises
    ------
    OutOfRangeError
        If the total lies outside these limits.

    Notes
    -----
    ``part / sum of parts * total``. Volumes are taken to add up, which concentrates of a darkroom do within what a
    cylinder can show.

    References
    ----------
    .. [1] harman-ddx-2019, p. 2, table of volumes for 1+4.

    Examples
    --------
    >>> from wetside.values.dilution import Dilution
    >>> mix_volumes(Dilution((1.0,), 24.0), 600.0)
    Mix(concentrates_ml=(24.0,), water_ml=576.0, total_ml=600.0)
    """
    check_amount_ml(total_ml)
    parts = dilution.total_parts
    concentrates = tuple(total_ml * agent / parts for agent in dilution.agents)
    return Mix(concentrates, total_ml * dilution.water / parts, total_ml)


def warnings_of_mix(
    mix: Mix, smallest_ml: float = SMALLEST_MEASURE_ML, mark_ml: float | None = None
) -> tuple[tuple[str, dict[str, float]], ...]:
    """List what a person who measures a mix should know, as codes with parameters.

    Parameters
    ----------
    mix : Mix
    smallest_ml : float
        Smallest amount that the measure reads. [ml]
    mark_ml : float, optional
        Distance of the measure's marks; that of the smallest usual cylinder which holds the amount if absent. [ml]

    Returns
    -------
    warnings : tuple of (str, dict)
        ``chemistry.mix.small`` (and ``small_part`` of a two-part developer) with the total that would be measurable;
        ``chemistry.mix.rounded`` (``rounded_part``) where rounding to a mark changes the strength by 1 % or more;
        ``chemistry.mix.two_part``.

    Raises
    ------
    OutOfRangeError
        If the smallest amount or the mark is not positive.

    References
    ----------
    .. [1] harman-ddx-2019, p. 1-2: 10 ml with a cylinder, less with a pipette; the smallest cylinder that holds it.

    Examples
    --------
    >>> from wetside.values.dilution import Dilution
    >>> warnings_of_mix(mix_volumes(Dilution((1.0,), 49.0), 300.0))
    (('chemistry.mix.small', {'concentrate_ml': 6.0, 'smallest_ml': 10.0, 'total_ml': 500.0}),)
    """
    check_positive("smallest_ml", smallest_ml)
    if mark_ml is not None:
        check_positive("mark_ml", mark_ml)
    if mix.water_ml == 0 and len(mix.concentrates_ml) == 1:
        return ()
    several = len(mix.concentrates_ml) > 1
    told: list[tuple[str, dict[str, float]]] = []
    for part, concentrate_ml in enumerate(mix.concentrates_ml, start=1):
        which: dict[str, float] = {"part": part} if several else {}
        if concentrate_ml < smallest_ml * (1 - 1e-9):
            code = "chemistry.mix.small_part" if several else "chemistry.mix.small"
            total_ml = _up_to_ten(mix.total_ml * smallest_ml / concentrate_ml)
            told.append(
                (code, {**which, "concentrate_ml": concentrate_ml, "smallest_ml": smallest_ml, "total_ml": total_ml})
            )
            continue
        mark = mark_ml if mark_ml is not None else cylinder_mark_ml(concentrate_ml)
        rounded_ml = max(1, math.floor(concentrate_ml / mark + 0.5)) * mark
        change = rounded_ml / concentrate_ml - 1.0
        if abs(change) >= ROUNDING_TOLD_FROM:
            code = "chemistry.mix.rounded_part" if several else "chemistry.mix.rounded"
            told.append(
                (
                    code,
                    {
                        **which,
                        "concentrate_ml": concentrate_ml,
                        "rounded_ml": rounded_ml,
                        "mark_ml": mark,
                        "strength_percent": change * 100.0,
                    },
                )
            )
    if several:
        told.append(("chemistry.mix.two_part", {"count": len(mix.concentrates_ml)}))
    return tuple(told)


def cylinder_mark_ml(amount_ml: float) -> float:
    """Distance of the marks on the smallest usual cylinder that holds an amount. [ml]

    Parameters
    ----------
    amount_ml : float
        Positive. [ml]

    Raises
    ------
    OutOfRangeError
        If the amount is not positive.

    Examples
    --------
    >>> cylinder_mark_ml(6.0), cylinder_mark_ml(31.25)
    (0.2, 1.0)
    """
    check_positive("amount_ml", amount_ml)
    return next(mark for holds, mark in _MARKS_ML if amount_ml <= holds)


def _up_to_ten(volume_ml: float) -> float:
    return math.ceil(volume_ml / 10.0 - 1e-9) * 10.0


def percent_dilution_ml(strong_percent: float, wanted_percent: float, total_ml: float) -> float:
    """Strong solution that is made up with water to a weaker one. [ml]

    Parameters
    ----------
    strong_percent, wanted_percent : float
        Strengths in the same sense, by volume or weight to volume; more than 0, the second not above the first. [%]
    total_ml : float
        Weak solution wanted. [ml]

    Raises
    ------
    OutOfRangeError
        If a strength is not positive, the wanted one is the stronger, or the total is out of range.

    Notes
    -----
    ``total * wanted / strong``; the small loss of volume when acid meets water is left out. Acid goes into the water.

    References
    ----------
    .. [1] us-army-ss0513, lesson 1: 32 fl oz of 28 % from 99.5 % acetic acid take 9 fl oz.

    Examples
    --------
    >>> round(percent_dilution_ml(99.6, 28.0, 1000.0), 1)
    281.1
    """
    check_positive("strong_percent", strong_percent)
    check_positive("wanted_percent", wanted_percent)
    check_amount_ml(total_ml)
    if strong_percent > 100:
        raise OutOfRangeError("chemistry.percent.over_hundred", value=strong_percent)
    if wanted_percent > strong_percent:
        raise OutOfRangeError("chemistry.percent.stronger", wanted=wanted_percent, strong=strong_percent)
    return total_ml * wanted_percent / strong_percent


def redilution_water_ml(volume_ml: float, have: Dilution, want: Dilution) -> float:
    """Water that makes a working solution as weak as another dilution. [ml]

    Parameters
    ----------
    volume_ml : float
        Working solution at hand. [ml]
    have, want : Dilution
        [parts]

    Raises
    ------
    OutOfRangeError
        If the wanted dilution is the stronger one, or the volume is out of range.

    Notes
    -----
    ``volume * (share of concentrate in have / share in want - 1)``.

    Examples
    --------
    >>> from wetside.values.dilution import Dilution
    >>> redilution_water_ml(500.0, Dilution((1.0,), 1.0), Dilution((1.0,), 3.0))
    500.0
    """
    check_amount_ml(volume_ml)
    ratio = have.agent_fraction / want.agent_fraction
    if ratio < 1:
        raise OutOfRangeError("chemistry.redilution.stronger", have=have.text, want=want.text)
    if have.agents != want.agents and not _same_proportion(have, want):
        raise OutOfRangeError("chemistry.redilution.other_parts", have=have.text, want=want.text)
    return volume_ml * (ratio - 1.0)


def _same_proportion(have: Dilution, want: Dilution) -> bool:
    """Whether water alone leads from one to the other: the concentrates stand to each other alike."""
    if len(have.agents) != len(want.agents):
        return False
    scale = want.agents[0] / have.agents[0]
    return all(
        math.isclose(mine * scale, other, rel_tol=1e-9) for mine, other in zip(have.agents, want.agents, strict=True)
    )
