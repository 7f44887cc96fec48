"""All corrections of an exposure, in the one right order: aperture, filters, bellows, and reciprocity last.

The film's loss depends on how dim the light on it is, and so on the product of everything that takes light away.
Corrected first and multiplied afterwards, a long exposure comes out short.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import ConflictError, InputError
from wetside.exposure import _limits as limits
from wetside.exposure.light_losses import (
    aperture_change_factor,
    bellows_factor,
    bellows_factor_magnification,
)
from wetside.exposure.reciprocity import NO_RECIPROCITY

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.exposure.reciprocity import ReciprocityModel


class ExposureStep(NamedTuple):
    """One correction: code, what it was made of, factor on the time, the same in stops, time after it. [s]"""

    code: str
    params: Mapping[str, object]
    factor: float
    stops: float
    time_s: float


class ExposurePipeline(NamedTuple):
    """The steps in their order, the time before reciprocity and the time to give. [s]"""

    steps: tuple[ExposureStep, ...]
    product_s: float
    corrected_s: float


def exposure_pipeline(
    metered_s: float,
    *,
    metered_n: float | None = None,
    set_n: float | None = None,
    filter_factors: Sequence[float] = (),
    extension_mm: float | None = None,
    focal_length_mm: float | None = None,
    magnification: float | None = None,
    light_factor: float | None = None,
    reciprocity: ReciprocityModel = NO_RECIPROCITY,
) -> ExposurePipeline:
    """Time to give, step by step, from the time that was metered.

    Parameters
    ----------
    metered_s : float
        Exact time that the placed reading asks for, through no filter. [s]
    metered_n, set_n : float, optional
        Exact f-numbers: metered at, and to be set; both or neither. [1]
    filter_factors : sequence of float
        One for each filter before the lens. [1]
    extension_mm, focal_length_mm : float, optional
        Bellows; both or neither. [mm]
    magnification : float, optional
        Scale of reproduction, instead of the two lengths. [1]
    light_factor : float, optional
        Where the meter is set for another light than the scene's; under 1 where the film sees the scene's better. [1]
    reciprocity : ReciprocityModel
        Of the film; no loss if absent.

    Returns
    -------
    exposure_pipeline : ExposurePipeline
        Steps that were not asked for are absent, except the first (what was metered) and the last (reciprocity).

    Raises
    ------
    InputError
        If one half of a pair is missing, or both ways to give the bellows are used.
    OutOfRangeError
        If a value is not possible.
    RefusedError
        If the film's table does not reach that far.

    References
    ----------
    .. [1] Order: common practice. Each step: see its own function.

    Examples
    --------
    >>> from wetside.exposure.reciprocity import ReciprocityPower
    >>> told = exposure_pipeline(2.0, filter_factors=(4.0,), extension_mm=450.0, focal_length_mm=300.0,
    ...                          reciprocity=ReciprocityPower(1.31))
    >>> told.product_s, round(told.corrected_s, 1)
    (18.0, 44.1)
    """
    running = limits.time(metered_s)
    steps = [ExposureStep("exposure.step.metered", {"time_s": running}, 1.0, 0.0, running)]
    losses = _losses(metered_n, set_n, filter_factors, extension_mm, focal_length_mm, magnification)
    if light_factor is not None:
        factor = limits.within("exposure.light.out_of_range", light_factor, limits.LIGHT_FACTOR)
        losses.insert(0, ("exposure.step.light", {}, factor))
    for code, params, factor in losses:
        running *= factor
        steps.append(ExposureStep(code, {**params, "factor": factor}, factor, math.log2(factor), running))
    corrected = reciprocity.corrected_s(running)
    factor = corrected / running
    params = {"factor": factor, "time_s": corrected}
    steps.append(ExposureStep("exposure.step.reciprocity", params, factor, math.log2(factor), corrected))
    return ExposurePipeline(tuple(steps), running, corrected)


def pipeline_wrong_order_s(
    metered_s: float,
    *,
    metered_n: float | None = None,
    set_n: float | None = None,
    filter_factors: Sequence[float] = (),
    extension_mm: float | None = None,
    focal_length_mm: float | None = None,
    magnification: float | None = None,
    reciprocity: ReciprocityModel = NO_RECIPROCITY,
) -> float:
    """Time that comes out when reciprocity is corrected first and the factors are multiplied on afterwards.

    Parameters
    ----------
    metered_s, metered_n, set_n, filter_factors, extension_mm, focal_length_mm, magnification, reciprocity
        As for :func:`exposure_pipeline`. [s], [1], [1], [1], [mm], [mm], [1]

    Returns
    -------
    pipeline_wrong_order_s : float
        Wrong wherever the film loses speed; kept to tell what a sheet really got. [s]

    Raises
    ------
    InputError, OutOfRangeError, RefusedError
        As for :func:`exposure_pipeline`.

    Examples
    --------
    >>> from wetside.exposure.reciprocity import ReciprocityPower
    >>> round(pipeline_wrong_order_s(2.0, filter_factors=(4.0, 2.25), reciprocity=ReciprocityPower(1.31)), 1)
    22.3
    """
    losses = _losses(metered_n, set_n, filter_factors, extension_mm, focal_length_mm, magnification)
    return reciprocity.corrected_s(limits.time(metered_s)) * math.prod(factor for _, _, factor in losses)


def _losses(
    metered_n: float | None,
    set_n: float | None,
    filter_factors: Sequence[float],
    extension_mm: float | None,
    focal_length_mm: float | None,
    magnification: float | None,
) -> list[tuple[str, dict[str, object], float]]:
    """Everything that comes before reciprocity, as code, parameters and factor."""
    found: list[tuple[str, dict[str, object], float]] = []
    if metered_n is not None and set_n is not None:
        params: dict[str, object] = {"metered_n": metered_n, "set_n": set_n}
        found.append(("exposure.step.aperture", params, aperture_change_factor(metered_n, set_n)))
    elif metered_n is not None or set_n is not None:
        raise InputError("exposure.pipeline.one_aperture")
    found.extend(("exposure.step.filter", {}, limits.factor(factor)) for factor in filter_factors)
    limits.factor(math.prod(filter_factors))
    lengths = extension_mm is not None or focal_length_mm is not None
    if magnification is not None:
        if lengths:
            raise ConflictError("exposure.pipeline.two_bellows")
        factor = bellows_factor_magnification(magnification)
        found.append(("exposure.step.bellows_scale", {"magnification": magnification}, factor))
    elif lengths:
        if extension_mm is None:
            raise InputError("exposure.bellows.extension_missing")
        if focal_length_mm is None:
            raise InputError("exposure.bellows.focal_missing")
        factor = bellows_factor(extension_mm, focal_length_mm)
        params = {"extension_mm": extension_mm, "focal_length_mm": focal_length_mm}
        found.append(("exposure.step.bellows", params, factor))
    return found
