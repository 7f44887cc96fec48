"""The planner of loads against plain enumeration and against a general solver that share no code with it."""

import math

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from wetside.planning.loads import (
    LoadProblem,
    RelativeDeviation,
    SheetNeed,
    VesselLimit,
    VesselOption,
    combine_ladders,
    option_by_time,
    solve_fewest,
    solve_ladder,
)
from wetside.planning.loads.columns import cover_by_columns, cover_for
from wetside.planning.loads.cover import Cover, cover_quickly
from wetside.planning.loads.improve import allowed
from wetside.planning.loads.kinds import choices_of, kinds_of
from wetside.planning.loads.model import Model
from wetside.planning.loads.packing import Packer
from wetside.planning.loads.patterns import cover_by_patterns
from wetside.planning.loads.small import cover_small

ABOVE = 1 + 1e-9


# The rules once more, as plainly as they can be said.


def step_of(option, grid):
    points = [t for t in range(grid, int(option.high_s) + 2, grid) if option.low_s - 1e-6 <= t <= option.high_s + 1e-6]
    return grid if points else 1


def deviation_at(option, time_s):
    value = option.deviation(float(time_s))
    if math.ceil(option.low_s - 1e-6) > option.high_s + 1e-6 and time_s == math.floor(option.target_s + 0.5):
        return min(value, 1.0)  # not even a whole second: the nearest stands for the edge
    if option.low_s - 1e-6 <= time_s <= option.high_s + 1e-6:
        return min(value, 1.0)
    return max(value, ABOVE)


def may_share(problem, sheets):
    if problem.suspects_alone and len(sheets) > 1 and any(sheet.suspect for sheet in sheets):
        return False
    names = {sheet.id for sheet in sheets}
    return not (problem.twins_apart and any(sheet.twin in names - {sheet.id} for sheet in sheets))


def holds(vessel, options):
    if sum(option.share for option in options) > vessel.places:
        return False
    if vessel.agent is not None and sum(option.agent for option in options) > vessel.agent:
        return False
    return not (vessel.own_times and len(options) * vessel.spacing_s > min(option.target_s for option in options))


def load_cost(problem, sheets):
    """Smallest worst deviation of the sheets in one load, over all vessels and times; infinite if they may not."""
    if not may_share(problem, sheets):
        return math.inf
    best = math.inf
    for index, vessel in enumerate(problem.vessels):
        options = [next((o for o in sheet.options if o.vessel == index), None) for sheet in sheets]
        if None in options or not holds(vessel, options):
            continue
        if vessel.own_times:
            return 0.0
        grid = problem.grid_s if any(step_of(option, problem.grid_s) != 1 for option in options) else 1
        latest = max(option.target_s for option in options)
        for time_s in range(grid, int(latest) + 2 * problem.grid_s, grid):
            best = min(best, max(deviation_at(option, time_s) for option in options))
    return best


def worst_by_number(problem):
    """Smallest worst deviation for each number of loads, by looking at every partition."""
    sheets = problem.sheets
    count = len(sheets)
    cost = {
        mask: load_cost(problem, [sheets[i] for i in range(count) if mask >> i & 1]) for mask in range(1, 1 << count)
    }
    best = {0: [0.0] + [math.inf] * count}
    for mask in range(1, 1 << count):
        lowest = mask & -mask
        row = [math.inf] * (count + 1)
        part = mask
        while part:
            if part & lowest:
                for number in range(1, count + 1):
                    row[number] = min(row[number], max(cost[part], best[mask ^ part][number - 1]))
            part = (part - 1) & mask
        best[mask] = row
    row = best[(1 << count) - 1]
    for number in range(1, count + 1):
        row[number] = min(row[number], row[number - 1]) if number > 1 else row[number]
    return row


