"""The cautions that an evening calls for, by what its baths do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.chemistry.cautions import OCCASIONS, cautions_of
from wetside.planning.documents.plan import Note
from wetside.planning.resolved import baths_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.planning.groups import Group


def evening_cautions(groups: Iterable[Group]) -> tuple[Note, ...]:
    """Cautions for mixing, for each kind of bath, for waste and for electricity near water, each once."""
    kinds = [bath.does.value for group in groups for bath in baths_of(group.process)]
    occasions = ["mix", *dict.fromkeys(kind for kind in kinds if kind in OCCASIONS), "waste", "electricity"]
    return tuple(Note(code) for code in cautions_of(occasions)) if kinds else ()
