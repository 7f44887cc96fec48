"""A load's loading order as one sound: spoken instructions with pauses for the hands; or why there is none."""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.sound_file import JoinedSound
from wetside.adapters.speech import clip_of, voice_here
from wetside.cards.count import counted
from wetside.errors import OutOfRangeError, Place, RefusedError
from wetside.services.records.loading import said_of_place
from wetside.services.run_clips import AT_ONCE, FOLDER
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from wetside.adapters.speech import Clip
    from wetside.services.records.loading import LoadingOrder

PAUSE_S, SHORTEST_S, LONGEST_S = 20.0, 5.0, 90.0
"""Pause for the hands after each sheet, and its limits. Our choice. [s]"""
FIRST_S = 12.0
"""Until the first sheet: the light goes out and the headset's button is found. Our choice. [s]"""
BREATH_S = 0.6
WITHIN_S = 30.0
"""All clips are rendered within this, or the order is not spoken. Our choice. [s]"""


class LoadingSound(NamedTuple):
    """The sound, and when each place is told in it. [s]"""

    sound: JoinedSound
    places_s: tuple[float, ...]


def pause_of(text: str) -> float:
    """Pause for the hands, as typed. [s]

    Raises
    ------
    OutOfRangeError
        If it is no whole number of seconds within the limits.
    """
    pause_s = float(text) if text.isascii() and text.isdecimal() and len(text) < 4 else 0.0
    if not SHORTEST_S <= pause_s <= LONGEST_S:
        raise OutOfRangeError(
            "services.loading.pause", place=Place(field="pause"), value=text[:20], low_s=SHORTEST_S, high_s=LONGEST_S
        )
    return pause_s


def loading_sound(order: LoadingOrder, folder: Path, pause_s: float = PAUSE_S) -> LoadingSound:
    """Loading order as a sound.

    Parameters
    ----------
    order : LoadingOrder
    folder : Path
        The data folder; clips lie in a folder of their own there.
    pause_s : float
        For the hands, after each sheet. [s]

    Raises
    ------
    RefusedError
        If nothing is to be loaded, no voice is installed, or the clips cannot be had in time.
    """
    places = order.left
    if not places:
        raise RefusedError("services.loading.nothing")
    many = counted("sheet", len(places))
    first = sentence("run_sound.loading.first", {"sheets": many})
    last = sentence("run_sound.loading.last", {"sheets": many})
    told = [said_of_place(place) for place in places]
    clips = rendered({first, last, *told}, folder)
    path = {text: folder / FOLDER / f"{clip.name}.wav" for text, clip in clips.items()}
    if len(path) < len({first, last, *told}):
        raise RefusedError("services.loading.failed")
    pieces: list[Path | float] = [BREATH_S, path[first], FIRST_S]
    at = []
    for text in told:
        at.append(len(pieces))
        # Said again when half of the pause is over: nobody can look up what was missed.
        pieces += [path[text], pause_s / 2, path[text], pause_s / 2]
    pieces += [path[last], BREATH_S]
    sound = JoinedSound(pieces)
    return LoadingSound(sound, tuple(sound.begins_s[number] for number in at))


def rendered(texts: Iterable[str], folder: Path, within_s: float = WITHIN_S) -> dict[str, Clip]:
    """Clips of sentences, those that could be rendered in time. [s]

    Raises
    ------
    RefusedError
        If no voice is installed where the program runs.
    """
    voice = voice_here()
    if voice is None:
        raise RefusedError("services.loading.no_voice")
    until = time.monotonic() + within_s

    def clip(text: str) -> Clip | None:
        return clip_of(text, folder / FOLDER, voice) if time.monotonic() < until else None

    wanted = sorted(set(texts))
    with ThreadPoolExecutor(AT_ONCE) as workers:
        made = list(workers.map(clip, wanted))
    return {text: one for text, one in zip(wanted, made, strict=True) if one is not None}
