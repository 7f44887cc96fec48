"""Sentences of other packages, and single words that paper and screen need beside a card's own texts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cards.names import clean
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.values.evidence import Evidence


def clean_sentence(code: str, params: Mapping[str, Any]) -> str:
    """Say a code of another package, whose parameters may hold what a person typed, on one clean line."""
    return clean(sentence(code, params))


def evidence_word(kind: Evidence) -> str:
    """Word that stands beside an evidence mark."""
    return sentence(f"cards.evidence.{kind}", {})


def chosen_word() -> str:
    """Word for the chosen line of a table, for those who do not see its mark."""
    return sentence("cards.plan.chosen", {})


def why_heading() -> str:
    """Heading over the reckonings of a plan's page."""
    return sentence("cards.plan.why", {})
