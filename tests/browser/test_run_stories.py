"""Stories B4 and B5 from end to end: real servers that are really killed, real pages, a real terminal.

Only the machine's clock is moved on by the test, for all of them alike.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from tests.browser.test_run_dark import black
from tests.browser.test_run_page import seconds, until
from tests.fixtures.terminal_run import REPEAT_S, TerminalRun, plan_of

from wetside.adapters.speech import voice_here

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.browser.moved_darkroom import Darkroom
    from tests.fixtures.moved_clock import MovedClock

EVENINGS = Path(__file__).resolve().parents[1] / "fixtures" / "evenings"
EFFECT = re.compile(
    r"(?P<sheet>[^:]+): developed (?P<actual>\d+:\d\d) in effect, (?P<planned>\d+:\d\d) planned: "
    r"(?P<density>[+\N{MINUS SIGN}]?\d\.\d\d) density \((?P<percent>[+\N{MINUS SIGN}]?\d+\.\d) % of time\)\."
)


DARK = "document.documentElement.darkPage"
HEARD = f"{DARK}.heard.join(' | ')"
HIDE = (
    "Object.defineProperty(document, 'visibilityState', {{ value: '{state}', configurable: true }});"
    "document.dispatchEvent(new Event('visibilitychange'))"
)


@pytest.fixture
def terminal(clock: MovedClock) -> Iterator[Any]:
    """Start `wetside run` at a terminal; each is ended by its own process."""
    started: list[TerminalRun] = []

    def start(words: list[str]) -> TerminalRun:
        started.append(TerminalRun(words, clock.on))
        return started[-1]

    yield start
    for one in started:
        one.close()


def effects(lines: list[str]) -> dict[str, tuple[int, int, float, float]]:
    """By sheet: developed and planned [s], density, percent of time."""

    def number(text: str) -> float:
        return float(text.replace("\N{MINUS SIGN}", "-"))

    found: dict[str, tuple[int, int, float, float]] = {}
    for match in filter(None, (EFFECT.fullmatch(line.strip()) for line in lines)):
        told = (
            seconds(match["actual"]), seconds(match["planned"]), number(match["density"]), number(match["percent"])
        )  # fmt: skip
        first, to, last = match["sheet"].partition(" to ")
        names = map(str, range(int(first), int(last) + 1)) if to else re.split(", | and ", match["sheet"])
        found |= dict.fromkeys(names, told)
    return found


REST = ((45, "fixer"), (310, "wash"), (430, "wetting agent"), (80, "hung"))
"""After the stop: so long after the last answer [s], and what the next one is taken for."""
CUT_S, BACK_S = 250.0, 390.0
"""After full in story B5: the power goes, and the laptop is back. [s]"""


def rest_at_the_page(room: Darkroom) -> list[str]:
    """From the stop to hanging; what the page tells in the end."""
    for after_s, taken in REST:
        room.on(after_s)
        room.tell(taken)
    return room.came()


def rest_at_the_terminal(clock: MovedClock, at: Any) -> list[str]:
    """The same by keys; what the terminal tells in the end."""
    for after_s, taken in REST:
        clock.on(after_s)
        at.answer(" ", "Which hangs" if taken == "hung" else f"(?i){taken}")
    at.key("\n")
    assert at.process.wait(10) == 0
    return at.seen.rpartition("The run is over")[2].splitlines()


def b5_at_the_page(room: Darkroom) -> list[str]:
    """Story B5 at the page; what it tells in the end."""
    run = room.planned_run(EVENINGS / "b5.toml")
    room.tell("all four are so")
    room.tell("both are so")
    room.on(20)
    room.clock.begin()
    room.tell("the developer is in")
    room.to(CUT_S)
    assert room.head() == ("Drain the developer", pytest.approx(465 - CUT_S, abs=3))
    room.power_gone()
    room.clock.machine_started_anew("second")
    room.page = room.new_page()
    room.start()
    room.to(BACK_S)
    room.page.goto(run)
    room.shown()
    assert room.head() == ("Drain the developer", pytest.approx(75, abs=4))
    page = room.page
    page.locator("summary", has_text="Something went wrong").click()
    page.locator("#p-ago").fill("2:20")
    page.locator("#p-text").fill("turned by hand")
    page.get_by_role("button", name="Note it").click()
    until(page, "document.querySelector('[data-run-said]').textContent.includes('Noted')")
    room.to(480)
    page.keyboard.press("t")
    page.locator("#run-shown").fill("19,4")
    page.locator("[name=where][value=poured-out]").check()
    page.keyboard.press("Enter")
    until(page, "document.querySelector('[data-run-said]').textContent.includes('19.4')")
    room.to(490)
    room.tell("the stop is in")
    return rest_at_the_page(room)


def b5_at_the_terminal(clock: MovedClock, plan: Path, log: Path, terminal: Any) -> list[str]:
    """The same acts by keys; what the terminal tells in the end."""
    words = ["run", "--plan", plan, "--load", "1", "--log", log]
    first = terminal(clock.words(*words))
    first.until("DRY")
    first.answer(" ", "Taken")
    first.answer(" ", "Taken")
    clock.on(20)
    clock.begin()
    first.answer(" ", "Taken: Developer, full")
    clock.to(CUT_S)
    first.until(r"DRAIN IN 3:3\d")
    first.kill()
    clock.machine_started_anew("third")
    clock.to(BACK_S)
    again = terminal(clock.words("run", "--log", log))
    again.until(r"DEVELOPER, DRAIN IN 1:1\d")
    again.answer("i", "What went wrong")
    again.answer("p 2:20 turned by hand\n", "Noted")
    clock.to(477)
    again.answer("t", "Reading in the developer")
    again.answer("o 19,4\n", "19.4")
    clock.to(490)
    again.answer(" ", "Taken: Stop, full")
    return rest_at_the_terminal(clock, again)


def test_b5_cut_in_the_developer(darkroom: Darkroom, clock: MovedClock, terminal: Any, tmp_path: Path) -> None:
    """Power gone at 4:10 of 8:00, laptop back at 6:30: drain in 1:15; every sheet is told what the cold did to it."""
    at_page = b5_at_the_page(darkroom)
    plan = plan_of(tmp_path / "plan", EVENINGS / "b5.toml")
    at_terminal = b5_at_the_terminal(clock, plan, tmp_path / "run.log", terminal)
    found, same = effects(at_page), effects(at_terminal)
    assert found, at_page
    assert list(found) == list(same) == ["1", "2", "3", "4", "5", "6"]
    for sheet, (actual_s, planned_s, density, percent) in found.items():
        assert percent == pytest.approx(-1.4, abs=0.4), "practice B5: a steady fall 1.4 %, 1.0 to 2.8 % by how it fell"
        assert density < 0.0
        other = same[sheet]
        assert (actual_s, planned_s) == (pytest.approx(other[0], abs=2), other[1])
        assert (density, percent) == (pytest.approx(other[2], abs=0.01), pytest.approx(other[3], abs=0.4))
    for lines in (at_page, at_terminal):
        assert any("for every sheet that it could reach: the power went (turned by hand)" in line for line in lines), (
            lines
        )


def b4_in_the_dark(room: Darkroom) -> list[str]:
    """Story B4 by a pedal at a black page; what the page tells in the end."""
    page = room.page
    room.frozen_plan(EVENINGS / "b4.toml")
    page.goto(f"{page.url.rstrip('/')}/loads/1/loading/")
    assert page.locator("tr[data-at]").count() == 12, "the loading order as a sound tells twelve places"
    page.locator("button[value=dark]").click()
    page.wait_for_selector("[data-dark-try]:enabled", timeout=60_000)
    run = page.url.replace("dark/", "")
    page.locator("[data-dark-try]").click()
    page.wait_for_selector("[data-dark-go]:enabled", timeout=60_000)
    page.locator("[data-dark-go]").click()
    until(page, f"{DARK}.black")

    def pedal(key: str = "PageDown") -> None:
        page.keyboard.press(key)
        room.on(REPEAT_S)

    pedal()
    for slot in range(1, 13):
        if slot == 5:  # the telephone rings: the browser is put aside, and the network goes with it
            room.context.set_offline(True)
            page.evaluate(HIDE.format(state="hidden"))
            room.on(20)
            page.evaluate(HIDE.format(state="visible"))
            black(page)
        if slot == 9:
            room.context.set_offline(False)
            until(page, f"{DARK}.handover.waiting.length === 0")
            pedal("l")
            pedal("l")
            until(page, f"{DARK}.rules.lost.length === 1")
            heard = page.evaluate(HEARD)
            assert "Left: eleven sheets" in heard
            assert "300 ml wet the vessel: enough. Developing agent for the film: 1.09 times" in heard
            continue
        assert page.evaluate(f"{DARK}.heard.at(-1)").startswith(f"slot {slot}: sheet")
        pedal()
        black(page)
    pedal()
    until(page, f"{DARK}.darkOver")
    pedal()
    page.wait_for_url(run)
    room.shown()
    room.on(20)
    room.clock.begin()
    room.tell("the developer is in")
    # The server dies for a minute and a half, and the bath goes on; a reading is kept meanwhile.
    room.to(60)
    room.kill()
    room.on(45)
    until(page, "document.querySelector('[data-run-alone]').textContent.includes('alone')")
    page.reload()
    room.shown()
    assert room.head() == ("Drain the developer", pytest.approx(465 - room.clock.since_s(), abs=2))
    page.keyboard.press("t")
    page.keyboard.type("20.0")
    page.keyboard.press("Enter")
    page.locator("summary", has_text="Something went wrong").click()
    page.locator("#p-ago").fill("9:59:59")
    page.locator("#p-what").select_option("light")
    note = page.get_by_role("button", name="Note it")
    note.click()
    until(page, "document.querySelector('[data-run-said]').textContent.includes('within the run')")
    page.locator("#p-ago").fill("0:10")
    note.click()
    until(page, "document.querySelector('[data-run-alone]').textContent.includes('2 kept')")
    room.to(150)
    room.start()
    room.on(10)
    until(page, "document.querySelector('[data-run-alone]').hidden")
    assert room.head() == ("Drain the developer", pytest.approx(465 - room.clock.since_s(), abs=2))
    room.to(490)
    room.tell("the stop is in")
    return rest_at_the_page(room)


def b4_at_the_terminal(clock: MovedClock, plan: Path, log: Path, terminal: Any) -> list[str]:
    """The same evening by keys: loaded, the ninth place lost, told afterwards."""
    at = terminal(clock.words("run", "--plan", plan, "--log", log))
    at.until("DRY")
    at.answer(" ", "Taken")
    at.answer("l", "Which one is lost")
    at.answer("9\n", "11 left: 680 ml, and 300 ml wets the vessel")
    at.answer(" ", "Taken")
    clock.on(20)
    clock.begin()
    at.answer(" ", "Taken: Developer, full")
    clock.to(110)
    at.answer("t", "Reading in the developer")
    at.answer("20.0\n", "20.0")
    at.answer("i", "What went wrong")
    at.answer("l 0:10\n", "Noted")
    clock.to(490)
    at.answer(" ", "Taken: Stop, full")
    return rest_at_the_terminal(clock, at)


@pytest.mark.skipif(voice_here() is None, reason="no voice is installed")
def test_b4_lights_out(darkroom: Darkroom, clock: MovedClock, terminal: Any, tmp_path: Path) -> None:
    """Twelve sheets by a pedal, one lost, a call silenced, a dead server: eleven come out as they should."""
    at_page = b4_in_the_dark(darkroom)
    rules = darkroom.rules()
    assert rules["lost"] == ["8 left"]
    assert rules["contested"] == 0
    numbers = [stamp["number"] for stamp in rules["stamps"].values()]
    assert len(numbers) == len(set(numbers)) == 1 + 11 + 1 + 6, (
        "lights out, eleven places, lights on, six baths: each once"
    )
    plan = plan_of(tmp_path / "plan", EVENINGS / "b4.toml")
    at_terminal = b4_at_the_terminal(clock, plan, tmp_path / "run.log", terminal)
    found, same = effects(at_page), effects(at_terminal)
    assert list(found) == list(same)
    assert len(found) == 11
    assert "8 left" not in found
    for lines in (at_page, at_terminal):
        assert any(line.strip().endswith("for every sheet that it could reach: light came in.") for line in lines), (
            lines
        )
    for sheet, (actual_s, planned_s, density, percent) in found.items():
        assert (actual_s, planned_s) == (pytest.approx(same[sheet][0], abs=2), same[sheet][1])
        assert (density, percent) == (0.0, pytest.approx(same[sheet][3], abs=0.5))
