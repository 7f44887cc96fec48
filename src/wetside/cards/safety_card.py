"""The page to tick before the light goes out: way out, electricity near water, heat, air, baths, first aid, waste."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.blocks import Card, Listing
from wetside.cards.words import clean_sentence
from wetside.chemistry import cautions_of
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.planning.documents.plan import Plan

ALWAYS_BODY = (
    "chemistry.caution.safety_sheet",
    "chemistry.caution.gloves",
    "chemistry.caution.eyes",
    "chemistry.caution.air",
)
"""Told under hands, eyes and air whatever the baths are."""

SPLASH = "chemistry.caution.splash"


def safety_card(plan: Plan) -> Card:
    """Lay out what keeps people safe in the dark, with the cautions of this evening's baths.

    Parameters
    ----------
    plan : Plan
        Each of its cautions stands on the card once.

    Returns
    -------
    safety_card : Card
        Nothing on it replaces a product's safety sheet or the word of the local authority, or says that a rule permits
        something.
    """
    electricity, heat, waste = (cautions_of([occasion]) for occasion in ("electricity", "heat", "waste"))
    told = {*ALWAYS_BODY, SPLASH, *electricity, *heat, *waste}
    of_baths = [note for note in plan.cautions if note.code not in told]
    blocks = (
        _ticks("out", ("cards.safety.walk", "cards.safety.door", "cards.safety.someone", "cards.safety.light")),
        _ticks("electricity", (*electricity, "cards.safety.dry_hands")),
        _ticks("heat", heat),
        Listing(
            sentence("cards.safety.first_aid", {}),
            _said(("cards.safety.light_first", SPLASH, "cards.safety.follow_sheet", "cards.safety.numbers")),
            grave=True,
        ),
        _ticks("body", (*ALWAYS_BODY, "cards.safety.moving_air")),
        Listing(
            sentence("cards.safety.baths", {}),
            tuple(dict.fromkeys(clean_sentence(note.code, note.params) for note in of_baths)),
        ),
        Listing(sentence("cards.safety.waste", {}), _said(waste)),
    )
    return Card(
        sentence("cards.safety.title", {}),
        (sentence("cards.safety.subtitle", {}),),
        tuple(block for block in blocks if block.items),
    )


def _ticks(name: str, codes: Iterable[str]) -> Listing:
    return Listing(sentence(f"cards.safety.{name}", {}), _said(codes), ticks=True)


def _said(codes: Iterable[str]) -> tuple[str, ...]:
    return tuple(sentence(code, {}) for code in codes)
