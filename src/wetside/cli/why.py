"""``wetside why``: the reckoning behind one sheet."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wants_colour
from wetside.errors import RefusedError, UnknownNameError
from wetside.planning.evening_plan import find_sheet
from wetside.services.plan_evening import plan_file
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Print one sheet's way to its time.

    Raises
    ------
    RefusedError
        If no time can be given for the sheet; the reason is that of the plan.
    UnknownNameError
        If no sheet has the label.
    """
    plan = plan_file(Path(arguments.file), Path(arguments.rows) if arguments.rows else None)
    sheet = find_sheet(plan, arguments.sheet)
    if sheet is None:
        for one in plan.unplanned:
            if plain_name(one.id) == plain_name(arguments.sheet):
                raise RefusedError(one.code, **one.params)
        raise UnknownNameError(
            "cli.no_such_sheet",
            label=arguments.sheet,
            known=[*(one.id for one in plan.sheets), *(one.id for one in plan.unplanned)][:12],
        )
    if arguments.json:
        from wetside.adapters.plain_document import plain_value

        print_json(plain_value(sheet))
    else:
        from wetside.cards.reckoning import reckoning_card
        from wetside.cards.text import card_lines

        print_lines(card_lines(reckoning_card(plan, sheet), width=text_width(), colour=wants_colour()))
    return ExitCode.OK
