"""A small archive for the tests of the interface, and a client that asks it as a program does."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any, NamedTuple

from tests.fixtures.run_sample import b5_script

from wetside.adapters.machine_clock import moment_now
from wetside.records import models
from wetside.records.event_log import StoredLog
from wetside.runs import commands as c
from wetside.runs.conduct import Conduct
from wetside.services.records import changes
from wetside.services.records.ledger import NewLine, book
from wetside.services.records.tokens import make_token

AT = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)
LISTS = (
    "sheets", "holders", "films", "lots", "developers", "processes", "aims", "vessels", "bottles", "instruments",
    "plans", "runs",
)  # fmt: skip


class Archive(NamedTuple):
    """Keys of one record of each kind, and a token of each scope."""

    keys: dict[str, Any]
    tokens: dict[str, str]


def add_round(number: int) -> dict[str, Any]:
    """One record more of each kind; their keys."""
    film = changes.make(models.Film, {"name": f"Tolland {number}"})
    lot = changes.make(models.FilmLot, {"film": film, "number": f"A{number}", "expires": AT.date()})
    holder = changes.make(models.Holder, {"name": str(number)})
    for side in ("left", "right"):
        changes.make(models.HolderSide, {"holder": holder, "side": side, "state": "loaded", "film": film, "lot": lot})
    developer = changes.make(models.Developer, {"name": f"Brackwater {number}"})
    process = changes.make(models.Process, {"name": f"drum {number}"})
    models.ProcessVersion.objects.create(
        process=process, version=1, developer=developer.name, dilution="1+14", temp_c=20.0, clock="full-to-drain"
    )
    aim = changes.make(models.Aim, {"name": f"soft {number}", "printing": "graded-paper", "density_range": 1.05})
    vessel = changes.make(models.Vessel, {"name": f"long {number}", "kind": "drum", "min_ml": 300.0, "max_ml": 1000.0})
    bottle = changes.make(models.Bottle, {"mark": f"D{number}", "holds": developer.name, "role": "developer"})
    for line in (NewLine("filled", 500.0), NewLine("drawn", 80.0), NewLine("counted", 400.0)):
        book(bottle.pk, line, AT)
    instrument = changes.make(
        models.Instrument, {"name": f"glass {number}", "kind": "thermometer", "reads_high": 0.4, "checked": AT.date()}
    )
    sheet = changes.make(
        models.Sheet,
        {"label": f"{number} a", "film": film, "lot": lot, "process": process, "aim": aim, "exposed": AT.date()},
    )
    plan = changes.make(
        models.Plan,
        {"name": f"evening {number}", "evening": "format = 1\n", "document": {"format": 1}, "frozen_at": AT},
    )
    run = changes.make(models.Run, {"name": f"load {number}", "plan": plan})
    found = (sheet, holder, film, lot, developer, process, aim, vessel, bottle, instrument, plan, run)
    return {kind: record.pk for kind, record in zip(LISTS, found, strict=True)}


def begin(key: Any) -> Conduct:
    """The run begins: it was opened, and the developer is in."""
    conduct = Conduct(StoredLog(), str(key), "server")
    conduct.do(c.Open(b5_script()), moment_now())
    conduct.do(c.Tell("1.full"), moment_now())
    changes.change(changes.find(models.Run, key), {"state": "running"})
    return conduct


def make_archive() -> Archive:
    """One record of each kind, a run that goes on, tokens of all scopes."""
    keys = add_round(1)
    begin(keys["runs"])
    tokens = {
        scope: make_token(f"program that may {scope}", scope, AT).secret for scope in ("read", "write", "readings")
    }
    return Archive(keys, tokens)


class Caller:
    """Asks the interface; the address is this machine's unless another is named."""

    def __init__(self, client: Any, token: str = "", address: str = "127.0.0.1") -> None:
        self.client, self.token, self.address = client, token, address

    def _more(self) -> dict[str, Any]:
        headers = {"host": "127.0.0.1"} | ({"Authorization": f"Bearer {self.token}"} if self.token else {})
        return {"headers": headers, "REMOTE_ADDR": self.address}

    def get(self, path: str, **headers: str) -> Any:
        more = self._more()
        more["headers"] |= headers
        return self.client.get(f"/api/v1/{path}", **more)

    def post(self, path: str, sent: Any, kind: str = "application/json") -> Any:
        body = sent if isinstance(sent, str | bytes) else json.dumps(sent)
        return self.client.post(f"/api/v1/{path}", body, content_type=kind, **self._more())
