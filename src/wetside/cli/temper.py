"""``wetside temper``: warmth of bottle, vessel and jacket."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.answer import print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.services.temper import Effect, Tempered, temper
from wetside.services.temper_evening import TemperAnswers
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

NEAR_C = 0.3
"""A liquid this near to what is wanted asks for nothing. [C]"""

CRISS_CROSS_PERCENT = 0.5
"""A criss-cross off by less than this is not worth a word: no measure shows it. [%]"""


def run(arguments: argparse.Namespace) -> int:
    """Print temperatures, waits and volumes."""
    answer = temper(
        TemperAnswers(
            liquid=arguments.liquid,
            liquid_temp=arguments.at,
            vessel=arguments.vessel,
            vessel_temp=arguments.vessel_at,
            material=arguments.material,
            jacket=arguments.jacket,
            tau=arguments.tau,
            time=arguments.time,
            coefficient=arguments.coefficient,
            developer=arguments.developer,
            density_range=arguments.range,
            bottle=arguments.bottle,
            reads=arguments.reads,
            after=arguments.after,
            hot=arguments.hot,
            cold=arguments.cold,
            want=arguments.want,
            total=arguments.total,
            bath=arguments.bath,
            bath_temp=arguments.bath_at,
            heater=arguments.heater,
            evening=arguments.evening,
        ),
        rows=Path(arguments.rows) if arguments.rows else None,
    )
    told = _told(answer)
    if arguments.json:
        print_json({**_as_json(answer), "notes": told_json(told)})
    else:
        print_answer(_rows(answer), told, _occasions(answer))
    return ExitCode.OK


def _occasions(answer: Tempered) -> list[str]:
    """What to take care of: ice alone heats nothing."""
    cools = answer.bath is not None and answer.bath.ice is not None
    heats = answer.pouring or answer.waiting or answer.learned or answer.water or not cools
    return ["heat", "electricity"] if heats else ["electricity"]


def _as_json(answer: Tempered) -> dict[str, Any]:
    pouring: dict[str, Any] | None = None
    if answer.pouring is not None:
        pouring = dict(answer.pouring._asdict())
        effect = answer.pouring.effect
        if effect is not None:
            pouring["effect"] = {
                **effect.found._asdict(),
                "grades": effect.grades,
                "zones": effect.zones,
                "coefficient_per_c": effect.coefficient.per_c,
                "coefficient_spread": effect.coefficient.spread,
                "evidence": effect.coefficient.evidence.value,
                "source": effect.coefficient.source.key if effect.coefficient.source else None,
            }
    water, bath = answer.water, answer.bath
    ice = bath.ice if bath is not None else None
    return {
        "want_c": answer.want_c,
        "pouring": pouring,
        "waiting": None if answer.waiting is None else answer.waiting._asdict(),
        "learned": None if answer.learned is None else answer.learned._asdict(),
        "water": None if water is None else water._asdict(),
        "bath": None
        if bath is None
        else {
            "ice_g": None if ice is None else ice.ice_g,
            "meltwater_ml": None if ice is None else ice.meltwater_ml,
            "heater_s": bath.heater_s,
        },
    }


def _rows(answer: Tempered) -> list[tuple[str, str]]:
    rows = _pouring_rows(answer)
    if answer.learned is not None:
        rows.append(("cli.temper.tau", shown(answer.learned.tau_s, "mss")))
        high = answer.learned.high_s
        rows.append(
            (
                "cli.temper.tau_span",
                f"{shown(answer.learned.low_s, 'mss')}\N{EN DASH}{shown(high, 'mss') if high is not None else '…'}",
            )
        )
    if answer.waiting is not None:
        rows.append(("cli.temper.wait", shown(answer.waiting.wait_s, "mss")))
    if answer.water is not None:
        rows.append(("cli.temper.hot", shown(answer.water.hot_ml, "ml")))
        rows.append(("cli.temper.cold", shown(answer.water.cold_ml, "ml")))
    if answer.bath is not None and answer.bath.ice is not None:
        rows.append(("cli.temper.ice", f"{answer.bath.ice.ice_g:.0f} g"))
    if answer.bath is not None and answer.bath.heater_s is not None:
        rows.append(("cli.temper.heater", shown(answer.bath.heater_s, "mss")))
    return rows


def _pouring_rows(answer: Tempered) -> list[tuple[str, str]]:
    pouring = answer.pouring
    if pouring is None:
        return []
    rows = [
        ("cli.temper.poured", shown(pouring.poured_c, "temp")),
        ("cli.temper.off", shown(pouring.off_c, "degrees")),
    ]
    if pouring.mean_c is not None:
        rows.append(("cli.temper.mean", shown(pouring.mean_c, "temp")))
    if pouring.start_c is not None:
        code = "cli.temper.start" if pouring.mean_c is None else "cli.temper.start_mean"
        rows.append((code, shown(pouring.start_c, "temp")))
    if pouring.effect is not None:
        rows.append(("cli.temper.density", shown(pouring.effect.found.density, "signed")))
        rows.append(("cli.temper.print", _in_the_print(pouring.effect)))
        rows.append(("cli.temper.like_time", shown(pouring.effect.found.time_percent, "percent")))
    return rows


def _in_the_print(effect: Effect) -> str:
    grades, zones = shown(abs(effect.grades), "mixed"), shown(abs(effect.zones), "mixed")
    if grades == zones == "0":
        return sentence("cli.temper.no_difference", {})
    code = "cli.temper.flatter" if effect.grades < 0 else "cli.temper.harder"
    return sentence(code, {"grades": grades, "zones": zones})


def _told(answer: Tempered) -> list[tuple[str, dict[str, Any]]]:
    told: list[tuple[str, dict[str, Any]]] = []
    pouring = answer.pouring
    if pouring is not None:
        if pouring.effect is None:
            told.append(("cli.temper.no_coefficient", {}))
        off_c = pouring.off_c if pouring.mean_c is None else pouring.mean_c - answer.want_c
        if abs(off_c) > NEAR_C and pouring.start_c is not None:
            told.append(("cli.temper.warm_the_vessel", {"start_c": pouring.start_c}))
        elif abs(off_c) > NEAR_C:
            told.append(("cli.temper.only_the_vessel", {}))
        if pouring.effect is not None:
            told.append(_coefficient_told(pouring.effect))
        told.append(("cli.temper.heat_source", {"source": pouring.source}))
    if answer.learned is not None:
        told.append(("cli.temper.proposal", {}))
    if answer.waiting is not None:
        told.append(("cli.temper.stir", {}))
    if answer.water is not None:
        if abs(answer.water.criss_cross_percent) >= CRISS_CROSS_PERCENT:
            told.append(("cli.temper.criss_cross", {"percent": answer.water.criss_cross_percent}))
        told.append(("cli.temper.read_it", {}))
    if answer.bath is not None:
        told.append(("cli.temper.ice_told" if answer.bath.ice is not None else "cli.temper.heater_told", {}))
    return told


def _coefficient_told(effect: Effect) -> tuple[str, dict[str, Any]]:
    coefficient = effect.coefficient
    if coefficient.span_c is None:
        return "cli.temper.coefficient_named", {"per_c": coefficient.per_c}
    own = coefficient.source is not None and coefficient.source.key == "own"
    return "cli.temper.coefficient_own" if own else "cli.temper.coefficient_pairs", {
        "per_c": coefficient.per_c,
        "spread": coefficient.spread or 0.0,
        "low_c": coefficient.span_c[0],
        "high_c": coefficient.span_c[1],
        "source": coefficient.source.key if coefficient.source else coefficient.evidence.value,
    }
