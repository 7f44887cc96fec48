"""Live runs on the database: scripts with the evening's own pairs, the column beside the log, two devices at once."""

from __future__ import annotations

import datetime as dt
import math
import random

import pytest

from wetside.adapters.machine_clock import moment_now
from wetside.errors import ConflictError, WetsideError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.fact import Fact
from wetside.runs.moment import Moment
from wetside.runs.state import Status
from wetside.services.records import demo, plans_frozen, runs, runs_log
from wetside.services.records.changes import make
from wetside.services.records.runs_sheets import sheets_of_run

pytestmark = pytest.mark.django_db
A, B = "a" * 32, "b" * 32


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path) -> None:
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def quick():
    return runs.open_quick("Tolland 100", "Brackwater", 480.0)


def code(act) -> str:
    with pytest.raises(WetsideError) as refused:
        act()
    return refused.value.code


def at(run, seconds: float) -> Moment:
    opened = run.events.get(seq=1)
    return Moment(opened.at_utc + dt.timedelta(seconds=seconds), opened.boot_s + seconds, opened.boot_id)


def done(run, number: int, act: str, seconds: float, device: str = A) -> Fact:
    when = at(run, seconds)
    return Fact("done", 1, when.at_utc, when.boot_s, when.boot_id, device, number, {"act": act})


def test_a_load_is_opened_once(plan) -> None:
    """The same run however often; its script is the load's; nothing is written a second time."""
    first = runs.open_planned(plan.pk, 1)
    again = runs.open_planned(str(plan.pk), 1)
    assert first == again
    assert first.events.count() == 1
    state = runs.standing(first).state
    assert (state.status, state.rehearsal) == (Status.READY, False)
    assert state.script.time_s == 440.0


def test_what_cannot_be_opened_is_refused(plan) -> None:
    """No such load, a draft, one that was noted by hand."""
    assert code(lambda: runs.open_planned(plan.pk, 99)) == "services.plans.no_load"
    plans_frozen.note_developed(plan, 2)
    assert code(lambda: runs.open_planned(plan.pk, 2)) == "services.runs.noted"
    draft = plans_frozen.unfreeze(plans_frozen_again(plan))
    assert code(lambda: runs.open_planned(draft.pk, 1)) == "services.runs.not_frozen"


def plans_frozen_again(plan):
    plans_frozen.undo_developed(plan, 2)
    return plan


def test_the_evenings_own_pairs_reach_the_script(plan) -> None:
    """Brackwater's two tests, 8:00 at 20 and 5:55 at 24 C, decide in the run as they did in the plan."""
    script = runs.standing(runs.open_planned(plan.pk, 1)).state.script
    assert script.developer == "Brackwater"
    assert script.per_c == pytest.approx(math.log(480 / 355) / 4, rel=1e-6)
    assert script.span_c == (20.0, 24.0)
    named = plan.evening.replace('name = "Brackwater"\n', 'name = "Brackwater"\ncoefficient = 0.111\n', 1)
    models.Plan.objects.filter(pk=plan.pk).update(evening=named)
    plan.refresh_from_db()
    assert runs.script_of_planned(plan, 2).per_c == pytest.approx(0.111)


def test_a_quick_run_knows_the_developers_own_coefficient() -> None:
    """By the name of the records, with a dilution behind it or without."""
    make(models.Developer, {"name": "Brackwater", "facts": {"coefficient": "0.101"}})
    for typed in ("Brackwater", "brackwater 1+24"):
        run = runs.open_quick("Tolland 100", typed, 480.0)
        assert runs.standing(run).state.script.per_c == pytest.approx(0.101)


def test_the_column_follows_the_facts(quick) -> None:
    """Ready, running, ended, and back where the last fact is taken back, each in the history."""
    states = []
    for fact in (done(quick, 1, "1.full", 20.0), done(quick, 2, "hang", 1500.0)):
        runs.hand_over(quick, [fact])
        quick.refresh_from_db()
        states.append(quick.state)
    runs.command(quick, c.TakeBack(), at(quick, 1510.0))
    quick.refresh_from_db()
    states.append(quick.state)
    runs.command(quick, c.Abandon("no water"), at(quick, 1520.0))
    quick.refresh_from_db()
    assert [*states, quick.state] == ["running", "ended", "running", "abandoned"]
    assert quick.history.count() == 5


def test_sheets_follow_their_run(plan) -> None:
    """Developed, one lost; planned again where hanging is taken back."""
    run = runs.open_planned(plan.pk, 1)
    sheets = sheets_of_run(run)
    gone, *others = sorted(sheets)
    runs.command(run, c.Lose(sheet=gone), at(run, 5.0))
    wet = next(act.key for act in runs.standing(run).state.script.acts if act.does == "full")
    runs.hand_over(run, [done(run, 1, wet, 60.0), done(run, 2, "hang", 3000.0)])
    assert {sheet.state for name, sheet in sheets_of_run(run).items() if name in others} == {"developed"}
    assert sheets_of_run(run)[gone].state == "lost"
    runs.command(run, c.TakeBack(), at(run, 3010.0))
    assert {sheet.state for sheet in sheets_of_run(run).values()} == {"planned"}


