"""What holds for any other way of developing and any model of a long exposure."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wetside import exposure as ex
from wetside.development import (
    LookAct,
    ReuseRule,
    Safelight,
    UsedArea,
    Verdict,
    agitation_moments,
    end_after_looks_s,
    inspection_plan,
    named_coefficient,
    replaced_plan,
    reused_time,
    share_of_a_in_b,
    temperature_remarks,
    top_up,
    two_bath_plan,
    ways_out,
)
from wetside.errors import WetsideError
from wetside.values.evidence import Evidence, Source, Sourced
from wetside.wording import sentence, speak_error

ANY = st.floats()
AREAS = st.floats(50.0, 5000.0)
RULE = ReuseRule("Brackwater", "stock", 10.0, 0.1, one_session=True, source=Source("own notes"))
MODELS = [
    ex.NamedReciprocity(ex.ReciprocityKind.MAKER_POWER, ex.ReciprocityPower(1.31), "a"),
    ex.NamedReciprocity(ex.ReciprocityKind.ADDED_TIME, ex.ReciprocityGainer(0.05), "b"),
    ex.NamedReciprocity(ex.ReciprocityKind.PER_DOUBLING, ex.ReciprocityDoubling(16.0, 0.33), "c"),
]


def told(error: WetsideError) -> None:
    """Every refusal has a sentence."""
    assert not speak_error(error, ("en",)).startswith(error.code)


def said(remarks) -> None:
    """Every remark has a sentence, and its parameters fill it."""
    for remark in remarks:
        text = sentence(remark.code, remark.params, ("en",))
        assert not text.startswith(remark.code)


@given(st.floats(1.0, 1e4), st.floats(0.0, 2.0), st.floats(0.01, 1e5))
def test_a_doubling_rule_there_and_back(free_s: float, stops: float, metered_s: float) -> None:
    """A time given is worth the time it was corrected from, and correction never shortens."""
    free_s = min(free_s, 1000.0)
    rule = ex.ReciprocityDoubling(free_s, stops)
    given_s = rule.corrected_s(metered_s)
    assert given_s >= metered_s
    assert rule.effective_s(given_s) == pytest.approx(metered_s, rel=1e-9)


@given(st.floats(1e-5, 1e5))
def test_every_answer_lies_inside_the_spread(metered_s: float) -> None:
    """No model shortens a time, the default is among the answers, and the spread holds them all."""
    found = ex.compare_reciprocity(metered_s, MODELS)
    times = [answer.time_s for answer in found.answers]
    assert min(times) >= metered_s * (1 - 1e-12)
    assert sum(answer.is_default for answer in found.answers) == 1
    assert max(times) / min(times) == pytest.approx(2.0**found.spread_stops)


@given(st.floats(0.0, 200.0), st.floats(10.0, 5000.0), st.integers(0, 30))
def test_b_only_ever_gains(carry_ml: float, volume_ml: float, loads: int) -> None:
    """The share of A in B rises with each load and never reaches one."""
    now, next_ = (share_of_a_in_b(carry_ml, volume_ml, n) for n in (loads, loads + 1))
    assert 0.0 <= now <= next_ <= 1.0


@given(AREAS, st.floats(100.0, 2000.0), st.floats(10.0, 30.0), st.none() | st.floats(10.0, 30.0))
def test_two_baths_never_have_a_window(
    area_cm2: float, volume_ml: float, temp_c: float, tested_c: float | None
) -> None:
    """Whatever the load, no sheet in two baths asks for a time of its own, and every remark can be said."""
    try:
        plan = two_bath_plan(
            area_cm2, volume_ml, volume_ml, soak_s=200, act_s=100, temp_a_c=temp_c, temp_b_c=20, tested_temp_c=tested_c
        )
    except WetsideError as error:
        told(error)
        return
    assert plan.window is None
    said(plan.remarks)


@given(AREAS, st.lists(st.floats(10.0, 1000.0), min_size=2, max_size=4), st.floats(0.02, 0.5))
def test_replacing_never_weakens(area_cm2: float, agents_ml: list[float], reference: float) -> None:
    """Fresh developer on the way is never worse than the first filling alone where it is no smaller."""
    agents_ml = sorted(agents_ml)
    try:
        plan = replaced_plan(600, area_cm2, agents_ml, reference)
    except WetsideError as error:
        told(error)
        return
    assert plan.gain is None or plan.gain >= -1e-12
    assert plan.parts[-1].end_s == pytest.approx(600)
    said(plan.remarks)


@given(st.lists(st.tuples(st.floats(10.0, 600.0), st.floats(0.3, 2.0)), max_size=12), AREAS, st.floats(1.0, 5.0))
def test_used_developer_never_gets_faster(history: list[tuple[float, float]], load_cm2: float, litres: float) -> None:
    """More film before means no shorter time; the order of the history makes no difference."""
    used = [UsedArea(*entry) for entry in history]
    try:
        time = reused_time(480, used, load_cm2, RULE, litres)
    except WetsideError as error:
        told(error)
        return
    assert time.factor >= 1.0
    assert reused_time(480, used[::-1], load_cm2, RULE, litres).factor == time.factor
    assert all(reused_time(480, used[:n], load_cm2, RULE, litres).factor <= time.factor for n in range(len(used)))
    said(time.remarks)


@given(st.lists(AREAS, max_size=5), st.floats(0.01, 0.2), st.floats(500.0, 5000.0), st.floats(0.0, 100.0))
def test_a_top_up_keeps_the_books(areas: list[float], rate: float, bath_ml: float, carried_ml: float) -> None:
    """What goes in less what goes out is what the level changes by: nothing, or the shortfall that is said."""
    try:
        done = top_up([UsedArea(area) for area in areas], rate, bath_ml, carried_out_ml=carried_ml)
    except WetsideError as error:
        told(error)
        return
    change_ml = done.add_ml - carried_ml - done.discard_ml
    short = [remark.params["short_ml"] for remark in done.remarks if remark.code.endswith("below_mark")]
    assert change_ml == pytest.approx(-short[0] if short else 0.0, abs=1e-9)
    said(done.remarks)


@given(st.floats(100.0, 7200.0), st.integers(0, 20), st.floats(1.0, 90.0), st.floats(1.0, 60.0))
def test_moments_lie_inside_the_time(time_s: float, moments: int, first_s: float, each_s: float) -> None:
    """Agitation begins at zero, never overlaps, and ends before the bath does."""
    try:
        found = agitation_moments(time_s, first_s=first_s, moments=moments, each_s=each_s)
    except WetsideError as error:
        told(error)
        return
    ends = [moment.at_s + moment.lasting_s for moment in found]
    assert found[0].at_s == 0.0
    assert all(end < moment.at_s for end, moment in zip(ends, found[1:], strict=False))
    assert ends[-1] < time_s


@given(st.lists(st.tuples(st.floats(0.0, 1200.0), st.sampled_from(LookAct), st.floats(0.0, 400.0)), max_size=4))
def test_looks_never_leave_a_bath_without_end(verdicts: list[tuple[float, LookAct, float]]) -> None:
    """Whatever is decided, the end lies between half the planned time and the latest end, or the act is refused."""
    plan = inspection_plan(600, safelight=Safelight.DEEP_RED, distance_m=1.5, tested_light_s=60)
    try:
        end_s = end_after_looks_s(plan, [Verdict(*verdict) for verdict in verdicts])
    except WetsideError as error:
        told(error)
        return
    assert plan.planned_end_s / 2 <= end_s <= plan.latest_end_s


@given(ANY, ANY, ANY, ANY)
def test_ways_out_are_numbers_or_refusals(time_s: float, time_c: float, bath_c: float, per_c: float) -> None:
    """Any input gives three ways whose remarks can be said, or a refusal that can be said."""
    try:
        ways = ways_out(Sourced(time_s, Evidence.TESTED), time_c, bath_c, named_coefficient(per_c), hydroquinone=True)
        remarks = temperature_remarks(bath_c)
    except WetsideError as error:
        told(error)
        return
    assert len(ways) == 3
    said([*(remark for way in ways for remark in way.remarks), *remarks])
