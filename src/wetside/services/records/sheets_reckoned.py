"""What a sheet's readings and exposure come to: the time to give, N, and the stop error of what went wrong."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.kinds import shown_raw
from wetside.errors import InputError, WetsideError
from wetside.exposure import (
    aperture_exact,
    audit_exposure,
    exposure_pipeline,
    placed_ev,
    shutter_exact,
    zone_fall,
    zones_n,
)
from wetside.planning.documents.evening import Film as FilmDocument
from wetside.planning.documents.words import Mishap
from wetside.planning.misexposure import reciprocity_of
from wetside.records.models import Film
from wetside.services.library import load_library
from wetside.services.records.documents import document_of, raw_of
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.exposure import AuditPart, ExposureStep, ReciprocityModel
    from wetside.planning.documents.evening import Exposure, Sheet

LONG_FROM_S = 1.0
"""Beyond it most films want a correction for long exposures. Common practice. [s]"""
_OF_RECIPROCITY = frozenset({str(Mishap.RECIPROCITY_FORGOTTEN), str(Mishap.RECIPROCITY_FIRST)})
LOSS_TOLD = 1e-6
"""Stops below which a step changes nothing that could be shown. Our choice. [stops]"""


class Pipeline(NamedTuple):
    """Steps from the metered time to the time to give; ``rated`` tells how the meter's index stands to the film's."""

    steps: tuple[ExposureStep, ...]
    rated: tuple[str, Mapping[str, Any]]
    time_s: float
    reciprocity_known: bool


class Readings(NamedTuple):
    """Where the readings fall, and the development that they ask for. [EV; zones]"""

    set_ev: float
    falls: float | None
    n: float | None


class MishapTold(NamedTuple):
    """A mishap, whether it is told of the sheet, and the stop error that it alone would be.

    ``stops`` is None where something that it needs is missing; ``lacks`` says what.
    """

    word: str
    told: bool
    stops: float | None
    lacks: WetsideError | None


class Reckoned(NamedTuple):
    """All that a sheet's exposure comes to; None where nothing is said, an error where it cannot be reckoned."""

    pipeline: Pipeline | None
    pipeline_error: WetsideError | None
    readings: Readings | None
    readings_error: WetsideError | None
    stop_error: float | None
    stop_error_highlight: float | None
    parts: tuple[AuditPart, ...]
    audit_error: WetsideError | None
    mishaps: tuple[MishapTold, ...]


def reckoned(sheet: Sheet) -> Reckoned:
    """What a sheet's exposure comes to.

    Parameters
    ----------
    sheet : Sheet
        Document, as the reader returns it.
    """
    named = {plain_name(name) for name in (sheet.film, sheet.in_holder) if name}
    films = {film.name_key: film for film in Film.kept.filter(name_key__in=named)}
    library = load_library()
    film = _film(films, sheet.film)
    reciprocity = reciprocity_of(film, library)
    pipeline, pipeline_error = _tried(_pipeline, sheet.meant, film, reciprocity)
    readings, readings_error = _tried(_readings, sheet)

    told = frozenset(str(word) for word in sheet.mishaps)
    asked = bool(told or sheet.was_set or sheet.in_holder or sheet.second)
    found, audit_error = _tried(_audit, sheet, films, told) if asked else (None, None)
    mishaps = []
    for word in map(str, Mishap):
        one, lacks = _tried(
            lambda word=word: _audit(sheet, films, frozenset({word}), whole=word == Mishap.WRONG_RATING)
        )
        if one is not None and word in _OF_RECIPROCITY and _reciprocity_lacks(pipeline):
            one, lacks = None, InputError("services.sheets.reciprocity_unknown")
        mishaps.append(MishapTold(word, word in told, one.stop_error if one is not None else None, lacks))
    return Reckoned(
        pipeline=pipeline,
        pipeline_error=pipeline_error,
        readings=readings,
        readings_error=readings_error,
        stop_error=found.stop_error if found is not None else None,
        stop_error_highlight=found.stop_error_highlight if found is not None else None,
        parts=found.parts if found is not None else (),
        audit_error=audit_error,
        mishaps=tuple(mishaps),
    )


