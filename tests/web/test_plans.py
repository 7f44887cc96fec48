"""Pages of plans, the short way, the import and the first page, without a browser."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from wetside.records import models
from wetside.services.records import demo, plans_frozen
from wetside.services.records.changes import change, make

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]
ROOT = Path(__file__).resolve().parents[2]
HOST = {"host": "127.0.0.1"}
SHORT = {
    "film": "Tolland 40",
    "developer": "Marrow 1+9",
    "number": "8",
    "vessel": "drum 6, 300-1000 ml",
    "time": "7:30",
}


@pytest.fixture
def get(client):
    return lambda address, **data: client.get(address, data, headers=HOST)


@pytest.fixture
def plan():
    return demo.make_demo()


def heading(answer) -> str:
    found = re.search(r"<h1[^>]*>(.*?)</h1>", answer.content.decode(), re.DOTALL)
    return found[1].strip()


def fields_of(answer) -> dict[str, list[str]]:
    """What the form of the choices would send."""
    form = answer.content.decode().partition('hx-post="')[2].partition("</form>")[0]
    sent: dict[str, list[str]] = {}
    for tag in re.findall(r"<input[^>]*>", form):
        name, value = re.search(r'name="([^"]*)"', tag), re.search(r'value="([^"]*)"', tag)
        if name and ("checkbox" not in tag or " checked" in tag):
            sent.setdefault(name[1], []).append(value[1] if value else "on")
    for name, options in re.findall(r'<select[^>]*name="([^"]*)"[^>]*>(.*?)</select>', form, re.DOTALL):
        sent[name] = [m[1] for m in re.finditer(r'value="([^"]*)" selected', options)] or [""]
    return sent


def test_every_page_has_its_answer_as_title(get, post, plan) -> None:
    """The list, a draft, a frozen plan, a load, the short way, the first page."""
    assert heading(get("/plans/")) == "One plan is being made"
    assert heading(get(f"/plans/{plan.pk}/")) == "Eleven sheets, six loads"
    plans_frozen.freeze(plan)
    assert heading(get("/plans/")) == "One plan is frozen and waits for its evening"
    assert heading(get(f"/plans/{plan.pk}/")) == "Eleven sheets, six loads"
    assert heading(get(f"/plans/{plan.pk}/loads/1/")) == "Load 1: develop 7:20"
    assert heading(get("/short/", **SHORT)) == "Eight sheets, two loads"
    assert heading(get("/")) == "Six loads are ready to be run"


def test_the_first_page_says_what_waits(get) -> None:
    """Nine sheets, the oldest by its day; one alone; nothing."""
    import datetime as dt

    from wetside.adapters.clock import today

    film = make(models.Film, {"name": "Tolland 100"})
    for number in range(9):
        day = today() - dt.timedelta(days=18 - number)
        make(models.Sheet, {"label": str(number), "film": film, "exposed": day})
    assert heading(get("/")) == "Nine sheets wait, the oldest 18 days"
    models.Sheet.kept.exclude(label="0").update(state="lost")
    assert heading(get("/")) == "One sheet waits, for 18 days"


def test_the_first_page_says_what_is_near(get, plan) -> None:
    """A bottle past its day and a frozen plan that was not run, each with the way to it."""
    import datetime as dt

    bottle = models.Bottle.kept.get(mark="F")
    change(bottle, {"keeps_until": dt.date(2020, 1, 1)})
    plan = plans_frozen.freeze(plan)
    text = get("/").content.decode()
    assert "/shelf/" in text
    assert str(bottle.pk) in text
    assert "spent" in text
    assert "6 loads to develop" in text
    for load in range(1, 7):
        plans_frozen.note_developed(plan, load)
    assert "loads to develop" not in get("/").content.decode()


def test_a_page_of_plans_asks_few_questions(get, plan, django_assert_max_num_queries) -> None:
    """At most twelve queries for list and first page, fourteen for a draft with its choices."""
    with django_assert_max_num_queries(12):
        get("/plans/")
    with django_assert_max_num_queries(12):
        get("/")
    with django_assert_max_num_queries(12):
        get("/plans/new/")
    with django_assert_max_num_queries(21):
        get(f"/plans/{plan.pk}/")


def test_sheets_are_picked_from_the_list_of_sheets(get, post, plan) -> None:
    """Both as keys in the address and as a list that is sent."""
    first, second = models.Sheet.kept.all()[:2]
    page = get("/plans/new/", sheets=f"{first.pk},{second.pk}").content.decode()
    assert len(re.findall(r'name="sheets" value="[^"]*" checked', page)) == 2
    answer = post("/plans/new/", {"sheets": [str(first.pk), str(second.pk)], "name": "first frost"})
    made = models.Plan.kept.get(name="first frost")
    assert answer.headers["Location"] == f"/plans/{made.pk}/"
    assert made.places.count() == 2
    empty = post("/plans/new/", {"name": "nothing"})
    assert empty.status_code == 422
    assert 'value="nothing"' in empty.content.decode()


def test_choices_sent_as_they_stand_change_nothing(get, post, plan) -> None:
    """The form holds all choices: sent back untouched, the plan is the same."""
    address = f"/plans/{plan.pk}/"
    before = get(address)
    sent = fields_of(before)
    assert sent["vessels"]
    assert sent["size"] == ["9x12cm"]
    answer = post(f"{address}choose/", sent)
    assert answer.status_code == 302
    assert heading(get(address)) == heading(before)
    kept = models.Plan.kept.get(pk=plan.pk).choices
    assert {key: kept[key] for key in ("keys", "process", "aim", "thermometer")} == {
        key: plan.choices[key] for key in ("keys", "process", "aim", "thermometer")
    }


def test_a_mistake_stands_beside_its_field_and_what_was_typed_stays(get, post, plan) -> None:
    """422, the field marked, the text kept, the plan still there."""
    sent = {**fields_of(get(f"/plans/{plan.pk}/")), "floor": "soon"}
    answer = post(f"/plans/{plan.pk}/choose/", sent)
    text = answer.content.decode()
    assert answer.status_code == 422
    field = re.search(r'<input id="f-floor"[^>]*>', text)[0]
    assert 'value="soon"' in field
    assert 'aria-invalid="true"' in field
    assert 'class="mistake" id="f-floor-m"' in text
    assert heading(answer) == "Eleven sheets, six loads"


def test_a_live_change_answers_with_the_new_plan(get, post, plan) -> None:
    """Asked by htmx, the page comes at once; a redirect otherwise."""
    sent = fields_of(get(f"/plans/{plan.pk}/"))
    del sent["twins_apart"]
    answer = post(f"/plans/{plan.pk}/choose/", sent, HTTP_HX_REQUEST="true")
    assert (answer.status_code, heading(answer)) == (200, "Eleven sheets, five loads")


def test_a_reckoning_is_a_fragment_or_a_page(client, get, plan) -> None:
    """The fragment has no frame, the page has; a sheet that is not there is told."""
    address = f"/plans/{plan.pk}/why/"
    fragment = client.get(address, {"sheet": "5 left"}, headers={**HOST, "HX-Request": "true"}).content.decode()
    assert "<html" not in fragment
    assert "5 left: why 7:17" in fragment
    assert fragment.count('class="mark"') >= 3
    assert heading(get(address, sheet="5 left")) == "5 left: why 7:17"
    assert get(address, sheet="nobody").status_code == 422


def test_a_plan_that_cannot_be_planned_says_why_and_keeps_its_choices(get, plan) -> None:
    """A broken record: its name and field on the page, the choices still there to be changed."""
    change(models.Film.kept.get(name="Morvane 320"), {"facts": {"times": [{"developer": "Brackwater", "time": "x"}]}})
    answer = get(f"/plans/{plan.pk}/")
    assert answer.status_code == 200
    assert heading(answer) == "This cannot be planned yet"
    assert "Morvane 320: times[1].time" in answer.content.decode()
    assert 'id="choices"' in answer.content.decode()


def test_a_test_of_one_time_alone_leads_on_to_its_film(get, plan) -> None:
    """The planner cannot use it; the page says of which film, and has the way to enter the other time."""
    film = models.Film.kept.get(name="Morvane 320")
    rows = [[8.0, step / 10, 0.1 + step / 20] for step in range(0, 22, 2)]
    change(film, {"facts": {**film.facts, "tests": [{"developer": "Brackwater", "dilution": "1+14", "rows": rows}]}})
    page = get(f"/plans/{plan.pk}/").content.decode()
    assert "a family needs curves at two developing times or more" in page
    assert f'href="/films/{film.pk}/tests/new/"' in page
    assert f'href="/films/{film.pk}/"' in page
    assert page.count("/tests/new/") == 1, "films whose sheets have their time are left alone"


def test_developers_are_compared_as_answers(get, post, plan) -> None:
    """Loads, worst deviation, agent wanted and at hand, the end: one column a developer."""
    sent = fields_of(get(f"/plans/{plan.pk}/"))
    process = str(models.Process.kept.get().pk)
    post(f"/plans/{plan.pk}/choose/", {**sent, "compare": [process], "compare_typed": "Marrow 1+9"})
    text = get(f"/plans/{plan.pk}/compare/").content.decode()
    assert "<strong>6</strong>" in text
    assert "at hand" in text
    assert "Nothing is known of" in text


def test_freezing_loads_noted_and_all_taken_back(get, post, plan) -> None:
    """The whole way there and back through the pages."""
    address = f"/plans/{plan.pk}/"
    seen = re.search(r'name="seen" value="([0-9a-f]{64})"', get(address).content.decode())[1]
    assert post(f"{address}freeze/", {"seen": seen}).status_code == 302
    assert post(f"{address}choose/", {}).status_code == 422
    assert post(f"{address}loads/1/developed/", {"time": "yesterday"}).status_code == 422
    assert post(f"{address}loads/1/developed/", {"time": "7:35"}).status_code == 302
    load = get(f"{address}loads/1/")
    assert "Noted as developed for 7:35" in load.content.decode()
    assert heading(load) == "Load 1 is developed"
    assert heading(get(address)) == "One of six loads is developed"
    assert "run sheet to print" in load.content.decode()
    assert "for those who share the house" in get(address).content.decode()
    assert post(f"{address}unfreeze/").status_code == 422
    assert "+3 % of time off the planned 7:20, and inside the window" in load.content.decode()
    assert post(f"{address}loads/1/not-developed/").status_code == 302
    assert post(f"{address}loads/1/developed/", {"time": "11:00"}).status_code == 302
    assert "+50 % of time off the planned 7:20, and outside the window" in get(f"{address}loads/1/").content.decode()
    assert post(f"{address}loads/1/not-developed/").status_code == 302
    assert post(f"{address}unfreeze/").status_code == 302
    assert "Bring the frozen plan back" in get(address).content.decode()
    assert post(f"{address}again/").status_code == 302
    assert "What was frozen" in get(address).content.decode()


def test_files_of_a_frozen_plan_are_handed_over(get, plan) -> None:
    """PDF and SVG are shown, the others saved; a name that is no file's is told."""
    plans_frozen.freeze(plan)
    address = f"/plans/{plan.pk}/files/"
    pdf = get(f"{address}load-1.pdf")
    assert pdf.content.startswith(b"%PDF")
    assert pdf.headers["Content-Disposition"].startswith("inline")
    assert get(f"{address}windows.svg").headers["Content-Type"] == "image/svg+xml"
    html = get(f"{address}load-1.html")
    assert html.headers["Content-Disposition"].startswith("attachment")
    assert get(f"{address}plan.json").json()["format"] == 1
    assert get(f"{address}..%2Fabout.toml").status_code in (404, 422)
    assert get(f"{address}secret").status_code == 422


