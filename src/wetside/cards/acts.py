"""The acts of a load, folded into the lines that hands follow: one act a line, with what belongs to it beside it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.names import capital, clean, label, short
from wetside.chemistry.tempering import WITHIN_C
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wetside.planning.documents.plan import Act, Load

KEPT_DRAINS = frozenset({"presoak", "develop", "stop", "fix"})
"""Baths whose drain has a line of its own; a wash after development is drained when the next fill stands ready."""

CARRIED = frozenset({"tray", "hangers"})
"""Vessels whose sheets are carried from bath to bath, so that nothing is poured or drained between them."""

_PARTS_SHOWN = 6
_BY_HAND = frozenset({"agitate", "inspect"})


class ActRow(NamedTuple):
    """One line: when on the clock that starts with development, what to do, with what.

    ``keys`` are the plan's acts that the line stands for; ``sheet`` is set where it moves one sheet; ``waits`` is False
    on the lines between developer and stop, where nothing may wait.
    """

    keys: tuple[str, ...]
    time: str
    act: str
    detail: str
    waits: bool
    sheet: str | None = None
    clock_s: float | None = None


def bath_names(load: Load) -> dict[str, str]:
    """Name of the bath of every pouring act, numbered where several have the same one.

    Returns
    -------
    bath_names : dict of str to str
        Key of the act to the name, such as ``"Wash 2"``.
    """
    first_acts = [act for act in load.schedule if act.does in ("pour", "move")]
    plain = [clean(act.bath) or sentence(f"cards.bath.{act.kind}", {}) for act in first_acts]
    names: dict[str, str] = {}
    for index, (act, name) in enumerate(zip(first_acts, plain, strict=True)):
        number = plain[: index + 1].count(name)
        shown_name = short(name, 40)
        names[act.key] = f"{shown_name} {number}" if plain.count(name) > 1 else shown_name
    return names


def thermometer_name(load: Load) -> str:
    """What the thermometer is called: its own name, where it was given one."""
    name = short(load.thermometer, 30)
    if name in ("", "thermometer"):
        return sentence("cards.thermometer.yours", {})
    return sentence("cards.thermometer.named", {"name": name})


def rows_of_load(load: Load, places: Sequence[tuple[str, str]], clips: tuple[int, int]) -> tuple[ActRow, ...]:
    """Lines of a load's run sheet, from tempering to hanging.

    Parameters
    ----------
    load : Load
    places : sequence of (str, str)
        Name of each sheet's place in the vessel and the sheet's id, in order.
    clips : (int, int)
        First and last number of the clips that the sheets will hang on.
    """
    names = bath_names(load)
    place_of = {sheet: place for place, sheet in places}
    last_develop = max((i for i, act in enumerate(load.schedule) if act.kind == "develop"), default=-1)
    in_development = False
    rows = [_tempering(load)]
    bath = ""
    for index, act in enumerate(load.schedule):
        if act.does in ("pour", "move"):
            bath = names[act.key]
        ends = index > last_develop and in_development and act.does in ("pour", "move")
        in_development = in_development or act.kind == "develop"
        inside = in_development and index <= last_develop
        made = _rows_of_act(load, index, act, bath, place_of, names, clips)
        rows.extend(row._replace(waits=not (inside or ends)) for row in made)
        if ends:
            in_development = False
            last_develop = -1
    return tuple(rows)


def _tempering(load: Load) -> ActRow:
    params = {
        "vessel": short(load.vessel, 30),
        "temp_c": load.temp_c,
        "shown_c": load.shown_temp_c,
        "thermometer": thermometer_name(load),
        "within_c": WITHIN_C,
    }
    differs = abs(load.shown_temp_c - load.temp_c) >= 0.05
    code = "cards.act.temper_detail_shown" if differs else "cards.act.temper_detail"
    return ActRow(("temper",), "", sentence("cards.act.temper", {}), sentence(code, params), waits=True)


def _rows_of_act(
    load: Load, index: int, act: Act, bath: str, place_of: dict[str, str], names: dict[str, str], clips: tuple[int, int]
) -> Iterator[ActRow]:
    if act.does in ("pour", "move"):
        yield _poured(load, index, act, bath)
    elif act.does == "full":
        return
    elif act.does == "drain":
        if (act.kind in KEPT_DRAINS or _between(load, index)) and load.vessel_kind not in CARRIED:
            yield ActRow(
                (act.key,),
                shown(act.clock_s, "mss"),
                sentence("cards.act.drain", {}),
                _drained(act),
                waits=True,
                clock_s=act.clock_s,
            )
    elif act.does in ("enter", "lift") and act.sheet is not None:
        coming = next((one.key for one in load.schedule[index + 1 :] if one.key in names), None)
        params = {
            "sheet": label(act.sheet),
            "place": place_of.get(act.sheet, ""),
            "time_s": act.duration_s,
            "bath": names[coming] if coming else "",
        }
        yield ActRow(
            (act.key,),
            shown(act.clock_s, "mss"),
            sentence(f"cards.act.{act.does}", params),
            sentence(f"cards.act.{act.does}_detail", params),
            waits=True,
            sheet=act.sheet,
            clock_s=act.clock_s,
        )
    elif act.does == "hang":
        code = "cards.act.hang_one" if clips[0] == clips[1] else "cards.act.hang_many"
        yield ActRow(
            (act.key,),
            "",
            sentence("cards.act.hang", {}),
            sentence(code, {"first": clips[0], "last": clips[1]}),
            waits=True,
            clock_s=act.clock_s,
        )
    elif act.does in _BY_HAND:
        yield ActRow(
            (act.key,),
            shown(act.clock_s, "mss"),
            sentence(f"cards.act.{act.does}", {}),
            sentence(f"cards.act.{act.does}_detail", {"time_s": act.duration_s or 0.0}),
            waits=True,
            clock_s=act.clock_s,
        )
    else:
        yield ActRow(
            (act.key,), shown(act.clock_s, "mss"), capital(clean(act.does)), bath, waits=True, clock_s=act.clock_s
        )


def _between(load: Load, index: int) -> bool:
    """Whether an act lies between two developing baths, where every drain is a matter of seconds."""
    return any(one.kind == "develop" for one in load.schedule[:index]) and any(
        one.kind == "develop" for one in load.schedule[index:]
    )


def _poured(load: Load, index: int, act: Act, bath: str) -> ActRow:
    """A pour, with the moment of full folded in: the line's time is where the clock of a developing bath starts."""
    full = next((one for one in load.schedule[index + 1 : index + 2] if one.does == "full"), None)
    entering = any(one.does == "enter" for one in load.schedule[index + 1 : index + 2])
    keys: tuple[str, ...] = (act.key,)
    at_s = act.clock_s
    parts = [clean(act.bottle)] if act.bottle else []
    filled = not act.out_of_vessel and load.vessel_kind not in CARRIED
    if act.volume_ml is not None and (filled or entering):
        parts.append(_volume(load, act))
    if act.kind == "develop":
        if full is not None:
            keys = (act.key, full.key)
            at_full = load.clock.startswith("full")
            at_s = full.clock_s if at_full else act.clock_s
            code = "cards.act.clock_full" if at_full else "cards.act.clock_drop"
            parts.append(sentence(code, {"pour_s": max(0.0, full.clock_s - act.clock_s)}))
    elif act.duration_s:
        parts.append(shown(act.duration_s, "mss"))
    if act.out_of_vessel:
        parts.append(sentence("cards.act.out_of_vessel", {"vessel": load.vessel_kind}))
    if act.temp_c is not None and abs(act.temp_c - load.temp_c) >= 0.05:
        parts.append(shown(act.temp_c, "temp"))
    if entering:
        code = "cards.act.ready"
    elif index and load.schedule[index - 1].does == "lift":
        code = "cards.act.all_in"
    elif act.out_of_vessel:
        code = "cards.act.out"
    elif act.does == "move" or load.vessel_kind in CARRIED:
        code = "cards.act.move"
    else:
        code = "cards.act.pour"
    return ActRow(
        keys,
        shown(at_s, "mss"),
        capital(sentence(code, {"bath": bath})),
        " · ".join(part for part in parts if part),
        waits=True,
        clock_s=at_s,
    )


def _volume(load: Load, act: Act) -> str:
    volume = shown(act.volume_ml or 0.0, "ml")
    if act.kind != "develop" or not act.water_ml:
        return volume
    parts = load.parts_ml if len(load.parts_ml) <= _PARTS_SHOWN else (load.concentrate_ml,)
    return sentence(
        "cards.act.mixed",
        {
            "volume": volume,
            "parts": " + ".join(shown(part, "bare_ml") for part in parts),
            "water": shown(act.water_ml, "bare_ml"),
        },
    )


def _drained(act: Act) -> str:
    if act.after == "back" and act.bottle:
        return sentence("cards.act.drain_back", {"bottle": clean(act.bottle)})
    if act.kind == "develop" and act.after == "waste":
        return sentence("cards.act.drain_developer", {})
    if act.kind == "fix" and act.after == "waste":
        return sentence("cards.act.drain_fixer", {})
    return ""


def hand_moment_s(drain_s: float) -> float:
    """Moment at which the next bottle should be in the hand: 30 to 40 s before the drain, on a full 10 s. [s]

    Examples
    --------
    >>> hand_moment_s(305.0)
    270.0
    """
    return math.floor((drain_s - 30.0) / 10.0) * 10.0
