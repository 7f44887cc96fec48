"""Reading dilutions."""

from __future__ import annotations

import pytest

from wetside import chemistry
from wetside.errors import AmbiguousError, InputError, OutOfRangeError, UnreadableError
from wetside.values.dilution import STOCK, Dilution
from wetside.wording import speak_error


@pytest.mark.parametrize(
    ("text", "dilution"),
    [
        ("1+24", Dilution((1.0,), 24.0)),
        ("1 + 24", Dilution((1.0,), 24.0)),
        ("1\N{NO-BREAK SPACE}+\N{NO-BREAK SPACE}24", Dilution((1.0,), 24.0)),
        ("1+2+100", Dilution((1.0, 2.0), 100.0)),
        ("1,5+50", Dilution((1.5,), 50.0)),
        ("1+0", STOCK),
        ("stock", STOCK),
        ("Undiluted", STOCK),
        ("4 %", Dilution((4.0,), 96.0)),
        ("4%", Dilution((4.0,), 96.0)),
        ("2,5 percent", Dilution((2.5,), 97.5)),
    ],
)
def test_parts_percent_and_stock_are_read(text, dilution):
    """Parts with plus signs, the water last; percent as parts of a hundred."""
    assert chemistry.parse_dilution(text) == dilution


def test_a_colon_is_refused_with_both_readings():
    """1:24 is 1+24 or 1 in 24; both are spelled out with what they differ by."""
    with pytest.raises(AmbiguousError) as caught:
        chemistry.parse_dilution("1:24")
    params = caught.value.params
    assert caught.value.code == "chemistry.dilution.colon"
    assert params["choices"] == ("1+24", "1+23")
    assert params["within"] == "1 in 24"
    assert params["stronger_percent"] == pytest.approx(4.1667, abs=1e-4)
    assert speak_error(caught.value, ()) == (
        '"1:24" has two readings: 1+24 (beside each other), or 1 in 24, which is 1+23 and 4.2 % stronger. Write one of '
        "1+24 and 1+23."
    )


@pytest.mark.parametrize(
    ("text", "choices"),
    [
        ("1:31", ("1+31", "1+30")),
        ("1 : 4", ("1+4", "1+3")),
        ("1:1", ("1+1", "stock")),
        ("1/24", ("1+24", "1+23")),
        ("1\N{RATIO}24", ("1+24", "1+23")),
        ("24:1", ("24+1", "1+24")),
        ("1:1:100", ("1+1+100",)),
    ],
)
def test_every_colon_and_slash_is_refused(text, choices):
    """Whatever its numbers, a ratio is never guessed at; what it may mean is offered."""
    with pytest.raises(AmbiguousError) as caught:
        chemistry.parse_dilution(text)
    assert caught.value.params["choices"] == choices


@pytest.mark.parametrize("text", ["B", "h", "dilution B", "dil. H", "Dil B"])
def test_a_letter_is_refused_until_its_parts_are_said(text):
    """One letter stands for different strengths with different makers."""
    with pytest.raises(UnreadableError) as caught:
        chemistry.parse_dilution(text)
    assert caught.value.code == "chemistry.dilution.letter"


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("", "units.text.empty"),
        ("24", "chemistry.dilution.bare"),
        ("one to four", "chemistry.dilution.unreadable"),
        ("1++24", "chemistry.dilution.unreadable"),
        ("+24", "chemistry.dilution.unreadable"),
        ("1+24 ml", "chemistry.dilution.unreadable"),
        ("1:0", "chemistry.dilution.unreadable"),
        ("1:x", "chemistry.dilution.unreadable"),
        ("0+0", "values.dilution.no_agent"),
        ("0+24", "values.dilution.no_agent"),
        ("0+1+100", "values.dilution.no_agent"),
        ("-1+24", "values.dilution.no_agent"),
        ("1+-24", "values.dilution.negative_water"),
        ("1e999+1", "units.number.not_finite"),
        ("1+inf", "units.number.not_finite"),
        ("nan+1", "units.number.not_finite"),
        ("0 %", "chemistry.dilution.percent"),
        ("101 %", "chemistry.dilution.percent"),
        ("1+10000", "chemistry.dilution.too_weak"),
    ],
)
def test_what_is_no_dilution_is_refused_with_its_reason(text, code):
    """Every refusal has its own code and a sentence."""
    with pytest.raises(InputError) as caught:
        chemistry.parse_dilution(text)
    assert caught.value.code == code
    assert not speak_error(caught.value, ()).startswith(("chemistry.", "units."))


def test_parts_with_many_digits_are_written_whole():
    """No digit is lost between writing and reading."""
    dilution = Dilution((1.0,), 24.123456789)
    assert chemistry.write_dilution(dilution) == "1+24.123456789"


def test_both_readings_of_a_ratio_need_a_part_within_the_whole():
    """Two in one cannot be."""
    with pytest.raises(OutOfRangeError):
        chemistry.colon_readings(2.0, 1.0)
