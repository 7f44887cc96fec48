"""Hazard classes of a mixture from those of its substances and their concentrations, as the European Union sets them.

A reckoning for teaching and for labels of one's own bottles. It never replaces the product's own safety sheet: that one
knows the whole recipe. What the rules at hand do not settle is named as not settled, never as harmless.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_not_negative, check_positive
from wetside.errors import OutOfRangeError
from wetside.values.names import name_key

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wetside.chemistry.fixer import Notes
    from wetside.values.evidence import Source

_EDGE = 1e-9
_WHOLE = 100.0
_NOTICES = {"EUH208": "may_cause_allergy", "EUH031": "gas_with_acid"}


class SpecificLimit(NamedTuple):
    """From which concentration a substance of its own brings a class. [%]"""

    result: str
    low_percent: float


class HazardousSubstance(NamedTuple):
    """A substance with its harmonised classes; ``listed`` is False where the European table has no entry for it.

    ``h_codes`` are those of its own label, ``euh`` supplementary codes; an asterisk behind a class marks a least one;
    ``m_factor`` multiplies it among what harms water; substances of one ``group`` are added up for the classes that
    otherwise go by single substances.
    """

    name: str
    aliases: tuple[str, ...]
    cas: str
    classes: tuple[str, ...]
    h_codes: tuple[str, ...]
    euh: tuple[str, ...]
    limits: tuple[SpecificLimit, ...]
    m_factor: float
    group: str
    listed: bool
    source: Source


class GenericLimit(NamedTuple):
    """From which concentration an ingredient of a class gives the mixture a class. [%]"""

    ingredient: str
    result: str
    low_percent: float
    source: Source


class HazardTable(NamedTuple):
    """Substances, generic limits, the code that each class is labelled with, and the word of our own sentence on it."""

    substances: tuple[HazardousSubstance, ...]
    generic: tuple[GenericLimit, ...]
    codes: Mapping[str, str]
    words: Mapping[str, str]


class MixtureHazards(NamedTuple):
    """What is known of a mixture.

    ``classes`` with their ``h_codes``; ``notices`` are supplementary codes with the substance that brings each;
    ``not_reckoned`` are classes of ingredients that the limits at hand do not settle; ``unlisted`` and ``unknown``
    ingredients have no entry. ``notes`` are codes to be said, the safety sheet always first.
    """

    classes: tuple[str, ...]
    h_codes: tuple[str, ...]
    notices: tuple[tuple[str, str], ...]
    not_reckoned: tuple[tuple[str, str], ...]
    unlisted: tuple[str, ...]
    unknown: tuple[str, ...]
    notes: Notes


class _Part(NamedTuple):
    substance: HazardousSubstance
    percent: float


def find_substance(name: str, table: HazardTable) -> HazardousSubstance | None:
    """Substance of a name, another name or a registry number; None where the table does not know it.

    Parameters
    ----------
    name : str
        Compared without case, blanks and hyphens.
    table : HazardTable
        From the shipped data.

    Examples
    --------
    >>> find_substance("acetic acid", HazardTable((), (), {}, {})) is None
    True
    """
    key = name_key(name)
    for substance in table.substances:
        if (substance.cas and name.strip() == substance.cas) or key in map(
            name_key, (substance.name, *substance.aliases)
        ):
            return substance
    return None


def percent_of_grams(grams: float, volume_ml: float, gravity: float = 1.0) -> float:
    """Concentration of a salt in a bath, by mass. [%]

    Parameters
    ----------
    grams : float
        Salt. [g]
    volume_ml : float
        Finished bath. [ml]
    gravity : float
        Its specific gravity; with 1, per cent by volume of solution, which is the more cautious. [1]

    Raises
    ------
    OutOfRangeError
        If the mass is negative or another value not positive.

    Examples
    --------
    >>> percent_of_grams(5.0, 1000.0)
    0.5
    """
    check_not_negative("grams", grams)
    check_positive("volume_ml", volume_ml)
    check_positive("gravity", gravity)
    return grams / (volume_ml * gravity) * 100.0


def mixture_hazards(percents: Mapping[str, float], table: HazardTable) -> MixtureHazards:
    """Hazard classes of a mixture.

    Parameters
    ----------
    percents : mapping of str to float
        Concentration of each ingredient by its name; what is missing from 100 is water. [%]
    table : HazardTable
        From the shipped data.

    Raises
    ------
    OutOfRangeError
        If a concentration is negative or they exceed 100 together.

    Notes
    -----
    A substance's specific limits stand before the generic ones. Skin and eyes: the concentrations add up, each beside
    its own limit. Allergy, cancer, germ cells, reproduction, organs: each substance by itself, groups together. Water
    life: acute class 1 by the sum with M factors. Acute poisoning, chronic harm to water, fire and irritation of the
    airways are named and not reckoned.

    References
    ----------
    .. [1] clp-annex-i-2026, tables 1.1 to 4.1.1; clp-annex-vi-2020, specific limits.

    Examples
    --------
    >>> mixture_hazards({"my own powder": 1.0}, HazardTable((), (), {}, {})).unknown
    ('my own powder',)
    """
    parts, unlisted, unknown = _sorted_out(percents, table)
    classes: list[str] = []
    pure = len(parts) == len(percents) == 1 and parts[0].percent >= _WHOLE - _EDGE
    if pure:
        classes += [name.rstrip("* ") for name in parts[0].substance.classes]
        rest: list[tuple[str, str]] = []
    else:
        classes += _skin_and_eyes(parts, table)
        classes += _single(parts, table)
        classes += _aquatic(parts, table)
        rest = _not_reckoned(parts, table)
    classes = list(dict.fromkeys(classes))
    notices = _notices(parts, table, classes)
    codes = parts[0].substance.h_codes if pure else _codes(classes, table)
    notes: list[tuple[str, dict[str, object]]] = [("chemistry.hazard.sheet_first", {})]
    words = dict.fromkeys(table.words[name] for name in classes if name in table.words)
    notes += [(f"chemistry.hazard.{word}", {}) for word in words]
    notes += [(f"chemistry.hazard.{_NOTICES[code]}", {"name": name}) for code, name in notices if code in _NOTICES]
    if unknown:
        notes.append(("chemistry.hazard.unknown", {"names": list(unknown)}))
    if unlisted:
        notes.append(("chemistry.hazard.unlisted", {"names": list(unlisted)}))
    if rest:
        notes.append(("chemistry.hazard.not_reckoned", {"classes": [f"{name} ({kind})" for name, kind in rest]}))
    if parts and not classes and not unknown:
        notes.append(("chemistry.hazard.below_limits", {}))
    return MixtureHazards(tuple(classes), codes, notices, tuple(rest), unlisted, unknown, tuple(notes))


def _codes(classes: Iterable[str], table: HazardTable) -> tuple[str, ...]:
    return tuple(dict.fromkeys(code for name in classes if (code := table.codes.get(name))))


def _sorted_out(
    percents: Mapping[str, float], table: HazardTable
) -> tuple[list[_Part], tuple[str, ...], tuple[str, ...]]:
    total = 0.0
    parts: list[_Part] = []
    unlisted: list[str] = []
    unknown: list[str] = []
    for name, percent in percents.items():
        if not 0.0 <= percent <= _WHOLE + _EDGE:
            raise OutOfRangeError("chemistry.hazard.percent", name=name, value=percent)
        total += percent
        if percent == 0:
            continue
        substance = find_substance(name, table)
        if substance is None:
            unknown.append(name)
        elif not substance.listed:
            unlisted.append(substance.name)
        else:
            parts.append(_Part(substance, percent))
    if total > _WHOLE + 1e-6:
        raise OutOfRangeError("chemistry.hazard.over_hundred", value=total)
    return parts, tuple(unlisted), tuple(unknown)


def _reaches(value: float, limit: float) -> bool:
    return value >= limit * (1.0 - _EDGE)


def _generic(table: HazardTable, ingredient: str, result: str) -> float:
    """Generic limit of a class; infinite where the table has none. [%]"""
    found = (row.low_percent for row in table.generic if (row.ingredient, row.result) == (ingredient, result))
    return next(found, math.inf)


def _own(substance: HazardousSubstance, beginning: str) -> float:
    """Lowest specific limit of a substance for classes that begin so; infinite without one. [%]"""
    lows = [limit.low_percent for limit in substance.limits if limit.result.startswith(beginning)]
    return min(lows, default=math.inf)


class _SkinEye(NamedTuple):
    """Concentrations from which a substance alone brings each class. [%]"""

    corrosive_1a: float = math.inf
    corrosive: float = math.inf
    irritant: float = math.inf
    eye_damage: float = math.inf
    eye_irritant: float = math.inf


def _skin_eye_limits(substance: HazardousSubstance, table: HazardTable) -> _SkinEye:
    corrosive = next((name for name in substance.classes if name.startswith("Skin Corr.")), None)
    if corrosive is not None and _own(substance, "Skin Corr.") < math.inf:
        burns = _own(substance, "Skin Corr.")
        return _SkinEye(
            _own(substance, "Skin Corr. 1A"),
            burns,
            _own(substance, "Skin Irrit."),
            burns,
            _own(substance, "Eye Irrit."),
        )
    if corrosive is not None:
        burns = _generic(table, "Skin Corr. 1", "Skin Corr. 1")
        return _SkinEye(
            burns if corrosive.endswith("1A") else math.inf,
            burns,
            _generic(table, "Skin Corr. 1", "Skin Irrit. 2"),
            _generic(table, "Eye Dam. 1", "Eye Dam. 1"),
            _generic(table, "Eye Dam. 1", "Eye Irrit. 2"),
        )
    if "Eye Dam. 1" in substance.classes:
        return _SkinEye(
            eye_damage=_generic(table, "Eye Dam. 1", "Eye Dam. 1"),
            eye_irritant=_generic(table, "Eye Dam. 1", "Eye Irrit. 2"),
        )
    if "Eye Irrit. 2" in substance.classes:
        return _SkinEye(eye_irritant=_generic(table, "Eye Irrit. 2", "Eye Irrit. 2"))
    return _SkinEye()


def _skin_and_eyes(parts: Iterable[_Part], table: HazardTable) -> list[str]:
    """Classes for skin and eyes: each concentration beside its own limit, added up. Burned skin stands for eyes too."""
    sums = [0.0] * len(_SkinEye())
    for part in parts:
        for place, limit in enumerate(_skin_eye_limits(part.substance, table)):
            sums[place] += part.percent / limit
    corrosive_1a, corrosive, irritant, eye_damage, eye_irritant = (_reaches(value, 1.0) for value in sums)
    if corrosive:
        return ["Skin Corr. 1A" if corrosive_1a else "Skin Corr. 1B"]
    found = ["Skin Irrit. 2"] if irritant else []
    if eye_damage:
        found.append("Eye Dam. 1")
    elif eye_irritant:
        found.append("Eye Irrit. 2")
    return found


_BY_ITSELF = ("Carc.", "Muta.", "Repr.", "Skin Sens.", "STOT RE")
"""Beginnings of the classes that go by single substances."""


def _family(name: str) -> str:
    """Class as the generic limits name it: 1A and 1B share theirs."""
    return name.rstrip("* ").rstrip("AB") if not name.startswith("Skin Sens.") else name


def _single(parts: Iterable[_Part], table: HazardTable) -> list[str]:
    """Classes that each substance, or group of substances, brings by itself."""
    sums: dict[tuple[str, str], float] = {}
    for part in parts:
        for name in part.substance.classes:
            if name.startswith(_BY_ITSELF):
                who = part.substance.group or part.substance.name
                sums[who, name] = sums.get((who, name), 0.0) + part.percent
    return [
        name.rstrip("* ")
        for (_, name), percent in sums.items()
        if _reaches(percent, _generic(table, _family(name), _family(name)))
    ]


def _aquatic(parts: Iterable[_Part], table: HazardTable) -> list[str]:
    weighted = sum(
        part.percent * part.substance.m_factor for part in parts if "Aquatic Acute 1" in part.substance.classes
    )
    reached = weighted > 0 and _reaches(weighted, _generic(table, "Aquatic Acute 1", "Aquatic Acute 1"))
    return ["Aquatic Acute 1"] if reached else []


def _notices(parts: Iterable[_Part], table: HazardTable, classes: list[str]) -> tuple[tuple[str, str], ...]:
    """Supplementary codes: gas with acids, and the name of what can cause an allergy."""
    found: list[tuple[str, str]] = []
    told_from = _generic(table, "Skin Sens. 1", "EUH208")
    for part in parts:
        sensitiser = "Skin Sens. 1" in part.substance.classes
        if sensitiser and "Skin Sens. 1" not in classes and _reaches(part.percent, told_from):
            found.append(("EUH208", part.substance.name))
        for code in part.substance.euh:
            own = _own(part.substance, code)
            if own == math.inf or _reaches(part.percent, own):
                found.append((code, part.substance.name))
    return tuple(found)


_RECKONED = (*_BY_ITSELF, "Skin Corr.", "Eye", "Aquatic Acute")


def _not_reckoned(parts: Iterable[_Part], table: HazardTable) -> list[tuple[str, str]]:
    """Classes of ingredients that these limits do not settle; acute poisons only from where they are considered."""
    found = []
    for part in parts:
        for name in dict.fromkeys(part.substance.classes):
            if name.startswith(_RECKONED):
                continue
            plain = name.rstrip("* ")
            from_percent = _generic(table, plain, "considered") if plain.startswith("Acute Tox.") else 0.0
            if _reaches(part.percent, from_percent):
                found.append((part.substance.name, plain))
    return found
