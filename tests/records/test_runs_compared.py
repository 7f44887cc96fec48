"""Two runs of the archive side by side: what the records know of them reaches the comparison."""

from __future__ import annotations

import math

import pytest
from django.utils import timezone
from tests.fixtures.run_records import develop

from wetside.errors import RefusedError, UnknownNameError
from wetside.records import models
from wetside.runs.compared import Run, compare
from wetside.runs.known import Known
from wetside.services.records import demo, plans_frozen, runs, runs_compared
from wetside.services.records.changes import change, make
from wetside.values.names import plain_name

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path) -> None:
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def both(plan):
    """Two loads of the demo evening, the second with every answer 40 s late."""
    first = develop(runs.open_planned(plan.pk, 1))
    return first, develop(runs.open_planned(plan.pk, 2), late_s=40.0)


def said(both):
    return runs_compared.compare_runs(str(both[0].pk), str(both[1].pk)).said


def lines(found, of=None) -> str:
    return " ".join(line for run, some in found.missing for line in some if of is None or run == of)


def test_two_loads_of_an_evening(both, django_assert_max_num_queries) -> None:
    """What differs stands in order, what is missing is named; in at most 12 questions."""
    runs_compared.compare_runs(str(both[0].pk), str(both[1].pk))
    with django_assert_max_num_queries(12):
        found = said(both)
    assert [row.kind for row in found.figures]
    assert "Late and early acts" in [row.kind for row in found.figures]
    assert found.missing[0][0] == "Both"
    assert found.title.startswith("Load 2: likely +")


def test_a_check_of_the_thermometer_after_the_runs_is_told(both) -> None:
    """The instrument was never checked; then it is, and shows half a degree more than was allowed for."""
    script = runs.standing(both[0]).state.script
    assert "never checked" in lines(said(both))
    instrument = models.Instrument.kept.filter(name=script.thermometer).first() or make(
        models.Instrument, {"name": script.thermometer, "kind": "thermometer", "reads_high": script.reads_high_c}
    )
    models.InstrumentCheck.objects.create(
        instrument=instrument, at=timezone.now(), against="ice", reference=0.0, read=script.reads_high_c + 0.5
    )
    found = said(both)
    assert "never checked" not in lines(found)


def test_two_instruments_that_were_checked_are_put_in_figures(both) -> None:
    """Another instrument in the second run that shows half a degree too much: its bath was that much colder."""
    known = runs.standing(both[0]).state
    other = known._replace(script=known.script._replace(thermometer="red one"))
    for name, off_c in ((known.script.thermometer, 0.0), ("red one", 0.5)):
        one = models.Instrument.kept.filter(name=name).first() or make(
            models.Instrument, {"name": name, "kind": "thermometer"}
        )
        models.InstrumentCheck.objects.create(
            instrument=one, at=timezone.now(), against="ice", reference=0.0, read=known.script.reads_high_c + off_c
        )
    checked = runs_compared._checked((known, other))
    assert checked[plain_name("red one")] == pytest.approx(known.script.reads_high_c + 0.5)
    sides = []
    for state in (known, other):
        high_c = checked[plain_name(state.script.thermometer)]
        sides.append(Run(state, 9000.0, Known(vessel_kept=True, checked_high_c=high_c)))
    found = compare(*sides)
    assert found.ranked[0].difference.kind == "thermometer"
    # 0.5 C of Brackwater's own pair, 8:00 at 20 and 5:55 at 24 C.
    assert found.share == pytest.approx(-0.5 * math.log(480 / 355) / 4)


def test_boxes_of_film_are_told_where_every_sheet_has_one(both) -> None:
    """Not known of one sheet is not known; of all, the numbers stand side by side."""
    assert "box of film" in lines(said(both))
    for number, run in enumerate(both):
        for place in run.plan.places.filter(load=run.load).select_related("sheet"):
            lot = models.FilmLot.objects.filter(film=place.sheet.film_id, number=f"A {number}").first() or make(
                models.FilmLot, {"film": place.sheet.film, "number": f"A {number}"}
            )
            change(place.sheet, {"lot": lot})
    found = said(both)
    assert "box of film" not in lines(found)
    row = next(row for row in found.words if row.kind == "Box of film")
    assert (row.one, row.other) == ("A 0", "A 1")


def test_what_cannot_be_compared_is_refused(both) -> None:
    """The same run twice, a run that is not there, and one that was never started."""
    key = str(both[0].pk)
    with pytest.raises(RefusedError) as refused:
        runs_compared.compare_runs(key, key)
    assert refused.value.code == "services.runs.compare_same"
    for nobody in ("", "x", "00000000-0000-4000-8000-000000000000"):
        with pytest.raises(UnknownNameError):
            runs_compared.compare_runs(key, nobody)
    ready = models.Run.kept.filter(state="ready").first()
    with pytest.raises(RefusedError) as refused:
        runs_compared.compare_runs(key, str(ready.pk))
    assert refused.value.code == "runs.compared.not_opened"


def test_runs_to_pick_from(both) -> None:
    """Those that were begun; those of the same plan first."""
    quick = runs.open_quick("Tolland 100", "Brackwater", 480.0)
    assert {run.pk for run in runs_compared.comparable_runs()} == {both[0].pk, both[1].pk}
    develop(quick)
    offered = runs_compared.comparable_runs(str(both[0].pk))
    assert offered[-1].pk == quick.pk
    assert len(offered) == 3


def test_a_run_from_three_words_compares_too(both) -> None:
    """It lacks vessel, volume, process and box, and that is said of it."""
    quick = develop(runs.open_quick("Tolland 100", "Brackwater", 480.0))
    found = runs_compared.compare_runs(str(both[0].pk), str(quick.pk)).said
    told = lines(found, quick.name)
    assert "Nobody named the vessel" in told
    assert "no kept process" in told
