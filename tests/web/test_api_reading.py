"""Programs read the archive: every kind, in pieces that nothing moves, with few questions to the database."""

from __future__ import annotations

import datetime as dt
import itertools
import json
from typing import Any

import pytest
from tests.web.api_archive import LISTS, Archive, Caller, add_round, make_archive

from wetside.records import models
from wetside.runs import commands
from wetside.runs.events import Incident
from wetside.runs.moment import Moment
from wetside.services.records import changes, runs

pytestmark = pytest.mark.django_db


@pytest.fixture
def archive() -> Archive:
    return make_archive()


@pytest.fixture
def ask(client: Any) -> Caller:
    return Caller(client)


@pytest.mark.parametrize("kind", LISTS)
def test_every_kind_is_read(archive: Archive, ask: Caller, kind: str) -> None:
    """The list holds the record, and its own address gives the same."""
    listed = ask.get(kind)
    assert listed.status_code == 200, listed.content
    items = listed.json()["items"]
    assert [item["id"] for item in items] == [str(archive.keys[kind])]
    assert ask.get(f"{kind}/{archive.keys[kind]}").json() == items[0]


def test_what_a_record_says_is_what_was_kept(archive: Archive, ask: Caller) -> None:
    """Names, states, documents in the form of the evening file, versions, ledger."""
    keys = archive.keys
    sheet = ask.get(f"sheets/{keys['sheets']}").json()
    assert (sheet["film"], sheet["lot"], sheet["process"], sheet["aim"]) == ("Tolland 1", "A1", "drum 1", "soft 1")
    assert sheet["document"]["label"] == "1 a"
    assert sheet["document"]["film"] == "Tolland 1"
    holder = ask.get(f"holders/{keys['holders']}").json()
    assert [(side["side"], side["film"]) for side in holder["sides"]] == [("left", "Tolland 1"), ("right", "Tolland 1")]
    process = ask.get(f"processes/{keys['processes']}").json()
    assert [version["document"]["developer"] for version in process["versions"]] == ["Brackwater 1"]
    ledger = ask.get(f"bottles/{keys['bottles']}/ledger?most=2").json()
    assert [line["kind"] for line in ledger["items"]] == ["filled", "drawn"]
    rest = ask.get(f"bottles/{keys['bottles']}/ledger?after={ledger['next']}").json()
    assert [line["kind"] for line in rest["items"]] == ["counted"]
    assert rest["next"] is None
    assert ask.get(f"bottles/{keys['bottles']}").json()["left_ml"] == 400.0
    assert ask.get(f"plans/{keys['plans']}/document").json()["document"] == {"format": 1}
    assert ask.get(f"instruments/{keys['instruments']}").json()["reads_high"] == 0.4


def test_a_run_with_its_facts_and_what_they_add_up_to(archive: Archive, ask: Caller) -> None:
    """Facts in their order and in pieces; the folded state has the same act."""
    key = archive.keys["runs"]
    facts = ask.get(f"runs/{key}/facts?most=1").json()
    assert [fact["kind"] for fact in facts["items"]] == ["opened"]
    rest = ask.get(f"runs/{key}/facts?after={facts['next']}").json()
    assert [(fact["seq"], fact["kind"]) for fact in rest["items"]] == [(2, "done")]
    assert rest["next"] is None
    state = ask.get(f"runs/{key}/state").json()
    assert state["status"] == "running"
    assert list(state["acts"]) == ["1.full"]
    assert state["readings"] == state["set_aside"] == state["incidents"] == []
    run = models.Run.objects.get(pk=key)
    asked = commands.Incidence(Incident.STUCK, text="by the lid", sheets=tuple(state["sheets"][:1]))
    last = run.events.latest("seq")
    later = Moment(last.at_utc + dt.timedelta(seconds=5), last.boot_s + 5.0, last.boot_id)
    assert runs.command(run, asked, later).refusal is None
    (incident,) = ask.get(f"runs/{key}/state").json()["incidents"]
    assert (incident["what"], incident["sheets"], incident["text"], incident["after"]) == (
        "stuck", state["sheets"][:1], "by the lid", False,
    )  # fmt: skip
    assert ask.get("runs?state=running").json()["items"][0]["facts"] == 3
    assert ask.get("runs?state=ended").json()["items"] == []


