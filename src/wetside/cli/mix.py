"""``wetside mix``: the parts of a working solution."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.chemistry import (
    cautions_of,
    hardness_class,
    hardness_mg_per_l,
    mix_volumes,
    parse_dilution,
    warnings_of_mix,
    water_notes,
)
from wetside.cli.answer import CAUTIONS_SHOWN, WIDEST
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.services.options import typed
from wetside.units import parse_number, parse_volume_ml
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

    from wetside.chemistry import MixtureHazards

SHEET_FIRST = "chemistry.hazard.sheet_first"


def _hardness(arguments: argparse.Namespace) -> float | None:
    """Hardness of the water as calcium carbonate, if it was given. [mg/l]"""
    if arguments.hardness is None:
        return None
    value = typed("--hardness", parse_number, arguments.hardness)
    return typed("--hardness", lambda _: hardness_mg_per_l(value, arguments.scale), arguments.hardness)


def _hazards(found: MixtureHazards) -> dict[str, Any]:
    return {
        "classes": list(found.classes),
        "h_codes": list(found.h_codes),
        "notes": [{"code": code, "message": sentence(code, params)} for code, params in found.notes],
    }


def _said(found: MixtureHazards) -> str:
    """Sentences on a mixture, without the one that stands below both."""
    return " ".join(sentence(code, params) for code, params in found.notes if code != SHEET_FIRST)


def run(arguments: argparse.Namespace) -> int:
    """Print concentrate, water and total, and what to mind."""
    dilution = parse_dilution(arguments.dilution)
    mix = mix_volumes(dilution, parse_volume_ml(arguments.volume))
    warnings: list[tuple[str, Any]] = [*warnings_of_mix(mix, smallest_ml=parse_volume_ml(arguments.smallest))]
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
                else {"concentrate": _hazards(hazards.concentrate), "bath": _hazards(hazards.bath)},
                "warnings": [{"code": code, "message": sentence(code, params)} for code, params in warnings],
            }
        )
        return ExitCode.OK
    names = (
        ["concentrate"]
        if len(mix.concentrates_ml) == 1
        else [f"concentrate {number}" for number in range(1, len(mix.concentrates_ml) + 1)]
    )
    rows = [*zip(names, mix.concentrates_ml, strict=True), ("water", mix.water_ml), ("total", mix.total_ml)]
    lines = [f"{name:<14}{shown(value, 'ml'):>12}" for name, value in rows if value or name == "total"]
    width = min(text_width(), WIDEST)
    cautions = " ".join(sentence(code, {}) for code in cautions_of(["mix"])[:CAUTIONS_SHOWN])
    told = [sentence(code, params) for code, params in warnings]
    if hazards is not None:
        of_concentrate, of_bath = (_said(found) for found in hazards)
        told.append(sentence("cli.mix.concentrate_hazards", {"said": of_concentrate}))
        told.append(sentence("cli.mix.bath_hazards", {"said": of_bath}))
        told.append(sentence(SHEET_FIRST, {}))
    print_lines(
        [*lines, *(line for text in told for line in ("", *wrapped(text, width))), "", *wrapped(cautions, width)]
    )
    return ExitCode.OK
