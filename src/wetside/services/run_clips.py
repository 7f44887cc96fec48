"""The spoken sentences of a run, rendered before it starts, so that nothing of it is discovered in its midst."""

from __future__ import annotations

import re
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.speech import clip_of, voice_here
from wetside.errors import UnknownNameError
from wetside.services.run_rules import cue_sentences
from wetside.wording import sentence

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.adapters.speech import Clip, Voice
    from wetside.runs.state import State

FOLDER = "clips"
TRY_OUT = "try-out"
"""Name of the sentence that is heard when the sound is tried."""
AT_ONCE = 2
"""Sentences that are rendered at the same time. Our choice. [1]"""
_NAME = re.compile(r"[0-9a-f]{64}")


class RunClips(NamedTuple):
    """What speaks here, the clips by the names of their cues, and how many sentences have none."""

    voice: Voice | None
    clips: dict[str, Clip]
    missing: int


def clips_of_run(state: State, folder: Path) -> RunClips:
    """Clips of all timed sentences of a run.

    Parameters
    ----------
    state : State
    folder : Path
        The data folder; clips lie in a folder of their own there, and can be thrown away at any time.
    """
    voice = voice_here()
    sentences = {TRY_OUT: sentence("services.clips.try_out", {}), **cue_sentences(state)}
    if voice is None:
        return RunClips(None, {}, len(sentences))
    texts = sorted(set(sentences.values()))
    with ThreadPoolExecutor(AT_ONCE) as workers:
        made = dict(zip(texts, workers.map(lambda text: clip_of(text, folder / FOLDER, voice), texts), strict=True))
    found = {name: clip for name, text in sentences.items() if (clip := made[text]) is not None}
    return RunClips(voice, found, len(sentences) - len(found))


def clip_path(folder: Path, name: str) -> Path:
    """File of a clip.

    Raises
    ------
    UnknownNameError
        If there is no such clip.
    """
    path = folder / FOLDER / f"{name}.wav"
    if not _NAME.fullmatch(name) or not path.is_file():
        raise UnknownNameError("services.clips.none", value=name)
    return path
