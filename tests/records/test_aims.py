"""Aims: typed, from a paper by name, from a paper test by eye."""

from __future__ import annotations

import datetime as dt

import pytest

from wetside.errors import RefusedError, WetsideError
from wetside.records.models import Plan, Sheet
from wetside.services.records import aims, films
from wetside.services.records.changes import make

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


def test_a_filter_gives_the_range_of_its_published_number() -> None:
    """Filter 00 of the shipped paper is R 180: 1.80, published, on variable contrast paper."""
    key = next(one.key for one in aims.offered_rows() if (one.row.kind, one.row.name) == ("filter", "00"))
    begun = aims.aim_from_row(key)
    assert (begun.raw["range"], begun.raw["for"], begun.evidence.value) == (1.80, "variable-paper", "published")
    kept = aims.save_aim(begun.raw, note=begun.note)
    assert (kept.density_range, kept.note) == (1.80, begun.note)


def test_steps_counted_on_one_s_own_paper_give_its_range() -> None:
    """Steps 5 to 11 of 0.15: seven toned steps are 1.05."""
    begun = aims.aim_from_steps("5", "11", "graded-paper")
    assert begun.raw["range"] == pytest.approx(1.05)
    assert begun.uncertainty == pytest.approx(0.15)


@pytest.mark.parametrize(("first", "last", "field"), [("x", "11", "first"), ("5", "", "last"), ("9", "4", "last")])
def test_steps_that_cannot_be_are_refused_at_their_field(first, last, field) -> None:
    """A word, nothing, and the wrong way round."""
    with pytest.raises(WetsideError) as refused:
        aims.aim_from_steps(first, last, "graded-paper")
    assert refused.value.place.field == field


def test_no_limit_of_a_scanner_is_offered_as_an_aim() -> None:
    """A limit says how dense a highlight may be, not how long the range shall be."""
    assert {one.row.kind for one in aims.offered_rows()} == {"grade", "filter", "enlarger", "process"}
    assert all(aims.aim_from_row(one.key).raw["range"] > 0 for one in aims.offered_rows())


def test_the_default_tolerance_is_told_as_such() -> None:
    """0.08 on graded paper where none is given."""
    aims.save_aim({"name": "grade 2", "for": "graded-paper", "range": "1,05"})
    aims.save_aim({"name": "grade 3", "for": "graded-paper", "range": "0.90", "tolerance": "0.05"})
    two, three = aims.aim_list().lines
    assert (two.tolerance, two.is_default) == (0.08, True)
    assert (three.tolerance, three.is_default) == (0.05, False)


def test_an_aim_of_waiting_sheets_stays() -> None:
    """It says for how many."""
    aim = aims.save_aim({"name": "grade 2", "for": "graded-paper", "range": "1.05"})
    film = films.save_film({"name": "Tolland 100"})
    make(Sheet, {"label": "larch", "film": film, "aim": aim})
    with pytest.raises(RefusedError) as refused:
        aims.remove_aim(aim, NOW)
    assert refused.value.params["count"] == 1


def test_an_aim_that_a_draft_chose_stays_and_a_frozen_plan_holds_nothing() -> None:
    """The draft is named; a frozen plan stands on its own copy, so that the aim may go."""
    aim = aims.save_aim({"name": "grade 2", "for": "graded-paper", "range": "1.05"})
    plan = make(Plan, {"name": "Friday's evening", "choices": {"aim": str(aim.pk)}})
    with pytest.raises(RefusedError) as refused:
        aims.remove_aim(aim, NOW)
    assert (refused.value.params["count"], refused.value.params["drafts"]) == (1, "Friday's evening")
    Plan.objects.filter(pk=plan.pk).update(frozen_at=NOW, evening="format = 1", document={"loads": []})
    assert aims.remove_aim(aim, NOW).removed_at == NOW
