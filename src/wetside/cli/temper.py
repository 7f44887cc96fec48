"""``wetside temper``: warmth of bottle, vessel and jacket."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.answer import print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.services.temper import TemperAnswers, Tempered, temper
from wetside.wording import shown

if TYPE_CHECKING:
    import argparse

NEAR_C = 0.3
"""A liquid this near to what is wanted asks for nothing. [C]"""


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
            density_range=arguments.range,
            bottle=arguments.bottle,
            reads=arguments.reads,
            after=arguments.after,
            hot=arguments.hot,
            cold=arguments.cold,
            want=arguments.want,
            total=arguments.total,
        )
    )
    told = _told(answer)
    if arguments.json:
        document: dict[str, Any] = {
            name: None if part is None else {**part._asdict()}
            for name, part in (
                ("pouring", answer.pouring),
                ("waiting", answer.waiting),
                ("learned", answer.learned),
            )
        }
        if answer.pouring is not None and answer.pouring.effect is not None:
            document["pouring"]["effect"] = answer.pouring.effect._asdict()
        document["water"] = (
            None if answer.water is None else {"hot_ml": answer.water.first_ml, "cold_ml": answer.water.second_ml}
        )
        print_json({"want_c": answer.want_c, **document, "notes": told_json(told)})
    else:
        print_answer(_rows(answer), told, ["heat", "electricity"])
    return ExitCode.OK


def _rows(answer: Tempered) -> list[tuple[str, str]]:
    rows: list[tuple[str, str]] = []
    if answer.pouring is not None:
        rows.append(("cli.temper.poured", shown(answer.pouring.poured_c, "temp")))
        rows.append(("cli.temper.off", shown(answer.pouring.off_c, "degrees")))
        rows.append(("cli.temper.start", shown(answer.pouring.start_c, "temp")))
        effect = answer.pouring.effect
        if effect is not None:
            rows.append(("cli.temper.mean", shown(effect.mean_c, "temp")))
            rows.append(("cli.temper.like_time", shown(effect.time_percent, "percent")))
            rows.append(("cli.temper.density", shown(effect.density, "signed")))
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
        rows.append(("cli.temper.hot", shown(answer.water.first_ml, "ml")))
        rows.append(("cli.temper.cold", shown(answer.water.second_ml, "ml")))
    return rows


def _told(answer: Tempered) -> list[tuple[str, dict[str, Any]]]:
    told: list[tuple[str, dict[str, Any]]] = []
    if answer.pouring is not None:
        if answer.pouring.effect is None:
            told.append(("cli.temper.no_coefficient", {}))
        if abs(answer.pouring.off_c) > NEAR_C:
            told.append(("cli.temper.warm_the_vessel", {"start_c": answer.pouring.start_c}))
        told.append(("cli.temper.heat_source", {"source": answer.pouring.source}))
    if answer.learned is not None:
        told.append(("cli.temper.proposal", {}))
    return told
