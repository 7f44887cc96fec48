"""Fixer by area and by clearing time."""

from __future__ import annotations

import math

import pytest

from wetside import chemistry
from wetside.chemistry import ClearingTest, FilmFixed
from wetside.errors import AmbiguousError, OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence, Source

SHEET_CM2 = 129.032
ROWS = (
    chemistry.BathCapacity("Tolland Rapid", "1+4", 24.0, 1000.0, Source("worked-example")),
    chemistry.BathCapacity("Tolland Rapid", "1+9", 12.0, 1000.0, Source("worked-example")),
    chemistry.BathCapacity("Morvane Salt", "stock", 15.0, 750.0, Source("worked-example")),
)


def clip(clearing_s, temp_c=20.0, film="Tolland 100", dilution="1+4"):
    return ClearingTest(clearing_s, temp_c, film, dilution)


def codes(notes):
    return [code for code, _ in notes]


def test_the_makers_own_figure_comes_first_and_twenty_units_else():
    """A named fixer has its published capacity; an unnamed or unknown one 20 units a litre, assumed."""
    own = chemistry.fixer_capacity("morvane salt", ROWS)
    assert (own.value, own.evidence) == (20.0, Evidence.PUBLISHED)
    assert chemistry.fixer_capacity("Tolland Rapid", ROWS, "1+9").value == 12.0
    for name in (None, "Brackwater"):
        other = chemistry.fixer_capacity(name, ROWS)
        assert (other.value, other.evidence) == (20.0, Evidence.ASSUMED)


def test_two_capacities_of_one_fixer_ask_for_the_dilution():
    """Nothing is guessed between figures of one product."""
    with pytest.raises(AmbiguousError) as caught:
        chemistry.fixer_capacity("Tolland Rapid", ROWS)
    assert caught.value.params["choices"] == ["1+4", "1+9"]


def test_the_weight_runs_the_other_way_from_the_developers():
    """Thin and blank sheets use more fixer, dense ones less, within 0.8 and 1.3."""
    stops = [-9.0, -3.0, 0.0, 3.0, 9.0]
    weights = [chemistry.fixer_weight(value) for value in stops]
    assert weights == sorted(weights, reverse=True)
    assert (weights[0], weights[-1], chemistry.fixer_weight(None)) == (1.3, 0.8, 1.3)
    assert chemistry.developer_weight(3.0) > 1 > chemistry.fixer_weight(3.0)
    with pytest.raises(OutOfRangeError):
        chemistry.fixer_weight(math.nan)


def test_the_pink_sheets():
    """Story B6: 1.07 of capacity, clearing past double, the last twenty sheets fixed again for 2:30."""
    films = [FilmFixed(52 * SHEET_CM2), FilmFixed(20 * SHEET_CM2, tabular=True)]
    share = chemistry.fixer_share(films, 1000.0)
    assert share == pytest.approx(1.0667, abs=1e-4)
    assert chemistry.first_past_capacity(films, 1000.0) == 1
    decision = chemistry.judge_fixer(share, clip(50.0), clip(110.0), tabular=True)
    assert (decision.action, decision.binds) == ("change", "clearing")
    assert codes(decision.notes) == ["chemistry.fixer.used_up", "chemistry.fixer.clears_slowly"]
    advice = chemistry.advice_for_used_fixer(chemistry.FixAgain(20, 50.0), second_bath=True)
    assert dict(advice)["chemistry.fixer.refix"] == {"count": 20, "time_s": 150.0}
    assert codes(advice) == [
        "chemistry.fixer.retire",
        "chemistry.fixer.promote",
        "chemistry.fixer.refix",
        "chemistry.fixer.wash_again",
        "chemistry.fixer.not_development",
    ]


def test_tabular_film_counts_by_its_share_and_both_sides_count_double():
    """Half the capacity at a share of 0.5, twice the use with two coated sides, weight multiplied."""
    plain = chemistry.fixer_share([FilmFixed(SHEET_CM2)], 1000.0)
    assert chemistry.fixer_share([FilmFixed(SHEET_CM2, tabular=True)], 1000.0, 20.0, 0.5) == pytest.approx(2 * plain)
    assert chemistry.fixer_share([FilmFixed(SHEET_CM2, coated_sides=2)], 1000.0) == pytest.approx(2 * plain)
    assert chemistry.fixer_share([FilmFixed(SHEET_CM2, weight=1.3)], 1000.0) == pytest.approx(1.3 * plain)
    with pytest.raises(OutOfRangeError):
        chemistry.fixer_share([FilmFixed(SHEET_CM2, coated_sides=3)], 1000.0)
    with pytest.raises(OutOfRangeError):
        chemistry.fixer_share([FilmFixed(SHEET_CM2)], 1000.0, 20.0, 1.5)


