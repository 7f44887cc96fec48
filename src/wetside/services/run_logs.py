"""Logs of the terminal without an archive: read from their files, and two of them held against each other."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.run_log_read import read_log, require_size
from wetside.errors import InputError, Place, RefusedError
from wetside.runs.compared import Run, compare
from wetside.runs.fold import fold
from wetside.runs.used import has_developed
from wetside.services.run_compared_said import comparison_said

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.adapters.run_log_read import LogRead
    from wetside.runs.compared import Comparison
    from wetside.runs.state import State
    from wetside.services.run_compared_said import Said


class LogRun(NamedTuple):
    """A run as its log has it: what its file is called, its facts, and what they fold to."""

    name: str
    read: LogRead
    state: State


class LogsCompared(NamedTuple):
    """Two logs, what differs between their runs, and the same in words."""

    one: LogRun
    other: LogRun
    found: Comparison
    said: Said


def bytes_of_log(path: Path) -> bytes:
    """Bytes of a log's file; one that is larger than any log is not read.

    Raises
    ------
    InputError
        If the file cannot be read.
    """
    try:
        require_size(path.stat().st_size, str(path))
        return path.read_bytes()
    except OSError as error:
        raise InputError(
            "files.file.unreadable", place=Place(str(path)), name=path.name, reason=error.strerror or str(error)
        ) from error


def run_of_log(path: Path) -> LogRun:
    """Run of a log's file; the program that writes it may go on meanwhile.

    Raises
    ------
    InputError
        With file, line and field of what cannot be taken.
    """
    read = read_log(bytes_of_log(path), str(path))
    return LogRun(path.name, read, fold(read.facts))


def compare_logs(one: Path, other: Path) -> LogsCompared:
    """Why the negatives of two runs do not match, by their logs alone.

    Parameters
    ----------
    one, other : Path
        Figures tell what the second has more than the first.

    Raises
    ------
    WetsideError
        If one cannot be read or has developed nothing yet, or both are the same run.
    """
    runs = [run_of_log(path) for path in (one, other)]
    if runs[0].read.facts[0] == runs[1].read.facts[0]:
        raise RefusedError("services.runs.compare_same", place=Place(str(other)))
    for path, run in zip((one, other), runs, strict=True):
        if not has_developed(run.state, run.state.known_s):
            raise RefusedError("services.runs.compare_early", place=Place(str(path)), run=run.name)
    found = compare(*(Run(run.state, run.state.known_s) for run in runs))
    names = [run.name for run in runs] if runs[0].name != runs[1].name else [str(one), str(other)]
    return LogsCompared(runs[0], runs[1], found, comparison_said(found, *names))
