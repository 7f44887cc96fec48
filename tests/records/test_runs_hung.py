"""Two pages hang one run's sheets: both orders are kept, one is settled, and the numbers of negatives follow it."""

from __future__ import annotations

import pytest
from tests.records.test_runs_after import at, ended

from wetside.errors import WetsideError
from wetside.records import models
from wetside.runs import commands as c
from wetside.runs.events import Device, Identified, facts_of_events
from wetside.services.records import demo, plans_frozen, runs
from wetside.services.records.changes import change
from wetside.services.records.runs_hung import hang, hanging_of
from wetside.services.records.runs_numbered import CLIPS
from wetside.services.records.runs_settled import count_again, left_out_said, questions_said, settle
from wetside.services.records.runs_sheets import sheets_of_run
from wetside.services.records.sheets_runs import runs_of_sheet

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    """Nothing is printed here: freezing leaves its files out."""
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


@pytest.fixture
def run():
    return ended(runs.open_planned(plans_frozen.freeze(demo.make_demo()).pk, 1))


def negatives(run) -> dict[str, str]:
    return {name: sheet.negative for name, sheet in sheets_of_run(run).items()}


def as_hung(order, numbers) -> dict[str, str]:
    return dict(zip(order, numbers, strict=True))


def settled(run, *, counts: bool, at_s: float = 3300.0) -> None:
    (asked,) = questions_said(run)
    settle(run, asked.device, asked.number, at(run, at_s), counts=counts)


def two_pages(run, first, second):
    """Both pages were loaded before anybody told; each tells its own order, with the numbers that it was shown."""
    shown = hanging_of(run)
    hang(run, first, shown.numbers, at(run, 3100.0), seen=shown.seen)
    return hang(run, second, shown.numbers, at(run, 3200.0), seen=shown.seen)


def test_the_second_page_overwrites_nothing(run) -> None:
    """The first order and its numbers stand; the second is kept, and both places say so: the run's and the sheet's."""
    names = list(sheets_of_run(run))
    shown = hanging_of(run)
    found = two_pages(run, names, names[::-1])
    assert (found.order, found.otherwise) == (tuple(names), True)
    assert negatives(run) == as_hung(names, shown.numbers)
    (asked,) = questions_said(run)
    assert asked.kind == "identified"
    assert f"from clip 1 on: {names[-1]}" in asked.told
    assert f"from clip 1 on: {names[0]}" in asked.rivals[0][0]
    (story,) = runs_of_sheet(sheets_of_run(run)[names[0]])
    assert "Hung on clip 1." in story.lines
    assert any("Another order was told too" in line for line in story.lines)


@pytest.mark.parametrize("turned", [False, True])
def test_numbers_follow_the_order_that_is_settled(run, turned: bool) -> None:
    """Whichever page told first, the order that a person says is right gives the same numbers; undone, they go back."""
    names = list(sheets_of_run(run))
    numbers = hanging_of(run).numbers
    first, second = (names[::-1], names) if turned else (names, names[::-1])
    two_pages(run, first, second)
    settled(run, counts=turned)
    found = hanging_of(run)
    assert (found.order, found.otherwise, found.numbers) == (tuple(names), False, numbers)
    assert negatives(run) == as_hung(names, numbers)
    (story,) = runs_of_sheet(sheets_of_run(run)[names[1]])
    assert "Hung on clip 2." in story.lines
    assert not any("Another order" in line for line in story.lines)
    (left,) = left_out_said(run)
    count_again(run, left.device, left.number, at(run, 3400.0))
    assert negatives(run) == as_hung(first, numbers)
    assert hanging_of(run).otherwise


def test_each_page_had_its_own_numbers(run) -> None:
    """The settled order gets those that were typed for it; one that another sheet got meanwhile is not given twice."""
    names = list(sheets_of_run(run))
    seen = hanging_of(run).seen
    for order, before in ((names, "A"), (names[::-1], "B")):
        hang(run, order, [f"{before} {clip}" for clip, _ in enumerate(order, 1)], at(run, 3100.0), seen=seen)
    assert negatives(run)[names[0]] == "A 1"
    other = models.Sheet.kept.exclude(pk__in=[one.pk for one in sheets_of_run(run).values()]).first()
    change(other, {"negative": "B 2"})
    settled(run, counts=True)
    assert negatives(run) == as_hung(names[::-1], ["B 1", "", *(f"B {clip}" for clip in range(3, len(names) + 1))])


