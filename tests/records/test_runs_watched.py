"""Runs on real servers: watchers miss nothing, several processes serve one archive, a killed one loses nothing."""

from __future__ import annotations

import datetime as dt
import http.client
import json
import random
import threading
import time

import pytest

SERVER = """
import socket, uvicorn
from wetside.web.serve import set_up
set_up()
listening = socket.socket()
listening.bind(("127.0.0.1", 0))
listening.listen(128)
print(listening.getsockname()[1], flush=True)
config = uvicorn.Config("wetside.web.asgi:application", log_level="error", lifespan="off", timeout_graceful_shutdown=1)
uvicorn.Server(config).run(sockets=[listening])
"""
OPEN = """
from wetside.web.serve import set_up
set_up()
from wetside.services.records import runs
print(runs.open_quick("Tolland 100", "Brackwater", 480.0).pk)
"""
FACTS = """
import sys, json
from wetside.web.serve import set_up
set_up()
from wetside.records.models import Run, RunEvent
run = Run.objects.get(pk=sys.argv[1])
rows = run.events.order_by("seq").values_list("seq", "device", "device_number")
print(json.dumps({"state": run.state, "rows": [list(row) for row in rows]}))
"""
EVENING = dt.datetime(2031, 11, 4, 20, 0, tzinfo=dt.UTC)


@pytest.fixture
def servers(live):
    """Start so many server processes on one archive; each is ended by its own process."""
    started = []

    def start(count=1):
        made = [live.start(python=SERVER) for _ in range(count)]
        started.extend(made)
        return [(process, int(process.stdout.readline())) for process in made]

    yield start
    for process in started:
        process.kill()
        process.communicate()


@pytest.fixture
def run(live):
    ran = live.run(python=OPEN)
    assert ran.code == 0, ran.err
    return ran.out.strip()


class Page:
    """A page's program: one device, its own numbers, sends again what was not answered."""

    def __init__(self, run, device):
        self.run, self.device = run, device
        self.acknowledged = set()

    def body(self, numbers):
        facts = [
            {
                "number": number,
                "kind": "noted",
                "version": 1,
                "at_utc": (EVENING + dt.timedelta(seconds=number)).isoformat(),
                "boot_s": 100.0 + number,
                "boot_id": self.device,
                "data": {"what": "other", "text": str(number)},
            }
            for number in numbers
        ]
        return json.dumps({"device": self.device, "facts": facts})

    def hand_over(self, port, numbers):
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
        try:
            connection.request("GET", "/outbox/token/")
            answer = connection.getresponse()
            token = json.loads(answer.read())["token"]
            cookie = answer.getheader("Set-Cookie").partition(";")[0]
            headers = {"Content-Type": "application/json", "X-CSRFToken": token, "Cookie": cookie}
            connection.request("POST", f"/runs/{self.run}/facts", self.body(numbers), headers)
            answer = connection.getresponse()
            told = json.loads(answer.read())
            assert answer.status == 200, told
            assert told["taken"] == list(numbers)
            self.acknowledged |= set(numbers)
        finally:
            connection.close()


class Watcher(threading.Thread):
    """Hears news; breaks off now and then and goes on where it was, at another server."""

    def __init__(self, run, ports, until, breaks):
        super().__init__(daemon=True)
        self.run_key, self.ports, self.until, self.breaks = run, ports, until, breaks
        self.heard, self.failed = [], None

    def run(self):
        try:
            for turn in range(200):
                self._listen(self.ports[turn % len(self.ports)])
                if self.heard and self.heard[-1] >= self.until:
                    return
        except Exception as error:  # noqa: BLE001 (told by the test, in its own thread)
            self.failed = error

    def _listen(self, port):
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
        last = self.heard[-1] if self.heard else 0
        connection.request("GET", f"/runs/{self.run_key}/watch", headers={"Last-Event-ID": str(last)})
        answer = connection.getresponse()
        assert answer.status == 200
        assert answer.getheader("Content-Type").startswith("text/event-stream")
        kind, here = "", 0
        try:
            while True:
                line = answer.fp.readline() if not answer.chunked else answer.readline()
                if not line:
                    return
                text = line.decode().strip()
                if text.startswith("event:"):
                    kind = text.partition(":")[2].strip()
                elif text.startswith("id:"):
                    number = int(text.partition(":")[2])
                elif text.startswith("data:"):
                    assert kind == "fact"
                    assert json.loads(text.partition(":")[2]) == {"seq": number}
                    self.heard.append(number)
                    here += 1
                    if number >= self.until or (self.breaks and here >= self.breaks):
                        return
        finally:
            connection.close()


