"""The one order of corrections."""

import math

import pytest

from wetside import exposure as ex
from wetside.errors import ConflictError, InputError, OutOfRangeError, RefusedError

FILM = ex.ReciprocityPower(1.31)


def test_steps_stand_in_their_order_with_running_times():
    """Metered, aperture, each filter, bellows, reciprocity; each step's factor leads to its time."""
    told = ex.exposure_pipeline(
        1.0,
        metered_n=8.0,
        set_n=16.0,
        filter_factors=(2.0, 4.0),
        extension_mm=450.0,
        focal_length_mm=300.0,
        reciprocity=FILM,
    )
    assert [step.code.rpartition(".")[2] for step in told.steps] == [
        "metered", "aperture", "filter", "filter", "bellows", "reciprocity",
    ]  # fmt: skip
    assert [step.time_s for step in told.steps[:-1]] == [1.0, 4.0, 8.0, 32.0, 72.0]
    assert told.product_s == 72.0
    assert told.corrected_s == told.steps[-1].time_s == FILM.corrected_s(72.0)
    assert sum(step.stops for step in told.steps) == pytest.approx(1.31 * math.log2(72.0))


def test_what_is_not_asked_for_is_no_step():
    """A plain short exposure has only its two ends."""
    told = ex.exposure_pipeline(0.125)
    assert [step.code for step in told.steps] == ["exposure.step.metered", "exposure.step.reciprocity"]
    assert told.corrected_s == 0.125


def test_scale_of_reproduction_stands_for_the_bellows():
    """Life size is two stops."""
    assert ex.exposure_pipeline(1.0, magnification=1.0).corrected_s == 4.0


def test_opening_the_lens_shortens():
    """The aperture's factor may be under 1."""
    assert ex.exposure_pipeline(1.0, metered_n=16.0, set_n=8.0).corrected_s == 0.25


@pytest.mark.parametrize(
    ("arguments", "error", "code"),
    [
        ({"metered_n": 8.0}, InputError, "exposure.pipeline.one_aperture"),
        ({"extension_mm": 300.0}, InputError, "exposure.bellows.focal_missing"),
        ({"focal_length_mm": 300.0}, InputError, "exposure.bellows.extension_missing"),
        (
            {"focal_length_mm": 300.0, "extension_mm": 300.0, "magnification": 1.0},
            ConflictError,
            "exposure.pipeline.two_bellows",
        ),
    ],
)
def test_half_a_pair_and_two_ways_are_refused(arguments, error, code):
    """What is missing is named, in both orders."""
    for call in (ex.exposure_pipeline, ex.pipeline_wrong_order_s):
        with pytest.raises(error) as caught:
            call(1.0, **arguments)
        assert caught.value.code == code


def test_table_is_asked_with_the_product():
    """A filter may lead beyond the maker's table."""
    film = ex.ReciprocityTable(((0.5, 1.0), (10.0, 8.0)))
    with pytest.raises(RefusedError):
        ex.exposure_pipeline(4.0, filter_factors=(4.0,), reciprocity=film)


def test_another_light_comes_first_and_may_shorten_the_time():
    """A film that sees the scene's light better than the meter's gets less; what no light does is refused."""
    found = ex.exposure_pipeline(4.0, filter_factors=(2.0,), light_factor=0.5)
    assert [step.code for step in found.steps[1:3]] == ["exposure.step.light", "exposure.step.filter"]
    assert found.corrected_s == pytest.approx(4.0)
    for factor in (0.0, float("nan"), 1e9):
        with pytest.raises(OutOfRangeError) as caught:
            ex.exposure_pipeline(4.0, light_factor=factor)
        assert caught.value.code == "exposure.light.out_of_range"
