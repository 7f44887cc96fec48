"""Runs in the browser's part: opened, told, handed over, asked; without a script and by a page's program."""

from __future__ import annotations

import datetime as dt
import json
import re

import pytest

from wetside.records import models
from wetside.services.records import demo, plans_frozen, runs
from wetside.services.records.changes import make
from wetside.services.records.vessels import make_vessel

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]
HOST = {"host": "127.0.0.1"}
DEVICE = "0123456789abcdef0123456789abcdef"
OTHER = "f" * 32
SHORT = {
    "film": "Tolland 40",
    "developer": "Marrow 1+9",
    "number": "8",
    "vessel": "drum 6, 300-1000 ml",
    "time": "7:30",
}
QUICK = {"film": "Tolland 100", "developer": "Brackwater 1+24", "time": "8:00"}


@pytest.fixture
def send(client):
    """Send JSON, or whatever text it is."""

    def send(address, body):
        text = body if isinstance(body, str | bytes) else json.dumps(body)
        return client.post(address, text, content_type="application/json", headers=HOST)

    return send


@pytest.fixture
def run():
    return runs.open_quick("Tolland 100", "Brackwater", 480.0)


def heading(answer) -> str:
    return re.search(r"<h1[^>]*>(.*?)</h1>", answer.content.decode(), re.DOTALL)[1].strip()


def plain_heading(answer) -> str:
    return re.search(r'<h1 class="run-head">(.*?)</h1>', answer.content.decode(), re.DOTALL)[1].strip()


def fact(number=1, kind="done", data=None, **more) -> dict:
    now = dt.datetime(2031, 11, 4, 20, 0, tzinfo=dt.UTC)
    opened = models.RunEvent.objects.filter(kind="opened").order_by("-pk").first()
    at = (opened.at_utc if opened else now) + dt.timedelta(seconds=20 + number)
    return {
        "number": number,
        "kind": kind,
        "version": 1,
        "at_utc": at.isoformat(),
        "boot_s": 50.0 + number,
        "boot_id": "page-1",
        "data": {"act": "1.full"} if data is None else data,
        **more,
    }


def handed(*facts, device=DEVICE) -> dict:
    return {"device": device, "facts": list(facts)}


def test_four_words_start_a_run(post, get) -> None:
    """Film, developer, minutes, start: one post, and the run counts."""
    answer = post("/runs/new/", QUICK)
    assert answer.status_code == 302
    page = get(answer["location"])
    assert page.status_code == 200
    assert re.match(r"Developer, pour in|Pour|Brackwater|Developer", plain_heading(page))
    assert "Brackwater" in page.content.decode()
    run = models.Run.kept.get()
    assert (run.state, run.rehearsal) == ("ready", False)
    assert heading(get("/runs/")) == "One load is ready"


def test_a_word_that_is_missing_is_told_beside_its_field(post) -> None:
    """422, every mistake at its field, what was typed is kept."""
    answer = post("/runs/new/", {"film": "Tolland 100", "developer": "", "time": "forever", "temp": "300"})
    text = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="Tolland 100"' in text
    assert text.count('class="mistake"') == 3
    assert not models.Run.objects.exists()


def test_a_quick_run_may_name_its_vessel(get, post) -> None:
    """Not asked where no drum is kept; one that is gone is told beside its field; a kept one is the run's."""
    assert 'name="vessel"' not in get("/runs/new/").content.decode()
    make_vessel({"name": "long drum", "kind": "drum", "places": 6, "min": "300 ml", "max": "1 l", "pour": "12 s"})
    assert "long drum: 12 s, 15 s" in get("/runs/new/").content.decode()
    gone = post("/runs/new/", {**QUICK, "vessel": "short drum"})
    assert gone.status_code == 422
    assert "No vessel of the archive is called" in gone.content.decode()
    answer = post("/runs/new/", {**QUICK, "vessel": "long drum"})
    assert answer.status_code == 302
    assert models.RunEvent.objects.get(seq=1).data["script"]["vessel"] == "long drum"


