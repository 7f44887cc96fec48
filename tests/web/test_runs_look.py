"""The page of a look: what a negative showed, and what that changes for the loads that wait."""

from __future__ import annotations

import re

import pytest
from tests.fixtures.run_records import develop

from wetside.services.records import demo, plans, plans_frozen, runs

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path) -> None:
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def get(client):
    return lambda address, data=None, **more: client.get(address, data or {}, headers=HOST, **more)


@pytest.fixture
def post(client):
    return lambda address, data=None, **more: client.post(address, data or {}, headers=HOST, **more)


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def run(plan):
    return develop(runs.open_planned(plan.pk, 1))


def kin_of(plan) -> str:
    document = plans.reckoned(plan).plan
    others = {(one.film, one.process) for one in document.sheets if one.load != 1}
    return next(one.id for one in document.sheets if one.load == 1 and (one.film, one.process) in others)


def test_a_run_that_is_not_over_teaches_when_to_look(get, plan) -> None:
    """A load that is ready says when the light may go on."""
    ready = runs.open_planned(plan.pk, 2)
    page = get(f"/runs/{ready.pk}/look/").content.decode()
    assert "Nothing to look at yet" in page
    assert "twice the clearing time" in page


def test_looked_at_proposed_taken_and_undone(get, post, run, plan, django_assert_max_num_queries) -> None:
    """From the run's page to the look, its proposal, the new plan, and back."""
    address = f"/runs/{run.pk}/look/"
    assert address in get(f"/runs/{run.pk}/").content.decode()
    assert "What does the negative show?" in get(address).content.decode()
    typed = {"sheet": kin_of(plan), "how": "eye", "shadow": "right", "highlight": "too-much"}
    assert post(address, typed).status_code == 302
    with django_assert_max_num_queries(20):
        page = get(address).content.decode()
    assert re.search(r"\d+ sheets that wait would get another time", page)
    assert "Too hard" in page
    assert "How sure" in page
    seen = re.search(r'name="seen" value="([0-9a-f]+)"', page)[1]
    assert post(f"{address}leave/").status_code == 302
    assert "You left the loads as they are" in get(address).content.decode()
    taken = post(f"{address}take/", {"seen": seen})
    assert taken.status_code == 302
    shown = get(taken.url).content.decode()
    assert "after a look" in shown
    assert "Undo the planning anew" in shown
    undone = post(f"{taken.url}look/undo/")
    assert undone.url == f"/plans/{plan.pk}/"
    stale = post(f"{address}take/", {"seen": "0" * 64})
    assert stale.status_code in (409, 422)


def test_mistakes_stand_beside_their_fields(post, run, get) -> None:
    """What was typed stays; nothing is kept; a look that is not there is no look."""
    address = f"/runs/{run.pk}/look/"
    sheet = runs.standing(run).state.sheets[0]
    answer = post(
        address, {"sheet": sheet, "how": "densitometer", "shadow_density": "dark", "highlight_density": "1,2"}
    )
    page = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="dark"' in page
    assert 'id="l-low-m"' in page
    assert post(address, {"sheet": sheet, "how": "eye"}).status_code == 422
    assert "What does the negative show?" in get(address).content.decode()
    assert post(f"{address}back/", {"rank": "7"}).status_code in (404, 422)
