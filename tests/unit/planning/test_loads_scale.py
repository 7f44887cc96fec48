"""Many sheets: what must be proved, and that equal sheets need no solver. Figures by our code are regression values."""

import os
import random
import subprocess
import sys

import pytest

from wetside.planning.loads import LoadProblem, SheetNeed, VesselLimit, option_by_time, solve_fewest, solve_ladder

SIZES = (((2, 3, 2), 220), ((3, 4, 3), 300), ((6, 12, 8), 700))
"""Places that a size takes in each of three drums, and agent."""


LONG = "WETSIDE_LONG" in os.environ
"""All instances, as ``make soak`` tries them; else some. The hardest is tried there alone."""


def mixed(seed, count):
    """Three sizes, four weights, some twins, windows of three widths, three drums whose agent binds."""
    chance = random.Random(seed)
    vessels = (VesselLimit("a", 12, 1750), VesselLimit("b", 12, 1260), VesselLimit("c", 8, 1050))
    sheets = []
    for number in range(count):
        shares, area = chance.choices(SIZES, [5, 3, 1])[0]
        time_s = chance.choice([300, 330, 360, 400, 450, 500, 540, 600, 660, 720]) * chance.choice([1, 0.87, 1.15])
        agent = round(area * chance.choice([1, 1, 1, 1.33, 1.67, 2]))
        ratio = chance.choice([1.05, 1.07, 1.1, 1.15])
        twin = f"s{number - 1:03d}" if number % 2 and chance.random() < 0.15 else None
        options = tuple(
            option_by_time(vessel, time_s, ratio, shares[vessel], agent)
            for vessel, limit in enumerate(vessels)
            if shares[vessel] <= limit.places and agent <= limit.agent
        )
        sheets.append(SheetNeed(f"s{number:03d}", options, 1.0, twin))
    return LoadProblem(tuple(sheets), vessels)


@pytest.mark.parametrize("seed", range(30) if LONG else (1, 2, 4, 6, 21, 25, 29))
def test_forty_mixed_sheets_are_proved(seed):
    """Instances of forty sheets, thirty in the long form: the number of loads is proved, the gap is 0 (decided 4)."""
    ladder = solve_ladder(mixed(seed, 40), rungs=0)
    assert ladder.lower_bound == ladder.fewest
    assert ladder.rung(ladder.fewest).worst_proved


@pytest.mark.parametrize("seed", (0, 1) if LONG else (0,))
def test_two_hundred_mixed_sheets_have_a_gap_of_one_at_most(seed):
    """Two hundred sheets of many weights: at most one load above the bound (decided 4)."""
    solution = solve_fewest(mixed(seed, 200))
    assert 0 <= solution.gap <= 1


def test_many_equal_sheets_need_no_solver():
    """Equal sheets, twins and suspects among them, are planned without numpy and scipy."""
    words = (
        "import random, sys; from wetside.planning.loads import *; chance = random.Random(1)\n"
        "needs = tuple(SheetNeed(f's{n}', (option_by_time(0, chance.uniform(300, 900)),), 1.0, f's{n ^ 1}' if n < 40"
        " else None, n > 395) for n in range(400))\n"
        "solution = solve_fewest(LoadProblem(needs, (VesselLimit('drum', 8),)))\n"
        "assert solution.proved and solution.worst_proved\n"
        "assert not {'numpy', 'scipy'} & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", words], check=True)


def test_five_thousand_equal_sheets_are_proved():
    """Five thousand sheets of as many times: the number and the worst deviation are proved (regression values)."""
    chance = random.Random(1)
    sheets = tuple(SheetNeed(f"s{n:04d}", (option_by_time(0, chance.uniform(300, 900)),)) for n in range(5000))
    solution = solve_fewest(LoadProblem(sheets, (VesselLimit("drum", 8),)))
    assert (len(solution.loads), solution.lower_bound, solution.worst_proved) == (625, 625, True)
    assert solution.worst == pytest.approx(0.0919, abs=5e-5)
