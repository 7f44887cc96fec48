"""What follows in a booking when one of its amounts is changed, against arithmetic by hand; sums that cannot be."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path

import pytest
from tests.records.test_runs_after import done, waste
from tests.records.test_runs_after import ended as ended_demo
from tests.records.test_runs_topped_up import ended as ended_replenished
from tests.records.test_runs_topped_up import frozen

from wetside.adapters.evening_file import evening_of_text
from wetside.errors import ManyErrors, WetsideError
from wetside.records import models
from wetside.services.records import demo, plans_frozen, runs, runs_booked
from wetside.services.records.changes import make
from wetside.services.records.evenings_import import take
from wetside.services.records.ledger import NewLine, book, unlike_its_ledger
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_followed import followed
from wetside.services.records.runs_sums import wrong_sums

pytestmark = pytest.mark.django_db
EXAMPLES = Path(__file__).parents[2] / "examples"
NOW = dt.datetime(2031, 11, 5, 9, 0, tzinfo=dt.UTC)
FIXER, STOP, DEVELOPER = "b4", "b3", "b2"
UNITS = 4 * 108.0 / 516.128
"""Four sheets of 9x12 cm, 108 cm2 each: 0.837 units."""
KEPT_ML = 10.0 + 4.0 * UNITS
"""Walls of a drum 10 ml (assumed), in and on a unit of film 2 + 2 ml (torzynski-2004): 13.3 ml."""


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    """Nothing is printed here."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


@pytest.fixture
def run():
    """The demo's first load: 500 ml of fixer and 400 ml of stop go back, 20 ml of developer in 300 ml go to waste."""
    waste("waste-developer", "WD")
    waste("waste-fixer", "WF")
    return ended_demo(runs.open_planned(plans_frozen.freeze(demo.make_demo()).pk, 1))


def changed(run, row: str, by_hand: str, **amounts: object):
    """Bath of a row after amounts of it were typed, and all that is told of it."""
    after = after_run(run)
    shown = runs_booked.booking_of(after)
    baths = {**dict(shown.baths), row: replace(dict(shown.baths)[row], **amounts)}
    found = followed(after, shown._replace(baths=tuple(baths.items())), {f"{row}.{name}" for name in by_hand.split()})
    return dict(found.booking.baths)[row], found


def told(found, row: str = FIXER) -> dict[str, dict[str, object]]:
    return {one.code.rpartition(".")[2]: dict(one.params) for one in found.told[row]}


def mark(key: str | None) -> str | None:
    return None if key is None else models.Bottle.kept.get(pk=key).mark


def test_untouched_a_booking_is_what_was_proposed(run) -> None:
    """Nothing follows where nothing was changed."""
    after = after_run(run)
    assert followed(after, runs_booked.booking_of(after), ()).booking == runs_booked.booking_of(after)
    assert wrong_sums(after, runs_booked.booking_of(after)) == ()
    assert after.film.kept_back_ml == pytest.approx(KEPT_ML, abs=0.001)


@pytest.mark.parametrize("vessels", [False, True])
@pytest.mark.parametrize("example", ["b1", "replenished", "schedule", "winter"])
def test_what_is_proposed_can_be_booked(example: str, vessels: bool) -> None:
    """Load by load of the examples: nothing follows from a proposal, its sums can be, and the books take it."""
    if vessels:
        waste("waste-developer", "WD")
        waste("waste-fixer", "WF")
    plan = plans_frozen.freeze(take(evening_of_text((EXAMPLES / example / "evening.toml").read_text("utf-8"))))
    for load in plan.runs.values_list("load", flat=True):
        run = runs.open_planned(plan.pk, load)
        runs.hand_over(run, [done(run, 1, "hang", 6000.0)])
        after = after_run(runs.find_run(run.pk))
        shown = runs_booked.booking_of(after)
        assert followed(after, shown, ()).booking == shown
        assert wrong_sums(after, shown) == ()
        booked = runs_booked.book_run(run, shown, NOW)
        assert booked.water_ml == shown.water_ml > 0
    assert unlike_its_ledger() == []


def test_less_poured_back_is_waste_and_the_bottle_loses_it(run) -> None:
    """500 - 450 = 50 ml to WF; F had 1000 ml: 1000 - 500 + 450 = 950. Film stays, it went through what came back."""
    fixer, found = changed(run, FIXER, "returned", returned_ml=450.0)
    assert (fixer.drawn_ml, fixer.returned_ml, mark(fixer.waste), fixer.waste_ml) == (500.0, 450.0, "WF", 50.0)
    assert fixer.ordinary == pytest.approx(0.84, abs=0.005)
    assert told(found) == {"loses": {"mark": "F", "loses_ml": 50.0, "left_ml": 950.0}}


