"""What can happen in a run: frozen facts, each kind with the version of its form.

An event says what; the :class:`~wetside.runs.fact.Fact` around it says when, on which machine and by which device. A
fact of an older version is lifted by :mod:`wetside.runs.upcast` before it is read; one that cannot be read becomes
:class:`Unreadable`, is kept, and changes nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import StrEnum
from typing import TYPE_CHECKING, Any, ClassVar, NamedTuple

from wetside.errors import InputError
from wetside.runs.fact import Fact
from wetside.runs.script import Pause, Script
from wetside.runs.script_data import data_of_script, script_of_data
from wetside.runs.upcast import UnknownVersionError, lifted

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from wetside.runs.moment import Moment


class Where(StrEnum):
    """Where a temperature was read."""

    DEVELOPER = "developer"
    JACKET = "jacket"
    POURED_OUT = "poured-out"


class Why(StrEnum):
    """Why an end was moved."""

    TEMPERATURE = "temperature"
    LOOK = "look"


class Incident(StrEnum):
    """What went wrong beside the hands."""

    POWER = "power"
    LIGHT = "light"
    LEAK = "leak"
    SCRATCHED = "scratched"
    STUCK = "stuck"
    TOUCHED = "touched"
    OTHER = "other"


OF_SHEETS = (Incident.SCRATCHED, Incident.STUCK, Incident.TOUCHED)
"""What happens to single sheets: told of one that nobody names, it would tell nothing."""


@dataclass(frozen=True, slots=True)
class Opened:
    """A run begins to be: what it follows, whether it is a rehearsal with water, which pauses its user has retired."""

    KIND: ClassVar[str] = "opened"
    script: Script
    rehearsal: bool = False
    retired: tuple[Pause, ...] = ()


@dataclass(frozen=True, slots=True)
class Done:
    """Hands did an act, so many seconds before it was told [s]; ``insisted`` where it was told twice."""

    KIND: ClassVar[str] = "done"
    act: str
    ago_s: float = 0.0
    insisted: bool = False


@dataclass(frozen=True, slots=True)
class Doubted:
    """An act was told that cannot well be: it was asked back, and counts only if it is told again."""

    KIND: ClassVar[str] = "doubted"
    act: str
    code: str


@dataclass(frozen=True, slots=True)
class TakenBack:
    """A fact was told by mistake: the fact stays, and no longer counts."""

    KIND: ClassVar[str] = "taken-back"
    device: str
    number: int


@dataclass(frozen=True, slots=True)
class Read:
    """A thermometer was read: what it showed [C], what it shows too much [C], and where it was."""

    KIND: ClassVar[str] = "read"
    shown_c: float
    where: Where
    reads_high_c: float = 0.0
    instrument: str = ""

    @property
    def true_c(self) -> float:
        """Temperature without the instrument's error. [C]"""
        return self.shown_c - self.reads_high_c


@dataclass(frozen=True, slots=True)
class SetAside:
    """A thermometer posted a reading that is not used: what it showed, as it was sent, where, by whom, and why not."""

    KIND: ClassVar[str] = "set-aside"
    shown: str
    where: Where
    code: str
    instrument: str = ""


@dataclass(frozen=True, slots=True)
class Lost:
    """A sheet was dropped or spoilt before it was developed."""

    KIND: ClassVar[str] = "lost"
    sheet: str


@dataclass(frozen=True, slots=True)
class Retired:
    """The user wants no pause there any more."""

    KIND: ClassVar[str] = "retired"
    pause: Pause


@dataclass(frozen=True, slots=True)
class EndMoved:
    """A developing end lies elsewhere: by how much against the script [s], why, and what it is worth in density."""

    KIND: ClassVar[str] = "end-moved"
    act: str
    shift_s: float
    why: Why
    density: float = 0.0


@dataclass(frozen=True, slots=True)
class Noted:
    """Something went wrong so many seconds before it was told [s]; ``sheets`` are those that it was told of, if any."""

    KIND: ClassVar[str] = "noted"
    what: Incident
    ago_s: float = 0.0
    text: str = ""
    sheets: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Resumed:
    """A program took the run up again; it had lasted ``known_s`` by the last fact. [s]"""

    KIND: ClassVar[str] = "resumed"
    known_s: float


@dataclass(frozen=True, slots=True)
class TimeTold:
    """A person read the run's time off a watch. [s]"""

    KIND: ClassVar[str] = "time-told"
    run_s: float


@dataclass(frozen=True, slots=True)
class Identified:
    """Which sheet hangs on clip 1, 2, 3; None where the order is not known.

    ``knew`` names the tellings that its teller had seen and corrects; None, of the first form: all that was before it.
    """

    KIND: ClassVar[str] = "identified"
    order: tuple[str, ...] | None
    knew: tuple[tuple[str, int], ...] | None = ()


