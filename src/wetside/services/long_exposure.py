"""Which model of a film's long exposures is used, and what the others say."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import InputError, Place, WetsideError
from wetside.exposure.reciprocity_choice import ReciprocityComparison, ReciprocityKind, compare_reciprocity
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.exposure import ReciprocityModel


class LongExposure(NamedTuple):
    """The model that is used, its kind and source, and the comparison that chose it with all that is known."""

    model: ReciprocityModel
    kind: ReciprocityKind
    source: str
    comparison: ReciprocityComparison


def long_exposure(
    film: str, product_s: float, chosen: str | None = None, rows: Path | None = None
) -> LongExposure | None:
    """Choose the model of a film for a time, and ask all others beside it.

    Parameters
    ----------
    film : str
        Its name.
    product_s : float
        Time that light, filters and bellows ask for. [s]
    chosen : str, optional
        Kind of model that the user wants; else an own test, the maker's figure, then others that name this film.
    rows : Path, optional
        A user's folder of published rows.

    Returns
    -------
    long_exposure : LongExposure or None
        None where nothing is published of this film and no kind was chosen: an exponent of no film in particular is
        taken only where it is asked for.

    Raises
    ------
    WetsideError
        If the kind is not known for this film, or the model ends before that time.
    """
    from wetside.adapters.ways_data import reciprocity_models_for

    models = reciprocity_models_for(film, rows)
    said = [named for named in models if named.evidence is not Evidence.ASSUMED]
    if chosen is None and not said:
        return None
    try:
        kind = None if chosen is None else ReciprocityKind(chosen)
        picked = compare_reciprocity(product_s, said if kind is None else models, kind)
    except WetsideError as error:
        raise (error if chosen is None else error.at(Place(field="--model"))) from None
    every = compare_reciprocity(product_s, models, picked.default.kind)._replace(reason=picked.reason)
    used = next(named for named in models if (named.kind, named.source) == (picked.default.kind, picked.default.source))
    return LongExposure(used.model, used.kind, used.source, every)


def films_with_reciprocity(rows: Path | None = None) -> list[str]:
    """Names of the films whose makers say something of long exposures."""
    from wetside.services.library import load_library

    return sorted(one.film for one in load_library(rows).reciprocity.values())


def no_reciprocity(film: str, rows: Path | None = None) -> InputError:
    """Error for a film of which nothing is published; it names those that are known."""
    return InputError("services.no_reciprocity", film=film, known=films_with_reciprocity(rows))
