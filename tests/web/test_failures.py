"""Answers where the program or its database failed."""

from __future__ import annotations

import logging

import pytest
from django.db import OperationalError
from django.test import Client

from wetside.web import failures, middleware

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}


@pytest.fixture
def client() -> Client:
    """Client that is answered as a browser is."""
    return Client(raise_request_exception=False)


@pytest.fixture
def away(monkeypatch: pytest.MonkeyPatch) -> None:
    """A database that does not answer from the first question on."""

    def no_answer() -> None:
        raise OperationalError('connection to server on socket "here" failed:\n\tno such file')

    monkeypatch.setattr(middleware, "darkroom_settings", no_answer)


@pytest.mark.usefixtures("away")
def test_a_database_that_is_away_is_told_and_tried_again(client) -> None:
    """A page of its own, with the way to ask again; nothing that was posted is asked for again by a link."""
    answer = client.get("/sheets/?show=lost", headers=HOST)
    text = answer.content.decode()
    assert answer.status_code == 503
    assert answer["Retry-After"] == "5"
    assert "<h1>The database does not answer</h1>" in text
    assert "failed: no such file" in text
    assert 'href="/sheets/?show=lost">Try again' in text
    assert "Try again" not in client.post("/sheets/new/", {}, headers=HOST).content.decode()


@pytest.mark.usefixtures("away")
def test_the_network_is_not_told_where_the_database_stands(client, settings) -> None:
    """Whoever asks may not even be signed in."""
    settings.LAN = True
    text = client.get("/sheets/", headers=HOST).content.decode()
    assert "in the server&#x27;s terminal" in text
    assert "socket" not in text


@pytest.mark.usefixtures("away")
def test_programs_are_told_in_their_own_shape(client) -> None:
    """JSON, the same status."""
    answer = client.get("/api/v1/sheets", headers=HOST)
    assert answer.status_code == 503
    assert answer.json()["code"] == "web.api.database"


def test_a_fault_of_the_program_is_none_of_the_database(client, monkeypatch, caplog) -> None:
    """500, and the terminal has what a programmer needs."""
    monkeypatch.setattr(middleware, "darkroom_settings", lambda: 1 / 0)
    with caplog.at_level(logging.ERROR, "django.request"):
        answer = client.get("/sheets/", headers=HOST)
    assert answer.status_code == 500
    assert "Something went wrong in the program" in answer.content.decode()
    assert [record.exc_info[0] for record in caplog.records if record.exc_info] == [ZeroDivisionError]


@pytest.mark.usefixtures("away")
def test_the_terminal_is_told_once_a_minute(client, monkeypatch, caplog) -> None:
    """A sentence without a traceback, whatever number of pages asks."""
    clock = [1000.0]
    filters = logging.getLogger("django.request").filters
    told = next(one for one in filters if isinstance(one, failures.DatabaseAway))
    monkeypatch.setattr(told, "_told_s", 0.0)
    monkeypatch.setattr(failures.time, "monotonic", lambda: clock[0])
    with caplog.at_level(logging.ERROR, "django.request"):
        for later_s in (0.0, 1.0, 30.0, 40.0):
            clock[0] += later_s
            client.get("/sheets/", headers=HOST)
    lines = [record.getMessage() for record in caplog.records]
    assert len(lines) == 2
    assert all(line.startswith("The database does not answer; it says: connection to server") for line in lines)
    assert not any(record.exc_info for record in caplog.records)
