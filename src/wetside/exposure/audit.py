"""What was set against what was meant, as a signed stop error on the film. Positive: more exposure than meant.

The error is a sum of parts, each with a code. Rules:

- An aperture error counts whole. A time error is taken through the film's reciprocity model at both times: deep in
  reciprocity, where ``Ta = Tm ** p``, s stops of time are s / p stops on the film.
- What was set wins over what is told. If the time really given is known, the words for a forgotten bellows, filter or
  reciprocity factor, or a wrong order, only label the part that the time shows; nothing is counted twice.
- A rating that is meant other than the film's own is deliberate, and no error unless the word says so. A rating set
  wrong counts ``log2(meant / set)``, unless aperture and time already show it (the sheet is off by that much, within a
  third of a stop): then it is a part of zero stops that says so.
- A wrong film always counts: what was set cannot show it.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import ConflictError, InputError, RefusedError
from wetside.exposure import _limits as limits
from wetside.exposure.double_exposure import HIGHLIGHT_ZONE, SHADOW_ZONE, double_exposure_stops
from wetside.exposure.light_losses import bellows_factor
from wetside.exposure.mishaps import (
    BELLOWS_FORGOTTEN,
    DOUBLE_EXPOSURE,
    FILTER_FORGOTTEN,
    RECIPROCITY_FIRST,
    RECIPROCITY_FORGOTTEN,
    TIME_WORDS,
    WRONG_FILM,
    WRONG_RATING,
    CameraSetting,
    checked_mishaps,
)
from wetside.exposure.reciprocity import NO_RECIPROCITY
from wetside.exposure.scales import aperture_exact, shutter_exact

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.exposure.reciprocity import ReciprocityModel

_SHOWN_WITHIN_STOPS = 1 / 3  # our choice: the finest step that apertures are set in
_NOTHING = 1e-9
_SET_CODES = ("exposure.audit.aperture", "exposure.audit.time", "exposure.audit.time_named")


class AuditPart(NamedTuple):
    """One cause: code, what it was computed from, and what it brought on the film. [stops]"""

    code: str
    params: Mapping[str, object]
    stops: float


class ExposureAudit(NamedTuple):
    """Signed error on the film, positive where it got more than meant.

    ``stop_error`` is the sum of the parts; after a double exposure it is the shadow's, and ``stop_error_highlight``
    differs. [stops]
    """

    stop_error: float
    stop_error_highlight: float
    parts: tuple[AuditPart, ...]


class _Losses(NamedTuple):
    """What takes light away: as meant, as it really was, and as the given time allowed for it."""

    filter_meant: float
    filter_given: float
    filter_in_time: float
    bellows_meant: float
    bellows_given: float
    bellows_in_time: float


def audit_exposure(
    meant: CameraSetting,
    given: CameraSetting,
    *,
    reciprocity: ReciprocityModel = NO_RECIPROCITY,
    film_ei: float | None = None,
    actual_ei: float | None = None,
    actual_reciprocity: ReciprocityModel | None = None,
    mishaps: Iterable[str] = frozenset(),
    second: CameraSetting | None = None,
    shadow_zone: float = SHADOW_ZONE,
    highlight_zone: float = HIGHLIGHT_ZONE,
) -> ExposureAudit:
    """Stop error of a sheet on the film.

    Parameters
    ----------
    meant : CameraSetting
        Metered time and what belongs to it; engraved numbers, which are taken at their exact values.
    given : CameraSetting
        What was really set; None means as meant. Without a time, the time that the corrections ask for was given, less
        what the mishaps took from it.
    reciprocity : ReciprocityModel
        Of the film that was meant.
    film_ei : float, optional
        Exposure index of the film that was meant. [1]
    actual_ei : float, optional
        Exposure index of the film that was in the holder, if another. [1]
    actual_reciprocity : ReciprocityModel, optional
        Of the film that was in the holder; as meant if absent.
    mishaps : iterable of str
        Words of :data:`wetside.exposure.MISHAPS`.
    second : CameraSetting, optional
        A second exposure on the same sheet; None in it means as meant. Without it, the word ``double-exposure`` means a
        second exposure that was right for its own subject.
    shadow_zone, highlight_zone : float
        Zones of the tones whose errors are told after a double exposure. [zone]

    Returns
    -------
    exposure_audit : ExposureAudit
        Parts with no effect are left out, but for labels.

    Raises
    ------
    InputError
        If a mishap is told and what it needs is missing: its code names that.
    ConflictError
        If what is told cannot all be true.
    OutOfRangeError
        If a value is not possible.
    RefusedError
        If the film's reciprocity table does not reach the times.

    Notes
    -----
    With E the film's effective time (``effective_s``), F and B the factors of filter and bellows::

        error = log2(E(given time) / (metered time * F * B of the given)) + 2 log2(N meant / N given)
                + log2(rating meant / rating set) + log2(index of the film in the holder / index of the film meant)

    References
    ----------
    .. [1] Composition of this package's own steps; common practice.

    Examples
    --------
    >>> told = audit_exposure(CameraSetting(time_s=1 / 15), CameraSetting(time_s=1 / 2))
    >>> told.stop_error
    3.0
    """
    words = checked_mishaps(mishaps)
    given_film = reciprocity if actual_reciprocity is None else actual_reciprocity
    parts = _setting_parts(meant, given, reciprocity, given_film, words)
    parts += _rating_parts(meant, given, film_ei, words, parts)
    film_parts = _film_parts(film_ei, actual_ei, actual_reciprocity, words)
    parts += film_parts
    first = math.fsum(part.stops for part in parts)
    highlight = first
    if second is not None or DOUBLE_EXPOSURE in words:
        over = CameraSetting() if second is None else second
        again = _setting_parts(meant, over, reciprocity, given_film, frozenset())
        again += _rating_parts(meant, over, film_ei, frozenset(), again)
        second_stops = math.fsum(part.stops for part in (*again, *film_parts))
        added = double_exposure_stops(first, second_stops, shadow_zone)
        added_high = double_exposure_stops(first, second_stops, highlight_zone)
        params = {
            "second_stops": second_stops,
            "shadow_zone": shadow_zone,
            "highlight_zone": highlight_zone,
            "stops": added,
            "highlight_stops": added_high,
        }
        parts.append(AuditPart("exposure.audit.double_exposure", params, added))
        highlight = first + added_high
    return ExposureAudit(math.fsum(part.stops for part in parts), highlight, tuple(parts))


def _part(code: str, stops: float, **params: object) -> AuditPart:
    return AuditPart(code, {**params, "stops": stops}, stops)


def _setting_parts(
    meant: CameraSetting,
    given: CameraSetting,
    film: ReciprocityModel,
    given_film: ReciprocityModel,
    words: frozenset[str],
) -> list[AuditPart]:
    """Aperture, time, filter, bellows, and what another film makes of the time."""
    losses = _losses(meant, given, words)
    metered_s = None if meant.time_s is None else shutter_exact(meant.time_s)
    parts = _aperture_parts(meant, given)
    if given.time_s is not None:
        given_s: float | None = shutter_exact(given.time_s)
        parts += _known_time_parts(metered_s, shutter_exact(given.time_s), losses, film, words)
    else:
        told, given_s = _told_time_parts(metered_s, losses, film, words, wanted=given_film != film)
        parts += told
    parts += _loss_parts(losses, words, told=given.time_s is None)
    if given_film != film:
        if given_s is None:
            raise InputError("exposure.audit.metered_time_missing")
        stops = math.log2(given_film.effective_s(given_s) / film.effective_s(given_s))
        parts += _if_any("exposure.audit.film_reciprocity", stops, given_s=given_s)
    return parts


def _if_any(code: str, stops: float, **params: object) -> list[AuditPart]:
    return [_part(code, stops, **params)] if abs(stops) > _NOTHING else []


def _aperture_parts(meant: CameraSetting, given: CameraSetting) -> list[AuditPart]:
    meant_n = None if meant.aperture_n is None else aperture_exact(meant.aperture_n)
    if given.aperture_n is None:
        return []
    given_n = aperture_exact(given.aperture_n)
    if meant_n is None:
        raise InputError("exposure.audit.meant_aperture_missing", given_n=given.aperture_n)
    stops = 2.0 * math.log2(meant_n / given_n)
    return _if_any("exposure.audit.aperture", stops, meant_n=meant.aperture_n, given_n=given.aperture_n)


def _losses(meant: CameraSetting, given: CameraSetting, words: frozenset[str]) -> _Losses:
    filter_meant = 1.0 if meant.filter_factor is None else limits.factor(meant.filter_factor)
    filter_given = filter_meant if given.filter_factor is None else limits.factor(given.filter_factor)
    bellows_meant = _bellows(meant.extension_mm, meant.focal_mm)
    bellows_given = bellows_meant
    if given.extension_mm is not None or given.focal_mm is not None:
        bellows_given = _bellows(
            meant.extension_mm if given.extension_mm is None else given.extension_mm,
            meant.focal_mm if given.focal_mm is None else given.focal_mm,
        )
    if FILTER_FORGOTTEN in words and meant.filter_factor is None and given.filter_factor is None:
        raise InputError("exposure.audit.filter_missing")
    if BELLOWS_FORGOTTEN in words and meant.extension_mm is None and given.extension_mm is None:
        raise InputError("exposure.audit.extension_missing")
    # A filter that was left off is shown by what was set; the time then allowed for it.
    forgotten = FILTER_FORGOTTEN in words and not (filter_given == 1.0 < filter_meant)
    return _Losses(
        filter_meant,
        filter_given,
        1.0 if forgotten else filter_meant,
        bellows_meant,
        bellows_given,
        1.0 if BELLOWS_FORGOTTEN in words else bellows_meant,
    )


def _bellows(extension_mm: float | None, focal_mm: float | None) -> float:
    """Bellows factor of one setting; 1 where no extension is told (a focal length alone says nothing)."""
    if focal_mm is not None:
        limits.within("exposure.focal_length.out_of_range", focal_mm, limits.LENGTH_MM)
    if extension_mm is None:
        return 1.0
    if focal_mm is None:
        raise InputError("exposure.audit.focal_missing", extension_mm=extension_mm)
    return bellows_factor(extension_mm, focal_mm)


def _known_time_parts(
    metered_s: float | None, given_s: float, losses: _Losses, film: ReciprocityModel, words: frozenset[str]
) -> list[AuditPart]:
    """Compare the time really given with what filter, bellows and film asked for; the words only label it."""
    if metered_s is None:
        raise InputError("exposure.audit.metered_time_missing")
    wanted_s = metered_s * losses.filter_meant * losses.bellows_meant
    stops = math.log2(film.effective_s(given_s) / wanted_s)
    try:
        due_s: float | None = film.corrected_s(wanted_s)
    except RefusedError:
        due_s = None  # only for show: the error itself is known
    labels = tuple(word for word in TIME_WORDS if word in words)
    if labels:
        return [_part("exposure.audit.time_named", stops, due_s=due_s, given_s=given_s, words=labels)]
    return _if_any("exposure.audit.time", stops, due_s=due_s, given_s=given_s)


def _told_time_parts(
    metered_s: float | None, losses: _Losses, film: ReciprocityModel, words: frozenset[str], *, wanted: bool
) -> tuple[list[AuditPart], float | None]:
    """Work out what the words say about reciprocity, and the time that was then given.

    The film's model is asked only where it matters: the end of a table does not stand in the way of an aperture error.
    """
    reordered = RECIPROCITY_FORGOTTEN in words or RECIPROCITY_FIRST in words
    if metered_s is None:
        if reordered:
            raise InputError("exposure.audit.metered_time_missing")
        return [], None
    factor = losses.filter_in_time * losses.bellows_in_time
    product_s = metered_s * factor
    if not reordered:
        return [], film.corrected_s(product_s) if wanted else None
    if RECIPROCITY_FORGOTTEN in words:
        code, given_s = "exposure.audit.reciprocity_forgotten", product_s
    else:
        code, given_s = "exposure.audit.reciprocity_first", film.corrected_s(metered_s) * factor
    stops = math.log2(film.effective_s(given_s) / product_s)
    return [_part(code, stops, due_s=film.corrected_s(product_s), given_s=given_s)], given_s


def _loss_parts(losses: _Losses, words: frozenset[str], *, told: bool) -> list[AuditPart]:
    """Filter and bellows: forgotten in the time, or other than meant."""
    parts: list[AuditPart] = []
    for name, word, meant, given, in_time in (
        ("filter", FILTER_FORGOTTEN, losses.filter_meant, losses.filter_given, losses.filter_in_time),
        ("bellows", BELLOWS_FORGOTTEN, losses.bellows_meant, losses.bellows_given, losses.bellows_in_time),
    ):
        if told and word in words and (in_time != meant or meant == 1.0):
            parts.append(_part(f"exposure.audit.{name}_forgotten", 0.0 - math.log2(given), factor=given))
        else:
            stops = math.log2(meant / given)
            parts += _if_any(f"exposure.audit.{name}_other", stops, meant_factor=meant, given_factor=given)
    return parts


def _rating_parts(
    meant: CameraSetting,
    given: CameraSetting,
    film_ei: float | None,
    words: frozenset[str],
    settings: list[AuditPart],
) -> list[AuditPart]:
    """Count a rating set wrong on the meter, unless what was set already shows it."""
    named = WRONG_RATING in words
    off = math.fsum(part.stops for part in settings if part.code in _SET_CODES)
    due_ei = film_ei if meant.ei is None else meant.ei
    due_ei = None if due_ei is None else limits.rating(due_ei)
    set_ei = given.ei
    if named and set_ei is None and due_ei is not None and film_ei is not None and due_ei != film_ei:
        # The word says that the rating at which it was metered was itself the mishap.
        set_ei, due_ei = due_ei, limits.rating(film_ei)
    if set_ei is None:
        if named and abs(off) <= _NOTHING:
            raise InputError("exposure.audit.rating_missing")
        return [_part("exposure.audit.rating_labelled", 0.0)] if named else []
    given_ei = limits.rating(set_ei)
    if due_ei is None:
        raise InputError("exposure.audit.film_rating_missing")
    stops = math.log2(due_ei / given_ei)
    if abs(stops) <= _NOTHING:
        if named:
            raise ConflictError("exposure.audit.rating_same", ei=given_ei)
        return []
    if abs(off - stops) <= _SHOWN_WITHIN_STOPS and abs(off - stops) < abs(off):
        return [_part("exposure.audit.rating_shown", 0.0, due_ei=due_ei, given_ei=given_ei)]
    return [_part("exposure.audit.rating", stops, due_ei=due_ei, given_ei=given_ei)]


def _film_parts(
    film_ei: float | None, actual_ei: float | None, actual: ReciprocityModel | None, words: frozenset[str]
) -> list[AuditPart]:
    """Count the speed of another film than meant."""
    if actual_ei is None:
        if WRONG_FILM in words or actual is not None:
            raise InputError("exposure.audit.actual_film_missing")
        return []
    actual_ei = limits.rating(actual_ei)
    if film_ei is None:
        raise InputError("exposure.audit.film_rating_missing")
    stops = math.log2(actual_ei / limits.rating(film_ei))
    if WRONG_FILM in words:
        return [_part("exposure.audit.film", stops, film_ei=film_ei, actual_ei=actual_ei)]
    return _if_any("exposure.audit.film", stops, film_ei=film_ei, actual_ei=actual_ei)