def test_a_plan_goes_out_as_a_file_that_plans_alike(get, plan, tmp_path) -> None:
    """The command line plans the exported file to the same loads."""
    from wetside.services.plan_evening import plan_file

    answer = get(f"/plans/{plan.pk}/evening.toml")
    path = tmp_path / "evening.toml"
    path.write_bytes(answer.content)
    assert len(plan_file(path).loads) == 6


def test_a_draft_is_removed_with_a_way_back(client, post, plan) -> None:
    """The list offers to bring it back."""
    answer = client.post(f"/plans/{plan.pk}/remove/", headers=HOST, follow=True)
    text = answer.content.decode()
    assert "Bring it back" in text
    back = re.search(r'action="(/plans/[^"]*/back/)"', text)[1]
    assert post(back).headers["Location"] == f"/plans/{plan.pk}/"


def files() -> list[SimpleUploadedFile]:
    return [SimpleUploadedFile(path.name, path.read_bytes()) for path in (ROOT / "examples/demo").iterdir()]


def test_a_file_is_looked_at_before_it_is_taken(post) -> None:
    """Nothing is written by the look; then everything; a second time what differs must be chosen."""
    look = post("/plans/import/", {"files": files()})
    assert heading(look) == "23 records would be made"
    assert not models.Sheet.objects.exists()
    text = re.search(r"<textarea[^>]*>(.*?)</textarea>", look.content.decode(), re.DOTALL)[1]
    from html import unescape

    kept = unescape(text)
    assert post("/plans/import/take/", {"evening": kept}).status_code == 302
    assert models.Sheet.kept.count() == 11
    change(models.Film.kept.get(name="Tolland 100"), {"ei": 50.0})
    look = post("/plans/import/", {"files": files()})
    assert heading(look) == "One thing of this file differs from your records"
    assert post("/plans/import/take/", {"evening": kept}).status_code == 422
    assert models.Film.kept.get(name="Tolland 100").ei == 50.0
    assert post("/plans/import/take/", {"evening": kept, "answer:film:Tolland 100": "theirs"}).status_code == 302
    assert models.Film.kept.get(name="Tolland 100").ei == 80.0


