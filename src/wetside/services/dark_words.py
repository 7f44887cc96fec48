"""What a device says while it is black: what comes next, what was taken, what a lost sheet changes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.cards.count import counted
from wetside.cards.names import short
from wetside.errors import RefusedError
from wetside.runs.load_check import load_check
from wetside.runs.script import LIGHTS_ON, LIGHTS_OUT
from wetside.services.loading_sound import rendered
from wetside.services.records.loading import said_of_place
from wetside.wording import known_codes, sentence, shown

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from wetside.adapters.speech import Clip
    from wetside.runs.state import State
    from wetside.services.records.loading import LoadingOrder

DARK = "run_sound.dark."
SPOKEN_OF_PAGE = ("repeat", "nothing", "nothing_told", "clock", "cannot_be", "alone", "slept", "reloaded", "doubtful")
"""Sentences of the run's page that are heard while it is black."""


class DarkWords(NamedTuple):
    """Sentences by what they are for: by act, by lost sheet, by name; and the clips by sentence."""

    next: dict[str, str]
    lost: dict[str, str]
    said: dict[str, str]
    clips: dict[str, Clip]
    voice: bool


def dark_words(state: State, order: LoadingOrder, page: Mapping[str, Any], folder: Path) -> DarkWords:
    """All that may be heard while a run's device is black, rendered.

    Parameters
    ----------
    state : State
        Of a run.
    order : LoadingOrder
    page : mapping
        The ``words`` of the run's rules.
    folder : Path
        The data folder.

    Returns
    -------
    words : DarkWords
        Empty where the run was never opened.
    """
    if state.script is None:
        return DarkWords({}, {}, {}, {}, voice=False)
    left = counted("sheet", len(state.sheets)) if state.script.sheets else sentence(f"{DARK}your_sheets", {})
    acts = [act for act in state.script.acts if act.does in ("hold", "load")]
    places = {one.sheet: one for one in order.places}
    coming = {
        LIGHTS_OUT: sentence(f"{DARK}lights_out", {"sheets": left}),
        LIGHTS_ON: sentence(f"{DARK}lights_on", {}),
    }
    coming |= {
        act.key: said_of_place(places[act.sheet])
        if act.sheet in places
        else sentence(f"{DARK}load", {"sheet": short(act.sheet or "")})
        for act in acts
        if act.does == "load"
    }
    lost = {name: lost_sentence(state, name) for name in state.sheets}
    said = {code.removeprefix(DARK): sentence(code, {}) for code in known_codes("run_sound") if _is_plain(code)}
    said["lost_offline"] = sentence(f"{DARK}lost_offline", {})
    heard = {*coming.values(), *lost.values(), *said.values(), *(page["page"][name] for name in SPOKEN_OF_PAGE)}
    for words in page["acts"].values():
        heard |= {words["taken"], words["taken_back"]}
    try:
        clips, voice = rendered({text for text in heard if text and "{in}" not in text}, folder), True
    except RefusedError:
        clips, voice = {}, False
    return DarkWords(coming, lost, said, clips, voice)


def _is_plain(code: str) -> bool:
    return code.startswith(f"{DARK}said_")


def lost_sentence(state: State, sheet: str) -> str:
    """What is told when a sheet is lost: how many are left, whether the liquid wets them, and the agent. [ml]"""
    check = load_check(state._replace(lost=(*state.lost, sheet)))
    parts = [sentence(f"{DARK}lost", {"sheet": short(sheet), "left": counted("sheet", check.left)})]
    if check.left and check.wetting_ml > 0.0:
        volumes = {"volume": shown(check.volume_ml, "ml"), "wetting": shown(check.wetting_ml, "ml")}
        parts.append(sentence(f"{DARK}{'wets' if check.wets else 'too_little'}", volumes))
    if check.agent_ratio is not None:
        parts.append(sentence(f"{DARK}agent", {"ratio": check.agent_ratio}))
    return " ".join(parts)
