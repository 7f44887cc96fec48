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
    """Print one schema, or write or check all of them.

    Raises
    ------
    InputError
        If no document is named.
    """
    from wetside.services.schemas import check_schemas, document_schema, write_schemas

    if arguments.write:
        _print_paths("written", write_schemas(Path(arguments.write)), as_json=arguments.json)
        return ExitCode.OK
    if arguments.check:
        stale = check_schemas(Path(arguments.check))
        _print_paths("stale", stale, as_json=arguments.json)
        return ExitCode.INPUT if stale else ExitCode.OK
    if not arguments.document:
        raise InputError("cli.schema_which")
    print_json(document_schema(arguments.document))
    return ExitCode.OK


def _print_paths(word: str, paths: tuple[Path, ...], *, as_json: bool) -> None:
    if as_json:
        print_json({word: [str(path) for path in paths]})
    else:
        print_lines(f"{word}: {path}" for path in paths)
