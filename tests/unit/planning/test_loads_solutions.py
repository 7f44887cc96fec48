"""Plans of loads whose answer can be worked out by hand."""

import random

import pytest

from wetside.errors import ConflictError, OutOfRangeError, RefusedError, UnknownNameError, WetsideError
from wetside.planning.loads import (
    LoadProblem,
    SheetNeed,
    VesselLimit,
    VesselOption,
    count_fewest,
    option_by_time,
    solve_fewest,
    solve_ladder,
)
from wetside.wording import known_codes

DRUM = VesselLimit("drum", 8)


def sheet(name, time_s, *, vessel=0, share=1, agent=0, ratio=1.1, **more):
    return SheetNeed(name, (option_by_time(vessel, time_s, ratio, share, agent),), **more)


def two_films():
    """Example B1: four sheets of 7:30 and four of 9:00; windows 410 to 495 s and 495 to 590 s on the grid."""
    return LoadProblem(
        tuple(sheet(f"{film}{n}", time_s) for film, time_s in (("A", 450.0), ("B", 540.0)) for n in range(4)), (DRUM,)
    )


def test_two_films_share_a_load_at_the_common_end_of_their_windows():
    """Two films whose windows meet in one point share one load there, at 8:15."""
    solution = solve_fewest(two_films())
    assert [(load.time_s, len(load.members)) for load in solution.loads] == [(495, 8)]
    assert (solution.lower_bound, solution.proved, solution.worst_proved, solution.gap) == (1, True, True, 0)
    assert solution.worst == pytest.approx(1.0)
    assert solution.next_worst is None


def test_two_loads_bring_both_films_to_their_own_times():
    """The second rung gives each film its own time, without deviation and without a broken window."""
    rung = solve_ladder(two_films()).rung(2)
    assert [(load.time_s, load.members) for load in rung.loads] == [
        (450, ("A0", "A1", "A2", "A3")),
        (540, ("B0", "B1", "B2", "B3")),
    ]
    assert (rung.worst, rung.worst_proved, rung.next_worst, rung.broken) == (0.0, True, 0.0, ())


def test_a_rung_below_the_windows_names_the_sheets_that_break():
    """With fewer loads than the windows allow, deviations pass 1 and the sheets are named."""
    ladder = solve_ladder(LoadProblem((sheet("a", 300.0), sheet("b", 420.0)), (DRUM,)))
    assert (ladder.fewest, ladder.least, ladder.lower_bound) == (2, 1, 2)
    rung = ladder.rung(1)
    # ln(355/300)/ln 1.1 = 1.766 and ln(420/355)/ln 1.1 = 1.764
    assert (rung.loads[0].time_s, rung.broken) == (355, ("a", "b"))
    assert rung.worst == pytest.approx(1.766, abs=5e-4)
    assert ladder.rung(3) is None


def test_rungs_can_be_limited_around_the_fewest():
    """A limit keeps as many rungs below and above the fewest loads."""
    problem = LoadProblem(tuple(sheet(f"s{n}", 300.0 * 1.08**n) for n in range(8)), (DRUM,))
    whole, near = solve_ladder(problem), solve_ladder(problem, rungs=1)
    assert [rung.number for rung in near.rungs] == [near.fewest - 1, near.fewest, near.fewest + 1]
    assert [rung.worst for rung in near.rungs] == [whole.rung(rung.number).worst for rung in near.rungs]


def test_the_next_worst_is_made_smaller_too():
    """Beyond the worst pair, sheets stand with their own kind and not wherever they fit."""
    times = (400.0, 400.0, 430.0, 430.0, 600.0, 630.0)
    problem = LoadProblem(tuple(sheet(f"s{n}", t) for n, t in enumerate(times)), (VesselLimit("drum", 2),))
    solution = solve_fewest(problem)
    assert [load.members for load in solution.loads] == [("s0", "s1"), ("s2", "s3"), ("s4", "s5")]
    assert solution.next_worst == 0.0


def test_suspects_stand_alone_and_count():
    """A suspect takes a load of its own at its own time, and counts in the bound; the rule can be dropped."""
    problem = LoadProblem((sheet("a", 450.0), sheet("b", 450.0), sheet("s", 462.0, suspect=True)), (DRUM,))
    solution = solve_fewest(problem)
    assert [(load.members, load.time_s) for load in solution.loads] == [(("a", "b"), 450), (("s",), 460)]
    assert (solution.lower_bound, solution.proved) == (2, True)
    assert count_fewest(problem._replace(suspects_alone=False)) == (1, 1)


