"""Each kind of value in the house's way of showing it."""

from __future__ import annotations

import pytest

from wetside.wording import sentence, shown, speak_error
from wetside.wording.shown import SHOWN


@pytest.mark.parametrize(
    ("value", "how", "text"),
    [
        (465.0, "mss", "7:45"),
        (59.6, "mss", "1:00"),
        (3723.0, "mss", "62:03"),
        (-20.0, "mss", "−0:20"),
        (-0.4, "mss", "0:00"),
        (0.0, "signed", "0.00"),
        (-0.004, "signed", "0.00"),
        (0.05, "signed", "+0.05"),
        (-8.33, "percent", "−8.3 %"),
        (-8.33, "whole_percent", "−8 %"),
        (0.0746, "share", "7 %"),
        (1.66, "stops", "+1⅔"),
        (-0.25, "stops", "−¼"),
        (0.96, "stops", "+1"),
        (0.02, "stops", "0"),
        (1.0, "stops_said", "+1 stop"),
        (-0.5, "stops_said", "−½ stop"),
        (-1.25, "stops_said", "−1¼ stops"),
        (0.0, "stops_said", "0 stops"),
        (-1.0, "n", "N−1"),
        (0.0, "n", "N"),
        (300.0, "ml", "300 ml"),
        (11.333, "ml", "11.3 ml"),
        (2.4752, "ml", "2.48 ml"),
        (247.5, "ml", "248 ml"),
        (24.0, "ml", "24 ml"),
        (1 / 15, "shutter", "1/15 s"),
        (0.5, "shutter", "0.5 s"),
        (44.0968, "shutter", "44.1 s"),
        (150.0, "shutter", "2:30"),
        (20.0, "temp", "20.0 °C"),
        (-0.4, "degrees", "−0.4 °C"),
        (22.0, "f", "f/22"),
        (["a"], "list", "a"),
        (["a", "b", "c"], "list", "a, b and c"),
        ([], "list", ""),
        (["a", "b"], "quoted_list", '"a" and "b"'),
        ("two\nlines", "quoted", '"two lines"'),
    ],
)
def test_each_kind(value, how, text):
    """Times as m:ss, signs always shown and never on zero, fractions as on a dial."""
    assert shown(value, how) == text


def test_a_long_text_is_cut():
    """What was typed is told back on one line."""
    assert len(shown("x" * 500, "quoted")) == 62


def test_no_sign_stands_on_a_zero():
    """A value that is shown as nought has no sign, whichever side of nought it is."""
    for how in ("signed", "percent", "whole_percent", "stops", "degrees", "signed_1"):
        for value in (-1e-9, 0.0, 1e-9, -0.0):
            assert not shown(value, how).startswith(("+", "−", "-")), how


def test_every_way_is_used_in_a_sentence_without_a_trace():
    """Every format may stand in a sentence."""
    assert {"mss", "ml", "density", "percent", "list"} <= set(SHOWN)


def test_an_unknown_code_is_ugly_and_not_lost():
    """A code without a sentence is shown with its parameters."""
    assert sentence("nowhere.at_all", {"a": 1}) == "nowhere.at_all {'a': 1}"
    assert sentence("nowhere.at_all", {}) == "nowhere.at_all"


def test_an_absent_value_is_a_question_mark():
    """A parameter of None does not stop a sentence."""
    assert "?" in sentence("exposure.step.metered", {"time_s": None})


def test_unknown_languages_speak_english():
    """A language without a translation gets the original."""
    params = {"time_s": 2.0}
    assert sentence("exposure.step.metered", params, ("xx",)) == sentence("exposure.step.metered", params, ())


def test_an_error_says_its_place():
    """File, line and field stand in front of the sentence, as far as they are known."""
    from wetside.errors import InputError, Place

    error = InputError("cli.schema_which")
    assert speak_error(error) == "Say which schema: evening, plan or course."
    error.at(Place("evening.toml", 12, "sheets.3.size"))
    assert speak_error(error).startswith("evening.toml, line 12, sheets.3.size: Say which")
