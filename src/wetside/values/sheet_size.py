"""A sheet's format and area."""

from __future__ import annotations

from typing import NamedTuple

UNIT_AREA_CM2 = 516.128
"""Eighty square inches, the trade's unit of film area: one 8x10 in, four 4x5 in. [cm2]"""


class SheetSize(NamedTuple):
    """Nominal width and height of a sheet, the shorter side first, as the trade names it."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def area_cm2(self) -> float:
        """Nominal area of one face; a cut sheet is 2 to 3 % smaller. [cm2]"""
        return self.width_mm * self.height_mm / 100.0

    @property
    def area_units(self) -> float:
        """Area in the trade's units of 80 square inches. [1]"""
        return self.area_cm2 / UNIT_AREA_CM2
