"""The pages' own reckoning, in Chromium, beside what the core says: equal to the millisecond."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from collections.abc import Iterator

FIXTURES = sorted((Path(__file__).parents[1] / "fixtures" / "run_rules").glob("*.json"))
SAID = """
async ({ checks, ahead }) => {
  const named = (name) => import(`/static/web/run/${name}.js`);
  const [schedules, cues, answers] = await Promise.all(["schedule", "cues", "answer"].map(named));
  const said = (rules, now) => {
    const schedule = schedules.scheduleAt(rules, now);
    const doubts = {};
    for (const due of schedule.dues) {
      const doubt = answers.doubtAbout(rules, schedule, due.act.key, now);
      if (doubt) doubts[due.act.key] = doubt;
    }
    return {
      now_s: now,
      dues: schedule.dues.map((due) => [due.act.key, due.due_s, due.at_s, due.how, due.ready_s]),
      bath: schedules.bathNow(schedule)?.act.key ?? null,
      shown: cues.shownNow(rules, now),
      overdue: cues.overdue(rules, now),
      answer: answers.actForAnswer(rules, schedule),
      doubts,
      cues: cues.cuesBetween(rules, now, now + ahead),
    };
  };
  return checks.map((check) => {
    let rules = check.rules;
    return {
      said: check.said.map((one) => said(rules, one.now_s)),
      then: check.then.map((one) => {
        rules = answers.withFacts(rules, one.facts);
        const { stamps, lost, shifts, pauses, status, doubt, readings, known_s } = rules;
        const told = { stamps, lost, shifts, pauses, status, doubt, readings, known_s };
        return { rules: told, said: said(rules, one.said.now_s) };
      }),
    };
  });
}
"""


def rounded(value: Any) -> Any:
    """Numbers to the millisecond; what a stamp rests on is the server's to say."""
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value
    if isinstance(value, int | float):
        return round(float(value), 3) + 0.0
    if isinstance(value, list):
        return [rounded(one) for one in value]
    return {key: rounded(one) for key, one in value.items() if key != "by"}


@pytest.fixture(scope="module")
def any_page(browser: Any, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    """A page that may load the modules, and needs no darkroom."""
    static = Path(__file__).parents[2] / "src" / "wetside" / "web" / "static"
    opened = browser.new_page()

    def answer(route: Any) -> None:
        path = static / route.request.url.partition("/static/")[2]
        known = path.is_file() and path.suffix == ".js"
        route.fulfill(
            body=path.read_text("utf-8") if known else "<!doctype html><title>any</title>",
            content_type="text/javascript" if known else "text/html",
        )

    opened.route("**/*", answer)
    opened.goto("http://any.test/")
    yield opened
    opened.close()


def test_there_are_fixtures() -> None:
    assert len(FIXTURES) >= 10


@pytest.mark.parametrize("path", FIXTURES, ids=lambda path: path.stem)
def test_the_page_reckons_as_the_core_does(any_page: Any, path: Path) -> None:
    checks = json.loads(path.read_text("utf-8"))["checks"]
    found = any_page.evaluate(SAID, {"checks": checks, "ahead": 400.0})
    for wanted, made in zip(checks, found, strict=True):
        assert rounded(made["said"]) == rounded(wanted["said"])
        for step, got in zip(wanted["then"], made["then"], strict=True):
            for known in (step["rules"], got["rules"]):
                # After a telling is taken back the core knows an older doubt again; past its ten seconds it is dead.
                if known["doubt"] and step["said"]["now_s"] - known["doubt"]["at_s"] > 10.0:
                    known["doubt"] = None
            assert rounded(got["rules"]) == rounded(step["rules"]), step["facts"]
            assert rounded(got["said"]) == rounded(step["said"]), step["facts"]


def test_what_an_answer_makes_is_what_the_core_would_write(any_page: Any) -> None:
    """The facts of "told" on the page are those that the core wrote at the same moment."""
    compared = 0
    for path in FIXTURES:
        for check in json.loads(path.read_text("utf-8"))["checks"]:
            rules = check["rules"]
            for step in check["then"]:
                kinds = {fact["kind"] for fact in step["facts"]}
                if kinds and kinds <= {"done", "doubted"}:
                    told = any_page.evaluate(
                        "async ([rules, facts, now]) => (await import('/static/web/run/answer.js'))"
                        ".tell(rules, now).facts.map(({ kind, data }) => ({ kind, data }))",
                        [rules, step["facts"], step["facts"][0]["run_s"]],
                    )
                    wanted = [{"kind": fact["kind"], "data": fact["data"]} for fact in step["facts"]]
                    assert rounded(told) == rounded(wanted)
                    compared += 1
                rules = any_page.evaluate(
                    "async ([rules, facts]) => (await import('/static/web/run/answer.js')).withFacts(rules, facts)",
                    [rules, step["facts"]],
                )
    assert compared >= 4


CLOCKS = """async ([tie, then]) => {
  const { RunClock } = await import('/static/web/run/clock.js');
  let steady = 50, wall = 1000000, names = 0;
  const clock = new RunClock(() => steady, () => wall, () => `stretch ${++names}`);
  if (tie.kept) clock.byKept({ run_s: 300, wall_s: wall - tie.passed_s, origin_ms: 0, doubtful: !!tie.doubtful });
  else clock.byServer(300, 0, steady, steady);
  const seen = [];
  for (const { steady_s = 0, wall_s = 0, hidden = false } of then) {
    steady += steady_s;
    wall += wall_s;
    const found = clock.settle(hidden);
    const now_s = clock.now();
    seen.push([found, now_s === null ? null : Math.round(now_s * 1000) / 1000]);
  }
  return seen;
}"""
ON = {"steady_s": 10, "wall_s": 10}


@pytest.mark.parametrize(
    ("tie", "then", "seen"),
    [
        # A page that is loaded anew while the server is dead has the wall clock alone: it goes on by what has passed.
        ({"kept": True, "passed_s": 4.0}, [ON], [["same", 314.0]]),
        # By no more than a time server steers it back, nothing has passed, and the time is still shown.
        ({"kept": True, "passed_s": -0.004}, [ON], [["same", 310.0]]),
        ({"kept": True, "passed_s": -1.9}, [ON], [["same", 310.0]]),
        # Further back, a day later, or in doubt before: no time that could be wrong.
        ({"kept": True, "passed_s": -2.1}, [ON], [["same", None]]),
        ({"kept": True, "passed_s": 86400.0}, [ON], [["same", None]]),
        ({"kept": True, "passed_s": 4.0, "doubtful": True}, [ON], [["same", None]]),
        # Tied to the server, the steady clock decides: steered, set back, slept, set forward before one's eyes.
        ({}, [{"steady_s": 10, "wall_s": 8.1}], [["same", 310.0]]),
        ({}, [{"steady_s": 10, "wall_s": -3600}, ON], [["set-back", 310.0], ["same", 320.0]]),
        ({}, [{"steady_s": 10, "wall_s": 100, "hidden": True}, ON], [["slept", 400.0], ["same", 410.0]]),
        ({}, [{"steady_s": 10, "wall_s": 100}, ON], [["doubtful", None], ["same", None]]),
    ],
)
def test_where_the_two_clocks_of_a_device_part(any_page: Any, tie: Any, then: Any, seen: Any) -> None:
    assert any_page.evaluate(CLOCKS, [tie, then]) == seen
