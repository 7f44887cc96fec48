"""What differs between two versions of a process, in the words of its keys."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.evening_writer import plain_word
from wetside.planning.documents.keys import declared_keys

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.planning.documents.evening import Bath, Process

NOT_COMPARED = ("name", "version", "baths")


class Difference(NamedTuple):
    """One difference, as a code with parameters."""

    code: str
    params: Mapping[str, Any]


def differences(before: Process, after: Process) -> tuple[Difference, ...]:
    """Differences between two versions; a change of the name alone is none.

    Parameters
    ----------
    before, after : Process

    Returns
    -------
    differences : tuple of Difference
        Keys of the process first, then baths that came, went, moved or changed.
    """
    return (*_of_keys(before, after), *_of_baths(before.baths, after.baths))


def _of_keys(before: Process, after: Process) -> list[Difference]:
    found = []
    for name, old, new in _changed(before, after, NOT_COMPARED):
        key = name.replace("_", " ").capitalize()
        if old is None:
            found.append(Difference("services.process.key_set", {"key": key, "after": new}))
        elif new is None:
            found.append(Difference("services.process.key_gone", {"key": key, "before": old}))
        else:
            found.append(Difference("services.process.key_changed", {"key": key, "before": old, "after": new}))
    return found


def _changed(before: Any, after: Any, left_out: tuple[str, ...] = ()) -> list[tuple[str, Any, Any]]:
    found: list[tuple[str, Any, Any]] = []
    kind: type = type(after)
    for key in declared_keys(kind).values():
        old, new = getattr(before, key.attribute), getattr(after, key.attribute)
        if key.name in left_out or old == new:
            continue
        told = [None if value is None else _shown(key, value) for value in (old, new)]
        found.append((key.name, told[0], told[1]))
    return found


def _shown(key: Any, value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    plain = plain_word(key, value)
    return f"{plain:g}" if isinstance(plain, float) else str(plain).replace("-", " ") if key.choices else str(plain)


def _of_baths(before: tuple[Bath, ...], after: tuple[Bath, ...]) -> list[Difference]:
    """Baths are paired by what they do and are called, in their order; what is left is gone or new."""
    pairs = _pairs(before, after)
    found = [
        Difference("services.process.bath_removed", {"place": place + 1, "bath": bath_title(bath)})
        for place, bath in enumerate(before)
        if place not in pairs.values()
    ]
    found += [
        Difference("services.process.bath_added", {"place": place + 1, "bath": bath_title(bath)})
        for place, bath in enumerate(after)
        if place not in pairs
    ]
    stayed = _in_order([pairs[place] for place in sorted(pairs)])
    for place in sorted(pairs):
        old_place = pairs[place]
        title = bath_title(after[place])
        if old_place not in stayed:
            found.append(
                Difference("services.process.bath_moved", {"bath": title, "place": place + 1, "before": old_place + 1})
            )
        found += [
            Difference(
                "services.process.bath_key",
                {
                    "place": place + 1,
                    "bath": title,
                    "key": name.replace("_", " "),
                    "before": "nothing" if old is None else old,
                    "after": "nothing" if new is None else new,
                },
            )
            for name, old, new in _changed(before[old_place], after[place])
        ]
    return found


def _pairs(before: tuple[Bath, ...], after: tuple[Bath, ...]) -> dict[int, int]:
    """Place after by place before: equal baths first, then those of one name, then those that do the same."""
    pairs: dict[int, int] = {}
    for alike in (
        lambda one, other: one == other,
        lambda one, other: (one.does, one.name) == (other.does, other.name),
        lambda one, other: one.does is other.does,
    ):
        for place, bath in enumerate(after):
            if place in pairs:
                continue
            for old_place, old in enumerate(before):
                if old_place not in pairs.values() and alike(old, bath):
                    pairs[place] = old_place
                    break
    return pairs


def _in_order(places: list[int]) -> set[int]:
    """Longest run of old places that still stand in their order: the others have moved."""
    runs: list[list[int]] = []
    longest: list[int] = []
    for rank, place in enumerate(places):
        run: list[int] = []
        for other in range(rank):
            if places[other] < place and len(runs[other]) > len(run):
                run = runs[other]
        runs.append([*run, place])
        if len(runs[-1]) > len(longest):
            longest = runs[-1]
    return set(longest)


def bath_title(bath: Bath) -> str:
    """What a bath is called: its own name, else what it does.

    Examples
    --------
    >>> from wetside.planning.documents.evening import Bath
    >>> from wetside.planning.documents.words import BathKind
    >>> bath_title(Bath(does=BathKind.WASH_AID))
    'Wash aid'
    """
    return bath.name or bath.does.value.replace("-", " ").capitalize()
