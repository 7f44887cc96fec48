"""The run on a terminal: what to do next in large plain words, and a track drawn to scale that passes a fixed now."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cli.output import wrapped
from wetside.runs.cues import overdue, shown_now
from wetside.runs.schedule import schedule_at
from wetside.services.run_came import came_of
from wetside.services.run_terminal import say
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from wetside.runs.schedule import Schedule
    from wetside.runs.state import State

SECONDS_A_COLUMN = 10.0
"""Scale of the track. [s]"""
MARKS = {
    "pour": "v", "full": "=", "drain": "^", "move": ">", "enter": "v", "lift": "^", "agitate": "~", "inspect": "o",
    "hang": "T",
}  # fmt: skip
"""Cue marks: told apart by shape, and explained below the track."""


def screen_lines(state: State, now_s: float, width: int, said: list[str]) -> list[str]:
    """Lines of the screen.

    Parameters
    ----------
    state : State
    now_s : float
        On the run's clock. [s]
    width : int
        Columns. [1]
    said : list of str
        What was spoken last.
    """
    lines = ["", *(line.upper() for line in wrapped(next_line(state, now_s), width)), ""]
    missing = overdue(state, now_s)
    if missing is not None:
        lines += [*wrapped(f"! {say(missing.code, missing.params)}", width), ""]
    if not state.doubtful:
        lines += track_lines(schedule_at(state, now_s), width)
    lines += ["", *said[-3:], "", *wrapped(sentence("cli.run.keys", {}), width)]
    return lines


def next_line(state: State, now_s: float) -> str:
    """Say the next thing to do, and when, as seen at ``now_s`` of the run. [s]"""
    found = shown_now(state, now_s)
    return say(found.code, found.params)


def track_lines(schedule: Schedule, width: int) -> list[str]:
    """Track: ten seconds a column, now always at a quarter of the width, marks where the hands do something.

    The words stand below their marks, as far as there is room; nothing lists the baths.
    """
    now_at = width // 4
    band, words = ["."] * width, [" "] * width
    for due in schedule.dues:
        if due.at_s is None or due.act.does not in MARKS:
            continue
        column = now_at + round((due.at_s - schedule.now_s) / SECONDS_A_COLUMN)
        if not 0 <= column < width:
            continue
        band[column] = MARKS[due.act.does]
        word = f"{sentence(f'cli.run.mark_{due.act.does}', {})}"
        room = words[max(0, column - 1) : column + len(word) + 1]
        if column + len(word) < width and all(mark == " " for mark in room):
            words[column : column + len(word)] = list(word)
    pointer = [" "] * width
    now = sentence("cli.run.now", {})
    pointer[now_at : now_at + 1 + len(now) + 1] = list(f"| {now}")
    return ["".join(pointer).rstrip(), "".join(band), "".join(words).rstrip()]


def end_lines(state: State, now_s: float) -> list[str]:
    """What the run did to its sheets as of ``now_s`` [s], and what was noted and contested."""
    lines = came_of(state, schedule_at(state, now_s))
    lines += [
        sentence("cli.run.clock_set", {"at_s": move.at_s, "moved": shown(move.moved_s, "mss")})
        for move in state.clock_moves
    ]
    return lines
