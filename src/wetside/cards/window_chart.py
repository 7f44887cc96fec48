"""The window chart as geometry: time across, a bar over each sheet's window, a line for each load.

Lengths are in units of one CSS pixel at full size; whoever draws it may scale the whole.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.chart_frame import BROAD, Frame
from wetside.cards.count import counted, counted_first
from wetside.cards.label_places import tiers
from wetside.cards.names import clean, fitting, letters_wide
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from wetside.planning.documents.plan import Plan, PlannedSheet

MOST_BARS = 60
"""Sheets above which like ones share a bar. Our choice: what a page can hold."""

LABEL_LINE = 15.0
LEAST_LABEL = 46.0
LETTER_WIDTH = 6.4
NAME_LETTER_WIDTH = 7.6
"""Of the sheets' names, which are set larger than a load's."""
LEGEND_LINE = 16.0
OUTSIDE_ROOM = 90.0
"""What the words beside a bar need."""
_STEPS_S = (15.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1200.0, 1800.0, 3600.0)


class Tick(NamedTuple):
    """A moment named on the axis."""

    x: float
    text: str


class Crossing(NamedTuple):
    """Where a load meets a bar; ``inside`` is False where the load's time lies outside the window, told in ``text``."""

    x: float
    y: float
    inside: bool
    text: str = ""
    text_x: float = 0.0
    text_y: float = 0.0
    text_anchor: str = "start"


class Bar(NamedTuple):
    """A sheet, or several alike: the window from ``low_x`` to ``high_x``, the own time at ``own_x``.

    ``film`` stands at ``film_x``, both words on the line ``name_y``: beside the bar, or above it. ``sheet`` is the
    whole label, of the first of several.
    """

    name: str
    film: str
    film_x: float
    name_y: float
    y: float
    low_x: float
    high_x: float
    own_x: float
    crossing: Crossing
    summary: str
    sheet: str = ""


class LoadLine(NamedTuple):
    """A load, or several at the same time: its label, and the line down through the bars that it serves.

    ``label_x`` may be beside ``x`` where labels would overlap; ``points`` runs from the label to the last bar.
    """

    name: str
    time: str
    label_x: float
    label_y: float
    points: tuple[tuple[float, float], ...]
    first_y: float


class WindowChart(NamedTuple):
    """The whole drawing with its words; ``frame`` is what it was laid out in."""

    frame: Frame
    height: float
    top: float
    bottom: float
    title: str
    description: str
    ticks: tuple[Tick, ...]
    bars: tuple[Bar, ...]
    lines: tuple[LoadLine, ...]
    legend: tuple[str, ...]


class _Lot(NamedTuple):
    """Sheets that share a bar."""

    sheets: tuple[PlannedSheet, ...]
    loads: tuple[int, ...]

    @property
    def first(self) -> PlannedSheet:
        return self.sheets[0]


def window_chart(plan: Plan, frame: Frame = BROAD) -> WindowChart | None:
    """Lay out the window chart of a plan.

    Parameters
    ----------
    plan : Plan
    frame : Frame
        ``BROAD`` for paper and screen, ``NARROW`` for a phone.

    Returns
    -------
    window_chart : WindowChart or None
        None where no sheet has a time.
    """
    lots = _lots(plan.sheets)
    if not lots:
        return None
    low_s, high_s, step_s = _axis(plan.sheets, frame.most_ticks)

    def across(time_s: float) -> float:
        return frame.left + (frame.right - frame.left) * (time_s - low_s) / (high_s - low_s)

    groups = _lines_of(lots)
    names = [_load_name(sorted({number for index in members for number in lots[index].loads})) for _, members in groups]
    label = max([LEAST_LABEL, *(letters_wide(name) * LETTER_WIDTH + 12.0 for name in names)])
    placed = tiers([across(time_s) for time_s, _ in groups], label, frame.left, frame.right)
    top = 14.0 + LABEL_LINE * 2.4 * (1 + max((tier for _, tier in placed), default=0)) + 10.0
    bars = tuple(_bar(lot, top + frame.row * index, frame, across) for index, lot in enumerate(lots))
    lines = []
    for (time_s, members), (label_x, tier), name in zip(groups, placed, names, strict=True):
        label_y = 14.0 + LABEL_LINE * 2.4 * tier
        served = [bars[index] for index in members]
        stem = label_y + LABEL_LINE + 5.0
        x = across(time_s)
        points = [(label_x, stem), *((bar.crossing.x, bar.y) for bar in served)]
        if len({round(bar.crossing.x, 1) for bar in served}) == 1:
            elbow = top - 4.0
            points = [(label_x, stem), (x, elbow)] if abs(label_x - x) > 0.5 else [(x, stem)]
            points.append((x, served[-1].y))
        own = len({round(lots[index].first.load_time_s) for index in members}) > 1
        lines.append(
            LoadLine(
                name,
                sentence("cards.chart.own", {}) if own else shown(time_s, "mss"),
                label_x,
                label_y,
                tuple(points),
                served[0].y,
            )
        )
    bottom = top + frame.row * len(bars)
    count, loads = len(plan.sheets), len(plan.loads)
    ticks = tuple(
        Tick(across(low_s + step_s * i), shown(low_s + step_s * i, "mss"))
        for i in range(round((high_s - low_s) / step_s) + 1)
    )
    legend = _lines(sentence("cards.chart.legend", {}), frame.legend_letters)
    return WindowChart(
        frame,
        bottom + 42.0 + LEGEND_LINE * len(legend),
        top,
        bottom,
        sentence("cards.chart.title", {"sheets": counted_first("sheet", count), "loads": counted("load", loads)}),
        sentence("cards.chart.description", {"bars": "; ".join(bar.summary for bar in bars)}),
        ticks,
        bars,
        tuple(lines),
        legend,
    )


