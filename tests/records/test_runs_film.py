"""Film of runs without a full plan: from the records that are attached, from what is said, or told as not known."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from tests.fixtures.run_logs import facts_of, log_of, quick
from tests.records.test_runs_after import at, done

from wetside.errors import WetsideError
from wetside.planning.documents.words import BathKind
from wetside.records import models
from wetside.runs.script import RunSheet
from wetside.services.records import plans_frozen, runs, runs_booked, short_way
from wetside.services.records.bottles_entries import FilmEntry, read_entry
from wetside.services.records.bottles_judged import Tables, judge, unknown_film
from wetside.services.records.changes import change, make
from wetside.services.records.ledger import NewLine, book, lines_of, unlike_its_ledger
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_followed import followed
from wetside.services.records.runs_taken import take_log
from wetside.services.records.runs_tied import Ties
from wetside.services.records.sheets import add_sheet

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2031, 11, 5, 9, 0, tzinfo=dt.UTC)
UNIT_CM2 = 516.128
SMALL = 101.6 * 127.0 / 100 / UNIT_CM2
"""A sheet of 4x5 in: 129.03 cm2, a quarter of a unit."""
TWO_OVER = {"meant": {"time": "1/4 s", "aperture": "f/16"}, "set": {"time": "1 s", "aperture": "f/16"}}
"""Four times the light: two stops over; such a sheet leaves 1 - 2 / 15 of the silver, 0.867 (assumed)."""
QUICK = {"film": "Tolland 100", "developer": "Brackwater 1+14", "number": "2", "time": "8:00", "size": "4x5in"}


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    """Nothing is printed here."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())
    monkeypatch.setattr(short_way, "keep_files", lambda *_: ())


def sheet(label: str, film: str, size: str = "4x5in", **more: object) -> models.Sheet:
    return add_sheet({"label": label, "film": film, "size": size, **more}, make_film=True)


def bottle(mark: str, role: str, amount_ml: float) -> models.Bottle:
    found = make(models.Bottle, {"mark": mark, "holds": role, "role": role, "form": "working"})
    book(found.pk, NewLine("filled", amount_ml), NOW)
    return models.Bottle.kept.get(pk=found.pk)


def at_once() -> models.Run:
    run = runs.open_quick("Tolland 100", "Brackwater 1+14", 480.0)
    runs.hand_over(run, [done(run, 1, "1.full", 20.0), done(run, 2, "hang", 2000.0)])
    return runs.find_run(run.pk)


def fixer_back(run, fixer: models.Bottle, **said: object):
    """Booking of a run whose 500 ml of fixer came from a bottle and went back, with what follows."""
    after = after_run(run)
    row = next(row for row in after.rows if row.kind is BathKind.FIX)
    shown = runs_booked.booking_of(after)._replace(**said)
    bath = replace(dict(shown.baths)[row.name], bottle=str(fixer.pk), drawn_ml=500.0)
    baths = {**dict(shown.baths), row.name: bath}
    found = followed(after, shown._replace(baths=tuple(baths.items())), {f"{row.name}.drawn"})
    return row.name, found.booking


def film(count: int, size: str, film_class: str = "ordinary") -> FilmEntry:
    return read_entry(FilmEntry, {"count": count, "size": size, "class": film_class})


