"""Properties of strengths, salts, formulas, warmth and keeping."""

from __future__ import annotations

import math
from datetime import date

from hypothesis import assume, example, given
from hypothesis import strategies as st

from wetside import chemistry
from wetside.adapters import chemistry_data as data
from wetside.errors import WetsideError
from wetside.wording import sentence, speak_error

WATER = data.load_water()
SALTS = tuple(data.load_salts().values())
PERCENT = st.floats(0.0, 100.0)
TEMP_C = st.floats(0.0, 99.0)
DARKROOM_C = st.floats(2.0, 60.0)
ML = st.floats(0.1, 1e6)
TAU_S = st.floats(1.0, 1e5)
TIME_S = st.floats(0.0, 1e5)
ANY_FLOAT = st.floats(allow_nan=True, allow_infinity=True)


def answer_or_refusal(function, *arguments):
    """Answer with finite numbers, or a refusal that can be said."""
    try:
        return function(*arguments)
    except WetsideError as error:
        said = speak_error(error, ())
    assert "{" not in said
    return None


@example(first=0.0, second=5e-324, wanted=0.0, total=0.5)
@given(first=PERCENT, second=PERCENT, wanted=PERCENT, total=ML)
def test_a_criss_cross_has_the_strength_it_was_made_for(first, second, wanted, total):
    """Mixing the two volumes gives the strength and the total; outside the two it is refused."""
    mix = answer_or_refusal(chemistry.criss_cross_volumes, first, second, wanted, total)
    low, high = min(first, second), max(first, second)
    assert (mix is not None) == (first != second and low <= wanted <= high)
    if mix is not None:
        assert min(mix) >= 0
        assert math.isclose(sum(mix), total, rel_tol=1e-9)
        made = chemistry.mixture_strength([(mix.first_ml, first), (mix.second_ml, second)])
        assert math.isclose(made, wanted, rel_tol=1e-6, abs_tol=1e-6)


@given(hot_c=TEMP_C, cold_c=TEMP_C, wanted_c=TEMP_C, total=st.floats(10.0, 1e5), by_table=st.booleans())
def test_waters_mix_to_the_temperature_they_were_measured_for(hot_c, cold_c, wanted_c, total, by_table):
    """Both ways: what is measured, mixed, comes out as wanted."""
    assume(abs(hot_c - cold_c) > 0.5)
    water = WATER if by_table else None
    volumes = answer_or_refusal(chemistry.hot_and_cold_ml, hot_c, cold_c, wanted_c, total, water)
    if volumes is None:
        return
    parts = [(ml, c) for ml, c in zip(volumes, (hot_c, cold_c), strict=True) if ml >= 0.1]
    if sum(ml for ml, _ in parts) > 0.99 * total and len(parts) == 2:
        assert abs(chemistry.mixed_temperature_c(parts, water) - wanted_c) < 0.02


@given(parts=st.lists(st.tuples(ML, TEMP_C), min_size=1, max_size=4), by_table=st.booleans())
def test_a_mix_is_never_outside_its_parts(parts, by_table):
    """Neither colder than the coldest nor hotter than the hottest."""
    mixed_c = chemistry.mixed_temperature_c(parts, WATER if by_table else None)
    temps = [temp_c for _, temp_c in parts]
    assert min(temps) - 0.02 <= mixed_c <= max(temps) + 0.02


@given(at=st.floats(0.01, 99.0))
def test_heat_of_water_reads_back_as_its_temperature(at):
    """One volume alone keeps its temperature through the table."""
    assert abs(chemistry.mixed_temperature_c([(100.0, at)], WATER) - at) < 1e-6


@given(start_c=DARKROOM_C, around_c=DARKROOM_C, tau_s=TAU_S, time_s=TIME_S)
def test_a_bottle_never_overshoots_its_jacket(start_c, around_c, tau_s, time_s):
    """It stays between start and jacket, and so does its mean, which lags behind."""
    now_c = chemistry.relaxed_temperature_c(start_c, around_c, tau_s, time_s)
    mean_c = chemistry.mean_temperature_c(start_c, around_c, tau_s, time_s)
    low, high = min(start_c, around_c), max(start_c, around_c)
    assert low - 1e-9 <= now_c <= high + 1e-9
    assert low - 1e-9 <= mean_c <= high + 1e-9
    assert abs(mean_c - start_c) <= abs(now_c - start_c) + 1e-9