def test_two_devices_in_any_order_lead_to_the_same_run() -> None:
    """What two pages saw, handed over interleaved by chance: the same state, each fact once."""
    found = set()
    for seed in range(6):
        run = runs.open_quick("Tolland 100", "Brackwater", 480.0)
        mine = [done(run, 1, "1.full", 20.0, A), done(run, 2, "2.full", 520.0, A)]
        yours = [done(run, 1, "1.full", 21.0, B), done(run, 2, "3.full", 700.0, B)]
        boxes = [list(mine), list(yours)]
        chance = random.Random(seed)
        while any(boxes):
            box = chance.choice([box for box in boxes if box])
            fact = box.pop(0)
            runs.hand_over(run, [fact])
            runs.hand_over(run, [fact])
        state = runs.standing(run, at(run, 800.0)).state
        assert run.events.count() == 5
        stamps = tuple(sorted((key, round(stamp.at_s, 3)) for key, stamp in state.stamps.items()))
        found.add((stamps, tuple(one.code for one in state.contested)))
    assert len(found) == 1
    ((stamps, contested),) = found
    assert [key for key, _ in stamps] == ["1.full", "2.full", "3.full"]
    assert contested == ("runs.contested.again",)


def test_two_conducts_that_began_alike_tell_each_other(quick) -> None:
    """A second server that knows less reads on, and its command counts."""
    slow = runs.conduct_of(quick)
    slow.state()
    runs.hand_over(quick, [done(quick, 1, "1.full", 20.0)])
    decision = slow.do(c.Incidence(), at(quick, 30.0))
    assert decision.refusal is None
    assert quick.events.count() == 3
    quick.refresh_from_db()
    assert quick.state == "running"


def test_facts_of_a_load_that_was_begun_anew_are_kept(plan) -> None:
    """Given up, begun anew, then taken back: the facts stay, the column leaves the load to the newer run."""
    first = runs.open_planned(plan.pk, 1)
    runs.command(first, c.Abandon(), at(first, 5.0))
    second = runs.open_planned(plan.pk, 1)
    assert second != first
    name = first.events.get(kind="abandoned")
    runs.command(first, c.TakeBack((name.device, name.device_number)), at(first, 9.0))
    first.refresh_from_db()
    assert first.state == "abandoned"
    assert first.events.count() == 3


def test_a_run_that_was_never_opened_takes_no_facts(plan) -> None:
    """A sentence, and nothing written."""
    run = plan.runs.get(load=2)
    fact = Fact("done", 1, dt.datetime(2031, 1, 1, tzinfo=dt.UTC), 1.0, "x", A, 1, {"act": "1.full"})
    assert code(lambda: runs.hand_over(run, [fact])) == "services.runs.not_open"


def test_another_content_under_a_known_number_is_a_conflict(quick) -> None:
    """Nothing of it is kept."""
    runs.hand_over(quick, [done(quick, 1, "1.full", 20.0)])
    with pytest.raises(ConflictError):
        runs.hand_over(quick, [done(quick, 1, "2.full", 20.0)])
    assert quick.events.count() == 2


def test_folds_are_kept_within_bounds_and_never_older(quick) -> None:
    """A fold is not read again, a shorter one does not replace it, the oldest go."""
    folds = runs_log.Folds(2)
    state = runs.standing(quick).state
    facts = runs.conduct_of(quick).facts
    folds.put("x", (facts * 2, state))
    folds.put("x", (facts, state))
    assert len(folds.get("x")[0]) == 2
    folds.put("y", (facts, state))
    folds.get("x")
    folds.put("z", (facts, state))
    assert len(folds) == 2
    assert folds.get("y") is None


def test_a_long_log_is_folded_once(quick, monkeypatch) -> None:
    """Nine hundred facts: asking again folds nothing, whoever asks."""
    facts = []
    for number in range(1, 901):
        when = at(quick, float(number))
        facts.append(Fact("noted", 1, when.at_utc, when.boot_s, when.boot_id, A, number, {"what": "other"}))
    for first in range(0, 900, 300):
        runs.hand_over(quick, facts[first : first + 300])
    from wetside.runs import conduct

    monkeypatch.setattr(conduct, "fold", lambda _: pytest.fail("folded again"))
    for _ in range(3):
        found = runs.standing(quick)
        assert (found.seq, len(found.state.incidents)) == (901, 900)


def test_from_start_to_counting_takes_few_acts(plan) -> None:
    """The machine's share between "start" and a counting run is far under a second."""
    before = moment_now()
    run = runs.open_quick("Tolland 100", "Brackwater", 480.0)
    found = runs.standing(run)
    assert found.now.boot_s - before.boot_s < 5.0
    assert found.state.status is Status.READY
    assert found.state.doubtful is False
