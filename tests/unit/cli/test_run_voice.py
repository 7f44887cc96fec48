"""Voice in a terminal: one clip after the other, never waited for; a bell where there is no voice or player."""

from __future__ import annotations

import datetime as dt
import stat
import time
from typing import TYPE_CHECKING

import pytest

from wetside.adapters import player as players
from wetside.adapters.player import Player, player_here
from wetside.adapters.speech import voice_here
from wetside.cli import run_voice
from wetside.cli.run_voice import RunVoice, name_of
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
from wetside.runs.cues import cues_between
from wetside.runs.event_log import MemoryLog
from wetside.runs.from_plan import quick_script
from wetside.runs.moment import Moment
from wetside.services.run_rules import cue_sentences

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.runs.state import State


def until(held, within_s: float = 60.0) -> None:
    end = time.monotonic() + within_s
    while not held():
        assert time.monotonic() < end
        time.sleep(0.02)


@pytest.fixture
def state() -> State:
    conduct = Conduct(MemoryLog(), "run", "terminal")
    now = Moment(dt.datetime(2031, 11, 4, 20, 0, tzinfo=dt.UTC), 1000.0, "boot")
    conduct.do(c.Open(quick_script("Tolland 100", "Brackwater", 480.0)), now)
    return conduct.state()


@pytest.fixture
def played(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A player that writes down what it plays, for a third of a second each."""
    told, program = tmp_path / "played", tmp_path / "player"
    program.write_text(f'#!/bin/sh\necho "begin $1" >> {told}\nsleep 0.3\necho "end $1" >> {told}\n', encoding="utf-8")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    told.touch()
    monkeypatch.setattr(players, "PLAYERS", ((str(program),),))
    return told


def test_clips_follow_one_another_and_nobody_waits(played: Path, tmp_path: Path) -> None:
    """What has begun is heard to its end; of many that wait only the latest are told."""
    words = player_here()
    assert words is not None
    player = Player(words)
    begun = time.monotonic()
    for name in "abcd":
        player.play(tmp_path / name)
    assert time.monotonic() - begun < 0.25

    def ended() -> bool:
        player.look()
        return played.read_text(encoding="utf-8").count("end") == 3

    until(ended)
    lines = [line.split("/")[-1] for line in played.read_text(encoding="utf-8").splitlines()]
    assert lines == ["a", "a", "c", "c", "d", "d"]


def test_a_player_that_fails_is_not_asked_again(tmp_path: Path) -> None:
    """No device, or no such program: the bell serves from then on."""
    gone = Player((str(tmp_path / "nothing"),))
    gone.play(tmp_path / "a")
    assert not gone.works
    failing = Player(("false",))
    failing.play(tmp_path / "a")

    def noticed() -> bool:
        failing.look()
        return not failing.works

    until(noticed)


@pytest.mark.skipif(voice_here() is None, reason="no voice is installed")
def test_every_cue_of_a_run_has_its_clip(
    state: State, played: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rendered beside the run; until then, and for a sentence with a time of its own, the bell rings."""
    monkeypatch.setenv("WETSIDE_DATA", str(tmp_path / "none"))
    cues = cues_between(state, 0.0, 3600.0)
    timed = set(cue_sentences(state))
    assert {name_of(cue) for cue in cues if cue.kind.value != "repeat"} <= timed
    voice = RunVoice(state)
    first = next(cue for cue in cues if name_of(cue) in timed)
    until(lambda: voice.say(first))
    until(lambda: "end" in played.read_text(encoding="utf-8"))
    assert played.read_text(encoding="utf-8").rstrip().endswith(".wav")
    assert not (tmp_path / "none").exists(), "no data folder is made by a run in a terminal"


def test_without_player_or_at_speed_the_bell_rings(state: State, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is rendered, nothing started."""
    cue = cues_between(state, 0.0, 3600.0)[0]
    monkeypatch.setattr(run_voice, "player_here", lambda: None)
    assert not RunVoice(state).say(cue)
    monkeypatch.setattr(run_voice, "player_here", lambda: ("false",))
    assert not RunVoice(state, speed=60.0).say(cue)
