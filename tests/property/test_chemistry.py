"""Properties of dilutions, mixes and amounts."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from wetside import chemistry
from wetside.errors import WetsideError
from wetside.values.dilution import Dilution
from wetside.wording import sentence, speak_error

TYPED = st.text(alphabet="0123456789.,:/+-%e stockABHdil\N{NO-BREAK SPACE}\N{MINUS SIGN}\N{RATIO}", max_size=20)
ANY_FLOAT = st.floats(allow_nan=True, allow_infinity=True)
PARTS = st.floats(0.1, 100.0)
AMOUNTS = st.floats(0.1, 1e6)


@st.composite
def dilutions(draw, agents=3):
    """Dilutions of one to three concentrates, none weaker than the parser takes."""
    parts = tuple(draw(st.lists(PARTS, min_size=1, max_size=agents)))
    return Dilution(parts, draw(st.floats(0.0, 50.0)))


@given(text=st.one_of(st.text(max_size=40), TYPED))
@example(text="1:24")
@example(text="0+0")
@example(text="1:0")
@example(text="24:1")
@example(text="1e999+1")
@example(text="1+nan")
@example(text="B")
def test_any_text_is_a_dilution_or_a_refusal_that_can_be_said(text):
    """Whatever stands there is read as a dilution with parts that make sense, or refused in a sentence."""
    try:
        dilution = chemistry.parse_dilution(text)
    except WetsideError as error:
        refusal = error
    else:
        assert all(math.isfinite(part) and part > 0 for part in dilution.agents)
        assert 0 <= dilution.water < math.inf
        assert 0 < dilution.agent_fraction <= 1
        return
    # The text stands in the sentence on one line.
    assert "{" not in speak_error(refusal, ()).replace(text.replace("\n", " "), "")


@given(dilution=dilutions())
def test_a_written_dilution_reads_back_as_the_same_parts(dilution):
    """No part changes, however many digits it has; one concentrate without water is called stock."""
    again = chemistry.parse_dilution(chemistry.write_dilution(dilution))
    assert again == dilution


@given(text=TYPED, mark=st.sampled_from([":", " : ", "\N{RATIO}"]))
def test_a_colon_is_never_taken(text, mark):
    """No text with a colon comes out as a dilution."""
    with pytest.raises(WetsideError):
        chemistry.parse_dilution(f"{text}{mark}24")


@given(dilution=dilutions(), total_ml=ANY_FLOAT | AMOUNTS)
def test_a_mix_adds_up_or_is_refused(dilution, total_ml):
    """Concentrates and water are not negative, add up to the total, and stand in the proportion of the parts."""
    try:
        mix = chemistry.mix_volumes(dilution, total_ml)
    except WetsideError:
        assert not 0.1 <= total_ml <= 1e6
        return
    assert min(*mix.concentrates_ml, mix.water_ml) >= 0
    assert sum(mix.concentrates_ml) + mix.water_ml == pytest.approx(total_ml)
    assert sum(mix.concentrates_ml) == pytest.approx(chemistry.agent_in_ml(total_ml, dilution))


@given(dilution=dilutions(), total_ml=st.floats(0.1, 1e5), smallest_ml=st.floats(0.05, 50.0))
def test_the_total_that_a_warning_names_is_measurable(dilution, total_ml, smallest_ml):
    """Mixing the named total lifts that concentrate to the measure's least amount, and every warning can be said."""
    warnings = chemistry.warnings_of_mix(chemistry.mix_volumes(dilution, total_ml), smallest_ml)
    for code, params in warnings:
        said = sentence(code, params, ())
        assert said.endswith(".")
        assert "{" not in said
        assert not said.startswith("chemistry.")
        if not code.startswith("chemistry.mix.small"):
            continue
        part = int(params.get("part", 1)) - 1
        assume(params["total_ml"] <= 1e6)
        larger = chemistry.mix_volumes(dilution, params["total_ml"])
        assert larger.concentrates_ml[part] >= smallest_ml * (1 - 1e-6)


@given(
    volume_ml=st.floats(1.0, 1e5),
    agents=st.floats(1.0, 10.0),
    have=st.floats(0.0, 50.0),
    more=st.floats(0.0, 50.0),
)
def test_redilution_keeps_the_concentrate(volume_ml, agents, have, more):
    """Water changes the volume, never the amount of concentrate in it."""
    strong, weak = Dilution((agents,), have), Dilution((agents,), have + more)
    water_ml = chemistry.redilution_water_ml(volume_ml, strong, weak)
    assert water_ml >= 0
    assert chemistry.agent_in_ml(volume_ml + water_ml, weak) == pytest.approx(chemistry.agent_in_ml(volume_ml, strong))


