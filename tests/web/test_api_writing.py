"""Programs write: tokens and their scopes, sheets, plans, readings of thermometers, and everything that is refused."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import os
import subprocess
import sys
from typing import Any

import pytest
from tests.web.api_archive import AT, Archive, Caller, add_round, begin, make_archive

from wetside.adapters.clock import now
from wetside.errors import ConflictError, WetsideError
from wetside.records import models
from wetside.records.event_log import StoredLog
from wetside.runs.fold import fold
from wetside.services.archive.tables import tables
from wetside.services.records import changes, run_readings
from wetside.services.records import tokens as service

pytestmark = pytest.mark.django_db
ELSEWHERE = "192.0.2.7"
EVENING = {
    "format": 1,
    "films": [
        {
            "name": "Tolland 100",
            "times": [{"developer": "Brackwater", "dilution": "1+14", "agitation": "rotary", "time": "7:30"}],
        }
    ],
    "processes": [{"name": "drum", "developer": "Brackwater", "dilution": "1+14"}],
    "vessels": [{"name": "long drum", "kind": "drum", "places": 6, "min": "300 ml", "max": "1000 ml"}],
    "process": "drum",
    "size": "9x12cm",
    "sheets": [{"label": f"{number} left", "film": "Tolland 100"} for number in range(1, 9)],
}  # fmt: skip


@pytest.fixture
def archive() -> Archive:
    return make_archive()


def caller(client: Any, archive: Archive, scope: str, address: str = "127.0.0.1") -> Caller:
    return Caller(client, archive.tokens.get(scope, ""), address)


def refused(answer: Any, status: int, code: str) -> dict[str, Any]:
    """The one shape of a refusal."""
    assert answer.status_code == status, answer.content
    assert answer.headers["Content-Type"] == "application/json"
    told = answer.json()
    assert set(told) == {"code", "sentence", "field", "more"}
    assert told["code"] == code
    assert told["sentence"].endswith((".", "TOKEN", "json"))
    return dict(told)


# Tokens


def test_a_token_is_kept_as_its_hash_and_nothing_else(archive: Archive) -> None:
    """The secret stands nowhere in the tables; its hash does; two are never alike."""
    secret = archive.tokens["write"]
    rows = [str(row) for row in models.Token.objects.values_list()]
    assert not [row for row in rows if secret in row]
    assert models.Token.objects.filter(sha256=hashlib.sha256(secret.encode()).hexdigest()).count() == 1
    assert len(set(archive.tokens.values())) == 3
    assert all(len(one) > 40 for one in archive.tokens.values())


def test_an_export_takes_no_token_along() -> None:
    """A copy of the archive opens nothing: not where it is read, and not where it came from."""
    assert models.Token not in {table.model for table in tables()}


@pytest.mark.parametrize(
    ("scope", "reads", "writes", "sends"),
    [("read", 200, 403, 403), ("write", 200, 201, 201), ("readings", 403, 403, 201), ("", 200, 401, 401)],
)
def test_what_each_scope_may(client: Any, archive: Archive, scope: str, reads: int, writes: int, sends: int) -> None:
    """Every scope at every sort of call, on this machine; without a token a program here may only read."""
    call = caller(client, archive, scope)
    assert call.get("films").status_code == reads
    assert call.post("plan", EVENING).status_code == reads
    assert call.post("sheets", {"sheet": {"label": "new", "film": "Tolland 1"}}).status_code == writes
    assert call.post(f"runs/{archive.keys['runs']}/readings", {"shown_c": 20.0}).status_code == sends


@pytest.mark.parametrize("address", [ELSEWHERE, "::ffff:192.0.2.7", ""])
def test_from_elsewhere_nothing_goes_without_a_token(client: Any, archive: Archive, address: str) -> None:
    """Reading too; with a token it does."""
    refused(caller(client, archive, "", address).get("films"), 401, "web.api.no_token")
    refused(caller(client, archive, "", address).post("plan", EVENING), 401, "web.api.no_token")
    assert caller(client, archive, "read", address).get("films").status_code == 200


def test_a_revoked_token_lets_nobody_in(client: Any, archive: Archive) -> None:
    """From that moment, here and elsewhere; even for what needs none."""
    call = caller(client, archive, "read")
    assert call.get("films").status_code == 200
    service.revoke_token(service.token_named("program that may read").key, now())
    answer = call.get("films")
    refused(answer, 401, "web.api.wrong_token")
    assert answer.headers["WWW-Authenticate"].startswith("Bearer")


@pytest.mark.parametrize("secret", ["wet-", "wet-" + "a" * 43, "x", "wet-\u00e9", "wet-" + "a" * 5000, "Bearer"])
def test_a_token_that_was_never_made_is_refused(client: Any, archive: Archive, secret: str) -> None:
    """Whatever it looks like."""
    refused(Caller(client, secret).get("films"), 401, "web.api.wrong_token")


def test_another_way_of_naming_oneself_is_refused(client: Any, archive: Archive) -> None:
    """A name and a word are no token."""
    answer = Caller(client).get("films", Authorization="Basic YTpi")
    refused(answer, 401, "web.api.no_token")


def test_the_last_use_is_noted_but_not_at_every_call(client: Any, archive: Archive) -> None:
    """Once a minute is enough, and costs no write at the other calls."""
    token = service.token_named("program that may read")
    assert token.used_at is None
    caller(client, archive, "read").get("films")
    first = service.token_named("program that may read").used_at
    assert first is not None
    caller(client, archive, "read").get("films")
    assert service.token_named("program that may read").used_at == first
    later = first + dt.timedelta(minutes=2)
    assert service.token_of(archive.tokens["read"], later) is not None
    assert service.token_named("program that may read").used_at == later


def test_names_of_tokens() -> None:
    """One good token a name; a revoked one leaves its name free; empty, long and hostile names are refused."""
    made = service.make_token("  sink   probe ", "readings", AT)
    assert made.token.name == "sink probe"
    with pytest.raises(ConflictError):
        service.make_token("Sink Probe", "read", AT)
    service.revoke_token(made.token.key, AT)
    service.make_token("sink probe", "read", AT)
    for name in ("", "  ", "x" * 121, "a\0b"):
        with pytest.raises(WetsideError):
            service.make_token(name, "read", AT)
    with pytest.raises(WetsideError):
        service.make_token("other", "everything", AT)


def test_there_is_an_end_of_tokens() -> None:
    """A script that makes them in a loop is stopped."""
    for number in range(service.MOST_TOKENS):
        service.make_token(f"program {number}", "read", AT)
    with pytest.raises(WetsideError) as told:
        service.make_token("one more", "read", AT)
    assert told.value.code == "services.token.most"


# Sheets


def test_a_sheet_is_added_as_by_the_page(client: Any, archive: Archive) -> None:
    """It is there, in its lot, and its history names the program."""
    sent = {"sheet": {"label": "9 left", "film": "Tolland 1", "process": "drum 1"}, "lot": "A1", "note": "by a script"}
    answer = caller(client, archive, "write").post("sheets", sent)
    assert answer.status_code == 201
    sheet = changes.find(models.Sheet, answer.json()["id"])
    assert (sheet.label, sheet.film.name, sheet.lot.number, sheet.state) == ("9 left", "Tolland 1", "A1", "waiting")
    assert changes.history_of(sheet)[0].by == "program that may write"
    again = caller(client, archive, "write").post("sheets", sent)
    refused(again, 409, "records.rule.sheet_label_once_while_waiting")
    assert models.Sheet.objects.count() == 2


def test_every_mistake_of_a_sheet_is_told_with_its_field(client: Any, archive: Archive) -> None:
    """All at once, and nothing is written."""
    sent = {"sheet": {"label": "x", "film": "Nowhere", "n": "seven", "colour": "red"}}
    answer = caller(client, archive, "write").post("sheets", sent)
    assert answer.status_code == 422
    told = answer.json()
    assert {told["field"], *(one["field"] for one in told["more"])} >= {"n", "colour"}
    assert models.Sheet.objects.count() == 1


# Plans


def test_a_plan_is_that_of_the_command(client: Any, archive: Archive, tmp_path: Any) -> None:
    """The same document as ``wetside plan --json`` prints for the same evening."""
    answer = caller(client, archive, "").post("plan", EVENING)
    assert answer.status_code == 200, answer.content
    file = tmp_path / "evening.toml"
    film, process, vessel = EVENING["films"][0], EVENING["processes"][0], EVENING["vessels"][0]
    lines = [
        "format = 1",
        'process = "drum"',
        'size = "9x12cm"',
        "[[films]]",
        f'name = "{film["name"]}"',
        "[[films.times]]",
    ]
    lines += [f"{name} = {json.dumps(value)}" for name, value in film["times"][0].items()]
    for table, row in (("processes", process), ("vessels", vessel)):
        lines += [f"[[{table}]]", *(f"{name} = {json.dumps(value)}" for name, value in row.items())]
    for sheet in EVENING["sheets"]:
        lines += ["[[sheets]]", *(f"{name} = {json.dumps(value)}" for name, value in sheet.items())]
    file.write_text("\n".join(lines) + "\n", "utf-8")
    code = "import sys; from wetside.cli import main; sys.exit(main(sys.argv[1:]))"
    done = subprocess.run(
        [sys.executable, "-c", code, "plan", str(file), "--json"],
        capture_output=True,
        text=True,
        check=True,
        env=os.environ,
    )
    assert answer.json() == json.loads(done.stdout)
    assert len(answer.json()["loads"]) == 2


def test_an_evening_that_names_a_file_is_refused(client: Any, archive: Archive, tmp_path: Any) -> None:
    """A program cannot make the server read one."""
    (tmp_path / "list.csv").write_text("label,film\n1,Tolland 100\n", "utf-8")
    told = refused(
        caller(client, archive, "").post("plan", EVENING | {"sheet_list": str(tmp_path / "list.csv")}),
        422,
        "services.posted.names_file",
    )
    assert told["field"] == "sheet_list"
    films = [EVENING["films"][0] | {"tests": [{"developer": "Brackwater", "time": "7:00", "readings": "/etc/passwd"}]}]
    answer = caller(client, archive, "").post("plan", EVENING | {"films": films})
    assert answer.status_code == 422
    assert "services.posted.names_file" in {answer.json()["code"], *(one["code"] for one in answer.json()["more"])}


def test_an_evening_has_an_end(client: Any, archive: Archive) -> None:
    """Too many sheets, none, another format, unknown keys: each is told with its field."""
    call = caller(client, archive, "")
    many = [{"label": f"{number}", "film": "Tolland 100"} for number in range(301)]
    refused(call.post("plan", EVENING | {"sheets": many}), 422, "services.posted.most_sheets")
    refused(call.post("plan", EVENING | {"sheets": []}), 422, "files.evening.no_sheets")
    assert refused(call.post("plan", EVENING | {"format": 2}), 422, "files.format.newer")["field"] == "format"
    told = call.post("plan", {"sheets": []}).json()
    assert "format" in {told["field"], *(one["field"] for one in told["more"])}
    refused(call.post("plan", []), 422, "web.api.value")
    wrong = call.post("plan", EVENING | {"colour": "red"})
    assert wrong.status_code == 422
    assert wrong.json()["field"] == "colour"


# Readings


def state_of(archive: Archive) -> Any:
    return fold(one.fact for one in StoredLog().read(str(archive.keys["runs"])))


def test_a_reading_is_used_with_its_instruments_offset(client: Any, archive: Archive) -> None:
    """Shown 20.4 by a glass that reads 0.4 too high: the bath has 20.0, and the run says so."""
    call = caller(client, archive, "readings", ELSEWHERE)
    answer = call.post(f"runs/{archive.keys['runs']}/readings", {"shown_c": 20.4, "instrument": "Glass 1"})
    assert answer.status_code == 201, answer.content
    told = answer.json()
    assert (told["used"], told["seq"], told["reads_high_c"], told["instrument"]) == (True, 3, 0.4, "glass 1")
    assert [one["code"] for one in told["said"]][:1] == ["runs.said.reading"]
    assert [one.temp_c for one in state_of(archive).readings] == [pytest.approx(20.0)]
    shown = Caller(client).get(f"runs/{archive.keys['runs']}/state").json()
    assert shown["readings"][0]["temp_c"] == pytest.approx(20.0)


def test_without_an_instrument_the_programs_name_stands_there(client: Any, archive: Archive) -> None:
    """And no offset is guessed."""
    call = caller(client, archive, "readings")
    told = call.post("runs/now/readings", {"shown_c": 20.0, "where": "jacket"}).json()
    assert (told["reads_high_c"], told["instrument"]) == (0.0, "program that may readings")


@pytest.mark.parametrize(
    ("sent", "code"),
    [
        ({"shown_c": 85.0}, "absurd"),
        ({"shown_c": -127}, "absurd"),
        ({"shown_c": None}, "no_number"),
        ('{"shown_c": 1e999}', "no_number"),
        ({"shown_c": 20.0, "age_s": 31}, "stale"),
        ({"shown_c": 20.0, "at": "2001-01-01T00:00:00Z"}, "stale"),
        ({"shown_c": 20.0, "at": "2999-01-01T00:00:00+01:00"}, "ahead"),
    ],
)
def test_what_cannot_be_used_is_kept_and_shown(client: Any, archive: Archive, sent: Any, code: str) -> None:
    """201 with the reason; the run shows it, and its readings stay as they were."""
    call = caller(client, archive, "readings")
    answer = call.post(f"runs/{archive.keys['runs']}/readings", sent)
    assert answer.status_code == 201, answer.content
    assert answer.json()["used"] is False
    assert [one["code"] for one in answer.json()["said"]] == [f"runs.reading.{code}"]
    shown = Caller(client).get(f"runs/{archive.keys['runs']}/state").json()
    assert shown["readings"] == []
    assert [one["code"] for one in shown["set_aside"]] == [f"runs.reading.{code}"]
    assert shown["set_aside"][0]["sentence"].startswith("Not used")


def test_readings_too_close_together_are_not_kept(client: Any, archive: Archive) -> None:
    """429 with when to come again; another place is another matter."""
    call = caller(client, archive, "readings")
    address = f"runs/{archive.keys['runs']}/readings"
    assert call.post(address, {"shown_c": 20.0}).status_code == 201
    answer = call.post(address, {"shown_c": 20.1})
    refused(answer, 429, "services.reading.too_soon")
    assert answer.headers["Retry-After"] == "5"
    assert call.post(address, {"shown_c": 21.0, "where": "jacket"}).status_code == 201
    assert len(state_of(archive).readings) == 2


def test_a_thermometer_that_knows_no_run(client: Any, archive: Archive) -> None:
    """The one that goes on is meant; several, or none, are told apart by a person."""
    call = caller(client, archive, "readings")
    told = call.post("runs/now/readings", {"shown_c": 20.0})
    assert told.status_code == 201
    assert told.json()["run"] == str(archive.keys["runs"])
    begin(add_round(2)["runs"])
    refused(call.post("runs/now/readings", {"shown_c": 20.0}), 409, "services.reading.many_runs")
    models.Run.objects.update(state="ended")
    refused(call.post("runs/now/readings", {"shown_c": 20.0}), 409, "services.reading.no_run")


def test_a_run_that_takes_no_reading_says_why(client: Any, archive: Archive) -> None:
    """One that was never opened; one that is not there; an instrument that is not."""
    call = caller(client, archive, "readings")
    ready = add_round(2)["runs"]
    refused(call.post(f"runs/{ready}/readings", {"shown_c": 20.0}), 409, "services.reading.refused")
    nowhere = "00000000-0000-4000-8000-000000000000"
    refused(call.post(f"runs/{nowhere}/readings", {"shown_c": 20.0}), 404, "services.records.not_found")
    address = f"runs/{archive.keys['runs']}/readings"
    refused(call.post(address, {"shown_c": 20, "instrument": "?"}), 422, "services.reading.instrument")
    refused(call.post(address, {"shown_c": 20, "at": "2031-11-04T20:00:00"}), 422, "web.api.value")
    assert len(state_of(archive).readings) == 0


def test_a_reading_is_judged_by_this_machines_clock(archive: Archive) -> None:
    """A time without a zone is nobody's; the service refuses it whoever asks."""
    from wetside.adapters.machine_clock import moment_now

    posted = run_readings.PostedReading(20.0, at=dt.datetime(2031, 11, 4, 20, 0))  # noqa: DTZ001 (that is the mistake)
    with pytest.raises(WetsideError) as told:
        run_readings.take_reading(archive.keys["runs"], posted, "probe", moment_now())
    assert told.value.code == "services.reading.zone"


