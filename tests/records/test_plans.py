"""Plans of the records: made, chosen, frozen, taken back, noted as developed; the short way; the demo darkroom."""

from __future__ import annotations

import datetime as dt
import json
import tomllib
from pathlib import Path

import pytest

from wetside.adapters.plain_document import json_text, plain_value
from wetside.errors import ConflictError, ManyErrors, OutOfRangeError, RefusedError, WetsideError
from wetside.records import models
from wetside.services.plan_evening import PlainAnswers, plan_answers, plan_file
from wetside.services.records import demo, plans, plans_compared, plans_frozen, plans_reckoned, short_way
from wetside.services.records.changes import bring_back, change, make, remove
from wetside.services.records.evenings_import import take
from wetside.services.records.films_checked import checked_document

pytestmark = pytest.mark.django_db
ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "examples/demo/evening.toml"
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)
SHORT = {
    "film": "Tolland 40",
    "developer": "Marrow 1+9",
    "number": "8",
    "vessel": "drum 6, 300-1000 ml",
    "time": "7:30",
}


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path) -> None:
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def drafted() -> models.Plan:
    return demo.make_demo()


def states(plan) -> set[str]:
    return {place.sheet.state for place in plan.places.select_related("sheet")}


def as_json(plan) -> dict:
    return json.loads(json_text(plain_value(plan)))


# drafts


def test_a_plan_of_the_records_is_the_plan_of_the_file(drafted) -> None:
    """One core: what the page shows is what the command line prints."""
    assert as_json(plans.reckoned(drafted).plan) == as_json(plan_file(DEMO))


def test_a_new_plan_takes_waiting_sheets_only(drafted) -> None:
    """Sheets that do not wait are left out; none at all is refused."""
    sheets = list(models.Sheet.kept.all())
    change(sheets[0], {"state": "lost"})
    plan = plans.new_plan([str(sheet.pk) for sheet in sheets[:3]] + ["not-a-key"])
    assert {place.sheet_id for place in plan.places.all()} == {sheet.pk for sheet in sheets[1:3]}
    with pytest.raises(RefusedError):
        plans.new_plan([str(sheets[0].pk)])


def choose(plan, **other):
    given = {"name": "", "keys": {}, "vessels": [], "process": "", "aim": "", "thermometer": ""}
    return plans.choose(plan, **{**given, **other})


def test_a_choice_changes_the_plan_and_a_mistake_changes_nothing(drafted) -> None:
    """Dropping the rule for twins saves a load; a floor that is no time is told by its field and nothing is written."""
    kept = {key: drafted.choices[key] for key in ("process", "aim", "thermometer")}
    six = len(plans.reckoned(drafted).plan.loads)
    keys = {"size": "9x12cm", "date": "2026-11-20"}
    freer = choose(drafted, keys={**keys, "twins_apart": False}, **kept)
    assert len(plans.reckoned(freer).plan.loads) == six - 1
    with pytest.raises(WetsideError) as refused:
        choose(freer, keys={**keys, "floor": "soon"}, **kept)
    assert refused.value.place.field == "floor"
    assert plans.find_plan(freer.pk).choices == freer.choices


def test_one_vessel_out_of_two(drafted) -> None:
    """Only the picked drum is used."""
    short = models.Vessel.kept.get(name="short drum")
    kept = {key: drafted.choices[key] for key in ("process", "aim", "thermometer")}
    plan = choose(drafted, keys={"size": "9x12cm"}, vessels=[str(short.pk)], **kept)
    assert {load.vessel for load in plans.reckoned(plan).plan.loads} == {"short drum"}


def test_a_plan_that_takes_long_is_not_waited_for(drafted, monkeypatch) -> None:
    """A page gets no plan yet, and the answer when it asks again; too many at work are refused."""
    import threading

    go = threading.Event()
    plan_evening = plans_reckoned._plan

    def slow(evening, day):
        assert go.wait(30)
        return plan_evening(evening, day)

    monkeypatch.setattr(plans_reckoned, "_plan", slow)
    monkeypatch.setattr(plans_reckoned, "_known", type(plans_reckoned._known)())
    monkeypatch.setattr(plans_reckoned, "MOST_AT_WORK", 1)
    evening = short_way.evening_of_short(SHORT)
    assert plans_reckoned.reckon(evening, 0.01).plan is None
    with pytest.raises(RefusedError) as refused:
        plans_reckoned.reckon(short_way.evening_of_short({**SHORT, "number": "7"}), 0.01)
    assert refused.value.code == "services.plans.busy"
    go.set()
    assert plans_reckoned.reckon(evening, 30.0).plan.loads


