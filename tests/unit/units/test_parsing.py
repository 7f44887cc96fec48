"""Reading quantities as people type them."""

from __future__ import annotations

import pytest

from wetside import units
from wetside.errors import AmbiguousError, InputError, OutOfRangeError, UnreadableError


@pytest.mark.parametrize(
    ("text", "volume_ml"),
    [
        ("600 ml", 600.0),
        ("600ml", 600.0),
        ("1,5 l", 1500.0),
        ("0.6L", 600.0),
        (".5 l", 500.0),
        ("1/2 l", 500.0),
        ("1 1/2 litres", 1500.0),
        ("1 250 ml", 1250.0),
        ("600\N{NO-BREAK SPACE}ml", 600.0),
        ("75 cl", 750.0),
        ("250 cc", 250.0),
        ("1.2500 l", 1250.0),
        ("0.125 l", 125.0),
        ("1000 l", 1_000_000.0),
        ("0.1 ml", 0.1),
    ],
)
def test_a_volume_is_read_in_millilitres(text, volume_ml):
    """Metric volumes with comma or point, with and without blanks."""
    assert units.parse_volume_ml(text) == pytest.approx(volume_ml, rel=1e-15)


def test_us_and_imperial_ounces_differ():
    """The country of an ounce changes its size."""
    assert units.parse_volume_ml("20 US fl oz") == pytest.approx(591.47059125)
    assert units.parse_volume_ml("20 fl. oz. imp.") == pytest.approx(568.26125)
    assert units.parse_volume_ml("1 pint (UK)") == pytest.approx(568.26125)


@pytest.mark.parametrize("text", ["20 oz", "20 fl oz", "1 pint", "1 quart", "1 gal"])
def test_an_ounce_without_its_country_is_refused(text):
    """Bare ounces, pints, quarts and gallons name both countries as choices."""
    with pytest.raises(AmbiguousError) as caught:
        units.parse_volume_ml(text)
    assert caught.value.code == "units.unit.two_meanings"
    us, imperial = caught.value.params["choices"]
    assert us.startswith("US ")
    assert imperial.startswith("Imperial ")


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("600", "units.unit.missing"),
        ("600 mls", "units.unit.unknown_near"),
        ("600 furlongs", "units.unit.unknown"),
        ("ml", "units.number.unreadable"),
        ("", "units.text.empty"),
        ("\N{NO-BREAK SPACE}", "units.text.empty"),
        ("x" * 200, "units.text.too_long"),
        ("1,250 ml", "units.number.two_readings"),
        ("1.250 ml", "units.number.two_readings"),
        ("1,000,000 ml", "units.number.thousands"),
        ("1.000,5 ml", "units.number.thousands"),
        ("1'000 ml", "units.number.thousands"),
        ("1/0 l", "units.number.fraction_of_zero"),
        ("nan ml", "units.number.not_finite"),
        ("-inf ml", "units.number.not_finite"),
        ("1e999 ml", "units.number.not_finite"),
        ("-5 ml", "units.quantity.out_of_range"),
        ("0 ml", "units.quantity.out_of_range"),
        ("0.09 ml", "units.quantity.out_of_range"),
        ("1001 l", "units.quantity.out_of_range"),
    ],
)
def test_a_volume_that_cannot_be_meant_is_refused_with_its_reason(text, code):
    """Every refusal has its own code."""
    with pytest.raises(InputError) as caught:
        units.parse_volume_ml(text)
    assert caught.value.code == code


def test_a_number_in_place_of_text_is_refused():
    """A bare number of a file has no unit and is told so."""
    with pytest.raises(UnreadableError) as caught:
        units.parse_volume_ml(600)
    assert caught.value.code == "units.text.wanted"


def test_the_nearest_known_unit_is_named():
    """A slip of the pen is answered with the unit that was probably meant."""
    with pytest.raises(UnreadableError) as caught:
        units.parse_volume_ml("2 liitres")
    assert caught.value.params["nearest"] == "l"


def test_a_caller_may_narrow_or_widen_the_limits():
    """An empty bottle is a volume where the caller says so."""
    assert units.parse_volume_ml("0 ml", low_ml=0.0) == 0.0
    with pytest.raises(OutOfRangeError) as caught:
        units.parse_volume_ml("2 l", high_ml=1000.0)
    assert caught.value.params["high"] == "1 l"


