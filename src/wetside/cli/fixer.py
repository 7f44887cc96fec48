"""``wetside fixer``: keep it or change it, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.answer import print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.services.fixer import FixerAnswers, FixerJudged, judge
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Print the decision, both shares, the fixing time, and what to do."""
    answer = judge(
        FixerAnswers(
            volume=arguments.volume,
            product=arguments.product,
            dilution=arguments.dilution,
            films=arguments.film or (),
            tabular=arguments.tabular or (),
            fresh=arguments.fresh,
            now=arguments.now,
            temp=arguments.temp,
            fresh_temp=arguments.fresh_temp,
            clip_tabular=arguments.clip_tabular,
            alkaline=arguments.alkaline,
            second_bath=arguments.second_bath,
            last=arguments.last,
        )
    )
    decision = answer.decision
    told = _told(answer)
    if arguments.json:
        print_json(
            {
                "action": decision.action,
                "binds": decision.binds,
                "area_share": decision.area_share,
                "clearing_share": decision.clearing_share,
                "fix_time_s": decision.fix_time_s,
                "evidence": decision.evidence.value,
                "units_per_litre": answer.capacity.value,
                "source": str(answer.capacity.source.key) if answer.capacity.source else None,
                "sheets_left": answer.sheets_left,
                "notes": told_json(told),
            }
        )
    else:
        print_answer(_rows(answer), told, ["fix", "waste"])
    return ExitCode.OK


def _rows(answer: FixerJudged) -> list[tuple[str, str]]:
    decision = answer.decision
    rows = [
        ("cli.fixer.decision", sentence(f"cli.fixer.{decision.action}", {})),
        ("cli.fixer.area", shown(decision.area_share, "share")),
    ]
    if decision.clearing_share is not None:
        rows.append(("cli.fixer.clearing", f"{1.0 + decision.clearing_share:.2g} ×"))
    if decision.fix_time_s is not None and decision.action == "keep":
        rows.append(("cli.fixer.fix_for", shown(decision.fix_time_s, "mss")))
    if answer.sheets_left is not None:
        rows.append(("cli.fixer.left", str(answer.sheets_left)))
    return rows


def _told(answer: FixerJudged) -> list[tuple[str, dict[str, Any]]]:
    told: list[tuple[str, dict[str, Any]]] = [(code, dict(params)) for code, params in answer.decision.notes]
    told.extend((code, dict(params)) for code, params in answer.advice)
    if answer.decision.clearing_share is None:
        told.append(("cli.fixer.test_it", {}))
    source = answer.capacity.source.key if answer.capacity.source else ""
    told.append(("cli.fixer.capacity", {"units": answer.capacity.value, "source": source}))
    return told
