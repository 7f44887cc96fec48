"""``wetside mix``: the parts of a working solution."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.chemistry import (
    hardness_class,
    hardness_mg_per_l,
    mix_volumes,
    parse_dilution,
    warnings_of_mix,
    water_notes,
)
from wetside.cli.answer import print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.services.options import typed
from wetside.units import parse_number, parse_volume_ml
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

    from wetside.chemistry import Mix, MixtureHazards
    from wetside.cli.answer import Row
    from wetside.services.mix_hazards import MixHazards

    Told = tuple[str, Any]
    """Code of a sentence, with its parameters."""

SHEET_FIRST = "chemistry.hazard.sheet_first"


def run(arguments: argparse.Namespace) -> int:
    """Print concentrate, water and total, and what to mind."""
    dilution = parse_dilution(arguments.dilution)
    mix = mix_volumes(dilution, parse_volume_ml(arguments.volume))
    warnings: list[Told] = [*warnings_of_mix(mix, smallest_ml=parse_volume_ml(arguments.smallest))]
    hardness = _hardness(arguments)
    if hardness is not None:
        warnings.extend(water_notes(hardness_class(hardness)))
    hazards = None
    if arguments.holds:
        from wetside.services.mix_hazards import hazards_of_mix

        hazards = hazards_of_mix(arguments.holds, dilution)
    if arguments.json:
        print_json(
            {
                "dilution": dilution.text,
                "concentrate_ml": sum(mix.concentrates_ml),
                "parts_ml": list(mix.concentrates_ml),
                "water_ml": mix.water_ml,
                "total_ml": mix.total_ml,
                "hardness_mg_per_l": hardness,
                "hardness": None if hardness is None else hardness_class(hardness).value,
                "hazards": None
                if hazards is None
                else {"concentrate": _hazards_json(hazards.concentrate), "bath": _hazards_json(hazards.bath)},
                "warnings": told_json(warnings),
            }
        )
    else:
        print_answer(_rows(mix), [*warnings, *_hazards_told(hazards)], ["mix"])
    return ExitCode.OK


def _hardness(arguments: argparse.Namespace) -> float | None:
    """Hardness of the water as calcium carbonate, if it was given. [mg/l]"""
    if arguments.hardness is None:
        return None
    value = typed("--hardness", parse_number, arguments.hardness)
    return typed("--hardness", lambda _: hardness_mg_per_l(value, arguments.scale), arguments.hardness)


def _hazards_json(found: MixtureHazards) -> dict[str, Any]:
    return {"classes": list(found.classes), "h_codes": list(found.h_codes), "notes": told_json(found.notes)}


def _hazards_told(hazards: MixHazards | None) -> list[Told]:
    """Hazards of concentrate and bath; that the safety sheet comes first stands once, below both."""
    if hazards is None:
        return []
    return [
        ("cli.mix.concentrate_hazards", {"said": _said(hazards.concentrate)}),
        ("cli.mix.bath_hazards", {"said": _said(hazards.bath)}),
        (SHEET_FIRST, {}),
    ]


def _said(found: MixtureHazards) -> str:
    """Sentences on a mixture, without the one that stands below both."""
    return " ".join(sentence(code, params) for code, params in found.notes if code != SHEET_FIRST)


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
