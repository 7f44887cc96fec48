"""A run's rules as plain data: all that a page needs to count, cue, and take answers on while nobody answers it.

The page adds, compares and looks up; it derives nothing that is not said here. Readings of temperature move no end
without the server, so no coefficient is given away.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.errors import RefusedError
from wetside.runs import bath_limits, cues, decide, expected, schedule
from wetside.runs.script import (
    HANG,
    LIGHTS_ON,
    LIGHTS_OUT,
    START,
    bath_number,
    developing_baths,
    is_awaited,
    pause_points,
)

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Act
    from wetside.runs.moment import Moment
    from wetside.runs.script import Script
    from wetside.runs.state import State

RULES_FORMAT = 1
"""Raised whenever a page of an earlier form could misread the data. [1]"""


def rules_of(state: State, now: Moment, seq: int = 0) -> dict[str, Any]:
    """Rules of a run at a moment.

    Parameters
    ----------
    state : State
        Of a run that was opened.
    now : Moment
        Of the machine that answers: it ties the reader's clock to the run's.
    seq : int
        Place in the run's log up to which ``state`` was folded. [1]

    Returns
    -------
    rules : dict
        Plain JSON values, as ``docs/formats/run-rules.md`` lists them; times in seconds on the run's clock.

    Raises
    ------
    RefusedError
        If the run was never opened.
    """
    script, clock = state.script, state.clock
    if script is None or clock is None:
        raise RefusedError("runs.refused.not_opened")
    when = clock.at(now, state.known_s)
    points = pause_points(script)
    return {
        "format": RULES_FORMAT,
        "seq": seq,
        "name": script.name,
        "developer": script.developer,
        "rehearsal": state.rehearsal,
        "status": state.status.value,
        "names": {"start": START, "lights_out": LIGHTS_OUT, "lights_on": LIGHTS_ON, "hang": HANG},
        "acts": [_act(act) for act in script.acts],
        "developing": list(developing_baths(script)),
        "pauses": {pause.value: {"act": key, "retired": pause in state.retired} for pause, key in points.items()},
        "sheets": [
            {"id": sheet.id, "film": sheet.film, "place": place} for place, sheet in enumerate(script.sheets, 1)
        ],
        "lost": list(state.lost),
        "stamps": {
            key: {
                "at_s": stamp.at_s,
                "by": stamp.by.value,
                "device": stamp.name[0],
                "number": stamp.name[1],
                "insisted": stamp.insisted,
            }
            for key, stamp in state.stamps.items()
        },
        "shifts": {
            key: {"shift_s": shift.shift_s, "why": shift.why.value, "density": shift.density, "at_s": shift.at_s}
            for key, shift in state.shifts.items()
        },
        "readings": [{"at_s": one.at_s, "temp_c": one.temp_c, "where": one.where.value} for one in state.readings],
        "reading": _reading(script),
        "doubt": None if state.doubt is None else {"act": state.doubt[0], "at_s": state.doubt[1]},
        "told_s": state.told_s,
        "known_s": state.known_s,
        "contested": len(state.contested),
        "clock": {
            "origin_utc": clock.origin.at_utc.isoformat(),
            "at_utc": now.at_utc.isoformat(),
            "run_s": when.s,
            "by": when.by.value,
            "doubtful": when.doubtful or state.doubtful,
        },
        "constants": constants(),
    }


def constants() -> dict[str, Any]:
    """Limits that the page's reckoning shares with the core's. [s], [1]"""
    return {
        "prompt_s": cues.PROMPT_S,
        "counts_s": list(cues.COUNTS_S),
        "repeats_s": list(cues.REPEATS_S),
        "repeat_every_s": cues.REPEAT_EVERY_S,
        "most_repeats": cues.MOST_REPEATS,
        "spoken": sorted(cues.SPOKEN),
        "near_s": expected.NEAR_S,
        "early_s": expected.EARLY_S,
        "early_share": expected.EARLY_SHARE,
        "repeat_s": decide.REPEAT_S,
        "twice_s": decide.TWICE_S,
        "coldest_c": bath_limits.COLDEST_C,
        "hottest_c": bath_limits.HOTTEST_C,
        "most_looked_s": decide.MOST_LOOKED_S,
        "how": [how.value for how in schedule.How],
    }


def _act(act: Act) -> dict[str, Any]:
    return {
        "key": act.key,
        "does": act.does,
        "bath": act.bath,
        "kind": act.kind,
        "bottle": act.bottle or "",
        "volume_ml": act.volume_ml,
        "duration_s": act.duration_s,
        "anchor": act.anchor,
        "offset_s": act.offset_s,
        "sheet": act.sheet,
        "number": bath_number(act.key),
        "awaited": is_awaited(act),
    }


def _reading(script: Script) -> dict[str, Any]:
    """What the page needs to take a reading down: the instrument, and whether a reading can mean anything."""
    return {
        "thermometer": script.thermometer,
        "reads_high_c": script.reads_high_c,
        "planned_c": script.temp_c,
        "corrected": script.per_c is not None,
    }
