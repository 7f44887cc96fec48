"""A finished negative as typed: which rows may take over, in which light, and with which gain."""

from __future__ import annotations

import pytest

from wetside.errors import RefusedError
from wetside.services.negative import NegativeAnswers, negative
from wetside.services.printing_choice import PrintingNames

THIN = NegativeAnswers("0.10", "1.00", names=PrintingNames(wanted="1.05"), only=True, fixed_and_washed=True)


def way(answer, act):
    return next((option for option in answer.decision.options if option.act == act), None)


def test_a_measured_gain_of_ones_own_outranks_the_assumed_span():
    """0.90 times 1.12 is 1.008, with no span and no longer by an assumed gain; the densities were read in blue."""
    names = PrintingNames(number="R105")
    mine = way(negative(THIN._replace(gain="0.12", names=names, read_in=("blue",))), "intensify")
    assert (mine.range_after, mine.range_after_low, mine.range_after_high) == pytest.approx((1.008, 1.008, 1.008))
    assert mine.evidence.value == "published"
    assert way(negative(THIN._replace(names=names, read_in=("blue",))), "intensify").evidence.value == "assumed"


@pytest.mark.parametrize(
    ("names", "printed_on"),
    [
        (PrintingNames(grade="2"), "grade"),
        (PrintingNames(number="R110"), "grade"),
        (PrintingNames(filter="2"), "filter"),
        (PrintingNames(wanted="1.05", printing="variable-paper"), "filter"),
        (PrintingNames(process="platinum"), None),
        (PrintingNames(process="condenser"), None),
        (PrintingNames(process="scanner"), None),
    ],
)
def test_grades_for_graded_paper_filters_for_variable_and_none_for_what_is_counted_otherwise(names, printed_on):
    """A row that is proposed is of the paper's own kind."""
    found = way(negative(THIN._replace(names=names, only=False)), "print")
    assert (None if found is None else found.printing.kind) == printed_on


@pytest.mark.parametrize(
    ("read_in", "stained", "evidence"),
    [((), False, "converted"), (("blue",), False, "published"), (("blue",), True, "published")],
)
def test_readings_in_the_light_of_the_paper_keep_their_evidence(read_in, stained, evidence):
    """Visual readings of plain silver are converted; blue ones serve graded paper, stained or not."""
    answers = THIN._replace(names=PrintingNames(number="R110"), read_in=read_in, stained=stained)
    assert way(negative(answers), "keep").evidence.value == evidence


def test_a_stained_negative_read_by_eye_is_refused():
    """No label would help: the number would be wrong."""
    with pytest.raises(RefusedError) as caught:
        negative(THIN._replace(stained=True))
    assert caught.value.code == "sensitometry.channel.stained"
