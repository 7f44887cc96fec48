"""A look between loads: kept with its run, carried to the sheets that wait, taken or left, and undone."""

from __future__ import annotations

import pytest
from tests.fixtures.run_records import develop

from wetside.errors import ConflictError, ManyErrors, WetsideError
from wetside.records import models
from wetside.services.records import (
    demo,
    plans,
    plans_cancelled,
    plans_frozen,
    runs,
    runs_after,
    runs_look,
    runs_replanned,
    short_way,
)
from wetside.values.names import plain_name

pytestmark = pytest.mark.django_db
HARD = {"how": "eye", "shadow": "right", "highlight": "too-much"}


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path) -> None:
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


def developed(plan, load: int = 1, **more):
    return runs_after.run_with_plan(develop(runs.open_planned(plan.pk, load), **more).pk)


def sheet_with_kin(plan, load: int) -> str:
    """A sheet of a load whose film and process wait in another load too."""
    document = plans.reckoned(plan).plan
    others = {(one.film, one.process) for one in document.sheets if one.load != load}
    return next(one.id for one in document.sheets if one.load == load and (one.film, one.process) in others)


def looked(run, **typed):
    runs_look.add_look(run, typed)
    return runs_after.run_with_plan(run.pk)


def code(act) -> str:
    with pytest.raises(WetsideError) as refused:
        act()
    return refused.value.code


def test_a_hard_negative_shortens_its_kin(plan, django_assert_max_num_queries) -> None:
    """Judged a step too hard: 10 % less for the same film in the same process; other films keep their own time."""
    sheet = sheet_with_kin(plan, 1)
    run = looked(developed(plan), sheet=sheet, **HARD)
    runs_replanned.proposal_of(run)
    with django_assert_max_num_queries(14):
        found = runs_replanned.proposal_of(run)
    assert (found.blocked, found.at_work, found.can_take) == ("", False, True)
    kin = [one for one in found.changes if any(sheet in line for line in one.why)]
    assert kin
    assert all(one.new_s is not None for one in kin)
    assert any(one.new_s < one.old_s for one in kin)
    document = plans.reckoned(plan).plan
    film = {one.id: (one.film, one.process) for one in document.sheets}
    assert {film[one.sheet] for one in kin} == {film[sheet]}


def test_what_the_sheet_really_got_is_taken_out_first(plan) -> None:
    """Judged right, but developed 20 % too long in effect: so the others want what this one got."""
    sheet = sheet_with_kin(plan, 1)
    on_time = looked(developed(plan), sheet=sheet, how="print", shadow="right", highlight="right")
    (exact,) = runs_replanned._base(on_time.plan).looks
    document = plans.reckoned(plan).plan
    planned = next(one for one in document.sheets if one.id == sheet)
    # On time: only the load's shared time against the sheet's own is left.
    assert exact["change"] == pytest.approx((planned.load_time_s / planned.time_s - 1) * 100, abs=0.2)
    other = plans_frozen.freeze(demo_again())
    right = {"how": "print", "shadow": "right", "highlight": "right"}
    late = looked(developed(other, late_s=80.0), sheet=sheet, **right)
    (found,) = runs_replanned._base(late.plan).looks
    assert found["change"] > exact["change"] + 10.0


def demo_again():
    """The demo's plan anew, its sheets waiting: the first one's records are given other names."""
    for sheet in models.Sheet.objects.all():
        models.Sheet.objects.filter(pk=sheet.pk).update(state="lost", developed_at=None)
    demo.remove_demo()
    return demo.make_demo()


def test_taken_the_rest_is_frozen_anew_and_undone(plan) -> None:
    """The old plan stays as it is written, its loads are cancelled; undone, they are ready again."""
    sheet = sheet_with_kin(plan, 1)
    run = looked(developed(plan), sheet=sheet, **HARD)
    before = (run.plan.evening, run.plan.document)
    found = runs_replanned.proposal_of(run)
    new = runs_replanned.take_replan(run, found.seen)
    old = plans.find_plan(plan.pk)
    assert (old.evening, old.document) == before
    assert not old.runs.filter(removed_at=None, state="ready", rehearsal=False).exists()
    document = plans.reckoned(new).plan
    times = {plain_name(one.id): one.load_time_s for one in document.sheets}
    assert times == {plain_name(one.sheet): one.new_s for one in found.changes if one.new_s is not None}
    assert new.runs.filter(state="ready").count() == len(document.loads)
    waiting = {one.label_key: one.state for one in models.Sheet.objects.filter(places__plan=new)}
    assert set(waiting.values()) == {"planned", "developed"}
    assert runs_replanned.undo_replan(new).pk == plan.pk
    assert (
        old.runs.filter(removed_at=None, state="ready", rehearsal=False).count()
        == len(plans.reckoned(old).plan.loads) - 1
    )
    assert plans.find_plan(new.pk, removed=True).removed_at is not None
    again = runs_replanned.proposal_of(runs_after.run_with_plan(run.pk))
    assert again.differs