def check_loads(problem, loads, worst):
    """Every sheet once, every limit and rule kept, deviations as told."""
    sheets = {sheet.id: sheet for sheet in problem.sheets}
    assert sorted(name for load in loads for name in load.members) == sorted(sheets)
    seen = 0.0
    for load in loads:
        members = [sheets[name] for name in load.members]
        options = [next(o for o in sheet.options if o.vessel == load.vessel) for sheet in members]
        vessel = problem.vessels[load.vessel]
        assert may_share(problem, members)
        assert holds(vessel, options)
        if vessel.own_times:
            assert load.time_s == max(option.target_s for option in options)
            assert load.worst == 0.0
            continue
        steps = {step_of(option, problem.grid_s) for option in options}
        assert load.time_s % max(steps) == 0
        assert load.worst == pytest.approx(max(deviation_at(option, load.time_s) for option in options), abs=1e-12)
        seen = max(seen, load.worst)
    assert worst == pytest.approx(seen, abs=1e-12)


# Problems.


@st.composite
def options_of(draw, vessels, sizes):
    """A sheet's options: window in seconds, some of them narrower than the grid, some lopsided."""
    target = draw(st.sampled_from([60, 72, 73.5, 80, 85, 90, 99, 110, 122, 140])) * 1.0
    ratio = draw(st.sampled_from([1.005, 1.02, 1.05, 1.1, 1.2]))
    size = draw(st.sampled_from(sizes))
    agent = draw(st.integers(0, 5))
    where = draw(st.sets(st.sampled_from(range(len(vessels))), min_size=1))
    options = []
    for index in sorted(where):
        factor = draw(st.sampled_from([1.0, 1.0, 1.0, 0.9])) if len(vessels) > 1 else 1.0
        if draw(st.integers(0, 4)):
            options.append(option_by_time(index, target * factor, ratio, size, agent))
        else:
            low, high = target * factor - draw(st.integers(1, 9)), target * factor + draw(st.integers(1, 9))
            options.append(
                VesselOption(index, low, high, target * factor, lopsided(low, target * factor, high), size, agent)
            )
    return tuple(options)


def lopsided(low, target, high):
    return lambda t: (t - target) / (high - target) if t > target else (target - t) / (target - low)


@st.composite
def problems(draw, most=7, own_times=True):
    count = draw(st.integers(1, most))
    kinds = draw(st.integers(1, 2))
    vessels = tuple(
        VesselLimit(
            f"v{index}",
            draw(st.integers(2, 6)),
            draw(st.none() | st.integers(5, 14)),
            draw(st.booleans()) if own_times and index else False,
            draw(st.sampled_from([0.0, 20.0, 35.0])),
        )
        for index in range(kinds)
    )
    sizes = draw(st.sampled_from([[1], [2], [1, 2]]))
    sheets = []
    for index in range(count):
        options = draw(options_of(vessels, sizes))
        twin = f"s{draw(st.integers(0, count - 1))}" if draw(st.integers(0, 3)) == 0 else None
        sheets.append(SheetNeed(f"s{index}", options, 1.0, twin, draw(st.integers(0, 7)) == 0))
    return LoadProblem(
        tuple(sheets), vessels, draw(st.sampled_from([5, 5, 5, 1])), draw(st.booleans()), draw(st.booleans())
    )


@st.composite
def equal_problems(draw, most=7):
    """Equal sheets in one or two drums: the pure Python way."""
    count = draw(st.integers(1, most))
    vessels = (VesselLimit("large", draw(st.integers(2, 4))), VesselLimit("small", 2))[: draw(st.integers(1, 2))]
    sheets = []
    for index in range(count):
        target = draw(st.sampled_from([60, 66, 73.5, 80, 88, 97, 107, 118.0]))
        ratio = draw(st.sampled_from([1.01, 1.05, 1.1, 1.2]))
        twin = f"s{draw(st.integers(0, count - 1))}" if draw(st.integers(0, 3)) == 0 else None
        options = tuple(option_by_time(vessel, target, ratio) for vessel in range(len(vessels)))
        sheets.append(SheetNeed(f"s{index}", options, 1.0, twin, draw(st.integers(0, 9)) == 0))
    return LoadProblem(tuple(sheets), vessels)


