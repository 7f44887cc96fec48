"""What every plan keeps to, whatever the evening: limits, windows, rules, schedule, reckoning."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
from itertools import pairwise
from math import prod

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wetside.adapters.plain_document import json_text, plain_value
from wetside.planning.documents.evening import (
    Aim,
    Bath,
    Evening,
    Exposure,
    Film,
    FilmTest,
    FilmTime,
    Process,
    Sheet,
    Vessel,
)
from wetside.planning.documents.words import BathKind, Importance, Printing, VesselKind
from wetside.planning.evening_plan import plan_evening
from wetside.planning.library import Library
from wetside.planning.resolved import AGITATION_OF_VESSEL
from wetside.values.conditions import Agitation, ClockRule
from wetside.values.dilution import Dilution
from wetside.values.evidence import Evidence
from wetside.values.sheet_size import SheetSize

TODAY = dt.date(2026, 11, 20)
SIZES = (SheetSize("9x12cm", 90.0, 120.0), SheetSize("13x18cm", 130.0, 180.0))
DILUTION = Dilution((1.0,), 9.0)
RANK = {kind: place for place, kind in enumerate(Evidence)}
SLACK = 1e-6
RULES = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))

ROWS = tuple(
    (dev_min, -2.6 + 0.15 * step, 0.10 + max(0.0, (step - 3) * 0.15) * slope)
    for dev_min, slope in ((5.0, 0.48), (8.0, 0.62), (12.0, 0.80))
    for step in range(21)
)
"""Straight readings of an invented film."""


@st.composite
def films(draw):
    """Two films that are known by a time, and one that is known by a test."""
    timed = [
        Film(
            f"film {number}",
            100.0,
            times=tuple(
                FilmTime(
                    developer="Brackwater",
                    span_s=(time_s, time_s * draw(st.sampled_from([1.0, 1.0, 1.1]))),
                    dilution=DILUTION,
                    agitation=agitation,
                    agent_ml_per_cm2=draw(st.sampled_from([None, 0.02, 0.05])),
                    own=draw(st.booleans()),
                )
                for agitation in (Agitation.ROTARY, Agitation.TRAY, Agitation.INTERMITTENT)
                for time_s in [float(draw(st.integers(300, 900)))]
            ),
        )
        for number in range(2)
    ]
    test = FilmTest("Brackwater", DILUTION, rows=ROWS, agent_ml_per_cm2=0.03)
    return (*timed, Film("film 2", 100.0, tests=(test,)))


@st.composite
def vessels(draw):
    """One or two vessels of any kind, with places for one size or both."""
    made = []
    for number in range(draw(st.integers(1, 2))):
        kind = draw(st.sampled_from(list(VesselKind)))
        places = [("9x12cm", draw(st.integers(1, 6)))]
        if draw(st.booleans()):
            places.append(("13x18cm", draw(st.integers(1, 4))))
        low = float(draw(st.integers(5, 40)) * 10)
        made.append(
            Vessel(
                f"vessel {number}",
                kind,
                tuple(places),
                low,
                low + draw(st.integers(0, 800)),
                float(draw(st.integers(0, 30))),
                float(draw(st.integers(0, 30))),
                float(draw(st.integers(5, 40))),
            )
        )
    return tuple(made)


@st.composite
def processes(draw):
    """A process with or without pre-soak, one or two developing baths, any clock rule."""
    presoak = [Bath(BathKind.PRESOAK, time_s=120.0)] if draw(st.booleans()) else []
    developing = draw(
        st.sampled_from([[Bath(BathKind.DEVELOP)], [Bath(BathKind.DEVELOP, share=0.4), Bath(BathKind.DEVELOP)]])
    )
    after = [
        Bath(BathKind.STOP, time_s=30.0),
        Bath(BathKind.FIX, time_s=240.0),
        Bath(BathKind.WASH, time_s=60.0, changes=2),
    ]
    return Process(
        "usual",
        "Brackwater",
        DILUTION,
        clock=draw(st.sampled_from(list(ClockRule))),
        baths=(*presoak, *developing, *after),
    )


@st.composite
def evenings(draw):
    """A small evening with twins, suspects and misexposures."""
    count = draw(st.integers(1, 9))
    sheets = [
        Sheet(
            film=f"film {draw(st.integers(0, 2))}",
            label=f"s{number}",
            size=draw(st.sampled_from(SIZES)),
            n=draw(st.sampled_from([None, None, -1.0, 0.5])),
            suspect=draw(st.integers(0, 5)) == 0,
            importance=draw(st.sampled_from(list(Importance))),
            meant=Exposure(time_s=0.25),
            was_set=Exposure(time_s=draw(st.sampled_from([0.25, 0.25, 1.0, 0.125]))),
        )
        for number in range(count)
    ]
    if count > 1 and draw(st.booleans()):
        one, two = draw(st.permutations(range(count)))[:2]
        sheets[one] = dataclasses.replace(sheets[one], twin=f"s{two}")
        sheets[two] = dataclasses.replace(sheets[two], twin=f"s{one}")
    return Evening(
        format=1,
        date=TODAY,
        films=draw(films()),
        processes=(draw(processes()),),
        vessels=draw(vessels()),
        aims=draw(st.sampled_from([(), (Aim("middle", Printing.GRADED, 1.05),)])),
        sheets=tuple(sheets),
    )


def planned(evening):
    return plan_evening(evening, Library(), today=TODAY, tool="test", inputs={})


def of_vessel(evening, load):
    return next(vessel for vessel in evening.vessels if vessel.name == load.vessel)


@RULES
@given(evenings())
def test_every_sheet_has_its_place(evening):
    """Every sheet is in exactly one load or has a reason; twins are apart, suspects alone."""
    plan = planned(evening)
    loaded = [label for load in plan.loads for label in load.sheets]
    assert sorted(loaded + [one.id for one in plan.unplanned]) == sorted(sheet.id for sheet in evening.sheets)
    load_of = {sheet.id: sheet.load for sheet in plan.sheets}
    assert {label: load.number for load in plan.loads for label in load.sheets} == load_of
    for sheet in plan.sheets:
        if sheet.twin in load_of:
            assert load_of[sheet.twin] != sheet.load
        if sheet.suspect:
            assert plan.loads[sheet.load - 1].sheets == (sheet.id,)
    assert [load.number for load in plan.loads] == list(range(1, len(plan.loads) + 1))


@RULES
@given(evenings())
def test_every_load_keeps_the_limits(evening):
    """Places and half of the reference agent hold, and the volume wets the vessel and fits into it."""
    plan = planned(evening)
    size_of = {sheet.id: sheet.size.name for sheet in evening.sheets}
    for load in plan.loads:
        vessel = of_vessel(evening, load)
        places = dict(vessel.places)
        assert sum(1.0 / places[size_of[label]] for label in load.sheets) <= 1.0 + SLACK
        assert load.check.agent_ratio is None or load.check.agent_ratio >= 0.5 - SLACK
        assert vessel.min_ml - SLACK <= load.volume_ml <= vessel.max_ml + SLACK
        assert load.volume_ml % 10.0 == pytest.approx(0.0, abs=SLACK) or load.volume_ml == vessel.max_ml
        assert load.concentrate_ml + load.water_ml == pytest.approx(load.volume_ml)
        assert load.check.binds in ("wetting", "agent", "vessel")


@RULES
@given(evenings())
def test_the_chosen_times_are_inside_the_windows(evening):
    """In the chosen plan each sheet's time is inside its window, on the grid where the window has a point of it."""
    plan = planned(evening)
    for sheet in plan.sheets:
        low, high = sheet.window_s
        assert low <= sheet.time_s <= high
        assert low - SLACK <= sheet.load_time_s <= high + SLACK
        assert sheet.deviation <= 1.0 + SLACK
        assert sheet.percent == pytest.approx((sheet.load_time_s / sheet.time_s - 1) * 100)
    for load in plan.loads:
        own = [sheet for sheet in plan.sheets if sheet.load == load.number]
        assert load.worst_deviation == max(sheet.deviation for sheet in own)
        assert load.time_s == max(sheet.load_time_s for sheet in own)
        if load.own_times_s is None:
            assert {sheet.load_time_s for sheet in own} == {load.time_s}


