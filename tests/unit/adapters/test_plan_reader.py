"""A frozen plan reads back as it was written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from wetside.adapters.plain_document import json_text, plain_value
from wetside.adapters.plan_file import read_plan
from wetside.adapters.plan_reader import plan_of_plain
from wetside.cards.course_card import course_card
from wetside.cards.plan_card import plan_card
from wetside.cards.reckoning import reckoning_card
from wetside.cards.run_sheet import run_sheet_of_load
from wetside.cards.window_chart import window_chart
from wetside.errors import InputError, RefusedError
from wetside.services.plan_evening import plan_file

EXAMPLES = sorted((Path(__file__).resolve().parents[3] / "examples").rglob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_all_that_is_shown_of_a_plan_is_the_same_after_reading(path) -> None:
    """Cards, chart, run sheets and the document itself do not know whether the plan was reckoned or read."""
    plan = plan_file(path)
    read = plan_of_plain(json.loads(json_text(plain_value(plan))))
    assert plain_value(read) == plain_value(plan)
    assert plan_card(read) == plan_card(plan)
    assert window_chart(read) == window_chart(plan)
    assert [reckoning_card(read, one) for one in read.sheets] == [reckoning_card(plan, one) for one in plan.sheets]
    assert [run_sheet_of_load(read, one) for one in read.loads] == [run_sheet_of_load(plan, one) for one in plan.loads]
    if plan.course is not None:
        assert course_card(read, read.course) == course_card(plan, plan.course)


def test_a_newer_or_broken_plan_is_refused() -> None:
    """A newer format is told as such; a document that is none names the place."""
    with pytest.raises(RefusedError):
        plan_of_plain({"format": 99})
    with pytest.raises(InputError) as refused:
        plan_of_plain({"format": 1, "loads": [{"number": 1}]})
    assert refused.value.params["where"] == "plan.loads[1]"


@pytest.mark.parametrize("text", ['{"format": 1,\n', '{"format": ' + "9" * 5000 + "}", "[" * 100_000])
def test_a_file_that_is_no_json_is_told_with_its_line(tmp_path, text) -> None:
    """Cut off, with a number of thousands of digits, nested without end."""
    (tmp_path / "plan.json").write_text(text)
    with pytest.raises(InputError) as refused:
        read_plan(tmp_path / "plan.json")
    assert refused.value.code == "files.plan.not_json"
    assert refused.value.place.line in {1, 2}
