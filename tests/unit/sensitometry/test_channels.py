"""Which readings may serve which printing."""

from __future__ import annotations

import pytest

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.channels import channels_of_printing, readings_for_printing
from wetside.values.evidence import Evidence
from wetside.wording.sentence import known_codes, sentence


@pytest.mark.parametrize(
    ("printing", "needed"),
    [
        ("graded-paper", ("blue",)),
        ("variable-paper", ("blue", "green")),
        ("alternative", ("uv",)),
        ("scanner", ("scanner",)),
    ],
)
def test_readings_in_the_printings_own_light_serve_as_they_are(printing, needed):
    """With stain or without, readings in the light that prints need no conversion."""
    assert channels_of_printing(printing) == needed
    for stained in (True, False):
        use = readings_for_printing(printing, [*needed, "visual"], stained=stained)
        assert (use.channels, use.evidence, use.code) == (needed, Evidence.TESTED, None)


@pytest.mark.parametrize("printing", ["graded-paper", "variable-paper", "alternative", "scanner"])
def test_visual_readings_of_a_stained_negative_are_refused(printing):
    """They are refused, not labelled, and the refusal names what is missing."""
    with pytest.raises(RefusedError) as caught:
        readings_for_printing(printing, ["visual"], stained=True)
    assert caught.value.code == "sensitometry.channel.stained"
    assert caught.value.params["missing"] == list(channels_of_printing(printing))
    assert "{" not in sentence(caught.value.code, caught.value.params, ())


def test_variable_contrast_needs_both_channels_of_a_stained_negative():
    """Blue alone is not enough: stain acts as a filter."""
    with pytest.raises(RefusedError) as caught:
        readings_for_printing("variable-paper", ["blue"], stained=True)
    assert caught.value.params["missing"] == ["green"]


@pytest.mark.parametrize("evidence", [Evidence.TESTED, Evidence.PUBLISHED, Evidence.ASSUMED])
def test_visual_readings_of_plain_silver_serve_as_converted(evidence):
    """They count as moved away from what was measured, and an assumed one stays assumed."""
    use = readings_for_printing("alternative", ["visual"], stained=False, evidence=evidence)
    assert use.channels == ("visual",)
    assert use.evidence is (Evidence.ASSUMED if evidence is Evidence.ASSUMED else Evidence.CONVERTED)
    assert use.code in known_codes("sensitometry")


def test_one_of_two_channels_serves_plain_silver():
    """Without stain blue and green agree, so that one of them will do, converted."""
    assert readings_for_printing("variable-paper", ["blue"], stained=False).channels == ("blue",)


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: channels_of_printing("linen"), "sensitometry.aim.printing_unknown"),
        (lambda: readings_for_printing("scanner", ["infrared"], stained=False), "sensitometry.channel.unknown"),
        (lambda: readings_for_printing("scanner", ["uv"], stained=False), "sensitometry.channel.not_read"),
        (lambda: readings_for_printing("scanner", [], stained=False), "sensitometry.channel.not_read"),
    ],
)
def test_what_cannot_serve_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence."""
    with pytest.raises((OutOfRangeError, RefusedError)) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())