@RULES
@given(evenings())
def test_bound_and_ladder_fit_the_loads(evening):
    """The bound is not above the loads; more loads are never worse; broken sheets stand only below the chosen rung."""
    plan = planned(evening)
    assert plan.lower_bound <= len(plan.loads)
    assert plan.proved == (plan.lower_bound == len(plan.loads))
    rungs = [rung for rung in plan.ladder if rung.without is None]
    assert all(earlier.loads < later.loads for earlier, later in pairwise(rungs))
    assert all(earlier.worst_deviation >= later.worst_deviation - SLACK for earlier, later in pairwise(rungs))
    chosen = [rung for rung in rungs if rung.chosen]
    assert [rung.loads for rung in chosen] == ([len(plan.loads)] if plan.loads else [])
    for rung in rungs:
        assert bool(rung.broken) == (rung.worst_deviation > 1.0 + SLACK)
        if rung.loads < len(plan.loads) and plan.proved:
            assert rung.broken


@RULES
@given(evenings())
def test_the_schedule_hangs_together(evening):
    """Acts are anchored to earlier acts, their clock is anchor and offset, and development begins at zero."""
    process = evening.processes[0]
    for load in planned(evening).loads:
        clocks = {"start": load.schedule[0].clock_s - load.schedule[0].offset_s}
        for act in load.schedule:
            assert act.anchor in clocks
            assert act.key not in clocks
            assert act.clock_s == pytest.approx(clocks[act.anchor] + act.offset_s)
            assert act.offset_s >= -SLACK
            clocks[act.key] = act.clock_s
        developing = [act for act in load.schedule if act.kind == "develop"]
        begins = (
            "enter" if load.own_times_s is not None else "full" if process.clock.value.startswith("full") else "pour"
        )
        assert next(act for act in developing if act.does == begins).clock_s == 0.0
        assert load.schedule[-1].does == "hang"


