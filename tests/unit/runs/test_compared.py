"""Two runs side by side: each figure by hand, ranked, with what nobody knows named."""

from __future__ import annotations

import random
from math import exp, log, sqrt

import pytest
from tests.fixtures.run_sample import BATHS, FIRST, SHEETS, desk, drum, planned, quick, script_of

from wetside.development.ways import Way
from wetside.errors import RefusedError
from wetside.planning.documents.evening import Bath, Process, Vessel
from wetside.planning.documents.words import BathKind, VesselKind
from wetside.planning.schedule import SheetTime
from wetside.runs import commands as c
from wetside.runs.compared import NOISE, Comparison, Run, compare
from wetside.runs.conduct import Conduct
from wetside.runs.difference import Backing
from wetside.runs.event_log import MemoryLog
from wetside.runs.events import Incident, Where
from wetside.runs.known import Known
from wetside.runs.parts import parts_of
from wetside.runs.script import Pause, Script
from wetside.runs.simulator import Person, Sink, simulate
from wetside.runs.state import State
from wetside.runs.worth import ZONE_SHARE, worth_of_share
from wetside.services.run_compared_said import _value
from wetside.values.conditions import ClockRule

KNOWN = Known(
    process="drum", process_version=1, way=Way.ONE_BATH, vessel_kept=True, checked_high_c=0.4, lots=("A 1",),
    reuse_factor=None,
)  # fmt: skip
STEADY = Person(delay_s=0.0, scatter_s=0.0, pauses_s=5.0, reads=False)


def done(script: Script, person: Person = STEADY, sink: Sink | None = None, seed: int = 1) -> State:
    """State of a whole simulated run."""
    conduct = Conduct(MemoryLog(), "run", "terminal")
    for _ in simulate(conduct, script, random.Random(seed), FIRST.at(0.0), person=person, sink=sink):
        pass
    return conduct.state()


def run(script: Script, known: Known = KNOWN, **more: object) -> Run:
    return Run(done(script, **more), 6000.0, known)  # type: ignore[arg-type]


def shares(found: Comparison) -> dict[str, float]:
    return {row.difference.kind: row.difference.share for row in found.ranked}  # type: ignore[misc]


def kinds(found: Comparison) -> list[str]:
    return [row.difference.kind for row in found.ranked]


def listed(found: Comparison) -> dict[str, object]:
    return {one.kind: one for one in found.listed}


def missing(found: Comparison, *, first: bool) -> set[str]:
    return {one.note.code.rpartition(".")[2] for one in found.missing if one.first is first}


def test_a_run_and_itself_differ_in_nothing() -> None:
    """No row, a sum of 0, and the noise of any two runs beside it."""
    one = run(planned())
    found = compare(one, one)
    assert (found.ranked, found.listed, found.share, found.explains) == ((), (), 0.0, False)
    assert found.noise.density_spread == pytest.approx(1.05 * 0.65 * 0.045 * sqrt(2.0))


def test_the_worth_of_a_share_by_hand() -> None:
    """Ten percent more time: 1.05 x 0.65 x ln 1.1 = 0.0650 density, and by the zone's 0.1688 it is 0.367 zone."""
    worth = worth_of_share(log(1.1), 1.05)
    assert worth is not None
    # 0.65 * 0.0953102 = 0.0619516; * 1.05 = 0.0650492.
    # A zone: ln((1.80 + 0.30103) / (1.80 - 0.30103)) / 2 = 0.168825; 0.0619516 / 0.168825 = 0.36696.
    assert worth.density == pytest.approx(0.0650492, abs=1e-6)
    assert pytest.approx(0.168825, abs=1e-6) == ZONE_SHARE
    assert worth.zones == pytest.approx(0.36696, abs=1e-5)
    # Its spread is that of the elasticity: half of 0.75 - 0.60, times the share, times the range.
    assert worth.density_spread == pytest.approx(1.05 * 0.075 * 0.0953102, abs=1e-6)
    assert worth_of_share(log(3.01), 1.05) is None


