"""``wetside expose``: a corrected time, step by step, or readings on their zones."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.cli.exposure_figures import filter_lines, filters_json, model_lines, models_json
from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.services.expose import ExposeAnswers, Exposed, Placing, expose
from wetside.services.options import needs
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

LONG_S = 1.0
"""From here on most films lose speed; common practice. [s]"""


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
            flash=arguments.flash,
            flash_gain=arguments.flash_gain,
            model=arguments.model,
            light=arguments.light,
            metered_for=arguments.metered_for,
            sensitivity=arguments.sensitivity,
            metered_through=arguments.metered_through,
        ),
        Path(arguments.rows) if arguments.rows else None,
    )
    if arguments.compare and answer.long_exposure is None:
        needs("--film", None, "--compare")
    if arguments.json:
        print_json(_as_json(answer))
    else:
        lines = _lines(answer, _as_typed(arguments), compares=arguments.compare)
        print_lines(lines)
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
        if answer.long_exposure is not None:
            out["model"] = answer.long_exposure.kind.value
            out["models"] = models_json(answer.long_exposure.comparison)
        if answer.filters:
            out["filters"] = filters_json(answer.filters)
    if answer.placing is not None:
        out["placing"] = answer.placing._asdict()
    if answer.flashed is not None:
        from wetside.cli.zones import flash_json

        out["flash"] = flash_json(answer.flashed)
    return out


def _as_typed(arguments: argparse.Namespace) -> dict[str, float]:
    """Values as they are engraved: the exact ones that are reckoned with would look like another setting."""
    from wetside.units import parse_aperture, parse_duration_s

    typed: dict[str, float] = {}
    if arguments.time is not None:
        typed["time_s"] = parse_duration_s(arguments.time)
    if arguments.metered_at is not None:
        typed |= {"metered_n": parse_aperture(arguments.metered_at), "set_n": parse_aperture(arguments.set_to)}
    return typed


def _lines(answer: Exposed, typed: dict[str, float], *, compares: bool) -> list[str]:
    lines: list[str] = []
    if answer.pipeline is not None:
        for step in answer.pipeline.steps:
            if step.code == "exposure.step.reciprocity" and not answer.reckoned:
                continue
            metered = step.code == "exposure.step.metered"
            params = dict(step.params) | {name: typed[name] for name in ("metered_n", "set_n") if name in step.params}
            params |= {"factor": float(f"{step.factor:.3g}"), "time_s": typed["time_s"] if metered else step.time_s}
            stops = "" if metered else shown(step.stops, "stops_said")
            lines.append(
                f"{sentence(step.code, params):<48}{stops:>12}{shown(float(params['time_s']), 'shutter'):>12}"  # type: ignore[arg-type]
            )
        lines.append(f"{'set':<48}{'':>12}{shown(answer.pipeline.corrected_s, 'shutter'):>12}")
        if answer.source:
            lines.append(f"reciprocity from {answer.source}")
        lines.extend(filter_lines(answer.filters))
        if not answer.reckoned and answer.pipeline.corrected_s > LONG_S:
            lines.extend(wrapped(sentence("services.expose_no_reciprocity", {}), text_width()))
        if answer.long_exposure is not None:
            lines.extend(model_lines(answer.long_exposure.comparison, all_of_them=compares))
    if answer.placing is not None:
        lines.extend(_placing_lines(answer.placing))
    if answer.flashed is not None:
        from wetside.cli.zones import flash_lines

        lines.extend([*([""] if lines else []), *flash_lines(answer.flashed)])
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
