"""Pages on a large archive: each asks the database as often as on one evening, and at most twelve times."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from wetside.records import models

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "benchmarks"))
from seeded import EVENING, MIDDLE, fill

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]
HOST = {"host": "127.0.0.1"}
MOST_QUERIES = 12
PAGES = (
    "/",
    "/sheets/",
    "/sheets/?show=developed",
    "/sheets/?show=removed",
    "/holders/",
    "/holders/lots/",
    "/outbox/",
    "/plans/",
    "/plans/new/",
    "/shelf/",
    "/shelf/gone/",
    "/shelf/mixing/",
    "/shelf/vessels/",
    "/shelf/instruments/",
    "/films/",
    "/films/developers/",
    "/processes/",
    "/aims/",
    "/darkroom/",
)


def asked(client) -> dict[str, int]:
    """Queries of each page; the first request of a process is not counted."""
    client.get("/", headers=HOST)
    counts = {}
    for address in PAGES:
        with CaptureQueriesContext(connection) as told:
            answer = client.get(address, headers=HOST)
        assert answer.status_code == 200, address
        counts[address] = len(told)
    return counts


@pytest.fixture
def counts(client) -> tuple[dict[str, int], dict[str, int]]:
    """Queries of each page on one evening and on the middle archive."""
    from django.db import transaction

    with transaction.atomic():
        point = transaction.savepoint()
        fill(EVENING)
        small = asked(client)
        transaction.savepoint_rollback(point)
    assert not models.Sheet.objects.exists()
    fill(MIDDLE)
    assert models.Sheet.objects.count() == MIDDLE.sheets
    assert models.RunEvent.objects.count() == MIDDLE.events
    return small, asked(client)


def test_no_page_asks_more_of_a_larger_archive(counts) -> None:
    """With two thousand sheets as many queries as with one evening, at most twelve; one more counts a list of pages."""
    small, large = counts
    more = {page: large[page] - small[page] for page in PAGES if small[page] != large[page]}
    assert all(0 < count <= 1 for count in more.values()), more
    assert set(more) <= {"/sheets/?show=developed"}
    assert {page: count for page, count in large.items() if count > MOST_QUERIES} == {}
