"""Every refusal of the units can be said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import wetside.units
from wetside import units
from wetside.errors import WetsideError
from wetside.wording import known_codes, speak_error

SOURCE = Path(wetside.units.__file__).parent
CODES = {
    code for path in SOURCE.glob("*.py") for code in re.findall(r'"(units\.[a-z_]+\.[a-z_]+)"', path.read_text("utf-8"))
}
REFUSED = {
    "units.text.wanted": (units.parse_volume_ml, 600),
    "units.text.empty": (units.parse_volume_ml, " "),
    "units.text.too_long": (units.parse_volume_ml, "6" * 200),
    "units.number.unreadable": (units.parse_number, "many"),
    "units.number.thousands": (units.parse_volume_ml, "1,000,000 ml"),
    "units.number.two_readings": (units.parse_volume_ml, "1,000 ml"),
    "units.number.fraction_of_zero": (units.parse_duration_s, "1/0 s"),
    "units.number.not_finite": (units.parse_number, "inf"),
    "units.unit.missing": (units.parse_volume_ml, "600"),
    "units.unit.unknown": (units.parse_volume_ml, "600 furlongs"),
    "units.unit.unknown_near": (units.parse_volume_ml, "600 mls"),
    "units.unit.two_meanings": (units.parse_volume_ml, "20 oz"),
    "units.quantity.out_of_range": (units.parse_volume_ml, "2000 l"),
    "units.duration.unreadable": (units.parse_duration_s, "7:5"),
    "units.duration.bare": (units.parse_duration_s, "8.30"),
    "units.duration.sixty": (units.parse_duration_s, "7:75"),
    "units.duration.span_reversed": (units.parse_duration_span_s, "8:00-7:00"),
    "units.aperture.unreadable": (units.parse_aperture, "f/22 mm"),
    "units.aperture.out_of_range": (units.parse_aperture, "f/2000"),
    "units.size.unreadable": (units.parse_size, "large"),
    "units.size.two_units": (units.parse_size, "9cm x 12in"),
    "units.size.bare": (units.parse_size, "6x17"),
    "units.size.out_of_range": (units.parse_size, "9x1200cm"),
    "units.agent.unreadable": (units.parse_agent_per_area, "62.5 ml"),
    "units.agent.area": (units.parse_agent_per_area, "62.5 ml per film"),
    "units.agent.out_of_range": (units.parse_agent_per_area, "0 ml per unit"),
}


def test_every_code_has_a_sentence_and_every_sentence_a_code():
    """The catalogue and the package name the same codes, and each has an example here."""
    assert known_codes("units") == CODES == set(REFUSED)


@pytest.mark.parametrize("code", REFUSED)
def test_a_refusal_is_said_in_full(code):
    """The sentence finds all its parameters and says what to write instead."""
    parse, text = REFUSED[code]
    with pytest.raises(WetsideError) as caught:
        parse(text)
    assert caught.value.code == code
    said = speak_error(caught.value, ())
    assert said[0].isupper() or said[0] == '"'
    assert said.endswith(".")
    assert "{" not in said
    assert "None" not in said
    assert not re.match(r"units\.", said)
