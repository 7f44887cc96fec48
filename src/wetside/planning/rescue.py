"""A misexposed sheet: it stays in its load unless its highlight passes what can be printed or scanned."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import WetsideError
from wetside.planning.documents.plan import Note
from wetside.planning.documents.words import Printing
from wetside.planning.resolved import NORMAL_AIM, tolerance_of
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    from wetside.planning.misexposure import SheetAudit
    from wetside.planning.resolved import ResolvedSheet
    from wetside.sensitometry.rescue import RescueAdvice
    from wetside.values.family import ContrastFamily

SCANNER_NET = 2.0
"""Net density that a scanner still reads; from memory, a default (corrections 3.6). [density]"""

PRINTING_NET = 1.9
"""Net density that is still printed without pain; from memory, a default (corrections 3.6). [density]"""

WORTH_IT_STOPS = 0.5
"""An error below this asks for no rescue. Our choice. [stops]"""


GRAVE_FACTOR = 2.0
"""From this many times the print exposure on it is worth looking at another sheet first. Our choice. [1]"""

TOLD_ELSEWHERE = frozenset({"sensitometry.rescue.print_longer"})
"""What the audit of the exposure has said already."""

LOOK_CODES = frozenset({"sensitometry.rescue.twin_first", "sensitometry.rescue.look_first"})


def needs_rescue(audit: SheetAudit) -> bool:
    """Whether a sheet's exposure is so far off that it is looked at for itself."""
    return abs(audit.stop_error) >= WORTH_IT_STOPS or abs(audit.stop_error_highlight) >= WORTH_IT_STOPS


def rescue_of(
    resolved: ResolvedSheet,
    family: ContrastFamily,
    low_log_h: float,
    film_range: float,
    normal_s: float,
    audit: SheetAudit,
) -> RescueAdvice | None:
    """Advice for a misexposed sheet by a tested family; None where there is nothing to rescue or to tell.

    Parameters
    ----------
    low_log_h : float
        Where the low end of the scene was meant to lie. [log10 lux-second, or the readings' own scale]
    film_range : float
        Range on the film. [log10]
    normal_s : float
        Time under the family's own conditions if the exposure were right. [s]
    """
    if not needs_rescue(audit):
        return None
    from wetside.sensitometry.rescue import DensityLimit, Misexposure, rescue_sheet

    aim = resolved.aim or NORMAL_AIM
    scanned = aim.printing is Printing.SCANNER
    limit = DensityLimit(
        "scanner" if scanned else "printing", SCANNER_NET if scanned else PRINTING_NET, Evidence.ASSUMED
    )
    sheet = Misexposure(low_log_h, film_range, audit.stop_error, audit.stop_error_highlight)
    try:
        return rescue_sheet(
            family,
            sheet,
            min(max(normal_s, family.span_s[0]), family.span_s[1]),
            aim.density_range,
            tolerance_of(aim),
            limit=limit,
            twin=resolved.sheet.twin is not None,
        )
    except WetsideError:
        # What the readings do not reach is told by the requirement itself; here it only means that there is no advice.
        return None


def is_shortened(advice: RescueAdvice | None) -> bool:
    """Whether the advice is less development than normal."""
    return advice is not None and advice.dev_s < advice.normal_s - 1e-6


def rescue_notes(advice: RescueAdvice | None) -> tuple[Note, ...]:
    """What the advice says, as notes of the sheet."""
    if advice is None:
        return ()
    from wetside.sensitometry.rescue import NORMAL

    left_out = set(TOLD_ELSEWHERE)
    if advice.act == NORMAL and abs(advice.lost_stops) < WORTH_IT_STOPS and (advice.print_factor or 1.0) < GRAVE_FACTOR:
        left_out |= LOOK_CODES
    found = [Note(note.code, dict(note.params)) for note in advice.notes if note.code not in left_out]
    at = advice.advised
    if at.shadow_net is not None and at.highlight_net is not None:
        found.append(
            Note(
                "planning.rescue_predicted",
                {
                    "shadow": at.shadow_net,
                    "highlight": at.highlight_net,
                    "meant_shadow": advice.meant.shadow_net,
                    "meant_highlight": advice.meant.highlight_net,
                },
            )
        )
    return tuple(found)


def practice_notes(audit: SheetAudit) -> tuple[Note, ...]:
    """Declared common practice where no family is known; told, never applied."""
    if not needs_rescue(audit):
        return ()
    from wetside.sensitometry.rescue import practice_cut

    cut = practice_cut(audit.stop_error)
    return (Note(cut.code, {"low": cut.low, "high": cut.high}),)
