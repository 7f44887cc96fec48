"""The booking's page: what follows a changed amount, live and by the plain form; film that a run does not know."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from tests.fixtures.run_logs import facts_of, log_of, quick
from tests.web.test_runs_after import ended, fields_of, text

from wetside.records import models
from wetside.runs.fact import Fact
from wetside.runs.script import RunSheet
from wetside.services.records import demo, plans_frozen, runs, short_way
from wetside.services.records.changes import make, remove
from wetside.services.records.runs_taken import take_log
from wetside.services.records.runs_tied import Ties
from wetside.services.records.sheets import add_sheet

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("opened_long_ago")]
MOST_QUERIES = 12


@pytest.fixture
def run():
    for mark, role in (("WD", "waste-developer"), ("WF", "waste-fixer")):
        make(models.Bottle, {"mark": mark, "holds": "waste", "role": role})
    return ended(runs.open_planned(plans_frozen.freeze(demo.make_demo()).pk, 1))


@pytest.fixture
def at_once():
    run = runs.open_quick("Tolland 100", "Brackwater 1+14", 480.0)
    opened = run.events.get(seq=1)
    facts = []
    for number, (act, seconds) in enumerate((("1.full", 20.0), ("hang", 2000.0)), 1):
        when = opened.at_utc + dt.timedelta(seconds=seconds)
        facts.append(Fact("done", 1, when, opened.boot_s + seconds, opened.boot_id, "a" * 32, number, {"act": act}))
    runs.hand_over(run, facts)
    return runs.find_run(run.pk)


def mark(key: str) -> str:
    return models.Bottle.kept.get(pk=key).mark if key else ""


def test_by_the_plain_form_waste_follows_and_is_seen_before_it_is_booked(run, get, post) -> None:
    """450 of 500 ml back: the page comes again with 50 ml for WF, says so, and books nothing; then it is booked."""
    page = f"/runs/{run.pk}/after/"
    sent = fields_of(get(page))
    again = post(page, sent | {"b4.returned": "450"})
    assert again.status_code == 200
    assert "Reckoned anew from what you changed, and not booked yet: Fixer: Waste vessel" in text(again)
    assert "loses 50 ml and holds 950 ml then" in text(again)
    fresh = fields_of(again)
    assert (fresh["b4.returned"], mark(fresh["b4.waste"]), fresh["b4.wasted"]) == ("450", "WF", "50")
    assert models.BottleLine.objects.filter(note=run.name).count() == 0
    assert post(page, fresh).status_code == 302
    assert models.Bottle.kept.get(mark="WF").left_ml == 50.0
    assert models.Bottle.kept.get(mark="F").left_ml == 950.0


def test_a_hand_typed_waste_stays_however_often_the_page_comes_again(run, get, post) -> None:
    """45 ml typed; then more comes back; emptied by hand it stays empty, and what that leaves open is told."""
    page = f"/runs/{run.pk}/after/"
    fresh = fields_of(post(page, fields_of(get(page)) | {"b4.returned": "450"}))
    typed = fresh | {"b4.wasted": "45", "b2.drawn": "25"}
    again = fields_of(post(page, typed))
    assert (again["b4.wasted"], again["b4.wasted.shown"]) == ("45", "50")
    assert float(again["water"]) == float(fresh["water"]) - 5
    assert post(page, again).status_code == 302
    assert models.Bottle.kept.get(mark="WF").left_ml == 45.0
    post(f"{page}undo/")
    empty = post(page, fresh | {"b4.wasted": ""})
    assert empty.status_code == 422
    assert 'id="f-b4-wasted-m"' in empty.content.decode()
    assert "leave 50 ml unaccounted for" in text(empty)


def test_the_pages_script_is_answered_what_follows(run, get, post, django_assert_max_num_queries) -> None:
    """Values by field, what each bath comes to, mistakes at their fields; nothing is written."""
    page = f"/runs/{run.pk}/after/"
    sent = fields_of(get(page))
    with django_assert_max_num_queries(MOST_QUERIES):
        told = post(f"{page}reckon/", sent | {"b4.returned": "450"}).json()
    assert (told["values"]["b4.wasted"], told["values"]["b4.ordinary"], told["mistakes"]) == ("50", "0.84", {})
    assert "b4.returned" not in told["values"]
    assert "loses 50 ml and holds 950 ml" in told["told"]["b4"].replace("\N{NO-BREAK SPACE}", " ")
    wrong = post(f"{page}reckon/", sent | {"b4.returned": "600"}).json()
    assert list(wrong["mistakes"]) == ["b4.returned"]
    assert list(post(f"{page}reckon/", sent | {"b4.returned": "a lot"}).json()["mistakes"]) == ["b4.returned"]
    assert get(f"{page}reckon/").status_code == 405
    assert models.BottleLine.objects.filter(note=run.name).count() == 0
    post(page, sent)
    assert post(f"{page}reckon/", sent).json()["values"] == {}


def test_ounces_with_a_comma_follow_as_they_are_shown(run, get, post) -> None:
    """15,2 US fl oz are 449.5 ml back of 500: 50.5 ml, or 1,71 oz, to waste; as shown, so it is booked."""
    models.Darkroom.objects.create(units="us", decimal_sign="comma")
    page = f"/runs/{run.pk}/after/"
    fresh = fields_of(post(page, fields_of(get(page)) | {"b4.returned": "15,2"}))
    assert (fresh["b4.returned"], fresh["b4.wasted"], mark(fresh["b4.waste"])) == ("15,2", "1,71", "WF")
    assert post(page, fresh).status_code == 302
    assert models.Bottle.kept.get(mark="WF").left_ml == pytest.approx(1.71 * 29.5735, abs=0.001)


def test_a_bottle_that_left_the_shelf_is_told_at_its_field(run, get, post) -> None:
    """Nothing follows from a bottle that is not there; a waste vessel that is gone is replaced, and that is said."""
    page = f"/runs/{run.pk}/after/"
    sent = fields_of(get(page))
    remove(models.Bottle.kept.get(mark="F"), dt.datetime(2031, 11, 5, tzinfo=dt.UTC))
    told = post(page, sent)
    assert told.status_code == 422
    assert 'id="f-b4-bottle-m"' in told.content.decode()
    remove(models.Bottle.kept.get(mark="WD"), dt.datetime(2031, 11, 5, tzinfo=dt.UTC))
    make(models.Bottle, {"mark": "WE", "holds": "waste", "role": "waste-developer"})
    again = post(page, sent)
    assert "not booked yet: Developer: Waste vessel" in text(again)
    assert mark(fields_of(again)["b2.waste"]) == "WE"


def test_a_run_at_once_asks_for_its_film(at_once, get, post) -> None:
    """Rows for sheets; a bath that goes back is not booked without an answer; what was told stands in the books."""
    page = f"/runs/{at_once.pk}/after/"
    bottle = make(models.Bottle, {"mark": "FX", "holds": "fixer", "role": "fixer"})
    models.Bottle.objects.filter(pk=bottle.pk).update(left_ml=None)
    post(f"/shelf/bottles/{bottle.pk}/enter/counted/", {"volume": "1 l"})
    shown = get(page)
    assert "This run knows no sheets." in text(shown)
    rows = sorted({name.partition(".")[0] for name in fields_of(shown) if re.fullmatch(r"b\d+\.drawn", name)})
    row = rows[-1]
    sent = fields_of(shown) | {f"{row}.bottle": str(bottle.pk), f"{row}.drawn": "500"}
    sent = fields_of(post(page, sent))
    assert (sent[f"{row}.returned"], sent[f"{row}.ordinary"]) == ("500", "")
    asked = post(page, sent)
    assert asked.status_code == 422
    assert 'id="f-film-not-known-m"' in asked.content.decode()
    said = fields_of(post(page, sent | {"film1.count": "6", "film1.size": "4x5"}))
    assert said[f"{row}.ordinary"] == "1.5"
    assert post(page, said).status_code == 302
    assert "Film, as it was told: 6 of 4x5in, ordinary." in text(get(page))
    post(f"{page}undo/")
    assert post(page, sent | {"film_not_known": "on"}).status_code == 302
    assert "How much film went through is not known" in text(get(page))
    ledger = text(get(f"/shelf/bottles/{bottle.pk}/"))
    assert "film went through, how much is not known" in ledger
    assert "Film went through it in one run, and nobody knows how much" in ledger


def test_the_page_of_a_log_with_tied_sheets_asks_little(get, django_assert_max_num_queries) -> None:
    """At most twelve questions, and no question for the person."""
    names = [f"7 {number}" for number in range(8)]
    sheets = [add_sheet({"label": name, "film": "Tolland 100", "size": "4x5in"}, make_film=True) for name in names]
    script = quick()._replace(sheets=tuple(RunSheet(name) for name in names))
    ties = Ties(sheets={name: str(one.pk) for name, one in zip(names, sheets, strict=True)})
    run = take_log(log_of(facts_of(script)), "x.log", ties).run
    with django_assert_max_num_queries(MOST_QUERIES):
        shown = get(f"/runs/{run.pk}/after/")
    assert 'name="film_not_known"' not in shown.content.decode()


def test_the_page_of_a_short_plan_with_attached_sheets_asks_little(
    get, monkeypatch, django_assert_max_num_queries
) -> None:
    """At most twelve questions, with the exposures of eight records."""
    monkeypatch.setattr(short_way, "keep_files", lambda *_: ())
    answers = {"film": "Tolland 100", "developer": "Brackwater 1+14", "number": "8", "time": "8:00", "size": "4x5in"}
    plan = short_way.keep_short({**answers, "vessel": "drum 8 300-1000 ml"})
    light = {"meant": {"time": "1/4 s", "aperture": "f/16"}, "set": {"time": "1 s", "aperture": "f/16"}}
    given = {"film": "Tolland 100", "size": "4x5in", **light}
    sheets = [add_sheet({"label": f"c {number}", **given}, make_film=True) for number in range(8)]
    short_way.attach(plan, [str(one.pk) for one in sheets])
    run = ended(runs.open_planned(plan.pk, 1))
    with django_assert_max_num_queries(MOST_QUERIES):
        assert get(f"/runs/{run.pk}/after/").status_code == 200