def compare_with_enumeration(problem):
    truth = worst_by_number(problem)
    fewest = next(number for number, worst in enumerate(truth) if worst <= 1)
    solution = solve_fewest(problem)
    check_loads(problem, solution.loads, solution.worst)
    assert (len(solution.loads), solution.lower_bound, solution.proved) == (fewest, fewest, True)
    assert solution.worst == pytest.approx(truth[fewest], abs=1e-12)
    assert solution.worst_proved
    ladder = solve_ladder(problem)
    assert (ladder.fewest, ladder.lower_bound) == (fewest, fewest)
    assert ladder.rungs[0].number == next(n for n, worst in enumerate(truth) if n and worst < math.inf)
    assert [rung.number for rung in ladder.rungs] == list(range(ladder.rungs[0].number, ladder.rungs[-1].number + 1))
    for rung in ladder.rungs:
        check_loads(problem, rung.loads, rung.worst)
        assert len(rung.loads) == rung.number
        assert rung.worst == pytest.approx(truth[rung.number], abs=1e-12)
        assert rung.worst_proved
        assert bool(rung.broken) == (rung.worst > 1)
    assert ladder.rungs[-1].worst == pytest.approx(truth[-1], abs=1e-12)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(equal_problems())
def test_equal_sheets_against_enumeration(problem):
    """Fewest loads and every rung of equal sheets are those of plain enumeration."""
    compare_with_enumeration(problem)


def fits_somewhere(problem):
    return all(
        any(holds(problem.vessels[option.vessel], [option]) for option in sheet.options) for sheet in problem.sheets
    )


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(problems().filter(fits_somewhere))
def test_any_sheets_against_enumeration(problem):
    """Sizes, weights, twins, suspects, two vessels, own times, narrow windows: as plain enumeration finds."""
    compare_with_enumeration(problem)


# A general solver: sheets to numbered loads, each load one vessel and one time.