def test_a_begun_re_plan_is_not_undone(plan) -> None:
    """Once a load of the new plan was begun it stays."""
    run = looked(developed(plan), sheet=sheet_with_kin(plan, 1), **HARD)
    new = runs_replanned.take_replan(run, runs_replanned.proposal_of(run).seen)
    develop(runs.open_planned(new.pk, 1))
    assert code(lambda: runs_replanned.undo_replan(plans.find_plan(new.pk))) == "services.plans.begun"
    assert code(lambda: runs_replanned.undo_replan(plans.find_plan(plan.pk))) == "services.look.not_replanned"


def test_a_second_look_goes_on_from_the_first(plan) -> None:
    """Two loads on: judged right with the first look's time, the rest keeps that time and does not fall back."""
    sheet = sheet_with_kin(plan, 1)
    run = looked(developed(plan), sheet=sheet, **HARD)
    found = runs_replanned.proposal_of(run)
    kin = {one.sheet for one in found.changes if any(sheet in line for line in one.why)}
    new = runs_replanned.take_replan(run, found.seen)
    document = plans.reckoned(new).plan
    load = next(one.load for one in document.sheets if one.id in kin)
    second = developed(new, load)
    name = next(one.id for one in document.sheets if one.load == load and one.id in kin)
    second = looked(second, sheet=name, how="print", shadow="right", highlight="right")
    looks = {plain_name(look["sheet"]): look for look in runs_replanned._base(second.plan).looks}
    planned = next(one for one in document.sheets if one.id == name)
    factor = runs_replanned._looked_before(planned)
    assert factor == pytest.approx(0.9, abs=0.03)
    wanted = (factor * planned.load_time_s / planned.time_s - 1) * 100
    assert looks[plain_name(name)]["change"] == pytest.approx(wanted, abs=0.3)


def test_a_range_that_was_read(plan) -> None:
    """Read 0.30 to 1.50 where 1.05 or so was meant: less time, by the sheet's own reckoning."""
    run = looked(
        developed(plan),
        sheet=sheet_with_kin(plan, 1),
        how="densitometer",
        shadow_density="0,30",
        highlight_density="1.5",
    )
    (look,) = runs_look.looks_of(run)
    assert look.density_range == pytest.approx(1.2)
    found = runs_replanned.proposal_of(run)
    assert any(one.new_s and one.new_s < one.old_s for one in found.changes)


def test_left_as_it_is(plan) -> None:
    """The looks stay, the page knows that it was left, and another look asks again."""
    sheet = sheet_with_kin(plan, 1)
    run = looked(developed(plan), sheet=sheet, **HARD)
    assert not runs_replanned.is_left(run)
    run = runs_replanned.leave_replan(run)
    assert runs_replanned.is_left(run)
    assert not runs_replanned.is_left(looked(run, sheet=sheet, **HARD))


def test_a_look_is_taken_back(plan) -> None:
    """Nothing is left of it but the history."""
    run = looked(developed(plan), sheet=sheet_with_kin(plan, 1), **HARD)
    run = runs_look.take_look_back(run, 0)
    assert runs_look.looks_of(run) == ()
    assert runs_replanned.proposal_of(runs_after.run_with_plan(run.pk)).blocked == "services.look.no_look"
    assert code(lambda: runs_look.take_look_back(run, 0)) == "services.look.none"


def test_what_cannot_be_taken_is_refused(plan) -> None:
    """A run that is on, no such sheet, no density, densities the wrong way round, a page that is out of date."""
    opened = runs_after.run_with_plan(runs.open_planned(plan.pk, 1).pk)
    sheet = sheet_with_kin(plan, 1)
    assert code(lambda: runs_look.add_look(opened, {"sheet": sheet, **HARD})) == "services.look.not_over"
    run = developed(plan)
    assert code(lambda: runs_look.add_look(run, {"sheet": "nobody", **HARD})) == "services.look.sheet"
    with pytest.raises(ManyErrors):
        runs_look.add_look(run, {"sheet": sheet, "how": "eye"})
    with pytest.raises(ManyErrors):
        runs_look.add_look(run, {"sheet": sheet, "how": "densitometer", "shadow_density": "x", "highlight_density": ""})
    dense = {"sheet": sheet, "how": "densitometer", "shadow_density": "1.2", "highlight_density": "0.3"}
    assert code(lambda: runs_look.add_look(run, dense)) == "services.look.range"
    assert code(lambda: runs_look.add_look(run, {**dense, "shadow_density": "9"})) == "services.look.density"
    assert code(lambda: runs_replanned.take_replan(run, "")) == "services.look.no_look"
    run = looked(run, sheet=sheet, **HARD)
    with pytest.raises(ConflictError):
        runs_replanned.take_replan(run, "another evening")


def test_a_run_without_a_plan_has_nothing_to_plan_anew() -> None:
    """A look is kept."""
    quick = runs_after.run_with_plan(develop(runs.open_quick("Tolland 100", "Brackwater", 480.0)).pk)
    assert runs_replanned.proposal_of(quick).blocked == "services.look.no_plan"


@pytest.fixture
def short():
    """Twelve sheets by four answers, four a load."""
    answers = {
        "film": "Tolland 40",
        "developer": "Marrow 1+9",
        "number": "12",
        "vessel": "drum 4, 300-1000 ml",
        "time": "7:30",
    }
    return short_way.keep_short(answers)