@RULES
@given(evenings())
def test_nothing_waits_between_developer_and_stop(evening):
    """From the developer's full to the stop's pour no act waits for anybody."""
    for load in planned(evening).loads:
        acts = load.schedule
        first = next(place for place, act in enumerate(acts) if act.kind == "develop")
        last = max(place for place, act in enumerate(acts) if act.kind == "develop")
        assert [act.key for act in acts[first + 1 : last + 2] if act.waits] == []
        assert acts[last + 1].kind == "stop"


@RULES
@given(evenings())
def test_hands_have_time_and_sheets_their_own(evening):
    """Where each sheet has its own time it has exactly that, and no two sheets move closer than the spacing."""
    only = dataclasses.replace(evening, processes=(dataclasses.replace(evening.processes[0], baths=()),))
    for load in planned(only).loads:
        if load.own_times_s is None:
            continue
        moves = [act for act in load.schedule if act.does in ("enter", "lift")]
        entered = {act.sheet: act.clock_s for act in moves if act.does == "enter"}
        stayed = {act.sheet: act.clock_s - entered[act.sheet] for act in moves if act.does == "lift"}
        assert stayed == pytest.approx(dict(zip(load.sheets, load.own_times_s, strict=True)))
        moments = sorted(act.clock_s for act in moves)
        spacing_s = of_vessel(only, load).spacing_s
        assert all(later - earlier >= spacing_s - SLACK for earlier, later in pairwise(moments))


@RULES
@given(evenings())
def test_the_reckoning_leads_to_the_time(evening):
    """Start and factors multiply to the sheet's time; its evidence is as weak as its weakest line, or converted."""
    for sheet in planned(evening).sheets:
        timed = [step for step in sheet.reckoning if step.unit == "s"]
        start, *moved = timed
        assert start.factor is None
        assert start.value * prod(step.factor for step in moved) == pytest.approx(sheet.time_s)
        assert timed[-1].value == pytest.approx(sheet.time_s)
        weakest = max((step.evidence for step in timed), key=RANK.__getitem__)
        assert sheet.evidence is weakest or (moved and sheet.evidence is Evidence.CONVERTED)
        assert RANK[sheet.evidence] >= RANK[weakest]


@RULES
@given(evenings(), st.randoms(use_true_random=False))
def test_the_order_of_the_file_does_not_matter(evening, chance):
    """The same sheets in another order make the same loads."""
    sheets = list(evening.sheets)
    chance.shuffle(sheets)

    def loads(plan):
        return sorted((sorted(load.sheets), load.vessel, load.time_s) for load in plan.loads)

    assert loads(planned(evening)) == loads(planned(dataclasses.replace(evening, sheets=tuple(sheets))))


@RULES
@given(evenings())
def test_the_plan_is_plain_json(evening):
    """The document survives JSON, and holds no number that is not finite."""
    document = plain_value(planned(evening))
    assert json.loads(json_text(document), parse_constant=pytest.fail) == document


def test_the_vessels_have_times_of_their_own():
    """Every kind of vessel that the drawn evenings use is covered by the times of their films."""
    assert set(AGITATION_OF_VESSEL.values()) == {Agitation.ROTARY, Agitation.TRAY, Agitation.INTERMITTENT}
