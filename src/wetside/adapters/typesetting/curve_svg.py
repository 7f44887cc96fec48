"""Characteristic curves as SVG."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.adapters.typesetting.pen import Pen
from wetside.cards.curve_chart import BOTTOM, HEIGHT, LEFT, RIGHT, TOP, WIDTH

if TYPE_CHECKING:
    from wetside.cards.curve_chart import CurveChart


def curve_svg(chart: CurveChart, theme: str = "light") -> str:
    """Draw characteristic curves.

    Parameters
    ----------
    chart : CurveChart
    theme : str
        ``light`` or ``dark``.

    Raises
    ------
    UnknownNameError
        If the theme is not known.
    """
    pen = Pen(theme)
    pen.begin("curves", chart.title, chart.description, WIDTH, HEIGHT)
    for mark in chart.up:
        pen.line(LEFT, mark.at, RIGHT, mark.at, "line", 1)
        pen.text(LEFT - 8, mark.at + 4.5, mark.text, "soft", 13, "end")
    for mark in chart.across:
        pen.line(mark.at, TOP, mark.at, BOTTOM, "line", 1)
        pen.text(mark.at, BOTTOM + 20, mark.text, "soft", 13, "middle")
    pen.text(LEFT, TOP - 9, chart.up_title, "soft", 13)
    pen.text(RIGHT, BOTTOM + 42, chart.across_title, "soft", 13, "end")
    for curve in chart.curves:
        way = " ".join(f"{x:.1f},{y:.1f}" for x, y in curve.line)
        pen.parts.append(
            f'<polyline points="{way}" {pen.paint(fill="none", stroke="ink")} stroke-width="1.8" '
            'stroke-linejoin="round"/>'
        )
        for x, y in curve.readings:
            pen.parts.append(
                f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.2" {pen.paint(fill="ink", stroke="paper")} '
                'stroke-width="1.2"/>'
            )
        end_x, end_y = curve.line[-1]
        if abs(curve.text_y - end_y) > 1.0 or end_x < RIGHT - 1.0:
            pen.line(end_x + 4, end_y, RIGHT + 8, curve.text_y, "deep", 0.8)
        pen.text(RIGHT + 12, curve.text_y + 5, curve.text, "accent", 14.5, weight=700)
    return pen.finished()
