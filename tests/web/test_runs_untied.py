"""What a log brought is taken back in the browser: shown first, refused with the page that helps, undone."""

from __future__ import annotations

import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils import timezone
from tests.fixtures.run_logs import facts_of, log_of, quick

from wetside.records import models
from wetside.runs.script import RunSheet
from wetside.services.records import demo, plans_frozen
from wetside.services.records.runs import script_of_planned
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_booked import book_run, booking_of
from wetside.services.records.runs_log import FOLDS
from wetside.services.records.runs_taken import look_at_log, take_log
from wetside.services.records.runs_tied import Ties
from wetside.services.records.sheets import add_sheet

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]


@pytest.fixture(autouse=True)
def _nothing_folded():
    """The same log is the same run in each test, with other facts."""
    FOLDS.forget()


def title_of(page: str) -> str:
    found = re.search(r"<h1[^>]*>(.*?)</h1>", page, re.DOTALL)
    assert found is not None
    return found[1].strip()


def tied_run() -> models.Run:
    sheet = add_sheet({"film": "Tolland 100", "label": "larch"}, make_film=True)
    script = quick()._replace(sheets=(RunSheet("larch", "Tolland 100", 90.0),))
    return take_log(log_of(facts_of(script)), "load-1.log", Ties(sheets={"larch": str(sheet.pk)})).run


def test_a_run_is_untied_and_tied_again(get, post, django_assert_max_num_queries) -> None:
    """The page tells what goes; a page that was shown before something else happened writes nothing."""
    run = tied_run()
    models.Sheet.objects.update(negative="B 7")
    models.Sheet.history.filter(state="developed").update(negative="B 7")
    address = f"/runs/{run.pk}/"
    assert f'href="{address}untie/"' in get(address).content.decode()
    with django_assert_max_num_queries(12):
        page = get(f"{address}untie/").content.decode()
    assert title_of(page) == "One sheet would wait again"
    assert "B 7 goes" in page
    revision = re.search(r'name="revision" value="(\d+)"', page)
    assert revision is not None
    assert "was changed" in post(f"{address}untie/", {"revision": "1"}, follow=True).content.decode()
    done = post(f"{address}untie/", {"revision": revision[1]}, follow=True).content.decode()
    assert "No sheet is tied to it any more" in done
    assert "Untied from: larch" in done
    assert models.Sheet.objects.get().state == "waiting"
    assert "It cannot be untied yet" in get(f"{address}untie/").content.decode()
    again = post(f"{address}tie-again/", follow=True).content.decode()
    assert "It is tied again, as it was" in again
    assert (models.Sheet.objects.get().state, models.Sheet.objects.get().negative) == ("developed", "B 7")
    assert "Nothing was untied" in post(f"{address}tie-again/", follow=True).content.decode()


def test_a_run_is_removed_and_its_address_says_so(get, post, django_assert_max_num_queries) -> None:
    """Every other page of it says so too, and leads there; a second tab writes nothing; it is brought back thrice."""
    log = log_of(facts_of())
    run, other = take_log(log, "a.log").run, take_log(log_of(facts_of(boot_id="b")), "b.log").run
    address = f"/runs/{run.pk}/"
    assert "Remove this run" in get(address).content.decode()
    assert title_of(get(f"{address}remove/").content.decode()) == "It goes from every list, and can be brought back"
    gone = post(f"{address}remove/", {"revision": str(run.revision)}, follow=True).content.decode()
    with django_assert_max_num_queries(12):
        assert get(address).status_code == 200
    assert title_of(gone) == "Tolland 100 in Brackwater 1+14 is removed"
    assert "2031-11-04" in gone
    assert address not in get("/runs/").content.decode()
    assert "was removed" in post(f"{address}remove/", follow=True).content.decode()
    for part in ("after/", "hanging/", "mishap/", "untie/", "remove/"):
        answer = get(f"{address}{part}")
        assert (part, answer.status_code) == (part, 404)
        assert f'href="{address}"' in answer.content.decode()
    beside = get(f"/runs/compare/?one={other.pk}&other={run.pk}")
    assert beside.status_code == 404
    assert f'href="{address}"' in beside.content.decode()
    assert get(f"{address}rules.json").status_code == 404
    assert post(f"{address}after/", {}).status_code == 404
    assert not models.BottleLine.objects.exists()
    assert "run from a log" in get("/darkroom/removed/").content.decode()
    for way in (f"{address}back/", f"/darkroom/removed/run/{run.pk}/back/"):
        back = post(way, follow=True)
        assert back.status_code == 200, way
        assert "is back" in back.content.decode()
        assert get(address).status_code == 200
        assert address in get("/runs/").content.decode()
        post(f"{address}remove/")
    page = post("/runs/log/take/", {"text": log.decode(), "name": "a.log"}, follow=True).content.decode()
    assert "It was removed, and is back." in page
    assert models.Run.objects.count() == 2
    assert post(f"{address}back/", follow=True).status_code == 200


def test_the_preview_of_a_removed_run_says_so(post) -> None:
    """Before anything is written."""
    run = take_log(log_of(facts_of()), "a.log").run
    post(f"/runs/{run.pk}/remove/")
    page = post("/runs/log/", {"log": SimpleUploadedFile("a.log", log_of(facts_of()))}).content.decode()
    assert title_of(page) == "This run was removed; taking its log in brings it back"
    assert "Bring it back" in page


def test_what_stands_in_the_way_leads_to_its_page(get) -> None:
    """Tied: to untying. Booked: to what it used. A load: to untying."""
    run = tied_run()
    address = f"/runs/{run.pk}/"
    page = get(f"{address}remove/").content.decode()
    assert title_of(page) == "It cannot be removed yet"
    assert f'href="{address}untie/"' in page
    plan = plans_frozen.freeze(demo.make_demo())
    data = log_of(facts_of(script_of_planned(plan, 1), boot_id="b"))
    (ready,) = look_at_log(data, "x.log").fits.loads
    load = take_log(data, "x.log", Ties(load=str(ready.pk))).run
    book_run(load, booking_of(after_run(load)), timezone.now())
    page = get(f"/runs/{load.pk}/untie/").content.decode()
    assert title_of(page) == "It cannot be untied yet"
    assert f'href="/runs/{load.pk}/after/"' in page
    assert "It was not this load" in get(f"/runs/{load.pk}/").content.decode()


def test_a_load_is_untied_by_its_page(get, post, django_assert_max_num_queries) -> None:
    """The plan's page has it ready again; the run stands in the list as one of its own."""
    plan = plans_frozen.freeze(demo.make_demo())
    data = log_of(facts_of(script_of_planned(plan, 1)))
    (ready,) = look_at_log(data, "x.log").fits.loads
    run = take_log(data, "x.log", Ties(load=str(ready.pk))).run
    with django_assert_max_num_queries(12):
        page = get(f"/runs/{run.pk}/untie/").content.decode()
    assert title_of(page) == f"{run.name} would be ready again"
    done = post(f"/runs/{run.pk}/untie/", follow=True).content.decode()
    assert "is ready again. This run is one of its own." in done
    assert models.Run.kept.get(plan=plan, load=1).state == "ready"
    assert get(f"/plans/{plan.pk}/").status_code == 200
    assert f"Untied from: {run.name}" in done
