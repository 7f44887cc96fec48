"""After a run on the database: booked once and undone, kept out of rehearsals, hung with numbers, dried."""

from __future__ import annotations

import datetime as dt
from concurrent.futures import ThreadPoolExecutor

import pytest
from django.db import connection

from wetside.errors import ManyErrors, WetsideError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.fact import Fact
from wetside.runs.moment import Moment
from wetside.services.records import demo, plans_frozen, runs, runs_booked, runs_hung
from wetside.services.records.bottles_entries import read_entry
from wetside.services.records.changes import change, make
from wetside.services.records.ledger import NewLine, book, lines_of, unlike_its_ledger
from wetside.services.records.ledger_fold import film_passed
from wetside.services.records.mixing import MixAsk, propose
from wetside.services.records.mixing_booked import Target, book_mixing
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_sheets import sheets_of_run

pytestmark = pytest.mark.django_db
A = "a" * 32
FILMS = ("Tolland 100", "Morvane 320")


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    """Nothing is printed here: freezing leaves its files out."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


@pytest.fixture
def now():
    return dt.datetime(2031, 11, 5, 9, 0, tzinfo=dt.UTC)


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def run(plan):
    """The first load, hung 50 minutes after it was opened; its developer and stop were told."""
    return ended(runs.open_planned(plan.pk, 1))


def ended(run):
    runs.hand_over(run, [done(run, 1, "2.full", 400.0), done(run, 2, "3.full", 900.0), done(run, 3, "hang", 3000.0)])
    return runs.find_run(run.pk)


def at(run, seconds: float) -> Moment:
    opened = run.events.get(seq=1)
    return Moment(opened.at_utc + dt.timedelta(seconds=seconds), opened.boot_s + seconds, opened.boot_id)


def done(run, number: int, act: str, seconds: float) -> Fact:
    when = at(run, seconds)
    return Fact("done", 1, when.at_utc, when.boot_s, when.boot_id, A, number, {"act": act})


def code(act) -> str:
    with pytest.raises(WetsideError) as refused:
        act()
    return refused.value.code


def waste(role: str, mark: str) -> models.Bottle:
    return make(models.Bottle, {"mark": mark, "holds": "waste", "role": role})


def left(mark: str) -> float:
    return models.Bottle.kept.get(mark_key=mark.casefold()).left_ml


def booked_as_proposed(run, now):
    return runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), now)


def test_a_run_is_proposed_from_its_facts(run) -> None:
    """Concentrate from D, stop and fixer out and back, film in both by its area, water of washes and mixing."""
    waste("waste-developer", "WD")
    after = after_run(runs.find_run(run.pk))
    script = after.state.script
    rows = {row.bath: row for row in after.rows}
    assert list(rows) == ["Developer", "Stop", "Fixer"]
    developer, stop, fixer = rows.values()
    assert (developer.bottle.mark, developer.drawn_ml, developer.returned_ml) == ("D", script.concentrate_ml, 0.0)
    assert (developer.waste.mark, developer.waste_ml) == ("WD", script.volume_ml)
    assert (stop.drawn_ml, stop.returned_ml, fixer.drawn_ml, fixer.returned_ml) == (400.0, 400.0, 500.0, 500.0)
    units = sum(sheet.area_cm2 for sheet in script.sheets) / 516.128
    assert stop.ordinary == pytest.approx(units, abs=0.005)
    assert fixer.tabular == 0.0
    assert after.water_ml == 500.0 + script.volume_ml - script.concentrate_ml + 3 * 700.0
    assert after.drying.vessel.name == script.vessel
    assert abs(after.drying.film_dry - at(run, 3000.0 + 7200.0).at_utc) < dt.timedelta(seconds=1)


def test_a_dense_sheet_leaves_less_silver_a_thin_one_more(run) -> None:
    """The fixer's weight runs the other way from the developer's; the stop is not weighted."""
    plan = models.Plan.objects.get(pk=run.plan_id)
    document = dict(plan.document)
    name = next(iter(sheets_of_run(run)))
    for stops, share in ((3.0, 0.8), (-3.0, 1.2)):
        document["sheets"] = [one | {"stop_error": stops if one["id"] == name else 0.0} for one in document["sheets"]]
        models.Plan.objects.filter(pk=plan.pk).update(document=document)
        after = after_run(runs.find_run(run.pk))
        areas = {sheet.id: sheet.area_cm2 for sheet in after.state.script.sheets}
        wanted = (sum(areas.values()) + (share - 1.0) * areas[name]) / 516.128
        stop, fixer = (row.ordinary for row in after.rows[1:])
        assert fixer == pytest.approx(wanted, abs=0.005)
        assert stop == pytest.approx(sum(areas.values()) / 516.128, abs=0.005)


def test_tabular_film_is_counted_by_its_class(run) -> None:
    """By what the frozen evening says of the film."""
    plan = models.Plan.objects.get(pk=run.plan_id)
    evening = plan.evening.replace('name = "Tolland 100"\n', 'name = "Tolland 100"\nfixing = "tabular"\n', 1)
    assert evening != plan.evening
    models.Plan.objects.filter(pk=plan.pk).update(evening=evening)
    after = after_run(runs.find_run(run.pk))
    stop = after.rows[1]
    areas = {name: sum(one.area_cm2 for one in after.state.script.sheets if one.film == name) for name in FILMS}
    assert min(areas.values()) > 0
    wanted = (areas["Tolland 100"] / 516.128, areas["Morvane 320"] / 516.128)
    assert (stop.tabular, stop.ordinary) == pytest.approx(wanted, abs=0.005)


def test_a_run_is_booked_once(run, now) -> None:
    """All lines in one act; booking again changes nothing; the books agree with their ledgers."""
    waste("waste-developer", "WD")
    before = {mark: left(mark) for mark in "DSF"}
    concentrate = after_run(run).rows[0].drawn_ml
    first = booked_as_proposed(run, now)
    count = models.BottleLine.objects.count()
    again = booked_as_proposed(run, now + dt.timedelta(minutes=1))
    assert [line.pk for line in again.lines] == [line.pk for line in first.lines]
    assert models.BottleLine.objects.count() == count
    assert {mark: left(mark) for mark in "DSF"} == before | {"D": before["D"] - concentrate}
    assert left("WD") == after_run(run).state.script.volume_ml
    fixer = models.Bottle.kept.get(mark="F")
    assert [one.volume_ml for one in film_passed(lines_of([fixer.pk])[fixer.pk])] == [1000.0]
    assert unlike_its_ledger() == []
    assert runs.find_run(run.pk).history.filter(history_change_reason="booked").count() == 1


def test_a_booking_is_undone_by_further_lines(run, now) -> None:
    """Nothing is deleted; the run can be booked anew; a line that was undone on its bottle's page stays so."""
    before = {mark: left(mark) for mark in "DSF"}
    first = booked_as_proposed(run, now)
    from wetside.services.records.ledger import undo

    undo(first.lines[0].pk, now)
    assert left("D") == before["D"]
    run = runs_booked.unbook_run(run, now)
    assert {mark: left(mark) for mark in "DSF"} == before
    assert models.BottleLine.objects.filter(pk__in=[line.pk for line in first.lines]).count() == len(first.lines)
    assert {one.seen_units for one in models.Bottle.kept.filter(mark__in="DSF")} == {0.0}
    assert code(lambda: runs_booked.unbook_run(run, now)) == "services.run_after.not_booked"
    assert len(booked_as_proposed(run, now).lines) == len(first.lines)
    assert unlike_its_ledger() == []


