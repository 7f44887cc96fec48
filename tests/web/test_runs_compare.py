"""The page of two runs beside each other."""

from __future__ import annotations

import pytest
from tests.fixtures.run_records import STEADY, develop

from wetside.services.records import demo, plans_frozen, runs

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path) -> None:
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def get(client):
    return lambda address, data=None, **more: client.get(address, data or {}, headers=HOST, **more)


@pytest.fixture
def both():
    plan = plans_frozen.freeze(demo.make_demo())
    return develop(runs.open_planned(plan.pk, 1)), develop(runs.open_planned(plan.pk, 2), STEADY._replace(delay_s=40.0))


def test_an_empty_page_teaches_the_next_step(get) -> None:
    """Without two runs it says what it is for and leads to the runs."""
    answer = get("/runs/compare/")
    assert answer.status_code == 200
    assert "Two runs are needed to compare" in answer.content.decode()


def test_two_runs_are_compared_in_a_dozen_questions(get, both, django_assert_max_num_queries) -> None:
    """The title is the answer; it is reached from the list and from each run; the other way round turns the sign."""
    one, other = (str(run.pk) for run in both)
    assert "/runs/compare/" in get("/runs/").content.decode()
    assert f"/runs/compare/?one={one}" in get(f"/runs/{one}/").content.decode()
    with django_assert_max_num_queries(12):
        page = get("/runs/compare/", {"one": one, "other": other}).content.decode()
    assert "Load 2: likely +" in page
    assert "Late and early acts" in page
    assert "never checked" in page
    turned = get("/runs/compare/", {"one": other, "other": one}).content.decode()
    assert "Load 1: likely \N{MINUS SIGN}" in turned


def test_runs_that_cannot_be_compared(get, both) -> None:
    """The same run twice, and one that is not there, are told in a sentence."""
    one = str(both[0].pk)
    same = get("/runs/compare/", {"one": one, "other": one})
    assert same.status_code == 422
    assert "Both are the same run" in same.content.decode()
    assert get("/runs/compare/", {"one": one, "other": "x"}).status_code in (404, 422)
    picked = get("/runs/compare/", {"one": one})
    assert "Which two runs do not match?" in picked.content.decode()
