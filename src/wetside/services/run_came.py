"""What came of a run, in sentences: in density first, then what went wrong, then what is still to be settled."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.names import clean
from wetside.runs.cues import act_params
from wetside.runs.effects import sheet_effects
from wetside.services.run_terminal import say
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from wetside.runs.schedule import Schedule
    from wetside.runs.state import State


def came_of(state: State, schedule: Schedule, *, contested: bool = True) -> list[str]:
    """Say what the run did to its sheets, for the terminal and for the page alike.

    Parameters
    ----------
    state : State
    schedule : Schedule
        Of the moment for which it is told.
    contested : bool
        Whether to name what was told differently; the page asks about that by itself.
    """
    alike: dict[str, list[str]] = {}
    assumed: list[str] = []
    for effect in sheet_effects(state, schedule):
        params = {
            "sheet": "{sheet}",
            "density": effect.density,
            "percent": effect.percent,
            "actual_s": effect.actual_s,
            "planned_s": effect.planned_s,
        }
        told = sentence(f"cli.run.effect_{effect.told}", params)
        name = effect.sheet or (state.script.name if state.script is not None else "")
        alike.setdefault(told, []).append(name)
        assumed += effect.assumed
    lines = [told.replace("{sheet}", _named(names)) for told, names in alike.items()]
    if assumed:
        lines.append(sentence("cli.run.assumed", {"acts": _acts(schedule, assumed)}))
    for incident in state.incidents:
        noted = {
            "at_s": incident.began_s,
            "what": sentence(f"cli.run.incident_{incident.what.value}", {}),
            "words": f" ({incident.text})" if incident.text else "",
        }
        named = {"sheets": _named(list(incident.sheets))} if incident.sheets else {}
        lines.append(sentence("cli.run.noted_of" if named else "cli.run.noted", noted | named))
    if contested:
        lines += [
            sentence("cli.run.contested", {"kind": one.kind, "why": sentence(one.code, {})}) for one in state.contested
        ]
    return lines


def _named(names: list[str]) -> str:
    """All names, because each sheet has its own story; whole numbers in a row as a span."""
    numbers = [int(name) for name in names if name.isdecimal() and len(name) < 6]
    if len(numbers) == len(names) > 2 and numbers == list(range(numbers[0], numbers[0] + len(numbers))):
        return sentence("cards.plan.span", {"first": numbers[0], "last": numbers[-1]})
    return shown([clean(name) for name in names], "list")


def _acts(schedule: Schedule, keys: list[str]) -> list[str]:
    """Acts in words, each once; what is not in this run's schedule any more by its key."""
    known = {due.act.key: due for due in schedule.dues}
    found = [
        say(f"web.runs.act_{due.act.does}", act_params(due, schedule)) if (due := known.get(key)) is not None else key
        for key in dict.fromkeys(keys)
    ]
    return [f"{text[:1].lower()}{text[1:]}" for text in found]
