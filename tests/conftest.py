"""What every suite shares: the hypothesis profile, tests that need a program, and the report on published checks."""

from __future__ import annotations

import math
import os
import re
import shutil
from collections import Counter, defaultdict
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parent.parent
UNDER_CI = os.environ.get("CI") == "true"

# The browser's driver keeps a loop of its own running in this process, which the framework takes for asynchronous code
# in every test of the tables that comes after; servers that the tests start do not get this word.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")

# No deadline and no check of slowness: a busy machine is no fault of the code. CI draws the same cases each time.
settings.register_profile(
    "house",
    deadline=None,
    max_examples=60,
    derandomize=UNDER_CI,
    suppress_health_check=[HealthCheck.too_slow],
    print_blob=True,
)
settings.load_profile("house")

WANTED_IN_ALL = 250
WANTED_READ = 150
"""Of them, read in a source and not worked out beside it."""
WANTED_IN_TOPIC = dict.fromkeys(
    (
        "exposure",
        "sensitometry",
        "development",
        "chemistry",
        "mixing",
        "heat",
        "fixing",
        "washing",
        "hazards",
        "speed",
        "paper",
        "reciprocity",
        "reuse",
        "temperature",
        "rescue",
    ),
    15,
)
MOST_OF_A_FORMULA = 10
"""Cases of one formula and source that count; more may run."""


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--require-published",
        action="store_true",
        help="fail unless enough published checks ran: the whole suite must be run with it",
    )


def pytest_configure(config: pytest.Config) -> None:
    config.pluginmanager.register(PublishedReport(config), "published-report")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Where a PostgreSQL is named, only what meets it is run; the rest would only repeat files and SQLite."""
    if not os.environ.get("WETSIDE_DATABASE"):
        return
    here = [item for item in items if _meets_the_server(item)]
    config.hook.pytest_deselected(items=[item for item in items if item not in here])
    items[:] = here


def _meets_the_server(item: pytest.Item) -> bool:
    if "sqlite" in getattr(getattr(item, "callspec", None), "id", ""):
        return False
    meets = {"server_archive", "db", "transactional_db"} & set(getattr(item, "fixturenames", ()))
    return bool(meets) or item.get_closest_marker("django_db") is not None or "postgresql" in item.nodeid


def pytest_runtest_setup(item: pytest.Item) -> None:
    for mark in item.iter_markers("needs_program"):
        program = mark.args[0]
        if shutil.which(program) is None:
            (pytest.fail if UNDER_CI else pytest.skip)(f"{program} is not installed; see apt.txt")


class PublishedReport:
    """Collects what the ``agree`` fixture of tests/published noted, from this process or from workers.

    A check travels in its test's report, so that it makes no difference which process ran it.
    """

    def __init__(self, config: pytest.Config) -> None:
        self.config = config
        self.checks: list[dict[str, Any]] = []

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.when == "call" and report.passed:
            self.checks += [noted for name, noted in report.user_properties if name == "published"]

    @pytest.hookimpl(tryfirst=True)
    def pytest_sessionfinish(self, session: pytest.Session) -> None:
        if hasattr(self.config, "workerinput"):
            return
        if self.config.getoption("--require-published") and self.lacking() and session.exitstatus == pytest.ExitCode.OK:
            session.exitstatus = pytest.ExitCode.TESTS_FAILED

    def pytest_terminal_summary(self, terminalreporter: pytest.TerminalReporter) -> None:
        required = self.config.getoption("--require-published")
        if not self.checks and not required:
            return
        terminalreporter.section("agreement with published figures")
        for line in self.lines():
            terminalreporter.write_line(line)
        if required:
            for line in self.lacking():
                terminalreporter.write_line(f"FAILED {line}", red=True)

    def counted(self, status: str | None = None) -> Counter[str]:
        """Checks a topic, at most ten of one formula and source; of one status only, if it is given."""
        cases = Counter((c["topic"], c["formula"], c["source"]) for c in self.checks if status in (None, c["status"]))
        total: Counter[str] = Counter()
        for (topic, _, _), number in cases.items():
            total[topic] += min(number, MOST_OF_A_FORMULA)
        return total

    @staticmethod
    def wanted() -> dict[str, int]:
        """Return the least number of checks by topic."""
        return WANTED_IN_TOPIC

    def lacking(self) -> list[str]:
        """Say what is missing before the whole suite may pass."""
        counted = self.counted()
        known = set(re.findall(r"^@\w+\{([^,\s]+),", (ROOT / "docs/references.bib").read_text("utf-8"), re.MULTILINE))
        unknown = sorted({c["source"] for c in self.checks} - known)
        said = [
            f"published checks: {topic} has {counted[topic]}, {wanted} are wanted"
            for topic, wanted in WANTED_IN_TOPIC.items()
            if counted[topic] < wanted
        ]
        if counted.total() < WANTED_IN_ALL:
            said.append(f"published checks: {counted.total()} in all, {WANTED_IN_ALL} are wanted")
        read = self.counted("READ").total()
        if read < WANTED_READ:
            said.append(f"published checks: {read} read in a source, {WANTED_READ} are wanted")
        if unknown:
            said.append(f"published checks: sources that docs/references.bib does not have: {', '.join(unknown)}")
        return said

    def lines(self) -> list[str]:
        """Return the table of agreement by topic."""
        by_topic: dict[str, list[dict[str, Any]]] = defaultdict(list)
        for check in self.checks:
            by_topic[check["topic"]].append(check)
        counted = self.counted()
        said = [
            f"{'topic':<14}{'ran':>5}{'count':>7}{'read':>6}{'computed':>10}{'digits':>8}  worst against its tolerance"
        ]
        for topic, checks in sorted(by_topic.items()):
            read = sum(check["status"] == "READ" for check in checks)
            digits = min(check["digits"] for check in checks)
            worst = max(checks, key=lambda check: check["share"])
            said.append(
                f"{topic:<14}{len(checks):>5}{counted[topic]:>7}{read:>6}{len(checks) - read:>10}{digits:>8.1f}"
                f"  {worst['share'] * 100:.0f} % of it: {worst['name']} ({worst['source']})"
            )
        read = sum(check["status"] == "READ" for check in self.checks)
        said.append(
            f"{'in all':<14}{len(self.checks):>5}{counted.total():>7}{read:>6}{len(self.checks) - read:>10}"
            f"{min((c['digits'] for c in self.checks), default=math.nan):>8.1f}"
        )
        said.append("count: at most ten cases of one formula and source; digits: fewest decimal digits of agreement")
        return said
