"""The log of a run as somebody hands it in: read from bytes, nothing taken on trust, every mistake with its line.

The program that writes a log (:mod:`wetside.adapters.run_log`) reads it to go on with it. Here a whole file is looked
through that may have been copied, cut, mixed up or made by another program. Where a fact is wrong the file is refused,
because a run without it would show wrong times; only a torn last line is passed over, as it is no fact.
"""

from __future__ import annotations

import datetime as dt
import json
import math
import re
import zlib
from typing import Any, NamedTuple, NoReturn

from wetside.adapters.run_log import HEADER, LOG_FORMAT, line_of
from wetside.errors import (
    ConflictError,
    InputError,
    OutOfRangeError,
    Place,
    UnknownNameError,
    UnreadableError,
    WetsideError,
)
from wetside.runs.events import EVENTS, VERSIONS, Opened, Unreadable, event_of_fact
from wetside.runs.fact import LONGEST_KIND, LONGEST_NAME, Fact
from wetside.runs.script_bounds import require_bounded
from wetside.runs.script_data import script_of_data
from wetside.runs.simulator import FAST

MOST_BYTES = 1_500_000
"""Size of a log; that of a long evening's load is a twentieth of it. Our choice. [bytes]"""
MOST_LINES = 5000
"""Lines of a log; a plain load has about thirty. Our choice. [lines]"""
MOST_BOOT_S = 1e10
"""No machine has run for three hundred years. [s]"""
MOST_NUMBER = 1_000_000
"""No device tells so many facts of a run. [facts]"""
FIRST_YEAR, LAST_YEAR = 2000, 2199
"""Years in which a run can lie; before the first no log was written. Our choice."""

FIELDS = tuple(Fact.__dataclass_fields__)
_LINE = re.compile(rb"([0-9a-f]{8}) (.*)", re.DOTALL)


class LogRead(NamedTuple):
    """Facts of a log in their order, and how many bytes of a torn last line were passed over. [bytes]"""

    facts: tuple[Fact, ...]
    torn_bytes: int

    def line(self, fact: Fact) -> int:
        """Line of the file on which a fact stands."""
        return self.facts.index(fact) + 2


def read_log(data: bytes, name: str) -> LogRead:
    """Read the log of a run.

    Parameters
    ----------
    data : bytes
        As the file holds it.
    name : str
        What the file is called, for the place of a mistake.

    Raises
    ------
    InputError
        Naming file, line and field of the first thing that cannot be taken.
    """
    require_size(len(data), name)
    end = data.rfind(b"\n") + 1
    lines = data[:end].split(b"\n")[:-1]
    if not lines and line_of(HEADER).startswith(data):
        raise InputError("files.runlog.nothing", place=Place(name))
    if len(lines) > MOST_LINES:
        raise OutOfRangeError("files.runlog.many", place=Place(name), count=len(lines), most=MOST_LINES)
    _require_header(lines[0] if lines else data, Place(name, 1))
    read = _Lines(name)
    facts = tuple(read.fact(line, number) for number, line in enumerate(lines[1:], 2))
    if not facts:
        raise InputError("files.runlog.nothing", place=Place(name))
    return LogRead(facts, len(data) - end)


