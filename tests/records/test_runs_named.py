"""Baths whose bottle the plan does not name are booked from the bottle that bears their name."""

from __future__ import annotations

import datetime as dt

import pytest
from tests.fixtures.run_records import develop

from wetside.services.records import plans_frozen, runs, short_way
from wetside.services.records.bottles import make_bottle
from wetside.services.records.runs_after import after_run

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2031, 11, 5, 9, 0, tzinfo=dt.UTC)
SHELF = (
    ("D", "Brackwater concentrate", "developer", "500 ml", "concentrate"),
    ("E", "Brackwater", "developer", "1 l", "working"),
    ("F", "Fixer", "fixer", "1 l", "working"),
    ("S", "Stop bath", "stop", "300 ml", "working"),
)
ASKED = {"film": "Tolland 100", "developer": "Brackwater 1+14", "number": "4", "time": "7:30", "size": "9x12cm"}
POURED_ML = 250.0
"""Where no vessel is said."""


def test_the_bottle_that_bears_the_name_is_proposed(settings, tmp_path, monkeypatch) -> None:
    """As the plan drew from it, and said so beside it; a working solution never where the concentrate is meant."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())
    for mark, holds, role, volume, form in SHELF:
        make_bottle({"mark": mark, "holds": holds, "volume": volume}, {"role": role, "form": form}, NOW)
    plan = short_way.keep_short(ASKED)
    after = after_run(develop(runs.open_planned(plan.pk, 1)))
    booked = {row.bottle.mark: (row.drawn_ml, row.returned_ml) for row in after.rows if row.bottle is not None}
    # One part and fourteen: 250 ml / 15 = 16.7 ml of concentrate.
    assert booked == {"D": (16.7, 0.0), "S": (POURED_ML, 0.0), "F": (POURED_ML, POURED_ML)}
    assert {row.note for row in after.rows} == {"services.run_after.by_name"}
