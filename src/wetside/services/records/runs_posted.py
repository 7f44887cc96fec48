"""What a page hands over and asks of a run, read from plain data: every mistake names its place."""

from __future__ import annotations

import datetime as dt
import json
import math
import re
from dataclasses import fields
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.errors import (
    InputError,
    ManyErrors,
    OutOfRangeError,
    Place,
    UnknownNameError,
    UnreadableError,
    WetsideError,
)
from wetside.records.models import LABEL_LENGTH
from wetside.runs import commands as c
from wetside.runs.bath_limits import COLDEST_C, HOTTEST_C
from wetside.runs.events import Incident, Where
from wetside.runs.fact import Fact
from wetside.runs.from_plan import LONGEST_S, SHORTEST_S
from wetside.runs.script import Pause
from wetside.services.records.runs import MOST_FACTS
from wetside.units import parse_duration_s, parse_number, parse_temp_c, whole_number

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

MOST_BYTES = 256 * 1024
"""Size of one hand-over. [bytes]"""
MOST_BOOT_S = 1e10
"""No machine has run for three hundred years. [s]"""
MOST_VERSION = 1000
"""No kind of fact has so many forms. [1]"""
LONGEST_TEXT = 500
"""Letters of a note on an incident, or of why a run is given up. Our choice. [letters]"""

LONGEST_MOMENT = 40
"""No form of a moment has more letters. [letters]"""
LONGEST_NAME = 60
"""Letters of a film's and a developer's name. [letters]"""

_DEVICE = re.compile(r"[0-9a-f]{32}")
_FACT_KEYS = ("number", "kind", "version", "at_utc", "boot_s", "boot_id", "data")


class TooLargeError(OutOfRangeError):
    """The body is larger than a hand-over may be."""


