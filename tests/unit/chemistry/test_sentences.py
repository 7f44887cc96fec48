"""Every code of chemistry can be said."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest

import wetside.chemistry
from wetside import chemistry
from wetside.chemistry.dilution import require_name_only
from wetside.errors import WetsideError
from wetside.values.dilution import Dilution
from wetside.wording import known_codes, speak_error

SOURCE = Path(wetside.chemistry.__file__).parent
SHOWN_HERE = ("amount", "dilution", "limits", "mixing", "reuse")
"""Modules whose refusals have their examples here; the others have tests of their own sentences."""


def codes_of(pattern):
    """Codes that are written in the modules of a pattern."""
    return {
        code
        for path in SOURCE.glob(f"{pattern}.py")
        for code in re.findall(r'"(chemistry\.[a-z_]+\.[a-z_]+)"', path.read_text("utf-8"))
    }


CODES = codes_of("*")
PUT_TOGETHER = ("chemistry.hazard.", "chemistry.combination.")
"""Beginnings of codes whose last word comes from a table; test_bath_sentences.py says them all."""
ONE_TO_THREE = Dilution((1.0,), 3.0)
REFUSED = {
    "chemistry.value.not_positive": lambda: chemistry.use_per_unit_ml(0.0, 1.0),
    "chemistry.value.negative": lambda: chemistry.agent_in_ml(-1.0, ONE_TO_THREE),
    "chemistry.value.not_finite": lambda: chemistry.developer_weight(math.inf),
    "chemistry.amount.out_of_range": lambda: chemistry.mix_volumes(ONE_TO_THREE, 0.0),
    "chemistry.dilution.unreadable": lambda: chemistry.parse_dilution("strong"),
    "chemistry.dilution.letter": lambda: chemistry.parse_dilution("B"),
    "chemistry.dilution.in_name": lambda: require_name_only("Brackwater 1+14"),
    "chemistry.dilution.colon": lambda: chemistry.parse_dilution("1:24"),
    "chemistry.dilution.colons": lambda: chemistry.parse_dilution("1:1:100"),
    "chemistry.dilution.bare": lambda: chemistry.parse_dilution("24"),
    "chemistry.dilution.percent": lambda: chemistry.parse_dilution("120 %"),
    "chemistry.dilution.too_weak": lambda: chemistry.parse_dilution("1+100000"),
    "chemistry.percent.over_hundred": lambda: chemistry.percent_dilution_ml(120.0, 5.0, 100.0),
    "chemistry.percent.stronger": lambda: chemistry.percent_dilution_ml(5.0, 28.0, 100.0),
    "chemistry.redilution.stronger": lambda: chemistry.redilution_water_ml(9.0, ONE_TO_THREE, Dilution((1.0,), 1.0)),
    "chemistry.redilution.other_parts": lambda: chemistry.redilution_water_ml(
        9.0, ONE_TO_THREE, Dilution((1.0, 1.0), 100.0)
    ),
    "chemistry.volume.limit_below_wetting": lambda: chemistry.volume_needed(300.0, None, 250.0),
    "chemistry.agent.below_half": lambda: chemistry.check_agent(20.0, 62.5),
    "chemistry.activity.above_one": lambda: chemistry.density_effect(1.05, 1.5),
    "chemistry.reuse.not_whole": lambda: chemistry.reuse_factor(1.5, capacity_per_litre=10),
    "chemistry.reuse.under_a_litre": lambda: chemistry.reuse_factor(1, capacity_per_litre=10, litres=0.5),
    "chemistry.reuse.used_up": lambda: chemistry.reuse_factor(11, capacity_per_litre=10),
}


def test_every_code_has_a_sentence_and_every_sentence_a_code():
    """The catalogue and the package name the same codes, and each refusal of these modules has an example here."""
    assert {code for code in known_codes("chemistry") if not code.startswith(PUT_TOGETHER)} == {
        code for code in CODES if not code.startswith(PUT_TOGETHER)
    }
    refusals = {code for name in SHOWN_HERE for code in codes_of(name) if not code.startswith("chemistry.mix.")}
    assert set(REFUSED) == refusals


@pytest.mark.parametrize("code", REFUSED)
def test_a_refusal_is_said_in_full(code):
    """The sentence finds all its parameters."""
    with pytest.raises(WetsideError) as caught:
        REFUSED[code]()
    assert caught.value.code == code
    said = speak_error(caught.value, ())
    assert said.endswith(".")
    assert "{" not in said
    assert not said.startswith("chemistry.")


def test_every_offered_name_loads():
    """The package's list of names and its lazy loading agree."""
    for name in chemistry.__all__:
        assert getattr(chemistry, name) is not None
    with pytest.raises(AttributeError):
        _ = chemistry.no_such_name
