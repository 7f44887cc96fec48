"""Any evening that a file can hold, through the records and back."""

from __future__ import annotations

import dataclasses
import importlib.util
from pathlib import Path

import pytest
from django.db import transaction
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wetside.adapters.evening_file import evening_of_text
from wetside.adapters.evening_writer import write_evening
from wetside.services.records.evenings import evening_of_plan
from wetside.services.records.evenings_import import preview, take

pytestmark = pytest.mark.django_db
FILES = Path(__file__).resolve().parents[1] / "property/test_files.py"


def _evenings() -> st.SearchStrategy:
    """The strategy of the files' own property test: one description of what a file may hold."""
    spec = importlib.util.spec_from_file_location("file_strategies", FILES)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.evenings()


def unordered(evening):
    """The same evening: a table of places has no order in a file, and PostgreSQL keeps none."""
    vessels = tuple(dataclasses.replace(one, places=tuple(sorted(one.places))) for one in evening.vessels)
    return dataclasses.replace(evening, vessels=vessels)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow], max_examples=30)
@given(evening=_evenings())
def test_any_evening_comes_back_equal(evening) -> None:
    """Import, the plan's evening, export: equal in values; a second look finds everything the same."""
    # The records hold an aim's tolerance below its range; a file need not.
    aims = tuple(
        dataclasses.replace(aim, tolerance=min(aim.tolerance or 0.01, aim.density_range)) for aim in evening.aims
    )
    # A ledger books what a measure of a darkroom can show: thousandths of a millilitre, millionths of a unit of film.
    bottles = tuple(
        dataclasses.replace(
            bottle,
            volume_ml=None if bottle.volume_ml is None else round(bottle.volume_ml, 3),
            seen_units=round(bottle.seen_units, 6),
        )
        for bottle in evening.bottles
    )
    evening = evening_of_text(write_evening(dataclasses.replace(evening, aims=aims, bottles=bottles)))
    with transaction.atomic():
        plan = take(evening)
        back = evening_of_plan(plan)
        looked = preview(evening)
        transaction.set_rollback(True)
    assert unordered(back) == unordered(evening)
    assert unordered(evening_of_text(write_evening(back))) == unordered(evening)
    waiting = sum(not sheet.done for sheet in evening.sheets)
    assert sum(one.state == "same" for one in looked.found if one.kind == "sheet") == waiting
    assert not looked.differing
