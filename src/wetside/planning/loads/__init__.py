"""Which sheets are developed together, at what time, in which vessel: as few loads as their windows allow, with proof.

Pure optimisation: sheets are numbers here, and nothing is known of films or files. The public names are those below.
"""

from wetside.planning.loads.combine import combine_ladders
from wetside.planning.loads.ladder import solve_ladder
from wetside.planning.loads.plan import CombinedRung, Ladder, LadderRung, PlannedLoad, Solution
from wetside.planning.loads.problem import (
    LoadProblem,
    RelativeDeviation,
    SheetNeed,
    VesselLimit,
    VesselOption,
    option_by_time,
)
from wetside.planning.loads.solve import count_fewest, solve_fewest

__all__ = [
    "CombinedRung",
    "Ladder",
    "LadderRung",
    "LoadProblem",
    "PlannedLoad",
    "RelativeDeviation",
    "SheetNeed",
    "Solution",
    "VesselLimit",
    "VesselOption",
    "combine_ladders",
    "count_fewest",
    "option_by_time",
    "solve_fewest",
    "solve_ladder",
]
