"""Each factor on a time comes once, and is shown."""

from __future__ import annotations

import dataclasses
import math

import pytest

from wetside.errors import RefusedError
from wetside.planning.documents.evening import Bath, Developer, Evening, Process, Thermometer, TimePair, Vessel
from wetside.planning.documents.words import BathKind, VesselKind
from wetside.planning.factors import coefficient_of, move_time, temp_tonight_c
from wetside.planning.library import Library
from wetside.values.conditions import Agitation, ClockRule, Conditions, StopKind
from wetside.values.dilution import Dilution
from wetside.values.evidence import Evidence, Source

DRUM = Vessel("drum", VesselKind.DRUM, (("any", 6),), 300.0, 1000.0, pour_s=10.0, drain_s=15.0)
TRAY = dataclasses.replace(DRUM, kind=VesselKind.TRAY)
PROCESS = Process("p", "Brackwater", Dilution((1.0,), 3.0))
BASIS = Conditions(
    developer="Brackwater",
    dilution="1+3",
    temp_c=20.0,
    agitation=Agitation.ROTARY,
    presoak=None,
    clock=None,
    stop=None,
    agent_ml_per_cm2=None,
    gradient=None,
)
OWN = Source("own", "test")
PAIRS = Developer("Brackwater", pairs=(TimePair(20.0, 600.0, 24.0, 400.0),))


def moved(basis=BASIS, process=PROCESS, vessel=DRUM, evening=None, developer=None, time_s=480.0):
    return move_time(time_s, basis, OWN, process, vessel, evening or Evening(format=1), developer, Library())


def test_nothing_changed_is_no_factor():
    """Under its own conditions a time stands as it is."""
    assert moved() == (1.0, (), ())


def test_temperature_once():
    """600 s at 20 C and 400 s at 24 C: at 22 C the factor is the root of 2/3, one line with its source."""
    found = moved(
        process=PROCESS._replace(temp_c=22.0)
        if hasattr(PROCESS, "_replace")
        else dataclasses.replace(PROCESS, temp_c=22.0),
        developer=PAIRS,
    )
    assert found.factor == pytest.approx(math.sqrt(400.0 / 600.0))
    (step,) = found.steps
    assert (step.code, step.factor, step.unit) == ("planning.temperature", found.factor, "s")
    assert step.value == pytest.approx(480.0 * found.factor)
    assert step.source is not None


def test_a_hair_of_temperature_is_none():
    """A difference that no thermometer shows needs no coefficient."""
    assert moved(process=dataclasses.replace(PROCESS, temp_c=20.04)).steps == ()


def test_no_coefficient_is_refused():
    """Another temperature without any pair is refused, naming both temperatures."""
    with pytest.raises(RefusedError) as caught:
        moved(process=dataclasses.replace(PROCESS, temp_c=22.0))
    assert caught.value.code == "planning.no_coefficient"
    assert (caught.value.params["from_c"], caught.value.params["to_c"]) == (20.0, 22.0)


def test_beyond_the_pairs_is_refused_unless_named():
    """26 C lies outside 20/24 C pairs; a named coefficient is taken, and assumed."""
    warm = dataclasses.replace(PROCESS, temp_c=26.0)
    with pytest.raises(RefusedError):
        moved(process=warm, developer=PAIRS)
    found = moved(process=warm, developer=Developer("Brackwater", coefficient_per_c=0.097))
    assert found.factor == pytest.approx(math.exp(-0.582))
    assert found.steps[0].evidence is Evidence.ASSUMED


def test_a_named_coefficient_speaks_before_pairs():
    """The user's own choice counts before pairs, pairs before published ones, and nothing gives nothing."""
    named = dataclasses.replace(PAIRS, coefficient_per_c=0.05)
    assert coefficient_of("Brackwater", named, Library()).per_c == 0.05
    assert coefficient_of("Brackwater", PAIRS, Library()).per_c == pytest.approx(math.log(1.5) / 4)
    assert coefficient_of("Brackwater", None, Library()) is None


