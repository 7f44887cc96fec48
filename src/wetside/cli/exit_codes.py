"""The one list of exit codes."""

from enum import IntEnum


class ExitCode(IntEnum):
    """What the shell is told."""

    OK = 0
    """All is done."""
    FAULT = 1
    """A fault of the program: please report it."""
    INPUT = 2
    """Something typed, or something in a file, cannot be taken as it stands."""
    REFUSED = 3
    """The input is sound, and no answer can be given for it, or not for every sheet."""
    NOT_WRITTEN = 4
    """A file could not be read or written."""
    FOUND = 5
    """The archive was looked at, and something in it is wrong."""
    INTERRUPTED = 130
    """Stopped from the keyboard."""
