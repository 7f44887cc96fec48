"""Models of reciprocity: clamps, jumps, ends."""

import math

import pytest

from wetside import exposure as ex
from wetside.errors import InputError, OutOfRangeError, RefusedError

POINTS = ((0.5, 1.0), (1.0, 2.0), (10.0, 8.0), (100.0, 16.0))


def test_power_never_shortens_between_threshold_and_one_second():
    """With a threshold of 0.5 s the bare power would shorten; the clamp makes the two thresholds the same film."""
    half, one = ex.ReciprocityPower(1.31, 0.5), ex.ReciprocityPower(1.31, 1.0)
    for time_s in (0.3, 0.5, 0.51, 0.8, 1.0, 1.01, 4.0):
        assert half.corrected_s(time_s) == one.corrected_s(time_s) >= time_s
        assert half.effective_s(time_s) == one.effective_s(time_s) <= time_s


def test_power_is_continuous_at_its_threshold_up_to_one_second():
    """No jump at 0.5 s nor at 1 s."""
    film = ex.ReciprocityPower(1.31, 0.5)
    for knee in (0.5, 1.0):
        assert film.corrected_s(knee * (1 + 1e-9)) == pytest.approx(film.corrected_s(knee), rel=1e-8)


def test_jump_of_a_long_threshold_is_worth_the_threshold():
    """Above a threshold of 10 s the power jumps to 20.4 s; what was given between is worth 10 s."""
    film = ex.ReciprocityPower(1.31, 10.0)
    assert film.corrected_s(10.0) == 10.0
    assert film.corrected_s(10.0001) > 20.4
    assert [film.effective_s(t) for t in (9.0, 10.0, 15.0, 20.4)] == [9.0, 10.0, 10.0, 10.0]
    assert film.effective_s(20.42) > 10.0


def test_table_goes_through_its_points():
    """At a point the maker's factor is used as printed."""
    film = ex.ReciprocityTable(POINTS)
    for time_s, factor in POINTS:
        assert film.corrected_s(time_s) == pytest.approx(time_s * factor, rel=1e-12)
        assert film.effective_s(time_s * factor) == pytest.approx(time_s, rel=1e-12)


def test_table_below_its_first_point_asks_for_nothing():
    """Shorter times count whole."""
    film = ex.ReciprocityTable(POINTS)
    assert film.corrected_s(0.25) == film.effective_s(0.25) == 0.25


def test_table_whose_first_factor_is_over_one_jumps_there():
    """A time given inside the jump is worth the first point's time."""
    film = ex.ReciprocityTable(((1.0, 1.5), (10.0, 6.0)))
    assert film.corrected_s(0.99) == 0.99
    assert film.corrected_s(1.0) == 1.5
    assert [film.effective_s(t) for t in (0.99, 1.0, 1.2, 1.5)] == [0.99, 1.0, 1.0, 1.0]


def test_table_of_one_point_ends_where_it_begins():
    """One point is a table."""
    film = ex.ReciprocityTable(((1.0, 2.0),))
    assert film.corrected_s(1.0) == 2.0
    with pytest.raises(RefusedError):
        film.corrected_s(1.1)


def test_table_refuses_beyond_its_last_point():
    """Nothing is carried on past what the maker printed, in either direction."""
    film = ex.ReciprocityTable(POINTS)
    with pytest.raises(RefusedError) as caught:
        film.corrected_s(101.0)
    assert caught.value.code == "exposure.reciprocity.beyond_table"
    with pytest.raises(RefusedError) as caught:
        film.effective_s(1601.0)
    assert caught.value.code == "exposure.reciprocity.given_beyond_table"


@pytest.mark.parametrize(
    "points",
    [(), ((1.0, 0.5),), ((1.0, 2.0), (1.0, 3.0)), ((1.0, 8.0), (2.0, 3.0)), ((math.nan, 2.0),), ((1.0, math.inf),)],
)
def test_table_that_cannot_be_is_refused(points):
    """Empty, shortening, not rising, not numbers."""
    with pytest.raises(InputError):
        ex.check_reciprocity(ex.ReciprocityTable(points))
    with pytest.raises(InputError):
        ex.ReciprocityTable(points).corrected_s(1.0)


@pytest.mark.parametrize(
    "model",
    [
        ex.ReciprocityPower(0.8, 1.0),
        ex.ReciprocityPower(math.nan, 1.0),
        ex.ReciprocityPower(1.3, -1.0),
        ex.ReciprocityGainer(-0.1),
        ex.ReciprocityGainer(0.1, 0.5),
    ],
)
def test_model_that_cannot_be_is_refused(model):
    """Checked at once, and again wherever it is used."""
    with pytest.raises(OutOfRangeError):
        ex.check_reciprocity(model)
    with pytest.raises(OutOfRangeError):
        model.effective_s(5.0)


def test_no_loss_counts_every_time_whole():
    """The model for a film without figures."""
    ex.check_reciprocity(ex.NO_RECIPROCITY)
    assert ex.NO_RECIPROCITY.corrected_s(500.0) == ex.NO_RECIPROCITY.effective_s(500.0) == 500.0


@pytest.mark.parametrize("time_s", [0.0, -1.0, math.nan, math.inf])
@pytest.mark.parametrize(
    "film",
    [ex.NO_RECIPROCITY, ex.ReciprocityPower(1.3), ex.ReciprocityTable(POINTS), ex.ReciprocityGainer(0.1)],
)
def test_time_that_cannot_be_is_refused(film, time_s):
    """In both directions."""
    for call in (film.corrected_s, film.effective_s):
        with pytest.raises(OutOfRangeError):
            call(time_s)
