"""Spoken clips: a sentence in, a WAV out, by a program of its own; the same sentence is rendered once.

Debian's ``espeak-ng`` where it is installed, else the wheel of the extra ``voice``, loaded in a process of its own.
Without either there are no clips, and whoever asks is told so: tones need none.
"""

from __future__ import annotations

import hashlib
import importlib.util
import shutil
import subprocess
import sys
import tempfile
import wave
from enum import StrEnum
from pathlib import Path
from typing import NamedTuple

from wetside.adapters.whole_file import write_whole

LANGUAGE = "en"
WORDS_A_MINUTE = 155
"""Slower than the program's own pace: a tap runs beside it. Our choice. [1/min]"""
LONGEST = 300
"""Letters of a sentence that is spoken. Our choice."""
PATIENCE_S = 10.0
LONGEST_CLIP_S = 30.0


class Voice(StrEnum):
    """What renders clips here."""

    PROGRAM = "espeak-ng"
    WHEEL = "wheel"


class Clip(NamedTuple):
    """A rendered sentence: the name of its file, and how long it lasts. [s]"""

    name: str
    lasts_s: float


def voice_here() -> Voice | None:
    """Voice of this machine, or None."""
    if shutil.which("espeak-ng"):
        return Voice.PROGRAM
    return Voice.WHEEL if importlib.util.find_spec("espeakng_loader") is not None else None


def clip_of(text: str, folder: Path, voice: Voice, language: str = LANGUAGE) -> Clip | None:
    """Clip of a sentence, from the folder or rendered into it.

    Parameters
    ----------
    text : str
        Signs that are not printed are left out; cut after :data:`LONGEST` letters.
    folder : Path
        Made if it does not exist.
    voice : Voice
    language : str
        Such as ``en``.

    Returns
    -------
    clip : Clip or None
        None where the voice failed: a run goes on with tones.
    """
    said = "".join(sign if sign.isprintable() else " " for sign in text)[:LONGEST].strip()
    if not said:
        return None
    key = hashlib.sha256(f"{voice}|{language}|{WORDS_A_MINUTE}|{said}".encode()).hexdigest()
    path = folder / f"{key}.wav"
    if not path.is_file():
        try:
            folder.mkdir(parents=True, exist_ok=True)
            made = _rendered(said, voice, language)
            if made is None:
                return None
            write_whole(path, made)
        except (OSError, subprocess.SubprocessError):
            return None
    lasts_s = length_s(path)
    return None if lasts_s is None else Clip(key, lasts_s)


def length_s(path: Path) -> float | None:
    """How long a WAV lasts [s]; None where it is none, or longer than any sentence."""
    try:
        with wave.open(str(path), "rb") as sound:
            lasts_s = sound.getnframes() / sound.getframerate()
    except (OSError, EOFError, wave.Error, ZeroDivisionError):
        return None
    return lasts_s if 0.0 < lasts_s <= LONGEST_CLIP_S else None


def _rendered(said: str, voice: Voice, language: str) -> bytes | None:
    """WAV of a sentence; the text goes in by standard input, so that none of it is taken for an option."""
    with tempfile.TemporaryDirectory() as made:
        out = Path(made) / "said.wav"
        if voice is Voice.PROGRAM:
            words = ["espeak-ng", "-v", language, "-s", str(WORDS_A_MINUTE), "--stdin", "-w", str(out)]
        else:
            words = [sys.executable, "-m", "wetside.adapters.speech_wheel", str(out), language, str(WORDS_A_MINUTE)]
        done = subprocess.run(  # noqa: S603 (all words are ours)
            words, input=said.encode(), capture_output=True, check=False, timeout=PATIENCE_S
        )
        if done.returncode or length_s(out) is None:
            return None
        return out.read_bytes()