def test_a_load_of_a_frozen_plan_starts_from_its_pages(post, get) -> None:
    """Start on the plan, go on from the load's page; a second start goes to the same run."""
    plan = plans_frozen.freeze(demo.make_demo())
    assert f"/plans/{plan.pk}/loads/1/run/" in get(f"/plans/{plan.pk}/").content.decode()
    assert f"/plans/{plan.pk}/loads/2/run/" in get(f"/plans/{plan.pk}/loads/2/").content.decode()
    first, second = (post(f"/plans/{plan.pk}/loads/1/run/")["location"] for _ in range(2))
    assert first == second
    assert models.RunEvent.objects.count() == 1
    post(f"{first}commands", {"command": "tell"})  # the first hold: nobody poured yet
    assert models.Run.kept.get(plan=plan, load=1).state == "ready"
    assert models.RunEvent.objects.count() == 2


def test_the_short_way_ends_in_a_run(post, get) -> None:
    """Four answers, start: the plan is kept and its first load open; mistakes go back to the page."""
    assert 'formaction="/short/start/"' in get("/short/", SHORT).content.decode()
    answer = post("/short/start/", SHORT)
    run = models.Run.kept.get(load=1)
    assert answer["location"] == f"/runs/{run.pk}/"
    assert run.events.count() == 1
    assert post("/short/start/", SHORT | {"number": "none"})["location"].startswith("/short/?")


def test_a_rehearsal_stays_out_of_the_books(post) -> None:
    """A run of its own; the load stays ready, its sheets planned."""
    plan = plans_frozen.freeze(demo.make_demo())
    post(f"/plans/{plan.pk}/loads/1/run/", {"rehearsal": "on"})
    rehearsal = models.Run.kept.get(plan=plan, load=1, rehearsal=True)
    for number, act in enumerate(("1.full", "hang"), 1):
        runs.hand_over(rehearsal, [_done(rehearsal, number, act)])
    rehearsal.refresh_from_db()
    assert rehearsal.state == "ended"
    assert models.Run.kept.get(plan=plan, load=1, rehearsal=False).state == "ready"
    assert not models.Sheet.kept.filter(state="developed").exists()


def _over(run):
    """The run, told to its end."""
    for number, act in enumerate(("1.full", "hang"), 1):
        runs.hand_over(run, [_done(run, number, act)])
    run.refresh_from_db()
    return run


def test_from_load_to_load_and_to_the_evenings_end(post, get) -> None:
    """A run that is over starts the next load, a rehearsal its own; cancelled ones are passed over."""
    plan = plans_frozen.freeze(demo.make_demo())
    post(f"/plans/{plan.pk}/loads/1/run/", {"rehearsal": "on"})
    assert heading(get("/runs/")) == "Six loads are ready, one rehearsal is ready"
    rehearsal = _over(models.Run.kept.get(plan=plan, rehearsal=True))
    assert "Now load 1 itself" in get(f"/runs/{rehearsal.pk}/").content.decode()
    post(f"/plans/{plan.pk}/loads/1/run/")
    first = _over(models.Run.kept.get(plan=plan, load=1, rehearsal=False))
    page = get(f"/runs/{first.pk}/").content.decode()
    assert "Next: load 2" in page
    assert f'action="/plans/{plan.pk}/loads/2/run/"' in page
    assert "5 loads wait" in page
    assert "Next: load 2" in get(f"/runs/{first.pk}/after/").content.decode()
    post(f"/plans/{plan.pk}/cancel-rest/")
    page = get(f"/runs/{first.pk}/").content.decode()
    assert "Start load" not in page
    assert "No other load of this plan waits." in page
    assert "Start load" not in get(f"/plans/{plan.pk}/").content.decode()
    assert "This load was cancelled" in get(f"/plans/{plan.pk}/loads/2/").content.decode()
    answer = post(f"/plans/{plan.pk}/loads/2/run/")
    assert answer.status_code == 422
    assert "Load 2 was cancelled" in answer.content.decode()
    assert not models.Run.kept.filter(plan=plan, load=2).exists()