def test_the_jacket_rules_the_evening():
    """A jacket that cannot be brought to temperature is the temperature, less what the thermometer reads too much."""
    evening = Evening(format=1, thermometer=Thermometer("rod", 0.4, 21.4))
    assert temp_tonight_c(evening, PROCESS) == pytest.approx(21.0)
    assert temp_tonight_c(Evening(format=1), PROCESS) == 20.0
    assert moved(evening=evening, developer=PAIRS).steps[0].params["to_c"] == pytest.approx(21.0)


@pytest.mark.parametrize(
    ("agitation", "vessel", "factor"),
    [
        (Agitation.ROTARY, DRUM, None),
        (Agitation.TRAY, TRAY, None),
        # Common practice: continuous movement is 0.85 of intermittent time; back it is 1 / 0.85.
        (Agitation.INTERMITTENT, DRUM, 0.85),
        (Agitation.INTERMITTENT, TRAY, 0.85),
        (Agitation.ROTARY, dataclasses.replace(DRUM, kind=VesselKind.HANGERS), 1 / 0.85),
    ],
)
def test_agitation_once(agitation, vessel, factor):
    """Another way of moving the liquid is one factor, and the same way none."""
    found = moved(
        basis=BASIS._replace(agitation=agitation)
        if hasattr(BASIS, "_replace")
        else dataclasses.replace(BASIS, agitation=agitation),
        vessel=vessel,
    )
    assert [step.factor for step in found.steps] == ([] if factor is None else [pytest.approx(factor)])


def test_a_presoak_cancels_the_cut_and_is_said():
    """With a pre-soak the rotary cut is cancelled, assumed, and the makers who advise against it are named."""
    presoaked = dataclasses.replace(PROCESS, baths=(Bath(BathKind.PRESOAK, time_s=300.0), Bath(BathKind.DEVELOP)))
    found = moved(
        basis=BASIS._replace(agitation=Agitation.INTERMITTENT)
        if hasattr(BASIS, "_replace")
        else dataclasses.replace(BASIS, agitation=Agitation.INTERMITTENT),
        process=presoaked,
    )
    assert found.factor == 1.0
    assert [(step.code, step.evidence) for step in found.steps] == [("planning.agitation_presoak", Evidence.ASSUMED)]


def test_a_changed_clock_counts_from_two_percent():
    """Ten seconds of pour are 2.8 % of 6:00, a factor, and 0.9 % of 18:00, a note."""
    basis = (
        BASIS._replace(clock=ClockRule.POUR_TO_DRAIN, stop=StopKind.ACID)
        if hasattr(BASIS, "_replace")
        else dataclasses.replace(BASIS, clock=ClockRule.POUR_TO_DRAIN, stop=StopKind.ACID)
    )
    short = moved(basis=basis, time_s=360.0)
    assert short.factor == pytest.approx(350.0 / 360.0)
    assert [step.code for step in short.steps] == ["planning.clock"]
    long = moved(basis=basis, time_s=1080.0)
    assert (long.factor, long.steps) == (1.0, ())
    assert [note.code for note in long.notes] == ["planning.clock_same"]


def test_all_factors_multiply_in_order():
    """Temperature, agitation and clock each come once; their product is the whole factor."""
    basis = (
        dataclasses.replace(BASIS, agitation=Agitation.INTERMITTENT, clock=ClockRule.POUR_TO_DRAIN, stop=StopKind.ACID)
        if dataclasses.is_dataclass(BASIS)
        else BASIS._replace(agitation=Agitation.INTERMITTENT, clock=ClockRule.POUR_TO_DRAIN, stop=StopKind.ACID)
    )
    found = moved(basis=basis, process=dataclasses.replace(PROCESS, temp_c=22.0), developer=PAIRS, time_s=400.0)
    assert [step.code for step in found.steps] == ["planning.temperature", "planning.agitation", "planning.clock"]
    assert math.prod(step.factor for step in found.steps) == pytest.approx(found.factor)
    assert found.steps[-1].value == pytest.approx(400.0 * found.factor)