def _lots(sheets: Sequence[PlannedSheet]) -> list[_Lot]:
    order = {sheet.id: index for index, sheet in enumerate(sheets)}
    ranked = sorted(sheets, key=lambda one: (one.group, one.load_time_s, one.load, one.time_s, order[one.id]))
    if len(ranked) <= MOST_BARS:
        return [_Lot((sheet,), (sheet.load,)) for sheet in ranked]
    alike: dict[tuple[object, ...], list[PlannedSheet]] = {}
    for sheet in ranked:
        same = (
            sheet.group,
            sheet.film,
            sheet.process,
            round(sheet.time_s),
            round(sheet.load_time_s),
            tuple(round(end) for end in sheet.window_s),
        )
        alike.setdefault(same, []).append(sheet)
    return [_Lot(tuple(lot), tuple(sorted({one.load for one in lot}))) for lot in alike.values()]


def _axis(sheets: Iterable[PlannedSheet], most_ticks: int) -> tuple[float, float, float]:
    """First and last moment of the axis on whole steps, and the step, so that a handful of moments is named. [s]"""
    times = [time_s for sheet in sheets for time_s in (*sheet.window_s, sheet.time_s, sheet.load_time_s)]
    low_s, high_s = min(times), max(times)
    for step_s in _STEPS_S:
        first, last = math.floor(low_s / step_s), math.ceil(high_s / step_s)
        if last - first <= most_ticks:
            break
    return first * step_s, max(last, first + 2) * step_s, step_s


def _lines_of(lots: Sequence[_Lot]) -> list[tuple[float, list[int]]]:
    """Bars that share a line: those of one time and group, or of one load where each sheet has its own time."""
    times: dict[int, set[int]] = {}
    for lot in lots:
        for number in lot.loads:
            times.setdefault(number, set()).add(round(lot.first.load_time_s))
    found: dict[tuple[object, ...], list[int]] = {}
    for index, lot in enumerate(lots):
        sheet = lot.first
        own = len(times[lot.loads[0]]) > 1
        same: tuple[object, ...] = ("load", lot.loads[0]) if own else (sheet.group, round(sheet.load_time_s))
        found.setdefault(same, []).append(index)
    lines = [(lots[members[0]].first.load_time_s, members) for members in found.values()]
    return sorted(lines, key=lambda line: (line[0], line[1]))


def _load_name(numbers: Sequence[int]) -> str:
    if len(numbers) == 1:
        return sentence("cards.chart.load", {"number": numbers[0]})
    if numbers[-1] - numbers[0] == len(numbers) - 1:
        return sentence("cards.chart.loads_span", {"first": numbers[0], "last": numbers[-1]})
    return sentence("cards.chart.loads", {"count": len(numbers)})


def _lines(text: str, letters: float) -> tuple[str, ...]:
    """The parts of a legend on as many lines as they need; no part is broken."""
    lines: list[str] = []
    for part in text.split(" · "):
        longer = f"{lines[-1]} · {part}" if lines else part
        if lines and letters_wide(longer) <= letters:
            lines[-1] = longer
        else:
            lines.append(part)
    return tuple(lines)


def _bar(lot: _Lot, top: float, frame: Frame, place: Callable[[float], float]) -> Bar:
    y = top + frame.bar_down
    sheet = lot.first
    low_s, high_s = sheet.window_s
    low_x, high_x, x = place(low_s), place(high_s), place(sheet.load_time_s)
    inside = sheet.deviation <= 1.0 + 1e-9
    film = fitting(sheet.film, frame.film_letters)
    name = fitting(sheet.id, frame.name_letters)
    if len(lot.sheets) > 1:
        name = sentence("cards.chart.lot", {"count": len(lot.sheets)})
    name_y = top + frame.name_down
    text, text_x, text_y, anchor = "", 0.0, y + 4.5, "start"
    if not inside:
        told = sheet.density if sheet.density is not None else sheet.density_guess
        amount = shown(sheet.percent, "whole_percent") if told is None else shown(told, "signed")
        text = sentence("cards.chart.outside", {"amount": amount})
        right = max(high_x, x) + 12.0
        if frame.words_above:
            # A phone has no room beside the bar; above it the words end where the drawing ends.
            text_x, text_y, anchor = frame.width - frame.name_x, name_y, "end"
        elif right < frame.right - OUTSIDE_ROOM:
            text_x = right
        else:
            text_x, anchor = min(low_x, x) - 12.0, "end"
    summary = sentence(
        "cards.chart.bar" if inside else "cards.chart.bar_outside",
        {
            "sheet": clean(sheet.id) if len(lot.sheets) == 1 else f"{name} {clean(sheet.film)}",
            "low_s": low_s,
            "high_s": high_s,
            "own_s": sheet.time_s,
            "load": _load_name(lot.loads),
            "load_s": sheet.load_time_s,
        },
    )
    crossing = Crossing(x, y, inside, text, text_x, text_y, anchor)
    film_x = frame.film_x or frame.name_x + letters_wide(name) * NAME_LETTER_WIDTH + 10.0
    return Bar(name, film, film_x, name_y, y, low_x, high_x, place(sheet.time_s), crossing, summary, sheet.id)
