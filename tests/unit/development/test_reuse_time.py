"""Used developer: steps by area, where it ends, and which sheets stay out."""

from __future__ import annotations

import pytest

from wetside.adapters.ways_data import load_reuse_rules, reuse_rule_for
from wetside.development import ReuseRule, UsedArea, require_window_for_reuse, reused_time
from wetside.errors import WetsideError
from wetside.values.evidence import Evidence, Source
from wetside.values.window import Window

UNIT = 516.128
RULE = ReuseRule("Brackwater", "stock", 10.0, 0.1, one_session=False, source=Source("own notes"))


def codes(time) -> list[str]:
    return [remark.code.rpartition(".")[2] for remark in time.remarks]


def test_unused_developer_is_the_standard() -> None:
    """The first load has the standard time, its evidence and no remark."""
    first = reused_time(480, [], UNIT, RULE)
    assert (first.number, first.factor, first.remarks) == (1, 1.0, ())
    assert first.time.evidence is Evidence.PUBLISHED
    assert first.time.spread == 0.0


def test_parts_of_a_film_do_not_step_yet() -> None:
    """Three 4x5 sheets are no film yet, but the time is converted and its spread is half a step."""
    next_ = reused_time(480, [UsedArea(UNIT / 4)] * 3, UNIT, RULE)
    assert (next_.number, next_.factor) == (1, 1.0)
    assert next_.time.evidence is Evidence.CONVERTED
    assert next_.time.spread == pytest.approx(24)


def test_more_litres_step_more_slowly() -> None:
    """Five litres step after five films, and take five times as many."""
    fifth, sixth = (reused_time(480, [UsedArea(UNIT)] * n, UNIT, RULE, litres=5.0) for n in (4, 5))
    assert (fifth.factor, sixth.factor) == (1.0, 1.1)
    assert sixth.left_units == pytest.approx(44)


def test_the_load_itself_must_fit() -> None:
    """A load that would pass the count is refused as a whole."""
    assert reused_time(480, [UsedArea(UNIT)] * 8, 2 * UNIT, RULE).left_units == pytest.approx(0)
    with pytest.raises(WetsideError) as caught:
        reused_time(480, [UsedArea(UNIT)] * 8, 2.1 * UNIT, RULE)
    assert caught.value.code == "development.reuse.used_up"


@pytest.mark.parametrize(("weight", "code"), [(1.5, "dense_history"), (0.6, "thin_history")])
def test_dense_and_thin_histories_are_said(weight: float, code: str) -> None:
    """The printed rule counts films, not density: an uneven history is said, and changes no time."""
    time = reused_time(480, [UsedArea(UNIT, weight)] * 2, UNIT, RULE)
    assert code in codes(time)
    assert time.factor == 1.2
    assert time.weighted_units == pytest.approx(2 * weight)


def test_no_push_in_used_developer() -> None:
    """Pushing is for fresh developer."""
    assert reused_time(480, [], UNIT, RULE, is_push=True).factor == 1.0
    with pytest.raises(WetsideError) as caught:
        reused_time(480, [UsedArea(UNIT)], UNIT, RULE, is_push=True)
    assert caught.value.code == "development.reuse.no_push"


def test_shipped_rules() -> None:
    """Dilutions for single use are refused, a session's developer is said, an unknown developer has no rule."""
    assert reuse_rule_for("Brackwater", "stock") is None
    assert codes(reused_time(600, [UsedArea(UNIT)], UNIT, reuse_rule_for("DD-X", "1+4")))[-1] == "one_session"
    with pytest.raises(WetsideError) as caught:
        reused_time(600, [], UNIT, reuse_rule_for("ID-11", "1+3"))
    assert caught.value.code == "development.reuse.single_use"
    assert len(load_reuse_rules()) == 10


def test_narrow_windows_stay_out() -> None:
    """Ten percent either side is wide enough, nine is not; unused developer takes any."""
    require_window_for_reuse(Window(600 / 1.1, 600 * 1.1), 4)
    require_window_for_reuse(Window(600, 600), 1)
    with pytest.raises(WetsideError) as caught:
        require_window_for_reuse(Window(600 / 1.09, 600 * 1.09), 2)
    assert caught.value.code == "development.reuse.window_narrow"
    with pytest.raises(WetsideError) as caught:
        require_window_for_reuse(Window(600, 500), 2)
    assert caught.value.code == "development.reuse.window_reversed"


@pytest.mark.parametrize(
    ("call", "code"),
    [
        (lambda: reused_time(0, [], UNIT, RULE), "time_not_positive"),
        (lambda: reused_time(480, [], 0, RULE), "area_not_positive"),
        (lambda: reused_time(480, [UsedArea(-1)], UNIT, RULE), "area_not_positive"),
        (lambda: reused_time(480, [UsedArea(UNIT, 0)], UNIT, RULE), "weight_not_positive"),
        (lambda: reused_time(480, [], UNIT, RULE, litres=0.5), "under_a_litre"),
        (lambda: reused_time(480, [], UNIT, RULE._replace(capacity_units=0.0)), "capacity_not_positive"),
    ],
)
def test_what_cannot_be_is_refused(call, code: str) -> None:
    """Impossible times, areas and volumes carry their code."""
    with pytest.raises(WetsideError) as caught:
        call()
    assert caught.value.code == f"development.reuse.{code}"