# Hostile input


@pytest.mark.parametrize(
    ("body", "kind", "status", "code"),
    [
        ("{", "application/json", 400, "web.api.unreadable"),
        (b"\xff\xfe", "application/json", 400, "web.api.unreadable"),
        ('{"sheet": NaN}', "application/json", 400, "web.api.unreadable"),
        ('{"sheet": {"label": "a\\u0000b", "film": "x"}}', "application/json", 400, "web.api.letters"),
        ('{"sheet": {"la\\u0000bel": "b", "film": "x"}}', "application/json", 400, "web.api.letters"),
        ('{"sheet": {"label": "\\ud800", "film": "x"}}', "application/json", 400, "web.api.letters"),
        ('{"sheet": ' + "[" * 60 + "]" * 60 + "}", "application/json", 400, "web.api.deep"),
        ("[" * 100_000 + "]" * 100_000, "application/json", 400, "web.api.deep"),
        ('{"sheet": ' + "9" * 5000 + "}", "application/json", 400, "web.api.unreadable"),
        ("[]", "application/json", 422, "web.api.value"),
        ('{"sheet": 7}', "application/json", 422, "web.api.value"),
        ('{"sheet": {}, "other": 1}', "application/json", 422, "web.api.value"),
        ('{"sheet": {}}', "text/plain", 415, "web.api.not_json"),
        ("a=1", "application/x-www-form-urlencoded", 415, "web.api.not_json"),
        ('"' + "a" * 1_000_001 + '"', "application/json", 413, "web.api.large"),
        ('"' + "a" * 2_100_000 + '"', "application/json", 413, "web.api.large"),
    ],
)
def test_a_hostile_body_is_refused_in_the_one_shape(
    client: Any, archive: Archive, body: Any, kind: str, status: int, code: str
) -> None:
    """Nothing is written, and nothing fails."""
    refused(caller(client, archive, "write").post("sheets", body, kind), status, code)
    assert models.Sheet.objects.count() == 1