def _done(run, number, act):
    from wetside.runs.fact import Fact

    opened = run.events.get(seq=1)
    at = opened.at_utc + dt.timedelta(seconds=600 * number)
    return Fact("done", 1, at, opened.boot_s + 600 * number, opened.boot_id, DEVICE, number, {"act": act})


def test_facts_are_taken_once_whatever_is_sent_again(send, run) -> None:
    """The same body twice: the same answer, and one fact."""
    address = f"/runs/{run.pk}/facts"
    body = handed(fact())
    answers = [send(address, body).json() for _ in range(3)]
    assert answers == [{"seq": 2, "taken": [1]}] * 3
    assert run.events.count() == 2
    assert send(address, handed(fact(), fact(2, "noted", {"what": "power"}))).json() == {"seq": 3, "taken": [1, 2]}
    run.refresh_from_db()
    assert run.state == "running"


def test_a_known_number_with_another_content_is_a_conflict(send, run) -> None:
    """409, the number named, nothing of that body written."""
    address = f"/runs/{run.pk}/facts"
    body = handed(fact())
    send(address, body)
    answer = send(address, handed(fact(2, "noted", {"what": "leak"}), fact(1, data={"act": "2.full"})))
    assert answer.status_code == 409
    assert answer.json()["number"] == 1
    assert run.events.count() == 2


HOSTILE = [
    "",
    "no json",
    "[" * 100_000,
    "[]",
    "null",
    "{}",
    '{"device": "x", "facts": []}',
    json.dumps({"device": DEVICE}),
    json.dumps({"device": DEVICE, "facts": {}}),
    json.dumps({"device": DEVICE, "facts": [], "more": 1}),
    json.dumps({"device": DEVICE, "facts": [1]}),
    json.dumps({"device": "server", "facts": []}),
    json.dumps({"device": DEVICE.upper(), "facts": []}),
]


@pytest.mark.parametrize("body", HOSTILE, ids=range(len(HOSTILE)))
def test_a_body_that_is_none_is_refused_in_a_sentence(send, run, body) -> None:
    """422 for every one of them, with a place, and nothing written."""
    answer = send(f"/runs/{run.pk}/facts", body)
    assert answer.status_code == 422
    assert len(answer.json()["error"]) > 20
    assert run.events.count() == 1


BAD_FIELDS = [
    ("number", 0), ("number", -1), ("number", 2**60), ("number", 1.5), ("number", "1"), ("number", True),
    ("number", None), ("kind", ""), ("kind", "x" * 61), ("kind", 7), ("kind", "a\x00b"), ("kind", "\ud800"),
    ("version", 0), ("version", 10**9), ("version", None), ("version", True),
    ("at_utc", "yesterday"), ("at_utc", "2031-11-04T20:00:00"), ("at_utc", 5), ("at_utc", None),
    ("at_utc", "0001-01-01T00:00:00+14:00"), ("at_utc", "9999-12-31T23:59:59-14:00"),
    ("boot_s", None), ("boot_s", "1"), ("boot_s", float("nan")), ("boot_s", float("inf")), ("boot_s", 1e300),
    ("boot_s", True), ("boot_id", ""), ("boot_id", "x" * 65), ("boot_id", 5), ("boot_id", "\ud800"),
    ("data", []), ("data", None), ("data", {"a": float("nan")}), ("data", {"a": 1e300}), ("data", {"a": "\x00"}),
    ("data", {"a": "\ud800"}),
]  # fmt: skip


@pytest.mark.parametrize(("field", "value"), BAD_FIELDS)
def test_a_field_that_is_none_is_named(send, run, field, value) -> None:
    """422 with the place, the first fact beside it not written either."""
    answer = send(f"/runs/{run.pk}/facts", handed(fact(1), fact(2) | {field: value}))
    assert answer.status_code == 422, answer.content
    assert answer.json()["field"].startswith("facts[2]"), answer.json()
    assert run.events.count() == 1