@given(start_c=DARKROOM_C, around_c=DARKROOM_C, tau_s=st.floats(10.0, 1e4), share=st.floats(0.02, 3.0))
def test_a_constant_that_readings_teach_is_the_one_they_came_from(start_c, around_c, tau_s, share):
    """Relaxing for a time and learning from both ends gives the constant back; so does the time to get there."""
    assume(abs(start_c - around_c) > 1.0)
    end_c = chemistry.relaxed_temperature_c(start_c, around_c, tau_s, share * tau_s)
    learned = chemistry.learned_time_constant(start_c, end_c, around_c, share * tau_s)
    assert math.isclose(learned.tau_s, tau_s, rel_tol=1e-6)
    assert learned.low_s <= learned.tau_s <= (learned.high_s or math.inf)
    there_s = chemistry.time_to_temperature_s(start_c, around_c, tau_s, end_c)
    assert math.isclose(there_s, share * tau_s, rel_tol=1e-6)


@given(liquid_c=DARKROOM_C, vessel_c=DARKROOM_C, liquid=st.floats(10.0, 5000.0), vessel_g=st.floats(0.0, 3000.0))
def test_a_pour_ends_between_liquid_and_vessel(liquid_c, vessel_c, liquid, vessel_g):
    """The more liquid, the nearer to its own temperature."""
    little = chemistry.poured_temperature_c(liquid, liquid_c, vessel_g, 1.7, vessel_c)
    much = chemistry.poured_temperature_c(liquid * 2.0, liquid_c, vessel_g, 1.7, vessel_c)
    low, high = min(liquid_c, vessel_c), max(liquid_c, vessel_c)
    assert low - 1e-9 <= little <= high + 1e-9
    assert abs(much - liquid_c) <= abs(little - liquid_c) + 1e-9


@given(
    start_c=DARKROOM_C,
    around_c=DARKROOM_C,
    wanted_c=DARKROOM_C,
    tau_s=TAU_S,
    time_s=st.floats(1.0, 1e4),
    coefficient=st.floats(0.0, 0.2),
)
def test_cold_flattens_and_warmth_steepens(start_c, around_c, wanted_c, tau_s, time_s, coefficient):
    """A bath that is colder throughout loses density, a warmer one gains; both signs agree."""
    effect = chemistry.temperature_effect(start_c, around_c, tau_s, time_s, wanted_c, coefficient, 1.0)
    if max(start_c, around_c) <= wanted_c:
        assert effect.density <= 1e-9
    if min(start_c, around_c) >= wanted_c:
        assert effect.density >= -1e-9
    assert effect.time_percent * effect.density >= -1e-9


@given(volume=ML, from_c=TEMP_C, to_c=TEMP_C)
def test_more_cooling_takes_more_ice(volume, from_c, to_c):
    """Ice is never negative, less when the meltwater helps, and refused for warming."""
    helped = answer_or_refusal(chemistry.ice_needed, volume, from_c, to_c)
    assert (helped is None) == (to_c > from_c)
    if helped is not None:
        melting = chemistry.ice_needed(volume, from_c, to_c, meltwater_warms=False)
        assert 0 <= helped.ice_g <= melting.ice_g


@given(asks=st.sampled_from(SALTS), have=st.sampled_from(SALTS), other=st.sampled_from(SALTS), grams=st.floats(0, 1e4))
def test_exchanges_of_salts_chain(asks, have, other, grams):
    """From one to another and on to a third is the same as straight to the third; no salt for another substance."""
    there = answer_or_refusal(chemistry.salt_substitute, grams, asks, have)
    assert (there is not None) == (asks.active == have.active)
    if there is not None and have.active == other.active:
        chained = chemistry.salt_substitute(there.amount_g, have, other).amount_g
        straight = chemistry.salt_substitute(grams, asks, other).amount_g
        assert math.isclose(chained, straight, rel_tol=1e-9)