@pytest.mark.parametrize(
    ("address", "status", "code"),
    [
        ("", 404, "web.api.no_address"),
        ("nothing", 404, "web.api.no_address"),
        ("sheets/", 404, "web.api.no_address"),
        ("sheets/abc", 404, "web.api.no_address"),
        ("sheets/%00", 404, "web.api.no_address"),
        ("sheets/../films", 404, "web.api.no_address"),
        ("sheets?after=x", 422, "services.cursor"),
        ("sheets?after=%00", 422, "services.cursor"),
        ("sheets?after=99999999T999999.999999-00000000000040008000000000000000", 422, "services.cursor"),
        ("sheets?after=" + "9" * 81, 422, "web.api.value"),
        ("sheets?most=0", 422, "web.api.value"),
        ("sheets?most=201", 422, "web.api.value"),
        ("sheets?most=ten", 422, "web.api.value"),
        ("sheets?state=gone", 422, "web.api.value"),
        ("sheets?stat=waiting", 422, "web.api.question"),
        ("sheets?%00=1", 422, "web.api.question"),
        ("sheets/%s?most=1" % ("0" * 8 + "-0000-4000-8000-" + "0" * 12), 422, "web.api.question"),
        ("sheets?most=1&most=2", 422, "web.api.twice"),
        ("runs/now/readings", 405, "web.api.method"),
    ],
)
def test_a_hostile_address_is_refused_in_the_one_shape(
    client: Any, archive: Archive, address: str, status: int, code: str
) -> None:
    """A code, a sentence and the field."""
    refused(Caller(client).get(address), status, code)


def test_a_form_of_another_site_cannot_write(archive: Archive) -> None:
    """The page's cookies open nothing here: without a token a post is refused whatever the browser sends along."""
    from django.test import Client

    browser = Client(enforce_csrf_checks=True)
    browser.get("/", headers={"host": "127.0.0.1"})
    answer = browser.post("/api/v1/sheets", {"sheet": "{}"}, headers={"host": "127.0.0.1"})
    refused(answer, 401, "web.api.no_token")
