"""Clips played by a program of the system, one after the other, while the caller goes on."""

from __future__ import annotations

import shutil
import subprocess
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

PLAYERS = (("aplay", "-q"), ("paplay",), ("pw-play",))
"""Programs that play a WAV and end, with their words; the first that is installed is taken."""
MOST_WAITING = 2
"""Clips that wait for one to end; more would be heard too late to be true. Our choice."""


def player_here() -> tuple[str, ...] | None:
    """Words that start a player, or None."""
    return next((words for words in PLAYERS if shutil.which(words[0])), None)


class Player:
    """Plays clips without ever waiting for them; what has begun is heard to its end.

    Parameters
    ----------
    words : tuple of str
        As :func:`player_here` gives them.
    """

    def __init__(self, words: tuple[str, ...]) -> None:
        self._words = words
        self._playing: subprocess.Popen[bytes] | None = None
        self._waiting: list[Path] = []
        self.works = True
        """False once the player could not be started, or failed: whoever asks rings a bell instead."""

    def play(self, path: Path) -> None:
        """Play a clip as soon as the one before has ended; the oldest that waits gives way."""
        self._waiting = [*self._waiting, path][-MOST_WAITING:]
        self.look()

    def look(self) -> None:
        """See whether a clip has ended, and begin the next one; to be called often."""
        if self._playing is not None:
            ended = self._playing.poll()
            if ended is None:
                return
            self._playing = None
            self.works = self.works and ended == 0
        if not self._waiting or not self.works:
            return
        try:
            self._playing = subprocess.Popen(  # noqa: S603 (words are ours, the path is of a clip that we named)
                [*self._words, str(self._waiting.pop(0))],
                stdin=subprocess.DEVNULL,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            )
        except OSError:
            self.works = False

    def close(self) -> None:
        """Leave what is heard to end by itself; nothing more is begun."""
        self._waiting = []
