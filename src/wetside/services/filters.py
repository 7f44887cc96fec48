"""Filters as typed: by their factor, or by name for what the film sees and the light."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import InputError, Place, WetsideError
from wetside.exposure.filters import (
    FilterFactor,
    FilterRemark,
    Light,
    Sensitivity,
    filter_factor,
    filter_remarks,
    light_factor,
)
from wetside.services.options import needs, typed
from wetside.units import parse_number
from wetside.values.names import name_key

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wetside.exposure.filters import PublishedFilter, PublishedIndex


class FilterAnswers(NamedTuple):
    """What was typed; ``light`` is the scene's, ``metered_for`` the one whose index is set on the meter."""

    filters: Sequence[str] = ()
    light: str | None = None
    metered_for: str | None = None
    sensitivity: str | None = None
    film: str | None = None
    metered_through: bool = False


class FilterUse(NamedTuple):
    """A filter: what was typed, its factor [1], where a named one is from, and what there is to say of it.

    The factor is 1 where the meter has read through the filter.
    """

    name: str
    factor: float
    found: FilterFactor | None
    remarks: tuple[FilterRemark, ...] = ()


class FiltersTold(NamedTuple):
    """All filters, the factor of the light where the meter is set for another [1], and whether the film was used."""

    filters: tuple[FilterUse, ...]
    light: float | None
    by_film: bool


def is_named(text: str) -> bool:
    """Whether a filter was named, rather than given by its factor."""
    return any(mark.isalpha() for mark in text) and text.strip().casefold() not in ("nan", "inf", "infinity")


def filters_told(answers: FilterAnswers, rows: Path | None = None) -> FiltersTold:
    """Factor of each filter and of the light.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken, and what is known.
    """
    named = [text for text in answers.filters if is_named(text)]
    if not (named and not answers.metered_through) and answers.metered_for is None:
        for option, text in (("--light", answers.light), ("--sensitivity", answers.sensitivity)):
            if text is not None:
                raise InputError("services.light_nothing", place=Place(field=option))
    if answers.metered_through and not answers.filters:
        raise InputError("services.option_missing_with", option="--filter", other="--metered-through")
    if answers.metered_through:
        uses = [FilterUse(text, 1.0, None, filter_remarks(text, metered_through=True)) for text in answers.filters]
        by_name = False
    else:
        by_name = bool(named)
        uses = []
    known = _known(rows) if by_name or answers.metered_for is not None else ((), ())
    if not answers.metered_through:
        uses = [_use(text, answers, *known) for text in answers.filters]
    light = None
    if answers.metered_for is not None:
        film = needs("--film", answers.film, "--metered-for")
        scene = Light(needs("--light", answers.light, "--metered-for"))
        try:
            light = light_factor(known[1], film, Light(answers.metered_for), scene)
        except WetsideError as error:
            raise error.at(Place(field="--metered-for")) from None
    return FiltersTold(tuple(uses), light, by_film=answers.film is not None and (by_name or light is not None))


def _known(rows: Path | None) -> tuple[tuple[PublishedFilter, ...], tuple[PublishedIndex, ...]]:
    from wetside.adapters.ways_data import load_filters

    return load_filters(rows)


def _use(
    text: str, answers: FilterAnswers, factors: Sequence[PublishedFilter], indices: Sequence[PublishedIndex]
) -> FilterUse:
    if not is_named(text):
        return FilterUse(text, typed("--filter", parse_number, text), None)
    sensitivity = _sensitivity(answers, [*factors, *indices])
    light = Light(answers.light or Light.DAYLIGHT)
    try:
        found = filter_factor(factors, text, sensitivity, light, answers.film)
    except WetsideError as error:
        raise error.at(Place(field="--filter")) from None
    return FilterUse(text, found.factor, found)


def _sensitivity(answers: FilterAnswers, known: Sequence[PublishedFilter | PublishedIndex]) -> Sensitivity:
    """What the film sees: as typed, or as the rows have it."""
    if answers.sensitivity is not None:
        return Sensitivity(answers.sensitivity)
    own = [row for row in known if answers.film is not None and name_key(row.film) == name_key(answers.film)]
    if own:
        return own[0].sensitivity
    return Sensitivity(needs("--sensitivity", None, "--filter"))