def test_a_log_counts_the_sheets_that_were_tied_to_it() -> None:
    """Size, exposure and class come from the records: 0.25 x 0.867 ordinary and 0.25 tabular in the fixer."""
    names = ("7 left", "7 right")
    first, second = sheet(names[0], "Tolland 100", **TWO_OVER), sheet(names[1], "Ashgrove T")
    change(models.Film.kept.get(name="Ashgrove T"), {"facts": {"fixing": "tabular"}})
    script = quick()._replace(sheets=tuple(RunSheet(name) for name in names))
    ties = Ties(sheets={names[0]: str(first.pk), names[1]: str(second.pk)})
    run = take_log(log_of(facts_of(script)), "x.log", ties).run
    found = after_run(run).film
    assert (found.asked, found.from_records, found.named) == (False, True, 2)
    assert found.units(BathKind.FIX) == (round(SMALL * (1 - 2 / 15), 2), round(SMALL, 2)) == (0.22, 0.25)
    assert found.units(BathKind.DEVELOP) == (0.25, 0.25)
    assert found.kept_back_ml == pytest.approx(10.0 + 4.0 * 2 * SMALL, abs=0.001)
    fixer = bottle("FX", "fixer", 1000.0)
    name, booking = fixer_back(run, fixer)
    assert (dict(booking.baths)[name].ordinary, dict(booking.baths)[name].tabular) == (0.22, 0.25)
    runs_booked.book_run(run, booking, NOW)
    fixer.refresh_from_db()
    assert (fixer.left_ml, fixer.seen_units) == (1000.0, pytest.approx(0.47))
    assert not unknown_film(lines_of([fixer.pk])[fixer.pk])
    runs_booked.unbook_run(run, NOW)
    fixer.refresh_from_db()
    assert (fixer.left_ml, fixer.seen_units) == (1000.0, 0.0)


def test_sheets_of_a_log_whose_size_nobody_knows_are_asked_for() -> None:
    """Their labels are told; what is said of them counts beside what is known."""
    script = quick()._replace(sheets=(RunSheet("7 left", "Tolland 100", 129.032), RunSheet("7 right", "Tolland 100")))
    run = take_log(log_of(facts_of(script)), "x.log").run
    found = after_run(run).film
    assert (found.asked, found.unmeasured) == (True, ("7 right",))
    assert found.with_said([film(1, "4x5in")]).units(BathKind.STOP) == (0.5, 0.0)
    name, booking = fixer_back(run, bottle("FX", "fixer", 1000.0))
    assert dict(booking.baths)[name].ordinary == 0.25
    with pytest.raises(WetsideError) as asked:
        runs_booked.book_run(run, booking, NOW)
    assert (asked.value.code, asked.value.place.field) == ("services.run_after.film_asked", "film_not_known")


def test_a_short_plan_counts_what_was_attached_to_it_later() -> None:
    """Its plan knows two sheets and nothing of their light: one of them got two stops more, the film is tabular."""
    plan = short_way.keep_short({**QUICK, "vessel": "drum 6 300-1000 ml"})
    run = runs.open_planned(plan.pk, 1)
    runs.hand_over(run, [done(run, 1, "hang", 3000.0)])
    assert after_run(runs.find_run(run.pk)).film.units(BathKind.FIX) == (0.5, 0.0)
    mine = [sheet("a", "Tolland 100", **TWO_OVER), sheet("b", "Tolland 100")]
    record = models.Film.kept.get(name="Tolland 100")
    change(record, {"facts": {**record.facts, "fixing": "tabular"}})
    short_way.attach(plan, [str(one.pk) for one in mine])
    found = after_run(runs.find_run(run.pk)).film
    assert found.from_records
    assert found.units(BathKind.FIX) == (0.0, round(SMALL * (2 - 2 / 15), 2)) == (0.0, 0.47)
    assert found.units(BathKind.STOP) == (0.0, 0.5)


def test_of_a_run_at_once_a_person_says_what_went_through() -> None:
    """Two ordinary 4x5 in and one tabular 8x10 in: 0.5 and 1.0 units; they may keep 10 + 4 x 1.5 = 16 ml."""
    run = at_once()
    fixer = bottle("FX", "fixer", 1000.0)
    said = (film(2, "4x5in"), film(1, "8x10in", "tabular"))
    name, booking = fixer_back(run, fixer, film=said)
    bath = dict(booking.baths)[name]
    assert (bath.returned_ml, bath.ordinary, bath.tabular) == (500.0, 0.5, 1.0)
    assert after_run(run).film.with_said(said).kept_back_ml == pytest.approx(16.0)
    booked = runs_booked.book_run(run, booking, NOW)
    assert booked.film == ((2, "4x5in", "ordinary"), (1, "8x10in", "tabular"))
    assert [(line.kind, line.area_units, line.film_class) for line in booked.lines if line.kind == "film"] == [
        ("film", 0.5, "ordinary"),
        ("film", 1.0, "tabular"),
    ]


