"""``wetside mix``: the parts of a working solution."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.chemistry import mix_volumes, parse_dilution, warnings_of_mix
from wetside.cli.answer import print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.units import parse_volume_ml
from wetside.wording import shown

if TYPE_CHECKING:
    import argparse

    from wetside.chemistry import Mix
    from wetside.cli.answer import Row


def run(arguments: argparse.Namespace) -> int:
    """Print concentrate, water and total, and what to mind."""
    dilution = parse_dilution(arguments.dilution)
    mix = mix_volumes(dilution, parse_volume_ml(arguments.volume))
    warnings = warnings_of_mix(mix, smallest_ml=parse_volume_ml(arguments.smallest))
    if arguments.json:
        print_json(
            {
                "dilution": dilution.text,
                "concentrate_ml": sum(mix.concentrates_ml),
                "parts_ml": list(mix.concentrates_ml),
                "water_ml": mix.water_ml,
                "total_ml": mix.total_ml,
                "warnings": told_json(warnings),
            }
        )
    else:
        print_answer(_rows(mix), warnings, ["mix"])
    return ExitCode.OK


def _rows(mix: Mix) -> list[Row]:
    """Each part under its name, several concentrates by number; a working solution without water shows none."""
    rows: list[Row] = []
    for number, part_ml in enumerate(mix.concentrates_ml, 1):
        alone = len(mix.concentrates_ml) == 1
        name = "cli.mix.concentrate" if alone else ("cli.mix.concentrate_numbered", {"number": number})
        rows.append((name, shown(part_ml, "ml")))
    if mix.water_ml:
        rows.append(("cli.mix.water", shown(mix.water_ml, "ml")))
    return [*rows, ("cli.mix.total", shown(mix.total_ml, "ml"))]
