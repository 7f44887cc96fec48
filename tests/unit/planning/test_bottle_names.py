"""A bath finds its bottle by what people write on it."""

from __future__ import annotations

import pytest

from wetside.planning.documents.shelf import Bottle
from wetside.planning.resolved import bottle_of


@pytest.mark.parametrize(
    ("asked", "written"),
    [
        ("Brackwater", "Brackwater concentrate"),
        ("Brackwater", "brackwater  Stock"),
        ("fix", "Fixer"),
        ("stop", "Stop bath"),
        ("wetting", "Wetting agent"),
        ("wash-aid", "Wash aid"),
    ],
)
def test_a_word_more_on_the_label_does_not_hide_a_bottle(asked: str, written: str) -> None:
    """What the form's own example says is found."""
    bottle = Bottle(mark="D", holds=written)
    assert bottle_of([bottle], None, asked) is bottle


def test_the_very_name_goes_first_and_others_are_left_alone() -> None:
    """A concentrate is taken only where no bottle bears the name itself, another liquid or a used one never."""
    used, concentrate, own = (
        Bottle(mark=mark, holds=holds)
        for mark, holds in (("A", "Brackwater 1+14"), ("B", "Brackwater concentrate"), ("C", "Brackwater"))
    )
    assert bottle_of([used, concentrate, own], None, "Brackwater") is own
    assert bottle_of([used, concentrate], None, "Brackwater") is concentrate
    assert bottle_of([used], None, "Brackwater") is None
    assert bottle_of([concentrate], "X", "Brackwater") is None