def test_a_rehearsal_is_kept_out_of_the_books(plan, now) -> None:
    """Whatever is asked for."""
    real = ended(runs.open_planned(plan.pk, 1))
    wanted = runs_booked.booking_of(after_run(real))
    run = ended(runs.open_planned(plan.pk, 1, rehearsal=True))
    count = models.BottleLine.objects.count()
    assert after_run(run).blocked == "services.run_after.rehearsal"
    assert code(lambda: runs_booked.book_run(run, wanted, now)) == "services.run_after.rehearsal"
    assert code(lambda: runs_booked.mark_dry(run)) == "services.run_after.dry_unknown"
    assert models.BottleLine.objects.count() == count


def test_of_an_abandoned_run_only_what_was_poured_is_booked(plan, now) -> None:
    """Developer told and the run given up before the stop: no stop, no fixer, no wash."""
    run = runs.open_planned(plan.pk, 1)
    runs.command(run, c.Tell("2.full"), at(run, 400.0))
    assert code(lambda: runs_booked.book_run(run, runs_booked.Booking((), 0.0), now)) == "services.run_after.on"
    runs.command(run, c.Abandon("the drum leaks"), at(run, 460.0))
    run = runs.find_run(run.pk)
    after = after_run(run)
    assert [row.bath for row in after.rows] == ["Developer"]
    assert after.water_ml == 500.0 + after.state.script.volume_ml - after.state.script.concentrate_ml
    booked = booked_as_proposed(run, now)
    assert [line.kind for line in booked.lines] == ["drawn"]


