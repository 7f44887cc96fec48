"""Whether a script that comes from a stranger can be kept: each value of its kind, and inside what a run can be.

The program's own scripts are made of plans that were checked. One that stands in a file somebody hands in may hold
anything, and pages reckon with it for good.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.errors import OutOfRangeError, UnreadableError
from wetside.planning.documents.words import AfterUse, BathKind, VesselKind
from wetside.runs.bath_limits import COLDEST_C, HOTTEST_C

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.runs.script import Script

MOST_SHEETS = 200
"""No load has more. Our choice. [sheets]"""
LONGEST_TEXT = 500
"""Letters of a name, a label or a key. Our choice. [letters]"""
LONGEST_S = 86_400.0 * 2
"""No act lasts longer, or lies further from its anchor: a day of developing, and as much again. Our choice. [s]"""
MOST_OFF_C = 15.0
"""No thermometer that is used shows so much too much. Our choice. [C]"""


class Span(NamedTuple):
    """Numbers that a field may hold, both ends with it."""

    low: float
    high: float


_SECONDS = Span(0.0, LONGEST_S)
_BATH_C = Span(COLDEST_C, HOTTEST_C)
_ML = Span(0.0, 1_000_000.0)
_SPANS: Mapping[str, Span] = {
    "time_s": Span(1.0, LONGEST_S),
    "temp_c": _BATH_C,
    "shown_temp_c": Span(COLDEST_C - MOST_OFF_C, HOTTEST_C + MOST_OFF_C),
    "reads_high_c": Span(-MOST_OFF_C, MOST_OFF_C),
    "jacket_c": _BATH_C,
    "per_c": Span(0.0, 1.0),
    "tau_s": Span(1.0, LONGEST_S),
    "floor_s": _SECONDS,
    "most_shift": Span(0.0, 1.0),
    "pour_s": _SECONDS,
    "drain_s": _SECONDS,
    "volume_ml": _ML,
    "concentrate_ml": _ML,
    "water_ml": _ML,
    "wetting_ml": _ML,
    "agent_ratio": Span(0.0, 1e6),
    "offset_s": _SECONDS,
    "clock_s": Span(-LONGEST_S, 40.0 * LONGEST_S),
    "duration_s": _SECONDS,
    "changes": Span(1, 1000),
    "area_cm2": Span(0.0, 100_000.0),
    "weight": Span(1e-3, 1000.0),
    "aim_range": Span(0.05, 5.0),
}
"""What the numbers of a script, its acts and its sheets may be, by the name of the field. Our choice."""
_WORDS: Mapping[str, tuple[str, ...]] = {
    "kind": tuple(BathKind),
    "after": tuple(AfterUse),
    "vessel_kind": tuple(VesselKind),
}
"""Words that a field may hold, by its name."""


def require_bounded(script: Script) -> None:
    """Refuse a script that holds what no run can be.

    Parameters
    ----------
    script : Script
        Whose acts follow from each other (:func:`wetside.runs.script_data.require_sound`).

    Raises
    ------
    InputError
        With the field of the first value that is of another kind, no known word, or outside its limits.
    """
    _require_row(script, "")
    if script.span_c is not None:
        for value in script.span_c:
            _require_number(value, _BATH_C, "span_c")
    if len(script.sheets) > MOST_SHEETS:
        raise OutOfRangeError("runs.script.sheets", count=len(script.sheets), most=MOST_SHEETS)
    for rank, sheet in enumerate(script.sheets, 1):
        _require_row(sheet, f"sheets.{rank}.")
    for rank, act in enumerate(script.acts, 1):
        _require_row(act, f"acts.{rank}.")
    names = [sheet.id for sheet in script.sheets]
    for name in names:
        if not name or names.count(name) > 1:
            raise UnreadableError("runs.script.sheet_name", field="sheets", value=name)
    for act in script.acts:
        if act.sheet is not None and act.sheet not in names:
            raise UnreadableError("runs.script.sheet_name", field="acts", value=act.sheet)


def _require_row(row: Any, prefix: str) -> None:
    """Every plain field of a row by its declared type; what is no plain one is looked at by itself."""
    for name, declared in row.__annotations__.items():
        value, field = getattr(row, name), f"{prefix}{name}"
        kind, _, absent = str(getattr(declared, "__forward_arg__", declared)).partition(" | ")
        if value is None and absent == "None":
            continue
        if kind == "str":
            _require_text(value, field, _WORDS.get(name))
        elif kind == "bool":
            if not isinstance(value, bool):
                raise UnreadableError("runs.script.flag", field=field, value=_short(value))
        elif kind in ("float", "int"):
            whole = kind == "float" or isinstance(value, int)
            _require_number(value if whole else None, _SPANS[name], field)


def _require_text(value: object, field: str, words: tuple[str, ...] | None) -> None:
    if not isinstance(value, str) or len(value) > LONGEST_TEXT or not (value.isprintable() or not value):
        raise UnreadableError("runs.script.text", field=field, value=_short(value), longest=LONGEST_TEXT)
    if words is not None and value not in words:
        raise UnreadableError("runs.script.word", field=field, value=_short(value), known=words)


def _require_number(value: object, span: Span, field: str) -> None:
    is_number = isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
    if not is_number or not span.low <= float(value) <= span.high:  # type: ignore[arg-type]  # a number by now
        raise OutOfRangeError("runs.script.number", field=field, value=_short(value), low=span.low, high=span.high)


def _short(value: object) -> str:
    return (value if isinstance(value, str) and value.isprintable() else ascii(value))[:60]
