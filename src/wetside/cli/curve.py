"""``wetside curve``: characteristic curves and their measures from readings of a step tablet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.services.curves import curves_of_file, write_curves_svg
from wetside.services.options import needs
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

    from wetside.services.curves import MeasuredCurve
    from wetside.services.zones import ZoneTable

COLUMNS = (
    ("minutes", "dev_min", "plain"),
    ("base+fog", "base_fog", "density"),
    ("speed log H", "speed_log_h", "signed"),
    ("over 1.30", "iso_delta", "density"),
    ("gradient 1.50", "gradient_150", "density"),
    ("contrast index", "contrast_index", "density"),
    ("gamma", "gamma", "density"),
)


TAKEN = "sensitometry.readings.base_fog_lowest"
"""Said once for all curves, not once for each."""


def run(arguments: argparse.Namespace) -> int:
    """Print the measures of each curve; what the readings do not reach is a dash with its reason below."""
    curves = curves_of_file(
        Path(arguments.readings),
        tablet=Path(arguments.tablet) if arguments.tablet else None,
        nominal=arguments.nominal,
        base_fog=arguments.base_fog,
    )
    if arguments.svg:
        write_curves_svg(curves, Path(arguments.svg))
    zones = _zones(curves, arguments)
    if arguments.json:
        answer: dict[str, Any] = {"curves": [curve.as_json() for curve in curves]}
        if zones is not None:
            from wetside.cli.zones import zones_json

            answer["zones"] = zones_json(zones)
        print_json(answer)
        return ExitCode.OK
    lines = _table(curves)
    if zones is not None:
        from wetside.cli.zones import zone_lines

        lines += ["", *zone_lines(zones)]
    print_lines(lines)
    return ExitCode.OK


def _zones(curves: tuple[MeasuredCurve, ...], arguments: argparse.Namespace) -> ZoneTable | None:
    """Zones on the curves, if they are asked for."""
    given = {
        "--ei": arguments.ei,
        "--speed-zone": arguments.speed_zone,
        "--aim": arguments.aim,
        "--n": arguments.n,
        "--flash": arguments.flash,
        "--flash-gain": arguments.flash_gain,
    }
    if not arguments.zones:
        for option, text in given.items():
            needs("--zones", None if text is not None else "", option)
        return None
    from wetside.services.zones import ZoneAnswers, zone_table

    return zone_table(curves, ZoneAnswers(*given.values()))


def _table(curves: tuple[MeasuredCurve, ...]) -> list[str]:
    widths = [max(len(title), 7) for title, _, _ in COLUMNS]
    lines = ["  ".join(title.rjust(width) for (title, _, _), width in zip(COLUMNS, widths, strict=True))]
    for curve in curves:
        values = curve.as_json()
        cells = [
            (shown(values[key], how) if values[key] is not None else "-").rjust(width)
            for (_, key, how), width in zip(COLUMNS, widths, strict=True)
        ]
        lines.append("  ".join(cells))
    told = [sentence(code, params) for curve in curves for code, params in curve.notes if code != TAKEN]
    if any(code == TAKEN for curve in curves for code, _ in curve.notes):
        told.append(sentence("cards.curves.base_fog_taken", {}))
    return [*lines, *(line for text in dict.fromkeys(told) for line in ("", *wrapped(text, text_width())))]
