"""``wetside schedule``: the whole evening, what comes when, and pages for the wall."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wants_colour
from wetside.services.course import course_document, course_of_file, write_course

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Lay the evening out, print it, and write its pages where asked for."""
    plan, course = course_of_file(Path(arguments.file), Path(arguments.rows) if arguments.rows else None)
    written: list[Path] = []
    if arguments.out:
        written = write_course(plan, course, Path(arguments.out), paper=arguments.paper)
    if arguments.json:
        print_json(course_document(plan, course))
    else:
        from wetside.cards.course_card import course_card
        from wetside.cards.text import card_lines

        print_lines(card_lines(course_card(plan, course), width=text_width(), colour=wants_colour()))
        if written:
            print()
            print(f"written to {arguments.out}: {', '.join(path.name for path in written)}")
    return ExitCode.REFUSED if plan.unplanned else ExitCode.OK
