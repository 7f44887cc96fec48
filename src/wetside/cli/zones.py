"""Tables of zones: what a flash gives to each, and the density that each has on measured curves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.answer import WIDEST
from wetside.cli.output import text_width, wrapped
from wetside.services.zone_words import zone_name
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.services.flash import Flashed
    from wetside.services.zones import ZoneTable

GAP = "  "
NOTHING = "-"


def flash_lines(flashed: Flashed) -> list[str]:
    """What a flash gives to each zone, what it takes, and how to give it."""
    params = {"zone": zone_name(round(flashed.flash_zone, 2)), "stops": -flashed.stops_from_meter}
    lines = said("cli.flash.how", params)
    heads = [sentence(f"cli.flash.{name}", {}) for name in ("zone", "lies_on", "gains", "step")]
    rows = [
        [
            zone_name(tone.zone),
            f"{tone.zone_after:.2f}",
            shown(tone.gain_stops, "signed"),
            f"{step:.2f}",
        ]
        for tone, step in zip(flashed.zones, flashed.steps, strict=True)
    ]
    return [*lines, "", *table(heads, rows), *said("cli.flash.costs", params, before=True)]


def flash_json(flashed: Flashed) -> dict[str, Any]:
    """Stable keys for scripts."""
    return {
        "zone": flashed.flash_zone,
        "stops_from_meter": flashed.stops_from_meter,
        "zones": [
            {"zone": tone.zone, "zone_after": tone.zone_after, "gain_stops": tone.gain_stops, "step_stops": step}
            for tone, step in zip(flashed.zones, flashed.steps, strict=True)
        ],
    }


def zone_lines(zones: ZoneTable) -> list[str]:
    """Net density of each zone on each curve, beside the targets; then the same with a flash."""
    heads = [sentence("cli.flash.zone", {}), sentence("cli.zones.stops", {})]
    keys = [[zone_name(tone.zone), shown(tone.zone - 5.0, "stops")] for tone in zones.curves[0].densities]
    if zones.targets:
        heads.append(sentence("cli.zones.target", {}))
        keys = [[*key, _density(target.net_density)] for key, target in zip(keys, zones.targets, strict=True)]
    columns = [
        (_minutes(curve.dev_min), [_density(tone.net_density) for tone in curve.densities]) for curve in zones.curves
    ]
    lines = [*said("cli.zones.title", {}), *beside(heads, keys, columns)]
    lines += ["", *_range_lines(zones)]
    if zones.flash_zone is not None:
        params = {"zone": zone_name(round(zones.flash_zone, 2))}
        heads = [sentence(f"cli.flash.{name}", {}) for name in ("zone", "gains")]
        keys = [[zone_name(tone.zone), shown(tone.gain_stops, "signed")] for tone in zones.curves[0].flashed]
        flashed = [
            (
                _minutes(curve.dev_min),
                [_both(tone.net_before, tone.net_after) for tone in curve.flashed],
            )
            for curve in zones.curves
        ]
        lines += ["", *said("cli.zones.flashed", params), *beside(heads, keys, flashed)]
    if any(tone.net_density is None for curve in zones.curves for tone in curve.densities):
        lines += said("cli.zones.not_read", {}, before=True)
    if zones.targets:
        lines += said("cli.zones.aimed", {"zone": zone_name(zones.highlight_zone)}, before=True)
    return [*lines, *said("cli.zones.no_flare", {}, before=True)]


def zones_json(zones: ZoneTable) -> dict[str, Any]:
    """Stable keys for scripts."""
    return {
        "highlight_zone": zones.highlight_zone,
        "wanted_range": zones.wanted,
        "targets": [target._asdict() for target in zones.targets],
        "flash_zone": zones.flash_zone,
        "curves": [
            {
                "dev_min": curve.dev_min,
                "range": curve.density_range,
                "zones": [
                    {"zone": tone.zone, "log_h": tone.log_h, "net_density": tone.net_density, "reason": tone.code}
                    for tone in curve.densities
                ],
                "flashed": [tone._asdict() for tone in curve.flashed],
            }
            for curve in zones.curves
        ],
    }


def said(code: str, params: dict[str, Any], *, before: bool = False) -> list[str]:
    """Lines of a sentence, with an empty one in front of it if it follows something."""
    return [*([""] if before else []), *wrapped(sentence(code, params), min(text_width(), WIDEST))]


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], *, words_last: bool = False) -> list[str]:
    """Columns set to the right, the first to the left, and the last too where it holds words."""
    widths = [max(len(row[at]) for row in (heads, *rows)) for at in range(len(heads))]
    return [
        GAP.join(
            cell.ljust(width) if at == 0 or (words_last and at == len(heads) - 1) else cell.rjust(width)
            for at, (cell, width) in enumerate(zip(row, widths, strict=True))
        )
        for row in (heads, *rows)
    ]


def beside(heads: Sequence[str], keys: Sequence[Sequence[str]], columns: Sequence[tuple[str, list[str]]]) -> list[str]:
    """Columns beside their keys, in as many tables below each other as the width wants."""
    lines: list[str] = []
    left = list(columns)
    while left:
        many = len(left)
        while True:
            taken = left[:many]
            part = table(
                [*heads, *(head for head, _ in taken)],
                [[*key, *(cells[at] for _, cells in taken)] for at, key in enumerate(keys)],
            )
            if many == 1 or len(part[0]) <= text_width():
                break
            many -= 1
        lines += [*([""] if lines else []), *part]
        left = left[many:]
    return lines


def _range_lines(zones: ZoneTable) -> list[str]:
    params = {"zone": zone_name(zones.highlight_zone)}
    heads = [sentence("cli.zones.minutes", {}), sentence("cli.zones.range", params)]
    rows = [[_minutes(curve.dev_min), _density(curve.density_range)] for curve in zones.curves]
    if zones.wanted is not None:
        heads.append(sentence("cli.zones.off", {}))
        rows = [
            [*row, NOTHING if curve.density_range is None else shown(curve.density_range - zones.wanted, "signed")]
            for row, curve in zip(rows, zones.curves, strict=True)
        ]
    return table(heads, rows)


def _density(value: float | None) -> str:
    return NOTHING if value is None else shown(value, "density")


def _both(before: float | None, after: float | None) -> str:
    return f"{_density(before)} to {_density(after)}"


def _minutes(dev_min: float) -> str:
    return shown(60.0 * dev_min, "mss")
