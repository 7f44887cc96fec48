"""A log of the terminal in the browser: chosen, looked through, taken in; what is wrong with it is told."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from tests.fixtures.run_logs import facts_of, log_of

from wetside.records import models
from wetside.services.records import demo, plans_frozen
from wetside.services.records.runs import script_of_planned

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]


@pytest.fixture
def send(post):
    return lambda data, name="load-1.log": post("/runs/log/", {"log": SimpleUploadedFile(name, data)})


def fields_of(page: str) -> dict[str, str]:
    """What the preview's form would send."""
    text = re.search(r'<textarea name="text"[^>]*>\n(.*?)</textarea>', page, re.DOTALL)
    assert text is not None
    import html

    return {"text": html.unescape(text[1]).replace("\n", "\r\n"), "name": "load-1.log"}


def test_a_log_is_looked_through_then_taken_then_a_run_like_any_other(get, send, post) -> None:
    """The list leads to the page; the run it becomes is told as finished, and its booking is offered."""
    assert "/runs/log/" in get("/runs/").content.decode()
    assert "nothing is written until you say so" in get("/runs/log/").content.decode()
    page = send(log_of(facts_of())).content.decode()
    assert "A run that is not in the archive yet" in page
    assert "Tolland 100 in Brackwater 1+14" in page
    assert "ended, " in page
    assert not models.Run.objects.exists()
    answer = post("/runs/log/take/", fields_of(page))
    assert answer.status_code == 302
    run = get(answer.url).content.decode()
    assert "facts were taken in" in run
    assert "What came of it" in run
    assert "opened 2031-11-04" in run
    assert "not booked yet" in get("/runs/").content.decode()
    assert "Book it so" in get(f"{answer.url}after/").content.decode()
    again = send(log_of(facts_of())).content.decode()
    assert "All of this log is in the archive already" in again
    assert "<textarea" not in again
    twice = post("/runs/log/take/", fields_of(page), follow=True).content.decode()
    assert "Nothing was changed" in twice
    assert models.Run.objects.count() == 1


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "No fact stands in this log"),
        (b"\xff\xd8\xff\xe0 a picture\n", "load-1.log, line 1: This is no log of a run"),
        (b"x" * 1_500_001, "1501 KB"),
        (log_of(facts_of())[:-9].replace(b'"done"', b'"dome"'), "its check sum does not fit"),
    ],
)
def test_what_is_no_log_is_told(send, data, said) -> None:
    """422, with file and line."""
    answer = send(data)
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_nothing_chosen_is_told(post) -> None:
    """A form without a file."""
    answer = post("/runs/log/", {})
    assert answer.status_code == 422
    assert "No file was chosen" in answer.content.decode()


def test_sheets_are_asked_for_and_never_guessed(send, post, get) -> None:
    """Where labels fit, something must be said; the load that is named is developed then."""
    plan = plans_frozen.freeze(demo.make_demo())
    page = send(log_of(facts_of(script_of_planned(plan, 1)))).content.decode()
    assert "Which sheets were these?" in page
    fields = fields_of(page)
    silent = post("/runs/log/take/", fields)
    assert silent.status_code == 422
    assert "Say which sheets these were" in silent.content.decode()
    load = re.search(r'value="(load:[0-9a-f-]+)"', page)
    assert load is not None
    wrong = post("/runs/log/take/", fields | {"tie": "load:00000000-0000-0000-0000-000000000000"})
    assert wrong.status_code == 422
    assert "That load was begun or changed meanwhile" in wrong.content.decode()
    record = str(models.Sheet.objects.filter(places__plan=plan, places__load=1).first().pk)
    twice = post("/runs/log/take/", fields | {"tie": "sheets", "sheet.1": record, "sheet.2": record})
    assert twice.status_code == 422
    own = post("/runs/log/take/", fields | {"tie": "sheets", "sheet.1": record})
    assert "These were not its sheets" in get(own.url).content.decode()
    shown = get(f"{own.url}untie/").content.decode()
    assert "One sheet would wait again" in shown
    assert "planned again" in shown
    back = post(f"{own.url}untie/", follow=True).content.decode()
    assert "No sheet is tied to it any more" in back
    assert "These were not its sheets" not in back
    assert "nothing is to be taken back" in post(f"{own.url}untie/", follow=True).content.decode()
    assert models.Sheet.objects.get(pk=record).state == "planned"
    later = send(log_of(facts_of(script_of_planned(plan, 1), boot_id="again"))).content.decode()
    fields = fields_of(later)
    answer = post("/runs/log/take/", fields | {"tie": load[1]})
    assert answer.status_code == 302
    run = models.Run.objects.get(pk=load[1].removeprefix("load:"))
    assert (run.state, run.load) == ("ended", 1)
    assert "not booked yet" in get("/runs/").content.decode()


def test_a_log_with_strange_facts_is_a_run_whose_pages_answer(get, post) -> None:
    """Acts that are not there, ages without measure, readings of no bath: kept, contested where they must be."""
    facts = facts_of()
    strange: list[dict[str, Any]] = [
        {"kind": "done", "version": 1, "data": {"act": "999.pour", "ago_s": 1e15, "insisted": False}},
        {"kind": "done", "version": 1, "data": {"act": "1.drain", "ago_s": -1e15, "insisted": True}},
        {"kind": "read", "version": 2, "data": {"shown_c": 1e15, "where": "developer"}},
        {"kind": "read", "version": 2, "data": {"shown_c": 20.0, "where": "jacket", "reads_high_c": -1e15}},
        {"kind": "end-moved", "version": 1, "data": {"act": "1.drain", "shift_s": 1e15, "why": "look"}},
        {"kind": "time-told", "version": 1, "data": {"run_s": -1e15}},
        {"kind": "resumed", "version": 1, "data": {"known_s": 1e15}},
        {"kind": "noted", "version": 1, "data": {"what": "light", "ago_s": 1e15, "text": "<b>" * 50}},
        {"kind": "lost", "version": 1, "data": {"sheet": "nobody"}},
        {"kind": "taken-back", "version": 1, "data": {"device": "terminal", "number": 1}},
        {"kind": "identified", "version": 1, "data": {"order": ["7", "7"]}},
    ]
    for last, more in enumerate(strange, facts[4].device_number + 1):
        facts.insert(len(facts), replace(facts[4], device_number=last, **more))
    data = log_of([*facts[:5], *facts[-len(strange) :]])
    answer = post("/runs/log/take/", {"text": data.decode(), "name": "x.log"})
    assert answer.status_code == 302, answer.content.decode()
    for part in ("", "?more=1", "after/", "hanging/", "look/", "rules.json"):
        assert get(f"{answer.url}{part}").status_code in (200, 302), part
    assert get("/runs/").status_code == 200
