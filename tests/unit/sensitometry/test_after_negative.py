"""After the negative: which way on is advised, with what cautions, and what is never proposed."""

from __future__ import annotations

import pytest

from wetside.adapters.printing_data import load_printing_ranges, rows_of_kind
from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.after_negative import (
    NegativeReading,
    decide_after_negative,
    intensified_density,
    print_time_s,
    reduced_by_cutting,
    reduced_proportionally,
)
from wetside.sensitometry.grades import PrintingAim
from wetside.values.evidence import Evidence
from wetside.wording.sentence import known_codes, sentence

FILTERS = rows_of_kind(load_printing_ranges(), "filter")
GRADED = PrintingAim(1.05, 0.08, "graded-paper", ("blue",), Evidence.TESTED, None)
VARIABLE = PrintingAim(1.05, 0.15, "variable-paper", ("blue", "green"), Evidence.TESTED, None)
PLATINUM = PrintingAim(1.80, 0.10, "alternative", ("uv",), Evidence.PUBLISHED, None)
NAN = float("nan")


def way(decision, act):
    return next(option for option in decision.options if option.act == act)


@pytest.mark.parametrize(
    ("shadow", "highlight", "aim", "rows", "state", "advised"),
    [
        (0.10, 1.15, GRADED, (), {}, "keep"),
        (0.10, 1.00, GRADED, FILTERS, {}, "print"),
        (0.10, 1.00, GRADED, (), {"fixed_and_washed": True}, "intensify"),
        (0.10, 1.00, GRADED, (), {}, "keep"),
        (0.10, 1.00, GRADED, (), {"repeatable": True}, "remake"),
        (0.10, 1.40, GRADED, (), {"fixed_and_washed": True}, "reduce"),
        (0.10, 1.40, GRADED, (), {"fixed_and_washed": True, "repeatable": True}, "remake"),
        (0.10, 1.68, PLATINUM, (), {"fixed_and_washed": True}, "intensify"),
        (0.10, 1.20, PLATINUM, (), {"fixed_and_washed": True}, "keep"),
        (0.10, 2.60, GRADED, (), {"fixed_and_washed": True}, "keep"),
        (0.10, 2.60, VARIABLE, FILTERS, {"fixed_and_washed": True}, "print"),
    ],
)
def test_the_gentlest_way_that_serves_is_advised(shadow, highlight, aim, rows, state, advised):
    """Nothing is done to a negative that a grade can print; an unknown state forbids treatment."""
    assert decide_after_negative(NegativeReading(shadow, highlight, **state), aim, rows).advised.act == advised


def test_a_treatment_is_shown_with_its_reason_where_it_is_not_possible():
    """What is not offered still says why."""
    decision = decide_after_negative(NegativeReading(0.10, 1.00), GRADED)
    assert way(decision, "intensify").reason == "sensitometry.after.fixed_and_washed"
    assert way(decision, "reduce").reason == "sensitometry.after.soft_enough"
    assert way(decision, "remake").reason == "sensitometry.after.not_repeatable"
    hard = decide_after_negative(NegativeReading(0.10, 1.90, fixed_and_washed=True), GRADED)
    assert way(hard, "intensify").reason == "sensitometry.after.hard_enough"
    assert way(hard, "reduce").reason == "sensitometry.after.too_much_reduction"


def test_selenium_carries_its_cautions_and_is_assumed():
    """Copy first, well fixed and washed, toxic, ammonia, the product's own sheet; the gain is from memory."""
    option = way(decide_after_negative(NegativeReading(0.1, 0.9, fixed_and_washed=True), GRADED), "intensify")
    wanted = {"copy_first", "fixed_and_washed", "selenium_toxic", "selenium_ammonia", "product_sheet"}
    assert wanted <= {code.rpartition(".")[2] for code in option.cautions}
    assert option.evidence is Evidence.ASSUMED
    assert option.print_factor > 1.0


def test_every_caution_and_reason_is_said_and_none_proposes_chromium_or_mercury():
    """The words of every way on are there, and no forbidden method is among them."""
    found = set()
    for negative in (NegativeReading(0.1, 0.9), NegativeReading(0.1, 1.9), NegativeReading(0.1, 1.9, True, True)):
        for option in decide_after_negative(negative, GRADED, FILTERS, cut=0.2).options:
            found |= {*option.cautions, *([option.reason] if option.reason else [])}
    assert found <= known_codes("sensitometry")
    said = " ".join(sentence(code, {}, ()) for code in found).casefold()
    assert not [word for word in ("chrom", "mercur") if word in said]


def test_intensifying_may_need_a_harder_filter_as_well():
    """Where selenium alone is not enough the filter for what it gives is named."""
    option = way(
        decide_after_negative(NegativeReading(0.1, 0.6, fixed_and_washed=True), VARIABLE, FILTERS), "intensify"
    )
    assert option.printing.name == "4"
    assert option.wanted == pytest.approx(0.60)
    assert option.grades == pytest.approx((1.05 - 0.60) / 0.17)


def test_selenium_is_worth_less_than_a_zone():
    """The gain in zones is told beside the density."""
    option = way(decide_after_negative(NegativeReading(0.10, 1.15, fixed_and_washed=True), GRADED), "intensify")
    assert 0.7 < option.zones < 1.0


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: decide_after_negative(NegativeReading(1.0, 0.2), GRADED), "sensitometry.after.no_range"),
        (lambda: decide_after_negative(NegativeReading(NAN, 1.2), GRADED), "sensitometry.density.impossible"),
        (lambda: print_time_s(0.0, 1.0, 1.2), "sensitometry.density.print_time"),
        (lambda: print_time_s(10.0, 1.0, NAN), "sensitometry.density.impossible"),
        (lambda: intensified_density(1.0, NAN), "sensitometry.after.gain"),
        (lambda: reduced_proportionally(1.0, 1.0), "sensitometry.after.share"),
        (lambda: reduced_by_cutting(-0.1, 0.1), "sensitometry.density.impossible"),
    ],
)
def test_what_is_no_negative_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence."""
    with pytest.raises((OutOfRangeError, RefusedError)) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())
