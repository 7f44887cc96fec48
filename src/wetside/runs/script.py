"""What a run follows: acts with anchors, what the clock means, what the vessel is known to do. It needs nothing else.

A script is made of a load of a plan (:mod:`wetside.runs.from_plan`) or of a few words, and stands whole in the run's
first fact.
"""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.words import BathKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.planning.documents.plan import Act
    from wetside.values.conditions import ClockRule, StopKind

START = "start"
"""Anchor of the first act: the run's clock at 0, or the last hold."""
LIGHTS_OUT, LIGHTS_ON, HANG = "dark.out", "dark.on", "hang"
CHECKS_OUT = ("dry", "counted", "telephone", "way-out")
"""Asked before lights out (corrections 1.4): vessel dry, sheets counted, telephone away, way out felt."""
CHECKS_ON = ("lid", "turns")
"""Asked before lights on: the lid seated, the vessel turns free."""
MOST_SHIFT = 0.15
"""Our choice: no correction for temperature moves an end by more of the developing time. [1]"""
FLOOR_S = 300.0
"""Usual floor of a developing time in a drum (common practice). [s]"""
POUR_S, DRAIN_S = 10.0, 15.0
"""A typical drum (corrections 3.4), until the vessel's own times are learned. [s]"""


class Pause(StrEnum):
    """Places where a run may wait, because waiting there does no harm."""

    BEFORE_PRESOAK = "before-presoak"
    BEFORE_DEVELOPER = "before-developer"
    AFTER_STOP = "after-stop"


class RunSheet(NamedTuple):
    """A sheet of the run; its place in the vessel is its place in the list."""

    id: str
    film: str = ""
    area_cm2: float = 0.0
    weight: float = 1.0
    aim_range: float = 1.05


class Script(NamedTuple):
    """What a run follows.

    ``time_s`` is the developing time by ``clock``; ``per_c`` the developer's coefficient with the span of its pairs
    (None where unknown, and then no temperature is reckoned); ``tau_s`` how fast the vessel follows its jacket;
    ``floor_s`` and ``most_shift`` bound a corrected end; ``learned`` says whether pour and drain are this vessel's own;
    ``agent_ratio`` is the developing agent given over what the film needs, where that is known.
    """

    name: str
    developer: str
    dilution: str
    vessel: str
    vessel_kind: str
    clock: ClockRule
    stop: StopKind
    time_s: float
    temp_c: float
    acts: tuple[Act, ...]
    sheets: tuple[RunSheet, ...] = ()
    reads_high_c: float = 0.0
    thermometer: str = "thermometer"
    per_c: float | None = None
    span_c: tuple[float, float] | None = None
    tau_s: float | None = None
    jacket_c: float | None = None
    floor_s: float = FLOOR_S
    most_shift: float = MOST_SHIFT
    pour_s: float = POUR_S
    drain_s: float = DRAIN_S
    learned: bool = False
    volume_ml: float = 0.0
    concentrate_ml: float = 0.0
    wetting_ml: float = 0.0
    agent_ratio: float | None = None

    def act(self, key: str) -> Act | None:
        """Act with a key, or None."""
        return next((act for act in self.acts if act.key == key), None)

    def rank(self, key: str) -> int:
        """Place of an act in the order of the hands."""
        return next(rank for rank, act in enumerate(self.acts) if act.key == key)


@lru_cache(maxsize=4096)
def bath_number(key: str) -> int:
    """Number of the bath that an act belongs to; holds come before all, hanging after all."""
    if key == HANG:
        return 1_000_000
    first = key.partition(".")[0]
    return int(first) if first.isdecimal() else 0


def is_awaited(act: Act) -> bool:
    """Whether an act asks for a person's answer: one a hold, one a bath ("full"), one at hanging; one a sheet while
    loading is told place by place.

    Further fills of the same bath, pours and drains follow from the learned times; they may be told, and need not be.
    """
    if act.does in ("full", "move"):
        return act.changes == 1
    return act.does in ("hold", "load", "hang") or (act.does == "enter" and act.key.endswith(".in.1"))


def developing_baths(script: Script) -> tuple[int, ...]:
    """Numbers of the developing baths, in order."""
    return tuple(
        sorted(
            {bath_number(act.key) for act in script.acts if act.kind == BathKind.DEVELOP.value and act.does == "pour"}
        )
    )


def pause_points(script: Script) -> Mapping[Pause, str]:
    """Act that each pause holds back; only where waiting is safe.

    Before the pre-soak, before the first developing bath, and after the stop: the liquid before it stays in. From the
    first developing bath's pour to the stop in there is none, whatever the baths are (``decided.md`` 10).
    """
    found: dict[Pause, str] = {}
    acts = script.acts
    developing = developing_baths(script)
    if not developing:
        return found
    wet = [act for act in acts if bath_number(act.key) >= 1]
    if wet[0].kind == BathKind.PRESOAK.value:
        found[Pause.BEFORE_PRESOAK] = wet[0].key
    first = next(rank for rank, act in enumerate(acts) if bath_number(act.key) == developing[0])
    before = acts[first - 1] if first else None
    held = before if before is not None and before.does == "drain" else acts[first]
    found[Pause.BEFORE_DEVELOPER] = held.key
    after = [act for act in wet if bath_number(act.key) == developing[-1] + 1]
    if after and after[0].kind in (BathKind.STOP.value, BathKind.WASH.value):
        later = [act for act in wet if act.does == "drain" and bath_number(act.key) == developing[-1] + 1]
        if not later:
            later = [act for act in wet if bath_number(act.key) > developing[-1] + 1]
        if later:
            found[Pause.AFTER_STOP] = later[0].key
    return found