def test_twins_stand_apart_and_count():
    """Twins never share a load; what the rule costs is the difference to the plan without it."""
    problem = LoadProblem((sheet("a", 450.0, twin="b"), sheet("b", 450.0)), (DRUM,))
    assert (len(solve_fewest(problem).loads), count_fewest(problem)) == (2, (2, 2))
    assert count_fewest(problem._replace(twins_apart=False)) == (1, 1)


def test_twins_cost_no_load_where_others_can_change_places():
    """Twins that the first filling puts together are exchanged with sheets of another load."""
    sheets = tuple(sheet(f"s{n}", 450.0, twin=f"s{n ^ 1}") for n in range(16))
    solution = solve_fewest(LoadProblem(sheets, (DRUM,)))
    assert (len(solution.loads), solution.proved) == (2, True)
    for load in solution.loads:
        assert len({int(name[1:]) // 2 for name in load.members}) == 8


def test_a_twin_that_is_not_there_is_none():
    """A twin in another group, or the sheet itself, keeps nothing apart."""
    problem = LoadProblem((sheet("a", 450.0, twin="elsewhere"), sheet("b", 450.0, twin="b")), (DRUM,))
    assert count_fewest(problem) == (1, 1)


def test_sheets_with_their_own_times_share_a_tray():
    """In a tray each sheet has its own time: the batch is limited by places and hands, and nothing deviates."""
    tray = VesselLimit("tray", 6, own_times=True, spacing_s=20.0)
    solution = solve_fewest(LoadProblem((sheet("a", 300.0), sheet("b", 420.0), sheet("c", 600.0)), (tray,)))
    (load,) = solution.loads
    assert (load.members, load.time_s, load.worst) == (("c", "b", "a"), 600.0, 0.0)
    assert solution.proved


def test_hands_limit_a_tray_with_short_times():
    """The count times the spacing may not pass the shortest time: 40 s leaves hands for two sheets at 20 s."""
    tray = VesselLimit("tray", 8, own_times=True, spacing_s=20.0)
    sheets = (sheet("short", 40.0), *(sheet(f"long{n}", 100.0) for n in range(4)))
    solution = solve_fewest(LoadProblem(sheets, (tray,)))
    assert sorted(len(load.members) for load in solution.loads) == [2, 3]
    assert count_fewest(LoadProblem((*sheets, sheet("long4", 100.0)), (tray,))) == (2, 2)
    assert count_fewest(LoadProblem((*sheets, sheet("long4", 100.0), sheet("long5", 100.0)), (tray,))) == (2, 2)
    assert count_fewest(LoadProblem((*sheets, *(sheet(f"more{n}", 100.0) for n in range(3))), (tray,))) == (3, 3)


def test_agent_limits_a_load_as_places_do():
    """A load holds what the developing agent reaches for, though places are free."""
    drum = VesselLimit("drum", 8, agent=100)
    sheets = tuple(sheet(f"s{n}", 450.0, agent=30) for n in range(8))
    assert count_fewest(LoadProblem(sheets, (drum,))) == (3, 3)


def test_mixed_sizes_fill_the_drum():
    """Sizes that fill the drum only in the right company are put together: 3 + 3 and 2 + 2 + 2 places of 6."""
    sheets = (
        *(sheet(f"large{n}", 450.0, share=3) for n in range(4)),
        *(sheet(f"small{n}", 450.0, share=2) for n in range(6)),
    )
    solution = solve_fewest(LoadProblem(sheets, (VesselLimit("drum", 6),)))
    assert (len(solution.loads), solution.proved) == (4, True)


def test_a_small_load_goes_into_the_small_vessel():
    """Of vessels that would do, the one that the load fills most is taken, or the one that is preferred."""
    vessels = (VesselLimit("large", 8), VesselLimit("small", 3))
    sheets = tuple(SheetNeed(f"s{n}", (option_by_time(0, 450.0), option_by_time(1, 450.0))) for n in range(10))
    problem = LoadProblem(sheets, vessels)
    assert sorted((load.vessel, len(load.members)) for load in solve_fewest(problem).loads) == [(0, 8), (1, 2)]
    liked = problem._replace(preference=(0, 1))
    assert {load.vessel for load in solve_fewest(liked).loads} == {0}


def test_a_sheet_goes_where_its_window_is():
    """A sheet with different times in two vessels is planned with the time of the one it is in."""
    both = SheetNeed("b", (option_by_time(0, 450.0), option_by_time(1, 600.0)))
    problem = LoadProblem((both, sheet("t", 600.0, vessel=1)), (DRUM, VesselLimit("slow drum", 8)))
    (load,) = solve_fewest(problem).loads
    assert (load.vessel, load.time_s, load.worst) == (1, 600, 0.0)


def test_a_window_without_a_grid_point_is_planned_to_the_second():
    """A window too narrow for the 5-second grid is planned to 1 s; sheets on the grid do not share those points."""
    narrow = sheet("narrow", 392.5, ratio=1.004)
    (load,) = solve_fewest(LoadProblem((narrow,), (DRUM,))).loads
    assert load.time_s in (392, 393)
    assert count_fewest(LoadProblem((narrow, sheet("wide", 392.5)), (DRUM,))) == (2, 2)


def test_a_window_that_ends_where_tests_end_is_not_left():
    """A deviation function that says less than 1 outside the window does not widen it."""
    short = SheetNeed("a", (VesselOption(0, 440.0, 460.0, 450.0, lambda t: abs(t - 450.0) / 1000.0),))
    ladder = solve_ladder(LoadProblem((short, sheet("b", 520.0)), (DRUM,)))
    assert ladder.fewest == 2
    assert ladder.rung(1).broken == ("a",)


def test_no_sheets_need_no_loads():
    """Nothing to develop is a plan without loads."""
    problem = LoadProblem((), (DRUM,))
    assert solve_fewest(problem) == ((), 0, True, 0.0, True, None)
    assert [(rung.number, rung.worst) for rung in solve_ladder(problem).rungs] == [(0, 0.0)]


def test_the_order_of_sheets_changes_nothing():
    """Three hundred sheets of three sizes in any order give the same plan."""
    chance = random.Random(7)
    sheets = [
        sheet(f"s{n:03d}", chance.choice([400.0, 450.0, 500.0, 560.0]), ratio=chance.choice([1.05, 1.1]))
        for n in range(300)
    ]
    first = solve_fewest(LoadProblem(tuple(sheets), (DRUM,)))
    chance.shuffle(sheets)
    assert solve_fewest(LoadProblem(tuple(sheets), (DRUM,))) == first


@pytest.mark.parametrize(
    ("problem", "error", "code"),
    [
        (LoadProblem((sheet("a", 9.0),), (DRUM,), grid_s=0), OutOfRangeError, "grid_not_positive"),
        (LoadProblem((sheet("a", 9.0), sheet("a", 9.0)), (DRUM,)), ConflictError, "id_twice"),
        (LoadProblem((sheet("a", 9.0, vessel=1),), (DRUM,)), UnknownNameError, "vessel_unknown"),
        (LoadProblem((), (DRUM,), preference=(1,)), UnknownNameError, "vessel_unknown"),
        (LoadProblem((sheet("a", 9.0, share=9),), (DRUM,)), RefusedError, "fits_nowhere"),
        (LoadProblem((SheetNeed("a", ()),), (DRUM,)), RefusedError, "fits_nowhere"),
        (LoadProblem((sheet("a", 9.0, share=0),), (DRUM,)), OutOfRangeError, "share_not_positive"),
        (LoadProblem((), (VesselLimit("drum", 0),)), OutOfRangeError, "places_not_positive"),
        (LoadProblem((), (VesselLimit("drum", 1, -1),)), OutOfRangeError, "agent_negative"),
        (LoadProblem((), (VesselLimit("tray", 1, None, True, float("nan")),)), OutOfRangeError, "spacing_out_of_range"),
        (
            LoadProblem((SheetNeed("a", (VesselOption(0, 9.0, 7.0, 8.0, abs),)),), (DRUM,)),
            OutOfRangeError,
            "window_out_of_order",
        ),
        (
            LoadProblem((SheetNeed("a", (option_by_time(0, 9.0), option_by_time(0, 9.0))),), (DRUM,)),
            ConflictError,
            "vessel_twice",
        ),
    ],
)
def test_a_problem_without_meaning_is_refused(problem, error, code):
    """Impossible limits, shares, windows and names are refused with a code that has a sentence."""
    with pytest.raises(error) as caught:
        solve_fewest(problem)
    assert isinstance(caught.value, WetsideError)
    assert caught.value.code == f"planning.loads.{code}"
    assert caught.value.code in known_codes("planning")
