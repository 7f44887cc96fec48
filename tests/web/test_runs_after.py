"""Pages after a run: its booking with every figure changeable, its hanging, what its vessel shows."""

from __future__ import annotations

import datetime as dt
import re

import pytest
from tests.fixtures.run_sample import planned

from wetside.adapters.machine_clock import moment_now
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.events import Incident, Where
from wetside.runs.fact import Fact
from wetside.runs.moment import Moment
from wetside.services.records import demo, plans_frozen, runs
from wetside.services.records.changes import make
from wetside.services.records.runs_log import conduct_of
from wetside.services.records.runs_settled import questions_said
from wetside.services.records.runs_sheets import sheets_of_run
from wetside.services.records.vessels import make_vessel

pytestmark = pytest.mark.django_db
MOST_QUERIES = 12


@pytest.fixture(autouse=True)
def _evening(settings, tmp_path, monkeypatch) -> None:
    """Runs were opened an hour and a half ago; nothing is printed: freezing leaves its files out."""
    now = moment_now()
    ago = dt.timedelta(seconds=5400)
    monkeypatch.setattr(runs, "moment_now", lambda: Moment(now.at_utc - ago, now.boot_s - 5400.0, now.boot_id))
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def run(plan):
    return ended(runs.open_planned(plan.pk, 1))


def ended(run):
    opened = run.events.get(seq=1)

    def done(number, act, seconds):
        when = opened.at_utc + dt.timedelta(seconds=seconds)
        return Fact("done", 1, when, opened.boot_s + seconds, opened.boot_id, "a" * 32, number, {"act": act})

    runs.hand_over(run, [done(1, "2.full", 400.0), done(2, "3.full", 900.0), done(3, "hang", 3000.0)])
    return runs.find_run(run.pk)


def text(answer) -> str:
    plain = re.sub(r"<[^>]+>", " ", answer.content.decode().partition("<main")[2])
    return re.sub(r"\s+", " ", plain).replace("\N{NO-BREAK SPACE}", " ")


def heading(answer) -> str:
    return re.search(r"<h1[^>]*>(.*?)</h1>", answer.content.decode(), re.DOTALL)[1].strip().replace("\xa0", " ")


def fields_of(answer, form_class: str = "booking") -> dict[str, str]:
    """What a browser would send of the form of a class."""
    body = answer.content.decode()
    form = body[body.index(f'class="{form_class}"') :]
    form = form[: form.index("</form>")]
    found = dict(re.findall(r'<input [^>]*name="([^"]+)"[^>]*value="([^"]*)"', form))
    for name, inner in re.findall(r'<select [^>]*name="([^"]+)"[^>]*>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', inner)
        found[name] = chosen[1] if chosen else ""
    return found


def test_a_run_is_booked_from_its_page_and_undone(run, get, post) -> None:
    """The proposal as it stands, one act; the page then says what stands in the books, and how to undo it."""
    page = f"/runs/{run.pk}/after/"
    assert f'href="{page}"' in get(f"/runs/{run.pk}/").content.decode()
    assert "over, not booked yet" in text(get("/runs/"))
    shown = get(page)
    assert heading(shown).startswith("To book: three baths, ")
    sent = fields_of(shown)
    assert sent["b3.returned"] == "400"
    assert "booked already" not in text(post(page, sent, follow=True))
    assert "booked already, maybe from another page" in text(post(page, sent | {"b3.returned": "390"}, follow=True))
    assert "over, booked" in text(get("/runs/"))
    booked = get(page)
    assert heading(booked) == "Booked: three bottles of the shelf"
    assert models.BottleLine.objects.filter(note=run.name).count() == 7
    fixer = models.Bottle.kept.get(mark="F")
    assert "units of ordinary film went through" in text(get(f"/shelf/bottles/{fixer.pk}/"))
    undone = post(f"{page}undo/", follow=True)
    assert "The booking of" in text(undone)
    assert heading(undone).startswith("To book")
    assert post(f"{page}undo/").status_code == 422


def test_the_first_page_asks_for_the_booking_of_a_run_that_is_over(run, plan, get, post) -> None:
    """Until it is booked; a rehearsal and a load noted by hand have nothing to book."""
    asked = "Over, not booked yet"
    runs_after = f"/runs/{run.pk}/after/"
    post(f"/plans/{plan.pk}/loads/2/developed/", {"time": ""})
    page = text(get("/"))
    assert page.count(asked) == 1
    assert page.count("book what it used") == 1
    post(runs_after, fields_of(get(runs_after)))
    assert asked not in text(get("/"))