def test_a_plan_has_so_many_sheets_at_most() -> None:
    """Five hundred; the refusal says so."""
    with pytest.raises(OutOfRangeError):
        short_way.evening_of_short({**SHORT, "number": "501"})


def test_lists_ask_few_questions(drafted, django_assert_max_num_queries) -> None:
    """The list of plans, of waiting sheets and of what is near: the same number of queries for thirty plans."""
    from wetside.services.records.plans_near import near

    sheets = [str(key) for key in models.Sheet.kept.values_list("pk", flat=True)]
    for number in range(30):
        plans.new_plan(sheets[:2], name=f"evening {number}")
    with django_assert_max_num_queries(3):
        listed, more = plans.list_plans()
    assert (len(listed), more) == (25, True)
    with django_assert_max_num_queries(3):
        assert plans.waiting_sheets()[1] == 11
    with django_assert_max_num_queries(10):
        assert near().waiting == 11


def test_a_draft_is_removed_and_comes_back(drafted) -> None:
    """Sheets stay as they are."""
    removed = plans.remove_plan(drafted)
    assert not models.Plan.kept.exists()
    assert plans.bring_plan_back(removed).places.count() == 11


# frozen


def test_later_edits_do_not_reach_a_frozen_plan(drafted) -> None:
    """Film, process, vessel, bottle changed and removed: document, evening, files and run sheets stay as they were."""
    plan = plans_frozen.freeze(drafted)
    before = (
        plan.evening,
        plan.document,
        {one.name: plans_frozen.file_of(plan, one.name)[1] for one in plans_frozen.files_of(plan)},
    )
    change(models.Film.kept.get(name="Tolland 100"), {"ei": 25.0, "facts": {}})
    change(models.Vessel.kept.get(name="long drum"), {"min_ml": 790.0})
    remove(models.Vessel.kept.get(name="short drum"), NOW)
    remove(models.Bottle.kept.get(mark="D"), NOW)
    process = models.Process.kept.get()
    models.ProcessVersion.objects.create(
        process=process, version=2, developer="Marrow", temp_c=24.0, clock="full-to-drain"
    )
    change(process, {"newest": 2})
    now = plans.find_plan(plan.pk)
    after = (
        now.evening,
        now.document,
        {one.name: plans_frozen.file_of(now, one.name)[1] for one in plans_frozen.files_of(now)},
    )
    assert after == before
    assert as_json(plans.reckoned(now).plan) == before[1] == as_json(plan_file(DEMO))
    assert plans.evening_text(now) == before[0]


def test_freezing_marks_sheets_and_makes_a_run_for_each_load(drafted) -> None:
    """Every sheet hangs from its load, each load has a run that is ready, and the files are there."""
    plan = plans_frozen.freeze(drafted)
    assert states(plan) == {"planned"}
    loads = {load["number"]: set(load["sheets"]) for load in plan.document["loads"]}
    for place in plan.places.select_related("sheet"):
        assert str(place.sheet) in loads[place.load]
    assert [(run.load, run.state) for run in plan.runs.order_by("load")] == [(n, "ready") for n in sorted(loads)]
    names = {one.name for one in plans_frozen.files_of(plan)}
    assert {
        "plan.json",
        "evening.toml",
        "windows.svg",
        "load-1.pdf",
        "load-1.html",
        "load-1.png",
        "evening.pdf",
    } <= names
    assert plans_frozen.file_of(plan, "load-1.pdf")[1].startswith(b"%PDF")
    kept = tomllib.loads(plans_frozen.file_of(plan, "evening.toml")[1].decode())
    assert len(kept["sheets"]) == 11


def test_what_was_not_shown_is_not_frozen(drafted) -> None:
    """A record changed between page and click: refused, nothing marked."""
    seen = plans.reckoned(drafted).seen
    change(models.Vessel.kept.get(name="long drum"), {"min_ml": 400.0})
    with pytest.raises(ConflictError) as refused:
        plans_frozen.freeze(drafted, seen=seen)
    assert refused.value.code == "services.plans.not_as_seen"
    assert states(drafted) == {"waiting"}
    assert not models.Run.objects.exists()


def test_two_plans_cannot_hold_one_sheet(drafted) -> None:
    """The second freezing is refused and leaves the first as it was."""
    sheets = [str(key) for key in models.Sheet.kept.values_list("pk", flat=True)]
    other = plans.new_plan(sheets[:1])
    change(other, {"choices": {**drafted.choices, "tables": {}}})
    plans_frozen.freeze(drafted)
    with pytest.raises(ConflictError) as refused:
        plans_frozen.freeze(plans.find_plan(other.pk))
    assert refused.value.code == "services.plans.sheet_gone"
    assert states(drafted) == {"planned"}