def test_a_broken_file_is_told_with_line_and_field(post) -> None:
    """Everything that is wrong, as on the command line, by the file's own name."""
    broken = SimpleUploadedFile("evening.toml", b'format = 1\n[[sheets]]\nlabel = "1"\nfilm = "T"\nn = "N-9"\n')
    answer = post("/plans/import/", {"files": [broken]})
    assert answer.status_code == 422
    assert "evening.toml, line 5, sheets[1].n (1)" in answer.content.decode()
    assert post("/plans/import/", {"files": []}).status_code == 422
    assert post("/plans/import/take/", {"evening": "nothing"}).status_code == 422


def test_four_answers_reach_a_run_sheet_and_nothing_is_written(get) -> None:
    """Run sheet on the page and as PDF; no record."""
    answer = get("/short/", **SHORT)
    assert "Load 1: develop 7:30" in answer.content.decode()
    assert get("/short/load-1.pdf", **SHORT).content.startswith(b"%PDF")
    assert get("/short/why/", sheet="1", **SHORT).status_code == 200
    assert get("/short/load-9.pdf", **SHORT).status_code == 422
    assert not models.Plan.objects.exists()


def test_a_time_is_asked_only_where_none_is_known(get) -> None:
    """A film that nobody knows: the field stands among the answers with its mistake; a cited one does not ask."""
    unknown = {**SHORT, "time": ""}
    answer = get("/short/", **unknown)
    assert answer.status_code == 422
    assert 'id="s-time-m"' in answer.content.decode()
    cited = get("/short/", film="FP4 Plus", developer="ID-11 1+1", number="4", ei="125")
    assert cited.status_code == 200
    assert "mistake" not in cited.content.decode().partition("<main")[2]


