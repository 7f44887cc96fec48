"""All measures of a curve at once, with a reason for each that its readings do not give."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import WetsideError
from wetside.sensitometry.arcs import contrast_index
from wetside.sensitometry.contrast import (
    average_gradient,
    gamma,
    iso_delta,
    speed_arithmetic_iso6,
    speed_log_h,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from wetside.values.curve import CharacteristicCurve


class MissingMeasure(NamedTuple):
    """A measure that the readings do not give: its name, and the reason as a code with parameters."""

    measure: str
    code: str
    params: Mapping[str, object]


class CurveMeasures(NamedTuple):
    """What one curve says; None with a line in ``missing`` where its readings do not reach.

    Densities [density], ``speed_log_h`` [log10 lux-second, or relative], slopes [density per log H], ``speed``
    arithmetic by 0.8/Hm.
    """

    dev_s: float
    base_fog: float
    base_fog_given: bool
    speed_log_h: float | None
    iso_delta: float | None
    gradient_150: float | None
    contrast_index: float | None
    gamma: float | None
    speed: float | None
    missing: tuple[MissingMeasure, ...]


_MEASURES: dict[str, Callable[[CharacteristicCurve], float]] = {
    "speed_log_h": speed_log_h,
    "iso_delta": iso_delta,
    "gradient_150": average_gradient,
    "contrast_index": contrast_index,
    "gamma": gamma,
    "speed": speed_arithmetic_iso6,
}


def curve_measures(curve: CharacteristicCurve) -> CurveMeasures:
    """Measure a curve in every way that its readings allow.

    Parameters
    ----------
    curve : CharacteristicCurve

    Returns
    -------
    measures : CurveMeasures

    Examples
    --------
    >>> from wetside.values.curve import characteristic_curve
    >>> measures = curve_measures(characteristic_curve(300.0, (-3.0, -1.4), (0.2, 1.16), absolute=False))
    >>> round(measures.iso_delta, 6), measures.contrast_index
    (0.78, None)
    >>> [missing.measure for missing in measures.missing]
    ['gradient_150', 'contrast_index', 'gamma', 'speed']
    """
    found: dict[str, float | None] = {}
    missing = []
    for name, measure in _MEASURES.items():
        try:
            found[name] = measure(curve)
        except WetsideError as error:
            found[name] = None
            missing.append(MissingMeasure(name, error.code, error.params))
    return CurveMeasures(
        dev_s=curve.dev_s,
        base_fog=curve.base_fog,
        base_fog_given=curve.base_fog_given,
        **found,
        missing=tuple(missing),
    )