@given(dilution=dilutions(agents=1), agent_ml=st.floats(0.1, 1e5))
def test_agent_and_working_solution_are_inverse(dilution, agent_ml):
    """The working solution that holds an agent holds exactly that agent."""
    working_ml = chemistry.working_need_ml(agent_ml, dilution)
    assert chemistry.agent_in_ml(working_ml, dilution) == pytest.approx(agent_ml)
    assert chemistry.passing_volume_ml(agent_ml, dilution) >= working_ml * (1 - 1e-8)


@given(agent_ml=st.floats(1.0, 5000.0), volume_ml=st.floats(1.0, 5000.0))
def test_the_passing_dilution_passes_and_the_next_weaker_does_not(agent_ml, volume_ml):
    """It is the weakest whole dilution with enough agent; none where even stock is too little."""
    dilution = chemistry.passing_dilution(agent_ml, volume_ml)
    if dilution is None:
        assert volume_ml < agent_ml
        return
    assert chemistry.agent_in_ml(volume_ml, dilution) >= agent_ml * (1 - 1e-8)
    weaker = Dilution((1.0,), dilution.water + 1.0)
    assert chemistry.agent_in_ml(volume_ml, weaker) < agent_ml


@given(agent_ml=st.floats(0.0, 1000.0), needs_ml=st.lists(st.floats(1.0, 200.0), max_size=20))
def test_the_passing_count_is_the_most_that_the_agent_allows(agent_ml, needs_ml):
    """That many of the least demanding sheets fit, and one more does not."""
    count = chemistry.passing_sheet_count(agent_ml, needs_ml)
    ordered = sorted(needs_ml)
    assert sum(ordered[:count]) <= agent_ml * (1 + 1e-8)
    if count < len(ordered):
        assert sum(ordered[: count + 1]) > agent_ml * (1 - 1e-8)


@given(stops=ANY_FLOAT)
def test_a_weight_lies_between_one_and_two(stops):
    """Thin sheets count in full, dense ones at most double, and what is no number is refused."""
    try:
        weight = chemistry.developer_weight(stops)
    except WetsideError:
        assert not math.isfinite(stops)
        return
    assert 1.0 <= weight <= 2.0


@given(given_ml=ANY_FLOAT | st.floats(1.0, 500.0), reference_ml=ANY_FLOAT | st.floats(1.0, 500.0))
def test_activity_is_a_share_and_grows_with_the_agent(given_ml, reference_ml):
    """Between 0 and 1, exactly 1 from the reference upwards, and never falling with more agent."""
    try:
        ratio = chemistry.activity_ratio(given_ml, reference_ml)
    except WetsideError:
        assert not (1e-9 <= given_ml <= 1e12 and 1e-9 <= reference_ml <= 1e12)
        return
    assert 0 < ratio <= 1
    assert given_ml < reference_ml or ratio == 1.0
    more = given_ml * 1.1
    if more <= 1e12:
        assert chemistry.activity_ratio(more, reference_ml) >= ratio * (1 - 1e-9)


@given(wetting_ml=st.floats(1.0, 2000.0), agent_ml=st.none() | st.floats(0.0, 5000.0), limit_ml=st.floats(1.0, 2000.0))
def test_a_volume_wets_the_vessel_and_never_passes_its_limit(wetting_ml, agent_ml, limit_ml):
    """What binds is named, and the volume meets every need that the vessel can hold."""
    try:
        needed = chemistry.volume_needed(wetting_ml, agent_ml, limit_ml)
    except WetsideError:
        assert wetting_ml > limit_ml
        return
    assert wetting_ml * (1 - 1e-8) <= needed.volume_ml <= limit_ml
    if needed.binds == "vessel":
        assert agent_ml > limit_ml
        assert needed.volume_ml == limit_ml
    else:
        assert needed.volume_ml >= (agent_ml or 0.0) * (1 - 1e-8)


@given(values=st.lists(ANY_FLOAT, min_size=3, max_size=3))
def test_no_argument_gives_a_nan(values):
    """Every function of amounts answers with a finite number or refuses."""
    first, second, third = values
    calls = (
        lambda: chemistry.percent_dilution_ml(first, second, third),
        lambda: chemistry.agent_need_ml(first, second),
        lambda: chemistry.density_effect(first, second, third),
        lambda: chemistry.mean_activity(first),
        lambda: chemistry.use_per_sheet_ml(first, second, third),
        lambda: chemistry.reuse_factor(first, capacity_per_litre=second, litres=third),
        lambda: chemistry.working_need_ml(first, Dilution((1.0,), 24.0)),
        lambda: chemistry.volume_needed(first, second, third).volume_ml,
        lambda: chemistry.passing_sheet_count(first, [second, third]),
        lambda: chemistry.passing_volume_ml(first, Dilution((1.0,), 24.0), second),
        lambda: chemistry.cylinder_mark_ml(first),
    )
    for call in calls:
        try:
            assert math.isfinite(call())
        except WetsideError:
            continue
