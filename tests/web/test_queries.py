"""Every address of the site asks the database at most twelve times, also for somebody who is signed in."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from tests.fixtures.full_darkroom import addresses, furnish

from wetside.adapters import speech
from wetside.services.records import accounts, plans_frozen, short_way

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]

HOST = {"host": "127.0.0.1"}
PASSWORD = "wet sleeves 4 ever"  # noqa: S105 (of a test)
MOST_QUERIES = 12
WHOLE_ARCHIVE = "/darkroom/export.zip"
"""A file of all tables: it asks for each of them."""


@pytest.fixture
def room(monkeypatch):
    """Nothing is printed and nothing rendered as speech: that asks the database for nothing."""
    for module in (plans_frozen, short_way):
        monkeypatch.setattr(module, "keep_files", lambda *_: ())
    monkeypatch.setattr(speech, "clip_of", lambda *_, **__: None)
    return furnish()


def test_no_address_asks_more_than_a_dozen_times(client, room, settings) -> None:
    """With runs that are on, over, booked, hung, looked at and compared, and plans of each state, over the network."""
    settings.LAN = "plain"
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
    accounts.add_account("ines", PASSWORD)
    assert client.post("/sign-in/", {"name": "ines", "password": PASSWORD}, headers=HOST).status_code == 302
    counts, shown = {}, 0
    for address in addresses(room):
        with CaptureQueriesContext(connection) as told:
            answer = client.get(address, headers=HOST)
        assert answer.status_code in (200, 302, 405, 422), address
        counts[address] = len(told)
        shown += answer.status_code == 200
    assert shown > 140
    assert {page: count for page, count in counts.items() if count > MOST_QUERIES and page != WHOLE_ARCHIVE} == {}
