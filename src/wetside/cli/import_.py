"""``wetside import``: plain files into an empty archive."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Take an export in, all of it or nothing."""
    from wetside.web.serve import open_darkroom

    opened = open_darkroom(arguments.data, "import")
    try:
        from django.conf import settings

        from wetside.services.archive.import_archive import import_archive

        imported = import_archive(Path(arguments.source), settings.DATA_FOLDER)
    finally:
        opened.lock.release()
    missing = list(imported.missing)
    if arguments.json:
        print_json({"rows": dict(imported.rows), "files": imported.files, "missing": missing})
    else:
        params = {"rows": imported.total_rows, "files": imported.files}
        lines = [sentence("cli.import.done", params)]
        if missing:
            lines.append(sentence("cli.archive.missing_files", {"count": len(missing)}))
        print_lines(lines)
    return ExitCode.FOUND if missing else ExitCode.OK
