"""Pages over HTTP: on ten years of records beside one evening, beside an empty page of the framework.

Gates are ratios in one run: no page costs more than 1.5 times itself on a small archive, the median page at most 8
times an empty page of the framework under the same server. The first page is there within 2.5 s of the start. Ratios
are those of the fastest rounds: what else the machine does can only add.
"""

from __future__ import annotations

import http.client
import json
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit

from timed import Report, surroundings

NO_PAGES = (".wav", ".pdf", ".json", ".zip", ".toml", ".js", ".ico", "/watch", "/facts", "/token/")
"""Ends of addresses that give no page: files, streams, answers to programs."""
ROUNDS = 15
MOST_GROWTH = 1.5
MOST_EMPTY = 8.0
FIRST_PAGE_S = 2.5
EMPTY = """
import sys
import django
from django.conf import settings
settings.configure(DEBUG=False, ROOT_URLCONF=__name__, ALLOWED_HOSTS=["*"], SECRET_KEY="x" * 60)
from django.core.asgi import get_asgi_application
from django.http import HttpResponse
from django.urls import path
urlpatterns = [path("", lambda request: HttpResponse("<!doctype html><title>nothing</title>"))]
django.setup()
import socket, uvicorn
listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
listening.bind(("127.0.0.1", 0)); listening.listen(64)
print(f"http://127.0.0.1:{listening.getsockname()[1]}/", flush=True)
uvicorn.Server(uvicorn.Config(get_asgi_application(), log_level="warning", lifespan="off")).run(sockets=[listening])
"""


class Started(NamedTuple):
    """A server and its address."""

    process: subprocess.Popen[str]
    host: str
    port: int


def start(words: list[str], data: Path | None = None) -> Started:
    """Start a server and wait for its address."""
    environment = {**surroundings(), "PYTHONUNBUFFERED": "1"} | ({"WETSIDE_DATA": str(data)} if data else {})
    process = subprocess.Popen(words, env=environment, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert process.stdout is not None
    for line in process.stdout:
        found = re.search(r"http://\S+/", line)
        if found:
            parts = urlsplit(found.group())
            return Started(process, str(parts.hostname), int(parts.port or 80))
    sys.exit(f"{words[0]} ended before it listened")


def stop(server: Started) -> None:
    """End a server that was started here."""
    server.process.terminate()
    server.process.wait(20)


def page_s(connection: http.client.HTTPConnection, address: str) -> float:
    """Time of one page. [s]"""
    begin = time.perf_counter()
    connection.request("GET", address, headers={"Host": "127.0.0.1"})
    answer = connection.getresponse()
    answer.read()
    if answer.status != 200:
        sys.exit(f"{address} answered {answer.status}")
    return time.perf_counter() - begin


def connected(server: Started) -> http.client.HTTPConnection:
    """Connection to a server; one that is idle for five seconds is closed by it."""
    return http.client.HTTPConnection(server.host, server.port)


def pages_of(server: Started, addresses: dict[str, str]) -> dict[str, str]:
    """Addresses that give a page: what only takes forms, or leads on, is none."""
    connection, found = connected(server), {}
    for name, address in addresses.items():
        if address.partition("?")[0].endswith(NO_PAGES):
            continue
        connection.request("GET", address, headers={"Host": "127.0.0.1"})
        answer = connection.getresponse()
        answer.read()
        if answer.status == 200 and answer.headers.get_content_type() == "text/html":
            found[name] = address
    return found


def main() -> int:
    report = Report()
    serve = [sys.executable, "-c", "import sys; from wetside.cli import main; sys.exit(main())", "serve", "--port", "0"]
    with tempfile.TemporaryDirectory() as scratch:
        folders = {}
        for name in ("evening", "years"):
            folders[name] = Path(scratch) / name
            seed = Path(__file__).with_name("seeded.py")
            begin = time.perf_counter()
            subprocess.run([sys.executable, str(seed), str(folders[name]), name], check=True, env=dict(os.environ))
            report.line(f"archive of {name} filled", f"{time.perf_counter() - begin:6.1f} s")
        begin = time.perf_counter()
        years = start(serve, folders["years"])
        page_s(connected(years), "/")
        first_s = time.perf_counter() - begin
        report.line("first page, ten years", f"{first_s:6.2f} s (at most {FIRST_PAGE_S})", held=first_s <= FIRST_PAGE_S)
        evening, empty = start(serve, folders["evening"]), start([sys.executable, "-c", EMPTY])
        own = {name: json.loads((folder / "pages.json").read_text("utf-8")) for name, folder in folders.items()}
        there, here = pages_of(years, own["years"]), pages_of(evening, own["evening"])
        times: dict[str, tuple[list[float], ...]] = {
            page: ([], [], []) for page, address in there.items() if page in here and "page=" not in address
        }
        large, small, nothing = (connected(server) for server in (years, evening, empty))
        for rank in range(ROUNDS + 3):
            for page, timed in times.items():
                found = page_s(large, there[page]), page_s(small, here[page]), page_s(nothing, "/")
                if rank >= 3:
                    for kept, lasted_s in zip(timed, found, strict=True):
                        kept.append(lasted_s)
        nothings = [lasted_s for timed in times.values() for lasted_s in timed[2]]
        bare = statistics.median(nothings)
        report.line("empty page of the framework", f"{bare * 1000:6.2f} ms, the fastest {min(nothings) * 1000:.2f} ms")
        shares: dict[str, float] = {}
        for page, (ours, theirs, beside) in times.items():
            # Beside as many empty pages, asked for in the same moments.
            growth, share = min(ours) / min(theirs), min(ours) / min(beside)
            # Of the faces that a page has, as a plan that is a draft or frozen, the slowest counts.
            shares[page.partition(" ")[0]] = max(share, shares.get(page.partition(" ")[0], 0.0))
            report.line(
                page,
                f"{statistics.median(ours) * 1000:6.1f} ms  {growth:4.2f} times one evening (at most {MOST_GROWTH})  "
                f"{share:4.1f} empty pages",
                held=growth <= MOST_GROWTH,
            )
        middle = statistics.median(shares.values())
        told = f"{middle:4.1f} empty pages (at most {MOST_EMPTY:.0f})"
        report.line(f"median of {len(shares)} pages", told, held=middle <= MOST_EMPTY)
        for server in (years, evening, empty):
            stop(server)
    return int(report.missed)


if __name__ == "__main__":
    sys.exit(main())