def test_what_film_and_vessel_keep_is_no_waste(run) -> None:
    """500 - 487 = 13 ml is within the 13.3 ml that they keep; 500 - 486 = 14 ml is not, and all of it is waste."""
    kept, found = changed(run, FIXER, "returned", returned_ml=487.0)
    assert (kept.waste, kept.waste_ml) == (None, 0.0)
    assert told(found)["kept_back"] == {"missing_ml": 13.0, "most_ml": pytest.approx(KEPT_ML, abs=0.001)}
    more, found = changed(run, FIXER, "returned", returned_ml=486.0)
    assert (mark(more.waste), more.waste_ml) == ("WF", 14.0)
    assert "kept_back" not in told(found)


def test_nothing_poured_back_leaves_no_film_on_the_bottle(run) -> None:
    """All 500 ml are waste; what went through them is gone with them."""
    fixer, _ = changed(run, FIXER, "returned", returned_ml=0.0)
    assert (fixer.waste_ml, fixer.ordinary, fixer.tabular) == (500.0, 0.0, 0.0)


def test_what_was_typed_by_hand_stays(run) -> None:
    """40 ml of waste beside 450 ml back; a vessel that was taken away; film that somebody counted."""
    fixer, _ = changed(run, FIXER, "returned wasted", returned_ml=450.0, waste_ml=40.0)
    assert (mark(fixer.waste), fixer.waste_ml) == ("WF", 40.0)
    told_alone, _ = changed(run, FIXER, "wasted", waste_ml=40.0)
    assert (told_alone.returned_ml, mark(told_alone.waste), told_alone.waste_ml) == (460.0, "WF", 40.0)
    none, found = changed(run, FIXER, "returned waste", returned_ml=450.0)
    assert (none.waste, none.waste_ml) == (None, 0.0)
    assert told(found)["not_accounted"]["missing_ml"] == 50.0
    film, _ = changed(run, FIXER, "returned ordinary", returned_ml=450.0, ordinary=2.0)
    assert film.ordinary == 2.0


def test_what_was_drawn_is_what_goes_back(run) -> None:
    """480 ml drawn, 480 ml back; 480 ml drawn and 450 ml back are 30 ml of waste; 30 ml spilt of 500 leave 470."""
    assert changed(run, FIXER, "drawn", drawn_ml=480.0)[0].returned_ml == 480.0
    assert changed(run, FIXER, "drawn returned", drawn_ml=480.0, returned_ml=450.0)[0].waste_ml == 30.0
    spilt, _ = changed(run, FIXER, "", lost_ml=30.0)
    assert (spilt.returned_ml, spilt.waste_ml) == (470.0, 0.0)
    assert changed(run, FIXER, "returned", returned_ml=450.0, lost_ml=30.0)[0].waste_ml == 20.0


def test_more_concentrate_in_the_same_bath_is_less_water(run) -> None:
    """25 ml instead of 20: 5 ml less from the tap; the bath stays 300 ml, and so does its waste."""
    developer, found = changed(run, DEVELOPER, "drawn", drawn_ml=25.0)
    assert found.booking.water_ml == after_run(run).water_ml - 5.0
    assert (developer.waste_ml, developer.returned_ml, developer.ordinary) == (300.0, 0.0, 0.0)
    more_than_the_bath, found = changed(run, DEVELOPER, "drawn", drawn_ml=301.0)
    assert (more_than_the_bath.drawn_ml, found.booking.water_ml) == (301.0, after_run(run).water_ml)
    shown = runs_booked.booking_of(after_run(run))
    assert followed(after_run(run), shown._replace(water_ml=4000.0), {"water"}).booking.water_ml == 4000.0


def test_another_bottle_gives_what_the_bath_needs(run) -> None:
    """S2 gives the stop's 400 ml and takes them back; without a bottle nothing is drawn; too little is told."""
    other = make(models.Bottle, {"mark": "S2", "holds": "Stop", "role": "stop"})
    book(other.pk, NewLine("filled", 600.0), NOW)
    stop, found = changed(run, STOP, "", bottle=str(other.pk))
    assert (stop.drawn_ml, stop.returned_ml) == (400.0, 400.0)
    assert told(found, STOP)["loses_nothing"] == {"mark": "S2", "loses_ml": 0.0, "left_ml": 600.0}
    none, _ = changed(run, STOP, "", bottle=None)
    assert (none.drawn_ml, none.returned_ml, none.ordinary) == (0.0, 0.0, 0.0)
    book(other.pk, NewLine("drawn", 500.0), NOW)
    short, found = changed(run, STOP, "", bottle=str(other.pk))
    (wrong,) = wrong_sums(after_run(run), found.booking)
    assert (short.drawn_ml, wrong.code, wrong.place.field) == (400.0, "services.ledger.not_enough", f"{STOP}.drawn")


