"""A fact of a run: one thing that happened, frozen, with its times and the device that saw it."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wetside.errors import OutOfRangeError, UnreadableError

if TYPE_CHECKING:
    from collections.abc import Mapping

LARGEST_NUMBER = 2**53
"""Numbers of a fact's data go up to here: beyond, not every keeper of JSON gives back the number that it took. [1]"""
DEEPEST = 16
"""Tables within tables that a fact's data may have. [1]"""
LONGEST_NAME = 64
"""Letters of the names of a device and of a time since boot. [letters]"""
LONGEST_KIND = 60
"""Letters of a fact's kind. [letters]"""


@dataclass(frozen=True, slots=True)
class Fact:
    """One fact as it is handed over and kept.

    Parameters
    ----------
    kind : str
        What happened, by its name in the table of kinds.
    version : int
        Version of the kind's form, counted from 1.
    at_utc : datetime
        When, by the device's clock; with a time zone, kept to the microsecond.
    boot_s : float
        When, on the clock that counts from the device's start and through its sleep. [s]
    boot_id : str
        Which start that clock counts from.
    device : str
        Who saw it.
    device_number : int
        The device's own count of its facts, from 1: with ``device`` it names this fact once and for all.
    data : mapping
        Plain JSON values; numbers are finite and at most :data:`LARGEST_NUMBER`.

    Raises
    ------
    InputError
        If a value cannot be kept as it is; the field is named.
    """

    kind: str
    version: int
    at_utc: dt.datetime
    boot_s: float
    boot_id: str
    device: str
    device_number: int
    data: Mapping[str, Any]

    def __post_init__(self) -> None:
        for field, longest in (("kind", LONGEST_KIND), ("boot_id", LONGEST_NAME), ("device", LONGEST_NAME)):
            value = getattr(self, field)
            if not isinstance(value, str) or not value or len(value) > longest or "\0" in value:
                raise UnreadableError("runs.fact.name", field=field, value=value, longest=longest)
        for field in ("version", "device_number"):
            number = getattr(self, field)
            if isinstance(number, bool) or not isinstance(number, int) or not 1 <= number <= LARGEST_NUMBER:
                raise OutOfRangeError("runs.fact.count", field=field, value=number, largest=LARGEST_NUMBER)
        if not isinstance(self.boot_s, int | float) or not math.isfinite(self.boot_s):
            raise OutOfRangeError("runs.fact.boot", value=self.boot_s)
        if self.at_utc.tzinfo is None:
            raise UnreadableError("runs.fact.zone", value=str(self.at_utc))
        object.__setattr__(self, "at_utc", self.at_utc.astimezone(dt.UTC))
        object.__setattr__(self, "boot_s", float(self.boot_s))
        object.__setattr__(self, "data", _plain_table(self.data))

    @property
    def name(self) -> tuple[str, int]:
        """Device and its number: the same for the same fact, however often it is handed over."""
        return self.device, self.device_number


def _plain_table(data: Mapping[str, Any]) -> dict[str, Any]:
    """Copy of the data that nobody else holds.

    Raises
    ------
    InputError
        If it is no table of plain JSON values.
    """
    copied = _plain(data, "data", 0)
    if not isinstance(copied, dict):
        raise UnreadableError("runs.fact.data", field="data", value=str(data))
    return copied


def _plain(value: object, field: str, depth: int) -> Any:
    if depth > DEEPEST:
        raise UnreadableError("runs.fact.deep", field=field, deepest=DEEPEST)
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, str):
        if "\0" in value:
            raise UnreadableError("runs.fact.data", field=field, value=value.replace("\0", "?"))
        try:
            value.encode("utf-8")
        except UnicodeEncodeError as error:
            raise UnreadableError("runs.fact.data", field=field, value=ascii(value)) from error
        return value
    if isinstance(value, int | float):
        if not math.isfinite(value) or abs(value) > LARGEST_NUMBER:
            raise OutOfRangeError("runs.fact.number", field=field, value=str(value), largest=LARGEST_NUMBER)
        return value
    if isinstance(value, dict):
        if not all(isinstance(key, str) for key in value):
            raise UnreadableError("runs.fact.data", field=field, value=str(value))
        return {_plain(key, field, depth): _plain(inner, f"{field}.{key}", depth + 1) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner, f"{field}.{rank}", depth + 1) for rank, inner in enumerate(value, 1)]
    raise UnreadableError("runs.fact.data", field=field, value=str(value))
