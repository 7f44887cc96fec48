"""How long solutions keep."""

from __future__ import annotations

from datetime import date

import pytest

from wetside import chemistry
from wetside.adapters import chemistry_data as data
from wetside.errors import InputError, OutOfRangeError

ROWS = data.load_keeping()
MADE = date(2026, 8, 31)
TODAY = date(2026, 11, 25)


def kept(made=MADE, today=TODAY, **asked):
    return chemistry.keeping_of(ROWS, made, today, **asked)


def codes(keeping):
    return [code for code, _ in keeping.notes]


def test_a_month_ends_on_its_last_day_at_the_latest():
    """Six months from 31 August are 28 February."""
    keeping = kept(product="id-11", form="stock", fill="full", lid="closed")
    assert keeping.until == date(2027, 2, 28)
    assert keeping.days_left == 95
    assert keeping.notes == ()


def test_a_half_full_bottle_keeps_for_a_month():
    """It was over on 30 September, and that is told."""
    keeping = kept(product="ID-11", form="stock", fill="half", lid="closed")
    assert keeping.until == date(2026, 9, 30)
    assert codes(keeping) == ["chemistry.keeping_note.over"]
    assert keeping.days_left == -56


def test_where_nothing_is_said_of_the_bottle_the_shortest_row_counts():
    """A stock solution of unknown fill is taken for one month."""
    assert kept(product="ID-11", form="stock").row.amount == 1.0


def test_working_solution_is_good_for_a_day():
    """24 hours end on the next day, and the hour is to be noted."""
    keeping = kept(made=TODAY, product="ILFOTEC DD-X", form="working")
    assert keeping.until == date(2026, 11, 26)
    assert codes(keeping) == ["chemistry.keeping_note.hours"]


def test_days_are_counted_as_days():
    """An open tray of fixer is good for a week."""
    keeping = kept(made=TODAY, product="Rapid Fixer", form="working", fill="tray", lid="none")
    assert keeping.until == date(2026, 12, 2)


def test_an_unknown_product_gets_no_number():
    """Neither its kind nor a likeness is used: read its own label."""
    for product in ("Brackwater", "ID-12"):
        keeping = kept(product=product, kind="developer", form="stock")
        assert (keeping.row, keeping.until, keeping.days_left) == (None, None, None)
        assert codes(keeping) == ["chemistry.keeping_note.read_label"]
    assert kept(form="stock").row is None


def test_a_case_that_is_not_printed_takes_one_with_more_air():
    """Half full under a floating lid is taken for the deep tank with one, and named; never one with less air."""
    keeping = kept(product="ID-11", form="stock", fill="half", lid="floating")
    assert (keeping.row.fill, keeping.row.lid) == ("tank", "floating")
    assert codes(keeping)[0] == "chemistry.keeping_note.nearest"
    assert kept(product="ID-11", form="stock", fill="tray", lid="none").row is None


def test_no_limit_has_no_date():
    """Unopened powder has none, in a cool place."""
    keeping = kept(product="PERCEPTOL", form="powder")
    assert keeping.until is None
    assert codes(keeping) == ["chemistry.keeping_note.cool", "chemistry.keeping_note.no_limit"]


def test_a_handbook_speaks_for_a_kind_where_no_product_is_named():
    """Any working fixer: two months at most, less in the heat."""
    keeping = kept(kind="fixer", form="working")
    assert keeping.until == date(2026, 10, 31)
    assert codes(keeping) == ["chemistry.keeping_note.not_above", "chemistry.keeping_note.over"]


def test_december_leads_into_the_next_year():
    """Four months from 15 December are 15 April."""
    keeping = kept(made=date(2026, 12, 15), today=date(2026, 12, 15), product="DD-X", form="concentrate", fill="half")
    assert keeping.until == date(2027, 4, 15)


def test_words_and_dates_that_cannot_be_are_refused():
    """Unknown words, and a day of mixing that lies ahead."""
    with pytest.raises(InputError):
        kept(form="bottle")
    with pytest.raises(InputError):
        kept(form="stock", lid="cork")
    with pytest.raises(OutOfRangeError):
        kept(made=date(2026, 12, 1), form="stock")


def test_every_row_has_a_source_and_known_words():
    """The table uses the words that can be asked for."""
    from wetside.chemistry.keeping import FILLS, FORMS, LIDS

    for row in ROWS:
        assert row.source.key
        assert row.form in FORMS
        assert row.fill in ("", *FILLS)
        assert row.lid in ("", *LIDS)
        assert row.unit in ("", "hours", "days", "months")
        assert (row.amount is None) == (row.unit == "")
