"""What pages ask of a run, read from what they send: commands as a person typed them, facts as a device saw them."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from wetside.errors import InputError, OutOfRangeError, Place, UnknownNameError, WetsideError
from wetside.runs import commands as c
from wetside.runs.events import Incident, Where
from wetside.runs.fact import Fact
from wetside.runs.script import Pause
from wetside.units import parse_duration_s, parse_temp_c

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from enum import StrEnum

MOST_FACTS = 500
"""Facts that are handed over at once. Our choice. [1]"""
LONGEST_TEXT = 500
"""Letters of a note. Our choice."""
FACT_KEYS = {"number", "kind", "version", "at_utc", "boot_s", "boot_id", "data"}


def command_of_fields(fields: Mapping[str, str]) -> c.Command:
    """Command of typed fields; ``command`` names it.

    Parameters
    ----------
    fields : mapping
        As a form or a page sends them, all text.

    Raises
    ------
    WetsideError
        With the field that must be put right.
    """
    name = fields.get("command", "")
    reader = _READERS.get(name)
    if reader is None:
        raise UnknownNameError(
            "services.runs.command", place=Place(field="command"), value=name, known=sorted(_READERS)
        )
    return reader(fields)


def _text(fields: Mapping[str, str], name: str) -> str:
    value = fields.get(name, "").strip()
    if len(value) > LONGEST_TEXT or "\0" in value:
        raise OutOfRangeError("services.runs.text", place=Place(field=name), most=LONGEST_TEXT)
    return value


def _typed(fields: Mapping[str, str], name: str, parse: Callable[[str], float]) -> float:
    text = _text(fields, name)
    if not text:
        raise InputError("services.plans.wanted", place=Place(field=name))
    try:
        return parse(text)
    except WetsideError as error:
        error.place = Place(field=name)
        raise


def _ago_s(fields: Mapping[str, str]) -> float:
    return _typed(fields, "ago", parse_duration_s) if _text(fields, "ago") else 0.0


def _one_of(fields: Mapping[str, str], name: str, kind: type[StrEnum], usual: str) -> Any:
    value = _text(fields, name) or usual
    try:
        return kind(value)
    except ValueError:
        known = [str(one) for one in kind]
        raise UnknownNameError("services.runs.choice", place=Place(field=name), value=value, known=known) from None


def _tell(fields: Mapping[str, str]) -> c.Command:
    return c.Tell(_text(fields, "act") or None, _ago_s(fields), on_time=fields.get("on_time") == "yes")


def _reading(fields: Mapping[str, str]) -> c.Command:
    where = _one_of(fields, "where", Where, Where.DEVELOPER.value)
    unit = "F" if fields.get("unit") == "F" else "C"

    def read(text: str) -> float:
        # The question names the unit, and wet hands type none.
        return parse_temp_c(text if text[-1:] in "CFcf" else f"{text} {unit}")

    return c.Reading(_typed(fields, "shown", read), where, None, _text(fields, "instrument"))


def _lose(fields: Mapping[str, str]) -> c.Command:
    sheet = _text(fields, "sheet")
    place = _text(fields, "place")
    if place:
        if not (place.isascii() and place.isdecimal() and len(place) < 5):
            raise InputError("services.runs.place", place=Place(field="place"), value=place)
        return c.Lose(None, int(place))
    return c.Lose(sheet or None)


def _take_back(fields: Mapping[str, str]) -> c.Command:
    del fields
    return c.TakeBack()


def _look(fields: Mapping[str, str]) -> c.Command:
    by_s = _typed(fields, "by", parse_duration_s)
    return c.Look(-by_s if fields.get("way") == "shorter" else by_s)


def _identify(fields: Mapping[str, str]) -> c.Command:
    order = tuple(name.strip() for name in _text(fields, "order").split(",") if name.strip())
    return c.Identify(order or None)


def _incident(fields: Mapping[str, str]) -> c.Command:
    what = _one_of(fields, "what", Incident, Incident.OTHER.value)
    return c.Incidence(what, _ago_s(fields), _text(fields, "text"))


_READERS: Mapping[str, Callable[[Mapping[str, str]], c.Command]] = {
    "tell": _tell,
    "take-back": _take_back,
    "reading": _reading,
    "lose": _lose,
    "retire": lambda fields: c.Retire(_one_of(fields, "pause", Pause, "")),
    "look": _look,
    "identify": _identify,
    "incident": _incident,
    "tell-time": lambda fields: c.TellTime(_typed(fields, "run", parse_duration_s)),
    "abandon": lambda fields: c.Abandon(_text(fields, "why")),
    "resume": lambda fields: c.Resume(),  # noqa: ARG005 (all readers are called alike)
}


def facts_of_body(body: Any) -> tuple[Fact, ...]:
    """Facts that a device hands over.

    Parameters
    ----------
    body : any
        ``{"device": …, "facts": [{"number", "kind", "version", "at_utc", "boot_s", "boot_id", "data"}, …]}`` as
        JSON gives it.

    Raises
    ------
    WetsideError
        Naming the fact and its field; nothing of it is taken.
    """
    if not isinstance(body, dict) or set(body) != {"device", "facts"} or not isinstance(body["facts"], list):
        raise InputError("services.runs.body", place=Place(field="facts"))
    given = body["facts"]
    if not 1 <= len(given) <= MOST_FACTS:
        raise OutOfRangeError("services.runs.count", place=Place(field="facts"), count=len(given), most=MOST_FACTS)
    return tuple(_fact(body["device"], one, rank) for rank, one in enumerate(given, start=1))


def _fact(device: Any, given: Any, rank: int) -> Fact:
    where = f"facts[{rank}]"
    if not isinstance(given, dict) or set(given) != FACT_KEYS:
        raise InputError("services.runs.fact_keys", place=Place(field=where), keys=sorted(FACT_KEYS))
    try:
        at_utc = dt.datetime.fromisoformat(given["at_utc"])
        return Fact(
            kind=given["kind"],
            version=given["version"],
            at_utc=at_utc,
            boot_s=given["boot_s"],
            boot_id=given["boot_id"],
            device=device,
            device_number=given["number"],
            data=given["data"],
        )
    except WetsideError as error:
        error.place = Place(field=f"{where}.{error.params.get('field', 'boot_s')}")
        raise
    except (TypeError, ValueError, OverflowError) as error:
        raise InputError("services.runs.moment", place=Place(field=f"{where}.at_utc")) from error