@given(text=st.one_of(st.text(max_size=20), st.text(alphabet="NaHSOCK0123456789().", max_size=20)))
@example(text="Na2CO3..H2O")
@example(text="(" * 50)
def test_any_text_is_a_formula_or_a_refusal(text):
    """A positive mass comes out, or a sentence; never a crash."""
    try:
        mass = chemistry.formula_mass_g_mol(text, data.load_atomic_weights())
    except WetsideError as error:
        mass, said = None, speak_error(error, ())
        assert said
    assert mass is None or 0 <= mass < math.inf


@given(key=st.sampled_from(sorted(data.load_formulas())), one=st.floats(50.0, 1e5), scale=st.floats(0.1, 10.0))
def test_a_formula_goes_with_the_volume(key, one, scale):
    """Amounts of a volume, times its ratio to another, are those of the other; every note can be said."""
    formula = data.load_formulas()[key]
    here, there = chemistry.scale_formula(formula, one), chemistry.scale_formula(formula, one * scale)
    for small, large in zip(here.ingredients, there.ingredients, strict=True):
        assert math.isclose(small.amount * scale, large.amount, rel_tol=1e-9)
    assert all("{" not in sentence(code, params, ()) for code, params in here.notes)


@given(
    made=st.dates(date(1990, 1, 1), date(2090, 12, 31)),
    later=st.integers(0, 2000),
    row=st.sampled_from(data.load_keeping()),
)
def test_a_date_is_never_past_what_the_row_allows(made, later, row):
    """Asking for a row's own case gives that row's time from the day of mixing, whatever day it is asked."""
    today = made.fromordinal(made.toordinal() + later)
    keeping = chemistry.keeping_of(
        data.load_keeping(), made, today, form=row.form, product=row.product, kind=row.kind, fill=row.fill, lid=row.lid
    )
    assert keeping.row == row
    if row.amount is None:
        assert keeping.until is None
        return
    most = {"hours": 1 / 24, "days": 1, "months": 31}[row.unit] * row.amount
    assert 0 < keeping.until.toordinal() - made.toordinal() <= most
    assert keeping.days_left == keeping.until.toordinal() - today.toordinal()


@given(values=st.lists(ANY_FLOAT, min_size=7, max_size=7))
def test_no_number_crashes_the_heat(values):
    """Whatever is given, an answer comes out finite, or a refusal in words."""
    a, b, c, d, e, f, g = values
    for function, count in (
        (chemistry.poured_temperature_c, 5),
        (chemistry.relaxed_temperature_c, 4),
        (chemistry.mean_temperature_c, 4),
        (chemistry.start_for_mean_c, 4),
        (chemistry.time_to_temperature_s, 4),
        (chemistry.time_within_s, 4),
        (chemistry.heater_time_s, 6),
        (chemistry.water_temperature_c, 4),
    ):
        answer = answer_or_refusal(function, *(a, b, c, d, e, f, g)[:count])
        assert answer is None or math.isfinite(answer)
    answer_or_refusal(chemistry.learned_time_constant, a, b, c, d, e)
    answer_or_refusal(chemistry.temperature_effect, a, b, c, d, e, f, g)


@given(start_c=TEMP_C, around_c=TEMP_C, tau_s=st.floats(1e-9, 1e12), time_s=st.floats(0, 1e12), wanted_c=TEMP_C)
def test_extreme_times_end_in_numbers(start_c, around_c, tau_s, time_s, wanted_c):
    """Very short and very long times neither overflow nor divide by nothing."""
    for function, last in (
        (chemistry.relaxed_temperature_c, time_s),
        (chemistry.mean_temperature_c, time_s),
        (chemistry.start_for_mean_c, time_s),
        (chemistry.time_to_temperature_s, wanted_c),
        (chemistry.time_within_s, max(1e-9, wanted_c)),
    ):
        answer = answer_or_refusal(function, start_c, around_c, tau_s, last)
        assert answer is None or math.isfinite(answer)
