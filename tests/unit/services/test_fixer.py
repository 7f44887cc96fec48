"""Typed fixers: both shares, what binds, two baths in turn, strength after carried water."""

from __future__ import annotations

import pytest

from wetside.errors import WetsideError
from wetside.services.fixer import FixerAnswers, judge

GOOD = FixerAnswers("1l", films=("12:4x5in",), fresh="0:50", now="0:55")
SPENT = FixerAnswers("1l", films=("52:4x5in",), tabular=("20:4x5in",), fresh="0:50", now="1:50", last="20")


def test_b6_with_a_second_bath():
    """Handbook B6: 1.07 by area, 2.2 times the fresh clearing; retire, promote, refix for three clearing times."""
    found = judge(SPENT._replace(second_bath=True))
    assert found.decision.area_share == pytest.approx(52 / 80 + 20 / 48)
    assert found.decision.binds == "clearing"
    advice = dict(found.advice)
    assert list(advice)[:3] == ["chemistry.fixer.retire", "chemistry.fixer.promote", "chemistry.fixer.refix"]
    assert advice["chemistry.fixer.refix"] == {"count": 20, "time_s": 150.0}


def test_after_three_promotions_both_baths_are_renewed():
    """A second bath that has moved up three times goes with the first (anchell-2008, p. 107)."""
    codes = {
        times: [code for code, _ in judge(SPENT._replace(second_bath=True, promoted=times)).advice]
        for times in ("2", "3")
    }
    assert "chemistry.fixer.promote" in codes["2"]
    assert "services.renew_both" in codes["3"]
    assert "chemistry.fixer.promote" not in codes["3"]


def test_one_bath_is_mixed_anew():
    """Without a second bath a new one is mixed."""
    assert "chemistry.fixer.mix_new" in dict(judge(SPENT).advice)


def test_a_bath_spent_by_area_alone_names_no_time_to_fix_again():
    """Without a clearing test nothing is made up: the advice leaves the sheets out, and --last asks for --fresh."""
    by_area = FixerAnswers("1l", films=("90:4x5in",))
    advice = dict(judge(by_area).advice)
    assert "chemistry.fixer.mix_new" in advice
    assert not any("time_s" in params for params in advice.values())
    with pytest.raises(WetsideError) as caught:
        judge(by_area._replace(last="20"))
    assert caught.value.params["option"] == "--fresh"


def test_half_of_the_fix_in_each_of_two_baths():
    """Twice the clearing time of 0:55 in all: 0:55 in each (ilford-rapid-fixer-2002, p. 3)."""
    assert judge(GOOD).each_s is None
    assert judge(GOOD._replace(second_bath=True)).each_s == (55.0, 55.0)


def test_tabular_film_is_fixed_longer_and_never_past_the_bleach():
    """Three clearing times for tabular film; past ten minutes the bath is changed instead."""
    assert judge(GOOD._replace(clip_tabular=True)).decision.fix_time_s == pytest.approx(165.0)
    slow = judge(GOOD._replace(clip_tabular=True, fresh="2:00", now="3:30"))
    assert (slow.decision.action, slow.decision.binds) == ("change", "time")


def test_carried_water_thins_the_bath():
    """Each load of 20 ml leaves 500/520 of a bath of 500 ml."""
    found = judge(FixerAnswers("500ml", loads="3", carried="20ml"))
    assert found.strength == pytest.approx((500 / 520) ** 3)
    assert judge(GOOD).strength is None


def test_sheets_left_of_the_last_kind():
    """Twelve of eighty have gone: 68 ordinary sheets are left, or 40 tabular ones after one of them."""
    assert judge(GOOD).sheets_left == 68
    assert judge(GOOD._replace(tabular=("1:4x5in",))).sheets_left == int((1 - 12 / 80 - 1 / 48) * 48)


def test_a_test_at_another_temperature_is_moved_and_marked():
    """A fresh test at another temperature still counts, as assumed, with a word about it."""
    found = judge(GOOD._replace(temp="20C", fresh_temp="24C"))
    assert found.decision.evidence.value == "assumed"
    assert "chemistry.fixer.clearing_moved" in dict(found.decision.notes)


@pytest.mark.parametrize(
    ("answers", "code"),
    [
        (GOOD._replace(films=("12",)), "services.film_form"),
        (GOOD._replace(fresh=None), "services.option_missing_with"),
        (GOOD._replace(now=None), "services.option_missing_with"),
        (GOOD._replace(promoted="3"), "services.option_missing_with"),
        (GOOD._replace(carried="20ml"), "services.option_missing_with"),
        (SPENT._replace(fresh=None, now=None), "services.option_missing_with"),
        (GOOD._replace(loads="none"), "services.not_whole"),
    ],
)
def test_half_said(answers, code):
    """What is missing or impossible is refused by name."""
    with pytest.raises(WetsideError) as caught:
        judge(answers)
    assert caught.value.code == code
