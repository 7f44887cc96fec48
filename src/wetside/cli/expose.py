"""``wetside expose``: a corrected time, step by step, or readings on their zones."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.services.expose import ExposeAnswers, Exposed, Placing, expose
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Print each correction in its order, then what to set."""
    answer = expose(
        ExposeAnswers(
            time=arguments.time,
            metered_at=arguments.metered_at,
            set_to=arguments.set_to,
            filters=arguments.filter or (),
            extension=arguments.extension,
            focal=arguments.focal,
            film=arguments.film,
            power=arguments.power,
            threshold=arguments.threshold,
            shadow=arguments.shadow,
            highlight=arguments.highlight,
        ),
        Path(arguments.rows) if arguments.rows else None,
    )
    if arguments.json:
        print_json(_as_json(answer))
    else:
        print_lines(_lines(answer))
    return ExitCode.OK


def _as_json(answer: Exposed) -> dict[str, Any]:
    out: dict[str, Any] = {}
    if answer.pipeline is not None:
        out["corrected_s"] = answer.pipeline.corrected_s
        out["source"] = answer.source
        out["steps"] = [
            {"code": step.code, "factor": step.factor, "stops": step.stops, "time_s": step.time_s, **step.params}
            for step in answer.pipeline.steps
        ]
    if answer.placing is not None:
        out["placing"] = answer.placing._asdict()
    return out


def _lines(answer: Exposed) -> list[str]:
    lines: list[str] = []
    if answer.pipeline is not None:
        for step in answer.pipeline.steps:
            text = sentence(step.code, dict(step.params))
            lines.append(
                f"{text:<48}{shown(step.stops, 'stops') + ' stops' if step.stops else '':>12}"
                f"{shown(step.time_s, 'shutter'):>12}"
            )
        lines.append(f"{'set':<48}{'':>12}{shown(answer.pipeline.corrected_s, 'shutter'):>12}")
        if answer.source:
            lines.append(f"reciprocity from {answer.source}")
    if answer.placing is not None:
        lines.extend(_placing_lines(answer.placing))
    return lines


def _placing_lines(placing: Placing) -> list[str]:
    lines = [f"shadow EV {placing.shadow_ev:g} on zone {placing.shadow_zone:g}: set EV {placing.set_ev:g}"]
    if placing.highlight_falls is not None and placing.n is not None:
        n = shown(placing.n, "stops")
        lines.append(
            f"highlight EV {placing.highlight_ev:g} falls on zone {placing.highlight_falls:g}, wanted on "
            f"{placing.highlight_zone:g}: N{'' if n == '0' else n}"
        )
    return lines
