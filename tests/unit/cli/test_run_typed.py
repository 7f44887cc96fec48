"""The line behind a key of ``wetside run``: what went wrong, with which places, when, in whose words."""

from __future__ import annotations

import pytest

from wetside.cli import run_typed
from wetside.errors import WetsideError
from wetside.runs import commands as c
from wetside.runs.events import Incident


def typed(monkeypatch, text: str) -> c.Command | None:
    monkeypatch.setattr(run_typed, "line_typed", lambda *_: text)
    return run_typed.command_of_key("i", list)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("p", c.Incidence(Incident.POWER)),
        ("l 0:10 the door", c.Incidence(Incident.LIGHT, 10.0, "the door")),
        ("s #2", c.Incidence(Incident.SCRATCHED, places=(2,))),
        ("k #1,4 2:20 by the lid", c.Incidence(Incident.STUCK, 140.0, "by the lid", places=(1, 4))),
        ("w #3 the wall", c.Incidence(Incident.TOUCHED, 0.0, "the wall", places=(3,))),
        ("d 2 holes", c.Incidence(Incident.LEAK, 0.0, "2 holes")),
    ],
)
def test_what_went_wrong_is_one_line(monkeypatch, text: str, wanted: c.Command) -> None:
    """Letter first, the rest as far as there is any."""
    assert typed(monkeypatch, text) == wanted


@pytest.mark.parametrize(
    ("text", "code"),
    [("x", "cli.run.incident"), ("s #two", "cli.run.incident_places"), ("s #", "cli.run.incident_places")],
)
def test_what_cannot_be_read_is_asked_anew(monkeypatch, text: str, code: str) -> None:
    """And names what it could not read."""
    with pytest.raises(WetsideError) as refused:
        typed(monkeypatch, text)
    assert refused.value.code == code
