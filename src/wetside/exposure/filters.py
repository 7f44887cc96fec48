"""Filter factors belong to a film's sensitivity and to the light; where nothing is known, nothing is given.

The same yellow filter takes more from film that sees no red, and less in the light of a lamp. Figures are data with a
source; a figure of another film of the same class is lent as ``assumed`` and says so.
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError, UnknownNameError
from wetside.exposure import _limits as limits
from wetside.values.evidence import Evidence, Source
from wetside.values.names import name_key, plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable

METER_THROUGH_FILTER_STOPS = 1.5
"""Most that a camera's meter underexposes by through deep red or orange (harman-hp5-2018). [stops]"""


class Sensitivity(StrEnum):
    """Which colours a film sees."""

    BLUE = "blue-sensitive"
    ORTHO = "orthochromatic"
    PAN = "panchromatic"


class Light(StrEnum):
    """What light the scene is in."""

    DAYLIGHT = "daylight"
    TUNGSTEN = "tungsten"


class PublishedFilter(NamedTuple):
    """Factor that one sheet prints of one filter. [1]"""

    film: str
    sensitivity: Sensitivity
    light: Light
    filter: str
    factor: float
    source: Source
    note: str = ""


class PublishedIndex(NamedTuple):
    """Exposure index that one sheet prints of a film in one light. [1]"""

    film: str
    sensitivity: Sensitivity
    light: Light
    ei: float
    source: Source
    note: str = ""


class FilterFactor(NamedTuple):
    """A factor with where it comes from; ``film`` is the film that it was printed for, ``others`` what more is known.

    ``published`` for the film itself, ``assumed`` where it is lent by another film of the same sensitivity.
    """

    factor: float
    stops: float
    film: str
    source: Source
    evidence: Evidence
    others: tuple[PublishedFilter, ...] = ()


class FilterRemark(NamedTuple):
    """Something to say of a filter, as a code with what its sentence needs."""

    code: str
    params: dict[str, float | str]


def filter_factor(
    rows: Iterable[PublishedFilter], filter_name: str, sensitivity: Sensitivity, light: Light, film: str | None = None
) -> FilterFactor:
    """Factor of a filter for a film's sensitivity and the light.

    Parameters
    ----------
    rows : iterable of PublishedFilter
        What is known, in order of preference.
    filter_name : str
        As the rows name it; case and blanks do not count.
    sensitivity : Sensitivity
        Of the film.
    light : Light
        Of the scene.
    film : str, optional
        Name of the film; its own rows come first.

    Returns
    -------
    filter_factor : FilterFactor
        [1]

    Raises
    ------
    RefusedError
        If the film does not see what the filter lets through, or nothing is known for this sensitivity and light.
    UnknownNameError
        If no row names the filter.
    OutOfRangeError
        If a row's factor is not possible.

    Examples
    --------
    >>> rows = [PublishedFilter("Tolland 100", Sensitivity.PAN, Light.DAYLIGHT, "yellow", 2.0, Source("own notes"))]
    >>> lent = filter_factor(rows, "Yellow", Sensitivity.PAN, Light.DAYLIGHT, "Morvane 320")
    >>> lent.factor, lent.stops, lent.evidence.value
    (2.0, 1.0, 'assumed')
    """
    known = list(rows)
    name = plain_name(filter_name)
    if sensitivity is not Sensitivity.PAN and "red" in name.replace("-", " ").split():
        raise RefusedError("exposure.filter.blind", filter=filter_name, sensitivity=sensitivity.value)
    named = [row for row in known if plain_name(row.filter) == name]
    if not named:
        names = tuple(dict.fromkeys(row.filter for row in known))
        raise UnknownNameError("exposure.filter.unknown", value=filter_name, known=names, nearest=None)
    fitting = [row for row in named if row.sensitivity is sensitivity and row.light is light]
    if not fitting:
        pairs = tuple(dict.fromkeys(f"{row.sensitivity.value} in {row.light.value}" for row in named))
        raise RefusedError(
            "exposure.filter.pair_unknown",
            filter=filter_name,
            sensitivity=sensitivity.value,
            light=light.value,
            known=pairs,
        )
    own = [row for row in fitting if film is not None and name_key(row.film) == name_key(film)]
    taken = (own or fitting)[0]
    factor = limits.factor(taken.factor)
    return FilterFactor(
        factor,
        math.log2(factor),
        taken.film,
        taken.source,
        Evidence.PUBLISHED if own else Evidence.ASSUMED,
        tuple(row for row in fitting if row is not taken),
    )


def light_factor(rows: Iterable[PublishedIndex], film: str, metered_for: Light, light: Light) -> float:
    """Factor on a metered time when a film's index for one light is set and the scene is in another.

    Parameters
    ----------
    rows : iterable of PublishedIndex
        What is known.
    film : str
        Name of the film.
    metered_for : Light
        Light whose index is set on the meter.
    light : Light
        Light of the scene.

    Returns
    -------
    light_factor : float
        ``index of the first / index of the second``; under 1 where the scene's light is seen better. [1]

    Raises
    ------
    RefusedError
        If no index of the film is known for one of them.
    OutOfRangeError
        If an index is not possible.

    References
    ----------
    .. [1] ilford-processing-chart-2019: one orthochromatic film is 80 in daylight and 40 in tungsten light.

    Examples
    --------
    >>> rows = [PublishedIndex("Tolland 100", Sensitivity.ORTHO, light, ei, Source("own notes"))
    ...         for light, ei in ((Light.DAYLIGHT, 80.0), (Light.TUNGSTEN, 40.0))]
    >>> light_factor(rows, "tolland 100", Light.DAYLIGHT, Light.TUNGSTEN)
    2.0
    """
    own = [row for row in rows if name_key(row.film) == name_key(film)]
    found = []
    for wanted in (metered_for, light):
        row = next((row for row in own if row.light is wanted), None)
        if row is None:
            lights = tuple(dict.fromkeys(one.light.value for one in own))
            raise RefusedError("exposure.filter.light_unknown", film=film, light=wanted.value, known=lights)
        found.append(limits.rating(row.ei))
    return found[0] / found[1]


def filter_remarks(filter_name: str, *, metered_through: bool) -> tuple[FilterRemark, ...]:
    """What there is to say when a meter reads through a filter.

    Parameters
    ----------
    filter_name : str
        As named.
    metered_through : bool
        Whether the meter read through the filter instead of without it.

    Returns
    -------
    remarks : tuple of FilterRemark
        For deep colours how far the meter may be off; for any that its factor is not to be added again.

    References
    ----------
    .. [1] harman-hp5-2018: up to 1.5 stops too little through deep red or orange.

    Examples
    --------
    >>> [remark.code for remark in filter_remarks("deep red", metered_through=True)]
    ['exposure.filter.once', 'exposure.filter.meter_through']
    """
    if not metered_through:
        return ()
    remarks = [FilterRemark("exposure.filter.once", {"filter": filter_name})]
    if {"red", "orange"} & set(plain_name(filter_name).replace("-", " ").split()):
        remarks.append(
            FilterRemark("exposure.filter.meter_through", {"filter": filter_name, "stops": METER_THROUGH_FILTER_STOPS})
        )
    return tuple(remarks)
