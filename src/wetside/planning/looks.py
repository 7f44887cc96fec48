"""What a developed negative showed, and what that means for the sheets that are still to be developed."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.plan import Note, ReckoningStep
from wetside.planning.resolved import NORMAL_AIM
from wetside.values.evidence import Evidence, Source
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.planning.documents.evening import Evening, Look
    from wetside.planning.resolved import ResolvedEvening, ResolvedSheet

DEAD_BAND = 0.03
"""Changes of time below this are told and not applied: 0.3 to 0.4 C do as much (corrections 3.5). [1]"""


class Judged(NamedTuple):
    """A look with the range that its sheet was aimed at. [density]"""

    look: Look
    aim_range: float


def looks_by_kind(evening: Evening, resolved: ResolvedEvening) -> dict[tuple[str, str], Judged]:
    """The latest look at each film in each process, by film and process name.

    A look at a sheet that was not developed in this evening's process still speaks for its film there.
    """
    looked = {plain_name(look.sheet): look for look in evening.looks}
    found: dict[tuple[str, str], Judged] = {}
    for one in (*resolved.sheets, *resolved.done):
        look = looked.get(plain_name(one.sheet.id))
        if look is not None:
            aim = one.aim or NORMAL_AIM
            found[one.film.name, one.process.name] = Judged(look, aim.density_range)
    return found


def apply_look(
    judged: Judged | None, resolved: ResolvedSheet, value_s: float, time_of_ratio: Callable[[float], float]
) -> tuple[float, tuple[ReckoningStep, ...], tuple[Note, ...]]:
    """Factor of a look on the time of a sheet that is still undeveloped.

    Parameters
    ----------
    judged : Judged or None
    resolved : ResolvedSheet
    value_s : float
        Time so far. [s]
    time_of_ratio : callable
        Factor on the time that turns a range that came out at ``ratio`` of its aim into the aim. [1]

    Returns
    -------
    factor, steps, notes
        A factor of 1 with a note where the change is too small to be real.
    """
    if judged is None:
        return 1.0, (), ()
    look = judged.look
    if look.measured_range is not None:
        factor = time_of_ratio(look.measured_range / judged.aim_range)
    else:
        factor = 1.0 + (look.change_percent or 0.0) / 100.0
    params = {
        "sheet": look.sheet,
        "percent": (factor - 1.0) * 100.0,
        "measured": look.measured_range,
        "aim": judged.aim_range,
    }
    if abs(factor - 1.0) < DEAD_BAND:
        return 1.0, (), (Note("planning.look_small", params),)
    code = "planning.look_measured" if look.measured_range is not None else "planning.look_judged"
    step = ReckoningStep(
        code,
        params,
        value_s * factor,
        "s",
        factor,
        Evidence.TESTED,
        Source("own", f"look at {resolved.film.name} tonight"),
    )
    return factor, (step,), ()
