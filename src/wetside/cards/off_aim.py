"""How far a time is off a sheet's aim, as a printer can use it: density, paper grade and zones, then percent."""

from __future__ import annotations

from typing import NamedTuple

from wetside.wording import sentence, shown

EVEN_DENSITY = 0.005
"""Differences below the last digit that is shown. [density]"""

NORMAL_RANGE = 1.05
"""Density range that the middle paper grade wants, where nothing else is said. [density]"""


class OffAim(NamedTuple):
    """Four ways to say it; ``guessed`` where no tested family stands behind the density."""

    density: str
    grade: str
    zones: str
    time: str
    guessed: bool
    grade_said: str = ""


def off_aim(
    density: float | None, density_guess: float | None, percent: float, aim_range: float = NORMAL_RANGE
) -> OffAim:
    """Say a deviation.

    Parameters
    ----------
    density : float or None
        Predicted density range less the aim, by a tested family. [density]
    density_guess : float or None
        The same by the common elasticity of contrast, where there is no family. [density]
    percent : float
        Difference of time, signed. [%]
    aim_range : float
        Density range that was aimed at, on which the zones depend. [density]

    Examples
    --------
    >>> off_aim(-0.04, None, -6.0)[:2]
    ('−0.04', '¼ softer')
    """
    from wetside.sensitometry.aims import grade_change, zones_of_range_change

    told = density if density is not None else density_guess
    if told is None:
        return OffAim("", "", "", shown(percent, "whole_percent"), guessed=True)
    even = abs(told) < EVEN_DENSITY
    grades = 0.0 if even else grade_change(told)
    return OffAim(
        shown(told, "signed"),
        "" if even else _grade(grades, said=False),
        "" if even or told <= -aim_range else shown(zones_of_range_change(aim_range + told, aim_range), "stops"),
        shown(percent, "whole_percent"),
        density is None,
        "" if shown(grades, "mixed") == "0" else _grade(grades, said=True),
    )


def _grade(grades: float, *, said: bool) -> str:
    size = shown(abs(grades), "mixed")
    if size == "0":
        return sentence("cards.off.under", {})
    way = "softer" if grades < 0 else "harder"
    if not said:
        return sentence(f"cards.off.grade_{way}", {"grades": size})
    return sentence(f"cards.off.said_{way}{'_many' if _is_many(size) else ''}", {"grades": size})


def _is_many(amount: str) -> bool:
    """Whether it is more than one: ``-2`` and ``1⅔`` are, ``+1`` and ``¾`` are not."""
    size = amount.lstrip("+-\N{MINUS SIGN}")
    return size[:1].isdecimal() and size not in ("1", "0")


def said_off_aim(off: OffAim) -> str:
    """Say the whole on one line, density first and time last: ``−0.04 density, ¼ grade softer, −6 % of time``."""
    parts = []
    if off.density:
        parts.append(
            sentence("cards.off.density_about" if off.guessed else "cards.off.density", {"density": off.density})
        )
    if off.grade_said:
        parts.append(off.grade_said)
    if off.zones and off.zones != "0":
        parts.append(sentence("cards.off.zone_many" if _is_many(off.zones) else "cards.off.zone", {"zones": off.zones}))
    parts.append(sentence("cards.off.time", {"percent": off.time}))
    return ", ".join(parts)
