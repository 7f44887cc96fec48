"""Agitation classes, their factors, and who advises what of a pre-soak."""

from __future__ import annotations

import math

import pytest

from wetside.development import (
    ContinuousCut,
    PresoakAdvice,
    agitation_factor,
    choose_cut,
    makers_against_presoak,
    presoak_cancels_cut,
)
from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.conditions import Agitation
from wetside.values.evidence import Evidence, Source

TANK, DRUM, TRAY, STAND = Agitation.INTERMITTENT, Agitation.ROTARY, Agitation.TRAY, Agitation.STAND
CUT = ContinuousCut("Tolland", DRUM, 0.9, 0.02, Source("sheet", "p. 3"))


def test_a_maker_s_cut_is_published() -> None:
    """Applied as it is printed, the cut keeps its source and its own spread."""
    factor = agitation_factor(TANK, DRUM, presoak_to=False, cut=CUT)
    assert (factor.value, factor.evidence, factor.source) == (0.9, Evidence.PUBLISHED, CUT.source)
    assert factor.spread == pytest.approx(0.02)


def test_without_a_maker_it_is_common_practice() -> None:
    """Nobody says it, so it is assumed: 0.85, give or take 0.05."""
    for to_class in (DRUM, TRAY):
        factor = agitation_factor(TANK, to_class)
        assert (factor.value, factor.evidence, factor.source) == (0.85, Evidence.ASSUMED, None)
        assert factor.spread == pytest.approx(0.05)


def test_turned_round_it_is_converted() -> None:
    """A drum's time made into a tank's is longer by the same factor, and no longer what the sheet says."""
    factor = agitation_factor(DRUM, TANK, presoak_from=False, cut=CUT)
    assert factor.value == pytest.approx(1 / 0.9)
    assert factor.evidence is Evidence.CONVERTED


def test_a_presoak_cancels_the_cut_and_that_is_assumed() -> None:
    """With five minutes of water before, the tank's time stands, whatever the maker's cut."""
    factor = agitation_factor(TANK, DRUM, presoak_to=True, cut=CUT)
    assert (factor.value, factor.evidence, factor.source) == (1.0, Evidence.ASSUMED, None)
    assert factor.spread > 0


def test_a_changed_presoak_in_the_drum_counts() -> None:
    """A drum's time without pre-soak is longer with one; where it is not known nothing is moved."""
    assert agitation_factor(DRUM, DRUM, presoak_from=False, presoak_to=True).value == pytest.approx(1 / 0.85)
    assert agitation_factor(DRUM, DRUM, presoak_from=None, presoak_to=True).value == 1.0


@pytest.mark.parametrize("kind", list(Agitation))
def test_the_same_class_changes_nothing(kind: Agitation) -> None:
    """Nothing is moved, so nothing is uncertain and no evidence is weakened."""
    factor = agitation_factor(kind, kind)
    assert (factor.value, factor.spread, factor.evidence) == (1.0, 0.0, Evidence.TESTED)


@pytest.mark.parametrize("other", [TANK, DRUM, TRAY])
def test_stand_is_not_converted(other: Agitation) -> None:
    """Neither to another class nor from one."""
    for classes in ((STAND, other), (other, STAND)):
        with pytest.raises(RefusedError, match="stand"):
            agitation_factor(*classes)


def test_the_cut_of_the_same_sheet_comes_first() -> None:
    """Then the maker's, then none."""
    other = CUT._replace(factor=0.8, source=Source("other"))
    cuts = (CUT, other)
    assert choose_cut(cuts, DRUM, source_key="other") is other
    assert choose_cut(cuts, DRUM, source_key="third", maker="tolland") is CUT
    assert choose_cut(cuts, DRUM, source_key="third") is None
    assert choose_cut(cuts, TRAY, maker="Tolland") is None


def test_makers_against_a_presoak_are_named_once() -> None:
    """One line a maker, and only of those who advise against it."""
    advice = [
        PresoakAdvice("Tolland", False, None, Source("a")),
        PresoakAdvice("Tolland", False, None, Source("b")),
        PresoakAdvice("Morvane", True, 60.0, Source("c")),
    ]
    assert [entry.source.key for entry in makers_against_presoak(advice)] == ["a"]


def test_impossible_values() -> None:
    """A pre-soak of less than nothing and a cut to nothing are refused."""
    with pytest.raises(OutOfRangeError):
        presoak_cancels_cut(-1.0)
    for factor in (0.0, math.nan):
        with pytest.raises(OutOfRangeError):
            agitation_factor(TANK, DRUM, cut=CUT._replace(factor=factor))
