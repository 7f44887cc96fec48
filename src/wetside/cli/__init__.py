"""The command line: ``wetside COMMAND``."""

from __future__ import annotations

import gc
import io
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command and return the exit code.

    Parameters
    ----------
    argv : sequence of str, optional
        Words after ``wetside``; those of the process if absent.
    """
    from wetside.cli.exit_codes import ExitCode

    _make_streams_safe()
    collects = gc.isenabled()
    gc.disable()  # a command is short, and makes many small values that all live to its end
    try:
        from wetside.cli.parser import parse_words

        code = _run(parse_words(list(sys.argv[1:] if argv is None else argv)))
    except BrokenPipeError:
        # The reader has gone away: `wetside plan ... | head`.
        _drop_output()
        return int(ExitCode.OK)
    except KeyboardInterrupt:
        return int(ExitCode.INTERRUPTED)
    finally:
        if collects:
            gc.enable()
    return code


def _run(arguments: argparse.Namespace) -> int:
    """Run a parsed command; an error is told in sentences, or as JSON."""
    from wetside.errors import InputError, Place, WetsideError

    as_json = arguments.json
    found: WetsideError
    try:
        code = int(arguments.run(arguments))
        sys.stdout.flush()
    except WetsideError as error:
        found = error
    except BrokenPipeError:
        raise
    except OSError as error:
        name = str(error.filename or "output")
        found = InputError("files.file.unwritable", place=Place(name), name=name, reason=error.strerror or str(error))
        if error.filename is None:
            # The output itself takes nothing more: a full disk.
            _drop_output()
            as_json = False
    else:
        return code
    from wetside.cli.output import report_error

    code = int(report_error(found, as_json=as_json))
    sys.stdout.flush()
    return code


def _make_streams_safe() -> None:
    """Let no character stop the program: what an output cannot show is written in another way."""
    from wetside.cli.output import speaks_utf8

    for stream in (sys.stdout, sys.stderr):
        if not isinstance(stream, io.TextIOWrapper):
            continue  # caught by a test or a notebook
        if speaks_utf8(stream):
            # A file name may hold bytes that are not text.
            stream.reconfigure(errors="backslashreplace")
        else:
            import wetside.cli.spelling  # noqa: F401 (makes the way to write known)

            stream.reconfigure(errors="wetside.spelling")


def _drop_output() -> None:
    """Send what is left to nowhere, so that the interpreter does not stumble over it at its end."""
    import os

    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)