def test_a_top_up_that_is_changed_moves_the_bath() -> None:
    """30 ml of replenisher instead of 43.3: 300 - 30 = 270 ml go back, 30 to waste; 250 back by hand: 50 to waste."""
    waste("waste-developer", "WD")
    run = ended_replenished(frozen())
    after = after_run(run)
    shown = runs_booked.booking_of(after)
    baths = dict(shown.baths)
    developer = next(row.tops for row in after.rows if row.tops)
    top = f"{developer}t"
    baths[top] = replace(baths[top], drawn_ml=30.0)
    found = dict(followed(after, shown._replace(baths=tuple(baths.items())), {f"{top}.drawn"}).booking.baths)[developer]
    assert (found.returned_ml, found.waste_ml) == (270.0, 30.0)
    baths[developer] = replace(baths[developer], returned_ml=250.0)
    by_hand = {f"{top}.drawn", f"{developer}.returned"}
    moved = followed(after, shown._replace(baths=tuple(baths.items())), by_hand)
    assert dict(moved.booking.baths)[developer].waste_ml == 50.0
    # L had 1000 ml: 1000 - 300 + 250 + 30 of replenisher = 980.
    assert told(moved, developer)["loses"] == {"mark": "L", "loses_ml": 50.0, "left_ml": 980.0}
    runs_booked.book_run(run, moved.booking, NOW)
    assert models.Bottle.kept.get(mark="L").left_ml == pytest.approx(980.0)


@pytest.mark.parametrize(
    ("amounts", "code", "field"),
    [
        ({"returned_ml": 501.0}, "more_back", "returned"),
        ({"returned_ml": 450.0, "waste_ml": 60.0, "waste": "WF"}, "more_gone", "wasted"),  # 510 of 500
        ({"returned_ml": 490.0, "lost_ml": 12.0}, "more_gone", "lost"),  # 502 of 500
        ({"returned_ml": 450.0, "waste_ml": 20.0, "waste": "WF"}, "less_gone", "wasted"),  # 30 missing, 13.3 kept
        ({"returned_ml": 450.0, "waste_ml": 50.0}, "waste_whereto", "waste"),
        ({"returned_ml": 450.0, "waste_ml": 40.0, "waste": "WF"}, None, None),  # 10 missing, 13.3 kept
        ({"returned_ml": 450.0, "waste_ml": 20.0, "waste": "WF", "lost_ml": 30.0}, None, None),
        ({"returned_ml": 300.0}, None, None),  # no vessel collects it: where it went is nobody's word here
    ],
)
def test_a_difference_that_cannot_be_is_told_at_its_field(run, amounts, code, field) -> None:
    """More back than was poured, sums that miss each other by more than film and vessel keep: nothing is written."""
    if "waste" in amounts:
        amounts = {**amounts, "waste": str(models.Bottle.kept.get(mark=amounts["waste"]).pk)}
    shown = runs_booked.booking_of(after_run(run))
    baths = {**dict(shown.baths), FIXER: replace(dict(shown.baths)[FIXER], **amounts)}
    wanted = shown._replace(baths=tuple(baths.items()))
    before = models.BottleLine.objects.count()
    if code is None:
        assert runs_booked.book_run(run, wanted, NOW).lines
        return
    (seen,) = wrong_sums(after_run(run), wanted)
    with pytest.raises(WetsideError) as refused:
        runs_booked.book_run(run, wanted, NOW)
    assert not isinstance(refused.value, ManyErrors)
    for error in (seen, refused.value):
        assert (error.code, error.place.field) == (f"services.run_after.{code}", f"{FIXER}.{field}")
    assert models.BottleLine.objects.count() == before


def shelf() -> dict[str, tuple[object, ...]]:
    """Everything of each bottle that a booking could change."""
    rows = models.Bottle.objects.order_by("mark")
    return {one.mark: (one.left_ml, one.seen_units, one.emptied_at, one.removed_at, one.facts) for one in rows}


def test_undoing_brings_everything_back_exactly(run) -> None:
    """Bottles, waste vessels and the run's own facts stand as before; the books agree with their ledgers."""
    before, facts = shelf(), dict(runs.find_run(run.pk).facts)
    _, found = changed(run, FIXER, "returned", returned_ml=450.0, lost_ml=3.0)
    booked = runs_booked.book_run(run, found.booking, NOW)
    assert booked.lost == (("Fixer", 3.0),)
    assert models.Bottle.kept.get(mark="WF").left_ml == 47.0  # 500 - 450 - 3
    runs_booked.unbook_run(run, NOW)
    assert shelf() == before
    assert runs.find_run(run.pk).facts == facts
    assert unlike_its_ledger() == []
