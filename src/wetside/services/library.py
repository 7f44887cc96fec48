"""The planner's library, from the shipped data files and the user's own folder of rows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.adapters.starting_points import (
    load_agitation_advice,
    load_reciprocity,
    load_starting_points,
    load_time_pairs,
)
from wetside.development import makers_against_presoak
from wetside.planning.library import Library
from wetside.values.names import name_key

if TYPE_CHECKING:
    from pathlib import Path


def load_library(rows: Path | None = None) -> Library:
    """Load all published figures.

    Parameters
    ----------
    rows : Path, optional
        A user's folder, read after the shipped data.

    Raises
    ------
    WetsideError
        Naming file, line and field of every row that cannot be taken.
    """
    advice = load_agitation_advice()
    return Library(
        points=load_starting_points(rows),
        pairs={name_key(name): pairs for name, pairs in load_time_pairs(rows).items()},
        reciprocity={name_key(name): entry for name, entry in load_reciprocity(rows).items()},
        cuts=advice.cuts,
        presoak_against=makers_against_presoak(advice.presoak),
    )
