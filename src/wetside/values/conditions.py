"""The conditions that belong to a developing time: without them it is not a time."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple


class Agitation(StrEnum):
    """How the liquid moves over the film."""

    ROTARY = "rotary"
    """A turning drum or tube with little liquid; continuous."""
    TRAY = "tray"
    """Sheets leafed by hand in a dish; continuous."""
    INTERMITTENT = "intermittent"
    """Inversions or lifts at intervals, as in a spiral tank or with hangers."""
    STAND = "stand"
    """Dilute, still, long."""


class ClockRule(StrEnum):
    """Which two moments a developing time lies between."""

    FULL_TO_DRAIN = "full-to-drain"
    """From the vessel full to the drain begun."""
    FULL_TO_DRAINED = "full-to-drained"
    """From the vessel full to the drain finished, so that the drain lies inside the time."""
    POUR_TO_DRAIN = "pour-to-drain"
    """From the first drop in to the drain begun."""
    POUR_TO_DRAINED = "pour-to-drained"
    """From the first drop in to the drain finished."""


class StopKind(StrEnum):
    """What ends development."""

    ACID = "acid"
    WATER = "water"


class Conditions(NamedTuple):
    """What a developing time was made under.

    ``temp_c`` is the true temperature [C]; ``agent_ml_per_cm2`` the reference volume: stock or concentrate
    to a square centimetre of film [ml/cm2], None where unknown; ``gradient`` the average gradient or contrast
    index that the time aims at [1], None where not stated; ``clock`` and ``stop`` None where the source is silent.
    """

    developer: str
    dilution: str
    temp_c: float
    agitation: Agitation
    presoak: bool | None = None
    clock: ClockRule | None = None
    stop: StopKind | None = None
    agent_ml_per_cm2: float | None = None
    gradient: float | None = None
