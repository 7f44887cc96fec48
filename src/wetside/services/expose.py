"""Correct a metered time in the right order, or place readings on zones."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import AmbiguousError, InputError
from wetside.exposure import (
    ReciprocityPower,
    aperture_exact,
    exposure_pipeline,
    placed_ev,
    shutter_exact,
    zone_fall,
    zones_n,
)
from wetside.services.options import needs, typed, typed_or_none
from wetside.services.zone_words import at_zone
from wetside.units import parse_aperture, parse_duration_s, parse_length_mm, parse_number

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wetside.exposure import ExposurePipeline, ExposureStep
    from wetside.services.filters import FiltersTold, FilterUse
    from wetside.services.flash import Flashed
    from wetside.services.long_exposure import LongExposure


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
    model: str | None = None
    light: str | None = None
    metered_for: str | None = None
    sensitivity: str | None = None
    metered_through: bool = False


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
    """Answer: the pipeline of a time, the placing of readings, a flash, or several of them.

    ``long_exposure`` tells the film's model and the others, ``reckoned`` whether reciprocity is in the time at all.
    """

    pipeline: ExposurePipeline | None
    source: str | None
    placing: Placing | None
    flashed: Flashed | None = None
    long_exposure: LongExposure | None = None
    filters: tuple[FilterUse, ...] = ()
    reckoned: bool = False


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
        _check_no_time(answers)
        return Exposed(None, None, placing, flashed)
    if (answers.extension is None) != (answers.focal is None):
        missing, present = ("--focal", "--extension") if answers.focal is None else ("--extension", "--focal")
        raise InputError("services.option_missing_with", option=missing, other=present)
    if (answers.metered_at is None) != (answers.set_to is None):
        missing, present = ("--set-to", "--metered-at") if answers.set_to is None else ("--metered-at", "--set-to")
        raise InputError("services.option_missing_with", option=missing, other=present)
    told = _filters(answers, rows)
    corrected = partial(
        exposure_pipeline,
        shutter_exact(typed("TIME", parse_duration_s, answers.time)),
        metered_n=_engraved("--metered-at", answers.metered_at),
        set_n=_engraved("--set-to", answers.set_to),
        filter_factors=() if answers.metered_through else tuple(use.factor for use in told.filters),
        extension_mm=typed_or_none("--extension", parse_length_mm, answers.extension),
        focal_length_mm=typed_or_none("--focal", parse_length_mm, answers.focal),
        light_factor=told.light,
    )
    if answers.model is not None:
        needs("--film", answers.film, "--model")
    if answers.power is not None:
        if answers.model is not None or (answers.film is not None and not told.by_film):
            raise AmbiguousError("services.power_and_film")
        power = typed("--power", parse_number, answers.power)
        threshold_s = typed("--threshold", parse_duration_s, answers.threshold)
        pipeline, found = corrected(reciprocity=ReciprocityPower(power, threshold_s)), None
    else:
        pipeline, found = corrected(), None
        if answers.film is not None:
            found = _long_exposure(answers, pipeline.product_s, rows, needed=not told.by_film)
        if found is not None:
            pipeline = corrected(reciprocity=found.model)
    steps = _named_steps(pipeline.steps, [] if answers.metered_through else list(told.filters))
    return Exposed(
        pipeline._replace(steps=steps),
        None if found is None else found.source,
        placing,
        flashed,
        found,
        told.filters,
        reckoned=answers.power is not None or found is not None,
    )


def _check_no_time(answers: ExposeAnswers) -> None:
    """Refuse what would correct a time where there is none."""
    for option, text in (
        ("--model", answers.model),
        ("--light", answers.light),
        ("--metered-for", answers.metered_for),
        ("--sensitivity", answers.sensitivity),
        ("--metered-through", answers.metered_through or None),
    ):
        if text is not None:
            raise InputError("services.option_missing_with", option="TIME", other=option)


def _filters(answers: ExposeAnswers, rows: Path | None) -> FiltersTold:
    from wetside.services.filters import FilterAnswers, filters_told

    return filters_told(
        FilterAnswers(
            answers.filters,
            answers.light,
            answers.metered_for,
            answers.sensitivity,
            answers.film,
            answers.metered_through,
        ),
        rows,
    )


def _long_exposure(answers: ExposeAnswers, product_s: float, rows: Path | None, *, needed: bool) -> LongExposure | None:
    """Model of the film; a film that was named for its filters may have none."""
    from wetside.services.long_exposure import long_exposure, no_reciprocity

    film = answers.film or ""
    found = long_exposure(film, product_s, answers.model, rows)
    if found is None and needed:
        raise no_reciprocity(film, rows)
    return found


def _named_steps(steps: Sequence[ExposureStep], filters: list[FilterUse]) -> tuple[ExposureStep, ...]:
    """Steps with the names of the filters that were named."""
    told = []
    for step in steps:
        if step.code == "exposure.step.filter":
            use = filters.pop(0)
            if use.found is not None:
                told.append(
                    step._replace(
                        code="exposure.step.filter_named",
                        params={**step.params, "filter": use.name, "evidence": use.found.evidence.value},
                    )
                )
                continue
        told.append(step)
    return tuple(told)


def _flash(answers: ExposeAnswers) -> Flashed:
    """Tell a flash; few exposures have one, so its science is loaded only here."""
    from wetside.services.flash import flash

    return flash(answers.flash, answers.flash_gain)


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
