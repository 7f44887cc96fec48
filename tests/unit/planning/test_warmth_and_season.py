"""Cold drums, cold and warm baths: what the plan makes of them in figures, and that each remark arrives."""

from __future__ import annotations

import datetime as dt
import math

import pytest

from wetside.adapters.chemistry_data import load_materials, material_word
from wetside.adapters.evening_file import evening_of_text
from wetside.adapters.plain_document import plain_value
from wetside.adapters.ways_data import load_temperature_ranges
from wetside.cards.plan_card import plan_card
from wetside.cards.run_sheet import run_sheet_of_load
from wetside.cards.text import card_lines
from wetside.errors import ConflictError
from wetside.planning.documents.words import Material
from wetside.planning.evening_plan import plan_evening
from wetside.planning.season import NORMAL_C
from wetside.planning.warmth import FURTHEST_POUR_C
from wetside.services.library import load_library

FILE = """
format = 1
date = 2026-01-17
size = "4x5in"
ROOM
thermometer = { name = "rod", reads_high = "0.4 C" JACKET }
developers = [{ name = "Brackwater" MORE, pairs = [
  { cold = "11 C", cold_time = "20:00", warm = "30 C", warm_time = "4:22", own = true, source = "two tests" }] }]
films = [{ name = "Tolland 100", times = [
  { developer = "Brackwater", dilution = "1+1", time = "10:00", temp = "20 C", agitation = "rotary", own = true }] }]
processes = [{ name = "house", developer = "Brackwater", dilution = "1+1", temp = "TEMP", baths = [PRESOAK
  { does = "develop" }, { does = "fix", time = "5:00" } ] }]
vessels = [{ name = "drum", kind = "KIND", places = 6, min = "300 ml", max = "1 l" VESSEL }]
sheets = [{ label = "a" }]
"""
PLAIN = {"ROOM": "", "JACKET": "", "MORE": "", "TEMP": "20 C", "PRESOAK": "", "VESSEL": "", "KIND": "drum"}
DRUM = ', mass = "300 g", material = "polypropylene"'


def evening(**other):
    """The file with some of its parts otherwise."""
    text = FILE
    for mark, said in (PLAIN | other).items():
        text = text.replace(mark, said)
    return evening_of_text(text)


@pytest.fixture(scope="module")
def planned():
    library = load_library()
    return lambda **other: plan_evening(evening(**other), library, today=dt.date(2026, 1, 17), tool="test", inputs={})


def codes(plan):
    return [note.code for note in (*plan.notes, *(note for load in plan.loads for note in load.notes))]


def test_a_cold_drum_asks_for_a_warmer_pour(planned):
    """300 g of polypropylene at 15 C against 300 ml at 20 C: a mean by heat, and the same lever the other way."""
    plan = planned(ROOM='room = "15 C"', VESSEL=DRUM)
    warmth = plan.loads[0].warmth
    liquid, vessel = 300 * 0.998207 * 4.1841, 300 * 1.68
    assert warmth.vessel_c == 15.0
    assert warmth.stands_c == pytest.approx((20 * liquid + 15 * vessel) / (liquid + vessel), abs=1e-6)
    assert warmth.pour_c == pytest.approx(20 + 5 * vessel / liquid, abs=1e-6)
    per_c = math.log(1200 / 262) / 19
    assert warmth.time_percent == pytest.approx(100 * (math.exp(per_c * (warmth.stands_c - 20)) - 1), abs=0.05)
    assert -0.2 < warmth.density < -0.03
    said = next(note for note in plan.loads[0].notes if note.code == "planning.warmth_effect")
    assert said.params["shown_c"] == pytest.approx(warmth.pour_c + 0.4)


def test_a_presoak_warms_the_drum_first(planned):
    """After a pre-soak at 20 C the drum is nearly there, and nothing needs to be said."""
    plan = planned(ROOM='room = "15 C"', VESSEL=DRUM, PRESOAK='{ does = "presoak", time = "5:00" }, ')
    cold = planned(ROOM='room = "15 C"', VESSEL=DRUM).loads[0].warmth
    warmth = plan.loads[0].warmth
    assert warmth.vessel_c == pytest.approx(cold.stands_c)
    assert abs(20.0 - warmth.stands_c) < abs(20.0 - cold.stands_c) / 3
    assert ("planning.warmth_effect" in codes(plan)) == (abs(20.0 - warmth.stands_c) >= 0.3)


def test_too_far_off_to_pour_says_so(planned):
    """A heavy steel drum from a frosty shed cannot be made up for by pouring."""
    plan = planned(ROOM='room = "3 C"', VESSEL=', mass = "1.2 kg", material = "stainless steel"')
    load = plan.loads[0]
    ratio = 1200 * 0.49 / (300 * 0.998207 * 4.1841)
    assert 17 * ratio > FURTHEST_POUR_C
    assert load.warmth.pour_c is None
    assert any(code.endswith("_far") for code in codes(plan))