@pytest.mark.parametrize("workers", [2, 4])
def test_watchers_of_several_servers_hear_every_fact_once_and_in_order(live, servers, run, workers) -> None:
    """Two devices hand over to whichever server, twelve watch, half break off: 1 to 61, none missing, none twice."""
    ports = [port for _, port in servers(workers)]
    pages = [Page(run, digit * 32) for digit in "ab"]
    last = 1 + 2 * 30
    watchers = [Watcher(run, ports[rank % workers :] + ports, last, breaks=7 * (rank % 2)) for rank in range(12)]
    for watcher in watchers:
        watcher.start()
    failed = []

    def tell(page, seed):
        chance = random.Random(seed)
        number = 1
        try:
            while number <= 30:
                count = min(chance.randint(1, 4), 31 - number)
                page.hand_over(chance.choice(ports), range(number, number + count))
                number += count
        except Exception as error:  # noqa: BLE001
            failed.append(error)

    tellers = [threading.Thread(target=tell, args=(page, seed)) for seed, page in enumerate(pages)]
    for one in tellers:
        one.start()
    for one in [*tellers, *watchers]:
        one.join(90)
    assert not failed
    assert [watcher.failed for watcher in watchers] == [None] * 12
    assert all(watcher.heard == list(range(1, last + 1)) for watcher in watchers), [w.heard for w in watchers]
    rows = json.loads(live.run(run, python=FACTS).out)["rows"]
    assert [row[0] for row in rows] == list(range(1, last + 1))


def test_whoever_comes_back_after_long_is_told_to_read_again(servers, run) -> None:
    """Three hundred facts behind: one line instead of three hundred."""
    ((_, port),) = servers(1)
    page = Page(run, "c" * 32)
    page.hand_over(port, range(1, 301))
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    connection.request("GET", f"/runs/{run}/watch?after=1")
    answer = connection.getresponse()
    lines = [answer.readline().decode().strip() for _ in range(6)]
    connection.close()
    assert lines[:5] == ["retry: 1000", "", "id: 301", "event: again", 'data: {"seq": 301}']


@pytest.mark.parametrize("seed", range(3))
def test_what_a_killed_server_acknowledged_is_there(live, servers, run, seed) -> None:
    """SIGKILL while facts are handed over: nothing that was answered is missing; sent again, each is there once."""
    ((process, port),) = servers(1)
    page = Page(run, "d" * 32)
    chance = random.Random(seed)
    page.hand_over(port, [1])

    def tell():
        number = 2
        try:
            while number < 5000:
                page.hand_over(port, range(number, number + 5))
                number += 5
        except (OSError, http.client.HTTPException, ValueError):
            return

    teller = threading.Thread(target=tell)
    teller.start()
    time.sleep(chance.uniform(0.15, 0.6))
    process.kill()
    process.wait()
    teller.join(60)
    assert not teller.is_alive()
    kept = json.loads(live.run(run, python=FACTS).out)["rows"]
    assert [row[0] for row in kept] == list(range(1, len(kept) + 1))
    assert page.acknowledged <= {row[2] for row in kept if row[1] == page.device}
    ((_, port),) = servers(1)
    everything = range(1, max(page.acknowledged) + 11)
    page.hand_over(port, everything)
    rows = json.loads(live.run(run, python=FACTS).out)["rows"]
    assert [row[2] for row in rows if row[1] == page.device] == list(everything)


def test_whoever_comes_while_the_tables_are_asked_waits_for_the_next_answer() -> None:
    """An answer that was asked for without a run says nothing of it: not even that it is empty."""
    import asyncio

    from wetside.services.records.runs_tail import Tail

    async def ask():
        tail = Tail()
        tail._begin = lambda: None  # the test answers for the tables
        told = []
        keep = told.append

        async def listen():
            async for line in tail.watch("late"):
                keep(line)

        listening = asyncio.create_task(listen())
        await asyncio.sleep(0)
        tail._tell(("early",), {"early": 3})
        await asyncio.sleep(0.05)
        before = list(told)
        tail._tell(("early", "late"), {"early": 3, "late": 7})
        await asyncio.sleep(0.05)
        listening.cancel()
        return before, told[len(before) :]

    before, after = asyncio.run(ask())
    assert before == [b"retry: 1000\n\n"]
    assert after == [b'id: 7\nevent: again\ndata: {"seq": 7}\n\n']
