"""Typed temperatures: pouring, waiting, a jacket over the bath, coefficients inside their span, ice and heater."""

from __future__ import annotations

import math

import pytest

from wetside.errors import RefusedError, WetsideError
from wetside.services.temper import temper
from wetside.services.temper_evening import TemperAnswers

COLD = TemperAnswers(liquid="300ml", vessel="300g", vessel_temp="17C")


def test_a_jacket_at_the_wanted_temperature_halves_what_pouring_took():
    """In a jacket the difference falls off with the time constant; its mean over one constant is 1 - 1/e of it."""
    found = temper(COLD._replace(jacket="20C", tau="8:00", time="8:00")).pouring
    assert found.mean_c - 20.0 == pytest.approx(found.off_c * (1.0 - math.exp(-1.0)))
    assert found.effect is None


def test_the_start_that_averages_what_is_wanted_does_so():
    """Poured at the temperature told, vessel and jacket bring the mean over the bath to the one wanted."""
    answers = COLD._replace(jacket="18C", tau="10:00", time="9:00")
    start_c = temper(answers).pouring.start_c
    again = temper(answers._replace(liquid_temp=f"{start_c:.9f}C")).pouring
    assert again.mean_c == pytest.approx(20.0, abs=1e-6)


def test_no_impossible_pour_is_advised():
    """A little liquid in a heavy cold vessel cannot make up for it: no temperature is told."""
    assert temper(TemperAnswers(liquid="10ml", vessel="5kg", vessel_temp="5C")).pouring.start_c is None
    far = COLD._replace(jacket="5C", tau="1:00", time="20:00")
    assert temper(far).pouring.start_c is None


def test_a_named_coefficient_holds_everywhere_and_is_assumed():
    """exp(k times the difference) of the rate; grades are 0.17 of density each."""
    found = temper(COLD._replace(coefficient="0.08", time="8:00")).pouring
    rate = math.exp(0.08 * found.off_c)
    assert found.effect.found.time_percent == pytest.approx(100.0 * (rate - 1.0))
    assert found.effect.grades == pytest.approx(found.effect.found.density / 0.17)
    assert found.effect.zones < 0
    assert found.effect.coefficient.evidence.value == "assumed"


def test_published_pairs_hold_inside_their_span_only():
    """ID-11 has pairs at 20 and 24 C: a bath at 21 C is reckoned, one at 19.1 C refused with what to name instead."""
    inside = COLD._replace(liquid_temp="22C", vessel_temp="19C", want="21C", developer="id-11", time="8:00")
    coefficient = temper(inside).pouring.effect.coefficient
    assert coefficient.span_c == (20.0, 24.0)
    assert coefficient.evidence.value == "published"
    with pytest.raises(RefusedError) as caught:
        temper(COLD._replace(developer="ID-11", time="8:00"))
    assert caught.value.code == "services.outside_pairs"
    assert caught.value.params["per_c"] == pytest.approx(coefficient.per_c)


def test_the_jacket_must_keep_inside_the_span_too():
    """A bath that begins inside the span but is drawn out of it by its jacket is refused."""
    inside = COLD._replace(liquid_temp="22C", vessel_temp="21C", want="21C", developer="ID-11", time="20:00")
    assert temper(inside).pouring.effect is not None
    with pytest.raises(RefusedError):
        temper(inside._replace(jacket="16C", tau="5:00"))


def test_ice_cools_and_a_heater_warms():
    """20 l from 26 to 20 C: heat over 333.4 J/g and 20 K of meltwater; 300 W give the same heat back in its time."""
    ice = temper(TemperAnswers(bath="20l", bath_temp="26C")).bath
    heat_j = 20_000 * 0.998207 * 4.1841 * 6.0
    assert ice.ice.ice_g == pytest.approx(heat_j / (333.4 + 4.1841 * 20.0))
    heated = temper(TemperAnswers(bath="20l", bath_temp="20C", want="26C", heater="300")).bath
    assert heated.ice is None
    assert heated.heater_s == pytest.approx(heat_j / 300.0)


def test_a_bottle_may_wait_beside_a_poured_vessel():
    """The jacket is the bottle's where no developing time is told: both answers come at once."""
    found = temper(COLD._replace(bottle="16C", jacket="20C", tau="6:00"))
    assert found.waiting.wait_s == pytest.approx(360.0 * math.log(4.0 / 0.3))
    assert found.pouring.mean_c is None


@pytest.mark.parametrize(
    ("answers", "code", "field"),
    [
        (TemperAnswers(), "services.temper_nothing", None),
        (COLD._replace(jacket="20C"), "services.option_missing_with", None),
        (COLD._replace(jacket="20C", tau="8:00"), "services.option_missing_with", None),
        (COLD._replace(coefficient="0.08"), "services.option_missing_with", None),
        (COLD._replace(developer="ID-11"), "services.option_missing_with", None),
        (COLD._replace(developer="ID-11", coefficient="0.08", time="8:00"), "services.coefficient_twice", None),
        (COLD._replace(developer="Brackwater", time="8:00"), "services.no_pairs", "--developer"),
        (COLD._replace(coefficient="3", time="8:00"), "development.coefficient.out_of_range", "--coefficient"),
        (COLD._replace(coefficient="0.08", time="8:00", density_range="9"), "services.density_range", "--range"),
        (COLD._replace(material="cheese"), "services.material", "--material"),
        (TemperAnswers(bath="2l", bath_temp="16C"), "services.option_missing_with", None),
        (TemperAnswers(bath="2l"), "services.option_missing_with", None),
        (TemperAnswers(bath="2l", bath_temp="16C", heater="0"), "chemistry.value.not_positive", "--heater"),
    ],
)
def test_half_said(answers, code, field):
    """What is missing or impossible is refused by name, at its option."""
    with pytest.raises(WetsideError) as caught:
        temper(answers)
    assert caught.value.code == code
    assert field is None or field in caught.value.place.field
