"""Looking over runs in the browser's part: two beside each other, planned and actual, what was told differently."""

from __future__ import annotations

import re

import pytest
from tests.fixtures.run_records import develop, moment_of_run

from wetside.runs import commands as c
from wetside.runs.fact import Fact
from wetside.services.records import demo, plans_frozen, runs

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]


@pytest.fixture
def both():
    plan = plans_frozen.freeze(demo.make_demo())
    return develop(runs.open_planned(plan.pk, 1)), develop(runs.open_planned(plan.pk, 2), late_s=40.0)


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


def test_planned_and_actual_stand_on_the_page_of_a_run_that_is_over(get, both, django_assert_max_num_queries) -> None:
    """A table of what was planned, what was, and what it did; within a dozen questions."""
    address = f"/runs/{both[1].pk}/"
    get(address)
    with django_assert_max_num_queries(12):
        page = get(address).content.decode()
    title = r"<h1[^>]*>The run is over: \+0\.\d\d density by the clock alone</h1>"
    assert re.search(title, page), "40 s late, and no temperature was read"
    assert "Planned and actual" in page
    assert "Developed in effect, by the clock" in page
    assert "not read" in page


def test_what_was_told_differently_is_settled_with_one_act(get, post) -> None:
    """Two devices told "full" 7 s apart: both are shown, one act settles it, both facts stay in the log."""
    run = runs.open_quick("Tolland 100", "Brackwater", 480.0)
    runs.command(run, c.Tell("1.full"), moment_of_run(run, 12.0))
    late = moment_of_run(run, 19.0)
    other = Fact("done", 1, late.at_utc, late.boot_s, late.boot_id, "b" * 32, 1, {"act": "1.full"})
    runs.hand_over(run, [other])
    page = get(f"/runs/{run.pk}/").content.decode()
    assert "One thing was told differently" in page
    assert "told by device bbbbbb" in page
    before = run.events.count()
    body = {"device": "b" * 32, "number": "1", "counts": "yes"}
    assert post(f"/runs/{run.pk}/settle/", body).status_code == 302
    state = runs.standing(run).state
    assert state.stamps["1.full"].at_s == pytest.approx(19.0, abs=0.01)
    assert state.contested == ()
    assert run.events.count() == before + 1
    assert "told differently" not in get(f"/runs/{run.pk}/").content.decode()
    again = post(f"/runs/{run.pk}/settle/", body)
    assert again.status_code == 422
    assert "settled already" in again.content.decode()


def test_what_counts_now_may_be_right(get, post) -> None:
    """The other way: the contested fact is left out, and the first one stands."""
    run = runs.open_quick("Tolland 100", "Brackwater", 480.0)
    runs.command(run, c.Tell("1.full"), moment_of_run(run, 12.0))
    late = moment_of_run(run, 19.0)
    runs.hand_over(run, [Fact("done", 1, late.at_utc, late.boot_s, late.boot_id, "b" * 32, 1, {"act": "1.full"})])
    for number in ("x", "-1", "9" * 30):
        bad = post(f"/runs/{run.pk}/settle/", {"device": "b" * 32, "number": number, "counts": "no"})
        assert bad.status_code == 422
    assert post(f"/runs/{run.pk}/settle/", {"device": "b" * 32, "number": "1", "counts": "no"}).status_code == 302
    state = runs.standing(run).state
    assert state.stamps["1.full"].at_s == pytest.approx(12.0, abs=0.01)
    assert state.contested == ()


def test_what_was_left_out_is_counted_again(get, post, both) -> None:
    """On the page of a run that is over: a fact left out is named, and one act brings the question back."""
    run = both[0]
    late = moment_of_run(run, 500.0)
    runs.hand_over(run, [Fact("done", 1, late.at_utc, late.boot_s, late.boot_id, "b" * 32, 1, {"act": "2.full"})])
    assert post(f"/runs/{run.pk}/settle/", {"device": "b" * 32, "number": "1", "counts": "no"}).status_code == 302
    page = get(f"/runs/{run.pk}/").content.decode()
    assert "One thing was taken back or left out" in page
    taker = run.events.order_by("-seq").first()
    body = {"device": taker.device, "number": str(taker.device_number), "counts": "again"}
    assert post(f"/runs/{run.pk}/settle/", body).status_code == 302
    assert "One thing was told differently" in get(f"/runs/{run.pk}/").content.decode()
    assert post(f"/runs/{run.pk}/settle/", body).status_code == 422