def test_figures_are_changed_before_they_are_booked(run, get, post) -> None:
    """In any unit and with a comma; what is wrong stands beside its field with what was typed; nothing is written."""
    page = f"/runs/{run.pk}/after/"
    sent = fields_of(get(page))
    answer = post(page, sent | {"b2.drawn": "a lot", "b4.returned": "9 l", "water": "4,5 l"})
    assert answer.status_code == 422
    assert 'value="a lot"' in answer.content.decode()
    assert 'id="f-b2-drawn-m"' in answer.content.decode()
    assert models.BottleLine.objects.filter(note=run.name).count() == 0
    assert post(page, sent | {"b2.drawn": "12,5", "water": "4,5 l"}).status_code == 302
    drawn = models.BottleLine.objects.get(note=run.name, bottle__mark="D")
    assert drawn.change_ml == -12.5
    assert runs.find_run(run.pk).facts["booked"]["water_ml"] == 4500.0
    assert "4500 ml" in text(get(page))


def test_a_rehearsal_and_a_run_that_is_on_have_nothing_to_book(plan, get, post) -> None:
    """The page says why, and a form that is sent all the same changes nothing."""
    rehearsal = ended(runs.open_planned(plan.pk, 1, rehearsal=True))
    going = runs.open_planned(plan.pk, 2)
    for run, words in ((rehearsal, "A rehearsal with water"), (going, "The run is on")):
        page = f"/runs/{run.pk}/after/"
        assert heading(get(page)) == "Nothing to book here"
        assert words in text(get(page))
        assert post(page, {"b2.drawn": "10"}).status_code == 422
    assert models.BottleLine.objects.filter(kind="drawn").count() == 0


def test_sheets_hang_with_their_numbers(run, get, post) -> None:
    """Clips are asked for one by one, a mistake stands beside its clip, numbers go to the sheets and their stories."""
    page = f"/runs/{run.pk}/hanging/"
    assert f'href="{page}"' in get(f"/runs/{run.pk}/").content.decode()
    names = list(sheets_of_run(run))
    assert heading(get(page)).endswith("to hang: which is where?")
    sent = {f"clip.{clip}": name for clip, name in enumerate(names, 1)}
    sent |= {f"number.{clip}": f"N {clip}" for clip in range(1, len(names) + 1)}
    wrong = post(page, sent | {"clip.2": names[0]})
    assert wrong.status_code == 422
    assert 'id="clip-2-m"' in wrong.content.decode()
    assert post(page, sent).status_code == 302
    assert heading(get(page)).endswith("hang, each on its clip")
    sheet = sheets_of_run(run)[names[1]]
    assert sheet.negative == "N 2"
    assert f"hung: {run.name}" in text(get(f"/sheets/{sheet.pk}/"))
    assert f"{names[1]} is negative N 2" in re.sub(r" +", " ", text(get(f"/runs/{run.pk}/after/")))


def test_order_unknown_is_one_tap(run, post, get) -> None:
    """Nothing else need be filled in."""
    assert post(f"/runs/{run.pk}/hanging/", {"unknown": "on"}).status_code == 302
    assert heading(get(f"/runs/{run.pk}/hanging/")).endswith("hang, and the order is not known")


def test_pages_after_a_run_ask_little(run, get, django_assert_max_num_queries) -> None:
    """At most twelve questions, booked or not."""
    for _ in range(2):
        for page in (f"/runs/{run.pk}/after/", f"/runs/{run.pk}/hanging/"):
            with django_assert_max_num_queries(MOST_QUERIES):
                assert get(page).status_code == 200
        from wetside.services.records import runs_after, runs_booked

        after = runs_after.after_run(run)
        runs_booked.book_run(run, runs_booked.booking_of(after), dt.datetime(2031, 11, 5, tzinfo=dt.UTC))


