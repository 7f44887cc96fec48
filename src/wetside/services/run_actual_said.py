"""Planned against actual in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.runs.against_plan import against_plan
from wetside.services.run_terminal import say
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from wetside.runs.state import State


class ActualRow(NamedTuple):
    """One line in words; ``density`` and ``zones`` are empty where nothing can be told; ``untold`` as of the run."""

    what: str
    planned: str
    actual: str
    density: str
    zones: str
    untold: bool


def actual_said(state: State, now_s: float) -> tuple[ActualRow, ...]:
    """Say what was planned and what was.

    Parameters
    ----------
    state : State
    now_s : float
        On the run's clock. [s]
    """
    return tuple(
        ActualRow(
            what=say(line.what.code, line.what.params),
            planned=sentence(line.planned.code, line.planned.params),
            actual=sentence(line.actual.code, line.actual.params),
            density="" if line.worth is None else shown(line.worth.density, "signed"),
            zones="" if line.worth is None else shown(line.worth.zones, "signed_1"),
            untold=line.untold,
        )
        for line in against_plan(state, now_s)
    )
