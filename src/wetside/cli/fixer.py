"""``wetside fixer``: keep it or change it, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.answer import print_answer, told_json
from wetside.cli.answers import answers_of
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.services.fixer import FixerAnswers, FixerJudged, judge
from wetside.values.evidence import Evidence
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Print the decision, both shares, the fixing time, and what to do."""
    answer = judge(answers_of(FixerAnswers, arguments))
    decision = answer.decision
    told = _told(answer, arguments.product)
    fixes = decision.action == "keep" and decision.fix_time_s is not None
    if fixes and arguments.tabular and not arguments.clip_tabular:
        told.append(("cli.fixer.tabular_clip", {}))
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
                "each_bath_s": None if answer.each_s is None else answer.each_s[0],
                "strength": answer.strength,
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
        rows.append(("cli.fixer.clearing", sentence("cli.fixer.times", {"times": 1.0 + decision.clearing_share})))
        rows.append(("cli.fixer.binds", sentence(f"cli.fixer.by_{decision.binds}", {})))
    if answer.each_s is not None:
        rows.append(("cli.fixer.fix_each", shown(answer.each_s[0], "mss")))
    elif decision.fix_time_s is not None and decision.action == "keep":
        rows.append(("cli.fixer.fix_for", shown(decision.fix_time_s, "mss")))
    if answer.strength is not None:
        rows.append(("cli.fixer.strength", shown(answer.strength, "share")))
    if answer.sheets_left is not None:
        rows.append(("cli.fixer.left", str(answer.sheets_left)))
    return rows


def _told(answer: FixerJudged, product: str | None) -> list[tuple[str, dict[str, Any]]]:
    told: list[tuple[str, dict[str, Any]]] = [(code, dict(params)) for code, params in answer.decision.notes]
    told.extend((code, dict(params)) for code, params in answer.advice)
    if answer.decision.clearing_share is None:
        told.append(("cli.fixer.test_it", {}))
    if answer.strength is not None:
        told.append(("cli.fixer.thinned", {"carried_ml": answer.carried_ml}))
    source = answer.capacity.source.key if answer.capacity.source else ""
    if product is not None and answer.capacity.evidence is Evidence.ASSUMED:
        told.append(("cli.fixer.no_figure", {"product": product}))
    told.append(
        (
            "cli.fixer.capacity",
            {"units": answer.capacity.value, "source": source, "evidence": answer.capacity.evidence.value},
        )
    )
    return told
