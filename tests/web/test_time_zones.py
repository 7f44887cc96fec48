"""Days and hours of the darkroom's own zone: around midnight, and in the nights in which clocks change."""

from __future__ import annotations

import datetime as dt
import re
from zoneinfo import ZoneInfo

import pytest

from wetside.adapters import clock
from wetside.records import models
from wetside.services.records.changes import make

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]
HOST = {"host": "127.0.0.1"}
BERLIN = ZoneInfo("Europe/Berlin")


@pytest.fixture
def at(monkeypatch):
    """Set the clock to a moment of UTC."""

    def set_to(text: str) -> None:
        moment = dt.datetime.fromisoformat(text).replace(tzinfo=dt.UTC)
        monkeypatch.setattr(clock, "now", lambda: moment)

    return set_to


def first(client) -> str:
    text = client.get("/", headers=HOST).content.decode()
    found = re.search(r"<h1[^>]*>(.*?)</h1>", text, re.DOTALL)
    assert found
    return found[1].strip()


@pytest.mark.parametrize(
    ("zone", "moment", "days"),
    [
        ("UTC", "2026-06-10T22:30", "9 days"),
        ("Europe/Berlin", "2026-06-10T21:30", "9 days"),
        ("Europe/Berlin", "2026-06-10T22:30", "10 days"),
        ("Pacific/Auckland", "2026-06-10T12:30", "10 days"),
        ("America/Los_Angeles", "2026-06-11T06:30", "9 days"),
    ],
)
def test_ages_count_the_darkrooms_days(client, at, zone: str, moment: str, days: str) -> None:
    """A sheet is a day older from midnight of the darkroom, wherever the machine stands."""
    models.Darkroom.objects.create(time_zone=zone)
    film = make(models.Film, {"name": "Tolland 100"})
    make(models.Sheet, {"label": "1", "film": film, "exposed": dt.date(2026, 6, 1)})
    at(moment)
    assert first(client) == f"One sheet waits, for {days}"


def test_a_bottle_keeps_until_the_darkrooms_midnight(client, at) -> None:
    """At half past eleven in the evening of its last day it is good, an hour later past its day."""
    models.Darkroom.objects.create(time_zone="Europe/Berlin")
    bottle = models.Bottle(mark="D", mark_key="d", holds="Brackwater", role="developer", left_ml=500.0)
    bottle.keeps_until = dt.date(2026, 6, 10)
    bottle.save()
    at("2026-06-10T21:30")
    before = client.get("/shelf/", headers=HOST).content.decode()
    at("2026-06-10T22:30")
    after = client.get("/shelf/", headers=HOST).content.decode()
    assert "spent" not in before.partition("<main")[2]
    assert "spent" in after.partition("<main")[2]


@pytest.mark.parametrize(
    ("moment", "day"),
    [
        ("2026-03-28T23:30", "2026-03-29"),  # 00:30 of the night in which an hour is left out
        ("2026-03-29T21:30", "2026-03-29"),  # 23:30 of that day, an hour nearer to UTC's midnight
        ("2026-03-29T22:30", "2026-03-30"),
        ("2026-10-24T22:30", "2026-10-25"),  # 00:30 of the night in which an hour comes twice
        ("2026-10-25T22:30", "2026-10-25"),
        ("2026-10-25T23:30", "2026-10-26"),
    ],
)
def test_the_days_of_both_changes_begin_at_midnight(at, moment: str, day: str) -> None:
    """The short day and the long one begin and end at the darkroom's midnight."""
    at(moment)
    with clock.in_zone(BERLIN):
        assert clock.today().isoformat() == day


def test_the_two_half_past_twos_of_the_autumn_night_are_told_apart(client) -> None:
    """Frozen at 02:30 twice: each says its offset; in the spring night and an hour later none does."""
    models.Darkroom.objects.create(time_zone="Europe/Berlin")
    told = []
    for moment in ("2026-10-25T00:30", "2026-10-25T01:30", "2026-10-25T02:30", "2026-03-29T01:30"):
        removed = dt.datetime.fromisoformat(moment).replace(tzinfo=dt.UTC)
        film = make(models.Film, {"name": f"Tolland {moment}"})
        models.Film.objects.filter(pk=film.pk).update(removed_at=removed)
        text = client.get("/darkroom/removed/", headers=HOST).content.decode()
        row = next(part for part in text.split("<tr") if film.name in part)
        found = re.search(r"20[0-9-]{8} [^<]*", row)
        assert found
        told.append(found[0].strip())
    assert told == [
        "2026-10-25 02:30 (UTC+2)",
        "2026-10-25 02:30 (UTC+1)",
        "2026-10-25 03:30",
        "2026-03-29 03:30",
    ]
