"""Posted readings that are not used stand on the run's page, live and without a script, until a good one comes."""

from __future__ import annotations

import html
from typing import Any

import pytest
from tests.web.api_archive import Archive, Caller, make_archive

from wetside.records import models
from wetside.services.run_aside import MOST_SAID

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}


@pytest.fixture
def archive() -> Archive:
    return make_archive()


def page_of(client: Any, archive: Archive) -> str:
    answer = client.get(f"/runs/{archive.keys['runs']}/", headers=HOST)
    assert answer.status_code == 200
    return html.unescape(answer.content.decode())


def aside_in_rules(client: Any, archive: Archive) -> str:
    answer = client.get(f"/runs/{archive.keys['runs']}/rules.json", headers=HOST)
    return str(answer.json()["words"]["aside"])


def test_a_reading_that_is_not_used_is_seen(client: Any, archive: Archive, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was sent, where, by whom and why not; the live page's warning goes when the thermometer is well again."""
    from wetside.services.records import run_readings

    monkeypatch.setattr(run_readings, "SOONEST_S", 0.0)
    call = Caller(client, archive.tokens["readings"])
    address = f"runs/{archive.keys['runs']}/readings"
    assert aside_in_rules(client, archive) == ""
    assert "not used" not in page_of(client, archive)
    assert call.post(address, {"shown_c": 85}).json()["used"] is False
    said = aside_in_rules(client, archive)
    assert "85 °C" in said
    assert "program that may readings" in said
    assert said.endswith("no bath is that cold or that hot.")
    assert said in page_of(client, archive)
    assert call.post(address, {"shown_c": 20}).json()["used"] is True
    assert aside_in_rules(client, archive) == ""
    assert said in page_of(client, archive), "what came stays to be read"


def test_the_page_shows_the_last_ones_only(client: Any, archive: Archive, monkeypatch: pytest.MonkeyPatch) -> None:
    """A broken probe does not bury the run."""
    from wetside.services.records import run_readings

    monkeypatch.setattr(run_readings, "SOONEST_S", 0.0)
    call = Caller(client, archive.tokens["readings"])
    for shown in range(70, 90):
        call.post("runs/now/readings", {"shown_c": shown})
    page = page_of(client, archive)
    assert page.count("no bath is that cold or that hot.") == MOST_SAID
    assert "89 °C" in page
    assert models.RunEvent.objects.filter(run=archive.keys["runs"], kind="set-aside").count() == 20


def test_a_thermometer_without_a_number_is_said_so(client: Any, archive: Archive) -> None:
    """No empty figure stands there."""
    Caller(client, archive.tokens["readings"]).post("runs/now/readings", {"shown_c": None})
    assert "sent no number" in aside_in_rules(client, archive)
