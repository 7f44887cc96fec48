"""Properties of reading and writing quantities."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from wetside import units
from wetside.errors import WetsideError

PARSERS = (
    units.parse_volume_ml,
    units.parse_duration_s,
    units.parse_temp_c,
    units.parse_temp_step_c,
    units.parse_length_mm,
    units.parse_area_cm2,
    units.parse_mass_g,
    units.parse_number,
    units.parse_aperture,
    units.parse_agent_per_area,
)
ROUND_TRIPS = {
    "volume": (units.write_volume, units.parse_volume_ml, 0.1, 1e6),
    "duration": (units.write_duration, units.parse_duration_s, 0.0, 864_000.0),
    "temp": (units.write_temp, units.parse_temp_c, -30.0, 110.0),
    "temp_step": (units.write_temp_step, units.parse_temp_step_c, -100.0, 100.0),
    "length": (units.write_length, units.parse_length_mm, 0.01, 1e6),
    "area": (units.write_area, units.parse_area_cm2, 0.01, 1e7),
    "mass": (units.write_mass, units.parse_mass_g, 0.001, 1e6),
    "number": (units.write_number, units.parse_number, -1e12, 1e12),
    "aperture": (units.write_aperture, units.parse_aperture, 0.5, 1024.0),
    "agent": (units.write_agent_per_area, units.parse_agent_per_area, 1e-4, 100.0),
}
TYPED = st.text(alphabet="0123456789.,:/+-eE xXmlscCF°×'\" \N{NO-BREAK SPACE}\N{MINUS SIGN}pernitoz", max_size=24)


@pytest.mark.parametrize("parse", PARSERS)
@settings(max_examples=150, deadline=None)
@given(text=st.one_of(st.text(max_size=40), TYPED))
@example(text="nan ml")
@example(text="1e999 l")
@example(text="9" * 400)
@example(text="1/0 s")
@example(text="٣ ml")
def test_any_text_is_a_finite_number_or_a_refusal(parse, text):
    """Whatever stands there is read as a finite number or refused with a code, never anything else."""
    try:
        value = parse(text)
    except WetsideError:
        return
    assert math.isfinite(value)


@settings(max_examples=300, deadline=None)
@given(text=st.one_of(st.text(max_size=40), TYPED))
def test_any_text_is_a_size_or_a_refusal(text):
    """A format comes out with its shorter side first, and its name names the same format again."""
    try:
        name, width_mm, height_mm = units.parse_size(text)
    except WetsideError:
        return
    assert 0 < width_mm <= height_mm < math.inf
    again = units.parse_size(name)
    assert again[1:] == pytest.approx((width_mm, height_mm))
    assert units.parse_size(again[0]) == again


@settings(max_examples=300, deadline=None)
@given(text=st.one_of(st.text(max_size=40), TYPED))
def test_any_text_is_a_span_or_a_refusal(text):
    """A span never ends before it begins."""
    try:
        low_s, high_s = units.parse_duration_span_s(text)
    except WetsideError:
        return
    assert 0 <= low_s <= high_s < math.inf


@pytest.mark.parametrize("name", ROUND_TRIPS)
@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_what_is_written_reads_back_as_the_same_number(name, data):
    """The writer's text reads back as exactly the same float."""
    write, parse, low, high = ROUND_TRIPS[name]
    value = data.draw(
        st.one_of(
            st.floats(low, high),
            st.integers(math.ceil(low), math.floor(high)).map(float),
            st.integers(math.ceil(low * 1000), math.floor(min(high, 5000) * 1000)).map(lambda n: n / 1000),
        ).filter(lambda drawn: low <= drawn <= high)
    )
    assert parse(write(value)) == value


@settings(max_examples=200, deadline=None)
@given(ends=st.lists(st.floats(0.0, 864_000.0), min_size=2, max_size=2).map(sorted))
def test_a_written_span_reads_back_as_the_same_span(ends):
    """Both ends of a span come back exactly."""
    assert units.parse_duration_span_s(units.write_duration_span(*ends)) == tuple(ends)


@settings(max_examples=200, deadline=None)
@given(
    sides=st.tuples(st.integers(2, 200), st.integers(2, 200)),
    unit=st.sampled_from(["cm", "in"]),
)
def test_the_order_of_the_sides_does_not_matter(sides, unit):
    """Width and height may be typed either way round."""
    first, second = sides
    texts = (f"{first}x{second}{unit}", f"{second} x {first} {unit}")
    try:
        one, other = (units.parse_size(text) for text in texts)
    except WetsideError:
        return
    assert one == other
