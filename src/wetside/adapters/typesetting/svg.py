"""The window chart as SVG: presentation attributes only, so that it needs no style sheet around it."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from wetside.adapters.typesetting.pen import Pen
from wetside.cards.window_chart import LEGEND_LINE

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.cards.chart_frame import Frame
    from wetside.cards.window_chart import Bar, LoadLine, WindowChart


def svg_of_chart(chart: WindowChart, theme: str = "light", *, in_page: bool = False) -> str:
    """Draw the window chart.

    Parameters
    ----------
    chart : WindowChart
    theme : str
        ``light`` or ``dark``.
    in_page : bool
        Take the colours from the page's CSS variables instead, and leave the ground to the page.

    Raises
    ------
    UnknownNameError
        If the theme is not known.
    """
    pen = Pen(theme, in_page=in_page)
    frame = chart.frame
    pen.begin(f"windows-{round(frame.width)}", chart.title, chart.description, frame.width, chart.height)
    draw_chart(pen, chart)
    return pen.finished()


def draw_chart(pen: Pen, chart: WindowChart, around_bar: Callable[[Bar], tuple[str, str]] | None = None) -> None:
    """Draw the chart with a pen.

    Parameters
    ----------
    pen : Pen
        Begun.
    chart : WindowChart
    around_bar : callable, optional
        What stands before and after each bar: a link, where a page can be walked bar by bar.
    """
    frame = chart.frame
    for tick in chart.ticks:
        pen.line(tick.x, chart.top - 4, tick.x, chart.bottom, "line", 1)
        pen.text(tick.x, chart.bottom + 18, tick.text, "soft", 13, "middle")
    for line in chart.lines:
        _draw_stem(pen, line)
    for line in chart.lines:
        _draw_label(pen, line)
    for bar in chart.bars:
        before, after = around_bar(bar) if around_bar is not None else ("", "")
        pen.parts.append(before)
        _draw_bar(pen, bar, frame)
        pen.parts.append(after)
    for line in chart.lines:
        _draw_load(pen, line)
    for bar in chart.bars:
        _draw_words(pen, bar, frame)
        _draw_crossing(pen, bar)
    for index, words in enumerate(chart.legend):
        pen.text(frame.name_x, chart.bottom + 46 + LEGEND_LINE * index, words, "soft", 12.5)


def _draw_words(pen: Pen, bar: Bar, frame: Frame) -> None:
    """Sheet and film; above a bar they stand on the lines of the loads, which a rim of paper keeps off them."""
    rim = "paper" if frame.words_above else ""
    pen.text(frame.name_x, bar.name_y, bar.name, "ink", 14.5, rim=rim)
    # The film gives way to what must be told of a bar outside its window.
    if not (frame.words_above and bar.crossing.text):
        pen.text(bar.film_x, bar.name_y, bar.film, "soft", 13, rim=rim)
    if bar.crossing.text:
        where = bar.crossing
        pen.text(where.text_x, where.text_y, where.text, "warn", 13, where.text_anchor, 700, rim=rim)


def _draw_bar(pen: Pen, bar: Bar, frame: Frame) -> None:
    low_x, high_x = max(bar.low_x, frame.left - 4), min(bar.high_x, frame.right + 4)
    pen.parts.append(
        f'<rect x="{low_x:.1f}" y="{bar.y - 5:.1f}" width="{max(high_x - low_x, 2):.1f}" height="10" rx="5" '
        f"{pen.paint(fill='tone')}/>"
    )
    pen.line(bar.own_x, bar.y - 9, bar.own_x, bar.y + 9, "ink", 2)


def _draw_label(pen: Pen, line: LoadLine) -> None:
    """A load's name and time; the stem of a label further up may pass behind them."""
    pen.text(line.label_x, line.label_y, line.name, "soft", 12, "middle", rim="paper")
    pen.text(line.label_x, line.label_y + 15, line.time, "accent", 14.5, "middle", 700, rim="paper")


def _draw_stem(pen: Pen, line: LoadLine) -> None:
    """The thin way from the label to the first bar that the load serves."""
    stem = [point for point in line.points if point[1] < line.first_y]
    x = line.points[-1][0] if len(line.points) <= 3 else line.points[len(stem)][0]
    stem = [*stem, (x, line.first_y)]
    for (x1, y1), (x2, y2) in pairwise(stem):
        pen.line(x1, y1, x2, y2, "accent", 1)


def _draw_load(pen: Pen, line: LoadLine) -> None:
    """The strong line through the bars that it serves."""
    below = [point for point in line.points if point[1] >= line.first_y]
    if not below:
        return
    through = [(below[0][0], line.first_y), *below]
    for (x1, y1), (x2, y2) in pairwise(through):
        pen.line(x1, y1, x2, y2, "accent", 2.4)


def _draw_crossing(pen: Pen, bar: Bar) -> None:
    x, y = bar.crossing.x, bar.crossing.y
    ring = pen.paint(fill="accent", stroke="paper")
    if bar.crossing.inside:
        pen.parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="6.5" {ring} stroke-width="2"/>')
        return
    near = bar.low_x if x < bar.low_x else bar.high_x
    pen.line(near, y, x, y, "warn", 1.5, ' stroke-dasharray="3 3"')
    pen.parts.append(
        f'<path d="M{x:.1f} {y - 8:.1f}l8 8l-8 8l-8 -8z" {pen.paint(fill="paper", stroke="warn")} stroke-width="2.4"/>'
    )
