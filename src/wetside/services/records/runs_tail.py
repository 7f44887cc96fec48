"""One reader of new facts for all who watch in this process: it asks the tables once and wakes those whom it concerns.

A watcher holds no connection and no queue: it knows up to where it has told, the tail knows up to where there is
something, and whoever is slow tells the rest later or is told to read the run again.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

from django.db import DatabaseError, InterfaceError, connection
from django.db.models import Max

from wetside.errors import RefusedError
from wetside.records import models

if TYPE_CHECKING:
    from collections.abc import AsyncGenerator, Collection

POLL_S = 0.2
"""How often the tail asks the tables. Our choice: nobody notices so little. [s]"""
AFTER_TROUBLE_S = 1.0
"""How long it waits where the database did not answer. [s]"""
QUIET_S = 15.0
"""A line without meaning comes as often as this, so that nothing on the way closes a quiet stream. [s]"""
MOST_BEHIND = 200
"""Whoever is further behind is told to read the run again instead of fact by fact. Our choice. [facts]"""
MOST_WATCHERS = 400
"""Watchers of one process. Our choice. [watchers]"""


def last_facts(runs: Collection[str]) -> dict[str, int]:
    """Place of the last fact of each run, in one question.

    Parameters
    ----------
    runs : collection of str
        Keys.
    """
    found = models.RunEvent.objects.filter(run_id__in=list(runs)).order_by().values_list("run_id")
    return {str(run): int(last) for run, last in found.annotate(last=Max("seq"))}


def close_here() -> None:
    """Close the connection of the thread that this runs in."""
    connection.close()


class _Watched:
    """A run that somebody watches: its last fact as the tail knows it, None before it has asked."""

    def __init__(self) -> None:
        self.last: int | None = None
        self.watchers = 0
        self.moved = asyncio.Event()


class Tail:
    """The reader of one process: begins with its first watcher, ends with its last."""

    def __init__(self) -> None:
        self._runs: dict[str, _Watched] = {}
        self._task: asyncio.Task[None] | None = None
        self._asked = asyncio.Event()
        self._rounds = 0
        self._over = False

    @property
    def watchers(self) -> int:
        """How many watch. [watchers]"""
        return sum(run.watchers for run in self._runs.values())

    @property
    def is_on(self) -> bool:
        """Whether the tables are asked."""
        return self._task is not None and not self._task.done()

    async def watch(self, run: str, after: int | None = None) -> AsyncGenerator[bytes, None]:
        """Lines of a stream of server-sent events: one event a fact, its number the place in the run's log.

        Parameters
        ----------
        run : str
            Key of the run.
        after : int, optional
            Place of the last fact that the watcher knows; without it the last fact there is comes first.
        """
        watched = self._runs.setdefault(run, _Watched())
        watched.watchers += 1
        try:
            self._begin()
            yield b"retry: 1000\n\n"
            told, since = after, self._rounds
            while not self._over:
                moved, last = watched.moved, watched.last
                # Whoever comes from another server may know more than this one has asked for: its next two rounds
                # decide, for the first of them may have begun before.
                behind = last is not None and told is not None and last < told and self._rounds < since + 2
                if last is not None and told != last and not behind:
                    for line, seq in _lines(told, last):
                        yield line
                        told = seq
                    continue
                try:
                    await asyncio.wait_for(moved.wait(), POLL_S if behind else QUIET_S)
                except TimeoutError:
                    yield b": still here\n\n"
        finally:
            watched.watchers -= 1
            if not watched.watchers:
                self._runs.pop(run, None)
            if not self._runs:
                self._asked.set()

    def end(self) -> None:
        """Let every watcher go, because the server stops: a stream would hold it open for hours."""
        self._over = True
        for watched in self._runs.values():
            watched.moved.set()

    def _begin(self) -> None:
        self._asked.set()
        if not self.is_on:
            self._task = asyncio.get_running_loop().create_task(self._go_on())

    async def _go_on(self) -> None:
        """Ask as long as anybody watches; one thread and one connection for all of them."""
        loop = asyncio.get_running_loop()
        with ThreadPoolExecutor(1, "runs-tail") as thread:
            try:
                while self._runs:
                    self._asked.clear()
                    wait_s = POLL_S
                    asked = tuple(self._runs)
                    try:
                        self._tell(asked, await loop.run_in_executor(thread, last_facts, asked))
                    except (DatabaseError, InterfaceError):
                        # The database rests or is being restarted: the stream stays, and what came meanwhile is told.
                        await loop.run_in_executor(thread, close_here)
                        wait_s = AFTER_TROUBLE_S
                    with contextlib.suppress(TimeoutError):
                        await asyncio.wait_for(self._asked.wait(), wait_s)
            finally:
                thread.submit(close_here)

    def _tell(self, asked: Collection[str], found: dict[str, int]) -> None:
        self._rounds += 1
        for key, watched in self._runs.items():
            if key not in asked:
                continue  # whoever came while the tables were asked is told by the next answer
            last = found.get(key, watched.last or 0)
            if last != watched.last:
                watched.last = last
                moved, watched.moved = watched.moved, asyncio.Event()
                moved.set()


def _lines(told: int | None, last: int) -> list[tuple[bytes, int]]:
    """Events from what was told to the last fact, each with where the watcher stands afterwards."""
    if told is None or last < told or last - told > MOST_BEHIND:
        return [(_event("again", last), last)]
    return [(_event("fact", seq), seq) for seq in range(told + 1, last + 1)]


def _event(kind: str, seq: int) -> bytes:
    return f"id: {seq}\nevent: {kind}\ndata: {json.dumps({'seq': seq})}\n\n".encode()


_TAILS: dict[asyncio.AbstractEventLoop, Tail] = {}


def end_tails() -> None:
    """End the streams of this process; from the loop that they run in."""
    for tail in _TAILS.values():
        tail.end()


def tail_of_process() -> Tail:
    """The tail of this process; made when it is first wanted.

    Raises
    ------
    RefusedError
        If too many watch already.
    """
    loop = asyncio.get_running_loop()
    for gone in [one for one in _TAILS if one.is_closed()]:
        del _TAILS[gone]
    tail = _TAILS.setdefault(loop, Tail())
    if tail.watchers >= MOST_WATCHERS:
        raise RefusedError("services.runs.many_watchers", most=MOST_WATCHERS)
    return tail
