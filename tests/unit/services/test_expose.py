"""Typed exposures: corrected in order, or placed on zones."""

from __future__ import annotations

import pytest

from wetside.errors import WetsideError
from wetside.services.expose import ExposeAnswers, expose


def test_an_engraved_time_is_reckoned_exactly():
    """1/15 s counts as 1/16, f/22 as 8 times root 8: three stops from f/8 are exactly eight times."""
    found = expose(ExposeAnswers(time="1/15 s", metered_at="f/8", set_to="f/22"))
    assert found.pipeline.corrected_s == pytest.approx(0.5)


def test_filters_multiply():
    """Two filters are two steps."""
    found = expose(ExposeAnswers(time="1/8 s", filters=("2", "1.5")))
    assert [step.factor for step in found.pipeline.steps[1:3]] == [2.0, 1.5]


def test_a_published_film_is_found_and_named():
    """Reciprocity of a film comes with its source; an own exponent has none."""
    found = expose(ExposeAnswers(time="10 s", film="fp4 plus"))
    assert found.source.startswith("ilford")
    assert found.pipeline.corrected_s > 10.0
    assert expose(ExposeAnswers(time="10 s", power="1.3")).source is None


@pytest.mark.parametrize(
    ("shadow", "highlight", "set_ev", "n"),
    [
        ("9@3", "14@8", 11.0, 0.0),
        ("9@III", "14@VII", 11.0, -1.0),
        ("9,5@iv", None, 10.5, None),
        ("-2@0", "3@5", 3.0, 0.0),
    ],
)
def test_placing(shadow, highlight, set_ev, n):
    """A shadow on zone III is set two stops above it; the highlight tells N."""
    placing = expose(ExposeAnswers(shadow=shadow, highlight=highlight)).placing
    assert (placing.set_ev, placing.n) == (set_ev, n)


@pytest.mark.parametrize(
    ("answers", "code"),
    [
        (ExposeAnswers(), "services.expose_nothing"),
        (ExposeAnswers(time="2s", extension="300mm"), "services.option_missing_with"),
        (ExposeAnswers(time="2s", focal="300mm"), "services.option_missing_with"),
        (ExposeAnswers(time="2s", set_to="22"), "services.option_missing_with"),
        (ExposeAnswers(time="2s", highlight="14@8"), "services.option_missing_with"),
        (ExposeAnswers(time="2s", power="1.3", film="FP4 PLUS"), "services.power_and_film"),
        (ExposeAnswers(time="2s", film="Tolland 100"), "services.no_reciprocity"),
        (ExposeAnswers(shadow="9"), "services.ev_at_zone"),
    ],
)
def test_half_said(answers, code):
    """What needs a second answer names it."""
    with pytest.raises(WetsideError) as caught:
        expose(answers)
    assert caught.value.code == code