def fewest_by_milp(problem, most_deviation, most_loads):
    sheets, vessels, grid = problem.sheets, problem.vessels, problem.grid_s
    latest = int(max(option.target_s for sheet in sheets for option in sheet.options)) + grid
    times = [
        (v, t) for v, vessel in enumerate(vessels) for t in (range(1, latest + 1) if not vessel.own_times else [0])
    ]
    allowed = []
    for i, sheet in enumerate(sheets):
        for option in sheet.options:
            for place, (v, t) in enumerate(times):
                if v != option.vessel:
                    continue
                on_grid = t % step_of(option, grid) == 0
                if vessels[v].own_times or (on_grid and deviation_at(option, t) <= most_deviation):
                    allowed.append((i, place, option))
    useful = sorted({place for _, place, _ in allowed})
    masks = {place: frozenset(i for i, p, _ in allowed if p == place) for place in useful}
    useful = [
        p
        for p in useful
        if not any(
            times[p][0] == times[o][0] and (masks[p] < masks[o] or (masks[p] == masks[o] and o < p)) for o in useful
        )
    ]
    columns = [("time", n, p) for n in range(most_loads) for p in useful]
    columns += [("in", n, i, p) for n in range(most_loads) for i, p, _ in allowed if p in set(useful)]
    at = {column: place for place, column in enumerate(columns)}
    rows, low, high = [], [], []

    def add(terms, least, most):
        row = np.zeros(len(columns))
        for column, factor in terms:
            row[at[column]] += factor
        rows.append(row)
        low.append(least)
        high.append(most)

    where = {(i, p): option for i, p, option in allowed}
    inside = [column for column in columns if column[0] == "in"]
    for i in range(len(sheets)):
        add([(column, 1) for column in inside if column[2] == i], 1, 1)
    for n in range(most_loads):
        add([(("time", n, p), 1) for p in useful], 0, 1)
        for p in useful:
            vessel = vessels[times[p][0]]
            there = [column for column in inside if column[1] == n and column[3] == p]
            add([(c, where[c[2], p].share) for c in there] + [(("time", n, p), -vessel.places)], -np.inf, 0)
            if vessel.agent is not None:
                add([(c, where[c[2], p].agent) for c in there] + [(("time", n, p), -vessel.agent)], -np.inf, 0)
            for column in there:
                add([(column, 1), (("time", n, p), -1)], -np.inf, 0)
                if vessel.own_times and vessel.spacing_s:
                    room = math.floor(where[column[2], p].target_s / vessel.spacing_s + 1e-12)
                    add([(c, 1) for c in there] + [(column, len(sheets))], -np.inf, room + len(sheets))
        for i, sheet in enumerate(sheets):
            mine = [column for column in inside if column[1] == n and column[2] == i]
            for j, other in enumerate(sheets):
                theirs = [column for column in inside if column[1] == n and column[2] == j]
                twins = problem.twins_apart and sheet.twin == other.id
                if i != j and (twins or (problem.suspects_alone and sheet.suspect)):
                    add([(c, 1) for c in mine + theirs], -np.inf, 1)
    for n in range(most_loads - 1):
        add([(("time", n, p), 1) for p in useful] + [(("time", n + 1, p), -1) for p in useful], 0, np.inf)
    result = milp(
        [1.0 if column[0] == "time" else 0.0 for column in columns],
        integrality=np.ones(len(columns)),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(np.array(rows), low, high),
    )
    return round(result.fun) if result.x is not None else None


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(problems(most=14).filter(lambda problem: len(problem.sheets) >= 8 and fits_somewhere(problem)))
def test_any_sheets_against_a_general_solver(problem):
    """With 8 to 14 sheets a general solver finds as many loads, and none fewer below each rung's deviation."""
    ladder = solve_ladder(problem, rungs=1)
    found = ladder.rung(ladder.fewest)
    assert fewest_by_milp(problem, 1.0, ladder.fewest) == ladder.fewest
    if ladder.fewest > 1:
        assert fewest_by_milp(problem, 1.0, ladder.fewest - 1) is None
    for rung in ladder.rungs:
        assert rung.worst_proved
        assert fewest_by_milp(problem, rung.worst, rung.number) is not None
        if rung.worst > 0:
            assert fewest_by_milp(problem, rung.worst - 1e-9, rung.number) is None
    check_loads(problem, found.loads, found.worst)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(problems().filter(fits_somewhere), st.randoms(use_true_random=False))
def test_order_of_sheets_does_not_matter(problem, chance):
    """The same sheets in another order give the same plan and the same ladder."""
    shuffled = list(problem.sheets)
    chance.shuffle(shuffled)
    other = problem._replace(sheets=tuple(shuffled))
    assert solve_fewest(other) == solve_fewest(problem)
    assert solve_ladder(other) == solve_ladder(problem)


@settings(max_examples=60, deadline=None)
@given(st.lists(equal_problems(most=4), min_size=1, max_size=3))
def test_ladders_combined_against_all_splits(groups):
    """The best split of a total is the best of all splits."""
    ladders = [solve_ladder(problem) for problem in groups]
    combined = combine_ladders(ladders)
    splits = {0: 0.0}
    for ladder in ladders:
        after = {}
        for total, worst in splits.items():
            for rung in ladder.rungs:
                value = max(worst, rung.worst)
                key = total + rung.number
                after[key] = min(after.get(key, math.inf), value)
        splits = after
    assert {rung.number: rung.worst for rung in combined} == splits
    for rung in combined:
        assert sum(rung.split) == rung.number


def test_relative_deviation_is_one_at_the_edge():
    """The deviation of a bare time is 0 at the time and 1 at the edge of its window."""
    deviation = RelativeDeviation(450.0, 1.1)
    assert deviation(450.0) == 0.0
    assert deviation(495.0) == pytest.approx(1.0, abs=1e-12)
    assert deviation(450 / 1.1) == pytest.approx(1.0, abs=1e-12)


