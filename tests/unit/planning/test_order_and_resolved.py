"""The order of loads by risk, and what names and gaps of a file stand for."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from wetside.planning.documents.evening import Aim, Bath, Bottle, Evening, Film, FilmTime, Process, Sheet
from wetside.planning.documents.words import BathKind, Importance, Printing
from wetside.planning.order import order_key, waiting_days
from wetside.planning.resolved import (
    NORMAL_AIM,
    PLAIN_BATHS,
    baths_of,
    bottle_of,
    developing_shares,
    has_presoak,
    resolve_evening,
    stop_of,
    tolerance_of,
)
from wetside.values.conditions import StopKind
from wetside.values.dilution import STOCK, Dilution

TODAY = dt.date(2026, 11, 20)
ORDINARY = {"film": "Tolland 100"}


class OnlySheet:
    """As much of a sheet in a group as its order looks at."""

    def __init__(self, **keys):
        self.resolved = self
        self.sheet = Sheet(**(ORDINARY | keys))


def key(*members, time_s=480.0, untested=True):
    return order_key(members, time_s, TODAY, untested=untested)


def test_least_important_first_while_untested():
    """A test sheet shows a wrong time before an irreplaceable one meets it; once all is tested it does not matter."""
    test, ordinary, dear = (OnlySheet(label=str(kind), importance=kind) for kind in Importance)
    assert key(test) < key(ordinary) < key(dear)
    assert key(test, dear) > key(ordinary)
    assert key(test, untested=False)[0] == key(dear, untested=False)[0]


def test_long_waiting_first():
    """Among loads of one risk that with a sheet of 90 days or more goes first."""
    old = OnlySheet(label="z", exposed=TODAY - dt.timedelta(90))
    young = OnlySheet(label="a", exposed=TODAY - dt.timedelta(89))
    unknown = OnlySheet(label="b")
    assert key(old) < key(young) < key(unknown)
    assert (waiting_days(old, TODAY), waiting_days(unknown, TODAY)) == (90, None)


def test_risk_before_waiting():
    """A sheet that has waited long is still not risked before a test sheet."""
    old = OnlySheet(label="a", exposed=TODAY - dt.timedelta(400), importance=Importance.IRREPLACEABLE)
    assert key(OnlySheet(label="b", importance=Importance.TEST)) < key(old)


def test_the_second_twin_later():
    """Of twins the later named goes later, so that the first can be looked at."""
    first, second = OnlySheet(label="1 left", twin="1 right"), OnlySheet(label="1 right", twin="1 left")
    assert key(first, time_s=600.0) < key(second, time_s=300.0)


def test_ties_are_broken_by_time_and_label():
    """Plans repeat: equal loads stand by time, then by label."""
    one, two = OnlySheet(label="1"), OnlySheet(label="2")
    assert key(two, time_s=300.0) < key(one, time_s=400.0)
    assert key(one) < key(two)


def test_the_demo_of_all_keys_is_ordered_by_risk(plan_of, evening):
    """In a plan the load of the test sheet comes before the others."""
    plan = plan_of(evening)
    assert plan.loads[0].sheets == ("four",)


def process(*baths):
    return Process("p", "Brackwater", Dilution((1.0,), 3.0), baths=baths)


@pytest.mark.parametrize(
    ("baths", "stop"),
    [
        ((), StopKind.ACID),
        ((Bath(BathKind.DEVELOP), Bath(BathKind.STOP, time_s=30.0)), StopKind.ACID),
        ((Bath(BathKind.DEVELOP), Bath(BathKind.STOP, "Water stop", time_s=30.0)), StopKind.WATER),
        ((Bath(BathKind.DEVELOP), Bath(BathKind.STOP, "plain RINSE", time_s=30.0)), StopKind.WATER),
        ((Bath(BathKind.DEVELOP), Bath(BathKind.WASH, time_s=30.0)), StopKind.WATER),
        ((Bath(BathKind.DEVELOP), Bath(BathKind.FIX, time_s=30.0)), StopKind.WATER),
        ((Bath(BathKind.DEVELOP),), StopKind.WATER),
    ],
)
def test_what_ends_development(baths, stop):
    """Acid only where a stop bath follows that is not called water."""
    assert stop_of(process(*baths)) is stop


def test_presoak_only_before_the_developer():
    """A pre-soak counts where it comes first."""
    soak, develop = Bath(BathKind.PRESOAK, time_s=60.0), Bath(BathKind.DEVELOP)
    assert has_presoak(process(soak, develop))
    assert not has_presoak(process(develop, soak))
    assert not has_presoak(process())


def test_plain_baths_are_told(plan_of):
    """A process without baths takes the plain ones, and the plan says so."""
    assert baths_of(process()) == PLAIN_BATHS
    evening = Evening(
        format=1,
        films=(Film("f", times=(FilmTime("Brackwater", (450.0, 450.0)),)),),
        sheets=(Sheet(film="f", label="a"),),
    )
    resolved = resolve_evening(evening)
    assert [note.code for note in resolved.notes] == ["planning.plain_baths", "planning.no_vessel"]
    assert resolved.sheets[0].process.dilution == STOCK
    assert "planning.plain_baths" in [note.code for note in plan_of(evening).notes]


def test_a_sheet_without_process_is_set_aside():
    """Where several developers might be meant the sheet is set aside with a reason, the others are not."""
    times = (FilmTime("Brackwater", (450.0, 450.0)), FilmTime("Saltmere", (450.0, 450.0)))
    evening = Evening(
        format=1,
        films=(Film("f", times=times), Film("g", times=times[:1])),
        sheets=(Sheet(film="f", label="a"), Sheet(film="g", label="b")),
    )
    resolved = resolve_evening(evening)
    assert [(one.id, one.code) for one in resolved.unplanned] == [("a", "planning.no_process")]
    assert [one.sheet.id for one in resolved.sheets] == ["b"]


def test_names_are_found_however_they_are_spelled():
    """Case and blanks do not part a name from what it stands for."""
    evening = Evening(
        format=1,
        films=(Film("Tolland 100", 80.0),),
        processes=(process(),),
        aims=(Aim("Grade 2", Printing.GRADED, 1.05),),
        aim="grade  2",
        sheets=(Sheet(film="TOLLAND 100", label="a", process="P"),),
    )
    (one,) = resolve_evening(evening).sheets
    assert (one.film.ei, one.process.name, one.aim.name) == (80.0, "p", "Grade 2")


@pytest.mark.parametrize(
    ("printing", "tolerance"),
    [(Printing.GRADED, 0.08), (Printing.VARIABLE, 0.15), (Printing.SCANNER, 0.15), (Printing.ALTERNATIVE, 0.10)],
)
def test_tolerances(printing, tolerance):
    """Without one of its own an aim has the tolerance of its printing. [decided 1]"""
    aim = Aim("a", printing, 1.05)
    assert tolerance_of(aim) == tolerance
    assert tolerance_of(dataclasses.replace(aim, tolerance=0.03)) == 0.03
    assert tolerance_of(NORMAL_AIM) == 0.08


def test_bottles_by_mark_and_by_what_they_hold():
    """A marked bath takes its bottle and no other; an unmarked one the first that holds the liquid."""
    shelf = (Bottle("D", "Brackwater", 300.0), Bottle("E", "brackwater", 500.0), Bottle("F", "Fixer"))
    assert bottle_of(shelf, "e", "Fixer").mark == "E"
    assert bottle_of(shelf, None, "BRACKWATER").mark == "D"
    assert bottle_of(shelf, "X", "Brackwater") is None
    assert bottle_of(shelf, None, "Stop") is None


def test_shares_of_the_developing_time():
    """Stated shares stand, the rest is divided, and a bath with its own time takes none."""
    develop = BathKind.DEVELOP
    assert developing_shares((Bath(develop),)) == {0: 1.0}
    assert developing_shares((Bath(develop, share=0.4), Bath(develop), Bath(develop))) == pytest.approx(
        {0: 0.4, 1: 0.3, 2: 0.3}
    )
    assert developing_shares((Bath(develop, time_s=60.0), Bath(develop))) == {1: 1.0}