def test_what_is_kept_gets_its_sheets_afterwards(client, post) -> None:
    """Keep, then make records for all places."""
    answer = client.post("/short/keep/", SHORT, headers=HOST, follow=True)
    assert "8 sheets of this plan are not in your records yet" in answer.content.decode()
    plan = models.Plan.kept.get()
    assert post(f"/plans/{plan.pk}/attach/", {"new": "1"}).status_code == 302
    assert models.Sheet.kept.filter(state="planned").count() == 8
    assert post("/short/keep/", {**SHORT, "number": "x"}).status_code == 422


def test_the_demo_comes_and_goes_with_one_click(client, post) -> None:
    """Made, removed, brought back: each one form."""
    assert "Furnish the demo darkroom" in client.get("/", headers=HOST).content.decode()
    post("/demo/make/")
    assert models.Sheet.kept.count() == 11
    answer = client.post("/demo/remove/", headers=HOST, follow=True)
    assert models.Sheet.kept.count() == 0
    back = re.search(r'action="(/demo/back/[^"]*)"', answer.content.decode())[1].replace("&amp;", "&")
    post(back)
    assert models.Sheet.kept.count() == 11


def test_typed_text_never_becomes_markup(get, post) -> None:
    """A film, a sheet and a plan with markup in their names are shown as they were typed."""
    nasty = "<b onclick=x>&amp;"
    film = make(models.Film, {"name": nasty, "facts": {"times": [{"developer": "Marrow", "time": "7:00"}]}})
    sheet = make(models.Sheet, {"label": f"{nasty} 1", "film": film})
    post("/plans/new/", {"sheets": [str(sheet.pk)], "name": nasty})
    plan = models.Plan.kept.get()
    for address in (
        f"/plans/{plan.pk}/",
        "/plans/",
        "/plans/new/",
        f"/plans/{plan.pk}/why/?sheet={'%3Cb+onclick%3Dx%3E%26amp%3B+1'}",
    ):
        answer = get(address)
        assert answer.status_code == 200, address
        assert "<b onclick" not in answer.content.decode(), address
