"""Properties of the exposure science: inverses, order, sums, and no number that is none."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wetside import exposure as ex
from wetside.errors import WetsideError
from wetside.wording import speak_error

FEW = settings(max_examples=60, deadline=None)

TIMES = st.floats(1e-3, 5e3)
FACTORS = st.floats(1.0, 64.0)
POWERS = st.builds(ex.ReciprocityPower, st.floats(1.0, 1.6), st.floats(0.1, 10.0))
GAINERS = st.builds(ex.ReciprocityGainer, st.floats(0.0, 1.0), st.floats(1.0, 2.0))


def attempt(call):
    """What a call gives and None, or None and the house's refusal; any other error goes through."""
    try:
        return call(), None
    except WetsideError as error:
        return None, error


@st.composite
def tables(draw):
    """Rising tables with a first factor of 1 or more, reaching beyond every time drawn here."""
    ratios = draw(st.lists(st.floats(1.2, 10.0), min_size=1, max_size=4))
    factor = draw(st.sampled_from((1.0, 1.5)))
    time_s, points = draw(st.floats(0.1, 5.0)), []
    for ratio in ratios:
        points.append((time_s, factor))
        time_s *= ratio
        factor *= draw(st.floats(1.0, 3.0))
    points.append((max(time_s, 1e5), factor))
    return ex.ReciprocityTable(tuple(points))


MODELS = st.one_of(POWERS, GAINERS, tables(), st.just(ex.NO_RECIPROCITY))
WILD = st.one_of(st.floats(), st.sampled_from((0.0, 1.0, 2.0, 16.0, 1 / 15, 0.5, 100.0, 400.0, -1.0, 1e308, 5e-324)))
MAYBE = st.one_of(st.none(), st.none(), st.sampled_from((1.0, 2.0, 16.0, 150.0, 300.0)), WILD)
WILD_SETTINGS = st.builds(ex.CameraSetting, MAYBE, MAYBE, MAYBE, MAYBE, MAYBE, MAYBE)
WORDS = st.frozensets(st.sampled_from(ex.MISHAPS), max_size=4)


@st.composite
def sane_settings(draw):
    """Settings that a camera can have, with everything told."""
    focal = draw(st.floats(90.0, 300.0))
    return ex.CameraSetting(
        draw(st.sampled_from((5.6, 8.0, 11.0, 16.0, 22.0, 32.0, 45.0))),
        draw(st.one_of(st.floats(1.0, 200.0), st.sampled_from((1 / 2, 1 / 15, 1 / 60)))),
        draw(st.sampled_from((50.0, 100.0, 400.0))),
        draw(FACTORS),
        focal * draw(st.floats(1.0, 3.0)),
        focal,
    )


@FEW
@given(MODELS, TIMES)
def test_reciprocity_inverse(model, time_s):
    """What the correction gives is worth the metered time again."""
    assert model.effective_s(model.corrected_s(time_s)) == pytest.approx(time_s, rel=1e-9)


@FEW
@given(MODELS, TIMES)
def test_correction_never_shortens(model, time_s):
    """A film only loses; and a given time is never worth more than itself."""
    assert model.corrected_s(time_s) >= time_s * (1 - 1e-12)
    assert model.effective_s(time_s) <= time_s * (1 + 1e-12)


@FEW
@given(MODELS, TIMES, TIMES)
def test_reciprocity_is_monotone(model, one, two):
    """A longer time never needs or brings less, across every threshold, knot and jump."""
    low, high = sorted((one, two))
    assert model.corrected_s(low) <= model.corrected_s(high) * (1 + 1e-12)
    assert model.effective_s(low) <= model.effective_s(high) * (1 + 1e-12)


@FEW
@given(MODELS, TIMES)
def test_given_time_is_enough_for_what_it_is_worth(model, time_s):
    """The generalised inverse: correcting the worth of a time asks for no more than that time."""
    worth = model.effective_s(time_s)
    table_end = isinstance(model, ex.ReciprocityTable)
    if not (table_end and worth == model.points[0][0]):  # a jump begins at the first point, and belongs to it
        assert model.corrected_s(worth * (1 - 1e-9)) <= time_s * (1 + 1e-9)