def require_size(size_bytes: int, name: str) -> None:
    """Refuse a file that is larger than any log, before it is read.

    Parameters
    ----------
    size_bytes : int
        [bytes]
    name : str
        What the file is called.

    Raises
    ------
    OutOfRangeError
        With both sizes.
    """
    if size_bytes > MOST_BYTES:
        kb = math.ceil(size_bytes / 1000)
        raise OutOfRangeError("files.runlog.large", place=Place(name), kb=kb, most_kb=MOST_BYTES // 1000)


def _require_header(line: bytes, place: Place) -> None:
    """Refuse what is no log, and a log of a form that this program does not know."""
    found = _LINE.fullmatch(line.removesuffix(b"\r"))
    try:
        value = json.loads(found[2]) if found is not None else None
    except (ValueError, RecursionError):
        value = None
    if not isinstance(value, dict) or value.get("wetside") != HEADER["wetside"]:
        raise UnreadableError("files.runlog.no_log", place=place)
    if value.get("format") != LOG_FORMAT:
        field = place._replace(field="format")
        raise OutOfRangeError("files.runlog.format", place=field, value=_short(value.get("format")), known=LOG_FORMAT)
    if value != HEADER or not _sum_fits(found):
        raise UnreadableError("files.runlog.line_changed", place=place)


class _Lines:
    """Walks through the facts of a file; what one line says limits what the next may."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.last: dict[str, int] = {}
        """Number of each device's last fact."""
        self.lines: dict[tuple[str, int], int] = {}
        """Line of each fact, by its device and number."""
        self.clocks: dict[str, float] = {}
        """What each start of a machine last showed. [s]"""
        self.opened = False

    def fact(self, line: bytes, number: int) -> Fact:
        """Fact of a line."""
        place = Place(self.name, number)
        try:
            fact = _fact_of(_table(line, place))
        except WetsideError as error:
            raise error.at(place) from None
        self._in_order(fact, place)
        self._of_a_kind(fact, place)
        return fact

    def _in_order(self, fact: Fact, place: Place) -> None:
        before = self.last.get(fact.device, 0)
        params = {"device": fact.device, "number": fact.device_number, "wanted": before + 1}
        field = place._replace(field="device_number")
        if fact.device_number <= before:
            raise ConflictError("files.runlog.twice", place=field, line=self.lines[fact.name], **params)
        if fact.device_number > before + 1:
            raise ConflictError("files.runlog.gap", place=field, **params)
        self.last[fact.device] = fact.device_number
        self.lines[fact.name] = place.line or 0
        shown_s = self.clocks.get(fact.boot_id, fact.boot_s)
        # A clock that runs faster begins anew with each start of the program.
        if fact.boot_s < shown_s and not fact.boot_id.endswith(FAST):
            clock = place._replace(field="boot_s")
            raise ConflictError("files.runlog.clock", place=clock, value_s=fact.boot_s, before_s=shown_s)
        self.clocks[fact.boot_id] = fact.boot_s

    def _of_a_kind(self, fact: Fact, place: Place) -> None:
        kind = place._replace(field="kind")
        if fact.kind not in EVENTS:
            raise UnknownNameError("files.runlog.kind", place=kind, value=_short(fact.kind), known=tuple(EVENTS))
        if fact.version > VERSIONS[fact.kind]:
            version = place._replace(field="version")
            raise OutOfRangeError("files.runlog.version", place=version, value=fact.version, known=VERSIONS[fact.kind])
        event = event_of_fact(fact)
        if isinstance(event, Unreadable):
            _refuse_data(fact, place)
        if isinstance(event, Opened):
            try:
                require_bounded(event.script)
            except WetsideError as error:
                named = str(error.params.get("field", ""))
                raise error.at(place._replace(field=f"data.script.{named}".rstrip("."))) from None
        is_opening = isinstance(event, Opened)
        if is_opening is self.opened:
            raise ConflictError("files.runlog.opened_again" if is_opening else "files.runlog.not_opened", place=kind)
        self.opened = True


def _refuse_data(fact: Fact, place: Place) -> NoReturn:
    """Say why the data of a fact are none of its kind, as nearly as can be told.

    Raises
    ------
    InputError
        In any case.
    """
    script = fact.data.get("script")
    if fact.kind == Opened.KIND and isinstance(script, dict):
        try:
            script_of_data(script)
        except WetsideError as error:
            raise error.at(place._replace(field="data.script")) from None
    raise UnreadableError("files.runlog.data", place=place._replace(field="data"), kind=fact.kind)


def _sum_fits(found: re.Match[bytes] | None) -> bool:
    return found is not None and int(found[1], 16) == zlib.crc32(found[2])


def _table(line: bytes, place: Place) -> dict[str, Any]:
    """Table that a line holds, with just the fields of a fact."""
    found = _LINE.fullmatch(line.removesuffix(b"\r"))
    if found is None:
        raise UnreadableError("files.runlog.no_line", place=place)
    if not _sum_fits(found):
        raise UnreadableError("files.runlog.line_changed", place=place)
    try:
        text = found[2].decode("utf-8")
    except UnicodeDecodeError:
        raise UnreadableError("files.runlog.bytes", place=place) from None
    try:
        value = json.loads(text, parse_constant=_refuse, object_pairs_hook=_once)
    except (ValueError, RecursionError):
        raise UnreadableError("files.runlog.no_json", place=place) from None
    if not isinstance(value, dict):
        raise UnreadableError("files.runlog.no_json", place=place)
    for name in FIELDS:
        if name not in value:
            raise InputError("files.runlog.missing", place=place._replace(field=name), keys=FIELDS)
    for name in value:
        if name not in FIELDS:
            raise UnknownNameError("files.runlog.unknown", place=place._replace(field=_short(name)), keys=FIELDS)
    return value


def _refuse(name: str) -> NoReturn:
    raise ValueError(name)


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise ValueError(pairs[0][0])
    return found


def _fact_of(table: dict[str, Any]) -> Fact:
    for field, longest in (("kind", LONGEST_KIND), ("boot_id", LONGEST_NAME), ("device", LONGEST_NAME)):
        value = table[field]
        if not isinstance(value, str) or not value or len(value) > longest or not value.isprintable():
            raise UnreadableError("files.runlog.text", place=Place(field=field), value=_short(value), longest=longest)
    for field in ("version", "device_number"):
        value = table[field]
        if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= MOST_NUMBER:
            raise OutOfRangeError("files.runlog.count", place=Place(field=field), value=_short(value), most=MOST_NUMBER)
    boot_s = table["boot_s"]
    if isinstance(boot_s, bool) or not isinstance(boot_s, int | float) or not abs(boot_s) <= MOST_BOOT_S:
        raise OutOfRangeError("files.runlog.boot", place=Place(field="boot_s"), value=_short(boot_s))
    if not isinstance(table["data"], dict):
        raise UnreadableError("files.runlog.data", place=Place(field="data"), kind=table["kind"])
    values = {**table, "at_utc": _moment(table["at_utc"])}
    try:
        return Fact(**values)
    except WetsideError as error:  # what its data hold
        raise error.at(Place(field=str(error.params.get("field", "data")))) from None


def _moment(value: object) -> dt.datetime:
    """Moment of its text, with a zone, in a year in which a run can lie."""
    try:
        moment = dt.datetime.fromisoformat(value if isinstance(value, str) else "")
        if moment.tzinfo is not None and FIRST_YEAR <= moment.astimezone(dt.UTC).year <= LAST_YEAR:
            return moment
    except (ValueError, OverflowError):
        pass
    raise UnreadableError(
        "files.runlog.moment", place=Place(field="at_utc"), value=_short(value), first=FIRST_YEAR, last=LAST_YEAR
    )


def _short(value: object) -> str:
    return (value if isinstance(value, str) and value.isprintable() else ascii(value))[:60]
