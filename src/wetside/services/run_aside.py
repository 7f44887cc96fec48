"""Readings that a thermometer posted and that are not used, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.runs.readings import kept_code
from wetside.wording import sentence

if TYPE_CHECKING:
    from wetside.runs.state import AsideAt, State

MOST_SAID = 5
"""Lines that a page shows; our choice."""


def aside_said(state: State, most: int = MOST_SAID) -> tuple[str, ...]:
    """The last readings that are not used, the newest first, each with its reason."""
    return tuple(_said(one) for one in sorted(state.set_aside, key=lambda one: -one.at_s)[:most])


def aside_now(state: State) -> str:
    """What is wrong with a thermometer now: its last reading is not used, and no good one of its place came after."""
    if not state.set_aside:
        return ""
    last = max(state.set_aside, key=lambda one: one.at_s)
    good = any(one.where is last.where and one.at_s > last.at_s for one in state.readings)
    return "" if good else _said(last)


def _said(one: AsideAt) -> str:
    params = {
        "shown": one.shown,
        "at_s": one.at_s,
        "by": one.instrument,
        "where": one.where.value,
        "reason": sentence(kept_code(one.code), {}),
    }
    return sentence("services.reading.aside" if one.shown else "services.reading.aside_blank", params)
