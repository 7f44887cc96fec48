"""Spoken cues in a terminal, where a voice and a player are installed; rendered beside the run, which never waits."""

from __future__ import annotations

import os
import tempfile
import threading
from pathlib import Path
from typing import TYPE_CHECKING

from wetside.adapters.data_folder import data_folder
from wetside.adapters.player import Player, player_here
from wetside.runs.cues import CueKind

if TYPE_CHECKING:
    from wetside.runs.cues import Cue
    from wetside.runs.state import State


class RunVoice:
    """Voice of a run.

    Parameters
    ----------
    state : State
        Of a run that was opened: its sentences are rendered by a thread of their own.
    speed : float
        Of the run's clock; at any but 1 nothing is spoken, because words do not go faster. [1]
    """

    def __init__(self, state: State, speed: float = 1.0) -> None:
        words = player_here() if speed == 1.0 else None
        self._player = None if words is None else Player(words)
        self._clips: dict[str, Path] = {}
        self._own: tempfile.TemporaryDirectory[str] | None = None
        if self._player is not None:
            threading.Thread(target=self._render, args=(state,), daemon=True).start()

    def say(self, cue: Cue) -> bool:
        """Begin to speak a cue; whether it will be heard, or a bell is needed."""
        if self._player is None or not self._player.works:
            return False
        path = self._clips.get(name_of(cue))
        if path is None:
            return False
        self._player.play(path)
        return self._player.works

    def look(self) -> None:
        """Go on with what waits; to be called often."""
        if self._player is not None:
            self._player.look()

    def close(self) -> None:
        """Begin nothing more."""
        if self._player is not None:
            self._player.close()

    def _render(self, state: State) -> None:
        from wetside.services.run_clips import FOLDER, clips_of_run

        folder = data_folder(os.environ)
        try:
            if not folder.is_dir():
                self._own = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
                folder = Path(self._own.name)
            found = clips_of_run(state, folder)
        except OSError:
            return  # no room, or no right to write: the bell serves
        self._clips = {name: folder / FOLDER / f"{clip.name}.wav" for name, clip in found.clips.items()}


def name_of(cue: Cue) -> str:
    """Name of a cue's clip."""
    name = f"{cue.act}-{cue.kind.value}"
    return f"{name}-{cue.params['in_s']:.0f}" if cue.kind is CueKind.COUNT else name