def test_nominal_time_by_hand() -> None:
    """7:20 against 8:04: ln 1.1 of time; pour, drain and stop, 17.5 s in both, take a little of it back."""
    found = compare(run(planned(440.0)), run(planned(484.0)))
    assert kinds(found) == ["time", "handling"]
    assert shares(found)["time"] == pytest.approx(log(484.0 / 440.0))
    # Effective: pour/2 + time + (drain + stop pour)/2 = time + 5 + 12.5.
    rest = log(501.5 / 484.0) - log(457.5 / 440.0)
    assert shares(found)["handling"] == pytest.approx(rest, abs=1e-9)
    assert found.share == pytest.approx(log(501.5 / 457.5))
    assert found.worth is not None
    assert found.worth.density == pytest.approx(1.05 * 0.65 * log(501.5 / 457.5))
    # Nobody read either developer: 0.063 density is less than the 0.064 that is uncertain; twice the time is more.
    assert not found.explains
    assert compare(run(planned(440.0)), run(planned(880.0))).explains


def test_planned_temperature_by_hand() -> None:
    """20 against 21 C at 0.097 a degree: 0.097 of time, 1.05 x 0.65 x 0.097 = 0.0662 density."""
    warm = planned()._replace(temp_c=21.0)
    found = compare(run(planned()), run(warm))
    assert kinds(found) == ["temperature"]
    assert found.share == pytest.approx(0.097)
    assert found.worth is not None
    assert found.worth.density == pytest.approx(0.0662025)
    assert found.ranked[0].difference.backing is Backing.PUBLISHED
    near = compare(run(planned()), run(planned()._replace(temp_c=19.0, span_c=(20.0, 24.0))))
    assert near.share == pytest.approx(-0.097)
    assert near.ranked[0].difference.backing is Backing.GUIDE
    cold = planned()._replace(temp_c=16.9, span_c=(20.0, 24.0))
    outside = compare(run(planned()), run(cold))
    assert outside.ranked == ()
    assert listed(outside)["temperature"].remark.code == "runs.compared.outside"  # type: ignore[attr-defined]


def test_the_clock_rule_by_hand() -> None:
    """First drop to drain against full to drain, both 6:00: 10 s of 6:12.5, the 2.8 % of the handbook."""
    before, after = (planned(360.0, rule) for rule in (ClockRule.POUR_TO_DRAIN, ClockRule.FULL_TO_DRAIN))
    found = compare(run(before), run(after))
    # 5 + 350 + 12.5 = 367.5 and 5 + 360 + 12.5 = 377.5 of effective development.
    assert kinds(found) == ["clock"]
    assert found.share == pytest.approx(log(377.5 / 367.5), abs=1e-9)
    assert exp(found.share) == pytest.approx(1.028, abs=0.001)


def test_water_as_stop_counts_15_s() -> None:
    """A stop of plain water lets it go on for 15 s: ln(472.5 / 457.5)."""
    baths = tuple(
        bath if bath.does is not BathKind.STOP else Bath(BathKind.STOP, name="Water", time_s=30.0) for bath in BATHS
    )
    wet = script_of(Process(name="drum", developer="Brackwater", baths=baths), drum(), 440.0)
    assert compare(run(planned()), run(wet)).share == pytest.approx(log(472.5 / 457.5), abs=1e-9)


def test_a_late_drain_by_hand() -> None:
    """A stop that goes in 30 s late: the drain began as much later, and 30 s of 457.5 s are added."""
    late = desk(planned(), retired=tuple(Pause))
    on_time = desk(planned(), retired=tuple(Pause))
    for one, s in ((on_time, 0.0), (late, 30.0)):
        one.tell(10.0, "dark.out")
        one.tell(20.0, "dark.on")
        one.tell(200.0, "2.full")
        one.tell(200.0 + 440.0 + 25.0 + s, "3.full")
    before, after = (Run(one.conduct.state(), 3000.0, KNOWN) for one in (on_time, late))
    found = compare(before, after)
    assert kinds(found) == ["hands"]
    assert found.share == pytest.approx(log(487.5 / 457.5), abs=1e-6)
    assert found.ranked[0].difference.backing is Backing.MEASURED


