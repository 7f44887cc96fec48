"""Equal sheets taken together, and the sets of kinds that one filling of a vessel may draw from."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from wetside.planning.loads.model import Model


class Kind(NamedTuple):
    """Sheets with the same options; one that has twins is a kind of its own."""

    sheets: tuple[int, ...]
    apart: tuple[int, ...]
    """Kinds that may not share a load with this one."""


class Choice(NamedTuple):
    """A vessel and the kinds that share a time in it; ``most`` limits their number where hands do, else None."""

    vessel: int
    kinds: tuple[int, ...]
    most: int | None


def kinds_of(model: Model, *, twins: bool = True) -> list[Kind]:
    """Group the shared sheets into kinds, in the order of their first sheets.

    Parameters
    ----------
    model : Model
    twins : bool
        Whether a sheet with a twin is a kind of its own.

    Returns
    -------
    kinds_of : list of Kind
    """
    groups: dict[tuple[object, ...], list[int]] = {}
    for sheet in model.shared:
        key: tuple[object, ...] = tuple(
            (vessel, option.share, option.agent, id(option.table))
            for vessel, option in sorted(model.options[sheet].items())
        )
        if twins and model.apart is not None and model.apart[sheet]:
            key = (sheet, key)
        groups.setdefault(key, []).append(sheet)
    ordered = sorted(groups.values())
    place = {sheet: index for index, sheets in enumerate(ordered) for sheet in sheets}
    apart = model.apart if twins else None
    return [
        Kind(tuple(sheets), () if apart is None else tuple(sorted({place[other] for other in apart[sheets[0]]})))
        for sheets in ordered
    ]


def choices_of(model: Model, kinds: list[Kind], most_deviation: float) -> list[Choice]:
    """List the largest sets of kinds that can share a time within a deviation.

    Parameters
    ----------
    model : Model
        Reckoned up to the deviation.
    kinds : list of Kind
    most_deviation : float
        [1]

    Returns
    -------
    choices_of : list of Choice
        Every load within the deviation draws from one of them.

    Notes
    -----
    A load's time can be moved later until the first of its windows ends, so ends of windows are times enough; a set
    that lies inside another of the same vessel is left out.
    """
    choices: list[Choice] = []
    for vessel, limit in enumerate(model.vessels):
        inside = [index for index, kind in enumerate(kinds) if vessel in model.options[kind.sheets[0]]]
        if not inside:
            continue
        if limit.own_times:
            choices.extend(_by_hands(model, kinds, vessel, inside))
            continue
        spans = {index: _span(model, kinds, vessel, index, most_deviation) for index in inside}
        times = {last for _, last, _ in spans.values()} | {
            last // model.grid_s * model.grid_s for _, last, _ in spans.values()
        }
        sets: dict[int, int] = {}
        for time_s in sorted(times):
            mask = 0
            for index, (first, last, step) in spans.items():
                if first <= time_s <= last and time_s % step == 0:
                    mask |= 1 << index
            if mask:
                sets.setdefault(mask, time_s)
        masks = list(sets)
        largest = [mask for mask in masks if not any(mask != other and mask & other == mask for other in masks)]
        choices.extend(Choice(vessel, tuple(index for index in inside if mask >> index & 1), None) for mask in largest)
    return choices


def _span(model: Model, kinds: list[Kind], vessel: int, index: int, most_deviation: float) -> tuple[int, int, int]:
    table = model.options[kinds[index].sheets[0]][vessel].table
    return (*table.span(most_deviation), table.step)


def _by_hands(model: Model, kinds: list[Kind], vessel: int, inside: list[int]) -> list[Choice]:
    """For each number of sheets, those whose own time leaves hands time enough for as many."""
    limit = model.vessels[vessel]
    if limit.spacing_s <= 0:
        return [Choice(vessel, tuple(inside), None)]
    targets = {index: model.options[kinds[index].sheets[0]][vessel].table.target_s for index in inside}
    choices: list[Choice] = []
    for most in range(min(limit.places, len(model.shared)), 0, -1):
        able = tuple(index for index in inside if targets[index] >= most * limit.spacing_s)
        if able and not (choices and choices[-1].kinds == able):
            choices.append(Choice(vessel, able, most))
    return choices
