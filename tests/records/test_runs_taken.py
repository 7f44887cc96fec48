"""The terminal's log becomes a run of the archive: looked through, taken once, tied to sheets that are asked."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest
from tests.fixtures.run_logs import EVENING, facts_of, log_of, quick
from tests.fixtures.run_records import moment_of_run

from wetside.adapters.machine_clock import moment_now
from wetside.adapters.run_log_read import read_log
from wetside.errors import WetsideError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.events import Incident
from wetside.runs.fold import fold
from wetside.runs.script import RunSheet
from wetside.services.records import demo, plans_frozen
from wetside.services.records.changes import change
from wetside.services.records.runs import command, open_quick, script_of_planned
from wetside.services.records.runs import standing as where
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_hung import hang, hanging_of
from wetside.services.records.runs_learned import adopt, kept_vessel, taught_by, timed_in_runs
from wetside.services.records.runs_taken import look_at_log, take_log
from wetside.services.records.runs_tied import Ties
from wetside.services.records.runs_untied import untie
from wetside.services.records.sheets_runs import runs_of_sheet
from wetside.services.records.vessels import make_vessel
from wetside.services.run_terminal import RunAnswers, afterwards_said, script_of_answers

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.django_db
TRAY = {"name": "tray", "kind": "tray", "places": 6, "min": "300 ml", "max": "1 l"}


@pytest.fixture
def evening(tmp_path, settings):
    settings.DATA_FOLDER = tmp_path
    return demo.make_demo()


@pytest.fixture
def plan(evening):
    return plans_frozen.freeze(evening)


def test_a_log_is_shown_before_anything_is_written() -> None:
    """What run, when, which baths, how it ended; and nothing is in the tables."""
    looked = look_at_log(log_of(facts_of()), "C:\\logs\\load-1.log")
    assert (looked.name, looked.title, looked.began_at) == ("load-1.log", "Tolland 100 in Brackwater 1+14", EVENING)
    assert looked.baths[:2] == ("developer", "stop")
    assert looked.ended.startswith("ended, ")
    assert looked.came[0].startswith("Tolland 100: developed ")
    assert looked.run is None
    assert looked.new == looked.facts > 8
    assert not models.Run.objects.exists()


def test_a_log_becomes_a_run_that_is_over_and_can_be_booked() -> None:
    """State, facts, time and booking are those of any run."""
    taken = take_log(log_of(facts_of()), "load-1.log")
    assert taken.made
    assert taken.run.state == models.RunState.ENDED
    assert taken.run.events.count() == taken.new
    found = where(taken.run)
    assert found.state.status.value == "ended"
    after = after_run(taken.run)
    assert after.blocked == ""
    assert [row.kind.value for row in after.rows][:1] == ["develop"]
    assert after.drying.film_dry < EVENING + dt.timedelta(hours=4)


def test_the_same_log_changes_nothing_and_a_longer_one_adds_what_is_new() -> None:
    """Facts stand once, however often and however long their log comes."""
    facts = facts_of()
    first = take_log(log_of(facts[:5]), "load-1.log")
    assert first.run.state == models.RunState.RUNNING
    revision = first.run.revision
    again = take_log(log_of(facts[:5]), "copy.log")
    assert (again.run.pk, again.new, again.made, again.run.revision) == (first.run.pk, 0, False, revision)
    assert look_at_log(log_of(facts[:3]), "short.log").changes_nothing
    longer = take_log(log_of(facts), "load-1.log")
    assert (longer.run.pk, longer.new) == (first.run.pk, len(facts) - 5)
    assert longer.run.state == models.RunState.ENDED
    assert [one.device_number for one in longer.run.events.all()] == [one.device_number for one in facts]


def test_another_continuation_of_the_same_run_is_refused_with_its_line() -> None:
    """The archive's facts stand; nothing of the other log is written."""
    facts = facts_of()
    run = take_log(log_of(facts[:5]), "one.log").run
    other = [*facts[:4], *facts_of(seed=9)[4:]]
    with pytest.raises(WetsideError) as caught:
        take_log(log_of(other), "other.log")
    assert caught.value.code == "services.runs_taken.other"
    assert caught.value.place == ("other.log", 6, None)
    assert run.events.count() == 5


def test_a_simulated_run_is_refused_and_its_rehearsal_taken() -> None:
    """Nothing was developed by it; a rehearsal is booked nowhere anyway."""
    with pytest.raises(WetsideError) as caught:
        look_at_log(log_of(facts_of(boot_id="simulated")), "x.log")
    assert caught.value.code == "services.runs_taken.played"
    taken = take_log(log_of(facts_of(boot_id="5d2e-fast", rehearsal=True)), "x.log")
    assert taken.run.rehearsal
    assert after_run(taken.run).blocked == "services.run_after.rehearsal"