def test_a_run_that_was_given_up_dry_has_nothing_to_book(plan, now) -> None:
    """Opened and abandoned."""
    run = runs.open_planned(plan.pk, 1)
    runs.command(run, c.Abandon(), at(run, 30.0))
    assert after_run(runs.find_run(run.pk)).blocked == "services.run_after.nothing_poured"


def drawn_by_mixing(bottle: models.Bottle, amount: float, when: dt.datetime, into: models.Bottle | None = None) -> None:
    """What :mod:`mixing_booked` writes: a drawing that stands for the bottle it went into, or for itself."""
    book(bottle.pk, NewLine("drawn", amount, note="mixed", drawn_for=(into or bottle).pk), when)


def test_what_was_booked_when_mixing_is_not_booked_twice(run, plan, now) -> None:
    """What was drawn at the mixing bench before the run is not drawn again; the next run gets what is left of it."""
    bottle = models.Bottle.kept.get(mark="D")
    needed = after_run(run).rows[0].drawn_ml
    drawn_by_mixing(bottle, needed + 5.0, at(run, -600.0).at_utc)
    row = after_run(run).rows[0]
    assert (row.drawn_ml, row.mixed_ml, row.note) == (0.0, needed, "services.run_after.mixed")
    was = left("D")
    booked_as_proposed(run, now)
    assert left("D") == was
    second = ended(runs.open_planned(plan.pk, 2))
    other = after_run(second).rows[0]
    assert other.mixed_ml == 5.0
    assert other.drawn_ml == round(after_run(second).state.script.concentrate_ml - 5.0, 1)
    runs_booked.unbook_run(run, now)
    assert after_run(runs.find_run(second.pk)).rows[0].mixed_ml > 5.0


def test_a_mix_that_stands_in_its_own_bottle_is_drawn_from_there(run, now) -> None:
    """Mixed from D into W before the run: the run takes its working solution from W, and nothing more from D."""
    bottle = models.Bottle.kept.get(mark="D")
    ready = make(models.Bottle, {"mark": "W", "holds": "Brackwater 1+14", "role": "developer", "form": "working"})
    when = at(run, -600.0).at_utc
    drawn_by_mixing(bottle, 60.0, when, ready)
    book(ready.pk, NewLine("filled", 900.0, drawn_for=ready.pk), when)
    row = after_run(run).rows[0]
    assert (row.bottle.mark, row.drawn_ml, row.note) == ("W", row.volume_ml, "services.run_after.from_mix")
    was = left("D")
    booked_as_proposed(run, now)
    assert (left("D"), left("W")) == (was, 900.0 - row.volume_ml)


def test_a_mixing_at_the_shelf_is_known_to_the_run(run, now) -> None:
    """Booked as the mixing page does it, the last of an older bottle with the rest from the plan's own."""
    own = models.Bottle.kept.get(mark="D")
    make(models.Bottle, {"mark": "D0", "holds": own.holds, "role": "developer", "mixed": dt.date(2026, 1, 1)})
    old = models.Bottle.kept.get(mark="D0")
    book(old.pk, NewLine("filled", 5.0), now)
    row = after_run(run).rows[0]
    ask = read_entry(MixAsk, {"what": own.holds, "dilution": "1+14", "volume": f"{row.volume_ml:g} ml"})
    amounts = {old.pk: 5.0, own.pk: row.drawn_ml - 5.0}
    mixed = propose(ask, dt.date(2026, 1, 2), amounts)
    book_mixing(mixed, read_entry(Target, {}), at(run, -900.0).at_utc, dt.date(2026, 1, 2))
    after = after_run(run).rows[0]
    assert (after.drawn_ml, after.mixed_ml) == (0.0, row.drawn_ml)
    was = left("D"), left("D0")
    booked_as_proposed(run, now)
    assert (left("D"), left("D0")) == was


