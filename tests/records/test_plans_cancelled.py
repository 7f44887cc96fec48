"""A plan at work whose rest is given back, and what becomes of what was done."""

from __future__ import annotations

import pytest

from wetside.errors import ConflictError, RefusedError
from wetside.records import models
from wetside.services.records import demo, plans_cancelled, plans_frozen
from wetside.services.records.changes import change

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path) -> None:
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


def states(plan) -> dict[str, int]:
    found: dict[str, int] = {}
    for sheet in models.Sheet.objects.filter(places__plan=plan):
        found[sheet.state] = found.get(sheet.state, 0) + 1
    return found


def test_the_rest_waits_again_and_what_is_done_stays(plan) -> None:
    """One of six loads is developed: five are given back, and brought back as they were."""
    plans_frozen.note_developed(plan, 1)
    done = states(plan)["developed"]
    before = {place.sheet_id: place.load for place in plan.places.all()}
    plan = plans_cancelled.cancel_rest(plan)
    assert plans_cancelled.cancelled_loads(plan) == (2, 3, 4, 5, 6)
    assert states(plan) == {"developed": done, "waiting": len(before) - done}
    assert models.Run.kept.filter(plan=plan).count() == 1
    plan = plans_cancelled.rest_back(plan)
    assert states(plan) == {"developed": done, "planned": len(before) - done}
    assert {place.sheet_id: place.load for place in plan.places.all()} == before
    assert models.Run.kept.filter(plan=plan, state="ready").count() == 5
    assert plans_cancelled.cancelled_loads(plan) == ()


def test_what_cannot_be_cancelled_is_said(plan) -> None:
    """Nothing begun, nothing left, nothing cancelled."""
    with pytest.raises(RefusedError, match="nothing_begun"):
        plans_cancelled.cancel_rest(plan)
    with pytest.raises(RefusedError, match="not_cancelled"):
        plans_cancelled.rest_back(plan)
    for load in range(1, 7):
        plans_frozen.note_developed(plan, load)
    with pytest.raises(RefusedError, match="nothing_left"):
        plans_cancelled.cancel_rest(plan)


def test_a_running_load_is_not_touched(plan) -> None:
    """A load that runs goes on; only those that nobody began are given back."""
    change(models.Run.kept.get(plan=plan, load=2), {"state": "running"})
    plan = plans_cancelled.cancel_rest(plan)
    assert plans_cancelled.cancelled_loads(plan) == (1, 3, 4, 5, 6)
    assert models.Run.kept.get(plan=plan).state == "running"


def test_a_sheet_that_went_elsewhere_is_not_taken_back(plan) -> None:
    """A given-back sheet that was lost meanwhile stops the way back, and nothing is half done."""
    plans_frozen.note_developed(plan, 1)
    plan = plans_cancelled.cancel_rest(plan)
    sheet = models.Sheet.objects.filter(places__plan=plan, state="waiting").first()
    change(sheet, {"state": "lost"})
    before = states(plan)
    with pytest.raises(ConflictError):
        plans_cancelled.rest_back(plan)
    assert states(plan) == before
    assert models.Run.kept.filter(plan=plan).count() == 1


def test_taking_the_note_back_and_unfreezing_leaves_nothing_cancelled(plan) -> None:
    """A cancelled rest goes with its freezing; frozen again, all six loads are ready."""
    plans_frozen.note_developed(plan, 1)
    plan = plans_cancelled.cancel_rest(plan)
    plans_frozen.undo_developed(plan, 1)
    plan.refresh_from_db()
    plan = plans_frozen.freeze_again(plans_frozen.unfreeze(plan))
    assert plans_cancelled.cancelled_loads(plan) == ()
    assert models.Run.kept.filter(plan=plan, state="ready").count() == 6


def test_the_pages_offer_it_and_its_undo(client, plan) -> None:
    """The button stands there once a load is developed, the way back once it was pressed."""
    page, cancel = f"/plans/{plan.pk}/", f"/plans/{plan.pk}/cancel-rest/"
    assert cancel not in client.get(page, headers=HOST).content.decode()
    plans_frozen.note_developed(plan, 1)
    assert cancel in client.get(page, headers=HOST).content.decode()
    assert client.post(cancel, headers=HOST).status_code == 302
    text = client.get(page, headers=HOST).content.decode()
    assert "Bring the 5 cancelled loads back" in text
    assert "cancelled" in client.get(f"{page}loads/2/", headers=HOST).content.decode()
    assert client.post(f"{page}rest-back/", headers=HOST).status_code == 302
    assert cancel in client.get(page, headers=HOST).content.decode()
