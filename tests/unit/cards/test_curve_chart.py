"""Characteristic curves as geometry."""

from __future__ import annotations

from itertools import pairwise

from wetside.cards.curve_chart import BOTTOM, LABEL_HEIGHT, LEFT, NARROW, RIGHT, TOP, curve_chart
from wetside.values.curve import characteristic_curve


def curves(count=4, step=0.0):
    log_h = [-2.5 + 0.15 * i for i in range(21)]
    return [
        (
            5.0 + i,
            characteristic_curve(
                300.0 + 60.0 * i,
                log_h,
                [0.1 + (0.4 + step * i) * max(0.0, x + 1.8) + 0.001 * j for j, x in enumerate(log_h)],
            ),
        )
        for i in range(count)
    ]


def test_each_curve_has_its_time_and_readings():
    """Each curve is a line through its readings, with its developing time beside it."""
    chart = curve_chart(curves(3, 0.1))
    assert sorted(curve.text for curve in chart.curves) == ["5:00", "6:00", "7:00"]
    assert all(len(curve.readings) == 21 for curve in chart.curves)
    for curve in chart.curves:
        assert all(LEFT - 0.01 <= x <= RIGHT + 0.01 and TOP - 0.01 <= y <= BOTTOM + 0.01 for x, y in curve.line)


def test_labels_of_like_curves_do_not_overlap():
    """Curves that end at one density have labels a line apart, all above the axis."""
    heights = [curve.text_y for curve in curve_chart(curves(6)).curves]
    assert all(low - high >= LABEL_HEIGHT - 1e-6 for high, low in pairwise(heights))
    assert heights[-1] <= BOTTOM + 1e-6


def test_a_phone_s_drawing_holds_the_same_curves_inside_its_own_frame():
    """No value differs, only where it stands: a label a line apart, few steps on each axis, room for the times."""
    broad, narrow = curve_chart(curves(5, 0.1)), curve_chart(curves(5, 0.1), NARROW)
    assert (narrow.title, narrow.description) == (broad.title, broad.description)
    for curve, other in zip(narrow.curves, broad.curves, strict=True):
        assert curve.text == other.text
        assert all(NARROW.left - 0.01 <= x <= NARROW.right + 0.01 for x, _ in curve.line)
        assert all(NARROW.top - 0.01 <= y <= NARROW.bottom + 0.01 for _, y in curve.line)
    assert max(len(narrow.across), len(narrow.up)) <= NARROW.most_ticks + 1
    assert all(low.text_y - high.text_y >= NARROW.label_height - 1e-6 for high, low in pairwise(narrow.curves))
