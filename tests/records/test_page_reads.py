"""What a page reads once: the same records as table by table, on both databases; nothing is stale."""

from __future__ import annotations

import datetime as dt

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from tests.fixtures.run_records import develop, moment_of_run

from wetside.records import models
from wetside.runs import commands as c
from wetside.services.records import demo, plans_frozen, runs, sheets_waiting
from wetside.services.records.changes import change, find, make, remove
from wetside.services.records.page_reads import one_page
from wetside.services.records.runs_log import FOLDS, states_of
from wetside.services.records.sheets_waiting import last_kept, no_longer_waiting
from wetside.services.records.whole_tables import NAMED, named, names_of, newest_versions, thermometers, together

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]
AT = dt.datetime(2031, 11, 5, 20, 0, tzinfo=dt.UTC)


@pytest.fixture
def own_folder(settings, tmp_path, monkeypatch) -> None:
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


def columns(record) -> dict[str, object]:
    return {name: value for name, value in vars(record).items() if not name.startswith("_")}


def test_several_tables_by_one_question_are_what_each_is() -> None:
    """Every column of every record: moments, tables within, numbers to the last digit, what is not there."""
    demo.make_demo()
    make(models.Aim, {"name": "odd", "printing": "graded-paper", "density_range": 0.1 + 0.2, "tolerance": 1 / 17})
    make(models.Instrument, {"name": "meter", "kind": "densitometer", "facts": {"deep": [1, 1.5, None, "ü"]}})
    remove(make(models.Vessel, {"name": "gone", "kind": "drum", "min_ml": 300.0, "max_ml": 500.0}), AT)
    with CaptureQueriesContext(connection) as told:
        found = together([table.kept.all() for table in NAMED])
    assert len(told) == 1
    for table, records in zip(NAMED, found, strict=True):
        here = {record.pk: columns(record) for record in table.kept.all()}
        assert {record.pk: columns(record) for record in records} == here
        assert [one.pk for one in named(table)] == sorted(here, key=lambda key: here[key]["name_key"])
    assert names_of((models.Film, models.Aim)) == [
        [one.name for one in sorted(table.kept.all(), key=lambda one: one.name_key)]
        for table in (models.Film, models.Aim)
    ]
    assert [one.name for one in thermometers()] == ["glass rod"]
    assert {one.process_id: one.version for one in newest_versions()} == {
        one.pk: one.newest for one in models.Process.kept.all()
    }


def test_a_page_reads_once_and_what_is_written_is_seen() -> None:
    """Within a page one question, the next page asks anew; a change on the page itself is seen at once."""
    aim = make(models.Aim, {"name": "soft", "printing": "graded-paper", "density_range": 1.0})
    for _ in range(2):
        with one_page(), CaptureQueriesContext(connection) as told:
            assert named(models.Aim) == [aim]
            assert named(models.Vessel) == []
        assert len(told) == 1
    with one_page():
        assert named(models.Aim)[0].density_range == 1.0
        change(aim, {"density_range": 1.2})
        assert named(models.Aim)[0].density_range == 1.2
    models.Aim.objects.update(density_range=1.3)
    assert named(models.Aim)[0].density_range == 1.3


def test_the_sheets_developed_last_are_those_of_the_whole_table(monkeypatch) -> None:
    """Found by the history where that settles it: with later corrections, with one told days late, with none told."""
    monkeypatch.setattr(sheets_waiting, "OTHERS_PAGE", 3)
    monkeypatch.setattr(sheets_waiting, "LOOKED_BACK", 8)
    film = make(models.Film, {"name": "Tolland 100"})
    sheets = [make(models.Sheet, {"label": f"{number}", "film": film}) for number in range(12)]

    def shown() -> list[str]:
        return [one.label for one in no_longer_waiting("developed", AT.date()).sheets]

    for day, sheet in enumerate(sheets):
        at = AT + dt.timedelta(days=day)
        told_at = at - dt.timedelta(days=3) if day == 10 else at
        change(sheet, {"state": "developed", "developed_at": told_at})
        models.Sheet.history.filter(id=sheet.pk, state="developed").update(history_date=at)
    by_table = models.Sheet.kept.filter(state="developed").order_by("-developed_at", "-made_at")
    assert shown() == [str(one) for one in by_table[:3]] == ["11", "9", "8"]
    change(find(models.Sheet, sheets[0].pk), {"note": "scratched"})
    assert shown() == ["11", "9", "8"]
    models.Sheet.objects.filter(pk=sheets[1].pk).update(developed_at=AT + dt.timedelta(days=4))
    remove(find(models.Sheet, sheets[11].pk), AT)
    assert shown() == [str(one) for one in by_table[:3]]
    models.Sheet.history.all().delete()
    assert shown() == [str(one) for one in by_table[:3]]
    assert [one.label for one in last_kept(2)] == ["10", "9"]


def test_several_logs_by_one_question_are_what_each_is() -> None:
    """Folded before or not, and with a fact that came since."""
    plan = plans_frozen.freeze(demo.make_demo())
    over, on = develop(runs.open_planned(plan.pk, 1)), runs.open_planned(plan.pk, 2)
    FOLDS.forget()
    with one_page():
        before = runs.standing(on).state
        assert runs.standing(on).state is before
    runs.command(on, c.Tell("2.full"), moment_of_run(on, 300.0))
    alone = {run.pk: runs.standing(run).state for run in (over, on)}
    assert alone[on.pk] != before
    for forget in (False, True):
        if forget:
            FOLDS.forget()
        with CaptureQueriesContext(connection) as told:
            assert states_of([over.pk, on.pk]) == alone
        assert len(told) == 1
    assert states_of([]) == {}
