"""A replenished developer after its run: the top-up offered, booked with the rest, and undone with it."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from pathlib import Path

import pytest

from wetside.adapters.evening_file import evening_of_text
from wetside.errors import WetsideError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.fact import Fact
from wetside.runs.moment import Moment
from wetside.services.records import plans_frozen, runs, runs_booked
from wetside.services.records.bottles import evening_bottles
from wetside.services.records.changes import change, make
from wetside.services.records.evenings_import import take
from wetside.services.records.ledger import NewLine, book, undo, unlike_its_ledger
from wetside.services.records.runs_after import after_run

pytestmark = pytest.mark.django_db
EXAMPLE = Path(__file__).parents[2] / "examples" / "replenished" / "evening.toml"
NOW = dt.datetime(2031, 11, 5, 9, 0, tzinfo=dt.UTC)
UNIT_ML = 26.0
"""Replenisher of the example for a unit of 516 cm2, four sheets of 4x5 in."""
DENSE = 1 + 1 / 3
"""A sheet one stop over weighs a third more (the cap and the slope of the agent's weight)."""
FIRST_ML = UNIT_ML / 4 * (2 * DENSE + 4)
"""Six sheets, two of them a stop over: 6.5 ml a plain sheet, 43.3 ml in all."""


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    """Nothing is printed here."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


def frozen(text: str = ""):
    return plans_frozen.freeze(take(evening_of_text(text or EXAMPLE.read_text(encoding="utf-8"))))


@pytest.fixture
def plan():
    return frozen()


def ended(plan, load: int = 1, lost: str = ""):
    run = runs.open_planned(plan.pk, load)
    if lost:
        runs.command(run, c.Lose(lost), at(run, 5.0))
    for number, (act, seconds) in enumerate((("1.full", 60.0), ("2.full", 600.0), ("hang", 3000.0)), 1):
        when = at(run, seconds)
        fact = Fact("done", 1, when.at_utc, when.boot_s, when.boot_id, "a" * 32, number, {"act": act})
        runs.hand_over(run, [fact])
    return runs.find_run(run.pk)


def at(run, seconds: float) -> Moment:
    opened = run.events.get(seq=1)
    return Moment(opened.at_utc + dt.timedelta(seconds=seconds), opened.boot_s + seconds, opened.boot_id)


def bottle(mark: str) -> models.Bottle:
    return models.Bottle.kept.get(mark=mark)


def waste() -> models.Bottle:
    return make(models.Bottle, {"mark": "WD", "holds": "waste", "role": "waste-developer"})


def rows_of(run):
    after = after_run(runs.find_run(run.pk))
    developer = next(row for row in after.rows if row.bath == "Developer")
    return developer, next((row for row in after.rows if row.tops), None)


def booked(run, when=NOW):
    return runs_booked.book_run(run, runs_booked.booking_of(after_run(run)), when)


def test_the_top_up_is_offered_with_room_made_for_it(plan) -> None:
    """43.3 ml by hand; of the 300 ml that were poured 257 go back, whole ml as a measure shows."""
    waste()
    developer, topped = rows_of(ended(plan))
    assert pytest.approx(FIRST_ML, abs=0.01) == 43.33
    assert (topped.bottle.mark, topped.drawn_ml, topped.tops) == ("R", 43.3, developer.name)
    assert topped.told["bath_ml"] == 1000.0
    assert (developer.drawn_ml, developer.returned_ml) == (300.0, 257.0)
    assert (developer.waste.mark, developer.waste_ml) == ("WD", 43.0)


def test_it_is_booked_in_one_act_and_undone_with_it(plan) -> None:
    """L stands at its mark, R gave what L took, what was over went to waste; and back to what it was."""
    waste()
    run = ended(plan)
    lines = booked(run).lines
    held = {mark: bottle(mark).left_ml for mark in ("L", "R", "WD")}
    assert held == pytest.approx({"L": 1000.3, "R": 600.0 - 43.3, "WD": 43.0})
    assert [(line.kind, line.bottle.mark) for line in lines if line.drawn_for_id] == [("drawn", "R"), ("filled", "L")]
    assert {line.drawn_for_id for line in lines if line.drawn_for_id} == {bottle("L").pk}
    assert booked(runs.find_run(run.pk)).lines[0].pk == lines[0].pk
    runs_booked.unbook_run(run, NOW)
    assert {mark: bottle(mark).left_ml for mark in ("L", "R", "WD")} == {"L": 1000.0, "R": 600.0, "WD": None}
    assert unlike_its_ledger() == []
    assert len(booked(runs.find_run(run.pk)).lines) == len(lines)


def test_either_line_undone_on_its_page_undoes_both_and_the_rest_can_follow(plan) -> None:
    """The pair is one act; the booking's own undoing then leaves it alone."""
    run = ended(plan)
    lines = booked(run).lines
    undo(next(line for line in lines if line.bottle.mark == "R").pk, NOW)
    assert (bottle("L").left_ml, bottle("R").left_ml) == pytest.approx((957.0, 600.0))
    runs_booked.unbook_run(run, NOW)
    assert (bottle("L").left_ml, bottle("R").left_ml) == (1000.0, 600.0)
    assert unlike_its_ledger() == []


def test_each_load_is_topped_up_for_itself(plan) -> None:
    """Two plain sheets: 13 ml, and the mark is still the litre."""
    booked(ended(plan))
    developer, topped = rows_of(ended(plan, 2))
    assert topped.drawn_ml == UNIT_ML / 4 * 2 == 13.0
    assert developer.returned_ml == 287.0


def test_a_lost_sheet_asks_for_nothing(plan) -> None:
    """Five sheets, two of them a stop over: 6.5 ml less."""
    _, topped = rows_of(ended(plan, lost="3 left"))
    assert topped.drawn_ml == pytest.approx(FIRST_ML - 6.5, abs=0.05)


def test_below_its_mark_the_bath_is_filled_first(plan) -> None:
    """30 ml were carried out before: only 13 ml of the 43 find no room."""
    book(bottle("L").pk, NewLine("counted", 970.0), NOW)
    waste()
    developer, topped = rows_of(ended(plan))
    assert (topped.drawn_ml, developer.returned_ml, developer.waste_ml) == (43.3, 287.0, 13.0)


def test_without_a_waste_vessel_it_is_said(plan) -> None:
    """What is over is not poured back, and where it may go is asked."""
    developer, _ = rows_of(ended(plan))
    assert (developer.returned_ml, developer.waste, developer.waste_ml) == (257.0, None, 0.0)
    assert developer.note == "services.run_after.no_waste_developer"


def test_a_bottle_that_lacks_is_one_clear_question(plan) -> None:
    """No replenisher on the shelf, too little of it, one that nobody counted: each is said, nothing is made up."""
    run = ended(plan)
    book(bottle("R").pk, NewLine("counted", 20.0), NOW)
    developer, topped = rows_of(run)
    assert (topped.drawn_ml, topped.note) == (20.0, "services.run_after.top_up_short")
    assert developer.returned_ml == 280.0
    models.Bottle.objects.filter(mark="R").update(left_ml=None)
    assert rows_of(run)[1].note == "services.run_after.top_up_not_counted"
    change(bottle("R"), {"removed_at": NOW})
    developer, topped = rows_of(run)
    assert (topped.bottle, topped.drawn_ml, topped.note) == (None, 0.0, "services.run_after.top_up_no_bottle")
    assert developer.returned_ml == 300.0
    assert [line.kind for line in booked(run).lines if line.bottle.mark == "L"] == ["drawn", "film", "returned"]


def test_the_oldest_bottle_that_holds_enough_gives_it(plan) -> None:
    """One of January with 10 ml, one of March with enough, and R without a date."""
    for mark, month, held in (("R1", 1, 10.0), ("R2", 3, 100.0)):
        other = make(models.Bottle, {"mark": mark, "holds": "Longmere replenisher", "mixed": dt.date(2026, month, 1)})
        book(other.pk, NewLine("filled", held), NOW)
    assert rows_of(ended(plan))[1].bottle.mark == "R2"


def test_without_a_rate_the_page_asks_for_it() -> None:
    """None ships and none is made up: the row stands there without an amount."""
    text = EXAMPLE.read_text(encoding="utf-8").replace('replenisher = "26 ml per unit"\n', "")
    _, topped = rows_of(ended(frozen(text)))
    assert (topped.bottle, topped.drawn_ml, topped.note) == (None, 0.0, "planning.course.no_replenisher")


def test_a_developer_that_is_not_replenished_has_no_such_row() -> None:
    """Used again, as it stands."""
    text = EXAMPLE.read_text(encoding="utf-8").replace('way = "replenished"\nbaths', "baths")
    text = text.replace(', way = "replenished"', "")
    assert rows_of(ended(frozen(text)))[1] is None


def test_mistakes_stand_beside_their_fields_and_nothing_is_written(plan) -> None:
    """The bath's bottle left out, replenisher out of the bath itself, more than there is."""
    run = ended(plan)
    developer, topped = rows_of(run)
    proposal = runs_booked.booking_of(after_run(run))
    baths = dict(proposal.baths)
    count = models.BottleLine.objects.count()

    def refused(**other) -> tuple[str, str]:
        with pytest.raises(WetsideError) as error:
            runs_booked.book_run(run, proposal._replace(baths=tuple({**baths, **other}.items())), NOW)
        return error.value.code, error.value.place.field

    nothing = runs_booked.BathBooked()
    assert refused(**{developer.name: nothing}) == ("services.run_after.top_up_whereto", f"{developer.name}.bottle")
    itself = replace(baths[topped.name], bottle=str(bottle("L").pk))
    assert refused(**{topped.name: itself}) == ("services.run_after.top_up_itself", f"{topped.name}.bottle")
    much = replace(baths[topped.name], drawn_ml=700.0)
    assert refused(**{topped.name: much}) == ("services.ledger.not_enough", f"{topped.name}.drawn")
    assert models.BottleLine.objects.count() == count


def test_what_went_in_is_counted_on_the_bottle(plan) -> None:
    """1300 ml before, 43.3 and 13 ml by two runs: the next plan reckons with 1356.3 ml; undone, with 1343.3 again."""
    booked(ended(plan))
    assert bottle("L").facts["replenished"] == "1343.3 ml"
    second = ended(plan, 2)
    line = next(line for line in booked(second, NOW + dt.timedelta(hours=1)).lines if line.bottle.mark == "R")
    (raw,) = (row for row in evening_bottles().values() if row["mark"] == "L")
    assert raw["replenished"] == "1356.3 ml"
    undo(line.pk, NOW)
    assert bottle("L").facts["replenished"] == "1343.3 ml"
    runs_booked.unbook_run(second, NOW)
    assert bottle("L").facts["replenished"] == "1343.3 ml"


def test_what_nobody_said_is_not_counted() -> None:
    """Without a history the bath's state stays unknown."""
    run = ended(frozen(EXAMPLE.read_text(encoding="utf-8").replace('replenished = "1300 ml"\n', "")))
    assert booked(run).lines
    assert "replenished" not in bottle("L").facts


def test_a_published_rate_is_drawn_as_printed() -> None:
    """A litre for 3100 square inches (new-mexico-20-3-6-612, READ): six sheets of 20, two by 4/3, are 43.01 ml."""
    rate = 1000.0 / (3100.0 * 6.4516)
    text = EXAMPLE.read_text(encoding="utf-8").replace('"26 ml per unit"', f'"{rate * 516.128:.4f} ml per unit"')
    _, topped = rows_of(ended(frozen(text)))
    by_hand = 1000.0 * 20.0 * (4 + 2 * DENSE) / 3100.0
    assert by_hand == pytest.approx(43.01, abs=0.005)
    assert topped.drawn_ml == round(by_hand, 1) == 43.0


def test_the_top_up_is_not_taken_for_a_mixing_of_the_next_run(plan) -> None:
    """What a run has booked itself is no drawing at the bench."""
    booked(ended(plan))
    developer, _ = rows_of(ended(plan, 2))
    assert (developer.mixed_ml, developer.bottle.mark) == (0.0, "L")
