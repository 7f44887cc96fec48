"""A script as plain values, and back."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from wetside.errors import OutOfRangeError, UnreadableError
from wetside.planning.documents.plan import Act
from wetside.runs.script import HANG, START, RunSheet, Script, bath_number, developing_baths
from wetside.values.conditions import ClockRule, StopKind

if TYPE_CHECKING:
    from collections.abc import Mapping

SCRIPT_FORMAT = 1
MOST_ACTS = 2000
"""Our choice: fifty sheets of their own time, entering, lifted and fifty times moved. [acts]"""
DOES = frozenset({"hold", "load", "pour", "full", "move", "agitate", "inspect", "enter", "lift", "drain", "hang"})
"""What hands do in a run."""


def data_of_script(script: Script) -> dict[str, Any]:
    """Plain values of a script. What an act does not say is left out."""
    data = script._asdict()
    data["clock"], data["stop"] = script.clock.value, script.stop.value
    data["span_c"] = None if script.span_c is None else list(script.span_c)
    data["sheets"] = [sheet._asdict() for sheet in script.sheets]
    data["acts"] = [{key: value for key, value in act._asdict().items() if value is not None} for act in script.acts]
    return {"format": SCRIPT_FORMAT, **data}


def script_of_data(data: Mapping[str, Any]) -> Script:
    """Script of its plain values.

    Raises
    ------
    InputError
        If it is of another format, or its acts do not follow from each other.
    """
    if data.get("format") != SCRIPT_FORMAT:
        raise OutOfRangeError("runs.script.format", value=data.get("format"), known=SCRIPT_FORMAT)
    try:
        values = {key: value for key, value in data.items() if key != "format"}
        values["clock"], values["stop"] = ClockRule(values["clock"]), StopKind(values["stop"])
        span = values.get("span_c")
        values["span_c"] = None if span is None else (float(span[0]), float(span[1]))
        values["sheets"] = tuple(RunSheet(**sheet) for sheet in values.get("sheets", ()))
        values["acts"] = tuple(Act(**act) for act in values["acts"])
        script = Script(**values)
    except (TypeError, ValueError, KeyError, IndexError, AttributeError) as error:
        raise UnreadableError("runs.script.unreadable", reason=str(error)) from error
    require_sound(script)
    return script


def require_sound(script: Script) -> None:
    """Refuse a script that no run can follow.

    Raises
    ------
    InputError
        If a key stands twice, an anchor is no earlier act, an offset or time is no time, a word is unknown, or nothing
        develops.
    """
    seen = {START}
    if not 0 < len(script.acts) <= MOST_ACTS:
        raise OutOfRangeError("runs.script.acts", count=len(script.acts), most=MOST_ACTS)
    for act in script.acts:
        if not all(isinstance(text, str) for text in (act.key, act.anchor, act.does)):
            raise UnreadableError("runs.script.act_order", act=str(act.key), anchor=str(act.anchor))
        numbers = [act.offset_s, *(value for value in (act.duration_s, act.volume_ml) if value is not None)]
        if not all(isinstance(value, int | float) and math.isfinite(value) and value >= 0 for value in numbers):
            raise OutOfRangeError("runs.script.act_time", act=act.key)
        if act.key in seen or act.anchor not in seen or act.does not in DOES:
            raise UnreadableError("runs.script.act_order", act=act.key, anchor=act.anchor)
        seen.add(act.key)
    if not developing_baths(script) or script.acts[-1].key != HANG:
        raise UnreadableError("runs.script.no_developer")
    if [bath_number(act.key) for act in script.acts] != sorted(bath_number(act.key) for act in script.acts):
        raise UnreadableError("runs.script.bath_order")
    if not (math.isfinite(script.time_s) and script.time_s > 0):
        raise OutOfRangeError("runs.script.time_impossible", value=script.time_s)