def test_temperature_as_read_by_hand() -> None:
    """One read at 20.0, one at 20.5 C from the pour to the drain: half a degree at 0.097."""
    told = []
    for shown_c in (20.4, 20.9):  # the instrument shows 0.4 too much
        one = desk(planned(), retired=tuple(Pause))
        one.tell(10.0, "dark.out")
        one.tell(20.0, "dark.on")
        one.tell(200.0, "2.full")
        one.do(200.5, c.Reading(shown_c))
        told.append(Run(one.conduct.state()._replace(shifts={}), 3000.0, KNOWN))
    found = compare(*told)
    assert shares(found)["course"] == pytest.approx(0.0485, abs=0.0005)


def test_a_thermometer_that_a_later_check_corrects() -> None:
    """0.4 C was allowed for and 0.9 is true: the bath was 0.5 C colder, 0.0485 of time less."""
    found = compare(run(planned()), run(planned(), KNOWN._replace(checked_high_c=0.9)))
    assert shares(found) == {"thermometer": pytest.approx(-0.0485)}
    assert "missing_check_same" not in missing(found, first=True)


def test_a_thermometer_that_was_never_checked_is_named_and_widens_the_sum() -> None:
    """Half a degree either way, 0.0485, beside the noise; of the same instrument in both nothing is added."""
    other = planned()._replace(thermometer="red one")
    found = compare(run(planned()), run(other, KNOWN._replace(checked_high_c=None)))
    assert "missing_check" in missing(found, first=False)
    assert "missing_check" not in missing(found, first=True)
    assert listed(found)["thermometer"].remark.code == "runs.compared.thermometer_unknown"  # type: ignore[attr-defined]
    noise = NOISE * sqrt(2.0)
    unread = 2 * 0.0485**2  # neither run was read
    assert found.spread == pytest.approx(sqrt(noise**2 + unread + 0.0485**2))
    same = compare(run(planned()), run(planned(), KNOWN._replace(checked_high_c=None)))
    assert "missing_check_same" in missing(same, first=False)
    assert same.spread == pytest.approx(sqrt(noise**2 + unread))


def in_vessel(kind: VesselKind, time_s: float = 440.0) -> Script:
    vessel = Vessel(name=kind.value, kind=kind, places=(("any", 6),), min_ml=300.0, max_ml=1000.0)
    return planned(time_s)._replace(vessel=vessel.name, vessel_kind=kind.value)


def test_rotation_against_intervals_is_the_declared_cut() -> None:
    """At equal time the drum does as much as 1 / 0.85 of the time at intervals, because it is cut by 15 %."""
    found = compare(run(in_vessel(VesselKind.HANGERS)), run(in_vessel(VesselKind.DRUM)))
    assert shares(found)["agitation"] == pytest.approx(log(1 / 0.85))
    assert found.ranked[0].difference.spread == pytest.approx(0.05 / 0.85)
    assert found.ranked[0].difference.backing is Backing.GUIDE
    assert "vessel" in listed(found)
    still = compare(run(planned()), run(planned(), KNOWN._replace(way=Way.STAND)))
    assert not still.direct


def test_water_before_the_developer() -> None:
    """Five minutes undo the cut by the common rule; two minutes are told, and no figure is made of them."""

    def soaked(seconds: float) -> Script:
        baths = (Bath(BathKind.PRESOAK, time_s=seconds), *BATHS[1:])
        return script_of(Process(name="drum", developer="Brackwater", baths=baths), drum(), 440.0)

    dry = script_of(Process(name="drum", developer="Brackwater", baths=BATHS[1:]), drum(), 440.0)
    long = compare(run(dry), run(soaked(300.0)))
    assert shares(long)["presoak"] == pytest.approx(log(0.85))
    short = compare(run(dry), run(soaked(120.0)))
    assert "presoak" not in shares(short)
    assert listed(short)["presoak"].other.params["time_s"] == pytest.approx(120.0)  # type: ignore[attr-defined]


