"""Correct a metered time in the right order, or place readings on zones."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import AmbiguousError, InputError
from wetside.exposure import (
    NO_RECIPROCITY,
    ReciprocityModel,
    ReciprocityPower,
    aperture_exact,
    exposure_pipeline,
    placed_ev,
    shutter_exact,
    zone_fall,
    zones_n,
)
from wetside.services.options import typed, typed_or_none
from wetside.services.zone_words import at_zone
from wetside.units import parse_aperture, parse_duration_s, parse_length_mm, parse_number

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wetside.exposure import ExposurePipeline
    from wetside.services.flash import Flashed


class ExposeAnswers(NamedTuple):
    """What was typed; None where nothing was said."""

    time: str | None = None
    metered_at: str | None = None
    set_to: str | None = None
    filters: Sequence[str] = ()
    extension: str | None = None
    focal: str | None = None
    film: str | None = None
    power: str | None = None
    threshold: str = "1 s"
    shadow: str | None = None
    highlight: str | None = None
    flash: str | None = None
    flash_gain: str | None = None


class Placing(NamedTuple):
    """Where readings were placed and where they fall. [EV; zones]"""

    shadow_ev: float
    shadow_zone: float
    set_ev: float
    highlight_ev: float | None
    highlight_zone: float | None
    highlight_falls: float | None
    n: float | None


class Exposed(NamedTuple):
    """Answer: the pipeline of a time, the placing of readings, a flash, or several of them."""

    pipeline: ExposurePipeline | None
    source: str | None
    placing: Placing | None
    flashed: Flashed | None = None


def expose(answers: ExposeAnswers, rows: Path | None = None) -> Exposed:
    """Work out an exposure.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    wants_flash = answers.flash is not None or answers.flash_gain is not None
    if answers.time is None and answers.shadow is None and not wants_flash:
        raise InputError("services.expose_nothing")
    placing = _placing(answers) if answers.shadow is not None else None
    if answers.highlight is not None and answers.shadow is None:
        raise InputError("services.option_missing_with", option="--shadow", other="--highlight")
    flashed = _flash(answers) if wants_flash else None
    if answers.time is None:
        return Exposed(None, None, placing, flashed)
    if (answers.extension is None) != (answers.focal is None):
        missing, present = ("--focal", "--extension") if answers.focal is None else ("--extension", "--focal")
        raise InputError("services.option_missing_with", option=missing, other=present)
    if (answers.metered_at is None) != (answers.set_to is None):
        missing, present = ("--set-to", "--metered-at") if answers.set_to is None else ("--metered-at", "--set-to")
        raise InputError("services.option_missing_with", option=missing, other=present)
    model, source = _reciprocity(answers, rows)
    pipeline = exposure_pipeline(
        shutter_exact(typed("TIME", parse_duration_s, answers.time)),
        metered_n=_engraved("--metered-at", answers.metered_at),
        set_n=_engraved("--set-to", answers.set_to),
        filter_factors=tuple(typed("--filter", parse_number, text) for text in answers.filters),
        extension_mm=typed_or_none("--extension", parse_length_mm, answers.extension),
        focal_length_mm=typed_or_none("--focal", parse_length_mm, answers.focal),
        reciprocity=model,
    )
    return Exposed(pipeline, source, placing, flashed)


def _flash(answers: ExposeAnswers) -> Flashed:
    """Tell a flash; few exposures have one, so its science is loaded only here."""
    from wetside.services.flash import flash

    return flash(answers.flash, answers.flash_gain)


def _reciprocity(answers: ExposeAnswers, rows: Path | None) -> tuple[ReciprocityModel, str | None]:
    if answers.power is not None and answers.film is not None:
        raise AmbiguousError("services.power_and_film")
    if answers.power is not None:
        return ReciprocityPower(
            typed("--power", parse_number, answers.power), typed("--threshold", parse_duration_s, answers.threshold)
        ), None
    if answers.film is None:
        return NO_RECIPROCITY, None
    from wetside.services.library import load_library
    from wetside.values.names import name_key

    published = load_library(rows).reciprocity
    found = published.get(name_key(answers.film))
    if found is None:
        raise InputError(
            "services.no_reciprocity", film=answers.film, known=sorted(one.film for one in published.values())
        )
    return found.model, found.source


def _placing(answers: ExposeAnswers) -> Placing:
    assert answers.shadow is not None  # noqa: S101 (the caller asks only then)
    ev, zone = at_zone("--shadow", answers.shadow, "services.ev_at_zone")
    set_ev = placed_ev(ev, zone)
    if answers.highlight is None:
        return Placing(ev, zone, set_ev, None, None, None, None)
    high_ev, high_zone = at_zone("--highlight", answers.highlight, "services.ev_at_zone")
    return Placing(
        ev, zone, set_ev, high_ev, high_zone, zone_fall(ev, zone, high_ev), zones_n(ev, zone, high_ev, high_zone)
    )


def _engraved(option: str, text: str | None) -> float | None:
    """Exact f-number of an engraved one."""
    return None if text is None else aperture_exact(typed(option, parse_aperture, text))
