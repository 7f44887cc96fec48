"""Watchers of live runs: one task a server process reads what is new, once for all of its watchers.

The place of a run's last fact is read, not the facts: whoever is told fetches what it needs. A watcher has no
connection to the database of its own; one that is slow skips places, and never holds the others up.
"""

from __future__ import annotations

import asyncio
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

from asgiref.sync import sync_to_async
from django.db import DatabaseError, connection

from wetside.services.records.runs import last_seqs

if TYPE_CHECKING:
    from collections.abc import AsyncIterator

EVERY_S = 0.25
"""Other processes' facts are seen after at most so long; our own at once. [s]"""
STILL_S = 15.0
"""A line comes at least so often, so that nothing on the way takes the stream for dead. [s]"""


def _read_once(runs: list[str]) -> dict[str, int]:
    """Places of the runs' last facts; what a database cannot answer now is asked again in a moment."""
    try:
        return last_seqs(runs)
    except DatabaseError:
        connection.close()
        return {}


class Watcher:
    """One that follows a run: the newest place that it has not been told of yet."""

    def __init__(self, run: str, after: int) -> None:
        self.run, self.told, self.newest = run, after, after
        self.rang = asyncio.Event()

    def ring(self, seq: int) -> None:
        """Tell it of a place."""
        if seq > self.newest:
            self.newest = seq
            self.rang.set()


class Tail:
    """The task and its watchers; it starts with the first one and ends with the last."""

    def __init__(self) -> None:
        self.watchers: set[Watcher] = set()
        self._task: asyncio.Task[None] | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._woken: asyncio.Event | None = None
        self._thread = ThreadPoolExecutor(1, "watchers")

    def wake(self) -> None:
        """Look at once: this process has just written. May be called from any thread."""
        loop, woken = self._loop, self._woken
        if loop is not None and woken is not None and not loop.is_closed():
            loop.call_soon_threadsafe(woken.set)

    async def follow(self, run: str, after: int) -> AsyncIterator[int | None]:
        """Places of a run's facts after one that is known; None every :data:`STILL_S` of silence."""
        watcher = Watcher(run, after)
        self.watchers.add(watcher)
        self._start()
        try:
            while True:
                try:
                    async with asyncio.timeout(STILL_S):
                        await watcher.rang.wait()
                except TimeoutError:
                    yield None
                    continue
                watcher.rang.clear()
                # Every place is told, so that a page can see that it missed none.
                for seq in range(watcher.told + 1, watcher.newest + 1):
                    watcher.told = seq
                    yield seq
        finally:
            self.watchers.discard(watcher)

    def _start(self) -> None:
        loop = asyncio.get_running_loop()
        if self._loop is not loop or self._task is None or self._task.done():
            self._loop, self._woken = loop, asyncio.Event()
            self._task = loop.create_task(self._read())
        if self._woken is not None:
            self._woken.set()

    async def _read(self) -> None:
        read = sync_to_async(_read_once, thread_sensitive=False, executor=self._thread)
        woken = self._woken
        while self.watchers and woken is not None:
            runs = sorted({watcher.run for watcher in self.watchers})
            found = await read(runs)
            for watcher in tuple(self.watchers):
                watcher.ring(found.get(watcher.run, 0))
            try:
                async with asyncio.timeout(EVERY_S):
                    await woken.wait()
            except TimeoutError:
                continue
            woken.clear()


TAIL = Tail()
"""This process's own."""
