"""Characteristic curves of one film as geometry: density over log exposure, one curve for each developing time.

The curves are told apart by the time written at their ends. Lengths are in units of one CSS pixel.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.count import counted
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.values.curve import CharacteristicCurve

WIDTH, HEIGHT = 800.0, 560.0
LEFT, RIGHT, TOP, BOTTOM = 56.0, 716.0, 24.0, 500.0
LABEL_HEIGHT = 18.0
SAMPLES = 96
_STEPS = (0.1, 0.2, 0.3, 0.5, 1.0, 2.0, 5.0)


class Frame(NamedTuple):
    """Outer size of the drawing, the edges of its field, the height of a label and the most steps on an axis."""

    width: float
    height: float
    left: float
    right: float
    top: float
    bottom: float
    label_height: float
    most_ticks: int


BROAD = Frame(WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM, LABEL_HEIGHT, 9)
NARROW = Frame(360.0, 400.0, 36.0, 300.0, 28.0, 344.0, 19.0, 5)
"""For a phone: the same curves without a drawing that has to be pushed sideways."""


class Mark(NamedTuple):
    """A value named on an axis, at ``at`` along it."""

    at: float
    text: str


class DrawnCurve(NamedTuple):
    """One curve: its line, its readings, its time and where that is written."""

    line: tuple[tuple[float, float], ...]
    readings: tuple[tuple[float, float], ...]
    text: str
    text_y: float


class CurveChart(NamedTuple):
    """The whole drawing with its words."""

    title: str
    description: str
    across_title: str
    up_title: str
    across: tuple[Mark, ...]
    up: tuple[Mark, ...]
    curves: tuple[DrawnCurve, ...]
    frame: Frame


def curve_chart(curves: Sequence[tuple[float, CharacteristicCurve]], frame: Frame = BROAD) -> CurveChart:
    """Lay out curves.

    Parameters
    ----------
    curves : sequence of (float, CharacteristicCurve)
        Developing time [min] and curve; at least one.
    frame : Frame
    """
    first, last, step = _axis([value for _, curve in curves for value in curve.log_h], frame.most_ticks)
    low, high, rise = _axis([0.0, *(value for _, curve in curves for value in curve.density)], frame.most_ticks)

    def place(log_h: float, density: float) -> tuple[float, float]:
        return (
            frame.left + (frame.right - frame.left) * (log_h - first) / (last - first),
            frame.bottom - (frame.bottom - frame.top) * (density - low) / (high - low),
        )

    ordered = sorted(curves, key=lambda one: one[1].density[-1], reverse=True)
    ends = _apart([place(0.0, curve.density[-1])[1] for _, curve in ordered], frame)
    drawn = []
    for (dev_min, curve), text_y in zip(ordered, ends, strict=True):
        start, end = curve.log_h[0], curve.log_h[-1]
        at = [start + (end - start) * i / SAMPLES for i in range(SAMPLES)] + [end]
        drawn.append(
            DrawnCurve(
                tuple(place(log_h, curve.density_at(log_h)) for log_h in at),
                tuple(place(log_h, density) for log_h, density in zip(curve.log_h, curve.density, strict=True)),
                shown(dev_min * 60.0, "mss"),
                text_y,
            )
        )
    absolute = all(curve.absolute for _, curve in curves)
    return CurveChart(
        sentence("cards.curve.title", {"times": counted("time", len(curves))}),
        sentence(
            "cards.curve.description", {"curves": "; ".join(_summary(dev_min, curve) for dev_min, curve in curves)}
        ),
        sentence("cards.curve.across" if absolute else "cards.curve.across_relative", {}),
        sentence("cards.curve.up", {}),
        tuple(
            Mark(place(value, low)[0], shown(value, "plain").replace("-", "\N{MINUS SIGN}"))
            for value in _marks(first, last, step)
        ),
        tuple(Mark(place(first, value)[1], shown(value, "plain")) for value in _marks(low, high, rise)),
        tuple(drawn),
        frame,
    )


def _summary(dev_min: float, curve: CharacteristicCurve) -> str:
    return sentence(
        "cards.curve.one",
        {"time_s": dev_min * 60.0, "low": curve.density[0], "high": curve.density[-1], "readings": len(curve.log_h)},
    )


def _axis(values: Sequence[float], most_ticks: int) -> tuple[float, float, float]:
    """Ends of an axis on whole steps, and the step."""
    for step in _STEPS:
        first, last = math.floor(min(values) / step + 1e-9), math.ceil(max(values) / step - 1e-9)
        if last - first <= most_ticks:
            break
    return first * step, max(last, first + 1) * step, step


def _marks(first: float, last: float, step: float) -> list[float]:
    return [round(first + step * i, 6) + 0.0 for i in range(round((last - first) / step) + 1)]


def _apart(wanted: Sequence[float], frame: Frame) -> list[float]:
    """Heights from the top down, moved so that no two labels are nearer than a line."""
    placed: list[float] = []
    for y in wanted:
        placed.append(max(y, placed[-1] + frame.label_height) if placed else y)
    over = placed[-1] - frame.bottom if placed else 0.0
    return [y - over for y in placed] if over > 0 else placed
