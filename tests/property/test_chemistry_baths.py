"""Properties of fixer, two baths, wash and hazards."""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wetside import chemistry
from wetside.adapters.bath_data import load_combination_table, load_hazard_table
from wetside.chemistry import Carried, ClearingTest, FilmFixed, FixingBath, TwoBaths
from wetside.errors import WetsideError
from wetside.wording import sentence, speak_error

ANY_FLOAT = st.floats(allow_nan=True, allow_infinity=True)
FILMS = st.lists(
    st.builds(FilmFixed, st.floats(1.0, 3000.0), st.booleans(), st.floats(0.8, 1.3), st.sampled_from([1, 2])),
    max_size=12,
)
VOLUMES = st.floats(50.0, 5000.0)
hazards = cache(load_hazard_table)
combinations = cache(load_combination_table)
NAMES = st.sampled_from([row.name for row in load_hazard_table().substances])


@given(films=FILMS, volume_ml=VOLUMES)
def test_the_share_grows_with_every_film_and_halves_with_twice_the_bath(films, volume_ml):
    """Order does not matter, more film never frees capacity."""
    share = chemistry.fixer_share(films, volume_ml)
    assert share == pytest.approx(chemistry.fixer_share(films[::-1], volume_ml))
    assert chemistry.fixer_share(films, 2 * volume_ml) == pytest.approx(share / 2)
    assert chemistry.fixer_share([*films, FilmFixed(1.0)], volume_ml) > share


@given(area=st.floats(0, 2), fresh_s=st.floats(10, 200), now_s=st.floats(10, 500), tabular=st.booleans())
def test_a_fixer_is_changed_exactly_when_a_limit_is_passed(area, fresh_s, now_s, tabular):
    """Area, twice the fresh clearing time, and ten minutes of fixing; the largest share binds."""
    tests = (ClearingTest(value, 20.0, "Tolland 100", "1+4") for value in (fresh_s, now_s))
    decision = chemistry.judge_fixer(area, *tests, tabular=tabular)
    multiple = 3.0 if tabular else 2.0
    ratios = [area, now_s / (2 * fresh_s), now_s * multiple / 600.0]
    if any(abs(ratio - 1.0) < 1e-6 for ratio in ratios) or fresh_s * multiple >= 600.0 * (1 - 1e-6):
        return
    assert (decision.action == "change") == any(ratio > 1.0 for ratio in ratios)
    assert decision.fix_time_s == pytest.approx(now_s * multiple)
    for code, params in decision.notes:
        assert "{" not in sentence(code, params, ())


@settings(max_examples=60)
@given(loads=st.lists(st.floats(0.1, 8.0), max_size=40), carried_ml=st.floats(0.0, 50.0))
def test_any_run_of_loads_folds_with_the_due_acts(loads, carried_ml):
    """Nothing raises; the first bath stays within its capacity, the second is never dirtier or weaker than it."""
    baths = TwoBaths(FixingBath("0", 500.0), FixingBath("1", 500.0))
    number = 2
    for units in loads:
        act = chemistry.due_bath_act(baths, units)
        new, newer = FixingBath(str(number), 500.0), FixingBath(str(number + 1), 500.0)
        number += 2
        if act == "promote":
            baths = chemistry.promote_second(baths, new)
        elif act == "renew":
            baths = chemistry.renew_both(baths, new, newer)
        assert chemistry.due_bath_act(baths, units) == "none"
        baths = chemistry.fix_in_two_baths(baths, units, carried_ml)
        assert baths.first_share <= 1.0 + 1e-9
        assert baths.promotions <= 3
        assert baths.first.silver_g_per_l >= baths.second.silver_g_per_l - 1e-12
        assert 0 < baths.first.strength <= baths.second.strength + 1e-12 <= 1 + 2e-12


@given(carried_ml=st.floats(0.1, 100), fill_ml=VOLUMES, start_mg=st.floats(1, 2000), share=st.floats(1e-6, 0.9))
def test_counted_fills_are_the_fewest_that_do(carried_ml, fill_ml, start_mg, share):
    """The limit is met, and one fill less does not meet it."""
    fills = chemistry.fills_to_limit(start_mg, start_mg * share, carried_ml, fill_ml)
    assert chemistry.wash_fraction(carried_ml, fill_ml, fills) <= share * (1 + 1e-6)
    assert fills == 0 or chemistry.wash_fraction(carried_ml, fill_ml, fills - 1) > share * (1 - 1e-6)