def test_a_log_of_a_plan_belongs_to_its_load_where_a_person_says_so(plan) -> None:
    """Load and records are offered; the load's own run takes the facts, and its sheets are developed when it ended."""
    script = script_of_planned(plan, 1)
    data = log_of(facts_of(script))
    fits = look_at_log(data, "load-1.log").fits
    assert [(run.plan_id, run.load) for run in fits.loads] == [(plan.pk, 1)]
    taken = take_log(data, "load-1.log", Ties(load=str(fits.loads[0].pk)))
    assert (taken.run.plan_id, taken.run.load, taken.made) == (plan.pk, 1, True)
    sheets = [place.sheet for place in plan.places.filter(load=1).select_related("sheet")]
    assert {sheet.state for sheet in sheets} == {"developed"}
    assert {sheet.developed_at.date() for sheet in sheets} == {EVENING.date()}
    assert look_at_log(data, "load-1.log").changes_nothing
    assert not look_at_log(data, "load-1.log").fits.some
    assert not look_at_log(log_of(facts_of(script, boot_id="other")), "x.log").fits.loads


def test_without_a_word_no_sheet_is_tied(plan) -> None:
    """Labels that fit change nothing by themselves."""
    taken = take_log(log_of(facts_of(script_of_planned(plan, 1))), "load-1.log")
    assert (taken.run.plan, taken.tied) == (None, 0)
    assert {place.sheet.state for place in plan.places.filter(load=1).select_related("sheet")} == {"planned"}


def test_sheets_are_hung_days_after_the_run_and_nothing_of_it_falls_into_doubt() -> None:
    """A run that is over is not taken up again: its order is told, and what it taught stands."""
    sheets = tuple(RunSheet(name, "Tolland 100", 90.0) for name in ("7 left", "7 right"))
    now = moment_now()
    began = now.at_utc - dt.timedelta(days=3)
    run = take_log(log_of(facts_of(quick()._replace(sheets=sheets, vessel="long drum"), at=began)), "x.log").run
    taught = timed_in_runs(["long drum"]).values
    assert hang(run, ("7 right", "7 left"), ("", ""), now).order == ("7 right", "7 left")
    state = where(run).state
    assert (state.doubtful, state.contested, state.identified) == (False, (), True)
    told = command(run, c.Incidence(Incident.LIGHT, ago_s=1200.0), now)
    assert told.refusal is None
    (noted,) = where(run).state.incidents
    assert noted.began_s == pytest.approx(state.stamps["hang"].at_s - 1200.0)
    assert command(run, c.Incidence(Incident.LIGHT, ago_s=90_000.0), now).refusal.code == "runs.refused.ago"
    assert command(run, c.Lose("7 left"), now).refusal is None
    assert where(run).state.contested == ()
    assert timed_in_runs(["long drum"]).values == taught


def test_film_of_a_log_fixes_as_the_records_know_it(plan) -> None:
    """Without a plan of its own its film counts by the class that the films of the archive have."""
    run = take_log(log_of(facts_of(script_of_planned(plan, 1))), "load-1.log").run

    def units() -> tuple[float, float]:
        fix = next(row for row in after_run(run).rows if row.kind.value == "fix")
        return fix.ordinary, fix.tabular

    ordinary, tabular = units()
    assert (ordinary > 0.0, tabular) == (True, 0.0)
    film = models.Film.kept.get(name="Morvane 320")
    change(film, {"facts": {**film.facts, "fixing": "tabular"}})
    assert units() == (pytest.approx(ordinary / 4), pytest.approx(3 * ordinary / 4))  # one sheet, and three


def test_sheets_that_are_tied_have_the_run_in_their_story_and_hang_by_it(evening) -> None:
    """Waiting records of the same labels are developed, numbered at hanging, and told their run."""
    waiting = list(models.Sheet.kept.filter(state="waiting").order_by("label_key")[:2])
    script = script_of_planned(plans_frozen.freeze(evening), 1)
    models.Sheet.objects.filter(pk__in=[one.pk for one in waiting]).update(state="waiting")
    own = tuple(
        one._replace(id=sheet.label or sheet.holder) for one, sheet in zip(script.sheets, waiting, strict=False)
    )
    data = log_of(facts_of(script._replace(sheets=own)))
    looked = look_at_log(data, "load-1.log")
    assert [one.records for one in looked.fits.sheets] == [(sheet,) for sheet in waiting]
    taken = take_log(data, "load-1.log", Ties(sheets={one.name: str(one.records[0].pk) for one in looked.fits.sheets}))
    assert taken.tied == 2
    for sheet in waiting:
        sheet.refresh_from_db()
        assert sheet.state == "developed"
        assert runs_of_sheet(sheet)[0].run.pk == taken.run.pk
    hanging = hanging_of(taken.run)
    assert {one.record for one in hanging.sheets} == set(waiting)
    order = [one.name for one in hanging.sheets]
    at_once = moment_of_run(taken.run, 3000.0)
    hang(taken.run, order, ["1", *[""] * (len(order) - 1)], at_once)
    assert models.Sheet.objects.get(negative="1").state == "developed"
    untie(taken.run)
    assert not models.Sheet.objects.filter(negative="1").exists()
    for sheet in waiting:
        sheet.refresh_from_db()
        assert sheet.state == "planned"  # as its history has it before the run
        assert runs_of_sheet(sheet) == ()
    assert look_at_log(data, "load-1.log").fits.some