def table_of_body(body: bytes | None) -> dict[str, Any]:
    """Table that a body holds as JSON; ``None`` stands for one that was too large to be read.

    Raises
    ------
    TooLargeError
        If it is larger than a hand-over may be.
    UnreadableError
        If it is no JSON, or no table.
    """
    if body is None or len(body) > MOST_BYTES:
        raise TooLargeError("services.runs.large", most=MOST_BYTES // 1024)
    try:
        table = json.loads(body)
    except (ValueError, RecursionError) as error:
        raise UnreadableError("services.runs.no_json") from error
    if not isinstance(table, dict):
        raise UnreadableError("services.runs.no_table", place=Place(field="body"), keys=("device",))
    return table


class HandedOver(NamedTuple):
    """Facts of one device."""

    device: str
    facts: tuple[Fact, ...]


def device_of(value: object) -> str:
    """Name of a page's device: 32 hexadecimal digits.

    Raises
    ------
    UnreadableError
        If it is none.
    """
    if not isinstance(value, str) or not _DEVICE.fullmatch(value):
        raise UnreadableError("services.runs.device", place=Place(field="device"), value=_short(value))
    return value


def facts_of_posted(body: object) -> HandedOver:
    """Facts that a page hands over.

    Parameters
    ----------
    body : object
        As it was read from JSON.

    Raises
    ------
    InputError
        Naming the place of the first value that cannot be taken.
    """
    table = _table(body, "", ("device", "facts"))
    device = device_of(table["device"])
    rows = table["facts"]
    if not isinstance(rows, list):
        raise UnreadableError("services.runs.no_list", place=Place(field="facts"))
    if len(rows) > MOST_FACTS:
        raise OutOfRangeError("services.runs.many_facts", place=Place(field="facts"), count=len(rows), most=MOST_FACTS)
    return HandedOver(device, tuple(_fact(row, device, f"facts[{rank}]") for rank, row in enumerate(rows, 1)))


def _fact(row: object, device: str, at: str) -> Fact:
    table = _table(row, at, _FACT_KEYS)
    for name in ("kind", "boot_id"):
        if isinstance(table[name], str) and not _keepable(table[name]):
            raise UnreadableError("services.runs.letters", place=Place(field=f"{at}.{name}"))
    boot_s, version = table["boot_s"], table["version"]
    if isinstance(boot_s, bool) or not isinstance(boot_s, int | float) or not abs(boot_s) <= MOST_BOOT_S:
        raise OutOfRangeError("services.runs.boot", place=Place(field=f"{at}.boot_s"), value=_short(boot_s))
    if isinstance(version, bool) or not isinstance(version, int) or not 1 <= version <= MOST_VERSION:
        raise OutOfRangeError(
            "services.runs.count",
            place=Place(field=f"{at}.version"),
            field="version",
            value=_short(version),
            largest=MOST_VERSION,
        )
    try:
        return Fact(
            kind=table["kind"],
            version=version,
            at_utc=_utc(table["at_utc"], f"{at}.at_utc"),
            boot_s=float(boot_s),
            boot_id=table["boot_id"],
            device=device,
            device_number=table["number"],
            data=table["data"],
        )
    except WetsideError as error:
        field = str(error.params.get("field", "")).replace("device_number", "number")
        error.place = error.place or Place(field=f"{at}.{field}" if field else at)
        raise


def _utc(value: object, at: str) -> dt.datetime:
    """Moment of its text. One without a zone is refused where the fact is made."""
    text = value if isinstance(value, str) and len(value) <= LONGEST_MOMENT else ""
    try:
        moment = dt.datetime.fromisoformat(text)
        return moment if moment.tzinfo is None else moment.astimezone(dt.UTC)
    except (ValueError, OverflowError) as error:
        raise UnreadableError("services.runs.moment", place=Place(field=at), value=_short(value)) from error


def _table(value: object, at: str, keys: tuple[str, ...]) -> Mapping[str, Any]:
    """A table with just these keys."""
    if not isinstance(value, dict):
        raise UnreadableError("services.runs.no_table", place=Place(field=at or "body"), keys=keys)
    for name in keys:
        if name not in value:
            raise InputError("services.runs.missing", place=Place(field=f"{at}.{name}" if at else name), keys=keys)
    for name in value:
        if name not in keys:
            where = _short(f"{at}.{name}" if at else name)
            raise UnknownNameError("services.runs.unknown_key", place=Place(field=where), keys=keys)
    return value


def _keepable(text: str) -> bool:
    try:
        text.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return "\0" not in text


def _short(value: object) -> str:
    return ascii(value)[:60] if not isinstance(value, str) else value.encode("ascii", "replace").decode()[:60]


COMMANDS: Mapping[str, type[Any]] = {
    "tell": c.Tell,
    "take-back": c.TakeBack,
    "reading": c.Reading,
    "lose": c.Lose,
    "retire": c.Retire,
    "look": c.Look,
    "identify": c.Identify,
    "incident": c.Incidence,
    "tell-time": c.TellTime,
    "abandon": c.Abandon,
    "resume": c.Resume,
}
"""What may be asked, by its name."""


def command_of_posted(name: object, given: Mapping[str, Any], *, units: str = "metric") -> c.Command:
    """Command of its name and fields; text is read as a person types it, numbers as they are.

    Parameters
    ----------
    name : str
        A key of :data:`COMMANDS`.
    given : mapping
        By the fields of the command in :mod:`wetside.runs.commands`; empty text counts as not given.
    units : str
        Of a temperature that is typed without one: ``metric`` or ``us``.

    Raises
    ------
    InputError
        Naming the field.
    """
    kind = COMMANDS.get(name) if isinstance(name, str) else None
    if kind is None:
        raise UnknownNameError(
            "services.runs.unknown_command", place=Place(field="command"), value=_short(name), known=tuple(COMMANDS)
        )
    known = {field.name: str(field.type) for field in fields(kind)}
    values: dict[str, Any] = {}
    for field, value in given.items():
        if field not in known:
            raise UnknownNameError("services.runs.unknown_key", place=Place(field=_short(field)), keys=tuple(known))
        if value is None or (isinstance(value, str) and not value.strip()):
            continue
        values[field] = _value(field, value, units)
    if kind is c.Identify:  # who does not say what it had seen had seen no order, and corrects none
        values = {"order": None, "knew": (), **values}
    try:
        made: c.Command = kind(**values)
    except TypeError as error:
        needed = next(field.name for field in fields(kind) if field.name not in values)
        raise InputError("services.runs.missing", place=Place(field=needed), keys=tuple(known)) from error
    return made


def _value(field: str, value: Any, units: str) -> Any:
    try:
        return _READ[field](value, units)
    except WetsideError as error:
        error.place = Place(field=field)
        raise
    except (TypeError, ValueError, OverflowError) as error:
        raise UnreadableError("services.runs.value", place=Place(field=field), value=_short(value)) from error


def _seconds(value: Any, _: str) -> float:
    if not isinstance(value, str):
        return _number(value, "")
    text = value.strip()
    sign = -1.0 if text.startswith(("-", "\N{MINUS SIGN}")) else 1.0
    try:
        return sign * parse_duration_s(text.lstrip("+-\N{MINUS SIGN} "))
    except WetsideError as error:
        if "value" in error.params:  # what was typed is quoted whole, with its sign
            error.params = {**error.params, "value": text[:LONGEST_MOMENT]}
        raise


def _degrees(value: Any, units: str) -> float:
    if isinstance(value, str):
        text = value.strip()
        # Wet hands type no unit; the field beside it names the darkroom's own.
        return parse_temp_c(f"{text} {'F' if units == 'us' else 'C'}" if text[-1].isdigit() else text)
    return _number(value, "")


def _number(value: Any, _: str) -> float:
    if isinstance(value, str):
        return parse_number(value)
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise ValueError(value)
    return float(value)


def _whole(value: Any, _: str) -> int:
    number = whole_number(value) if isinstance(value, str) else value
    if isinstance(number, bool) or not isinstance(number, int) or not 1 <= number < 10**6:
        raise ValueError(value)
    return number


def _text(value: Any, _: str) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    if len(value) > LONGEST_TEXT or not _keepable(value):
        raise UnreadableError("services.runs.long_name", most=LONGEST_TEXT)
    return value.strip()


def _flag(value: Any, _: str) -> bool:
    if value not in (True, False, "on", "yes", "no"):
        raise ValueError(value)
    return value in (True, "on", "yes")


def _order(value: Any, _: str) -> tuple[str, ...]:
    names = value.split(",") if isinstance(value, str) else value
    if not isinstance(names, list) or len(names) > 200:
        raise ValueError(value)
    return tuple(_text(name, "") for name in names if name)


def _places(value: Any, _: str) -> tuple[int, ...]:
    given = value.split(",") if isinstance(value, str) else value
    if not isinstance(given, list) or len(given) > 200:
        raise ValueError(value)
    return tuple(_whole(one.strip() if isinstance(one, str) else one, "") for one in given)


def _names(value: Any, _: str) -> tuple[tuple[str, int], ...]:
    if not isinstance(value, list) or len(value) > 200:
        raise ValueError(value)
    return tuple(_name(name, "") for name in value)


def _name(value: Any, _: str) -> tuple[str, int]:
    if not isinstance(value, list) or len(value) != 2:
        raise ValueError(value)
    return _text(value[0], ""), _whole(value[1], "")


_READ: Mapping[str, Callable[[Any, str], Any]] = {
    "act": _text,
    "ago_s": _seconds,
    "on_time": _flag,
    "name": _name,
    "shown_c": _degrees,
    "where": lambda value, _: Where(value),
    "reads_high_c": _number,
    "instrument": _text,
    "sheet": _text,
    "place": _whole,
    "pause": lambda value, _: Pause(value),
    "by_s": _seconds,
    "order": _order,
    "knew": _names,
    "sheets": _order,
    "places": _places,
    "what": lambda value, _: Incident(value),
    "text": _text,
    "run_s": _seconds,
    "why": _text,
}
"""How each field of a command is read."""


class Quick(NamedTuple):
    """What a run without a plan needs: film, developer, time [s], true temperature [C]; and a vessel if one is told."""

    film: str
    developer: str
    time_s: float
    temp_c: float
    vessel: str = ""


def quick_of_posted(typed: Mapping[str, str], *, units: str = "metric") -> Quick:
    """Read the four words of a quick run.

    Parameters
    ----------
    typed : mapping
        ``film``, ``developer``, ``time``, ``temp``, ``vessel`` as they were typed.
    units : str
        Of a temperature without a unit: ``metric`` or ``us``.

    Raises
    ------
    WetsideError
        With the field of everything that must be put right.
    """
    errors: list[WetsideError] = []

    def read(field: str, act: Callable[[str], Any], absent: Any = None, longest: int = LONGEST_NAME) -> Any:
        text = (typed.get(field) or "").strip()
        try:
            if not text and absent is None:
                raise InputError("services.plans.wanted")
            if len(text) > longest or not _keepable(text):
                raise OutOfRangeError("services.runs.long_name", most=longest)
            return act(text) if text else absent
        except WetsideError as error:
            error.place = Place(field=field)
            errors.append(error)
            return None

    film, developer = read("film", str), read("developer", str)
    time_s = read("time", lambda text: parse_duration_s(text, low_s=SHORTEST_S, high_s=LONGEST_S))
    temp_c = read("temp", lambda text: _degrees(text, units), 20.0)
    if temp_c is not None and not COLDEST_C <= temp_c <= HOTTEST_C:
        place = Place(field="temp")
        errors.append(
            OutOfRangeError("services.runs.no_bath", place=place, value=temp_c, low_c=COLDEST_C, high_c=HOTTEST_C)
        )
    vessel = read("vessel", str, "", LABEL_LENGTH)
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    return Quick(film, developer, time_s, temp_c, vessel)