@FEW
@given(st.permutations([2.0, 1.5, 8.0]), TIMES)
def test_order_of_filters_is_irrelevant_before_reciprocity(factors, time_s):
    """Factors before reciprocity may stand in any order."""
    told = ex.exposure_pipeline(time_s, filter_factors=factors)
    assert told.product_s == pytest.approx(24.0 * time_s)
    assert ex.stacked_factor(*factors) == pytest.approx(24.0)


@FEW
@given(st.floats(1.05, 1.6), st.floats(1.0, 1e3), st.floats(1.1, 64.0))
def test_order_matters_once_reciprocity_is_in_it(p, time_s, factor):
    """Reciprocity first and factors after comes out short, by F ** (p - 1)."""
    film = ex.ReciprocityPower(p)
    right = ex.exposure_pipeline(time_s, filter_factors=(factor,), reciprocity=film).corrected_s
    wrong = ex.pipeline_wrong_order_s(time_s, filter_factors=(factor,), reciprocity=film)
    assert wrong < right
    assert right / wrong == pytest.approx(factor ** (p - 1))


@FEW
@given(TIMES, st.lists(FACTORS, max_size=3), MODELS)
def test_steps_multiply_up_to_the_time_to_give(time_s, factors, model):
    """The product of the factors, and the sum of the stops, is the whole correction."""
    told, refused = attempt(
        lambda: ex.exposure_pipeline(time_s, filter_factors=factors, magnification=0.5, reciprocity=model)
    )
    if refused:
        assert refused.code in {"exposure.reciprocity.beyond_table", "exposure.factor.out_of_range"}
        return
    assert math.prod(step.factor for step in told.steps) * time_s == pytest.approx(told.corrected_s)
    assert math.fsum(step.stops for step in told.steps) == pytest.approx(math.log2(told.corrected_s / time_s))


@FEW
@given(st.floats(1.0, 1.6), st.floats(1.0, 100.0), st.floats(0.0, 3.0))
def test_time_error_above_the_threshold_is_stops_over_p(p, metered_s, stops):
    """Deep in reciprocity s stops of time are s / p on the film; of aperture they are s."""
    film = ex.ReciprocityPower(p)
    given_s = film.corrected_s(metered_s) * 2**stops
    meant = ex.CameraSetting(16.0, metered_s)
    told = ex.audit_exposure(meant, ex.CameraSetting(time_s=given_s), reciprocity=film)
    assert told.stop_error == pytest.approx(stops / p, abs=1e-9)
    opened = ex.CameraSetting(aperture_n=16.0 / 2 ** (stops / 2))
    whole = 2 * math.log2(16.0 / ex.aperture_exact(opened.aperture_n))
    assert ex.audit_exposure(meant, opened, reciprocity=film).stop_error == pytest.approx(whole, abs=1e-9)


@FEW
@given(sane_settings(), sane_settings(), WORDS, MODELS, st.booleans(), st.booleans())
def test_parts_sum_to_the_error(meant, was, words, model, without_time, twice):
    """The parts are the error, and it is what the film's own equation says."""
    was = was._replace(ei=None, time_s=None if without_time else was.time_s)
    words -= {"wrong-rating", "wrong-film", "double-exposure"}
    second = ex.CameraSetting(aperture_n=8.0) if twice else None
    told, refused = attempt(
        lambda: ex.audit_exposure(meant, was, reciprocity=model, film_ei=100.0, mishaps=words, second=second)
    )
    if refused:
        assert refused.code in {
            "exposure.mishap.two_reciprocities",
            "exposure.reciprocity.beyond_table",
            "exposure.reciprocity.given_beyond_table",
        }
        return
    assert math.fsum(part.stops for part in told.parts) == told.stop_error
    if not without_time and not twice:
        lens = ex.aperture_exact(meant.aperture_n) / ex.aperture_exact(was.aperture_n)
        lost = was.filter_factor * ex.bellows_factor(was.extension_mm, was.focal_mm)
        worth = model.effective_s(ex.shutter_exact(was.time_s)) / lost
        expected = math.log2(worth / ex.shutter_exact(meant.time_s)) + 2 * math.log2(lens)
        assert told.stop_error == pytest.approx(expected, abs=1e-9)


