"""Pages of runs under hard hands: what cannot be is refused in a sentence that is seen, and nothing is half-written."""

from __future__ import annotations

import copy
import datetime as dt
import re
import uuid
from typing import TYPE_CHECKING

import pytest
from tests.fixtures.run_records import develop, moment_of_run

from wetside.adapters.machine_clock import moment_now
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.moment import Moment
from wetside.services.records import demo, plans_frozen, runs
from wetside.services.records.runs_sheets import sheets_of_run

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}
PAGES = ("", "after/", "hanging/", "look/", "loading/", "dark/")


@pytest.fixture(autouse=True)
def _evening(settings, tmp_path, monkeypatch) -> None:
    """Runs were opened hours ago; freezing leaves its files out."""
    now, ago = moment_now(), dt.timedelta(seconds=9000)
    monkeypatch.setattr(runs, "moment_now", lambda: Moment(now.at_utc - ago, now.boot_s - 9000.0, now.boot_id))
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


@pytest.fixture
def get(client):
    return lambda address, data=None: client.get(address, data or {}, headers=HOST)


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def run(plan):
    return develop(runs.open_planned(plan.pk, 1))


def quick():
    return runs.open_quick("Tolland 100", "Brackwater", 480.0)


def body(answer) -> str:
    return answer.content.decode().replace("&quot;", '"').replace("\xa0", " ")


def mistakes(answer) -> list[str]:
    return [one.strip() for one in re.findall(r'class="(?:mistake|told wrong)"[^>]*>([^<]*)<', body(answer))]


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"command": "reading", "shown_c": "20", "where": "cellar"}, "cellar"),
        ({"command": "incident", "what": "flood"}, "flood"),
        ({"command": "incident", "what": "other", "text": "x" * 5000}, "500"),
        ({"command": "abandon", "why": "y" * 9000}, "500"),
        ({"command": "retire", "pause": "noon"}, "noon"),
        ({"command": "look", "by_s": "1:00:00:00"}, "1:00:00:00"),
        ({"command": "look", "by_s": "NaN"}, "NaN"),
        ({"command": "tell", "speed": "2"}, "Known here: act"),
    ],
)
def test_a_mistake_of_a_plain_form_is_always_seen(post, given, said) -> None:
    """Also of a field that shows none beside it, and where the form is not there at all."""
    run = quick()
    answer = post(f"/runs/{run.pk}/commands", given)
    assert answer.status_code == 422
    assert any(said in line for line in mistakes(answer)), mistakes(answer)
    runs.command(run, c.Abandon("tired"), moment_of_run(run, 10.0))
    before = run.events.count()
    over = post(f"/runs/{run.pk}/commands", given)
    assert over.status_code == 422
    assert mistakes(over)
    assert run.events.count() == before


def test_what_is_not_there_is_not_found(get, post) -> None:
    """With a title that says so: nobody wrote anything by looking."""
    for page in PAGES:
        answer = get(f"/runs/{uuid.uuid4()}/{page}")
        assert answer.status_code == 404
        assert "There is no such run any more" in body(answer)
        assert "<h1>This cannot be shown</h1>" in body(answer)
    sent = post(f"/runs/{uuid.uuid4()}/after/")
    assert sent.status_code == 404
    assert "<h1>Nothing was written</h1>" in body(sent)


def test_pages_of_a_run_answer_a_head(client, run) -> None:
    """As every page does; what changes things is not asked for by any other way."""
    for page in (*PAGES, "rules.json"):
        assert client.head(f"/runs/{run.pk}/{page}", headers=HOST).status_code == 200
        assert client.put(f"/runs/{run.pk}/{page}", headers=HOST).status_code == 405
    for page in ("after/undo/", "after/dry/", "look/take/", "settle/", "commands"):
        assert client.get(f"/runs/{run.pk}/{page}", headers=HOST).status_code == 405


def test_a_number_that_cannot_be_keeps_the_order_out_too(run, post) -> None:
    """Order and numbers are one act: where a number is refused, no fact of the order is written."""
    names = list(sheets_of_run(run))
    good = {f"clip.{clip}": name for clip, name in enumerate(names, 1)}
    page = f"/runs/{run.pk}/hanging/"
    before = run.events.count()
    for number in ("x" * 500, "a\0b"):
        answer = post(page, good | {"number.1": number})
        assert answer.status_code == 422
        assert len(mistakes(answer)) == 1
        assert run.events.count() == before
    assert all(not sheet.negative for sheet in sheets_of_run(run).values())


def test_no_number_names_two_negatives(run, plan, post) -> None:
    """Neither two clips of one form nor a sheet of another run; what a sheet has already it may keep."""
    names = list(sheets_of_run(run))
    good = {f"clip.{clip}": name for clip, name in enumerate(names, 1)}
    page = f"/runs/{run.pk}/hanging/"
    twice = post(page, good | {"number.1": "B 7", "number.2": " B 7"})
    assert twice.status_code == 422
    assert mistakes(twice) == ['"B 7" is the number on clip 1 already. Give each its own.']
    assert not runs.standing(run).state.identified
    other = develop(runs.open_planned(plan.pk, 2))
    (name, sheet), *_ = sheets_of_run(other).items()
    assert post(f"/runs/{other.pk}/hanging/", {"clip.1": name, "number.1": "B 7"}).status_code == 302
    taken = post(page, good | {"number.1": "B 7"})
    assert mistakes(taken) == [f'"B 7" is the number of "{sheet}" already. Give another, or change that sheet first.']
    assert post(page, good | {"number.1": "B 8"}).status_code == 302
    assert post(page, good | {"number.1": "B 8", "number.2": "B 9"}).status_code == 302