def three_runs(vessel_name: str, drain_s: float) -> models.Run:
    """Three ended runs in a vessel whose stop was poured so long after the developer's drain."""
    script = planned(480.0, dark=False)._replace(vessel=vessel_name)
    for day in range(3):
        run = make(models.Run, {"name": f"run {day}"})
        conduct = conduct_of(run)

        def at(seconds: float, day: int = day) -> Moment:
            began = dt.datetime(2031, 11, 4 + day, 20, 0, tzinfo=dt.UTC)
            return Moment(began + dt.timedelta(seconds=seconds), seconds, f"boot {day}")

        conduct.do(c.Open(script), at(0.0))
        for act, seconds in (("2.full", 200.0), ("2.drain", 680.0), ("3.pour", 680.0 + drain_s), ("hang", 3000.0)):
            conduct.do(c.Tell(act), at(seconds))
    return runs.find_run(run.pk)


def test_what_runs_teach_is_offered_on_the_vessel_and_after_the_run(get, post, django_assert_max_num_queries) -> None:
    """With its spread; one button takes it, one keeps what stands; either goes back to where it was asked."""
    vessel = make_vessel({"name": "long drum", "kind": "drum", "places": 12, "min": "300 ml", "max": "1 l"})
    run = three_runs("long drum", 22.0)
    page, after = f"/shelf/vessels/{vessel.pk}/", f"/runs/{run.pk}/after/"
    for address in (page, after):
        with django_assert_max_num_queries(MOST_QUERIES):
            shown = text(get(address))
        assert "Draining. From three runs: 22 s, 22 s, 22 s. Stated: 15 s. Take 22 s Keep mine" in shown
    kept = post(f"{page}take/drain_s/", {"keep": "on", "run": str(run.pk)}, follow=True)
    assert kept.redirect_chain[-1][0] == after
    assert "it is not offered again" in text(get(page))
    assert models.Vessel.objects.get().drain_s == 15.0
    three_runs("long drum", 28.0)
    assert 'name="seen" value="25"' in get(page).content.decode()
    assert "offers another value now" in text(post(f"{page}take/drain_s/", {"seen": "22"}))
    assert post(f"{page}take/drain_s/", {"revision": str(vessel.revision)}, follow=True).redirect_chain[-1][0] == page
    assert models.Vessel.objects.get().drain_s == 25.0
    assert "learned in runs" in text(get(page))
    assert post(f"{page}take/drain_s/").status_code == 422
    models.Vessel.objects.update(follows_s=480.0, jacket_off_c=-1.5)
    assert "63 % of the way to its jacket in 8:00" in text(get(page))
    assert post(f"{page}forget/").status_code == 302
    assert models.Vessel.objects.get().follows_s is None
    post(f"{page}remove/")
    gone = post(f"{page}take/drain_s/", {"seen": "25"})
    assert gone.status_code == 422
    assert "was removed. Bring it back first" in text(gone)
    assert models.Vessel.objects.get().drain_s == 25.0


def test_a_sheets_story_tells_its_run(plan, get, django_assert_max_num_queries) -> None:
    """Place, clip, what development came to, and what touched it; not what came too late, nor what touched others."""
    run = runs.open_planned(plan.pk, 1)
    opened = run.events.get(seq=1)

    def at(seconds: float) -> Moment:
        return Moment(opened.at_utc + dt.timedelta(seconds=seconds), opened.boot_s + seconds, opened.boot_id)

    names = list(sheets_of_run(run))
    gone, *others = names
    runs.command(run, c.Lose(sheet=gone), at(5.0))
    runs.command(run, c.Tell("2.full"), at(400.0))
    for seconds, shown_c in ((500.0, 20.4), (700.0, 19.8)):
        runs.command(run, c.Reading(shown_c, Where.DEVELOPER), at(seconds))
    run = ended(run)
    runs.command(run, c.Incidence(Incident.POWER, ago_s=2500.0, text="fuse of the house"), at(3100.0))
    runs.command(run, c.Incidence(Incident.LIGHT), at(3110.0))
    runs.command(run, c.Identify(tuple(reversed(others))), at(3120.0))
    sheet = sheets_of_run(run)[others[0]]
    models.Sheet.objects.filter(pk=sheet.pk).update(label="larch", holder="", label_key="larch")
    with django_assert_max_num_queries(MOST_QUERIES):
        shown = text(get(f"/sheets/{sheet.pk}/"))
    assert f"Hung on clip {len(others)}." in shown
    assert "in effect, " in shown
    assert "The developer was read at 19.4 °C to 20.0 °C, planned 20.0 °C." in shown
    assert "the power went. In your words: fuse of the house." in shown
    assert "light came in" not in shown
    assert "Lost in this run." in text(get(f"/sheets/{sheets_of_run(run)[gone].pk}/"))
    after = text(get(f"/runs/{run.pk}/after/"))
    assert "the power went. In your words: fuse of the house. It touched every sheet." in after
    assert "light came in. It came too late to touch a sheet." in after
    assert f"Lost: {gone}." in after


