"""An evening with one of everything, and a way to plan a changed copy of it."""

from __future__ import annotations

import dataclasses
import datetime as dt
import re
from typing import Any

import pytest

from wetside.adapters.plain_document import plain_value
from wetside.planning.documents.evening import (
    Aim,
    Bath,
    Bottle,
    Developer,
    Evening,
    Exposure,
    Film,
    FilmTest,
    FilmTime,
    Placed,
    Process,
    Reciprocity,
    Sheet,
    Thermometer,
    TimePair,
    Vessel,
)
from wetside.planning.documents.words import AfterUse, BathKind, Importance, Mishap, Printing, VesselKind
from wetside.planning.evening_plan import plan_evening
from wetside.services.library import load_library
from wetside.values.conditions import Agitation, ClockRule, StopKind
from wetside.values.dilution import Dilution
from wetside.values.sheet_size import SheetSize

NINE_TWELVE = SheetSize("9x12cm", 90.0, 120.0)
FOURTEEN = Dilution((1.0,), 14.0)
TODAY = dt.date(2026, 11, 20)
ROWS = tuple(
    (dev_min, -2.6 + 0.15 * step, 0.10 + 0.005 * dev_min + max(0.0, (step - 3) * 0.15) * slope)
    for dev_min, slope in ((5.0, 0.48), (8.0, 0.62), (12.0, 0.80))
    for step in range(21)
)
"""Straight readings of an invented film: toe at step 3, gradient as given."""


def full_evening() -> Evening:
    """One of everything, so that every key has something to change."""
    test = FilmTest(
        developer="Brackwater",
        dilution=FOURTEEN,
        rows=ROWS,
        temp_c=20.0,
        agitation=Agitation.ROTARY,
        presoak=True,
        clock=ClockRule.FULL_TO_DRAIN,
        stop=StopKind.ACID,
        agent_ml_per_cm2=0.04,
        source="own tablet",
    )
    time = FilmTime(
        developer="Brackwater",
        span_s=(480.0, 480.0),
        dilution=FOURTEEN,
        temp_c=20.0,
        agitation=Agitation.ROTARY,
        presoak=True,
        clock=ClockRule.FULL_TO_DRAIN,
        stop=StopKind.ACID,
        agent_ml_per_cm2=0.03,
        gradient=0.62,
        source="leaflet",
    )
    return Evening(
        format=1,
        name="one of everything",
        date=TODAY,
        process="usual",
        aim="middle",
        size=NINE_TWELVE,
        thermometer=Thermometer("rod", 0.4, 20.9),
        films=(
            Film("Tolland 100", 80.0, reciprocity=Reciprocity(1.3, 1.0), tests=(test,)),
            Film("Morvane 320", 250.0, times=(time,)),
        ),
        developers=(
            Developer("Brackwater", pairs=(TimePair(18.0, 600.0, 24.0, 400.0, own=True, source="two tests"),)),
        ),
        processes=(
            Process(
                "usual",
                "Brackwater",
                FOURTEEN,
                20.0,
                ClockRule.FULL_TO_DRAIN,
                1,
                (
                    Bath(BathKind.PRESOAK, "Pre-soak", time_s=300.0),
                    Bath(BathKind.DEVELOP, "Developer", bottle="D"),
                    Bath(BathKind.STOP, "Stop", bottle="S", time_s=45.0, volume_ml=400.0, after=AfterUse.BACK),
                    Bath(BathKind.FIX, "Fixer", bottle="F", time_s=270.0, after=AfterUse.BACK),
                    Bath(BathKind.WASH, "Wash", time_s=120.0, changes=3),
                    Bath(BathKind.WETTING, "Wetting agent", time_s=60.0, out_of_vessel=True),
                ),
            ),
        ),
        bottles=(
            Bottle("D", "Brackwater", 20.0, dt.date(2026, 10, 1)),
            Bottle("F", "Fixer", 500.0, None, dt.date(2026, 11, 1)),
        ),
        vessels=(Vessel("drum", VesselKind.DRUM, (("9x12cm", 6),), 300.0, 800.0, 12.0, 18.0),),
        aims=(Aim("middle", Printing.GRADED, 1.05), Aim("blue", Printing.ALTERNATIVE, 1.20)),
        sheets=(
            Sheet(
                film="Tolland 100",
                label="one",
                shadow=Placed(9.0, 3.0),
                highlight=Placed(14.0, 8.0),
                twin="two",
                exposed=dt.date(2026, 11, 1),
            ),
            Sheet(
                film="Tolland 100",
                holder="two",
                n=0.5,
                meant=Exposure(22.0, 2.0, None, 2.0, 270.0, 180.0),
                was_set=Exposure(16.0, 2.0, 80.0),
            ),
            Sheet(
                film="Morvane 320",
                label="three",
                scene_stops=7.0,
                meant=Exposure(time_s=2.0, extension_mm=270.0, focal_mm=180.0),
                mishaps=(Mishap.BELLOWS_FORGOTTEN,),
            ),
            Sheet(film="Morvane 320", label="four", suspect=True, importance=Importance.TEST),
        ),
    )


@pytest.fixture(scope="session")
def library():
    return load_library()


@pytest.fixture
def evening() -> Evening:
    return full_evening()


@pytest.fixture
def plan_of(library):
    """Plan an evening; the echo of the input is left out unless asked for."""

    def plan(one: Evening):
        return plan_evening(one, library, today=TODAY, tool="test", inputs={})

    return plan


@pytest.fixture
def plain_plan_of(plan_of):
    def plan(one: Evening) -> dict[str, Any]:
        return plain_value(plan_of(one))

    return plan


@pytest.fixture
def changed():
    """Change one value by its path: ``changed(evening, "films[0].tests[0].temp_c", 21.0)``."""

    def change(value: Any, path: str, new: Any) -> Any:
        head, _, rest = path.partition(".")
        name, index = re.fullmatch(r"(\w+)(?:\[(\d+)\])?", head).groups()
        old = getattr(value, name)
        if index is None:
            inner = change(old, rest, new) if rest else new
        else:
            items = list(old)
            items[int(index)] = change(items[int(index)], rest, new) if rest else new
            inner = tuple(items)
        return dataclasses.replace(value, **{name: inner})

    return change