def test_a_form_that_is_not_whole_books_nothing(run, post) -> None:
    """A page that was shown before a bath came to it, or a program that sends nothing: not "booked"."""
    for sent in ({}, {"b2.bottle": "", "water": "1 l"}):
        answer = post(f"/runs/{run.pk}/after/", sent)
        assert answer.status_code == 422
        assert "The baths of this run changed after this page was shown" in " ".join(mistakes(answer))
    assert "booked" not in runs.find_run(run.pk).facts


def test_a_rehearsal_has_nothing_to_hang(plan, get, post) -> None:
    """There was water in the vessel, and no sheet."""
    run = develop(runs.open_planned(plan.pk, 1, rehearsal=True))
    assert "A rehearsal with water: no sheet was in it." in body(get(f"/runs/{run.pk}/hanging/"))
    assert "Which sheet hangs where?" not in body(get(f"/runs/{run.pk}/"))
    assert post(f"/runs/{run.pk}/hanging/", {"unknown": "on"}).status_code == 422


def test_a_run_without_sheets_by_name_is_not_looked_at(get, post) -> None:
    """No form that asks for a sheet that nobody can choose; leaving nothing as it is is no act either."""
    run = develop(quick())
    assert f"/runs/{run.pk}/look/" not in body(get(f"/runs/{run.pk}/"))
    assert "Nothing to look at yet" in body(get(f"/runs/{run.pk}/look/"))
    answer = post(f"/runs/{run.pk}/look/", {"how": "eye", "shadow": "right", "highlight": "right"})
    assert "a run without a plan names no sheets" in body(answer)
    assert post(f"/runs/{run.pk}/look/leave/").status_code == 422
    assert "looks_left" not in runs.find_run(run.pk).facts


def test_the_next_load_waits_until_this_one_is_over(plan, get) -> None:
    """A page that is opened too early offers no second load beside the one that is on."""
    run = runs.open_planned(plan.pk, 1)
    assert "Start load" not in body(get(f"/runs/{run.pk}/after/"))
    assert "Start load 2" in body(get(f"/runs/{develop(run).pk}/after/"))


def test_a_run_that_developed_nothing_is_not_compared(run, plan, get) -> None:
    """Or the page would say that the two do not differ."""
    given_up = quick()
    runs.command(given_up, c.Abandon("tired"), moment_of_run(given_up, 10.0))
    for other in (runs.open_planned(plan.pk, 2), given_up):
        answer = get("/runs/compare/", {"one": str(run.pk), "other": str(other.pk)})
        assert answer.status_code == 422
        assert "has developed nothing, as far as anybody told" in body(answer)


def _no_format(document: dict) -> None:
    document.clear()
    document["format"] = 1


def _no_sheets(document: dict) -> None:
    document["sheets"] = None


def _odd_number(document: dict) -> None:
    document["loads"][0]["number"] = document["loads"][2]["number"] = "x"


@pytest.mark.parametrize("damage", [_no_format, _no_sheets, _odd_number])
def test_a_damaged_plan_keeps_no_run_from_its_end(plan, get, post, damage: Callable[[dict], None]) -> None:
    """Facts are taken, the run is booked and hung, two are compared; the page says what is not known."""
    one = develop(runs.open_planned(plan.pk, 1))
    two = runs.open_planned(plan.pk, 2)
    document = copy.deepcopy(plan.document)
    damage(document)
    models.Plan.objects.filter(pk=plan.pk).update(document=document)
    two = develop(two)
    assert two.state == models.RunState.ENDED
    for page in ("", "after/", "hanging/", "look/"):
        assert get(f"/runs/{one.pk}/{page}").status_code == 200
    assert "The plan of this run cannot be read" in body(get(f"/runs/{one.pk}/after/"))
    compared = get("/runs/compare/", {"one": str(one.pk), "other": str(two.pk)})
    assert compared.status_code == 200
    assert "the version is not known" in body(compared)
    names = list(sheets_of_run(one))
    assert set(names) == set(runs.standing(one).state.sheets)
    assert post(f"/runs/{one.pk}/hanging/", {f"clip.{n}": name for n, name in enumerate(names, 1)}).status_code == 302
    assert post(f"/plans/{plan.pk}/loads/3/run/").status_code == 422


def test_a_damaged_evening_keeps_no_run_from_its_end(plan, run, get) -> None:
    """The same where the evening beside the plan is the damaged one."""
    other = develop(runs.open_planned(plan.pk, 2))
    models.Plan.objects.filter(pk=plan.pk).update(evening="not = [toml")
    assert "The plan of this run cannot be read" in body(get(f"/runs/{run.pk}/after/"))
    assert get("/runs/compare/", {"one": str(run.pk), "other": str(other.pk)}).status_code == 200


@pytest.mark.parametrize(
    "other", [{"version": 99}, {"data": {}}, {"kind": "from-later"}, {"data": {"script": {"acts": []}}}]
)
def test_a_log_of_another_version_is_called_so(get, post, other) -> None:
    """Not "not begun": its facts are there, and stay; nothing is booked, hung or compared of it."""
    good = quick().events.get(seq=1)
    run = models.Run.objects.create(name="of another day", state=models.RunState.ENDED)
    fields = ("kind", "version", "at_utc", "boot_s", "boot_id", "device", "device_number", "data")
    models.RunEvent.objects.create(run=run, seq=1, **({name: getattr(good, name) for name in fields} | other))
    for page in PAGES:
        assert get(f"/runs/{run.pk}/{page}").status_code == 200
    for page in ("", "after/"):
        assert "was written by another version, or is damaged" in body(get(f"/runs/{run.pk}/{page}"))
    assert "frozen into a run sheet and not started" not in body(get(f"/runs/{run.pk}/"))
    assert post(f"/runs/{run.pk}/after/").status_code == 422
    assert get("/runs/").status_code == 200
    assert run.events.count() == 1