def listed(plan) -> tuple[int, int, int]:
    """Sheets, loads and loads developed, as the list of plans has them."""
    (one,) = (one for one in plans.list_plans()[0] if one.plan.pk == plan.pk)
    return one.sheets, one.loads, one.done


def test_a_short_plan_is_planned_anew_with_one_act(short) -> None:
    """Its own evening with the look in it: the loads that wait are cancelled and frozen anew, and open as runs.

    The list counts each sheet once; a second look goes on from the first.
    """
    run = developed(short)
    run = looked(run, sheet=runs.standing(run).state.sheets[0], **HARD)
    found = runs_replanned.proposal_of(run)
    assert (found.can_take, found.different) == (True, 8)
    assert all(one.new_s == pytest.approx(405.0, abs=5.0) for one in found.changes)
    made = runs_replanned.take_replan(run, found.seen)
    old = plans.find_plan(short.pk)
    assert (made.short, old.facts["replanned_to"], old.facts["cancelled"]) == (True, str(made.pk), [2, 3])
    assert (listed(made), listed(old)) == ((8, 2, 0), (4, 1, 1))
    assert code(lambda: plans_cancelled.rest_back(old)) == "services.plans.planned_anew"
    assert short_way.free_places(old, plans.reckoned(old).plan)[-1][2] == 1
    document = plans.reckoned(made).plan
    assert {one.load_time_s for one in document.sheets} == {found.changes[0].new_s}
    assert made.attachments.filter(name__endswith=".pdf").count() > 0
    second = developed(made)
    assert runs.standing(second).state.script.time_s == pytest.approx(405.0, abs=5.0)
    second = looked(
        second, sheet=runs.standing(second).state.sheets[1], how="eye", shadow="right", highlight="too-little"
    )
    again = runs_replanned.proposal_of(second)
    assert again.can_take
    assert all(one.new_s == pytest.approx(450.0, abs=10.0) for one in again.changes)
    third = runs_replanned.take_replan(second, again.seen)
    assert (listed(third), listed(made)) == ((4, 1, 0), (4, 1, 1))


def test_the_list_counts_what_a_plan_develops(plan) -> None:
    """A draft its sheets; planned anew, the sheet that was looked at is none of the new plan's, and counts once."""
    document = plans.reckoned(plan).plan
    assert listed(plan) == (len(document.sheets), len(document.loads), 0)
    run = looked(developed(plan), sheet=sheet_with_kin(plan, 1), **HARD)
    made = runs_replanned.take_replan(run, runs_replanned.proposal_of(run).seen)
    first = sum(sheet.load == 1 for sheet in document.sheets)
    assert (listed(plans.find_plan(plan.pk))[0], listed(made)[0]) == (first, len(document.sheets) - first)
    draft = plans_frozen.unfreeze(made)
    assert listed(draft) == (len(document.sheets) - first, 0, 0)


def test_sheets_of_the_records_go_along_with_a_short_plan(short) -> None:
    """To their new places, planned as before; undone, back to the old ones, and the loads are ready again."""
    short_way.attach_new(short)
    before = {place.sheet_id: (place.rank, place.load) for place in short.places.all()}
    run = developed(short)
    waiting = {key for key, (_, load) in before.items() if load != 1}
    run = looked(run, sheet=runs.standing(run).state.sheets[0], **HARD)
    made = runs_replanned.take_replan(run, runs_replanned.proposal_of(run).seen)
    document = plans.reckoned(made).plan
    assert {place.sheet_id for place in made.places.all()} == waiting
    assert {document.sheets[place.rank].load == place.load for place in made.places.all()} == {True}
    states = models.Sheet.kept.filter(pk__in=waiting).values_list("state", flat=True)
    assert set(states) == {models.SheetState.PLANNED}
    old = runs_replanned.undo_replan(made)
    assert {place.sheet_id: (place.rank, place.load) for place in old.places.all()} == before
    assert set(states.all()) == {models.SheetState.PLANNED}
    assert (listed(old), [one.plan.pk for one in plans.list_plans()[0]]) == ((12, 3, 1), [old.pk])
    again = runs_replanned.proposal_of(runs_after.run_with_plan(run.pk))
    made = runs_replanned.take_replan(runs_after.run_with_plan(run.pk), again.seen)
    developed(made)
    assert code(lambda: runs_replanned.undo_replan(made)) == "services.plans.begun"
    assert models.Sheet.kept.filter(pk__in=waiting, state=models.SheetState.DEVELOPED).count() == 4


def test_a_short_plan_of_which_a_load_was_begun_meanwhile_is_not_taken(short) -> None:
    """Between the page and the act: nothing is cancelled."""
    run = developed(short)
    run = looked(run, sheet=runs.standing(run).state.sheets[0], **HARD)
    seen = runs_replanned.proposal_of(run).seen
    developed(short, 2)
    assert code(lambda: runs_replanned.take_replan(run, seen)) == "services.plans.not_as_seen"
    assert listed(plans.find_plan(short.pk)) == (12, 3, 2)