def test_quick_runs_of_a_named_vessel_have_its_times_and_teach_it() -> None:
    """Twelve seconds of pour are in the script; three logs of it that are taken in offer what they show."""
    vessel = make_vessel(
        {"name": "long drum", "kind": "drum", "places": 6, "min": "300 ml", "max": "1 l", "pour": "12 s"}
    )
    own = script_of_answers(
        RunAnswers(film="Tolland 100", developer="Brackwater", time="8:00", vessel="long drum"),
        kept=kept_vessel("Long Drum"),
    )
    assert (own.vessel, own.pour_s, own.act("1.full").offset_s, own.learned) == ("long drum", 12.0, 12.0, False)
    for day in range(3):
        data = log_of(facts_of(own, seed=day, boot_id=f"day {day}", at=EVENING + dt.timedelta(days=day), delay_s=12.0))
        take_log(data, f"{day}.log")
    timed = timed_in_runs([vessel.name])
    assert len(timed.values["pour_s"]) == 3
    offered = {one.column: one.offered for one in taught_by(vessel, timed)}
    assert offered["pour_s"] > 14.0
    adopt(vessel, next(one for one in taught_by(vessel, timed) if one.column == "pour_s"))
    following = kept_vessel("long drum")
    assert following.learned
    assert following.handling.pour_s == offered["pour_s"]
    run = open_quick("Tolland 100", "Brackwater", 480.0, vessel="long drum")
    script = where(run).state.script
    assert (script.vessel, script.learned, script.pour_s) == ("long drum", True, offered["pour_s"])


def test_a_vessel_that_no_quick_run_can_be_in_is_refused() -> None:
    """One that is not kept, and a tray in which each sheet has its own time."""
    make_vessel(TRAY)
    for name, code in (("tray", "services.runs.vessel_kind"), ("drum", "services.runs.no_vessels")):
        with pytest.raises(WetsideError) as caught:
            open_quick("Tolland 100", "Brackwater", 480.0, vessel=name)
        assert (caught.value.code, caught.value.place.field) == (code, "vessel")
    assert not models.Run.objects.exists()


def test_a_log_is_shown_then_taken_then_known(begun, tmp_path: Path) -> None:
    """Without --yes nothing is written; with it the run is there; again, nothing changes; a longer log adds."""
    facts = facts_of()
    part, whole = tmp_path / "part.log", tmp_path / "whole.log"
    part.write_bytes(log_of(facts[:6])[:-3])
    whole.write_bytes(log_of(facts))
    shown = begun.run("take", part)
    assert shown.code == 0, shown.err
    assert "Nothing was written" in shown.out
    assert "The last line was torn" in shown.out
    taken = begun.run("take", part, "--yes")
    assert 'Taken in as "Tolland 100 in Brackwater 1+14": 5 facts' in taken.out
    assert f"{len(facts) - 5} facts are new" in begun.run("take", whole, "--yes").out
    assert "Nothing was changed" in begun.run("take", whole, "--yes").out
    assert begun.run("check").code == 0


def test_a_terminals_run_names_its_vessel_out_of_the_archive(filled, tmp_path: Path) -> None:
    """Its log has it; a name that is not there, or one beside a plan, is told."""
    words = ("run", "--film", "Tolland 100", "--developer", "Brackwater", "--time", "7:30", "--simulate", 3)
    log = tmp_path / "a.log"
    done = filled.run(*words, "--vessel", "Short drum", "--log", log)
    assert done.code == 0, done.err
    assert read_log(log.read_bytes(), "a.log").facts[0].data["script"]["vessel"] == "short drum"
    assert "Known: short drum." in filled.run(*words, "--vessel", "bucket").err
    assert "say the same things twice" in filled.run("run", "--plan", "plan.json", "--vessel", "short drum").err


def test_a_run_that_has_ended_says_how_it_gets_into_the_archive() -> None:
    """With its log's name as a shell takes it; nothing of a rehearsal, or where no log was kept."""
    state = fold(facts_of())
    said = afterwards_said(RunAnswers(log="my load.log"), state)
    assert said[0].endswith("wetside take 'my load.log' --yes")
    assert afterwards_said(RunAnswers(), state) == []
    assert afterwards_said(RunAnswers(log="a.log"), fold(facts_of(rehearsal=True))) == []
