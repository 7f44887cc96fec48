"""The page of a look: what a negative showed, and what that changes for the loads that wait."""

from __future__ import annotations

import re

import pytest
from tests.fixtures.run_records import develop

from wetside.services.records import demo, plans, plans_frozen, runs, short_way

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]


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
    with django_assert_max_num_queries(12):
        page = get(address).content.decode()
    assert re.search(r"<h1>[A-Z][a-z]+ sheets that wait would get another time</h1>", page)
    assert "Too hard" in page
    assert "How sure" in page
    seen = re.search(r'name="seen" value="([0-9a-f]+)"', page)[1]
    assert post(f"{address}leave/").status_code == 302
    assert "You left the loads as they are" in get(address).content.decode()
    assert "Look now" not in get(f"/runs/{run.pk}/").content.decode()
    taken = post(f"{address}take/", {"seen": seen})
    assert taken.status_code == 302
    assert f'action="{taken.url}loads/1/run/"' in get(f"/runs/{run.pk}/").content.decode()
    shown = get(taken.url).content.decode()
    assert "after a look" in shown
    assert "Undo the planning anew" in shown
    undone = post(f"{taken.url}look/undo/")
    assert undone.url == f"/plans/{plan.pk}/"
    assert f'action="/plans/{plan.pk}/loads/' in get(f"/runs/{run.pk}/").content.decode()
    stale = post(f"{address}take/", {"seen": "0" * 64})
    assert stale.status_code in (409, 422)


def test_where_a_look_pays_it_is_asked_for_before_the_next_load(get, post, run, plan) -> None:
    """The plan's course names the reason; once somebody looked it is not asked again; the sheet's story tells it."""
    looks = [one["load"] for one in plan.document["course"]["steps"] if one["does"] == "look"]
    assert 1 in looks
    assert "First a negative of this load" in get(f"/runs/{run.pk}/").content.decode()
    name = runs.standing(run).state.sheets[0]
    post(f"/runs/{run.pk}/look/", {"sheet": name, "how": "print", "shadow": "too-little", "highlight": "too-little"})
    assert "First a negative of this load" not in get(f"/runs/{run.pk}/").content.decode()
    sheet = next(place.sheet for place in plan.places.select_related("sheet") if str(place.sheet) == name)
    assert "too little exposure" in get(f"/sheets/{sheet.pk}/").content.decode()


def test_a_short_plan_is_taken_with_one_act_and_undone(get, post) -> None:
    """From four answers to the look, the new plan in the list, its first load open, and back."""
    answers = {"film": "Tolland 40", "developer": "Marrow 1+9", "number": "8", "vessel": "drum 4, 300-1000 ml"}
    short = short_way.keep_short({**answers, "time": "7:30"})
    run = develop(runs.open_planned(short.pk, 1))
    address = f"/runs/{run.pk}/look/"
    typed = {"sheet": runs.standing(run).state.sheets[0], "how": "eye", "shadow": "right", "highlight": "too-much"}
    assert post(address, typed).status_code == 302
    page = get(address).content.decode()
    assert "Four sheets that wait would get another time" in page
    seen = re.search(r'name="seen" value="([0-9a-f]+)"', page)[1]
    taken = post(f"{address}take/", {"seen": seen})
    shown = get(taken.url).content.decode()
    assert "Undo the planning anew" in shown
    assert f'action="{taken.url}loads/1/run/"' in get(f"/runs/{run.pk}/").content.decode()
    old = get(f"/plans/{short.pk}/").content.decode()
    assert f'href="{taken.url}"' in old
    assert "Bring the cancelled load back" not in old
    assert "Remove this plan" not in shown
    rows = re.findall(r'data-name="Sheets">(\d+)<', get("/plans/").content.decode())
    assert rows == ["4", "4"]
    assert post(f"{taken.url}look/undo/").status_code == 302
    rows = re.findall(r'data-name="Sheets">(\d+)<', get("/plans/").content.decode())
    assert rows == ["8"]
    assert post(f"{address}take/", {"seen": "0" * 64}).status_code == 422


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
