"""The command line: ``wetside COMMAND``."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence


def main(argv: Sequence[str] | None = None) -> int:
    """Run a command and return the exit code.

    Parameters
    ----------
    argv : sequence of str, optional
        Words after ``wetside``; those of the process if absent.
    """
    from wetside.cli.exit_codes import ExitCode
    from wetside.errors import WetsideError

    words = list(sys.argv[1:] if argv is None else argv)
    for stream in (sys.stdout, sys.stderr):
        # A pipe in the C locale would stop at the first degree sign.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace" if stream.encoding.lower() != "utf-8" else "strict")
    from wetside.cli.parser import parse_words

    arguments = parse_words(words)
    try:
        return int(arguments.run(arguments))
    except WetsideError as error:
        from wetside.cli.output import report_error

        return int(report_error(error, as_json=getattr(arguments, "json", False)))
    except BrokenPipeError:
        # The reader has gone away: `wetside plan ... | head`.
        import os

        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return int(ExitCode.OK)
    except KeyboardInterrupt:
        return int(ExitCode.INTERRUPTED)
    except OSError as error:
        print(f"wetside: {error.filename or ''}: {error.strerror or error}", file=sys.stderr)
        return int(ExitCode.NOT_WRITTEN)
