"""Spoken clips: rendered once, by a program of its own, from any text; none where there is no voice."""

from __future__ import annotations

import importlib.util
import shutil
from typing import TYPE_CHECKING

import pytest

from wetside.adapters import speech
from wetside.adapters.speech import Voice, clip_of, length_s, voice_here

if TYPE_CHECKING:
    from pathlib import Path

VOICES = [
    pytest.param(
        Voice.PROGRAM, marks=pytest.mark.skipif(not shutil.which("espeak-ng"), reason="no espeak-ng is installed")
    ),
    pytest.param(
        Voice.WHEEL,
        marks=pytest.mark.skipif(importlib.util.find_spec("espeakng_loader") is None, reason="no wheel is installed"),
    ),
]


@pytest.mark.parametrize("voice", VOICES)
def test_a_sentence_becomes_a_clip_once(tmp_path: Path, voice: Voice) -> None:
    """A WAV of a plausible length; the second time the same file, untouched."""
    clip = clip_of("Drain the developer now.", tmp_path, voice)
    assert clip is not None
    path = tmp_path / f"{clip.name}.wav"
    assert 0.6 < clip.lasts_s < 4.0
    assert length_s(path) == clip.lasts_s
    before = path.stat().st_mtime_ns
    assert clip_of("Drain the developer now.", tmp_path, voice) == clip
    assert path.stat().st_mtime_ns == before
    assert clip_of("Pour the stop now.", tmp_path, voice) != clip


@pytest.mark.parametrize("text", ["--help", "-w /etc/passwd", "$(id)", "a\0b\n\x1b[2J", "é 20.5 °C", "x" * 5000])
def test_no_text_is_an_option_or_a_command(tmp_path: Path, text: str) -> None:
    """What a person called a sheet is spoken, whatever it looks like."""
    voice = voice_here()
    if voice is None:
        pytest.skip("no voice is installed")
    assert clip_of(text, tmp_path, voice) is not None
    assert {one.suffix for one in tmp_path.iterdir()} == {".wav"}


def test_a_voice_that_fails_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No clip, no file, no error: a run goes on with tones."""
    monkeypatch.setattr(speech, "_rendered", lambda *_: None)
    assert clip_of("Pour now.", tmp_path, Voice.PROGRAM) is None
    assert list(tmp_path.iterdir()) == []
    assert clip_of("  ", tmp_path, Voice.PROGRAM) is None