def test_too_much_at_once_is_refused(send, run) -> None:
    """413 above 256 KB, 422 above 500 facts; 500 are taken."""
    address = f"/runs/{run.pk}/facts"
    large = handed(*(fact(number, "noted", {"what": "other", "text": "x" * 400}) for number in range(1, 500)))
    assert send(address, large).status_code == 413
    assert send(address, b" " * 3_000_000).status_code == 413
    many = [fact(number, "noted", {"what": "other"}) for number in range(1, 502)]
    assert send(address, handed(*many)).status_code == 422
    answer = send(address, handed(*many[:500]))
    assert answer.json()["seq"] == 501


def test_what_is_not_there_is_404(send, get, client, run) -> None:
    """A run that is gone, for every address."""
    gone = "00000000-0000-0000-0000-000000000000"
    for address in ("facts", "commands"):
        body = handed() if address == "facts" else {"device": DEVICE, "command": "tell"}
        assert send(f"/runs/{gone}/{address}", body).status_code == 404
    assert get(f"/runs/{gone}/rules.json").status_code == 404
    assert get(f"/runs/{gone}/watch").status_code == 404
    head = client.head(f"/runs/{run.pk}/watch", headers={"host": "127.0.0.1"})
    assert (head.status_code, head["Content-Type"], head.content) == (200, "text/event-stream", b"")
    assert client.head(f"/runs/{gone}/watch", headers={"host": "127.0.0.1"}).status_code == 404


def test_a_program_asks_and_is_told(send, run) -> None:
    """Said, refused in a sentence, and the place in the log."""
    address = f"/runs/{run.pk}/commands"
    told = send(address, {"device": DEVICE, "command": "tell", "act": "1.full"}).json()
    assert (told["seq"], told["refused"]) == (2, None)
    assert "full" in told["said"][0]
    again = send(address, {"device": DEVICE, "command": "tell", "act": "1.full"}).json()
    assert "Twice" in again["refused"]
    reading = send(address, {"device": DEVICE, "command": "reading", "shown_c": 20.4, "where": "jacket"}).json()
    assert reading["refused"] is None
    assert "20.4" in reading["said"][0]
    assert {event.device for event in run.events.all()} == {"server", f"server-{DEVICE}"}


@pytest.mark.parametrize(
    ("body", "field"),
    [
        ({"command": "tell"}, "device"),
        ({"device": DEVICE}, "command"),
        ({"device": DEVICE, "command": "explode"}, "command"),
        ({"device": DEVICE, "command": "tell", "wrong": 1}, "wrong"),
        ({"device": DEVICE, "command": "tell", "ago_s": "soon"}, "ago_s"),
        ({"device": DEVICE, "command": "reading"}, "shown_c"),
        ({"device": DEVICE, "command": "reading", "shown_c": True}, "shown_c"),
        ({"device": DEVICE, "command": "reading", "shown_c": 20, "where": "kitchen"}, "where"),
        ({"device": DEVICE, "command": "lose", "place": 0}, "place"),
        ({"device": DEVICE, "command": "retire"}, "pause"),
        ({"device": DEVICE, "command": "retire", "pause": []}, "pause"),
        ({"device": DEVICE, "command": "identify", "order": {"a": 1}}, "order"),
        ({"device": DEVICE, "command": "incident", "text": "x" * 600}, "text"),
        ({"device": DEVICE, "command": "take-back", "name": [1]}, "name"),
        ({"device": DEVICE, "command": "tell-time", "run_s": {}}, "run_s"),
    ],
)
def test_a_command_that_cannot_be_read_names_its_field(send, run, body, field) -> None:
    """422, the field, a sentence."""
    answer = send(f"/runs/{run.pk}/commands", body)
    assert answer.status_code == 422, answer.content
    assert answer.json()["field"] == field
    assert len(answer.json()["error"]) > 20
    assert run.events.count() == 1


