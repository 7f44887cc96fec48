"""Two pages of one device at one log: decided anew, and none refused for the other."""

from __future__ import annotations

import pytest
from tests.fixtures.run_sample import FIRST, planned

from wetside.errors import ConflictError
from wetside.runs import commands as c
from wetside.runs.conduct import MOVED_ON, Conduct
from wetside.runs.event_log import MemoryLog
from wetside.runs.events import Incident


class SlowLog(MemoryLog):
    """Lets somebody write between the reading of the log and the first append."""

    def __init__(self, meanwhile) -> None:
        super().__init__()
        self.meanwhile = meanwhile

    def append(self, run, facts, *, expected):
        first, self.meanwhile = self.meanwhile, None
        if first is not None and expected:
            first(self)
        else:
            self.meanwhile = first
        return super().append(run, facts, expected=expected)


def test_two_pages_of_one_server_that_tell_at_once_are_both_taken() -> None:
    """The server gives both facts the same number of its own; the second gets the next one."""
    log = SlowLog(lambda log: Conduct(log, "run", "server").do(c.Incidence(Incident.LIGHT), FIRST.at(5.0)))
    conduct = Conduct(log, "run", "server")
    conduct.do(c.Open(planned()), FIRST.at(0.0))
    assert conduct.do(c.Incidence(Incident.LEAK), FIRST.at(6.0)).refusal is None
    assert [one.what for one in conduct.state().incidents] == [Incident.LIGHT, Incident.LEAK]
    assert [fact.device_number for fact in conduct.facts] == [1, 2, 3]


def test_what_was_thought_of_by_fewer_facts_is_not_done() -> None:
    """A question that was read beside two facts is not settled beside three."""
    conduct = Conduct(MemoryLog(), "run", "server")
    conduct.do(c.Open(planned()), FIRST.at(0.0))
    conduct.do(c.Incidence(Incident.LIGHT), FIRST.at(5.0))
    with pytest.raises(ConflictError) as refused:
        conduct.do(c.Settle((("server", 2),)), FIRST.at(6.0), seen=1)
    assert refused.value.code == MOVED_ON
    conduct.do(c.Settle((("server", 2),)), FIRST.at(6.0), seen=2)
    assert conduct.state().incidents == ()
