"""The two checks of a load, made again when a sheet is lost: liquid that wets the vessel, agent for the film."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.words import AfterUse

if TYPE_CHECKING:
    from wetside.runs.state import State


class LoadCheck(NamedTuple):
    """Sheets that are left, what is poured and what wets the vessel [ml], agent given over needed (None if unknown).

    A smaller load needs as much liquid to wet its vessel and less agent: ``agent_ratio`` can only rise.
    """

    left: int
    volume_ml: float
    wetting_ml: float
    agent_ratio: float | None

    @property
    def wets(self) -> bool:
        """Whether the liquid reaches every sheet."""
        return self.volume_ml >= self.wetting_ml


class Used(NamedTuple):
    """Liquid of a bath that was poured: its bottle or None, its name, how much [ml], and where it went."""

    bottle: str | None
    bath: str
    volume_ml: float
    after: str


def load_check(state: State) -> LoadCheck:
    """Volume and agent for the sheets that the liquid sees; one that is spoilt in it has had its share."""
    script = state.script
    if script is None:
        return LoadCheck(0, 0.0, 0.0, None)
    weights = {sheet.id: sheet.area_cm2 * sheet.weight for sheet in script.sheets}
    whole = sum(weights.values())
    left = sum(weights[name] for name in state.in_liquid)
    ratio = script.agent_ratio
    if ratio is not None:
        ratio = None if left <= 0 or whole <= 0 else ratio * whole / left
    return LoadCheck(len(state.in_liquid), script.volume_ml, script.wetting_ml, ratio)


def used_liquids(state: State, now_s: float) -> tuple[Used, ...]:
    """Liquids that the run has used so far, for the bottles' books; none in a rehearsal, which is done with water.

    Parameters
    ----------
    state : State
    now_s : float
        On the run's clock. [s]
    """
    from wetside.runs.schedule import How, schedule_at

    if state.rehearsal or state.script is None:
        return ()
    return tuple(
        Used(due.act.bottle, due.act.bath, due.act.volume_ml or 0.0, due.act.after or AfterUse.WASTE.value)
        for due in schedule_at(state, now_s).dues
        if due.act.does in ("pour", "move") and due.how in (How.TOLD, How.INFERRED, How.ASSUMED)
    )
