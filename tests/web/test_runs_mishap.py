"""What went wrong with single sheets: told on its page during a run, after it and at hanging; and taken back."""

from __future__ import annotations

import datetime as dt

import pytest
from tests.web.test_runs_after import ended, heading, text

from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.moment import Moment
from wetside.services.records import demo, plans_frozen, runs
from wetside.services.records.changes import change
from wetside.services.records.runs_after import after_run
from wetside.services.records.runs_sheets import sheets_of_run

pytestmark = pytest.mark.django_db
MOST_QUERIES = 12


@pytest.fixture
def run(opened_long_ago):
    """A load that was opened an hour and a half ago, and not begun."""
    return runs.open_planned(plans_frozen.freeze(demo.make_demo()).pk, 1)


def story(get, run, name: str) -> str:
    return text(get(f"/sheets/{sheets_of_run(run)[name].pk}/"))


def test_it_is_told_of_chosen_sheets_and_stands_in_their_stories(run, get, post, django_assert_max_num_queries) -> None:
    """Scratched is one sheet's, light is everybody's; another's story tells nothing of the scratch."""
    run = ended(run)
    page = f"/runs/{run.pk}/mishap/"
    names = list(sheets_of_run(run))
    assert f'href="{page}"' in get(f"/runs/{run.pk}/").content.decode()
    with django_assert_max_num_queries(MOST_QUERIES):
        assert heading(get(page)) == "Nothing went wrong, as far as anybody told"
    asked = {
        "what": "scratched",
        "sheets": [names[1], names[0]],
        "ago_s": "0:30",
        "text": "by the clip",
        "back": "after",
    }
    answer = post(page, asked, follow=True)
    assert answer.redirect_chain[-1][0] == f"/runs/{run.pk}/after/"
    assert f"Noted for {names[0]} and {names[1]}." in text(answer)
    assert "seen to be scratched. In your words: by the clip." in story(get, run, names[0])
    assert "scratched" not in story(get, run, names[2])
    assert f"Seen on {names[0]} and {names[1]}." in text(get(f"/runs/{run.pk}/after/"))
    assert f"{names[0]}, {names[1]}: scratched (by the clip)" in text(get(f"/runs/{run.pk}/")).replace(" and ", ", ")
    assert heading(get(page)) == "One thing went wrong in this run"
    post(page, {"what": "other", "text": "dust"})
    assert "In your words: dust." in story(get, run, names[2])


def test_mistakes_stand_beside_their_fields(run, get, post) -> None:
    """No sheet ticked where one must be, a time before the run or below nothing with its sign, an unknown kind."""
    run = ended(run)
    page = f"/runs/{run.pk}/mishap/"
    for sent, field, said in (
        ({"what": "stuck"}, "m-sheets-m", "Which sheet was it?"),
        ({"what": "lost"}, "m-sheets-m", "Which sheet is lost? Tick it."),
        ({"what": "stuck", "sheets": ["nobody"]}, "m-sheets-m", "No sheet"),
        ({"what": "lost", "sheets": ["nobody"]}, "m-sheets-m", "No sheet"),
        ({"what": "leak", "ago_s": "9:00:00"}, "m-ago-m", "is no time within the run"),
        ({"what": "leak", "ago_s": "-1:30"}, "m-ago-m", "-1:30"),
        ({"what": "leak", "ago_s": "-1:75"}, "m-ago-m", "-1:75"),
        ({"what": "leak", "text": "x" * 600}, "m-text-m", "500"),
        ({"what": "flood"}, "m-what-m", "flood"),
    ):
        answer = post(page, sent)
        assert answer.status_code == 422, sent
        assert f'id="{field}"' in answer.content.decode(), sent
        assert said in text(answer).replace("\N{MINUS SIGN}", "-"), sent
    typed = post(page, {"what": "leak", "ago_s": "soon", "text": "by the lid"}).content.decode()
    assert 'value="soon"' in typed
    assert 'value="by the lid"' in typed
    assert runs.standing(run).state.incidents == ()


