"""Waters of two temperatures, concentrates and ice."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.adapters import chemistry_data as data
from wetside.errors import InputError, OutOfRangeError, RefusedError

WATER = data.load_water()


@pytest.mark.parametrize("water", [None, WATER], ids=["simple", "table"])
def test_hot_and_cold_give_the_temperature_they_were_measured_for(water):
    """What comes out is put back in and has the wanted temperature."""
    hot_ml, cold_ml = chemistry.hot_and_cold_ml(60.0, 10.0, 20.0, 1000.0, water)
    assert chemistry.mixed_temperature_c([(hot_ml, 60.0), (cold_ml, 10.0)], water) == pytest.approx(20.0, abs=1e-6)


def test_hot_water_shrinks():
    """With the table the two volumes are a little more than the litre that they become."""
    assert sum(chemistry.hot_and_cold_ml(90.0, 10.0, 50.0, 1000.0, WATER)) > 1005.0
    assert sum(chemistry.hot_and_cold_ml(90.0, 10.0, 50.0, 1000.0)) == pytest.approx(1000.0)


def test_the_simple_way_errs_little():
    """Up to 60 C the table asks for less than 3 % more hot water."""
    for hot_c, cold_c, wanted_c in ((60.0, 10.0, 20.0), (50.0, 12.0, 20.0), (40.0, 15.0, 24.0)):
        simple = chemistry.hot_and_cold_ml(hot_c, cold_c, wanted_c, 1000.0).first_ml
        assert 1.0 < chemistry.hot_and_cold_ml(hot_c, cold_c, wanted_c, 1000.0, WATER).first_ml / simple < 1.03


def test_the_ends_take_one_water_alone():
    """Cold water's own temperature needs no hot water, exactly."""
    assert chemistry.hot_and_cold_ml(50.0, 12.0, 12.0, 1000.0, WATER).first_ml == 0.0
    assert chemistry.hot_and_cold_ml(50.0, 12.0, 50.0, 1000.0, WATER).second_ml == 0.0


@pytest.mark.parametrize("wanted_c", [11.9, 50.1])
def test_nothing_outside_the_two_waters(wanted_c):
    """Colder than the cold or hotter than the hot is refused."""
    with pytest.raises(OutOfRangeError):
        chemistry.hot_and_cold_ml(50.0, 12.0, wanted_c, 1000.0, WATER)


def test_equal_waters_are_refused():
    """With one temperature there is nothing to mix."""
    with pytest.raises(InputError):
        chemistry.hot_and_cold_ml(20.0, 20.0, 20.0, 1000.0)


@pytest.mark.parametrize("water", [None, WATER], ids=["simple", "table"])
def test_a_concentrate_that_is_far_off_is_refused(water):
    """Water below 0 or above 99 C does not exist here."""
    with pytest.raises(RefusedError):
        chemistry.water_temperature_c(500.0, 5.0, 100.0, 38.0, water)
    with pytest.raises(RefusedError):
        chemistry.water_temperature_c(500.0, 38.0, 100.0, 18.0, water)


def test_water_for_a_concentrate_gives_the_wanted_temperature():
    """What comes out is put back in."""
    needed_c = chemistry.water_temperature_c(100.0, 10.0, 900.0, 38.0, WATER)
    mixed_c = chemistry.mixed_temperature_c([(100.0, 10.0), (900.0, needed_c)], WATER)
    assert mixed_c == pytest.approx(38.0, abs=1e-4)


def test_ice_cools_the_bath_that_it_was_weighed_for():
    """Meltwater of 0 C and the heat of melting bring 20 l from 26 to 20 C; none is needed for no change."""
    ice = chemistry.ice_needed(20000.0, 26.0, 20.0)
    given = 20000.0 * 0.998207 * 4.1841 * 6.0
    assert ice.ice_g * (333.4 + 4.1841 * 20.0) == pytest.approx(given)
    assert ice.meltwater_ml == pytest.approx(ice.ice_g / 0.998207)
    assert chemistry.ice_needed(20000.0, 20.0, 20.0).ice_g == 0.0


def test_the_table_of_water_has_every_degree():
    """One row a degree from the melting point to 99 C, the densest at 4 C."""
    assert len(WATER.temps_c) == 100
    assert (WATER.temps_c[0], WATER.temps_c[-1]) == (0.01, 99.0)
    assert WATER.temps_c[WATER.density_g_ml.index(max(WATER.density_g_ml))] == 4.0
    assert chemistry.water_density_g_ml(0.0, WATER) == WATER.density_g_ml[0]
    assert chemistry.water_density_g_ml(99.0, WATER) == WATER.density_g_ml[-1]
