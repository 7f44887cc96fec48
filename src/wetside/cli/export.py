"""``wetside export``: the whole archive as plain files."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Write a folder, or a zip where the name ends so; the server may run meanwhile."""
    from wetside.web.serve import set_up

    set_up(arguments.data)
    from django.conf import settings

    from wetside.services.archive.export import export_archive
    from wetside.services.archive.opening import open_to_read

    open_to_read(settings.DATA_FOLDER)
    exported = export_archive(settings.DATA_FOLDER, Path(arguments.target))
    missing = list(exported.missing)
    if arguments.json:
        print_json({"rows": dict(exported.rows), "files": exported.files, "missing": missing})
    else:
        params = {"rows": exported.total_rows, "files": exported.files, "target": arguments.target}
        lines = [sentence("cli.export.done", params)]
        if missing:
            lines.append(sentence("cli.archive.missing_files", {"count": len(missing)}))
        print_lines(lines)
    return ExitCode.FOUND if missing else ExitCode.OK
