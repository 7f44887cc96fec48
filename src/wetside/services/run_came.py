"""What came of a run, in sentences: in density first, then what went wrong, then what is still to be settled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.runs.effects import sheet_effects
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.runs.schedule import Schedule
    from wetside.runs.state import State


def came_of(state: State, schedule: Schedule) -> list[str]:
    """Say what the run did to its sheets, for the terminal and for the page alike.

    Parameters
    ----------
    state : State
    schedule : Schedule
        Of the moment for which it is told.
    """
    lines, assumed = [], {}
    for effect in sheet_effects(state, schedule):
        params = {
            "sheet": effect.sheet or (state.script.name if state.script is not None else ""),
            "density": effect.density,
            "percent": effect.percent,
            "actual_s": effect.actual_s,
            "planned_s": effect.planned_s,
        }
        lines.append(sentence("cli.run.effect" if effect.density is not None else "cli.run.effect_time", params))
        if effect.assumed:
            assumed[tuple(effect.assumed)] = sentence("cli.run.assumed", {"acts": effect.assumed})
    lines += assumed.values()  # the same acts are assumed for many sheets, and told once
    for incident in state.incidents:
        told = {
            "at_s": incident.began_s,
            "what": sentence(f"cli.run.incident_{incident.what.value}", {}),
            "words": f" ({incident.text})" if incident.text else "",
        }
        lines.append(sentence("cli.run.noted", told))
    lines += [
        sentence("cli.run.contested", {"kind": one.kind, "why": sentence(one.code, {})}) for one in state.contested
    ]
    return lines
