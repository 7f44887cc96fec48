"""A photographer who follows the run's page and answers only what it waits for, when it is so."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any, NamedTuple

from tests.fixtures.terminal_run import REPEAT_S

if TYPE_CHECKING:
    from tests.browser.moved_darkroom import Darkroom

COMING = """async () => {
  const place = document.querySelector('section[data-run]');
  const rules = await (await fetch(place.dataset.rules)).json();
  const { scheduleAt } = await import('/static/web/run/schedule.js');
  const { actForAnswer } = await import('/static/web/run/answer.js');
  const schedule = scheduleAt(rules, rules.clock.run_s);
  const key = actForAnswer(rules, schedule);
  if (key === null || !['ready', 'running'].includes(rules.status)) return null;
  const due = schedule.dues.find((one) => one.act.key === key);
  const ready_s = schedule.dues.find((one) => one.how === 'waits' && one.ready_s !== null)?.ready_s ?? 0;
  // What is told as full is full only when it was poured.
  const at_s = due.due_s ?? ready_s + (due.act.does === 'full' ? due.act.offset_s : 0);
  return { key, does: due.act.does, in_s: Math.max(0, at_s - rules.clock.run_s), waits: due.due_s === null };
}"""
READ_S = 4.0
"""How long the person looks before going on where nothing presses. [s]"""


class Coming(NamedTuple):
    """The next answer: its act, and in how long it is so [s]."""

    key: str
    does: str
    in_s: float

    @property
    def kind(self) -> str:
        """What the budget calls it."""
        return {"dark.out": "before lights out", "dark.on": "after"}.get(
            self.key, {"hang": "at the end"}.get(self.does, "a bath")
        )


class PlainPerson:
    """One run of one person; ``acts`` counts what the hands had to tell, start included."""

    def __init__(self, room: Darkroom) -> None:
        self.room = room
        self.acts: Counter[str] = Counter({"before lights out": 1})
        self._coming: Coming | None = None

    def coming(self) -> Coming | None:
        """What is waited for; None where the run is over."""
        told: dict[str, Any] | None = self.room.page.evaluate(COMING)
        self._coming = (
            None if told is None else Coming(told["key"], told["does"], told["in_s"] + READ_S * told["waits"])
        )
        return self._coming

    def wait_for(self, act: Coming) -> None:
        """Let time pass until it is so."""
        self.room.on(act.in_s)

    def tell(self) -> None:
        """Press the pedal once."""
        assert self._coming is not None
        page = self.room.page
        before = page.locator("[data-run-said]").inner_text()
        page.keyboard.press("PageDown")
        for _ in range(60):
            said = page.locator("[data-run-said]").inner_text()
            if said != before and said.startswith("Taken"):
                break
            page.wait_for_timeout(50)
        self.acts[self._coming.kind] += 1
        self.room.on(REPEAT_S)

    def go_through(self) -> None:
        """The whole run."""
        while (act := self.coming()) is not None:
            self.wait_for(act)
            self.tell()
