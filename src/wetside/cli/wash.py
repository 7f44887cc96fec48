"""``wetside wash``: what changes of water leave behind, beside what makers ask for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.chemistry import minutes_of_method
from wetside.cli.answer import print_answer, told_json
from wetside.cli.answers import answers_of
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.services.wash import WashAnswers, Washed, wash
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

LEFT_SHOWN = 4
"""Changes whose residue is shown one by one; of more only the last."""


def run(arguments: argparse.Namespace) -> int:
    """Print the residue after each change, what is enough, and published ways."""
    answer = wash(answers_of(WashAnswers, arguments))
    told = _told(answer)
    if arguments.json:
        print_json(
            {
                "fraction_a_change": answer.fraction,
                "left_ug_per_cm2": list(answer.left),
                "lagging_ug_per_cm2": list(answer.lagging) or None,
                "limit_ug_per_cm2": answer.limit_ug_per_cm2,
                "changes_needed": answer.needed,
                "slowest_half_time_s": answer.slowest_s,
                "water_l": answer.water_l,
                "running_water_l": answer.running_l,
                "time_s": answer.time_s,
                "notes": told_json(told),
                "methods": [
                    {
                        "name": method.name,
                        "minutes": minutes_of_method(method),
                        "changes": method.changes,
                        "source": method.source,
                        "where": method.where,
                        "status": method.status,
                    }
                    for method in answer.methods
                ],
            }
        )
    else:
        print_answer(_rows(answer), [*told, *_methods(answer)], ["fix"])
    return ExitCode.OK


def _rows(answer: Washed) -> list[tuple[str, str]]:
    left = answer.lagging or answer.left
    said = [_ug(value) for value in left[:LEFT_SHOWN]] + (["…", _ug(left[-1])] if len(left) > LEFT_SHOWN else [])
    rows = [
        ("cli.wash.left", ", ".join(said) + " µg/cm²"),
        ("cli.wash.limit", f"{_ug(answer.limit_ug_per_cm2)} µg/cm²"),
        ("cli.wash.needed", str(answer.needed)),
        ("cli.wash.thins", sentence("cli.wash.one_in", {"times": f"{1.0 / answer.fraction:.0f}"})),
        ("cli.wash.water", _litres(answer.water_l)),
    ]
    if answer.running_l is not None:
        rows.append(("cli.wash.running", _litres(answer.running_l)))
    return [*rows, ("cli.wash.time", shown(answer.time_s, "mss"))]


def _litres(value_l: float) -> str:
    return (
        f"{value_l:.0f} l" if value_l >= 10 else f"{value_l:.1f} l" if value_l >= 0.1 else shown(value_l * 1000, "ml")
    )


def _ug(value: float) -> str:
    return f"{value:.3g}" if value >= 0.01 else sentence("cli.wash.trace", {})


def _told(answer: Washed) -> list[tuple[str, dict[str, Any]]]:
    told: list[tuple[str, dict[str, Any]]] = []
    if answer.slowest_s is None:
        told.append(("cli.wash.never", {"limit": answer.limit_ug_per_cm2}))
    elif answer.lagging and answer.lagging[-1] > answer.limit_ug_per_cm2:
        told.append(("cli.wash.too_slow", {"half_s": answer.slowest_s}))
    else:
        told.append(("cli.wash.slowest", {"half_s": answer.slowest_s}))
    if answer.lagging:
        told.append(("cli.wash.half_time", {}))
    told.append(("cli.wash.assumed", {}))
    told.extend((code, dict(params)) for code, params in answer.notes)
    return told


def _methods(answer: Washed) -> list[tuple[str, dict[str, Any]]]:
    told: list[tuple[str, dict[str, Any]]] = [("cli.wash.makers", {})]
    for method in answer.methods:
        minutes = minutes_of_method(method)
        code = "cli.wash.method_changes" if method.changes and not minutes else "cli.wash.method"
        params = {
            "name": method.name,
            "minutes": minutes,
            "changes": method.changes,
            "source": method.source or method.status,
        }
        told.append((code, params))
    return told