def test_a_sheet_told_lost_at_hanging_is_neither_hung_nor_numbered(run, get, post) -> None:
    """It is lost in the records, was in the fixer all the same, and no clip asks for it; taken back, it is there."""
    run = ended(run)
    page, hanging = f"/runs/{run.pk}/mishap/", f"/runs/{run.pk}/hanging/"
    names = list(sheets_of_run(run))
    fixer = after_run(run).rows[-1].ordinary
    assert f'href="{page}?back=hanging"' in get(hanging).content.decode()
    stale = {f"clip.{clip}": name for clip, name in enumerate(names, 1)}
    answer = post(page, {"what": "lost", "sheets": [names[0]], "back": "hanging"}, follow=True)
    assert answer.redirect_chain[-1][0] == hanging
    assert "It was in the baths, and counts for them" in text(answer)
    assert sheets_of_run(run)[names[0]].state == models.SheetState.LOST
    assert after_run(runs.find_run(run.pk)).rows[-1].ordinary == fixer
    refused = post(hanging, stale | {f"number.{clip}": f"N {clip}" for clip in range(1, len(names) + 1)})
    assert refused.status_code == 422
    assert "is told lost: it hangs on no clip and gets no number" in text(refused)
    assert {sheets_of_run(run)[name].negative for name in names} == {""}
    assert f'<option value="{names[0]}"' not in get(hanging).content.decode()
    left = {f"clip.{clip}": name for clip, name in enumerate(names[1:], 1)}
    assert post(hanging, left | {f"number.{clip}": f"N {clip}" for clip in range(1, len(names))}).status_code == 302
    assert [sheets_of_run(run)[name].negative for name in names] == ["", *(f"N {n}" for n in range(1, len(names)))]
    assert "Lost in this run." in story(get, run, names[0])
    fact = run.events.filter(kind="lost").get()
    back = {"device": fact.device, "number": str(fact.device_number)}
    assert post(f"{page}back/", back).status_code == 302
    assert sheets_of_run(run)[names[0]].state == models.SheetState.DEVELOPED
    assert post(f"{page}back/", back).status_code == 422
    assert heading(get(page)) == "Nothing went wrong, as far as anybody told"


def test_what_a_person_said_of_a_sheet_is_left_alone(run, post) -> None:
    """A sheet that was marked lost by hand is not found again by taking back what another was told."""
    run = ended(run)
    page = f"/runs/{run.pk}/mishap/"
    first, second, *_ = list(sheets_of_run(run))
    by_hand = sheets_of_run(run)[second]
    change(by_hand, {"state": models.SheetState.LOST, "developed_at": None}, why="dropped on the floor")
    post(page, {"what": "lost", "sheets": [first]})
    fact = run.events.filter(kind="lost").get()
    post(f"{page}back/", {"device": fact.device, "number": str(fact.device_number)})
    states = {name: sheet.state for name, sheet in sheets_of_run(run).items() if name in (first, second)}
    assert states == {first: models.SheetState.DEVELOPED, second: models.SheetState.LOST}


def test_a_run_that_goes_on_takes_it_from_its_own_page(run, get, post) -> None:
    """The plain form of the page by the sink has the same ticks."""
    runs.command(run, c.Tell("2.full"), Moment(*_later(run, 400.0)))
    names = list(sheets_of_run(run))
    page = get(f"/runs/{run.pk}/?more").content.decode()
    assert f'name="sheets" value="{names[0]}"' in page
    answer = post(
        f"/runs/{run.pk}/commands", {"command": "incident", "what": "touched", "sheets": names[:2]}, follow=True
    )
    assert f"Noted for {names[0]} and {names[1]}." in text(answer)
    (incident,) = runs.standing(run).state.incidents
    assert incident.sheets == tuple(names[:2])
    refused = post(f"/runs/{run.pk}/commands", {"command": "incident", "what": "touched"}, follow=True)
    assert "Which sheet was it?" in text(refused)


def _later(run, seconds: float):
    opened = run.events.get(seq=1)
    return opened.at_utc + dt.timedelta(seconds=seconds), opened.boot_s + seconds, opened.boot_id


def test_a_run_that_was_never_started_asks_nothing(run, get, settings) -> None:
    """An empty page says why."""
    ready = models.Run.kept.filter(state="ready", plan=run.plan).exclude(pk=run.pk).first()
    assert heading(get(f"/runs/{ready.pk}/mishap/")) == "The run was not started: nothing can have gone wrong"