def test_not_known_takes_the_numbers_off_and_they_come_back(run) -> None:
    """Settled so that nobody knows, no negative has a number; one that somebody gave a sheet by itself stays."""
    names = list(sheets_of_run(run))
    shown = hanging_of(run)
    two_pages(run, names, None)
    change(sheets_of_run(run)[names[0]], {"negative": "scratched 1"})
    settled(run, counts=True)
    found = hanging_of(run)
    assert (found.identified, found.order) == (True, None)
    assert negatives(run) == {name: "scratched 1" if name == names[0] else "" for name in names}
    (left,) = left_out_said(run)
    count_again(run, left.device, left.number, at(run, 3400.0))
    assert negatives(run) == as_hung(names, ["scratched 1", *shown.numbers[1:]])


def test_a_correction_by_somebody_who_saw_the_first_is_no_question(run) -> None:
    """The page was loaded after it; the numbers go with the clips. Seen both, a person's own order settles it too."""
    names = list(sheets_of_run(run))
    numbers = hanging_of(run).numbers
    hang(run, names, numbers, at(run, 3100.0), seen=hanging_of(run).seen)
    hang(run, names[::-1], numbers, at(run, 3200.0), seen=hanging_of(run).seen)
    assert (questions_said(run), negatives(run)) == ((), as_hung(names[::-1], numbers))
    hang(run, names, numbers, at(run, 3300.0), seen=0)
    assert len(questions_said(run)) == 1
    turned = (*names[1:], names[0])
    found = hang(run, turned, numbers, at(run, 3400.0), seen=hanging_of(run).seen)
    assert (found.order, found.otherwise, negatives(run)) == (turned, False, as_hung(turned, numbers))


def test_the_same_order_from_two_pages_is_no_question(run) -> None:
    """Nothing is told twice, and not known neither."""
    names = list(sheets_of_run(run))
    found = two_pages(run, names, names)
    assert (found.order, found.otherwise) == (tuple(names), False)
    assert run.events.filter(kind="identified").count() == 1
    hang(run, None, (), at(run, 3300.0))
    hang(run, None, (), at(run, 3400.0))
    assert run.events.filter(kind="identified").count() == 2


def test_an_order_that_a_device_hands_over_late_is_asked_about(run) -> None:
    """A telephone without a network told first by its clock: its order counts, the numbers go with the clips."""
    names = list(sheets_of_run(run))
    numbers = hanging_of(run).numbers
    hang(run, names, numbers, at(run, 3200.0))
    late = facts_of_events([Identified(tuple(names[::-1]), ())], at(run, 3100.0), Device("b" * 32, 1))
    runs.hand_over(run, late)
    runs.hand_over(run, late)
    assert hanging_of(run).otherwise
    assert negatives(run) == as_hung(names[::-1], numbers)
    settled(run, counts=True)
    assert negatives(run) == as_hung(names, numbers)


def test_numbers_of_before_they_were_kept_with_their_clips(run) -> None:
    """A run that was hung by an earlier version kept none with it: those on the sheets go by clip."""
    names = list(sheets_of_run(run))
    numbers = hanging_of(run).numbers
    two_pages(run, names, names[::-1])
    run = runs.find_run(run.pk)
    change(run, {"facts": {name: value for name, value in run.facts.items() if name != CLIPS}})
    settled(run, counts=True)
    assert negatives(run) == as_hung(names[::-1], numbers)


def test_a_question_is_settled_once(run) -> None:
    """From two pages at once: the second is told so."""
    names = list(sheets_of_run(run))
    two_pages(run, names, names[::-1])
    (asked,) = questions_said(run)
    settle(run, asked.device, asked.number, at(run, 3300.0), counts=True)
    with pytest.raises(WetsideError) as again:
        settle(run, asked.device, asked.number, at(run, 3301.0), counts=False)
    assert again.value.code == "services.runs.settled_already"
    runs.command(run, c.Identify(None), at(run, 3500.0))
    assert questions_said(run) == ()