def test_pieces_join_to_the_whole_while_records_come_and_go(archive: Archive, ask: Caller) -> None:
    """Read two at a time, nothing comes twice and nothing is left out, though one is added and one removed."""
    for number in range(2, 8):
        add_round(number)
    changes.change(changes.find(models.Film, archive.keys["films"]), {"note": "corrected"})
    whole = [item["id"] for item in ask.get("films").json()["items"]]
    assert len(whole) == 7
    seen: list[str] = []
    address = "films?most=2"
    for step in itertools.count():
        found = ask.get(address).json()
        seen += [item["id"] for item in found["items"]]
        if step == 0:
            changes.remove(changes.find(models.Film, whole[0]), dt.datetime(2026, 11, 26, tzinfo=dt.UTC))
            add_round(9)
        if found["next"] is None:
            break
        address = f"films?most=2&after={found['next']}"
    assert seen[:7] == whole
    assert len(seen) == len(set(seen)) == 8


def test_records_made_in_the_same_moment_are_parted_by_their_identity(ask: Caller) -> None:
    """An import makes many records at one time; none of them hides behind another."""
    at = dt.datetime(2026, 11, 25, tzinfo=dt.UTC)
    made = [changes.make(models.Film, {"name": f"Tolland {number}"}) for number in range(5)]
    models.Film.objects.update(made_at=at)
    first = ask.get("films?most=3").json()
    rest = ask.get(f"films?most=3&after={first['next']}").json()
    found = [item["id"] for item in (*first["items"], *rest["items"])]
    assert sorted(found) == sorted(str(film.pk) for film in made)


def test_what_was_removed_is_not_there(archive: Archive, ask: Caller) -> None:
    """Neither in the list nor under its address."""
    key = archive.keys["vessels"]
    changes.remove(changes.find(models.Vessel, key), dt.datetime(2026, 11, 26, tzinfo=dt.UTC))
    assert ask.get("vessels").json()["items"] == []
    gone = ask.get(f"vessels/{key}")
    assert gone.status_code == 404
    assert gone.json()["code"] == "services.records.not_found"


@pytest.mark.parametrize("kind", LISTS)
def test_a_list_asks_the_database_the_same_whatever_it_holds(
    archive: Archive, ask: Caller, kind: str, django_assert_max_num_queries: Any
) -> None:
    """Ten times the records, and no question more; never more than eight, the darkroom's settings among them."""
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    with CaptureQueriesContext(connection) as few:
        ask.get(kind)
    for number in range(2, 11):
        add_round(number)
    with django_assert_max_num_queries(min(8, len(few))):
        answer = ask.get(kind)
    assert len(answer.json()["items"]) == 10


def test_an_unchanged_list_is_not_sent_again(archive: Archive, ask: Caller) -> None:
    """304 for the tag of the last answer; the list anew as soon as something changed."""
    first = ask.get("films")
    tag = first.headers["ETag"]
    again = ask.get("films", **{"If-None-Match": tag})
    assert again.status_code == 304
    assert again.content == b""
    changes.change(changes.find(models.Film, archive.keys["films"]), {"note": "new"})
    changed = ask.get("films", **{"If-None-Match": tag})
    assert changed.status_code == 200
    assert changed.headers["ETag"] != tag


def test_answers_stay_out_of_other_caches(archive: Archive, ask: Caller) -> None:
    """What a token opened is not handed to the next who asks."""
    answer = ask.get("films")
    assert "private" in answer.headers["Cache-Control"]
    assert "Authorization" in answer.headers["Vary"]


def test_the_interface_describes_itself(client: Any) -> None:
    """The description is the one that the documentation prints, and every refusal in it has the one shape."""
    answer = Caller(client).get("openapi.json")
    found = json.loads(answer.content)
    for path, calls in found["paths"].items():
        for method, call in calls.items():
            for status, told in call["responses"].items():
                if int(status) >= 400:
                    shape = told["content"]["application/json"]["schema"]["$ref"]
                    assert shape.endswith("/Mistakes"), (path, method, status)
