"""Facts of older versions, lifted step by step to the form of today. A fact is never rewritten; it is read anew."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


class UnknownVersionError(ValueError):
    """A version that this program does not know: written by a newer one."""


def _opened_2(data: dict[str, Any]) -> dict[str, Any]:
    """Version 1 knew no rehearsal and no retired pauses."""
    return {"rehearsal": False, "retired": [], **data}


def _read_2(data: dict[str, Any]) -> dict[str, Any]:
    """Version 1 kept the true temperature alone, always of the developer."""
    return {"shown_c": data["temp_c"], "where": "developer", "reads_high_c": 0.0, "instrument": ""}


def _noted_2(data: dict[str, Any]) -> dict[str, Any]:
    """Version 1 was of no sheet by name."""
    return {"sheets": [], **data}


def _identified_2(data: dict[str, Any]) -> dict[str, Any]:
    """Version 1 did not say what its teller had seen: the last one by the run's clock counted."""
    return {"knew": None, **data}


LIFTS: Mapping[tuple[str, int], Callable[[dict[str, Any]], dict[str, Any]]] = {
    ("opened", 1): _opened_2,
    ("read", 1): _read_2,
    ("noted", 1): _noted_2,
    ("identified", 1): _identified_2,
}
"""From a kind's version to the next one."""


def lifted(kind: str, version: int, to: int, data: Mapping[str, Any]) -> dict[str, Any]:
    """Data of a fact in a later version's form.

    Parameters
    ----------
    kind : str
    version, to : int
        Version of the data, and the wanted one. [1]
    data : mapping

    Raises
    ------
    UnknownVersionError
        If the data are newer than that, or no way leads there.
    """
    if version > to:
        raise UnknownVersionError(kind, version)
    found = dict(data)
    for step in range(version, to):
        lift = LIFTS.get((kind, step))
        if lift is None:
            raise UnknownVersionError(kind, step)
        found = lift(found)
    return found
