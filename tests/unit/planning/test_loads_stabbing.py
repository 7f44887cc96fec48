"""Equal sheets: windows stabbed by times."""

import pytest

from wetside.planning.loads.hands import share_hands
from wetside.planning.loads.points import PointTable
from wetside.planning.loads.stabbing import separate, stab


def test_the_load_takes_the_windows_that_end_first():
    """A full load leaves the sheet whose window ends last for a later load."""
    assert stab([(400, 500), (400, 450), (440, 480)], 2) == [(450, [1, 2]), (500, [0])]


def test_a_limit_of_loads_ends_the_search():
    """No plan is made beyond the wanted number of loads."""
    assert stab([(400, 410), (420, 430), (440, 450)], 8, most=2) is None
    assert len(stab([(400, 410), (420, 430)], 8, most=2)) == 2


def test_sheets_that_must_be_apart_are_skipped():
    """A sheet whose twin is in the load waits for the next."""
    assert stab([(400, 500)] * 3, 8, [[1], [0], []]) == [(500, [0, 2]), (500, [1])]


def test_sheets_that_cannot_change_places_are_told():
    """Separating fails where no other load's time lies in the windows of the two."""
    groups = [(400, [0, 1]), (500, [2])]
    assert not separate(groups, [(390, 410), (390, 410), (490, 510)], [[1], [0], []], 2)


def test_batches_are_filled_from_the_shortest_time():
    """The shortest time limits its batch, so the next shortest go with it."""
    assert share_hands([60.0, 300.0, 80.0, 300.0], 8, 30.0) == [[0, 2], [1, 3]]


@pytest.mark.parametrize("most", [0.0, 0.5, 1.0])
def test_points_within_a_deviation_lie_around_the_target(most):
    """The reckoned points of a table within a deviation are exactly those of its function."""
    table = PointTable(410.0, 490.0, 450.0, lambda t: abs(t - 450.0) / 40.0, 5)
    table.reach(300, 600, 2.0)
    inside = [t for t in range(300, 605, 5) if abs(t - 450) / 40 <= most]
    assert table.span(most) == (inside[0], inside[-1])
    assert table.below(0.5) == pytest.approx(0.375)
    assert sorted(table.between(0.0, 0.3)) == [0.125, 0.125, 0.25, 0.25]
