"""What runs teach a vessel: offered after three that agree, adopted by a person alone, followed by the next run."""

from __future__ import annotations

import datetime as dt

import pytest
from tests.fixtures.run_sample import planned

from wetside.errors import ConflictError, RefusedError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.events import Where
from wetside.runs.moment import Moment
from wetside.services.records import demo, plans_frozen, runs
from wetside.services.records import runs_learned as learned
from wetside.services.records.changes import change, find, history_of, make
from wetside.services.records.runs_learned_said import taught_said
from wetside.services.records.runs_log import conduct_of
from wetside.services.records.vessels import make_vessel, raw_of_vessel

pytestmark = pytest.mark.django_db
DRUM = {
    "name": "long drum",
    "kind": "drum",
    "places": 12,
    "min": "300 ml",
    "max": "1 l",
    "pour": "10 s",
    "drain": "20 s",
}
BEGAN = dt.datetime(2031, 11, 4, 20, 0, tzinfo=dt.UTC)


@pytest.fixture
def vessel():
    return make_vessel(DRUM)


def run_of(drain_s: float, *, day: int = 0, rehearsal: bool = False, end: bool = True, tau_s: float | None = None):
    """A run in the long drum: stop poured so long after the developer's drain, full ten seconds later."""
    script = planned(480.0, dark=False)
    run = make(models.Run, {"name": f"run {day}", "rehearsal": rehearsal})
    conduct = conduct_of(run)

    def at(seconds: float) -> Moment:
        return Moment(BEGAN + dt.timedelta(days=day, seconds=seconds), 100_000.0 * day + seconds, f"boot {day}")

    conduct.do(c.Open(script, rehearsal), at(0.0))
    conduct.do(c.Tell("2.full"), at(200.0))
    if tau_s is not None:
        from math import exp

        conduct.do(c.Reading(18.0, Where.JACKET, 0.0), at(210.0))
        for later_s in (60.0, 420.0):
            conduct.do(c.Reading(18.0 + 2.0 * exp(-later_s / tau_s), Where.DEVELOPER, 0.0), at(200.0 + later_s))
    for act, seconds in (("2.drain", 680.0), ("3.pour", 680.0 + drain_s), ("3.full", 690.0 + drain_s)):
        conduct.do(c.Tell(act), at(seconds))
    if end:
        conduct.do(c.Tell("hang"), at(3000.0))
    return runs.find_run(run.pk)


def taught(vessel, column: str):
    found = learned.taught_by(vessel, learned.timed_in_runs(learned.names_of(vessel)))
    return next((one for one in found if one.column == column), None)


def test_three_runs_that_agree_are_offered_and_nothing_is_adopted_by_itself(vessel) -> None:
    """Fourteen, fifteen, fifteen; twenty are kept, until somebody takes it: a change with its history."""
    for day, drain_s in enumerate((15.0, 15.0)):
        run_of(drain_s, day=day)
    assert taught(vessel, "drain_s").offered is None
    run_of(14.0, day=2)
    found = taught(vessel, "drain_s")
    assert (found.kept, found.lesson.values, found.offered) == (20.0, (14.0, 15.0, 15.0), 15.0)
    (said,) = taught_said([found])
    assert said.said == "From three runs: 14 s, 15 s, 15 s. Stated: 20 s."
    assert find(models.Vessel, vessel.pk).drain_s == 20.0
    learned.adopt(vessel, found, vessel.revision)
    now = find(models.Vessel, vessel.pk)
    assert now.drain_s == 15.0
    assert history_of(now)[0].why == "learned in runs"
    assert taught(now, "drain_s").offered is None
    with pytest.raises(ConflictError):
        learned.adopt(now, found, vessel.revision)
    with pytest.raises(RefusedError):
        learned.adopt(now, taught(now, "drain_s"))


def test_runs_that_disagree_offer_nothing(vessel) -> None:
    """Said so."""
    for day, drain_s in enumerate((8.0, 15.0, 31.0)):
        run_of(drain_s, day=day)
    found = taught(vessel, "drain_s")
    assert found.offered is None
    assert "do not agree" in taught_said([found])[0].said


