"""Twenty live runs with three watchers each: every fact reaches every watcher once, in order, in time.

`wetside serve` is one process; two and four processes on one archive stand for servers that are put side by side, and
there each watcher asks another process than the hand that tells. Facts are told over HTTP, one a second in each run;
the lag is from the answer that says "taken" to the watcher's line. The gate is about loss and order, and that the slow
end of the lags is a small part of what a cue gives ahead (35 s).
"""

from __future__ import annotations

import asyncio
import http.client
import json
import os
import re
import statistics
import sys
import tempfile
import time
import uuid
from pathlib import Path
from urllib.parse import urlencode

from bench_pages import Started, start, stop
from timed import wetside

RUNS, WATCHERS, FACTS = 20, 3, 20
PROCESSES = (1, 2, 4)
ONE_OF_SEVERAL = """
import socket, uvicorn
from wetside.web.serve import set_up
set_up()
listening = socket.socket()
listening.bind(("127.0.0.1", 0))
listening.listen(128)
print(f"http://127.0.0.1:{listening.getsockname()[1]}/", flush=True)
config = uvicorn.Config("wetside.web.asgi:application", log_level="error", lifespan="off", timeout_graceful_shutdown=1)
uvicorn.Server(config).run(sockets=[listening])
"""
MOST_LAG_S = 1.0


class Hand:
    """One device's connection to the server, with its cookies."""

    def __init__(self, server: Started) -> None:
        self.device = uuid.uuid4().hex
        self.connection = http.client.HTTPConnection(server.host, server.port, timeout=30)
        self.token = json.loads(self.ask("GET", "/outbox/token/")[1])["token"]

    def ask(self, method: str, address: str, body: str | None = None, kind: str = "") -> tuple[int, bytes, str]:
        """Answer of the server: status, content, and where it sends on to."""
        headers = {"Host": "127.0.0.1"}
        if body is not None:
            headers |= {"Content-Type": kind, "X-CSRFToken": self.token, "Cookie": f"csrftoken={self.cookie}"}
        self.connection.request(method, address, body, headers)
        answer = self.connection.getresponse()
        found = re.search(r"csrftoken=([^;]+)", answer.headers.get("Set-Cookie") or "")
        self.cookie = found.group(1) if found else getattr(self, "cookie", "")
        return answer.status, answer.read(), answer.headers.get("Location") or ""

    def open_run(self, number: int) -> str:
        """Address of a new run of the short way."""
        answers = {"film": f"Tolland {number}", "developer": "Brackwater", "time": "7:30"}
        status, _, place = self.ask("POST", "/runs/new/", urlencode(answers), "application/x-www-form-urlencoded")
        if status != 302:
            sys.exit(f"no run was opened: {status}")
        return place

    def tell(self, run: str, number: int) -> int:
        """Note something in a run; gives the run's last place."""
        asked = {"device": self.device, "command": "incident", "what": "other", "text": str(number)}
        body = json.dumps(asked)
        status, content, _ = self.ask("POST", f"{run}commands", body, "application/json")
        if status != 200:
            sys.exit(f"a fact was not taken: {status} {content[:200]!r}")
        return int(json.loads(content)["seq"])


async def watch(server: Started, run: str, last: int, seen: dict[int, float]) -> None:
    """Follow a run up to a place; when each came is kept. [s]"""
    reader, writer = await asyncio.open_connection(server.host, server.port)
    writer.write(f"GET {run}watch HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n".encode())
    expected = 1
    while expected <= last:
        line = await reader.readline()
        if not line:
            sys.exit("a watcher's stream ended")
        if line.startswith(b"id: "):
            seq = int(line[4:])
            if seq != expected:
                sys.exit(f"a watcher of {run} got {seq} where {expected} was next")
            seen[seq] = time.perf_counter()
            expected += 1
    writer.close()


async def evening(servers: list[Started]) -> list[float]:
    """All runs at once; lags of all facts at all watchers. [s]"""
    hands = [Hand(servers[place % len(servers)]) for place in range(RUNS)]
    runs = [hand.open_run(number) for number, hand in enumerate(hands)]
    told: list[dict[int, float]] = [{} for _ in runs]
    seen: list[tuple[int, dict[int, float]]] = [(place, {}) for place in range(RUNS) for _ in range(WATCHERS)]
    watchers = [
        asyncio.create_task(watch(servers[(place + 1 + rank) % len(servers)], runs[place], 1 + FACTS, times))
        for rank, (place, times) in enumerate(seen)
    ]
    await asyncio.sleep(1.0)

    async def tell_on(place: int) -> None:
        await asyncio.sleep(place / RUNS)
        for number in range(FACTS):
            seq = await asyncio.to_thread(hands[place].tell, runs[place], number)
            told[place][seq] = time.perf_counter()
            await asyncio.sleep(1.0)

    await asyncio.gather(*(tell_on(place) for place in range(RUNS)))
    async with asyncio.timeout(30):
        await asyncio.gather(*watchers)
    return [times[seq] - at for place, times in seen for seq, at in told[place].items()]


def measured(processes: int) -> tuple[list[float], float]:
    """Lags of an evening [s], sorted, and how much of one processor all server processes used. [1]"""
    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder) / "darkroom"
        one = start(wetside("serve", "--port", "0"), data)
        servers = [one]
        try:
            if processes > 1:  # the archive is made; whoever keeps it alone makes room
                stop(one)
                servers = [start([sys.executable, "-c", ONE_OF_SEVERAL], data) for _ in range(processes)]
            begun = time.perf_counter()
            lags = sorted(max(0.0, lag) for lag in asyncio.run(evening(servers)))
            lasted_s = time.perf_counter() - begun
            used_s = sum(processor_s(server.process.pid) for server in servers)
        finally:
            for server in servers:
                stop(server)
    return lags, used_s / lasted_s


def processor_s(pid: int) -> float:
    """Processor time of a process; 0 where the system does not tell it in this way. [s]"""
    try:
        fields = Path(f"/proc/{pid}/stat").read_text("ascii").rpartition(")")[2].split()
    except OSError:
        return 0.0
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def main() -> int:
    """Measure, print and judge."""
    worst = 0.0
    for processes in PROCESSES:
        lags, share = measured(processes)
        slow = lags[int(len(lags) * 0.95)]
        worst = max(worst, slow)
        print(
            f"{processes} server process{'es' if processes > 1 else ''}: {RUNS} runs, {RUNS * WATCHERS} watchers, "
            f"{len(lags)} facts seen, none lost, all in order; lag median {statistics.median(lags) * 1e3:.0f} ms, "
            f"95 % {slow * 1e3:.0f} ms, most {lags[-1] * 1e3:.0f} ms; {share * 100:.0f} % of one processor",
            flush=True,
        )
    return 0 if worst <= MOST_LAG_S else 1


if __name__ == "__main__":
    sys.exit(main())
