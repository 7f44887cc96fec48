"""The backup of a start: at once, or while the pages are served already.

It counts only once it was opened again, checked and counted, whichever way it is made. Before a change of the tables
there is no "while": that backup is complete first.
"""

from __future__ import annotations

import threading
from contextlib import suppress
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import DatabaseError, connection

from wetside.errors import WetsideError
from wetside.services.archive.backups import make_backup
from wetside.wording import speak_error

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path


class Told(NamedTuple):
    """Something that was done or found, as a code with parameters."""

    code: str
    params: Mapping[str, Any]


def backup_of_start(folder: Path) -> Told:
    """Make the backup of a start; one that fails does not keep anybody from the records, but is told."""
    try:
        made = make_backup(folder, "start", even_unchanged=False)
    except WetsideError as error:
        return Told("services.archive.no_backup", {"reason": speak_error(error)})
    except DatabaseError as error:
        return Told("services.archive.no_backup", {"reason": " ".join(str(error).split())})
    code = "services.archive.backed_up" if made.new else "services.archive.unchanged"
    return Told(code, {"name": made.backup.name, "rows": made.backup.total_rows})


def backup_meanwhile(folder: Path, tell: Callable[[Told], None]) -> threading.Thread:
    """Make it on a thread of its own.

    Parameters
    ----------
    folder : Path
        The data folder, whose lock is held until the thread has ended.
    tell : callable
        Gets what came of it, on that thread.
    """

    def work() -> None:
        try:
            told = backup_of_start(folder)
        finally:
            connection.close()
        with suppress(OSError):  # a terminal that is gone must not look like a backup that failed
            tell(told)

    thread = threading.Thread(target=work, name="backup of the start")
    thread.start()
    return thread