@pytest.mark.parametrize(
    ("text", "duration_s"),
    [
        ("7:30", 450.0),
        ("0:05", 5.0),
        ("62:00", 3720.0),
        ("1:02:00", 3720.0),
        ("7:30 min", 450.0),
        ("7:30,5", 450.5),
        ("90 s", 90.0),
        ("90s", 90.0),
        ("7 min", 420.0),
        ("7.5 min", 450.0),
        ("7,5 min", 450.0),
        ("2h", 7200.0),
        ("1/15 s", 1 / 15),
        ("1/15", 1 / 15),
        ("8 s", 8.0),
        ("7 min 30 s", 450.0),
        ("7m30s", 450.0),
        ("7'30\"", 450.0),
        ("0 s", 0.0),
        ("500 ms", 0.5),
        ("1 1/2 min", 90.0),
    ],
)
def test_a_time_is_m_ss_or_carries_its_unit(text, duration_s):
    """Clock times, units and engraved fractions."""
    assert units.parse_duration_s(text) == pytest.approx(duration_s, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "choices"), [("8.30", ("8:30", "8.30 min")), ("8,30", ("8:30", "8,30 min")), ("8", ("8 min", "8 s"))]
)
def test_a_time_without_colon_or_unit_is_refused(text, choices):
    """8.30 may be 8:30 or 8.3 minutes; both are offered."""
    with pytest.raises(AmbiguousError) as caught:
        units.parse_duration_s(text)
    assert caught.value.code == "units.duration.bare"
    assert caught.value.params["choices"] == choices


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("7:5", "units.duration.unreadable"),
        ("7:75", "units.duration.sixty"),
        ("1:75:00", "units.duration.sixty"),
        ("7:", "units.duration.unreadable"),
        ("-7:30", "units.duration.unreadable"),
        ("30 s 7 min", "units.duration.unreadable"),
        ("-5 s", "units.quantity.out_of_range"),
        ("11 days", "units.quantity.out_of_range"),
        ("99999:00", "units.quantity.out_of_range"),
        ("5 parsecs", "units.unit.unknown_near"),
    ],
)
def test_a_time_that_cannot_be_meant_is_refused_with_its_reason(text, code):
    """Every refusal has its own code."""
    with pytest.raises(InputError) as caught:
        units.parse_duration_s(text)
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("text", "span_s"),
    [
        ("7:00-8:00", (420.0, 480.0)),
        ("7:00 \N{EN DASH} 8:00", (420.0, 480.0)),
        ("7-8 min", (420.0, 480.0)),
        ("7 to 8 min", (420.0, 480.0)),
        ("90 s-2 min", (90.0, 120.0)),
        ("7:30", (450.0, 450.0)),
    ],
)
def test_a_span_of_times_has_two_ends(text, span_s):
    """A unit that stands once belongs to both ends."""
    assert units.parse_duration_span_s(text) == span_s


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("8:00-7:00", "units.duration.span_reversed"),
        ("7-8", "units.duration.bare"),
        ("7-8:00", "units.duration.bare"),
        ("7:00-8:00-9:00", "units.duration.unreadable"),
        ("-", "units.number.unreadable"),
    ],
)
def test_a_span_that_cannot_be_meant_is_refused(text, code):
    """Reversed, bare and triple spans are refused."""
    with pytest.raises(InputError) as caught:
        units.parse_duration_span_s(text)
    assert caught.value.code == code


def test_temperatures_have_an_offset_and_their_differences_have_none():
    """68 F is 20 C; a difference of 9 F is one of 5 C."""
    assert units.parse_temp_c("68 F") == 20.0
    assert units.parse_temp_c("20,5 °C") == 20.5
    assert units.parse_temp_c("\N{MINUS SIGN}5 C") == -5.0
    assert units.parse_temp_c("20.125 C") == 20.125
    assert units.parse_temp_step_c("9 F") == 5.0
    assert units.parse_temp_step_c("-0.4 C") == -0.4
    assert units.parse_temp_step_c("0,7 °F") == pytest.approx(0.7 * 5 / 9)


@pytest.mark.parametrize("text", ["20", "20 °", "20 K", "300 C"])
def test_a_temperature_needs_its_scale_and_sense(text):
    """No bare degrees, nothing far outside a darkroom."""
    with pytest.raises(InputError):
        units.parse_temp_c(text)


def test_lengths_areas_and_masses():
    """Metric and inch units, the trade's unit of film area, old ounces and grains."""
    assert units.parse_length_mm("12 in") == pytest.approx(304.8)
    assert units.parse_length_mm('12"') == pytest.approx(304.8)
    assert units.parse_length_mm("30 cm") == 300.0
    assert units.parse_area_cm2("80 sq in") == pytest.approx(516.128)
    assert units.parse_area_cm2("3.5 units") == pytest.approx(1806.448)
    assert units.parse_area_cm2("516 cm²") == 516.0
    assert units.parse_mass_g("7000 grains") == pytest.approx(453.59237)
    assert units.parse_mass_g("50 g") == 50.0
    with pytest.raises(AmbiguousError):
        units.parse_mass_g("10 gr")


