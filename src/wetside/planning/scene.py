"""The range of a sheet's scene: from a wanted N, a number of stops, or two readings and their zones."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.planning.documents.plan import ReckoningStep
from wetside.sensitometry import NORMAL_LOG_RANGE, log_range_of_n, n_of_log_range
from wetside.values.evidence import Evidence, Source

if TYPE_CHECKING:
    from wetside.planning.documents.evening import Sheet

_METERED = Source("own", "your reading")


class Scene(NamedTuple):
    """Log range of the scene before flare, and N; ``declared`` is False where nothing was said of it."""

    log_range: float
    n: float | None
    declared: bool
    steps: tuple[ReckoningStep, ...]
    normal_log_range: float = NORMAL_LOG_RANGE


def scene_of_sheet(sheet: Sheet) -> Scene:
    """Range of a sheet's scene.

    A normal scene is 2.20 in log luminance, 7 1/3 stops; each zone of N is log10(2) of it.
    """
    if sheet.shadow is not None and sheet.highlight is not None:
        from wetside.exposure import zone_fall, zones_n

        fall = zone_fall(sheet.shadow.ev, sheet.shadow.zone, sheet.highlight.ev)
        n = zones_n(sheet.shadow.ev, sheet.shadow.zone, sheet.highlight.ev, sheet.highlight.zone)
        params = {
            "shadow_ev": sheet.shadow.ev,
            "shadow_zone": sheet.shadow.zone,
            "highlight_ev": sheet.highlight.ev,
            "highlight_zone": sheet.highlight.zone,
            "fall": fall,
            "n": n,
        }
        return _scene("planning.scene_readings", params, n)
    if sheet.scene_stops is not None:
        n = n_of_log_range(sheet.scene_stops * math.log10(2.0))
        return _scene("planning.scene_stops", {"stops": sheet.scene_stops, "n": n}, n)
    if sheet.n is not None:
        return _scene("planning.scene_n", {"n": sheet.n}, sheet.n)
    return Scene(NORMAL_LOG_RANGE, None, declared=False, steps=())


def _scene(code: str, params: dict[str, float], n: float) -> Scene:
    step = ReckoningStep(code, dict(params), n, "zones", None, Evidence.TESTED, _METERED)
    return Scene(log_range_of_n(n), n, declared=True, steps=(step,))