@dataclass(frozen=True, slots=True)
class Abandoned:
    """The run was given up."""

    KIND: ClassVar[str] = "abandoned"
    why: str = ""


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A fact of a kind or version that this program does not know, or whose data are damaged: kept, never lost."""

    KIND: ClassVar[str] = "unreadable"
    kind: str
    version: int
    code: str


Event = (
    Opened
    | Done
    | Doubted
    | TakenBack
    | Read
    | SetAside
    | Lost
    | Retired
    | EndMoved
    | Noted
    | Resumed
    | TimeTold
    | Identified
    | Abandoned
    | Unreadable
)

EVENTS: Mapping[str, type[Any]] = {
    event.KIND: event
    for event in (
        Opened,
        Done,
        Doubted,
        TakenBack,
        Read,
        SetAside,
        Lost,
        Retired,
        EndMoved,
        Noted,
        Resumed,
        TimeTold,
        Identified,
        Abandoned,
    )
}
"""Every kind that may be written."""

VERSIONS: Mapping[str, int] = dict.fromkeys(EVENTS, 1) | {"opened": 2, "read": 2, "noted": 2, "identified": 2}
"""Version in which each kind is written now."""


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TypeError(value)
    return float(value)


def _whole(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise TypeError(value)
    return value


def _flag(value: Any) -> bool:
    if not isinstance(value, bool):
        raise TypeError(value)
    return value


def _list(value: Any) -> list[Any]:
    if not isinstance(value, list):
        raise TypeError(value)
    return value


def _name(value: Any) -> tuple[str, int]:
    device, number = _list(value)
    return _text(device), _whole(number)


_READERS: Mapping[str, Callable[[Any], Any]] = {
    "str": _text,
    "float": _number,
    "int": _whole,
    "bool": _flag,
    "Where": lambda value: Where(_text(value)),
    "Why": lambda value: Why(_text(value)),
    "Incident": lambda value: Incident(_text(value)),
    "Pause": lambda value: Pause(_text(value)),
    "Script": script_of_data,
    "tuple[Pause, ...]": lambda value: tuple(Pause(_text(one)) for one in value),
    "tuple[str, ...]": lambda value: tuple(_text(one) for one in _list(value)),
    "tuple[str, ...] | None": lambda value: None if value is None else tuple(_text(one) for one in _list(value)),
    "tuple[tuple[str, int], ...] | None": lambda value: None if value is None else tuple(map(_name, _list(value))),
}
"""How each type of field is read from plain data."""


def event_of_fact(fact: Fact) -> Event:
    """Event of a fact, lifted to the form of today.

    Never raises: a fact of another program's version is kept as :class:`Unreadable`.
    """
    known = EVENTS.get(fact.kind)
    if known is None:
        return Unreadable(fact.kind, fact.version, "runs.event.kind")
    try:
        data = lifted(fact.kind, fact.version, VERSIONS[fact.kind], fact.data)
        names = {field.name for field in fields(known)}
        if set(data) - names:
            return Unreadable(fact.kind, fact.version, "runs.event.data")
        made: Event = known(
            **{field.name: _READERS[str(field.type)](data[field.name]) for field in fields(known) if field.name in data}
        )
    except UnknownVersionError:
        return Unreadable(fact.kind, fact.version, "runs.event.version")
    except (InputError, TypeError, ValueError, KeyError, AttributeError, IndexError):
        return Unreadable(fact.kind, fact.version, "runs.event.data")
    return made


def data_of_event(event: Event) -> dict[str, Any]:
    """Plain data of an event, as its fact keeps them."""
    data: dict[str, Any] = {}
    for field in fields(event):
        value = getattr(event, field.name)
        if isinstance(value, Script):
            value = data_of_script(value)
        elif isinstance(value, StrEnum):
            value = value.value
        elif isinstance(value, tuple):
            value = [list(one) if isinstance(one, tuple) else str(one) for one in value]
        data[field.name] = value
    return data


class Device(NamedTuple):
    """Who tells facts, and the number that its next one gets."""

    name: str
    next_number: int


def facts_of_events(events: Iterable[Event], now: Moment, device: Device) -> tuple[Fact, ...]:
    """Facts of events that a device tells at one moment."""
    return tuple(
        Fact(
            kind=event.KIND,
            version=VERSIONS[event.KIND],
            at_utc=now.at_utc,
            boot_s=now.boot_s,
            boot_id=now.boot_id,
            device=device.name,
            device_number=device.next_number + place,
            data=data_of_event(event),
        )
        for place, event in enumerate(events)
    )