def test_a_freezing_is_taken_back_and_brought_back(drafted) -> None:
    """Sheets wait again; the frozen plan returns as it was even after the shelf changed."""
    plan = plans_frozen.freeze(drafted)
    document = plan.document
    draft = plans_frozen.unfreeze(plan)
    assert (draft.frozen_at, states(draft)) == (None, {"waiting"})
    assert not models.Run.kept.exists()
    change(models.Vessel.kept.get(name="long drum"), {"min_ml": 700.0})
    back = plans_frozen.freeze_again(draft)
    assert (back.document, states(back)) == (document, {"planned"})
    assert models.Run.kept.count() == len(document["loads"])
    assert plans_frozen.files_of(back)


def test_a_load_is_noted_by_hand_and_taken_back(drafted) -> None:
    """Its sheets are developed, the time is kept, and the freezing cannot be taken back until that is undone."""
    plan = plans_frozen.freeze(drafted)
    run = plans_frozen.note_developed(plan, 1, 450.0)
    assert (run.state, run.facts["developed_s"], run.facts["planned_s"]) == ("ended", 450.0, 440.0)
    in_load = {place.sheet.state for place in plan.places.filter(load=1).select_related("sheet")}
    assert in_load == {"developed"}
    with pytest.raises(RefusedError):
        plans_frozen.unfreeze(plan)
    with pytest.raises(RefusedError):
        plans_frozen.note_developed(plan, 1)
    run = plans_frozen.undo_developed(plan, 1)
    assert (run.state, run.facts, states(plan)) == ("ready", {}, {"planned"})


# compared


def test_a_noted_load_empties_its_holder_sides_and_taken_back_fills_them(drafted) -> None:
    """Sides of developed sheets count as unloaded; an undo puts the sheets back, unless the side was loaded anew."""
    from wetside.services.records import holders, holders_moves

    holders.make_holders("40", size="9x12cm")
    for side in models.HolderSide.kept.all():
        holders_moves.load([side], "Tolland 100", today=NOW.date())
        holders_moves.expose(models.HolderSide.objects.get(pk=side.pk), NOW.date())
    sheets = models.Sheet.objects.filter(side__isnull=False)
    keys = {sheet.pk for sheet in sheets}
    assert len(keys) == 2
    plan = plans_frozen.freeze(plans.new_plan([str(key) for key in keys]))
    loads = sorted({place.load for place in plan.places.all()})
    for load in loads:
        plans_frozen.note_developed(plan, load)
    assert {side.state for side in models.HolderSide.kept.all()} == {"unloaded"}
    for load in loads:
        plans_frozen.undo_developed(plan, load)
    assert {side.state for side in models.HolderSide.kept.all()} == {"exposed"}
    assert {sheet.state for sheet in models.Sheet.kept.filter(side__isnull=False)} == {"planned"}


def test_a_new_plan_reads_the_thermometer_that_was_checked_last(drafted) -> None:
    """Its offset reaches the run sheet without a question."""
    from wetside.services.records.instruments import thermometer_checked_last

    waiting = [str(sheet.pk) for sheet in models.Sheet.objects.filter(state="waiting")]
    plan = plans.new_plan(waiting)
    assert plan.choices["thermometer"] == str(thermometer_checked_last().pk)


def test_developers_are_compared_for_the_chosen_sheets(drafted) -> None:
    """A process of the records beside a developer as typed; never more than three; what is wrong is said there."""
    process = models.Process.kept.get()
    own, typed, broken = plans_compared.compare(
        drafted, [str(process.pk), "Brackwater 1+14", "Brackwater 0+0", "Fourth 1+1"]
    )
    assert (own.loads, typed.loads) == (6, 6)
    assert own.agent_at_hand_ml == 350.0
    assert own.agent_ml == pytest.approx(94.0)
    assert broken.plan is None or broken.without_time == 11
    assert plans_compared.compare(drafted, []) == ()


@pytest.mark.parametrize(
    ("typed", "parts"),
    [
        ("Brackwater 1+24", ("Brackwater", "1+24")),
        ("Brackwater", ("Brackwater", "")),
        ("HC Two  1 + 31", ("HC Two", "1 + 31")),
        ("Number 9", ("Number 9", "")),
        ("Marrow stock", ("Marrow", "stock")),
    ],
)
def test_a_developer_is_typed_with_its_dilution(typed, parts) -> None:
    """The dilution stands at the end; a name may hold numbers."""
    assert plans_compared.split_developer(typed) == parts


