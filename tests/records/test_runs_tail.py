"""The tail of a process: one question for all watchers, on only while one watches, patient with a resting database."""

from __future__ import annotations

import asyncio
import threading

import pytest
from django.db import OperationalError

from wetside.errors import RefusedError
from wetside.services.records import runs_tail


@pytest.fixture
def tables(monkeypatch):
    """Last facts as the tables would tell them, and every question that was asked."""

    class Tables:
        def __init__(self):
            self.last, self.asked, self.broken, self.closed = {}, [], 0, []

        def tell(self, runs):
            self.asked.append(tuple(runs))
            if self.broken:
                self.broken -= 1
                raise OperationalError("the database rests")
            return {run: self.last.get(run, 0) for run in runs}

    made = Tables()
    monkeypatch.setattr(runs_tail, "last_facts", made.tell)
    monkeypatch.setattr(runs_tail, "POLL_S", 0.01)
    monkeypatch.setattr(runs_tail, "AFTER_TROUBLE_S", 0.01)
    monkeypatch.setattr(runs_tail, "close_here", lambda: made.closed.append(threading.get_ident()))
    return made


async def hear(stream, count):
    """Numbers of so many events."""
    heard = []
    async for line in stream:
        if line.startswith(b"id:"):
            heard.append(int(line.split(b"\n")[0][3:]))
            if len(heard) == count:
                return heard
    return heard


def test_many_watchers_are_one_question_and_the_last_ends_it(tables) -> None:
    """Thirty watch two runs: each question names both runs once; afterwards nothing is asked."""

    async def evening():
        tail = runs_tail.Tail()
        tables.last = {"a": 5, "b": 3}
        streams = [tail.watch("ab"[rank % 2], 0) for rank in range(30)]
        heard = await asyncio.gather(*(hear(stream, 5 - 2 * (rank % 2)) for rank, stream in enumerate(streams)))
        assert heard == [[1, 2, 3, 4, 5], [1, 2, 3]] * 15
        assert tail.watchers == 30
        assert tail.is_on
        for stream in streams:
            await stream.aclose()
        await asyncio.sleep(0.1)
        assert (tail.watchers, tail.is_on) == (0, False)
        asked = len(tables.asked)
        await asyncio.sleep(0.05)
        assert len(tables.asked) == asked
        assert max(len(runs) for runs in tables.asked) == 2

    asyncio.run(evening())


def test_a_watcher_that_knows_nothing_hears_where_the_run_stands(tables) -> None:
    """One line, with the last fact; then what comes."""

    async def evening():
        tail = runs_tail.Tail()
        tables.last = {"a": 7}
        stream = tail.watch("a")
        assert await hear(stream, 1) == [7]
        await stream.aclose()

    asyncio.run(evening())


def test_a_database_that_rests_costs_no_fact(tables) -> None:
    """Three questions fail; the stream stays, and what came meanwhile is told."""

    async def evening():
        tail = runs_tail.Tail()
        tables.broken, tables.last = 3, {"a": 2}
        stream = tail.watch("a", 0)
        assert await asyncio.wait_for(hear(stream, 2), 5) == [1, 2]
        await stream.aclose()

    asyncio.run(evening())
    assert tables.closed
    assert threading.get_ident() not in tables.closed  # each thread closes its own


def test_a_quiet_stream_is_kept_open(tables, monkeypatch) -> None:
    """A line without meaning where nothing comes."""
    monkeypatch.setattr(runs_tail, "QUIET_S", 0.03)

    async def evening():
        tail = runs_tail.Tail()
        tables.last = {"a": 1}
        stream = tail.watch("a", 1)
        assert [await anext(stream) for _ in range(3)] == [b"retry: 1000\n\n", *[b": still here\n\n"] * 2]
        await stream.aclose()

    asyncio.run(evening())


def test_a_log_that_was_put_back_says_read_again(tables) -> None:
    """A watcher ahead of the log, once two rounds agree, is told to read the run again."""

    async def evening():
        tail = runs_tail.Tail()
        tables.last = {"a": 4}
        stream = tail.watch("a", 9)
        async for line in stream:
            if line.startswith(b"id:"):
                assert line == b'id: 4\nevent: again\ndata: {"seq": 4}\n\n'
                break
        await stream.aclose()

    asyncio.run(evening())


def test_too_many_watchers_are_refused(tables, monkeypatch) -> None:
    """In a sentence, not by a failure."""
    monkeypatch.setattr(runs_tail, "MOST_WATCHERS", 0)

    async def evening():
        with pytest.raises(RefusedError):
            runs_tail.tail_of_process()

    asyncio.run(evening())
