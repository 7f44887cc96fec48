"""What is known of a run beside its facts and its script: plan, process, vessel, instrument, film, and looks."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from wetside.development.ways import Way


class Known(NamedTuple):
    """Facts that stand in the records; None is not known, and nothing is made of it.

    ``checked_high_c`` what the newest check of the run's thermometer says that it shows too much [C]; ``lots`` the
    boxes of film; ``reuse_factor`` what the plan gave for developer that was used before [1], 1 for fresh;
    ``own_time_s`` the mean of the sheets' own times in the plan [s]; ``measured_range`` what a densitometer read of a
    sheet of it [density].
    """

    process: str | None = None
    process_version: int | None = None
    way: Way | None = None
    vessel_kept: bool = False
    checked_high_c: float | None = None
    lots: tuple[str, ...] | None = None
    reuse_factor: float | None = None
    own_time_s: float | None = None
    measured_range: float | None = None


NOTHING = Known()