def test_an_old_mixing_is_for_another_evening(run) -> None:
    """The day before."""
    drawn_by_mixing(models.Bottle.kept.get(mark="D"), 30.0, at(run, -86_400.0).at_utc)
    assert after_run(run).rows[0].mixed_ml == 0.0


def test_mistakes_stand_beside_their_fields_and_nothing_is_written(run, now) -> None:
    """More than there is, film without a bottle, fixer into the developer's waste, more back than out."""
    vessel = waste("waste-developer", "WD")
    proposal = runs_booked.booking_of(after_run(run))
    (developer, first), (stop, second), (fixer, third) = proposal.baths
    count = models.BottleLine.objects.count()

    def refused(name: str, bath: runs_booked.BathBooked) -> tuple[str, str]:
        wanted = {**dict(proposal.baths), name: bath}
        with pytest.raises(WetsideError) as error:
            runs_booked.book_run(run, proposal._replace(baths=tuple(wanted.items())), now)
        return error.value.code, error.value.place.field

    from dataclasses import replace

    assert refused(developer, replace(first, drawn_ml=9000.0)) == ("services.ledger.not_enough", f"{developer}.drawn")
    assert refused(stop, replace(second, bottle=None)) == ("services.run_after.no_bottle", f"{stop}.bottle")
    wrong = replace(third, waste=str(vessel.pk), waste_ml=10.0)
    assert refused(fixer, wrong) == ("services.run_after.other_waste", f"{fixer}.waste")
    assert refused(fixer, replace(third, returned_ml=600.0)) == ("services.run_after.more_back", f"{fixer}.returned")
    assert refused(stop, replace(second, bottle=str(vessel.pk)))[0] == "services.run_after.from_waste"
    assert models.BottleLine.objects.count() == count
    typed = {f"{developer}.drawn": "much", f"{fixer}.tabular": "-1", "water": "wet"}
    with pytest.raises(ManyErrors) as many:
        runs_booked.booking_of_posted([developer, fixer], typed)
    assert {one.place.field for one in many.value.errors} == {f"{developer}.drawn", f"{fixer}.tabular", "water"}


def test_bottles_that_are_not_there_or_not_counted_are_said(run) -> None:
    """Emptied meanwhile, or never counted: nothing is drawn by itself."""
    change(models.Bottle.kept.get(mark="S"), {"removed_at": dt.datetime(2031, 1, 1, tzinfo=dt.UTC)})
    make(models.Bottle, {"mark": "S2", "holds": "Stop"})
    models.Bottle.objects.filter(mark="F").update(left_ml=None)
    developer, stop, fixer = after_run(run).rows
    assert (stop.bottle, stop.mark, stop.drawn_ml, stop.note) == (None, "S", 0.0, "services.run_after.not_on_shelf")
    assert (fixer.drawn_ml, fixer.note) == (0.0, "services.run_after.not_counted")
    assert developer.note == "services.run_after.no_waste_developer"


def test_a_run_of_four_words_asks_which_bottles(now) -> None:
    """No bottle is named, so none is touched unless somebody says so."""
    run = runs.open_quick("Tolland 100", "Brackwater 1+14", 480.0)
    runs.hand_over(run, [done(run, 1, "1.full", 20.0), done(run, 2, "hang", 2000.0)])
    after = after_run(runs.find_run(run.pk))
    assert [(row.bottle, row.drawn_ml) for row in after.rows] == [(None, 0.0)] * 3
    assert booked_as_proposed(run, now).lines == ()
    assert runs_booked.booked_of(runs.find_run(run.pk)) is not None