# The ways of the planner against each other: small problems are decided by the first that can, so that the general
# ones would otherwise hardly be tried here.


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(problems(most=12).filter(fits_somewhere), st.sampled_from([0.3, 0.7, 1.0, 2.0, 6.0]))
def test_every_way_bounds_and_plans_alike(problem, deviation):
    """Looking, patterns and columns agree: no bound above the fewest loads, no plan below, every plan allowed."""
    model = Model(problem)
    if not model.count:
        return
    most = max(deviation, *(model.least_deviation(sheet) for sheet in model.shared), 0.0)
    nothing = Cover(1, [(vessel, [sheet]) for sheet in model.shared for vessel in [nearest(model, sheet, most)]])
    exact = cover_small(model, most, nothing)
    if exact is None:
        return
    assert exact.closed
    for cover in (
        cover_quickly(model, most),
        cover_by_patterns(model, most, nothing),
        cover_by_columns(model, most, nothing),
        cover_for(model, most, len(exact.batches), nothing),
    ):
        assert cover.lower <= len(exact.batches) <= len(cover.batches)
        assert sorted(sheet for _, members in cover.batches for sheet in members) == list(model.shared)
        for vessel, members in cover.batches:
            assert allowed(model, vessel, members)
            assert model.timed(vessel, members).worst <= most
    assert cover_by_columns(model, most, nothing).closed
    assert cover_for(model, most, len(exact.batches) - 1, nothing).lower >= len(exact.batches)


def nearest(model, sheet, most):
    """A vessel in which the sheet alone keeps the deviation."""
    return min(model.options[sheet], key=lambda vessel: (model.timed(vessel, (sheet,)).worst > most, vessel))


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])
@given(
    st.lists(st.tuples(st.sampled_from([1, 2, 3]), st.integers(0, 4), st.integers(0, 5)), min_size=1, max_size=6),
    st.integers(3, 7),
    st.none() | st.integers(4, 12),
    st.integers(1, 6),
)
def test_packing_against_all_subsets(rows, places, agent, tenths):
    """The best filling of a vessel is that of all subsets, and the list of full fillings is complete."""
    sheets = tuple(
        SheetNeed(f"s{index}", (option_by_time(0, 100.0 + index, 1.5, share, weight),))
        for index, (share, weight, _) in enumerate(rows)
        if agent is None or weight <= agent
    )
    if not sheets:
        return
    problem = LoadProblem(sheets, (VesselLimit("drum", places, agent),))
    model = Model(problem)
    kinds = kinds_of(model)
    (choice,) = choices_of(model, kinds, 50.0) if model.reach(50.0) is None else ()
    worth = {f"s{index}": value * tenths / 10 for index, (_, _, value) in enumerate(rows)}
    prices = [worth[model.sheets[kind.sheets[0]].id] for kind in kinds]
    packer = Packer(model, kinds, choice, [len(kind.sheets) for kind in kinds])
    fitting = [
        mask
        for mask in range(1 << len(kinds))
        if model.holds(0, [kinds[i].sheets[0] for i in range(len(kinds)) if mask >> i & 1])
    ]
    values = {mask: sum(prices[i] for i in range(len(kinds)) if mask >> i & 1) for mask in fitting}
    best, chosen = packer.best(prices)
    assert best == pytest.approx(max(values.values()), abs=1e-9)
    assert sum(prices[index] for index in chosen) == pytest.approx(best, abs=1e-9)
    least = max(values.values()) * 0.7
    full = {
        tuple(i for i in range(len(kinds)) if mask >> i & 1)
        for mask in fitting
        if mask
        and values[mask] >= least
        and not any(mask | 1 << i in fitting for i in range(len(kinds)) if not mask >> i & 1)
    }
    assert packer.all_above(prices, least, 500) == full
