"""An evening file through the records and back."""

from __future__ import annotations

import dataclasses
import datetime as dt
from pathlib import Path

import pytest

from wetside.adapters.evening_file import evening_of_text, read_evening
from wetside.adapters.evening_writer import write_evening
from wetside.errors import WetsideError
from wetside.records import models
from wetside.services.records.changes import change, make
from wetside.services.records.demo import make_demo
from wetside.services.records.evenings import Choices, evening_of_plan, evening_of_sheets
from wetside.services.records.evenings_import import OURS, THEIRS, evening_of_files, preview, take
from wetside.services.records.sheets import add_sheet
from wetside.services.records.sheets_waiting import waiting

pytestmark = pytest.mark.django_db
ROOT = Path(__file__).resolve().parents[2]
EXAMPLES = sorted((ROOT / "examples").rglob("*.toml"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_a_file_comes_back_equal_in_values(path) -> None:
    """Import, then the plan's evening, written and read again: all values are the file's."""
    evening = read_evening(path)
    plan = take(evening)
    assert evening_of_plan(plan) == evening
    assert evening_of_text(write_evening(evening_of_plan(plan))) == evening


def test_the_same_file_twice_makes_nothing_twice() -> None:
    """What is there under its name with equal values is used again."""
    evening = read_evening(ROOT / "examples/demo/evening.toml")
    assert preview(evening).same == 0
    take(evening)
    before = {model: model.objects.count() for model in (models.Film, models.Sheet, models.Bottle, models.Process)}
    looked = preview(evening)
    assert (looked.new, looked.differing) == (0, ())
    plan = take(evening)
    assert before == {model: model.objects.count() for model in before}
    assert evening_of_plan(plan) == evening


def test_what_differs_is_told_and_chosen() -> None:
    """A film of the same name with another index: refused until chosen; ours leaves it, theirs changes it."""
    evening = read_evening(ROOT / "examples/demo/evening.toml")
    take(evening)
    film = models.Film.kept.get(name="Tolland 100")
    change(film, {"ei": 64.0})
    (found,) = preview(evening).differing
    assert (found.kind, found.name, found.differs_in) == ("film", "Tolland 100", ("ei",))
    plans = models.Plan.objects.count()
    with pytest.raises(WetsideError) as refused:
        take(evening)
    assert refused.value.code == "services.plans.choose"
    assert models.Plan.objects.count() == plans
    take(evening, {found.answer: OURS})
    assert models.Film.kept.get(name="Tolland 100").ei == 64.0
    take(evening, {found.answer: THEIRS})
    assert models.Film.kept.get(name="Tolland 100").ei == 80.0


def test_another_process_under_the_name_becomes_a_version() -> None:
    """Taking the file's process leaves the old version as it is."""
    evening = read_evening(ROOT / "examples/demo/evening.toml")
    take(evening)
    warmer = dataclasses.replace(evening, processes=(dataclasses.replace(evening.processes[0], temp_c=22.0),))
    plan = take(warmer, unanswered=THEIRS)
    assert [version.temp_c for version in models.ProcessVersion.objects.all()] == [20.0, 22.0]
    assert evening_of_plan(plan).processes[0] == dataclasses.replace(warmer.processes[0], version=2)


def test_nothing_is_written_where_one_thing_cannot_be() -> None:
    """A label that no column has room for: refused before anything is made."""
    text = f'format = 1\n[[sheets]]\nlabel = "{"x" * 200}"\nfilm = "Tolland 100"\n'
    with pytest.raises(WetsideError) as refused:
        take(evening_of_text(text))
    assert refused.value.code == "services.plans.too_long"
    assert not models.Film.objects.exists()


def test_a_broken_record_is_named() -> None:
    """An error in a record's facts names the record and the field, not a line of a file."""
    evening = read_evening(ROOT / "examples/demo/evening.toml")
    plan = take(evening)
    film = models.Film.kept.get(name="Morvane 320")
    change(film, {"facts": {"times": [{"developer": "Brackwater", "time": "soon"}]}})
    with pytest.raises(WetsideError) as refused:
        evening_of_plan(plan)
    assert refused.value.place.field == "Morvane 320: times[1].time"


def test_files_of_a_browser_are_read_with_their_tables() -> None:
    """The evening with the readings that it names; an error carries the file's own name."""
    folder = ROOT / "examples/demo"
    files = {path.name: path.read_bytes() for path in folder.iterdir()}
    assert evening_of_files(files) == read_evening(folder / "evening.toml")
    with pytest.raises(WetsideError) as refused:
        evening_of_files({"evening.toml": b"format = 1\nnam = 2\n"})
    assert "/" not in str(refused.value.errors if hasattr(refused.value, "errors") else refused.value.place)


def test_few_queries_however_many_sheets(django_assert_max_num_queries) -> None:
    """An evening of chosen sheets asks each table once, with two thousand other sheets in the archive."""
    take(read_evening(ROOT / "examples/demo/evening.toml"))
    film = models.Film.kept.get(name="Tolland 100")
    models.Sheet.objects.bulk_create(
        models.Sheet(film=film, label=f"other {n}", label_key=f"other {n}") for n in range(2000)
    )
    related = models.Sheet.kept.select_related("film", "process", "aim", "twin")
    with django_assert_max_num_queries(10):
        evening = evening_of_sheets(list(related.filter(label_key__startswith="other")[:200]), Choices())
    assert len(evening.sheets) == 200


def test_a_ledger_begins_with_what_the_file_says() -> None:
    """A bottle's amount is the sum of its ledger."""
    take(read_evening(ROOT / "examples/demo/evening.toml"))
    bottle = models.Bottle.kept.get(mark="D")
    assert (bottle.left_ml, bottle.role) == (350.0, "developer")
    assert sum(line.change_ml for line in bottle.ledger.all()) == 350.0


def test_sheets_of_an_evening_show_the_size_and_process_that_it_gives_them() -> None:
    """The file names both once, for all its sheets; the list of what waits tells them of each."""
    make_demo()
    groups = waiting(dt.date(2026, 11, 25)).groups
    assert {one.size for group in groups for one in group.sheets} == {"9x12cm"}
    assert {group.plan_process for group in groups} == {"drum, one-shot"}


@pytest.mark.parametrize("marked", [False, True])
def test_a_working_solution_is_not_diluted_once_more(marked) -> None:
    """A bottle of the developer's bare name that stands ready is no concentrate; one that a bath names is meant."""
    for mark, form in (("A", "working"), ("D", "concentrate")):
        make(models.Bottle, {"mark": mark, "holds": "Brackwater", "form": form, "left_ml": 500.0})
    process = make(models.Process, {"name": "drum"})
    bath = {"does": "develop", "name": "Developer"} | ({"bottle": "A"} if marked else {})
    models.ProcessVersion.objects.create(
        process=process,
        version=1,
        developer="Brackwater",
        dilution="1+14",
        temp_c=20.0,
        clock="full-to-drain",
        facts={"baths": [bath]},
    )
    add_sheet({"film": "Tolland 100", "label": "larch", "process": "drum"}, make_film=True)
    sheets = list(models.Sheet.kept.select_related("film", "process", "aim", "twin"))
    evening = evening_of_sheets(sheets, Choices(process=str(process.pk)))
    assert [bottle.mark for bottle in evening.bottles] == (["A", "D"] if marked else ["D"])