@pytest.mark.parametrize("typed", ["Brackwater 1:14", "Brackwater 1/14", "Brackwater 1+14 rotary", "Brackwater1+14"])
def test_a_dilution_that_cannot_be_read_is_never_taken_for_stock(typed) -> None:
    """What looks like a dilution and is none is refused at its field, by the short way and where developers compare."""
    with pytest.raises(WetsideError) as caught:
        short_way.plan_short({**SHORT, "developer": typed, "time": "7:30"})
    assert caught.value.place.field == "developer"
    with pytest.raises(WetsideError):
        plans_compared.typed_process(typed)
    with pytest.raises(WetsideError) as caught:
        checked_document("process", {"name": "drum", "developer": typed})
    assert caught.value.place.field == "developer"
    with pytest.raises(WetsideError) as caught:
        checked_document("film", {"name": "Tolland 100", "times": [{"developer": typed, "time": "7:30"}]})
    assert caught.value.place.field == "times[1].developer"


# the short way


@pytest.mark.parametrize("typed", ["9" * 5000, "\N{SUPERSCRIPT TWO}", "\N{ARABIC-INDIC DIGIT THREE}", "0", "-1", "1e2"])
def test_a_number_of_sheets_that_cannot_be_is_told_at_its_field(typed) -> None:
    """Also one of more digits than any number takes; the same for the places of a vessel."""
    with pytest.raises(WetsideError) as caught:
        short_way.plan_short({**SHORT, "number": typed})
    assert caught.value.place.field == "number"
    with pytest.raises(WetsideError) as caught:
        short_way.plan_short({**SHORT, "vessel": f"drum {typed}, 300-1000 ml"})
    assert caught.value.place.field == "vessel"
    with pytest.raises(WetsideError):
        plan_answers(PlainAnswers(film="Tolland 40", developer="Marrow", number=typed, time="7:30"))


def test_the_short_way_is_the_command_line_s_plan() -> None:
    """The same answers, the same loads, and nothing is written."""
    found = short_way.plan_short(SHORT).reckoned.plan
    plain = plan_answers(
        PlainAnswers(
            film="Tolland 40",
            developer="Marrow",
            dilution="1+9",
            number="8",
            vessel="drum:6,300-1000ml",
            time="7:30",
        )
    )
    assert [load._replace(notes=()) for load in found.loads] == [load._replace(notes=()) for load in plain.loads]
    tables = (models.Plan, models.Sheet, models.Film, models.Run, models.Attachment)
    assert not any(model.objects.exists() for model in tables)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"film": ""}, "film"),
        ({"developer": ""}, "developer"),
        ({"number": "six"}, "number"),
        ({"vessel": "bucket"}, "vessel"),
        ({"vessel": "drum 6, 900-300 ml"}, "vessel"),
        ({"time": "soon"}, "time"),
        ({"time": ""}, "time"),
        ({"size": "huge"}, "size"),
        ({"temp": "hot"}, "temp"),
        ({"film": "FP4 Plus", "developer": "ID-11", "time": ""}, "ei"),
    ],
)
def test_a_mistake_stands_beside_its_field(changed, field) -> None:
    """Each answer that cannot be taken is told where it was typed; a time is asked for only where none is known."""
    with pytest.raises(WetsideError) as refused:
        short_way.plan_short({**SHORT, **changed})
    assert refused.value.place.field == field


def test_all_mistakes_are_told_at_once() -> None:
    """Three wrong answers, three errors."""
    with pytest.raises(ManyErrors) as refused:
        short_way.plan_short({"film": "Tolland 40", "developer": "", "number": "-1", "vessel": "bucket"})
    assert {error.place.field for error in refused.value.errors} == {"developer", "number", "vessel"}


@pytest.mark.parametrize(
    "text", ["drum:6,300-1000ml", "drum 6, 300-1000 ml", "Drum for 6 sheets, 300 to 1000 ml", "drum 6 0,3 l - 1 l"]
)
def test_a_vessel_may_be_described(text) -> None:
    """A few words with the places and the liquid, comma or point."""
    vessel = short_way.evening_of_short({**SHORT, "vessel": text}).vessels[0]
    assert (vessel.kind, vessel.places, vessel.min_ml, vessel.max_ml) == ("drum", (("any", 6),), 300.0, 1000.0)


