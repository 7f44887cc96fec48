"""What filters and the light of lamps take from a film, for the page from which a sheet's exposure is entered."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.ways_data import load_filters
from wetside.errors import RefusedError, WetsideError
from wetside.exposure.filters import Light, Sensitivity, filter_factor, light_factor
from wetside.records.models import Film
from wetside.values.names import name_key, plain_name

if TYPE_CHECKING:
    from wetside.exposure.filters import FilterFactor, PublishedFilter, PublishedIndex


class FilterLine(NamedTuple):
    """A filter that some row names: its factor for this film and light, or why there is none."""

    name: str
    found: FilterFactor | None
    refused: WetsideError | None


class FiltersKnown(NamedTuple):
    """Filters for a film in one light; ``light_factor`` is what the light itself takes, None where it takes nothing.

    ``light_refused`` says why that is not known, where the meter is set for another light. ``published`` is the name
    under which rows were looked for.
    """

    published: str
    sensitivity: Sensitivity
    light: Light
    metered_for: Light
    lines: tuple[FilterLine, ...]
    light_factor: float | None
    light_refused: WetsideError | None


def filters_known(film: str, *, sees: str = "", light: str = "", metered_for: str = "") -> FiltersKnown:
    """Factors of all filters that are known, for a film in a light.

    Parameters
    ----------
    film : str
        Name of the film, of the records or as published; may be empty.
    sees : str
        Sensitivity; empty is that of the film's rows, panchromatic where it has none.
    light, metered_for : str
        Light of the scene, and that whose index is set on the meter; empty, or neither, is daylight.
    """
    factors, indices = load_filters()
    kept = Film.kept.filter(name_key=plain_name(film)).first()
    published = (kept.published if kept is not None else None) or " ".join(film.split())
    rows: list[PublishedFilter | PublishedIndex] = [*factors, *indices]
    own = [row.sensitivity for row in rows if name_key(row.film) == name_key(published)]
    sensitivity = Sensitivity(sees) if sees in list(Sensitivity) else (own or [Sensitivity.PAN])[0]
    scene = Light(light) if light in list(Light) else Light.DAYLIGHT
    meter = Light(metered_for) if metered_for in list(Light) else Light.DAYLIGHT
    lines = []
    for name in dict.fromkeys(row.filter for row in factors):
        try:
            lines.append(FilterLine(name, filter_factor(factors, name, sensitivity, scene, published), None))
        except RefusedError as error:
            lines.append(FilterLine(name, None, error))
    taken: float | None = None
    refused: WetsideError | None = None
    if scene is not meter:
        try:
            taken = light_factor(indices, published, meter, scene)
        except RefusedError as error:
            refused = error
    return FiltersKnown(published, sensitivity, scene, meter, tuple(lines), taken, refused)
