"""A run's rules as data: whole, plain, the same when they are read back, and what the fixtures of the pages say."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from tests.fixtures.run_rules_sample import STORIES, said_of
from tests.fixtures.run_sample import FIRST, desk, planned

from wetside.errors import RefusedError
from wetside.planning.documents.plan import Act
from wetside.runs import commands as c
from wetside.runs.events import Why
from wetside.runs.moment import Tie, TimeFrom
from wetside.runs.rules import RULES_FORMAT, rules_of
from wetside.runs.script import Pause, RunSheet, bath_number, is_awaited
from wetside.runs.state import Shift, Stamp, State, Status

ROOT = Path(__file__).parents[3]
FIXTURES = sorted((ROOT / "tests" / "fixtures" / "run_rules").glob("*.json"))


def read_back(rules: dict[str, Any]) -> State:
    """State that says all that the rules say, made of nothing else."""
    script = planned(dark=False)._replace(
        acts=tuple(
            Act(
                clock_s=0.0,
                changes=1 if act["awaited"] else 2,
                **{name: act[name] for name in act if name not in ("number", "awaited")},
            )
            for act in rules["acts"]
        ),
        sheets=tuple(RunSheet(sheet["id"], sheet["film"]) for sheet in rules["sheets"]),
    )
    doubt = rules["doubt"]
    return State(
        status=Status(rules["status"]),
        script=script,
        stamps={
            key: Stamp(one["at_s"], TimeFrom(one["by"]), (one["device"], one["number"]), one["insisted"])
            for key, one in rules["stamps"].items()
        },
        retired=frozenset(Pause(name) for name, pause in rules["pauses"].items() if pause["retired"]),
        lost=tuple(rules["lost"]),
        shifts={
            key: Shift(one["shift_s"], Why(one["why"]), one["density"], one["at_s"])
            for key, one in rules["shifts"].items()
        },
        doubt=None if doubt is None else (doubt["act"], doubt["at_s"]),
        told_s=rules["told_s"],
        known_s=rules["known_s"],
        doubtful=rules["clock"]["doubtful"],
    )


def test_the_fixtures_are_what_the_core_says_now() -> None:
    told = subprocess.run(
        [sys.executable, str(ROOT / "tools" / "run_rules_fixtures.py"), "--check"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert told.returncode == 0, told.stdout


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_the_rules_carry_all_that_the_core_needs(path: Path) -> None:
    """A state made from the rules alone is told the same times, cues, lines and answers."""
    checks = json.loads(path.read_text("utf-8"))["checks"]
    compared = 0
    for check in checks:
        state = read_back(check["rules"])
        for said in check["said"]:
            assert said_of(state, said["now_s"]) == said
            compared += 1
    assert compared or any(check["then"] for check in checks)


def test_every_story_has_its_file() -> None:
    assert {path.stem for path in FIXTURES} == set(STORIES)


def test_act_by_act_the_rules_say_who_is_asked() -> None:
    run = desk(planned(guided=True))
    rules = rules_of(run.conduct.state(), FIRST.at(3.5), 1)
    script = run.conduct.state().script
    assert script is not None
    assert [(act["key"], act["number"], act["awaited"]) for act in rules["acts"]] == [
        (act.key, bath_number(act.key), is_awaited(act)) for act in script.acts
    ]
    assert rules["format"] == RULES_FORMAT == 1
    assert rules["clock"] == {
        "origin_utc": "2031-11-04T20:00:00+00:00",
        "at_utc": "2031-11-04T20:00:03.500000+00:00",
        "run_s": 3.5,
        "by": "boot",
        "doubtful": False,
    }
    assert json.loads(json.dumps(rules, allow_nan=False)) == rules


def test_a_reader_whose_machine_started_anew_is_told_that_its_clock_is_in_doubt() -> None:
    run = desk(planned())
    run.tell(40.0)
    state = run.conduct.state()
    assert state.clock is not None
    wrong = state.clock._replace(ties={**state.clock.ties, "x": Tie(0.0, 5.0, TimeFrom.WALL_CLOCK, doubtful=True)})
    assert rules_of(state._replace(clock=wrong), FIRST.at(41.0)._replace(boot_id="x"))["clock"]["doubtful"]


def test_a_run_that_was_never_opened_has_no_rules() -> None:
    with pytest.raises(RefusedError) as refused:
        rules_of(State(), FIRST.at(0.0))
    assert refused.value.code == "runs.refused.not_opened"


def test_what_changes_in_the_run_changes_in_its_rules() -> None:
    run = desk(planned(dark=False))
    run.do(1.0, c.Retire(Pause.AFTER_STOP))
    run.do(2.0, c.Lose(place=2))
    rules = rules_of(run.conduct.state(), FIRST.at(3.0), 3)
    assert rules["pauses"]["after-stop"] == {"act": "3.drain", "retired": True}
    assert not rules["pauses"]["before-presoak"]["retired"]
    assert rules["lost"] == ["2 left"]
    assert (rules["seq"], rules["status"], rules["reading"]["corrected"]) == (3, "ready", True)
