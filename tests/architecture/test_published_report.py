"""The report on published checks counts what decision 15 of the house counts, and says what is missing."""

from __future__ import annotations

from typing import Any

import pytest


@pytest.fixture
def report(pytestconfig: pytest.Config) -> Any:
    """Return an empty report of the kind that the run itself uses."""
    return type(pytestconfig.pluginmanager.get_plugin("published-report"))(pytestconfig)


def noted(
    topic: str = "exposure", formula: str = "bellows", source: str = "us-army-ss0512", **more: Any
) -> dict[str, Any]:
    return {
        "topic": topic,
        "formula": formula,
        "source": source,
        "status": "READ",
        "name": "n",
        "digits": 4.0,
        "share": 0.5,
    } | more


def test_at_most_ten_cases_of_a_formula_and_source_count(report: Any) -> None:
    """The eleventh case of the same formula and source runs, and does not count."""
    report.checks = [noted()] * 14 + [noted(source="us-navy-14209")] * 3 + [noted(topic="chemistry", formula="mix")]
    assert report.counted() == {"exposure": 13, "chemistry": 1}


def test_what_is_missing_is_named(report: Any) -> None:
    """A topic below its number, the number in all, and an unknown source are each named."""
    report.checks = [noted(source="no-such-key")]
    said = "\n".join(report.lacking())
    assert "exposure has 1, 15 are wanted" in said
    assert "1 in all, 250 are wanted" in said
    assert "1 read in a source, 150 are wanted" in said
    assert "no-such-key" in said


def test_nothing_is_missing_when_enough_ran(report: Any) -> None:
    """With enough checks in every topic and in all the report asks for nothing."""
    report.checks = [noted(topic=topic, formula=f"f{i}") for topic in report.wanted() for i in range(30)]
    assert report.lacking() == []


def test_the_table_names_the_worst_case_of_a_topic(report: Any) -> None:
    """Each topic shows its counts, its fewest digits, and the case that takes most of its tolerance."""
    report.checks = [noted(name="good", share=0.1), noted(name="worst", share=0.9, digits=2.4, status="COMPUTED")]
    line = next(line for line in report.lines() if line.startswith("exposure"))
    assert line.split() == ["exposure", "2", "2", "1", "1", "2.4", "90", "%", "of", "it:", "worst", "(us-army-ss0512)"]