def test_rehearsals_and_runs_that_did_not_end_teach_nothing(vessel) -> None:
    """Nor those of another vessel; a new name keeps what the old one has learned."""
    run_of(14.0, rehearsal=True)
    run_of(14.0, day=1, end=False)
    assert taught(vessel, "drain_s") is None
    run_of(14.0, day=2)
    renamed = change(vessel, {"name": "the old drum"})
    assert taught(renamed, "drain_s").lesson.values == (14.0,)
    assert taught(make_vessel({**DRUM, "name": "short drum"}), "drain_s") is None


def test_who_keeps_theirs_is_not_asked_again(vessel) -> None:
    """Until the runs say something else."""
    for day in range(3):
        run_of(15.0, day=day)
    timed = learned.timed_in_runs(learned.names_of(vessel))
    learned.keep_own(taught(vessel, "drain_s"), timed)
    again = taught(vessel, "drain_s")
    assert (again.offered, again.refused) == (None, True)
    assert "not offered again" in taught_said([again])[0].said
    for day in range(3, 9):
        run_of(28.0, day=day)
    assert taught(vessel, "drain_s").offered == 28.0


def test_pace_and_jacket_are_learned_and_can_be_forgotten(vessel) -> None:
    """From readings in developer and jacket; the form of the vessel leaves them alone."""
    from wetside.services.records.vessels import change_vessel

    for day in range(3):
        run_of(15.0, day=day, tau_s=480.0)
    for column, value in (("follows_s", 480.0), ("jacket_off_c", -2.0)):
        vessel = find(models.Vessel, vessel.pk)
        found = taught(vessel, column)
        assert (found.kept, found.offered) == (None, value)
        learned.adopt(vessel, found)
    vessel = change_vessel(find(models.Vessel, vessel.pk), {**raw_of_vessel(vessel), "max": "900 ml"}, None)
    assert (vessel.follows_s, vessel.jacket_off_c) == (480.0, -2.0)
    assert learned.adopted(vessel) == {"follows_s", "jacket_off_c"}
    forgotten = learned.forget_jacket(vessel)
    assert (forgotten.follows_s, forgotten.jacket_off_c) == (None, None)


def test_how_long_it_dried_is_learned_from_taps(vessel) -> None:
    """Three vessels that were dry after twenty minutes and a little."""
    for day, dried_s in enumerate((1200, 1230, 1260)):
        run = run_of(15.0, day=day)
        change(run, {"facts": {"dried_s": dried_s}})
    assert taught(vessel, "dries_s").offered == 1260.0 - 60.0


def test_what_was_adopted_reaches_the_run_of_a_plan_that_was_frozen_before(settings, tmp_path, monkeypatch) -> None:
    """Pour, drain, pace and jacket; what was only typed into the vessel leaves the frozen plan as it is."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())
    plan = plans_frozen.freeze(demo.make_demo())
    before = runs.script_of_planned(plan, 1)
    assert (before.learned, before.tau_s, before.jacket_c) == (False, None, None)
    vessel = learned.vessel_named(before.vessel)
    vessel = change(vessel, {"drain_s": 40.0})
    assert runs.script_of_planned(plan, 1).drain_s == before.drain_s
    values = {"pour_s": 14.0, "drain_s": 24.0, "follows_s": 420.0, "jacket_off_c": -1.5}
    change(vessel, values, why=learned.LEARNED_IN_RUNS)
    script = runs.standing(runs.open_planned(plan.pk, 1)).state.script
    assert (script.learned, script.pour_s, script.drain_s) == (True, 14.0, 24.0)
    assert (script.tau_s, script.jacket_c) == (420.0, script.temp_c - 1.5)
    assert {act.offset_s for act in script.acts if act.does == "full"} == {14.0}
    tonight = plan.evening.replace('reads_high = "0.4 C"', 'reads_high = "0.4 C"\njacket_reads = "19.4 C"', 1)
    assert tonight != plan.evening
    models.Plan.objects.filter(pk=plan.pk).update(evening=tonight)
    plan.refresh_from_db()
    assert runs.script_of_planned(plan, 2).jacket_c == pytest.approx(19.0)