@given(
    parts=st.tuples(st.floats(0.1, 20), st.floats(0, 20), st.floats(0, 50)),
    fill_ml=VOLUMES,
    times_s=st.lists(st.floats(1, 600), min_size=1, max_size=6),
    half_time_s=st.floats(1, 600),
)
def test_a_lagging_emulsion_never_washes_better_than_balance(parts, fill_ml, times_s, half_time_s):
    """Each fill leaves less than the one before, and never less in the film than full balance would."""
    carried = Carried(*parts)
    steps = chemistry.wash_by_half_time(600.0, carried, fill_ml, times_s, half_time_s)
    left = [600.0, *(step.left_mg for step in steps)]
    assert left == sorted(left, reverse=True)
    for fills, step in enumerate(steps, 1):
        balance = 600.0 * chemistry.wash_fraction(carried.total_ml, fill_ml, fills)
        assert step.left_mg >= balance * (1 - 1e-9)
        assert 0 <= step.emulsion_mg <= step.left_mg * (1 + 1e-9)


@given(name=NAMES, low=st.floats(0.01, 99.0), more=st.floats(0.0, 0.9))
def test_a_stronger_mixture_is_never_classed_below_a_weaker_one(name, low, more):
    """The severest skin and eye class does not fall, and no class by itself is lost."""
    order = ["Eye Irrit. 2", "Skin Irrit. 2", "Eye Dam. 1", "Skin Corr. 1B", "Skin Corr. 1A"]
    weak = set(chemistry.mixture_hazards({name: low}, hazards()).classes)
    strong = set(chemistry.mixture_hazards({name: low + more}, hazards()).classes)
    worst = [max((order.index(kind) for kind in kinds if kind in order), default=-1) for kinds in (weak, strong)]
    assert worst[0] <= worst[1]
    assert weak - set(order) <= strong


@given(
    percents=st.dictionaries(st.one_of(NAMES, st.text(max_size=8)), st.one_of(st.floats(0, 30), ANY_FLOAT), max_size=6)
)
def test_any_recipe_is_answered_in_sentences_or_refused_in_one(percents):
    """Unknown names are named, what cannot be is refused, nothing is left unsaid."""
    try:
        found = chemistry.mixture_hazards(percents, hazards())
    except WetsideError as error:
        refusal = error
    else:
        refusal = None
    if refusal is not None:
        assert not speak_error(refusal, ()).startswith("chemistry.")
        return
    assert found.notes[0][0] == "chemistry.hazard.sheet_first"
    for code, params in found.notes:
        assert not sentence(code, params, ()).startswith("chemistry.")


@given(first=st.sampled_from(sorted(load_combination_table().classes)), second=st.text(max_size=12))
def test_pairs_are_symmetric_and_always_answered(first, second):
    """Either order gives the same rows, and there is always something to say unless the two are one."""
    one = chemistry.wrong_combinations(first, second, combinations())
    assert one.found == chemistry.wrong_combinations(second, first, combinations()).found
    assert one.notes


@given(values=st.lists(ANY_FLOAT, min_size=4, max_size=4))
def test_bad_numbers_are_refused_and_never_become_numbers(values):
    """Not-a-number, infinities and negatives raise, or the result is a finite number."""
    a, b, c, d = values
    for call in (
        lambda: chemistry.wash_fraction(a, b, 2),
        lambda: chemistry.fixer_share([FilmFixed(a)], b, c),
        lambda: chemistry.strength_after_loads(a, b, 3),
        lambda: chemistry.gravity_at_strength(a, b),
        lambda: chemistry.running_wash_fraction(a, b),
        lambda: chemistry.residual_ug_per_cm2(c, d),
        lambda: chemistry.fix_time_s(a, b),
        lambda: chemistry.wetting_agent_ml(c, d),
        lambda: chemistry.clearing_at_temp_s(ClearingTest(a, b, "", ""), c),
    ):
        try:
            value = call()
        except WetsideError:
            continue
        assert 0 <= value < float("inf")