def test_not_known_is_an_answer_and_the_bottle_says_so() -> None:
    """A line without an amount: the bottle is judged by what is known, and told that it may be nearer to its end."""
    run = at_once()
    fixer = bottle("FX", "fixer", 1000.0)
    _, booking = fixer_back(run, fixer)
    with pytest.raises(WetsideError) as asked:
        runs_booked.book_run(run, booking, NOW)
    assert asked.value.place.field == "film_not_known"
    booked = runs_booked.book_run(run, booking._replace(film_not_known=True), NOW)
    assert booked.film_not_known
    assert [line.kind for line in booked.lines] == ["drawn", "film", "returned"]
    ledger = lines_of([fixer.pk])[fixer.pk]
    fixer.refresh_from_db()
    assert (unknown_film(ledger), fixer.seen_units) == (1, 0.0)
    told = {line.code: line.params for line in judge(fixer, ledger, Tables((), ()), NOW.date()).lines}
    assert told["services.judged.film_unknown"] == {"runs": "one run"}
    runs_booked.unbook_run(run, NOW)
    assert unknown_film(lines_of([fixer.pk])[fixer.pk]) == 0
    assert unlike_its_ledger() == []


def test_of_a_concentrate_nobody_knows_how_much_it_made() -> None:
    """20 ml of it were some bath: no waste is proposed, and any amount of it is taken; 300 ml as it stands are 300."""
    make(models.Bottle, {"mark": "WD", "holds": "waste", "role": "waste-developer"})
    run = at_once()
    after = after_run(run)
    row = next(row for row in after.rows if row.kind is BathKind.DEVELOP)
    proposed = runs_booked.booking_of(after)
    own = bottle("W", "developer", 1000.0)
    concentrate = make(models.Bottle, {"mark": "C", "holds": "Brackwater", "role": "developer", "form": "concentrate"})
    book(concentrate.pk, NewLine("filled", 100.0), NOW)
    after = after_run(run)

    def waste_ml(found: models.Bottle, drawn_ml: float, *by_hand: str, waste_ml: float = 0.0):
        bath = replace(dict(proposed.baths)[row.name], bottle=str(found.pk), drawn_ml=drawn_ml, waste_ml=waste_ml)
        wanted = proposed._replace(baths=((row.name, bath),))
        names = {f"{row.name}.{name}" for name in ("drawn", *by_hand)}
        return followed(after, wanted, names).booking

    assert dict(waste_ml(concentrate, 20.0).baths)[row.name].waste_ml == 0.0
    assert dict(waste_ml(own, 300.0).baths)[row.name].waste_ml == 300.0
    told = waste_ml(concentrate, 20.0, "wasted", waste_ml=290.0)
    assert runs_booked.book_run(run, told, NOW).lines[-1].change_ml == 290.0


def test_film_that_is_told_and_told_as_not_known_is_refused() -> None:
    """One of the two; and half a row is told at its field."""
    rows = {"film1.count": "2", "film1.size": "4x5in", "film1.class": "ordinary", "film_not_known": "on"}
    with pytest.raises(WetsideError) as both:
        runs_booked.booking_of_posted([], rows)
    assert (both.value.code, both.value.place.field) == ("services.run_after.film_both", "film_not_known")
    with pytest.raises(WetsideError) as half:
        runs_booked.booking_of_posted([], {"film2.count": "2", "film2.class": "tabular"})
    assert half.value.place.field == "film2.size"
    assert runs_booked.booking_of_posted([], {"film1.class": "ordinary"}).film == ()


def test_a_lost_sheet_has_fixed_nothing() -> None:
    """It was told lost before any liquid."""
    from wetside.runs import commands as c

    plan = short_way.keep_short({**QUICK, "vessel": "drum 6 300-1000 ml"})
    run = runs.open_planned(plan.pk, 1)
    runs.command(run, c.Lose(runs.standing(run).state.sheets[0]), at(run, 5.0))
    runs.hand_over(run, [done(run, 1, "hang", 3000.0)])
    assert after_run(runs.find_run(run.pk)).film.units(BathKind.FIX) == (0.25, 0.0)