@pytest.mark.parametrize("text", ["f/22", "22", "f22", "F/22", "f 22", "f/22.0", "ƒ/22"])
def test_an_aperture_in_any_dress(text):
    """The letter and the stroke may be left out."""
    assert units.parse_aperture(text) == 22.0


@pytest.mark.parametrize("text", ["f", "f/", "1:5.6", "f/0", "f/-8", "f/22 mm", "f/2000", "nan", "f/1/2"])
def test_what_is_no_aperture_is_refused(text):
    """Nothing but a positive number of a usual size."""
    with pytest.raises(InputError):
        units.parse_aperture(text)


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("9x12cm", ("9x12cm", 90.0, 120.0)),
        ("9x12", ("9x12cm", 90.0, 120.0)),
        ("12 × 9 cm", ("9x12cm", 90.0, 120.0)),
        ("90x120mm", ("9x12cm", 90.0, 120.0)),
        ("6,5x9", ("6.5x9cm", 65.0, 90.0)),
        ("4x5in", ("4x5in", 101.6, 127.0)),
        ("4x5", ("4x5in", 101.6, 127.0)),
        ("5 by 4 inches", ("4x5in", 101.6, 127.0)),
        ("4in x 5in", ("4x5in", 101.6, 127.0)),
        ("13 x 18 cm", ("13x18cm", 130.0, 180.0)),
        ("11x14", ("11x14in", 279.4, 355.6)),
        ("6x17cm", ("6x17cm", 60.0, 170.0)),
    ],
)
def test_a_format_has_one_name(text, size):
    """Shorter side first; of bare pairs only those that name one format."""
    name, width_mm, height_mm = units.parse_size(text)
    assert (name, width_mm, height_mm) == (size[0], pytest.approx(size[1]), pytest.approx(size[2]))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("6x17", "units.size.bare"),
        ("9x12 furlongs", "units.unit.unknown"),
        ("9cm x 12in", "units.size.two_units"),
        ("9", "units.size.unreadable"),
        ("nine by twelve", "units.size.unreadable"),
        ("0x12cm", "units.size.out_of_range"),
        ("9x1200cm", "units.size.out_of_range"),
    ],
)
def test_what_is_no_format_is_refused(text, code):
    """Every refusal has its own code."""
    with pytest.raises(InputError) as caught:
        units.parse_size(text)
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("text", "ml_per_cm2"),
    [
        ("62.5 ml per 516 cm2", 62.5 / 516),
        ("62,5 ml per unit", 62.5 / 516.128),
        ("62.5 ml/unit", 62.5 / 516.128),
        ("20 ml per 8x10in", 20 / 516.128),
        ("20 ml per 8x10", 20 / 516.128),
        ("1 l per m2", 0.1),
        ("0.05 ml per cm2", 0.05),
        ("250 ml per 3.5 units", 250 / (3.5 * 516.128)),
    ],
)
def test_agent_to_an_area_of_film(text, ml_per_cm2):
    """The area is a number with a unit, a unit alone, or a format."""
    assert units.parse_agent_per_area(text) == pytest.approx(ml_per_cm2, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("62.5 ml", "units.agent.unreadable"),
        ("62.5 ml per film", "units.agent.area"),
        ("62.5 ml per", "units.agent.unreadable"),
        ("62.5 per unit", "units.unit.missing"),
        ("0 ml per unit", "units.agent.out_of_range"),
        ("62.5 ml per 0 cm2", "units.quantity.out_of_range"),
    ],
)
def test_agent_without_volume_or_area_is_refused(text, code):
    """Every refusal has its own code."""
    with pytest.raises(InputError) as caught:
        units.parse_agent_per_area(text)
    assert caught.value.code == code


def test_a_bare_number_takes_a_comma_or_a_point():
    """1,250 is refused unless the caller knows that the column holds no thousands."""
    assert units.parse_number("1,5") == 1.5
    assert units.parse_number("-0.125") == -0.125
    assert units.parse_number("1.313") == 1.313
    assert units.parse_number("0,125") == 0.125
    assert units.parse_number("1,250", comma_thousandths=True) == 1.25
    with pytest.raises(AmbiguousError):
        units.parse_number("1,250")
    with pytest.raises(InputError):
        units.parse_number("1.5 x")
