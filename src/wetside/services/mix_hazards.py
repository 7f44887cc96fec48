"""Hazards of a concentrate and of the bath that is mixed from it, by what the safety sheet says it holds."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.bath_data import load_hazard_table
from wetside.chemistry import mixture_hazards
from wetside.errors import InputError, Place, RefusedError, WetsideError
from wetside.units import parse_number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.chemistry import MixtureHazards
    from wetside.values.dilution import Dilution

OPTION = "--holds"


class MixHazards(NamedTuple):
    """What is known of the concentrate as it stands in its bottle, and of the bath."""

    concentrate: MixtureHazards
    bath: MixtureHazards


def hazards_of_mix(holds: Sequence[str], dilution: Dilution) -> MixHazards | None:
    """Hazards by concentration.

    Parameters
    ----------
    holds : sequence of str
        What the concentrate holds, each as ``name:percent``; nothing for no answer.
    dilution : Dilution
        Of one concentrate.

    Raises
    ------
    RefusedError
        If the dilution has several concentrates.
    WetsideError
        If an ingredient cannot be read, or they make more than 100 %.
    """
    if not holds:
        return None
    place = Place(field=OPTION)
    if len(dilution.agents) > 1:
        raise RefusedError("services.holds_one_part", place=place, dilution=dilution.text)
    percents: dict[str, float] = {}
    for text in holds:
        name, mark, percent = text.rpartition(":")
        if not mark or not name.strip():
            raise InputError("services.holds_form", place=place, value=text)
        try:
            percents[name.strip()] = parse_number(percent.strip().removesuffix("%").strip())
        except WetsideError as error:
            raise error.at(place) from None
    table = load_hazard_table()
    try:
        return MixHazards(
            mixture_hazards(percents, table),
            mixture_hazards({name: value * dilution.agent_fraction for name, value in percents.items()}, table),
        )
    except WetsideError as error:
        raise error.at(place) from None