@pytest.mark.parametrize("other", [{}, {"VESSEL": DRUM}, {"ROOM": 'room = "15 C"'}])
def test_without_mass_and_room_nothing_is_said(planned, other):
    """The plain evening does not grow by a line."""
    plan, plain = planned(**other), planned()
    assert plan.loads[0].warmth is None
    assert card_lines(plan_card(plan), width=100) == card_lines(plan_card(plain), width=100)


def test_a_warm_drum_says_nothing(planned):
    """A drum at the bath's temperature is told in the document only."""
    plan = planned(ROOM='room = "20 C"', VESSEL=DRUM)
    assert plan.loads[0].warmth.stands_c == pytest.approx(20.0)
    assert not any(code.startswith("planning.warmth") for code in codes(plan))


def test_mass_without_material_is_refused():
    """Neither counts without the other."""
    with pytest.raises(ConflictError) as caught:
        evening(VESSEL=', mass = "300 g"')
    assert caught.value.code == "files.vessel.warmth"
    assert "mass" in caught.value.place.field


def test_every_material_has_a_heat():
    """The words of the file are those of the table of specific heats."""
    assert {str(one) for one in Material} == {material_word(name) for name in load_materials()}


COLD = {"planning.season_below"}
WARM = {f"development.warm.{name}" for name in ("sulfate", "harden", "wet_time", "no_colder_wash")}


@pytest.mark.parametrize(
    ("temp", "wanted"),
    [
        ("12 C", COLD | {"development.cold.hydroquinone"}),
        ("16 C", COLD),
        ("20 C", set()),
        ("24 C", set()),
        ("26 C", WARM | {"planning.season_above", "planning.season_care"}),
        ("30 C", WARM | {"planning.season_above"}),
    ],
)
@pytest.mark.parametrize("by_jacket", [False, True])
def test_each_season_says_its_remarks(planned, temp, wanted, by_jacket):
    """In winter and summer the remarks stand in document, plan and run sheet alike; from 19.5 to 24.4 C in none."""
    shown = f"{float(temp[:2]) + 0.4:g} C"
    plan = planned(JACKET=f', jacket_reads = "{shown}"') if by_jacket else planned(TEMP=temp)
    assert plan.loads[0].temp_c == pytest.approx(float(temp[:2]))
    seasonal = {
        note.code
        for note in plan.loads[0].notes
        if note.code.startswith(("planning.season", "development.warm", "development.cold"))
    }
    assert seasonal == wanted
    document = str(plain_value(plan))
    page = " ".join(" ".join(card_lines(plan_card(plan), width=100)).split())
    sheet = " ".join(text for _, text in run_sheet_of_load(plan, plan.loads[0]).feet)
    for code in wanted:
        assert code in document
    for said in {
        "planning.season_below": "possibly incomplete",
        "development.warm.harden": "touch no emulsion",
    }.items():
        assert (said[1] in page) == (said[1] in sheet) == (said[0] in wanted)
    assert ("planning.season_ways" in codes(plan)) == (by_jacket and temp != "20 C")


def test_the_rules_of_thumb_stand_beside_each_other(planned):
    """From 20 to 16 C: ten percent a degree makes 40 %, compounded 46.4 %, the chart about 47 %."""
    plan = planned(JACKET=', jacket_reads = "16.4 C"')
    ways = next(note for note in plan.notes if note.code == "planning.season_ways").params
    assert ways["degrees_c"] == pytest.approx(4.0)
    assert ways["low_percent"] == pytest.approx(40.0, abs=0.1)
    assert 46.4 <= ways["high_percent"] < 48.5


def test_a_tray_has_a_narrower_range(planned):
    """One maker names 20 C within a degree for trays, and no other range minds 22 C."""
    told = [note for note in planned(TEMP="22 C", KIND="tray").loads[0].notes if "season" in note.code]
    assert [(note.code, note.params["high_c"]) for note in told] == [("planning.season_above", 21.0)]


def test_hydroquinone_is_not_converted_into_the_cold(planned):
    """Under 15 C the developer becomes another one: refused where it is known to hold hydroquinone."""
    plan = planned(JACKET=', jacket_reads = "14.4 C"', MORE=", hydroquinone = true")
    assert [one.code for one in plan.unplanned] == ["development.cold.character"]
    assert planned(JACKET=', jacket_reads = "14.4 C"').loads
    free = planned(JACKET=', jacket_reads = "12.4 C"', MORE=", hydroquinone = false")
    assert "development.cold.hydroquinone" not in codes(free)


def test_twenty_degrees_is_inside_every_range():
    """The planner reads no range at 20 C; this holds only while all of them include it."""
    assert all(one.low_c <= NORMAL_C + 1e-9 <= one.high_c + 2e-9 for one in load_temperature_ranges())
