"""``wetside check``: is the archive whole, and what to do where it is not."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse

MARKS = {"wrong": "WRONG  ", "mind": "mind   "}


def run(arguments: argparse.Namespace) -> int:
    """Examine the archive; nothing is changed."""
    from wetside.web.serve import set_up

    set_up(arguments.data)
    from django.conf import settings

    from wetside.services.archive.checking import examine

    examined = examine(settings.DATA_FOLDER)
    if arguments.json:
        print_json(
            {
                "sound": examined.sound,
                "findings": [
                    {"code": one.code, "weight": one.weight.value, "message": sentence(one.code, one.params)}
                    for one in examined.findings
                ],
                "rows": dict(examined.rows),
                "backups": examined.backups,
                "newest_backup": examined.newest or None,
            }
        )
        return ExitCode.OK if examined.sound else ExitCode.FOUND
    width = min(text_width(), 100)
    lines = [sentence("cli.check.sound" if examined.sound else "cli.check.unsound", {"folder": settings.DATA_FOLDER})]
    for one in examined.findings:
        first, *rest = wrapped(sentence(one.code, one.params), width - 7)
        lines += ["", f"{MARKS[one.weight.value]}{first}", *(f"       {line}" for line in rest)]
    params = {"rows": examined.total_rows, "backups": examined.backups, "newest": examined.newest or "-"}
    print_lines([*lines, "", sentence("cli.check.counted", params)])
    return ExitCode.OK if examined.sound else ExitCode.FOUND
