"""Words of a run's rules: one for every act and cue, none a bare code, times left open for the page."""

from __future__ import annotations

import json
import re

import pytest
from tests.fixtures.run_rules_sample import STORIES
from tests.fixtures.run_sample import FIRST, desk, planned, quick

from wetside.runs import commands as c
from wetside.runs.cues import cues_between
from wetside.runs.script import Pause
from wetside.services.run_rules import cue_sentences, run_rules

BARE = re.compile(r"\b(runs|run_page)\.\w+|\{(?!in\}|what\}|count\}|why\}|s\}|density\}|bath\}|low\}|high\}|sheet\})")


def said(value: object) -> list[str]:
    if isinstance(value, str):
        return [value]
    return [text for one in value.values() for text in said(one)] if isinstance(value, dict) else []


@pytest.mark.parametrize("story", STORIES)
def test_every_act_of_every_story_has_its_words(story: str) -> None:
    state = {"presoak": planned(), "lost-sheet": planned(guided=True)}.get(story, planned(dark=False))
    rules = run_rules(desk(state).conduct.state(), FIRST.at(1.0))
    assert set(rules["words"]["acts"]) == {act["key"] for act in rules["acts"]}
    for key, words in rules["words"]["acts"].items():
        assert words["head"], key
        assert words["tell"], key
    for text in said(rules["words"]):
        assert not BARE.search(text), text
    assert json.loads(json.dumps(rules, allow_nan=False)) == rules


def test_every_cue_of_a_run_has_a_sentence_and_a_clip_name() -> None:
    state = desk(planned(dark=False), retired=tuple(Pause)).conduct.state()
    words = run_rules(state, FIRST.at(0.0))["words"]["acts"]
    clips = cue_sentences(state)
    for cue in cues_between(state, 0.0, 4000.0):
        name = cue.kind.value if cue.kind.value != "count" else f"count-{cue.params['in_s']:.0f}"
        assert words[cue.act]["cues"][name], cue
        if cue.kind.value != "repeat":
            assert clips[f"{cue.act}-{name}"] == words[cue.act]["cues"][name]


def test_the_drain_of_the_developer_announces_the_stop_and_its_bottle() -> None:
    words = run_rules(desk(planned()).conduct.state(), FIRST.at(0.0))["words"]["acts"]
    assert words["2.drain"]["head"] == "Drain the developer"
    assert words["2.drain"]["then"] == "then the stop, bottle S: is it in your hand?"
    assert words["3.pour"]["mark"] == "stop in"
    assert words["3.full"]["tell"] == "the stop is in"
    assert words["2.full"]["early"] == "The developer is in? That is {in} early. Tell it again within 10 s if it is so."


def test_units_and_lost_sheets_are_said() -> None:
    run = desk(planned(guided=True))
    run.do(1.0, c.Lose(place=1))
    rules = run_rules(run.conduct.state(), FIRST.at(2.0), 2, us=True, comma=True, clips={"2.drain-now": 1.5})
    assert rules["shown"] == {"us": True, "comma": True}
    assert rules["clips"] == {"2.drain-now": 1.5}
    assert "dark.load.1" not in rules["words"]["acts"]
    assert rules["words"]["acts"]["dark.load.2"]["head"] == "Load 2 left"
    assert run_rules(desk(quick()).conduct.state(), FIRST.at(0.0))["words"]["acts"]["1.pour"]["then"] == ""
