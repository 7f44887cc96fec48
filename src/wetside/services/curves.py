"""Characteristic curves of a readings file, with all their measures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.readings_file import NOMINAL_STEP_LOG_H, read_curve_readings
from wetside.errors import InputError, ManyErrors, Place, WetsideError
from wetside.sensitometry import curve_measures, curve_of_readings
from wetside.units import parse_number

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.values.curve import CharacteristicCurve


MEASURES = ("base_fog", "speed_log_h", "iso_delta", "gradient_150", "contrast_index", "gamma")
"""Measures that are reported, by their stable names."""


class MeasuredCurve(NamedTuple):
    """A curve with its measures; ``notes`` are codes with parameters: smoothing, base + fog, what was not reached."""

    dev_min: float
    curve: CharacteristicCurve
    measures: dict[str, float | None]
    notes: tuple[tuple[str, dict[str, Any]], ...]

    def as_json(self) -> dict[str, Any]:
        """Stable keys for scripts."""
        return {
            "dev_min": self.dev_min,
            **self.measures,
            "notes": [{"code": code, **params} for code, params in self.notes],
        }


def curves_of_file(
    path: Path, *, tablet: Path | None = None, nominal: bool = False, base_fog: str | None = None
) -> tuple[MeasuredCurve, ...]:
    """Read a file of readings and measure each curve.

    Parameters
    ----------
    path : Path
        CSV.
    tablet : Path, optional
        CSV of the tablet's own densities, for readings by step.
    nominal : bool
        Take the steps as 0.15 each.
    base_fog : str, optional
        Density of unexposed film, as typed.

    Raises
    ------
    WetsideError
        Naming file, line and field; a set that does not rise is refused with its developing time.
    """
    if tablet is not None and nominal:
        raise InputError("services.tablet_twice")
    given = None
    if base_fog is not None:
        try:
            given = parse_number(base_fog)
        except WetsideError as error:
            raise error.at(Place(field="--base-fog")) from None
    readings = read_curve_readings(path, tablet=tablet, nominal_step_log_h=NOMINAL_STEP_LOG_H if nominal else None)
    curves: list[MeasuredCurve] = []
    errors: list[WetsideError] = []
    absolute = tablet is None and not nominal
    for timed in readings:
        try:
            curve, reports = curve_of_readings(
                timed.dev_min * 60.0, timed.log_h, timed.density, base_fog=given, absolute=absolute
            )
            curves.append(_measured(timed.dev_min, curve, [(report.code, dict(report.params)) for report in reports]))
        except WetsideError as error:
            errors.append(error.at(Place(file=str(path), line=timed.lines[0])))
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return tuple(curves)


def _measured(dev_min: float, curve: CharacteristicCurve, notes: list[tuple[str, dict[str, Any]]]) -> MeasuredCurve:
    found = curve_measures(curve)
    measures = {name: getattr(found, name) for name in MEASURES}
    told = [
        *notes,
        *(
            (missing.code, {"measure": missing.measure, **missing.params})
            for missing in found.missing
            if missing.measure in MEASURES
        ),
    ]
    return MeasuredCurve(dev_min, curve, measures, tuple(told))


def write_curves_svg(curves: tuple[MeasuredCurve, ...], path: Path) -> None:
    """Draw the curves into one SVG file."""
    from wetside.adapters.typesetting.curve_svg import curve_svg
    from wetside.adapters.whole_file import write_whole
    from wetside.cards.curve_chart import curve_chart

    chart = curve_chart([(curve.dev_min, curve.curve) for curve in curves])
    write_whole(path, curve_svg(chart).encode())
