"""What must not come together: the evening's own bench decides, and the safety page says it."""

from __future__ import annotations

import pytest

from wetside.cards.safety_card import safety_card
from wetside.planning.documents.evening import Bottle
from wetside.wording import sentence

KEY = "chemistry.combination."


def keys(plan):
    return {note.code.removeprefix(KEY) for note in plan.cautions if note.code.startswith(KEY)}


def with_bottle(evening, changed, holds):
    return changed(evening, "bottles", (*evening.bottles, Bottle("X", holds)))


def test_stop_and_fixer_are_told_of_each_other(evening, plan_of):
    """An acid stop and a fixer stand on nearly every bench."""
    assert {"acid_thiosulfate", "fixer_developer"} <= keys(plan_of(evening))


@pytest.mark.parametrize(
    ("holds", "told"),
    [
        ("household bleach", {"bleach_acid", "bleach_fixer"}),
        ("sodium sulfide", {"sulfide_acid"}),
        ("selenium toner", {"selenium_acid"}),
        ("wash aid", {"acid_sulfite"}),
    ],
)
def test_a_bottle_on_the_shelf_counts(evening, plan_of, changed, holds, told):
    """What merely stands there can be poured by mistake: each row is told once, and on the safety page."""
    plain = keys(plan_of(evening))
    plan = plan_of(with_bottle(evening, changed, holds))
    assert told <= keys(plan) - plain
    codes = [note.code for note in plan.cautions]
    assert len(codes) == len(set(codes))
    page = [item for block in safety_card(plan).blocks for item in block.items]
    assert all(sentence(f"{KEY}{key}", {}) in page for key in told)


def test_a_harmless_bottle_adds_nothing(evening, plan_of, changed):
    """What no row knows is not called dangerous."""
    assert keys(plan_of(with_bottle(evening, changed, "distilled water"))) == keys(plan_of(evening))