def test_a_plain_form_tells_takes_back_and_gives_up(post, get, run) -> None:
    """Without a script: each goes back to the page, which says what was taken."""
    address = f"/runs/{run.pk}/commands"
    run_page = f"/runs/{run.pk}/"
    assert post(address, {"command": "reading", "shown_c": "20,3"})["location"] == run_page
    assert "20.3" in get(run_page).content.decode()
    wrong = post(address, {"command": "reading", "shown_c": "warm"})
    assert wrong.status_code == 422
    assert 'value="warm"' in wrong.content.decode()
    assert 'id="p-shown-m"' in wrong.content.decode()
    assert post(address, {"command": "nonsense"}).status_code == 422
    post(address, {"command": "incident", "what": "light", "ago_s": "", "text": "door"})
    post(address, {"command": "abandon", "why": "no water"})
    run.refresh_from_db()
    assert run.state == "abandoned"
    assert plain_heading(get(run_page)) == "The run was given up"
    assert heading(get("/runs/")) == "Nothing is on and nothing is ready"


def test_the_page_goes_through_a_whole_run(send, post, get, run) -> None:
    """On, in the navigation, over, the order asked, unknown is an answer."""
    assert 'value="take-back"' not in get(f"/runs/{run.pk}/").content.decode()
    send(f"/runs/{run.pk}/facts", handed(fact()))
    page = get(f"/runs/{run.pk}/")
    assert "drain in" in plain_heading(page)
    assert "<button>Take back: the developer is in</button>" in page.content.decode()
    assert heading(get("/runs/")) == "One run is on"
    assert f'href="/runs/{run.pk}/"' in get("/sheets/").content.decode()
    assert "Go to the run that is on" in get("/").content.decode()


def test_rules_are_given_with_the_runs_own_clock(send, get, run) -> None:
    """Format 1, the log's place, every act, words; state as handed over."""
    send(f"/runs/{run.pk}/facts", handed(fact()))
    rules = get(f"/runs/{run.pk}/rules.json").json()
    assert (rules["format"], rules["seq"], rules["status"]) == (1, 2, "running")
    assert "1.full" in rules["stamps"]
    assert {act["key"] for act in rules["acts"]} == set(rules["words"]["acts"])
    assert rules["clock"]["run_s"] >= 0


@pytest.mark.parametrize("count", [3, 60])
def test_lists_and_pages_ask_as_much_whatever_there_is(get, count, django_assert_max_num_queries) -> None:
    """Twelve questions at most; the list is cut into pages."""
    for number in range(count):
        make(models.Run, {"name": f"run {number}", "state": ("ready", "ended", "running")[number % 3]})
    with django_assert_max_num_queries(12):
        answer = get("/runs/")
    assert answer.content.decode().count('<th scope="row">') == min(count, 25)
    assert ("?page=2" in answer.content.decode()) == (count > 25)
    with django_assert_max_num_queries(12):
        get("/")


def test_loads_that_wait_stand_in_the_evenings_order(get) -> None:
    """One to six, not the other way round."""
    plans_frozen.freeze(demo.make_demo())
    text = get("/runs/").content.decode()
    assert [int(number) for number in re.findall(r", load (\d)</a>", text)] == [1, 2, 3, 4, 5, 6]


def test_a_long_log_costs_a_command_no_more_questions(send, run, get, django_assert_max_num_queries) -> None:
    """Nine hundred facts: as few questions as nine, for the page, the rules and a command."""
    address = f"/runs/{run.pk}/facts"
    for first in range(1, 901, 300):
        send(address, handed(*(fact(number, "noted", {"what": "other"}) for number in range(first, first + 300))))
    with django_assert_max_num_queries(12):
        get(f"/runs/{run.pk}/")
    with django_assert_max_num_queries(8):
        get(f"/runs/{run.pk}/rules.json")
    with django_assert_max_num_queries(20):
        send(f"/runs/{run.pk}/commands", {"device": DEVICE, "command": "incident"})
