"""What a sheet's exposure came to, against what was meant: a stop error on the film, with its parts."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.plan import Note, ReckoningStep
from wetside.values.evidence import Evidence, Source
from wetside.values.names import name_key, plain_name

if TYPE_CHECKING:
    from wetside.exposure import CameraSetting, ExposureAudit, ReciprocityModel
    from wetside.planning.documents.evening import Evening, Exposure, Film
    from wetside.planning.library import Library
    from wetside.planning.resolved import ResolvedSheet

TOLD_STOPS = 0.05
"""A stop error below this is not mentioned: no shutter is that true. Our choice. [stops]"""


NOTED_STOPS = 0.5
"""From here on an error is worth a word on what it does to the print. Our choice. [stops]"""


class SheetAudit(NamedTuple):
    """Signed stop errors of shadow and highlight, and the lines that lead to them."""

    stop_error: float
    stop_error_highlight: float
    steps: tuple[ReckoningStep, ...]
    notes: tuple[Note, ...]


NOTHING_WRONG = SheetAudit(0.0, 0.0, (), ())


def reciprocity_of(film: Film, library: Library) -> ReciprocityModel:
    """Reciprocity of a film: its own table or power, else a published film's, else none."""
    from wetside.exposure import NO_RECIPROCITY, ReciprocityPower, ReciprocityTable

    own = film.reciprocity
    if own is not None and own.points:
        first_s = own.points[0][0]
        points = own.points if own.threshold_s >= first_s else ((own.threshold_s, 1.0), *own.points)
        return ReciprocityTable(points)
    if own is not None and own.power is not None:
        return ReciprocityPower(own.power, own.threshold_s)
    named = (own.published if own is not None else None) or film.published or film.name
    published = library.reciprocity.get(name_key(named))
    return published.model if published is not None else NO_RECIPROCITY


def _setting(exposure: Exposure | None) -> CameraSetting:
    from wetside.exposure import CameraSetting

    if exposure is None:
        return CameraSetting()
    return CameraSetting(
        aperture_n=exposure.aperture_n,
        time_s=exposure.time_s,
        ei=exposure.ei,
        filter_factor=exposure.filter_factor,
        extension_mm=exposure.extension_mm,
        focal_mm=exposure.focal_mm,
    )


def audit_of_sheet(resolved: ResolvedSheet, evening: Evening, library: Library, gradient: float) -> SheetAudit:
    """Audit of a sheet's exposure.

    Parameters
    ----------
    gradient : float
        That the sheet is developed to; an error of s stops moves it by s log10(2) times this. [1]

    Raises
    ------
    WetsideError
        If a mishap lacks the numbers that it needs.
    """
    sheet, film = resolved.sheet, resolved.film
    if not (sheet.mishaps or sheet.was_set or sheet.in_holder or sheet.second):
        return NOTHING_WRONG
    from wetside.exposure import audit_exposure

    films = {plain_name(known.name): known for known in evening.films}
    actual = films.get(plain_name(sheet.in_holder)) if sheet.in_holder else None
    audit = audit_exposure(
        _setting(sheet.meant),
        _setting(sheet.was_set),
        reciprocity=reciprocity_of(film, library),
        film_ei=film.ei,
        actual_ei=actual.ei if actual is not None else None,
        actual_reciprocity=reciprocity_of(actual, library) if actual is not None else None,
        mishaps=frozenset(mishap.value for mishap in sheet.mishaps),
        second=_setting(sheet.second) if sheet.second else None,
    )
    reciprocity = film.reciprocity
    source = Source("own", (reciprocity.source if reciprocity is not None else None) or "your record")
    steps = tuple(
        ReckoningStep(part.code, dict(part.params), part.stops, "stops", None, Evidence.TESTED, source)
        for part in audit.parts
        if abs(part.stops) >= TOLD_STOPS or part.stops == 0.0
    )
    return SheetAudit(audit.stop_error, audit.stop_error_highlight, steps, tuple(_notes(audit, gradient)))


def _notes(audit: ExposureAudit, gradient: float) -> list[Note]:
    """What the error means: over stays in its load and prints longer, under is not pushed (corrections 3.6)."""
    stops = audit.stop_error
    if abs(audit.stop_error_highlight - stops) >= TOLD_STOPS:
        return [Note("planning.double", {"shadow": stops, "highlight": audit.stop_error_highlight})]
    if stops >= NOTED_STOPS:
        density = stops * math.log10(2.0) * gradient
        return [Note("planning.denser", {"stops": stops, "density": density, "factor": 10.0**density})]
    if stops <= -NOTED_STOPS:
        return [Note("planning.thinner", {"stops": stops})]
    return []
