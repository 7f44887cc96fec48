"""``wetside schema``: the schemas of the kept files, made from their types."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.errors import InputError

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Print one schema, or write or check all of them."""
    from wetside.services.schemas import check_schemas, document_schema, write_schemas

    if arguments.write:
        print_lines(str(path) for path in write_schemas(Path(arguments.write)))
        return ExitCode.OK
    if arguments.check:
        stale = check_schemas(Path(arguments.check))
        print_lines(f"stale: {path}" for path in stale)
        return ExitCode.INPUT if stale else ExitCode.OK
    if not arguments.document:
        raise InputError("services.schema_which")
    print_json(document_schema(arguments.document))
    return ExitCode.OK