@FEW
@given(st.floats(-8.0, 8.0), st.floats(-8.0, 8.0), st.floats(0.0, 9.0))
def test_double_exposure_only_adds_and_more_in_the_shadows(first, second, zone):
    """A second exposure never takes light, and lifts a darker tone more."""
    low, high = (ex.double_exposure_stops(first, second, z) for z in (zone, zone + 1.0))
    assert low > high > 0.0


@settings(max_examples=400, deadline=None)
@given(WILD_SETTINGS, WILD_SETTINGS, WORDS, MAYBE, MAYBE, st.one_of(st.none(), WILD_SETTINGS), MODELS, MODELS)
def test_audit_is_finite_or_a_sentence(meant, was, words, film_ei, actual_ei, second, model, other):
    """Whatever is given: a finite error whose parts are finite, or a typed refusal that can be said."""
    told, refused = attempt(
        lambda: ex.audit_exposure(
            meant,
            was,
            reciprocity=model,
            film_ei=film_ei,
            actual_ei=actual_ei,
            actual_reciprocity=other if actual_ei is not None else None,
            mishaps=words,
            second=second,
        )
    )
    if refused:
        assert "exposure." not in speak_error(refused, ("en",))
        return
    assert all(math.isfinite(x) for x in (*told[:2], *(part.stops for part in told.parts)))


@settings(max_examples=200, deadline=None)
@given(WILD, WILD, WILD)
def test_every_function_is_finite_or_a_sentence(a, b, c):
    """No function of the package gives a NaN, an infinity or a bare error for any float."""
    for call in (
        lambda: ex.aperture_exact(a),
        lambda: ex.aperture_nominal(a, "half"),
        lambda: ex.shutter_exact(a, counted=False),
        lambda: ex.shutter_nominal(a),
        lambda: ex.exposure_value(a, b, c),
        lambda: ex.metered_time_s(a, b, c),
        lambda: ex.luminance_cd_m2(a, b),
        lambda: ex.zones_n(a, b, c),
        lambda: ex.bellows_factor(a, b),
        lambda: ex.stacked_factor(a, b, c),
        lambda: ex.opened_aperture(a, b),
        lambda: ex.exposure_pipeline(a, filter_factors=(b,), magnification=c).corrected_s,
        lambda: ex.pipeline_wrong_order_s(a, metered_n=b, set_n=c),
        lambda: ex.ReciprocityPower(a, b).corrected_s(c),
        lambda: ex.ReciprocityPower(a, b).effective_s(c),
        lambda: ex.ReciprocityTable(((a, b), (c, a))).corrected_s(b),
        lambda: ex.ReciprocityGainer(a, b).effective_s(c),
        lambda: ex.double_exposure_stops(a, b, c),
    ):
        number, refused = attempt(call)
        assert "exposure." not in speak_error(refused, ("en",)) if refused else math.isfinite(number)


@FEW
@given(st.floats(0.6, 140.0))
def test_scales_are_idempotent_and_close(n):
    """An exact number is its own exact number, and no engraving lies a sixth of a stop off what it means."""
    exact = ex.aperture_exact(n)
    assert ex.aperture_exact(exact) == pytest.approx(exact, rel=1e-12)
    assert abs(2 * math.log2(exact / n)) < 1 / 6


@FEW
@given(st.floats(0.0, 14.0), st.sampled_from(["full", "half", "third"]))
def test_nominal_is_within_half_a_step(av, step):
    """The engraved number stands for an exact one at most half a step away."""
    exact = 2 ** (av / 2)
    meant = ex.aperture_exact(ex.aperture_nominal(exact, step), step)
    half = {"full": 0.5, "half": 0.25, "third": 1 / 6}[step]
    assert abs(2 * math.log2(meant / exact)) <= half + 1e-9


@FEW
@given(st.floats(-5.0, 18.0), st.sampled_from((5.6, 11.0, 22.0)), st.sampled_from((25.0, 100.0, 400.0)))
def test_time_of_an_ev_has_that_ev(ev, n, iso):
    """Metered time and exposure value are inverses."""
    exact = ex.aperture_exact(n)
    assert ex.exposure_value(exact, ex.metered_time_s(ev, exact, iso), iso) == pytest.approx(ev)
