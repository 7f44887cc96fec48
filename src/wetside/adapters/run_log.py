"""The log of one run in a file: a line a fact, each forced to the disk before it counts as taken.

A line that a power cut tore is not a fact: nobody was told that it was taken. It is cut off when the file is opened,
and said so. Damage anywhere else stops the program, because a gap in the middle would show wrong times.
"""

from __future__ import annotations

import datetime as dt
import json
import os
import zlib
from typing import TYPE_CHECKING, Any

from filelock import FileLock, Timeout

from wetside.errors import ConflictError, InputError, Place, UnreadableError, WetsideError
from wetside.runs.event_log import Numbered, Taken, places_for
from wetside.runs.fact import Fact

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

LOG_FORMAT = 1
HEADER = {"wetside": "run", "format": LOG_FORMAT}
"""First line of every log."""


class FileLog:
    """Log of one run; one program writes at a time, the file is locked as long as it is open.

    Parameters
    ----------
    path : Path
        Made if it does not exist; its folder must.

    Raises
    ------
    InputError
        If it cannot be read or written, is no log of a run, is damaged before its last line, or another program has it.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.torn_bytes = 0
        if not path.parent.is_dir():
            # Before the lock, whose library would make the folder.
            folder = str(path.parent)
            raise InputError("files.file.no_folder", place=Place(file=str(path)), name=path.name, folder=folder)
        self._lock = FileLock(f"{path}.lock")
        try:
            self._lock.acquire(timeout=0)
        except Timeout:
            raise ConflictError("files.runlog.in_use", place=Place(file=str(path))) from None
        except OSError as error:
            raise self._unwritable(error) from error
        try:
            self._file = os.open(path, os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0), 0o644)
            self._taken = self._opened()
        except OSError as error:
            self._lock.release()
            raise self._unwritable(error) from error
        except WetsideError:
            # No log of ours: leave nothing beside somebody's file.
            os.close(self._file)
            self._lock.release()
            self.path.with_name(f"{self.path.name}.lock").unlink(missing_ok=True)
            raise

    def close(self) -> None:
        """Let another program have the log."""
        os.close(self._file)
        self._lock.release()

    def _unwritable(self, error: OSError) -> InputError:
        return InputError(
            "files.file.unwritable",
            place=Place(file=str(self.path)),
            name=self.path.name,
            reason=error.strerror or str(error),
        )

    def _opened(self) -> list[Numbered]:
        with self.path.open("rb") as handle:
            data = handle.read()
        end = data.rfind(b"\n") + 1
        lines = data[:end].split(b"\n")[:-1]
        self.torn_bytes = len(data) - end
        if not lines:
            # New, or cut off in its first line: nothing was taken yet.
            if data and not line_of(HEADER).startswith(data):
                raise UnreadableError("files.runlog.not_a_log", place=Place(str(self.path)))
            os.ftruncate(self._file, 0)
            self._write(line_of(HEADER))
            _force_folder(self.path.parent)
            return []
        if self._read_line(lines[0], 1) != HEADER:
            raise UnreadableError("files.runlog.not_a_log", place=Place(str(self.path), 1))
        taken = [Numbered(place, self._fact(line, place + 1)) for place, line in enumerate(lines[1:], 1)]
        if self.torn_bytes:
            os.ftruncate(self._file, end)
            os.fsync(self._file)
        return taken

    def _read_line(self, line: bytes, number: int) -> Any:
        check, _, body = line.partition(b" ")
        try:
            if int(check, 16) == zlib.crc32(body):
                return json.loads(body)
        except ValueError:
            pass
        code = "files.runlog.not_a_log" if number == 1 else "files.runlog.damaged"
        raise UnreadableError(code, place=Place(str(self.path), number))

    def _fact(self, line: bytes, number: int) -> Fact:
        values = self._read_line(line, number)
        try:
            values["at_utc"] = dt.datetime.fromisoformat(values["at_utc"])
            return Fact(**values)
        except (TypeError, ValueError, KeyError, WetsideError) as error:
            raise UnreadableError("files.runlog.damaged", place=Place(str(self.path), number)) from error

    def _write(self, data: bytes) -> None:
        """Append and force to the disk; what was written in part is taken off again, and the error told."""
        begin = os.lseek(self._file, 0, os.SEEK_END)
        try:
            done = 0
            while done < len(data):
                done += os.write(self._file, data[done:])
            os.fsync(self._file)
        except OSError as error:
            os.ftruncate(self._file, begin)
            raise self._unwritable(error) from error

    def append(self, run: str, facts: Sequence[Fact], *, expected: int) -> Taken:  # noqa: ARG002 (one run a file)
        """Take facts; see :meth:`wetside.runs.event_log.EventLog.append`."""
        known = {one.fact.name: one for one in self._taken}
        seqs, new = places_for(facts, known, len(self._taken), expected)
        if new:
            self._write(b"".join(line_of_fact(one.fact) for one in new))
            self._taken += new
        return Taken(seqs, len(new), len(self._taken))

    def read(self, run: str, after: int = 0) -> Iterator[Numbered]:  # noqa: ARG002 (one run a file)
        """Facts after a place, in order."""
        yield from self._taken[after:]

    def last(self, run: str) -> int:  # noqa: ARG002 (one run a file)
        """Place of the last fact; 0 where there is none."""
        return len(self._taken)


def line_of_fact(fact: Fact) -> bytes:
    """Line of a log that holds a fact."""
    values = {name: getattr(fact, name) for name in Fact.__dataclass_fields__}
    return line_of({**values, "at_utc": fact.at_utc.isoformat()})


def line_of(value: Any) -> bytes:
    """Line of a log: the check sum of what follows, and the value as JSON."""
    body = json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()
    return b"%08x %b\n" % (zlib.crc32(body), body)


def _force_folder(folder: Path) -> None:
    """Force a new name to the disk, on the systems that can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