def test_the_area_alone_decides_without_clearing_tests():
    """Below capacity it is kept, at capacity changed; no fixing time is made up."""
    kept = chemistry.judge_fixer(0.99)
    assert (kept.action, kept.binds, kept.fix_time_s, kept.clearing_share) == ("keep", "area", None, None)
    assert chemistry.judge_fixer(1.0).action == "change"


@pytest.mark.parametrize(
    ("area", "now_s", "binds"), [(0.6, 60.0, "area"), (0.2, 80.0, "clearing"), (0.9, 99.0, "clearing")]
)
def test_the_nearer_limit_is_named(area, now_s, binds):
    """Area and clearing stand on one scale from fresh to used up."""
    decision = chemistry.judge_fixer(area, clip(50.0), clip(now_s))
    assert (decision.action, decision.binds) == ("keep", binds)
    assert decision.fix_time_s == 2 * now_s


def test_a_fix_that_would_bleach_changes_the_bath_first():
    """Three clearing times beyond ten minutes: changed although area and clearing are good."""
    decision = chemistry.judge_fixer(0.1, clip(170.0), clip(205.0), tabular=True)
    assert (decision.action, decision.binds) == ("change", "time")
    assert codes(decision.notes) == ["chemistry.fixer.too_long"]
    assert chemistry.judge_fixer(0.1, clip(170.0), clip(205.0), tabular=True, longest_s=None).action == "keep"
    near = chemistry.judge_fixer(0.1, clip(150.0), clip(165.0), tabular=True)
    assert (near.action, codes(near.notes)) == ("keep", ["chemistry.fixer.long"])


def test_a_bath_that_is_too_slow_when_fresh_says_so():
    """Mixing it new would not help."""
    decision = chemistry.judge_fixer(0.0, clip(250.0), clip(250.0), tabular=True)
    assert (decision.action, decision.binds) == ("change", "time")
    assert codes(decision.notes) == ["chemistry.fixer.slow_fresh"]


def test_tests_of_another_film_or_dilution_say_nothing():
    """Twice the fresh time holds for the same film at the same dilution only."""
    with pytest.raises(RefusedError) as caught:
        chemistry.judge_fixer(0.1, clip(50.0), clip(80.0, film="Morvane 320"))
    assert caught.value.code == "chemistry.fixer.other_film"
    with pytest.raises(RefusedError) as caught:
        chemistry.judge_fixer(0.1, clip(50.0), clip(80.0, dilution="1+9"))
    assert caught.value.code == "chemistry.fixer.other_dilution"


def test_a_step_of_temperature_is_assumed_and_told():
    """Eleven degrees colder, clearing is expected to take twice as long; the result is then only assumed."""
    decision = chemistry.judge_fixer(0.1, clip(50.0, 20.0), clip(110.0, 9.0), area_evidence=Evidence.PUBLISHED)
    assert decision.clearing_share == pytest.approx(0.1)
    assert decision.evidence is Evidence.ASSUMED
    assert codes(decision.notes) == ["chemistry.fixer.clearing_moved"]
    same = chemistry.judge_fixer(0.1, clip(50.0, 20.0), clip(60.0, 20.4), area_evidence=Evidence.PUBLISHED)
    assert (same.clearing_share, same.evidence) == (pytest.approx(0.2), Evidence.PUBLISHED)
    with pytest.raises(OutOfRangeError):
        chemistry.clearing_at_temp_s(clip(50.0), 90.0)


def test_advice_without_a_second_bath_and_without_sheets():
    """One bath is mixed new; nothing to fix again is not mentioned."""
    advice = chemistry.advice_for_used_fixer(None, second_bath=False)
    assert codes(advice) == [
        "chemistry.fixer.retire",
        "chemistry.fixer.mix_new",
        "chemistry.fixer.not_development",
    ]


@pytest.mark.parametrize(("sheets", "fresh_s"), [(0, 50.0), (-1, 50.0), (20, 0.0), (20, math.nan)])
def test_advice_refuses_sheets_and_times_that_cannot_be(sheets, fresh_s):
    """No sheet, or no clearing time, is no advice for fixing again."""
    with pytest.raises(OutOfRangeError):
        chemistry.advice_for_used_fixer(chemistry.FixAgain(sheets, fresh_s), second_bath=True)
