"""Where a bath is too warm or too cold, and what then belongs to the work. Who says so is data with a source."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_liquid, require_positive
from wetside.development.ways import Remark
from wetside.errors import RefusedError
from wetside.values.conditions import Agitation
from wetside.values.evidence import Source  # noqa: TC001 (part of a public type)

if TYPE_CHECKING:
    from collections.abc import Iterable

LONGEST_IN_ROTATION_S = 1200.0
"""Common practice, ``assumed``: after 20 min churned with air a developer fogs and oxidises. [s]"""
WARM_C = 24.0
"""Upper end of the makers' ordinary range (harman-powder-developers-2010, p. 2-3). [C]"""
HYDROQUINONE_SLOW_C = 15.0
"""Under this a time is not converted for a developer with hydroquinone, which changes its character
(our choice). [C]"""
HYDROQUINONE_IDLE_C = 13.0
"""Common practice, ``assumed``: hydroquinone hardly works below this. [C]"""
BATHS_APART_C = 5.0
"""Other baths within this of the developer (harman-hp5-2018, p. 5; harman-powder-developers-2010, p. 2). [C]"""


class PublishedRange(NamedTuple):
    """Temperatures that one source names for developing; ``careful_c`` how far it goes with care. [C]

    ``purpose`` is ``developing`` or a way of working such as ``tray``.
    """

    name: str
    low_c: float
    high_c: float
    source: Source
    careful_c: float | None = None
    purpose: str = "developing"
    note: str = ""


def temperature_remarks(
    temp_c: float, ranges: Iterable[PublishedRange] = (), *, hydroquinone: bool | None = None
) -> tuple[Remark, ...]:
    """What there is to say of developing at a temperature; sources that disagree each speak.

    Parameters
    ----------
    temp_c : float
        Of the developer. [C]
    ranges : iterable of PublishedRange
        In order of preference.
    hydroquinone : bool, optional
        Whether the developer holds hydroquinone; None where that is not known.

    Returns
    -------
    remarks : tuple of Remark
        Nothing inside all ranges.

    Raises
    ------
    OutOfRangeError
        If the temperature is no liquid's.

    Examples
    --------
    >>> [remark.code.rpartition(".")[2] for remark in temperature_remarks(27.0)]
    ['sulfate', 'harden', 'wet_time', 'no_colder_wash']
    """
    require_liquid(temp_c)
    remarks: list[Remark] = []
    for one in ranges:
        place: dict[str, float | str | None] = {
            "temp_c": temp_c,
            "low_c": one.low_c,
            "high_c": one.high_c,
            "source": one.source.key,
        }
        if temp_c < one.low_c:
            remarks.append(Remark("development.cold.below_range", place))
        elif temp_c > one.high_c:
            careful = one.careful_c is not None and temp_c <= one.careful_c
            remarks.append(Remark("development.warm.with_care" if careful else "development.warm.above_range", place))
    if temp_c > WARM_C:
        remarks += [
            Remark("development.warm.sulfate", {"temp_c": temp_c}),
            Remark("development.warm.harden", {"temp_c": temp_c}),
            Remark("development.warm.wet_time", {"temp_c": temp_c}),
            Remark("development.warm.no_colder_wash", {"temp_c": temp_c, "apart_c": BATHS_APART_C}),
        ]
    if hydroquinone is not False and temp_c < HYDROQUINONE_IDLE_C:
        remarks.append(Remark("development.cold.hydroquinone", {"temp_c": temp_c, "idle_c": HYDROQUINONE_IDLE_C}))
    return tuple(remarks)


def require_warm_enough(temp_c: float, *, hydroquinone: bool) -> None:
    """Refuse to convert a time to a temperature at which hydroquinone changes the developer's character.

    Parameters
    ----------
    temp_c : float
        [C]
    hydroquinone : bool
        Whether the developer holds it.

    Raises
    ------
    RefusedError
        ``development.cold.character`` under 15 C with hydroquinone.
    OutOfRangeError
        If the temperature is no liquid's.

    Examples
    --------
    >>> require_warm_enough(16.0, hydroquinone=True)
    """
    require_liquid(temp_c)
    if hydroquinone and temp_c < HYDROQUINONE_SLOW_C:
        raise RefusedError("development.cold.character", temp_c=temp_c, low_c=HYDROQUINONE_SLOW_C)


def longest_remarks(time_s: float, agitation: Agitation) -> tuple[Remark, ...]:
    """What there is to say of a long time in a turning drum.

    Parameters
    ----------
    time_s : float
        Developing time of one filling; positive. [s]
    agitation : Agitation
        Only rotation churns the developer with air.

    Raises
    ------
    OutOfRangeError
        If the time is not positive.

    Examples
    --------
    >>> [remark.code for remark in longest_remarks(1500, Agitation.ROTARY)]
    ['development.warm.too_long']
    """
    require_positive(time_s, "development.warm.time_not_positive")
    if agitation is Agitation.ROTARY and time_s > LONGEST_IN_ROTATION_S:
        return (Remark("development.warm.too_long", {"time_s": time_s, "most_s": LONGEST_IN_ROTATION_S}),)
    return ()