def test_ounces_are_booked_as_they_are_shown(run, get, post) -> None:
    """A darkroom in US units with a decimal comma: what stands in the fields is what is booked."""
    models.Darkroom.objects.create(units="us", decimal_sign="comma")
    page = f"/runs/{run.pk}/after/"
    sent = fields_of(get(page))
    assert sent["b2.drawn"] == "0,68"
    assert post(page, sent).status_code == 302
    drawn = models.BottleLine.objects.get(note=run.name, bottle__mark="D")
    assert drawn.change_ml == pytest.approx(-20.0, abs=0.15)
    assert "drawn 0,68 fl oz" in text(get(page))


def test_two_pages_hang_one_run_in_different_orders(run, get, post) -> None:
    """The second is kept, both pages and the run's ask which is right, one act settles it, and it leads back."""
    page = f"/runs/{run.pk}/hanging/"
    names = list(sheets_of_run(run))
    loaded = fields_of(get(page), "hanging")

    def order(these):
        return loaded | {f"clip.{clip}": name for clip, name in enumerate(these, 1)}

    assert post(page, order(names)).status_code == 302
    answer = post(page, order(names[::-1]), follow=True)
    assert "it does not count yet" in text(answer)
    assert heading(answer) == "Told differently: which order is right?"
    for shown in (get(page), get(f"/runs/{run.pk}/")):
        assert f"from clip 1 on: {names[0]}" in text(shown)
        assert f"from clip 1 on: {names[-1]}" in text(shown)
    assert "say which one is right" in text(get(f"/runs/{run.pk}/after/"))
    asked = questions_said(run)[0]
    sent = {"device": asked.device, "number": asked.number, "counts": "yes", "back": "hanging"}
    settled = post(f"/runs/{run.pk}/settle/", sent, follow=True)
    assert settled.redirect_chain[-1][0] == page
    assert heading(settled).endswith("hang, each on its clip")
    assert sheets_of_run(run)[names[-1]].negative == loaded["number.1"]


def test_a_form_that_comes_back_with_a_mistake_knows_only_what_it_showed(run, get, post) -> None:
    """Another page told meanwhile: the order that is put right here is no correction of that one."""
    page = f"/runs/{run.pk}/hanging/"
    names = list(sheets_of_run(run))
    loaded = fields_of(get(page), "hanging")
    told = loaded | {f"clip.{clip}": name for clip, name in enumerate(names, 1)}
    other = loaded | {f"clip.{clip}": name for clip, name in enumerate(names[::-1], 1)}
    assert post(page, told).status_code == 302
    again = post(page, other | {"clip.1": ""})
    assert again.status_code == 422
    assert fields_of(again, "hanging")["seen"] == loaded["seen"]
    post(page, other | {"seen": fields_of(again, "hanging")["seen"]})
    assert len(questions_said(run)) == 1
    post(page, other | {"seen": "many"})
    assert len(questions_said(run)) == 1


def test_a_program_that_hangs_says_what_it_had_seen(run, client) -> None:
    """Without a word it had seen no order; with the name of the first it corrects it."""
    names = list(sheets_of_run(run))

    def asked(order, **more):
        sent = {"device": "c" * 32, "command": "identify", "order": order, **more}
        return client.post(f"/runs/{run.pk}/commands", sent, content_type="application/json", HTTP_HOST="127.0.0.1")

    assert asked(names).json()["refused"] is None
    assert asked(names[::-1]).status_code == 200
    assert len(questions_said(run)) == 1
    told = [[fact.device, fact.device_number] for fact in run.events.filter(kind="identified")]
    assert asked(None, knew=told).status_code == 200
    state = runs.standing(run).state
    assert (state.order, state.hung_otherwise) == (None, ())
    for wrong in ("desk", [["desk"]], [["desk", "x"]], [["desk", 0]], 3):
        answer = asked(names, knew=wrong)
        assert answer.status_code == 422
        assert "knew" in answer.content.decode()
