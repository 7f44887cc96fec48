"""A plan's JSON back as what a run needs of it: its loads with their acts, and its sheets."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.whole_file import read_text
from wetside.errors import Place, UnreadableError
from wetside.planning.documents.plan import PLAN_FORMAT, Act, Load, PlannedSheet, VolumeCheck

if TYPE_CHECKING:
    from pathlib import Path


class PlanForRun(NamedTuple):
    """Loads and sheets of a plan, and the evening that it was made of, as plain values."""

    loads: tuple[Load, ...]
    sheets: tuple[PlannedSheet, ...]
    evening: dict[str, Any]


def read_plan(path: Path) -> PlanForRun:
    """Read ``plan.json``, as ``wetside plan --out`` writes it.

    Raises
    ------
    InputError
        If it is no JSON, no plan, of another format, or lacks a key: file, line or field are named.
    """
    text = read_text(path)
    try:
        document = json.loads(text)
    except json.JSONDecodeError as error:
        raise UnreadableError("files.plan.not_json", place=Place(str(path), error.lineno)) from None
    except (RecursionError, ValueError):  # nested too deep, or a number of thousands of digits
        raise UnreadableError("files.plan.not_json", place=Place(str(path), 1)) from None
    if not isinstance(document, dict) or document.get("format") != PLAN_FORMAT or "loads" not in document:
        raise UnreadableError("files.plan.not_a_plan", place=Place(str(path)), known=PLAN_FORMAT)
    try:
        loads = []
        for number, one in enumerate(document["loads"], 1):
            field = f"loads.{number}"
            loads.append(_load(one))
        sheets = []
        for number, one in enumerate(document["sheets"], 1):
            field = f"sheets.{number}"
            sheets.append(PlannedSheet(**{**one, "reckoning": (), "notes": ()}))
        evening = dict(document.get("evening") or {})
    except (TypeError, ValueError, KeyError, AttributeError) as error:
        place = Place(str(path), field=locals().get("field"))
        raise UnreadableError("files.plan.damaged", place=place, reason=str(error)) from error
    return PlanForRun(tuple(loads), tuple(sheets), evening)


def _load(values: dict[str, Any]) -> Load:
    own = values["own_times_s"]
    return Load(
        **{
            **values,
            "sheets": tuple(values["sheets"]),
            "own_times_s": None if own is None else tuple(own),
            "parts_ml": tuple(values["parts_ml"]),
            "window_s": tuple(values["window_s"]),
            "check": VolumeCheck(**{**values["check"], "passes": ()}),
            "schedule": tuple(Act(**act) for act in values["schedule"]),
            "notes": (),
        }
    )
