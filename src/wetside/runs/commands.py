"""What a person, or a page on their behalf, may ask of a run."""

from __future__ import annotations

from dataclasses import dataclass

from wetside.runs.events import Incident, Where
from wetside.runs.readings import Posted  # noqa: TC001 (part of a public type)
from wetside.runs.script import Pause, Script  # noqa: TC001 (part of a public type)


@dataclass(frozen=True, slots=True)
class Open:
    """Begin a run, or a rehearsal of it with water."""

    script: Script
    rehearsal: bool = False
    retired: tuple[Pause, ...] = ()


@dataclass(frozen=True, slots=True)
class Tell:
    """Hands did something: the act that is awaited, or a named one; now, some time ago [s], or when it was due."""

    act: str | None = None
    ago_s: float = 0.0
    on_time: bool = False


@dataclass(frozen=True, slots=True)
class TakeBack:
    """The last act that was told was a mistake, or the fact of a name."""

    name: tuple[str, int] | None = None


@dataclass(frozen=True, slots=True)
class Settle:
    """A person settles what was told differently: these facts do not count, in one act; they stay stored."""

    names: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Reading:
    """A thermometer shows [C]; its own offset if it is not the run's instrument. [C]"""

    shown_c: float
    where: Where = Where.DEVELOPER
    reads_high_c: float | None = None
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Post:
    """A thermometer reports by itself: never refused for its value, set aside where it cannot be used."""

    reading: Posted


@dataclass(frozen=True, slots=True)
class Lose:
    """A sheet is lost: by its name, its place from 1, or the one that is being loaded."""

    sheet: str | None = None
    place: int | None = None


@dataclass(frozen=True, slots=True)
class Retire:
    """Wait there no more."""

    pause: Pause


@dataclass(frozen=True, slots=True)
class Look:
    """Development was looked at: it shall last longer, or shorter (negative), or end at once. [s]"""

    by_s: float


@dataclass(frozen=True, slots=True)
class Identify:
    """Sheets by clip, or None: the order is not known.

    ``knew`` names the tellings that the person had seen, and corrects; None: all that are known when it is decided.
    """

    order: tuple[str, ...] | None
    knew: tuple[tuple[str, int], ...] | None = None


@dataclass(frozen=True, slots=True)
class Incidence:
    """Something went wrong, so long ago [s]; with the sheets that it was seen on, by their names or places from 1."""

    what: Incident = Incident.OTHER
    ago_s: float = 0.0
    text: str = ""
    sheets: tuple[str, ...] = ()
    places: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Resume:
    """A program takes the run up."""


@dataclass(frozen=True, slots=True)
class TellTime:
    """The run has lasted so long, by a watch. [s]"""

    run_s: float


@dataclass(frozen=True, slots=True)
class Abandon:
    """Give the run up."""

    why: str = ""


Command = (
    Open
    | Tell
    | TakeBack
    | Settle
    | Reading
    | Post
    | Lose
    | Retire
    | Look
    | Identify
    | Incidence
    | Resume
    | TellTime
    | Abandon
)