def stop_errors(sheets: Sequence[Sheet]) -> tuple[float, ...]:
    """By how many stops each sheet got more light than was meant; 0 where nothing is told of it. [stops]

    Parameters
    ----------
    sheets : sequence of Sheet
        Documents, as the reader returns them. Their films are asked for at once.

    Notes
    -----
    A mishap that lacks something (a time, an index) counts as none: nothing can be reckoned from it.
    """
    named = {plain_name(name) for sheet in sheets for name in (sheet.film, sheet.in_holder) if name}
    films = {film.name_key: film for film in Film.kept.filter(name_key__in=named)} if named else {}
    found = []
    for sheet in sheets:
        if not (sheet.mishaps or sheet.was_set or sheet.in_holder or sheet.second):
            found.append(0.0)
            continue
        told, _ = _tried(_audit, sheet, films, frozenset(str(word) for word in sheet.mishaps))
        found.append(0.0 if told is None else told.stop_error)
    return tuple(found)


def _audit(sheet: Sheet, films: Mapping[str, Film], words: frozenset[str], *, whole: bool = True) -> Any:
    """Audit of a sheet; without ``whole`` as if nothing but these words were told of it."""
    library = load_library()
    film = _film(films, sheet.film)
    actual = None
    if sheet.in_holder and (whole or Mishap.WRONG_FILM in words):
        actual = _film(films, sheet.in_holder)
    return audit_exposure(
        _setting(sheet.meant),
        _setting(sheet.was_set if whole else None),
        reciprocity=reciprocity_of(film, library),
        film_ei=film.ei,
        actual_ei=None if actual is None else actual.ei,
        actual_reciprocity=None if actual is None else reciprocity_of(actual, library),
        mishaps=words,
        second=_setting(sheet.second) if sheet.second and (whole or Mishap.DOUBLE_EXPOSURE in words) else None,
    )


def _reciprocity_lacks(pipeline: Pipeline | None) -> bool:
    """Whether a time is long enough to want a correction that nobody knows: then *no error* would be a guess."""
    return pipeline is not None and not pipeline.reciprocity_known and pipeline.time_s > LONG_FROM_S


def _tried(act: Any, *given: Any) -> tuple[Any, WetsideError | None]:
    try:
        return act(*given), None
    except WetsideError as error:
        return None, error


def _film(films: Mapping[str, Film], name: str | None) -> FilmDocument:
    kept = films.get(plain_name(name or ""))
    if kept is None:
        return FilmDocument(name=shown_raw(name or "film"), published=name or None)
    document: FilmDocument = document_of("film", raw_of("film", kept))
    return document


def _setting(exposure: Exposure | None) -> Any:
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


def _pipeline(meant: Exposure | None, film: FilmDocument, reciprocity: ReciprocityModel) -> Pipeline | None:
    if meant is None or meant.time_s is None:
        return None
    if meant.aperture_n is not None:
        aperture_exact(meant.aperture_n)
    told = exposure_pipeline(
        shutter_exact(meant.time_s),
        filter_factors=(meant.filter_factor,) if meant.filter_factor is not None else (),
        extension_mm=meant.extension_mm,
        focal_length_mm=meant.focal_mm if meant.extension_mm is not None else None,
        reciprocity=reciprocity,
    )
    from wetside.exposure import NO_RECIPROCITY

    return Pipeline(told.steps, _index(meant.ei, film.ei), told.corrected_s, reciprocity is not NO_RECIPROCITY)


def _index(metered: float | None, own: float | None) -> tuple[str, Mapping[str, Any]]:
    """How the meter's index stands to the film's: a difference is deliberate, and changes no time."""
    if metered is None and own is None:
        return "services.sheets.index_unknown", {}
    if metered is None or own is None or metered == own:
        return "services.sheets.index_as_rated", {"ei": own if metered is None else metered}
    return "services.sheets.index_other", {"ei": metered, "own": own}


def _readings(sheet: Sheet) -> Readings | None:
    shadow, highlight = sheet.shadow, sheet.highlight
    if shadow is None:
        return None
    set_ev = placed_ev(shadow.ev, shadow.zone)
    if highlight is None:
        return Readings(set_ev, None, None)
    return Readings(
        set_ev,
        zone_fall(shadow.ev, shadow.zone, highlight.ev),
        zones_n(shadow.ev, shadow.zone, highlight.ev, highlight.zone),
    )