def test_hanging_gives_each_negative_its_number(run, plan) -> None:
    """In the darkroom's own way of counting; the order is a fact of the run, the number one of the sheet."""
    other = models.Sheet.kept.exclude(pk__in=[one.pk for one in sheets_of_run(run).values()]).first()
    change(other, {"negative": "B 041"})
    hanging = runs_hung.hanging_of(run)
    names = [one.name for one in hanging.sheets]
    assert hanging.numbers == tuple(f"B {number:03d}" for number in range(42, 42 + len(names)))
    order = list(reversed(names))
    runs_hung.hang(run, order, hanging.numbers, at(run, 3100.0))
    assert runs.standing(run).state.order == tuple(order)
    assert [sheets_of_run(run)[name].negative for name in order] == list(hanging.numbers)
    assert runs_hung.hanging_of(run).numbers == hanging.numbers
    assert sheets_of_run(run)[names[0]].history.first().history_change_reason == f"hung: {run.name}"


def test_order_unknown_is_an_answer(run) -> None:
    """No sheet gets a number, because nobody knows whose it would be; it can be told later."""
    hanging = runs_hung.hanging_of(run)
    names = [one.name for one in hanging.sheets]
    found = runs_hung.hang(run, None, hanging.numbers, at(run, 3100.0))
    assert (found.identified, found.order) == (True, None)
    assert {sheet.negative for sheet in sheets_of_run(run).values()} == {""}
    assert runs_hung.hang(run, names, hanging.numbers, at(run, 90_000.0)).order == tuple(names)


def test_clips_are_asked_one_by_one(run) -> None:
    """None left out, none twice; nothing is written else."""
    names = [one.name for one in runs_hung.hanging_of(run).sheets]
    events = run.events.count()
    with pytest.raises(WetsideError) as empty:
        runs_hung.hang(run, ["", *names[1:]], (), at(run, 3100.0))
    assert (empty.value.code, empty.value.place.field) == ("services.run_after.clip_empty", "clip.1")
    with pytest.raises(WetsideError) as twice:
        runs_hung.hang(run, [*names[:-1], names[0]], (), at(run, 3100.0))
    assert (twice.value.code, twice.value.place.field) == ("services.run_after.clip_twice", f"clip.{len(names)}")
    assert code(lambda: runs_hung.hang(run, names[:-1], (), at(run, 3100.0))) == "services.run_after.clips"
    assert run.events.count() == events


def test_notches_tell_sheets_apart(run) -> None:
    """A notch that only one holder has; two sides of one holder have the same."""
    names = [one.name for one in runs_hung.hanging_of(run).sheets]
    for number, notch in (("1", "v"), ("2", "w")):
        holder = models.Holder.kept.filter(name_key=number).first() or make(models.Holder, {"name": number})
        change(holder, {"notch": notch})
    found = {one.name: one for one in runs_hung.hanging_of(run).sheets}
    assert {found[name].notch for name in names if name.startswith("1 ")} <= {"v"}
    assert {found[name].notch for name in names if name.startswith("2 ")} <= {"w"}
    for name in names:
        same = [
            other for other in names if (found[other].film, found[other].notch) == (found[name].film, found[name].notch)
        ]
        assert found[name].alike == (len(same) > 1)


def test_how_long_the_vessel_dried_is_kept(run) -> None:
    """From the last liquid that left it to the tap; nonsense is refused."""
    from wetside.services.records.runs_after import emptied_s

    empty_s = emptied_s(after_run(run).schedule)
    dried = runs_booked.mark_dry(run, at(run, empty_s + 700.0))
    assert dried.facts["dried_s"] == 700
    assert code(lambda: runs_booked.mark_dry(run, at(run, empty_s + 5.0))) == "services.run_after.dry_time"


@pytest.mark.django_db(transaction=True)
def test_two_pages_that_book_at_once_book_once(now) -> None:
    """The second finds what the first has written; the row of the run is locked meanwhile."""
    if connection.vendor == "sqlite":
        pytest.skip("tests run on SQLite in memory, which has one writer")
    run = ended(runs.open_planned(plans_frozen.freeze(demo.make_demo()).pk, 1))
    wanted = runs_booked.booking_of(after_run(run))

    def press(_: int) -> list[str]:
        booked = runs_booked.book_run(run, wanted, now)
        connection.close()
        return sorted(str(line.pk) for line in booked.lines)

    with ThreadPoolExecutor(4) as pages:
        first, *others = pages.map(press, range(4))
    assert all(other == first for other in others)
    assert models.BottleLine.objects.filter(note=run.name).count() == len(first) == 7