def test_the_short_way_takes_what_the_records_know() -> None:
    """A film with a test, a drum of the shelf and its size: nothing of it is asked again."""
    demo.make_demo()
    answers = {"film": "tolland 100", "developer": "Brackwater 1+14", "number": "3", "vessel": "Short drum"}
    plan = short_way.plan_short(answers).reckoned.plan
    assert "tested" in {step.evidence for step in plan.sheets[0].reckoning}
    assert plan.loads[0].process == "drum, one-shot"
    assert plan.sheets[0].size == "9x12cm"
    assert plan.loads[0].vessel == "short drum"


def test_what_is_kept_is_frozen_and_sheets_attach_afterwards() -> None:
    """Runs and files at once; records made afterwards take their places, and are developed where the load is."""
    plan = short_way.keep_short(SHORT)
    assert (plan.short, plan.places.count(), plan.runs.count()) == (True, 0, 2)
    assert plans_frozen.file_of(plan, "load-2.pdf")[1].startswith(b"%PDF")
    film = make(models.Film, {"name": "Tolland 40"})
    mine = [make(models.Sheet, {"label": f"mill {n}", "film": film}) for n in range(2)]
    other = make(models.Sheet, {"label": "weir", "film": make(models.Film, {"name": "Morvane 320"})})
    plans_frozen.note_developed(plan, 1)
    assert short_way.attach(plan, [str(sheet.pk) for sheet in mine]) == 2
    document = plans.reckoned(plan).plan
    loads = [sheet.load for sheet in document.sheets[:2]]
    wanted = ["developed" if load == 1 else "planned" for load in loads]
    assert [models.Sheet.kept.get(pk=sheet.pk).state for sheet in mine] == wanted
    with pytest.raises(ConflictError) as refused:
        short_way.attach(plan, [str(other.pk)])
    assert refused.value.code == "services.plans.other_film"
    assert short_way.attach_new(plan) == 6
    assert plan.places.count() == 8
    assert short_way.attach_new(plan) == 0
    with pytest.raises(RefusedError):
        plans.remove_plan(plan)


def test_a_kept_short_plan_without_sheets_is_removed_and_comes_back() -> None:
    """Its loads go and come with it."""
    plan = short_way.keep_short(SHORT)
    removed = plans.remove_plan(plan)
    assert not models.Run.kept.exists()
    plans.bring_plan_back(removed)
    assert models.Run.kept.count() == 2


# the demo darkroom


def test_the_packaged_demo_is_the_example() -> None:
    """The same files, byte for byte."""
    packaged = ROOT / "src/wetside/data/demo"
    for path in (ROOT / "examples/demo").iterdir():
        assert (packaged / path.name).read_bytes() == path.read_bytes()


def test_the_demo_goes_without_touching_anything_real() -> None:
    """Real records stay as they are, one that needs a demo film keeps it, and one click brings the demo back."""
    own = make(models.Film, {"name": "Tolland 40"})
    mine = make(models.Sheet, {"label": "1 left", "film": own})
    demo.make_demo()
    with pytest.raises(ConflictError):
        demo.make_demo()
    morvane = models.Film.kept.get(name="Morvane 320")
    needs = make(models.Sheet, {"label": "weir", "film": morvane})
    removed = demo.remove_demo()
    assert (removed.needed, set(models.Sheet.kept.all())) == (1, {mine, needs})
    assert set(models.Film.kept.all()) == {own, morvane}
    assert not models.Plan.kept.exists()
    assert demo.bring_demo_back(removed.at) == removed.records
    assert models.Sheet.kept.count() == 13
    assert models.Film.kept.get(name="Tolland 100")


def test_a_frozen_demo_goes_too(drafted) -> None:
    """With its runs and its developed sheets."""
    plan = plans_frozen.freeze(drafted)
    plans_frozen.note_developed(plan, 1)
    removed = demo.remove_demo()
    assert removed.needed == 0
    assert not any(model.kept.filter(demo=True).exists() for model in demo.ORDER)
    demo.bring_demo_back(removed.at)
    assert states(plans.find_plan(plan.pk)) == {"planned", "developed"}


def test_an_imported_evening_is_not_the_demo(drafted) -> None:
    """The same file taken by the person is theirs, though it uses the demo's records: the demo then leaves them."""
    from wetside.adapters.evening_file import read_evening

    mine = take(read_evening(DEMO))
    assert not mine.demo
    demo.remove_demo()
    kept = plans.find_plan(mine.pk)
    assert len(plans.reckoned(kept).plan.sheets) == 11


def test_a_record_that_is_back_is_the_same() -> None:
    """Bringing back does not change values."""
    demo.make_demo()
    film = models.Film.kept.get(name="Tolland 100")
    assert bring_back(remove(film, NOW)).facts == film.facts
