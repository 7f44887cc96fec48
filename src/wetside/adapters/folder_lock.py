"""One writer of a data folder at a time: the system itself lets the lock go when its process ends, however it ends."""

from __future__ import annotations

import json
import os
from contextlib import suppress
from typing import TYPE_CHECKING

from wetside.adapters.clock import now
from wetside.adapters.data_folder import LOCK
from wetside.errors import InputError, Place, RefusedError

if TYPE_CHECKING:
    from pathlib import Path
    from types import TracebackType
    from typing import Self

    from filelock import BaseFileLock

HOLDER = "lock-holder.json"
"""Who holds the lock, for people; the lock itself does not depend on it."""


class FolderLock:
    """The lock of a data folder, held until it is released or the process ends.

    Parameters
    ----------
    folder : Path
        Must exist.
    doing : str
        What the lock is held for, told to whoever comes second: ``serve``, ``import``.

    Raises
    ------
    RefusedError
        If another process holds it; its number, its act and its begin are named.
    """

    def __init__(self, folder: Path, doing: str) -> None:
        from filelock import FileLock, Timeout

        self._folder = folder
        self._lock: BaseFileLock = FileLock(folder / LOCK, blocking=False, thread_local=False)
        try:
            self._lock.acquire()
        except Timeout as error:
            raise _held(folder) from error
        except OSError as error:
            raise InputError(
                "files.file.unwritable", place=Place(file=str(folder / LOCK)), name=LOCK, reason=str(error.strerror)
            ) from error
        told = {"process": os.getpid(), "doing": doing, "since": now().isoformat(timespec="seconds")}
        with suppress(OSError):  # a full disk must not keep anybody from what is there
            (folder / HOLDER).write_text(json.dumps(told) + "\n", encoding="utf-8")

    def release(self) -> None:
        """Let go."""
        (self._folder / HOLDER).unlink(missing_ok=True)
        self._lock.release()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.release()


def _held(folder: Path) -> RefusedError:
    """Say who holds the lock; what a process left behind that ended hard is never taken for the holder's word alone."""
    try:
        told = json.loads((folder / HOLDER).read_text(encoding="utf-8"))
        process, doing, since = int(told["process"]), str(told["doing"]), str(told["since"])
    except (OSError, ValueError, KeyError, TypeError):
        return RefusedError("files.data.locked", place=Place(file=str(folder)))
    return RefusedError(
        "files.data.locked_by", place=Place(file=str(folder)), process=process, doing=doing, since=since
    )
