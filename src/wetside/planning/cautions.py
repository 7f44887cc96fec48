"""The cautions that an evening calls for, by what its baths do."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.chemistry.cautions import OCCASIONS, cautions_of
from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import BathKind
from wetside.planning.resolved import baths_of, stop_of
from wetside.values.conditions import StopKind

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wetside.chemistry import CombinationTable
    from wetside.planning.documents.evening import Bottle
    from wetside.planning.groups import Group

SUBSTANCE_OF_KIND = {
    BathKind.DEVELOP: "developer",
    BathKind.FIX: "fixer",
    BathKind.WASH_AID: "wash aid",
}
"""What a bath is when its name says no more; a stop bath only where its process calls it an acid one."""


def combination_notes(groups: Iterable[Group], bottles: Iterable[Bottle], table: CombinationTable) -> tuple[Note, ...]:
    """What must not come together of all that stands on tonight's bench, dangers first.

    Parameters
    ----------
    groups : iterable of Group
        Their baths count by kind and by name.
    bottles : iterable of Bottle
        What they hold counts too, used tonight or not.
    table : CombinationTable
    """
    from wetside.chemistry import wrong_among

    names: list[str] = []
    for group in groups:
        for bath in baths_of(group.process):
            if bath.does in SUBSTANCE_OF_KIND:
                names.append(SUBSTANCE_OF_KIND[bath.does])
            elif bath.does is BathKind.STOP and stop_of(group.process) is StopKind.ACID:
                names.append("acid stop")
            if bath.name:
                names.append(bath.name)
    names.extend(bottle.holds for bottle in bottles)
    return tuple(Note(f"chemistry.combination.{row.key}") for _, _, row in wrong_among(names, table))


def evening_cautions(groups: Iterable[Group]) -> tuple[Note, ...]:
    """Cautions for mixing, for each kind of bath, for waste and for electricity near water, each once."""
    kinds = [bath.does.value for group in groups for bath in baths_of(group.process)]
    occasions = ["mix", *dict.fromkeys(kind for kind in kinds if kind in OCCASIONS), "waste", "electricity"]
    return tuple(Note(code) for code in cautions_of(occasions)) if kinds else ()
