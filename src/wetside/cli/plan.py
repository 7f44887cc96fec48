"""``wetside plan``: the loads of an evening, what fewer or more would cost, and run sheets for the wall."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wetside.cli.answers import answers_of
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, print_written, text_width, wants_colour
from wetside.errors import ConflictError
from wetside.services.plan_evening import PlainAnswers, plan_answers, plan_file

if TYPE_CHECKING:
    import argparse

    from wetside.planning.documents.plan import Plan


def run(arguments: argparse.Namespace) -> int:
    """Plan, print, and write what is asked for."""
    plan = _plan(arguments)
    written: list[Path] = []
    if arguments.out:
        from wetside.services.write_plan import write_plan

        written = write_plan(plan, Path(arguments.out), paper=arguments.paper)
    if arguments.json:
        from wetside.adapters.plain_document import plain_value

        print_json(plain_value(plan))
    else:
        from wetside.cards.plan_card import plan_card
        from wetside.cards.text import card_lines

        print_lines(card_lines(plan_card(plan), width=text_width(), colour=wants_colour()))
        if written:
            print_written(arguments.out, written)
    return ExitCode.REFUSED if plan.unplanned else ExitCode.OK


def _plan(arguments: argparse.Namespace) -> Plan:
    rows = Path(arguments.rows) if arguments.rows else None
    answers = answers_of(PlainAnswers, arguments)
    if arguments.file is None:
        return plan_answers(answers, rows)
    given = [
        "--count" if name == "number" else f"--{name}"
        for name in PlainAnswers._fields
        if getattr(arguments, name) is not None
    ]
    if given:
        raise ConflictError("cli.file_and_options", options=given)
    return plan_file(Path(arguments.file), rows)