def test_less_agent_by_the_declared_guide() -> None:
    """62.5 ml to a unit against a reference of 100: ln 2.6 / 1.6 against ln 2, the guide of corrections 3.3."""
    area = sum(sheet.area_cm2 for sheet in SHEETS) / 516.128
    full = planned()._replace(concentrate_ml=100.0 * area, agent_ratio=1.0)
    short = planned()._replace(concentrate_ml=62.5 * area, agent_ratio=0.625)
    found = compare(run(full), run(short))
    # Mean of 1 / (1 + 0.1 x) up to x units a litre is ln(1 + 0.1 x) / (0.1 x): x = 10 gives ln 2, x = 16 ln(2.6) / 1.6.
    assert shares(found) == {"agent": pytest.approx(log((log(2.6) / 1.6) / log(2.0)), abs=1e-4)}
    assert found.worth is not None
    assert found.worth.density < 0
    more = compare(run(full), run(full._replace(volume_ml=600.0, concentrate_ml=200.0 * area, agent_ratio=2.0)))
    assert more.share == 0.0
    assert more.ranked[0].difference.remark.code == "runs.compared.enough"  # type: ignore[union-attr]
    unknown = compare(run(full), run(short._replace(agent_ratio=None)))
    assert listed(unknown)["agent"].remark.code == "runs.compared.no_reference"  # type: ignore[attr-defined]


def test_used_developer_counts_by_its_makers_factor() -> None:
    """The third turn, +20 % of time by its rule, against the first: it acts as if the time were 1 / 1.2."""
    fresh, third = (KNOWN._replace(way=Way.REUSED, reuse_factor=factor) for factor in (1.0, 1.2))
    found = compare(run(planned(), fresh), run(planned(), third))
    assert shares(found) == {"reuse": pytest.approx(-log(1.2))}
    unknown = compare(run(planned(), fresh), run(planned(), fresh._replace(reuse_factor=None)))
    assert "reuse" in listed(unknown)


def test_another_developer_has_times_of_its_own() -> None:
    """Times are not held against each other: each run against what its own sheets want, 5 % over and 5 % under."""
    other = planned(600.0)._replace(developer="Marrow", dilution="1+9")
    found = compare(
        run(planned(440.0), KNOWN._replace(own_time_s=440.0 / 1.05)),
        run(other, KNOWN._replace(own_time_s=600.0 / 0.95)),
    )
    assert not found.direct
    assert shares(found) == {"against-own": pytest.approx(log(0.95 / 1.05))}
    assert "developer" in listed(found)
    nobody = compare(run(planned()), run(other))
    assert listed(nobody)["against-own"].remark.code == "runs.compared.own_unknown"  # type: ignore[attr-defined]


def test_what_cannot_be_put_in_figures_is_listed_after() -> None:
    """Version, box of film, vessel, where the thermometer was, what went wrong: no share, in a fixed order."""
    other = desk(planned(), retired=tuple(Pause))
    other.tell(10.0, "dark.out")
    other.tell(20.0, "dark.on")
    other.tell(200.0, "2.full")
    other.do(300.0, c.Reading(20.4, Where.JACKET))
    other.do(310.0, c.Incidence(Incident.LIGHT))
    first = desk(planned(), retired=tuple(Pause))
    first.tell(10.0, "dark.out")
    first.tell(20.0, "dark.on")
    first.tell(200.0, "2.full")
    first.do(300.0, c.Reading(20.4))
    states = [one.conduct.state() for one in (first, other)]
    found = compare(
        Run(states[0], 3000.0, KNOWN), Run(states[1], 3000.0, KNOWN._replace(process_version=2, lots=("B 7",)))
    )
    assert [one.kind for one in found.listed] == ["version", "lot", "where", "incident"]
    assert all(one.share is None and one.backing is Backing.NONE for one in found.listed)
    assert missing(found, first=False) == {"missing_reading", "missing_acts"}


