"""The course of an evening: when each thing is done, what is mixed, drawn and thrown away."""

from __future__ import annotations

from typing import Any, NamedTuple

from wetside.planning.documents.note import Note  # noqa: TC001 (part of a public type)

COURSE_FORMAT = 1


class CourseHead(NamedTuple):
    """What a course that is kept by itself begins with; the course's own fields stand beside these."""

    format: int
    tool: str
    name: str
    date: str


class CourseStep(NamedTuple):
    """One stretch of the evening.

    ``does`` is ``set-up``, ``wait-vessel``, ``wait-places``, ``new-fixer``, ``load``, ``run``, ``look`` or ``tidy``;
    ``starts_s`` counts from the beginning of the evening; ``load`` is the number of its load where it has one; ``code``
    with ``params`` says it.
    """

    does: str
    starts_s: float
    lasts_s: float
    load: int | None
    vessel: str | None
    code: str
    params: dict[str, Any]


class Draw(NamedTuple):
    """What one bottle gives, oldest bottle of a kind first. [ml]"""

    bottle: str
    holds: str
    volume_ml: float
    left_ml: float | None
    cost: float | None


class Mixing(NamedTuple):
    """One liquid to mix before lights out, in the order of mixing, as often as ``times`` says. [ml]"""

    order: int
    kind: str
    name: str
    dilution: str | None
    volume_ml: float
    parts_ml: tuple[float, ...]
    water_ml: float
    times: int


class FixerState(NamedTuple):
    """A fixer over the evening, in shares of its capacity; ``changes`` are the loads before which it is renewed."""

    bottle: str
    before: float
    after: float
    capacity_units: float
    fix_s: float | None
    changes: tuple[int, ...]


class Replenishing(NamedTuple):
    """Replenisher after a load: set used developer aside, add, fill to the mark with the used, discard the rest. [ml]

    ``weighted_cm2`` is the film that went through, dense sheets counting for more [cm2]; ``turnover`` all replenisher
    so far over the bath's volume [1] and ``state`` (``fresh``, ``settling``, ``seasoned``) are None where it is not
    written down what went in before.
    """

    load: int
    bottle: str | None
    developer: str
    weighted_cm2: float
    bath_ml: float
    set_aside_ml: float
    add_ml: float
    turnover: float | None
    state: str | None


class Waste(NamedTuple):
    """What goes into a waste vessel. [ml]"""

    vessel: str
    volume_ml: float


class Course(NamedTuple):
    """The whole evening; ``starts_s`` is a time of day [s after midnight] or None, ``ends_s`` counts from the start."""

    starts_s: float | None
    ends_s: float
    steps: tuple[CourseStep, ...]
    water_ml: float
    mixing: tuple[Mixing, ...]
    draws: tuple[Draw, ...]
    fixers: tuple[FixerState, ...]
    replenishing: tuple[Replenishing, ...]
    waste: tuple[Waste, ...]
    cost: float | None
    places: int
    notes: tuple[Note, ...]
