"""One difference between two runs, and one fact that nobody knows."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.note import Note

if TYPE_CHECKING:
    from wetside.runs.known import Known
    from wetside.runs.parts import Parts
    from wetside.runs.script import Script
    from wetside.runs.state import State

UNKNOWN = Note("runs.compared.unknown")


class Backing(StrEnum):
    """What the effect of a difference rests on, the strongest first."""

    MEASURED = "measured"
    """Seconds or degrees that were told or read in these two runs."""
    PUBLISHED = "published"
    """Figures that somebody has printed or tested, such as the developer's two temperatures."""
    GUIDE = "guide"
    """A declared rule of thumb."""
    NONE = "none"
    """No figure can be given."""


class Side(NamedTuple):
    """One of the two runs, with all that is known of it."""

    state: State
    script: Script
    parts: Parts | None
    known: Known


class Difference(NamedTuple):
    """What differs: the value of each run, and the likely effect of the second beside the first.

    ``share`` is the natural logarithm of the ratio of developing times that it amounts to, None where it cannot be put
    in figures; ``spread`` its half-width; ``remark`` what must be said beside it.
    """

    kind: str
    values: tuple[Note, ...]
    share: float | None = None
    spread: float = 0.0
    backing: Backing = Backing.NONE
    remark: Note | None = None

    @property
    def one(self) -> Note:
        """Value of the first run."""
        return self.values[0]

    @property
    def other(self) -> Note:
        """Value of the second run."""
        return self.values[1]


class Missing(NamedTuple):
    """A fact of the ``first`` or the second run that nobody knows.

    ``spread`` what it may be worth as a share of time, 0 where nobody can say.
    """

    first: bool
    note: Note
    spread: float = 0.0