def test_what_went_wrong_is_compared_by_the_sheets_it_was_seen_on() -> None:
    """The same scratch on other sheets is a difference; a sheet lost in the baths has had its developer."""
    first, second, third = (sheet.id for sheet in SHEETS[:3])
    runs = []
    for scratched, lost in ((first, None), (second, third)):
        one = desk(planned(), retired=tuple(Pause))
        for act, seconds in (("dark.out", 10.0), ("dark.on", 20.0), ("2.full", 200.0)):
            one.tell(seconds, act)
        one.do(310.0, c.Incidence(Incident.SCRATCHED, sheets=(scratched,)))
        if lost is not None:
            one.do(320.0, c.Lose(lost))
        runs.append(Run(one.conduct.state(), 3000.0, KNOWN))
    found = compare(*runs)
    (row,) = (one for one in found.listed if one.kind == "incident")
    assert row.one.params == {"incidents": (("scratched", (first,)),)}
    assert row.other.params == {"incidents": (("lost", (third,)), ("scratched", (second,)))}
    assert _value(row.other) == f"lost ({third}) and scratched ({second})"
    assert "agent" not in {one.difference.kind for one in found.ranked}


def test_a_run_from_three_words_lacks_much_and_says_so() -> None:
    """No vessel, volume, process, box, coefficient or check: each is named, none is taken as equal."""
    found = compare(run(quick(450.0), Known()), run(quick(450.0), Known()))
    wanted = {
        "missing_check_same", "missing_reading", "missing_coefficient", "missing_vessel", "missing_volume",
        "missing_process", "missing_lot",
    }  # fmt: skip
    assert missing(found, first=True) == missing(found, first=False) == wanted


def test_sheets_with_times_of_their_own_are_told_by_their_mean() -> None:
    """A tray with 6:00 and 8:00 against a drum with 7:20: the geometric mean, and said."""
    tray = Vessel(name="tray", kind=VesselKind.TRAY, places=(("any", 8),), min_ml=1000.0, max_ml=1500.0)
    process = Process(name="tray", developer="Brackwater", baths=BATHS)
    own = script_of(
        process, tray, 480.0, SHEETS[:2], own_times=[SheetTime("1 left", 360.0), SheetTime("2 left", 480.0)]
    )
    parts = parts_of(done(own), 6000.0)
    assert parts is not None
    assert parts.own
    assert parts.time_s == pytest.approx(sqrt(360.0 * 480.0))
    found = compare(run(planned()), run(own))
    time = next(row.difference for row in found.ranked if row.difference.kind == "time")
    assert time.remark is not None
    assert time.remark.code == "runs.compared.own_times"


def test_what_was_measured_stands_beside_what_is_explained() -> None:
    """Read 0.10 apart, 0.062 explained: 0.038 are left."""
    found = compare(
        run(planned(440.0), KNOWN._replace(measured_range=1.00)),
        run(planned(484.0), KNOWN._replace(measured_range=1.10)),
    )
    assert found.measured == pytest.approx(0.10)
    assert found.left == pytest.approx(0.10 - 1.05 * 0.65 * log(501.5 / 457.5))


def test_a_run_that_was_never_opened_is_refused() -> None:
    """It has nothing to be compared with."""
    with pytest.raises(RefusedError) as refused:
        compare(run(planned()), Run(State(), 0.0))
    assert refused.value.code == "runs.compared.not_opened"


SIMULATED = {
    "time": (planned(440.0), planned(520.0), {}),
    "temperature": (planned(), planned()._replace(temp_c=21.0), {}),
    "course": (planned(), planned(), {"sink": Sink(jacket_off_c=-2.5), "person": STEADY._replace(reads=True)}),
    "hands": (planned(), planned(), {"person": STEADY._replace(delay_s=40.0)}),
    "clock": (planned(360.0, ClockRule.POUR_TO_DRAINED), planned(360.0, ClockRule.FULL_TO_DRAIN), {}),
    "agitation": (in_vessel(VesselKind.HANGERS), in_vessel(VesselKind.DRUM), {}),
}


@pytest.mark.parametrize("kind", SIMULATED)
def test_one_known_difference_of_two_simulated_runs_ranks_first(kind: str) -> None:
    """Whatever was made to differ stands at the head of the list."""
    before, after, more = SIMULATED[kind]
    reads = STEADY._replace(reads=True) if kind == "course" else STEADY
    found = compare(run(before, person=reads), run(after, **more))
    leading = next(one for one in kinds(found) if one != "moved")
    assert leading == kind
