"""No key of the evening file is accepted and then ignored."""

from __future__ import annotations

import dataclasses
import datetime as dt

import pytest

from wetside.development import Safelight, Way
from wetside.planning.documents import evening as types
from wetside.planning.documents.evening import (
    Aim,
    Bath,
    Developer,
    Exposure,
    Film,
    FilmTest,
    FilmTime,
    Look,
    Placed,
    Process,
    Reciprocity,
    Sheet,
    Vessel,
)
from wetside.planning.documents.words import (
    AfterUse,
    BathKind,
    Channel,
    FixClass,
    Importance,
    Material,
    Printing,
    VesselKind,
)
from wetside.values.conditions import Agitation, ClockRule, StopKind
from wetside.values.dilution import Dilution, dilution_of_parts
from wetside.values.sheet_size import SheetSize

FOUR_FIVE = SheetSize("4x5in", 101.6, 127.0)
THIN = Dilution((1.0,), 20.0)
REST_OF_BATHS = "processes[0].baths[{}]"

# Key of a type, then one or more changes of the full evening: each must change the plan.
CHANGES: dict[str, list[tuple[str, object]]] = {
    "Evening.name": [("name", "another")],
    "Evening.date": [("date", dt.date(2026, 12, 24))],
    "Evening.process": [("process", "other")],
    "Evening.aim": [("aim", "blue")],
    "Evening.size": [("size", SheetSize("13x18cm", 130.0, 180.0))],
    "Evening.flare_log": [("flare_log", 0.3)],
    "Evening.floor_s": [("floor_s", 900.0)],
    "Evening.smallest_ml": [("smallest_ml", 100.0)],
    "Evening.marks_ml": [("marks_ml", 70.0)],
    "Evening.suspects_alone": [("suspects_alone", False)],
    "Evening.twins_apart": [("twins_apart", False)],
    "Evening.thermometer": [("thermometer", types.Thermometer("rod"))],
    "Evening.films": [("films", (Film("Tolland 100"), Film("Morvane 320")))],
    "Evening.developers": [("developers", (Developer("Brackwater", coefficient_per_c=0.05),))],
    "Evening.processes": [("processes", (Process("usual", "Brackwater", Dilution((1.0,), 14.0)),))],
    "Evening.bottles": [("bottles", ())],
    "Evening.vessels": [("vessels", ())],
    "Evening.aims": [("aims", (Aim("middle", Printing.GRADED, 1.20),))],
    "Evening.sheets": [("sheets", (Sheet(film="Morvane 320", label="only"),))],
    "Evening.starts_s": [("starts_s", 70200.0)],
    "Evening.room_c": [("room_c", 10.0)],
    "Evening.setting_up_s": [("setting_up_s", 600.0)],
    "Evening.loading_s": [("loading_s", 60.0)],
    "Evening.hang_places": [("hang_places", 1)],
    "Evening.film_dries_s": [("film_dries_s", 60.0)],
    "Evening.looks": [("looks", (Look("one", measured_range=0.9),))],
    "Look.sheet": [("looks[0].sheet", "three")],
    "Look.measured_range": [("looks[0].measured_range", 1.2)],
    "Look.change_percent": [("looks[0]", Look("one", change_percent=12.0))],
    "Thermometer.name": [("thermometer.name", "dial")],
    "Thermometer.reads_high_c": [("thermometer.reads_high_c", 0.0)],
    "Thermometer.jacket_reading_c": [("thermometer.jacket_reading_c", 19.0)],
    "Reciprocity.power": [("films[0].reciprocity.power", 1.5)],
    "Reciprocity.threshold_s": [("films[0].reciprocity.threshold_s", 30.0)],
    "Reciprocity.points": [("films[0].reciprocity", Reciprocity(points=((1.0, 2.0), (10.0, 8.0), (100.0, 16.0))))],
    "Reciprocity.published": [("films[0].reciprocity", Reciprocity(published="FOMAPAN 100"))],
    "Reciprocity.source": [("films[0].reciprocity.source", "leaflet")],
    "FilmTime.developer": [("films[1].times[0].developer", "Saltmere")],
    "FilmTime.span_s": [("films[1].times[0].span_s", (420.0, 480.0))],
    "FilmTime.dilution": [("films[1].times[0].dilution", THIN)],
    "FilmTime.temp_c": [("films[1].times[0].temp_c", 22.0)],
    "FilmTime.agitation": [("films[1].times[0].agitation", Agitation.TRAY)],
    "FilmTime.presoak": [("films[1].times[0].presoak", False)],
    "FilmTime.clock": [("films[1].times[0].clock", ClockRule.POUR_TO_DRAIN)],
    "FilmTime.stop": [("films[1].times[0].stop", StopKind.WATER)],
    "FilmTime.agent_ml_per_cm2": [("films[1].times[0].agent_ml_per_cm2", 0.06)],
    "FilmTime.gradient": [("films[1].times[0].gradient", 0.5)],
    "FilmTime.own": [("films[1].times[0].own", True)],
    "FilmTime.source": [("films[1].times[0].source", None), ("films[1].times[0].source", "another leaflet")],
    "FilmTest.developer": [("films[0].tests[0].developer", "Saltmere")],
    "FilmTest.dilution": [("films[0].tests[0].dilution", THIN)],
    "FilmTest.rows": [("films[0].tests[0].rows", ())],
    "FilmTest.temp_c": [("films[0].tests[0].temp_c", 22.0)],
    "FilmTest.agitation": [("films[0].tests[0].agitation", Agitation.INTERMITTENT)],
    "FilmTest.presoak": [("films[0].tests[0].presoak", False)],
    "FilmTest.clock": [("films[0].tests[0].clock", ClockRule.POUR_TO_DRAIN)],
    "FilmTest.stop": [("films[0].tests[0].stop", StopKind.WATER)],
    "FilmTest.agent_ml_per_cm2": [("films[0].tests[0].agent_ml_per_cm2", 0.08)],
    "FilmTest.base_fog": [("films[0].tests[0].base_fog", 0.11)],
    "FilmTest.channel": [("films[0].tests[0].channel", Channel.BLUE)],
    "FilmTest.source": [("films[0].tests[0].source", "another tablet")],
    "Film.name": [("films[1].name", "Morvane 100")],
    "Film.ei": [("films[0].ei", 160.0)],
    "Film.published": [("films[1]", Film("Morvane 320", published="FOMAPAN 100"))],
    "Film.reciprocity": [("films[0].reciprocity", None)],
    "Film.fixing": [("films[0].fixing", FixClass.TABULAR)],
    "Film.times": [("films[1].times", ())],
    "Film.tests": [("films[0].tests", ())],
    "TimePair.cold_c": [("developers[0].pairs[0].cold_c", 16.0)],
    "TimePair.cold_s": [("developers[0].pairs[0].cold_s", 700.0)],
    "TimePair.warm_c": [("developers[0].pairs[0].warm_c", 25.0)],
    "TimePair.warm_s": [("developers[0].pairs[0].warm_s", 300.0)],
    "TimePair.own": [("developers[0].pairs[0].own", False)],
    "TimePair.source": [("developers[0].pairs[0].source", "friend")],
    "Developer.name": [("developers[0].name", "Saltmere")],
    "Developer.published": [("developers[0]", Developer("Brackwater", published="ID-11"))],
    "Developer.coefficient_per_c": [("developers[0].coefficient_per_c", 0.05)],
    "Developer.pairs": [("developers[0].pairs", ())],
    "Developer.stains": [("developers[0].stains", True)],
    "Developer.hydroquinone": [("developers[0].hydroquinone", True)],
    "Developer.replenisher_ml_per_cm2": [("developers[0].replenisher_ml_per_cm2", 0.05)],
    "Developer.reuse_ml_per_unit": [("developers[0].reuse_ml_per_unit", 1000.0)],
    "Bath.does": [("processes[0].baths[3].does", BathKind.OTHER)],
    "Bath.name": [("processes[0].baths[3].name", "First fixer")],
    "Bath.bottle": [("processes[0].baths[1].bottle", "B")],
    "Bath.second": [("processes[0].baths[1].second", "F")],
    "Bath.third": [("processes[0].baths[1].third", "F")],
    "Bath.time_s": [("processes[0].baths[3].time_s", 400.0)],
    "Bath.share": [
        ("processes[0].baths", (Bath(BathKind.DEVELOP, share=0.4), Bath(BathKind.DEVELOP, share=0.6))),
    ],
    "Bath.temp_c": [("processes[0].baths[3].temp_c", 18.0)],
    "Bath.volume_ml": [("processes[0].baths[3].volume_ml", 900.0)],
    "Bath.changes": [("processes[0].baths[4].changes", 4)],
    "Bath.after": [("processes[0].baths[3].after", AfterUse.WASTE)],
    "Bath.out_of_vessel": [("processes[0].baths[4].out_of_vessel", True)],
    "Process.name": [("processes[0].name", "unusual")],
    "Process.developer": [("processes[0].developer", "Saltmere")],
    "Process.dilution": [("processes[0].dilution", THIN)],
    "Process.temp_c": [("processes[0].temp_c", 21.0)],
    "Process.clock": [("processes[0].clock", ClockRule.POUR_TO_DRAINED)],
    "Process.version": [("processes[0].version", 2)],
    "Process.baths": [("processes[0].baths", ())],
    "Process.way": [("processes[0].way", Way.REPLENISHED)],
    "Process.moments": [("processes[0].moments", 2)],
    "Process.lamp_mm": [("processes[0].lamp_mm", 500.0)],
    "FilmTime.way": [("films[1].times[0].way", Way.STAND)],
    "FilmTest.way": [("films[0].tests[0].way", Way.STAND)],
    "Film.safelight": [("films[0].safelight", Safelight.NONE)],
    "Film.light_tested_s": [("films[0].light_tested_s", 5.0)],
    "Bottle.mark": [("bottles[0].mark", "X")],
    "Bottle.holds": [("bottles[0].holds", "Something")],
    "Bottle.volume_ml": [("bottles[0].volume_ml", 1000.0)],
    "Bottle.mixed": [("bottles[0].mixed", dt.date(2026, 11, 10))],
    "Bottle.keeps_until": [("bottles[1].keeps_until", dt.date(2027, 1, 1))],
    "Bottle.replenished_ml": [("bottles[0].replenished_ml", 5.0)],
    "Bottle.seen_units": [("bottles[1].seen_units", 3.0)],
    "Bottle.capacity_per_l": [("bottles[1].capacity_per_l", 24.0)],
    "Bottle.clearing_s": [("bottles[1].clearing_s", 200.0)],
    "Bottle.fresh_clearing_s": [("bottles[1].fresh_clearing_s", 50.0)],
    "Bottle.price_per_l": [("bottles[0].price_per_l", 18.0)],
    "Vessel.dries_s": [("vessels[0].dries_s", 3600.0)],
    "Vessel.mass_g": [("vessels[0].mass_g", 900.0)],
    "Vessel.material": [("vessels[0].material", Material.STAINLESS_STEEL)],
    "Vessel.name": [("vessels[0].name", "other drum")],
    "Vessel.kind": [("vessels[0].kind", VesselKind.TRAY)],
    "Vessel.places": [("vessels[0].places", (("9x12cm", 1),))],
    "Vessel.min_ml": [("vessels[0].min_ml", 400.0)],
    "Vessel.max_ml": [("vessels[0].max_ml", 900.0)],
    "Vessel.pour_s": [("vessels[0].pour_s", 40.0)],
    "Vessel.drain_s": [("vessels[0].drain_s", 60.0)],
    "Vessel.spacing_s": [("vessels[0]", Vessel("t", VesselKind.TRAY, (("9x12cm", 6),), 300.0, 800.0, spacing_s=30.0))],
    "Aim.name": [("aims[0].name", "mid")],
    "Aim.printing": [("aims[0].printing", Printing.VARIABLE)],
    "Aim.density_range": [("aims[0].density_range", 1.1)],
    "Aim.tolerance": [("aims[0].tolerance", 0.2)],
    "Aim.channel": [("aims[0].channel", Channel.BLUE)],
    "Placed.ev": [("sheets[0].shadow.ev", 8.5), ("sheets[0].highlight.ev", 13.5)],
    "Placed.zone": [("sheets[0].shadow.zone", 3.5), ("sheets[0].highlight.zone", 8.5)],
    "Exposure.aperture_n": [("sheets[1].was_set.aperture_n", 11.0), ("sheets[1].meant.aperture_n", 32.0)],
    "Exposure.time_s": [("sheets[1].was_set.time_s", 8.0), ("sheets[1].meant.time_s", 4.0)],
    "Exposure.ei": [("sheets[1].was_set", Exposure(ei=320.0))],
    "Exposure.filter_factor": [("sheets[1].meant.filter_factor", 8.0)],
    "Exposure.extension_mm": [("sheets[1].meant.extension_mm", 360.0)],
    "Exposure.focal_mm": [("sheets[1].meant.focal_mm", 150.0)],
    "Sheet.film": [("sheets[0].film", "Morvane 320")],
    "Sheet.label": [("sheets[2].label", "drei")],
    "Sheet.holder": [("sheets[1].holder", "zwei")],
    "Sheet.size": [("sheets[0].size", FOUR_FIVE)],
    "Sheet.process": [("sheets[0].process", "missing")],
    "Sheet.aim": [("sheets[0].aim", "blue")],
    "Sheet.n": [("sheets[1].n", -0.5)],
    "Sheet.scene_stops": [("sheets[2].scene_stops", 8.0)],
    "Sheet.shadow": [("sheets[0].shadow", Placed(8.0, 3.0))],
    "Sheet.highlight": [("sheets[0].highlight", Placed(13.0, 8.0))],
    "Sheet.meant": [("sheets[2].meant", Exposure(time_s=2.0, extension_mm=300.0, focal_mm=180.0))],
    "Sheet.was_set": [("sheets[1].was_set", None)],
    "Sheet.mishaps": [("sheets[2].mishaps", ())],
    "Sheet.in_holder": [("sheets[0].in_holder", "Morvane 320")],
    "Sheet.second": [("sheets[1].second", Exposure(22.0, 2.0))],
    "Sheet.twin": [("sheets[0].twin", None)],
    "Sheet.importance": [("sheets[3].importance", Importance.IRREPLACEABLE)],
    "Sheet.suspect": [("sheets[3].suspect", False)],
    "Sheet.done": [("sheets[0].done", True)],
    "Sheet.exposed": [("sheets[0].exposed", dt.date(2026, 6, 1))],
}

RED_LIGHT: list[tuple[str, object]] = [
    ("processes[0].way", Way.INSPECTION),
    ("films[0].safelight", Safelight.DEEP_RED),
    ("films[0].light_tested_s", 240.0),
]

COLD_DRUM: list[tuple[str, object]] = [
    ("vessels[0].mass_g", 300.0),
    ("vessels[0].material", Material.POLYPROPYLENE),
    ("room_c", 15.0),
]

REPLENISHED: list[tuple[str, object]] = [
    ("processes[0].way", Way.REPLENISHED),
    ("films[0].tests[0].way", Way.REPLENISHED),
    ("films[1].times[0].way", Way.REPLENISHED),
]

TWO_PARTS: list[tuple[str, object]] = [
    (path, dilution_of_parts((1.0, 1.0), 28.0))
    for path in ("processes[0].dilution", "films[0].tests[0].dilution", "films[1].times[0].dilution")
]

THREE_PARTS: list[tuple[str, object]] = [(path, dilution_of_parts((1.0, 1.0, 1.0), 27.0)) for path, _ in TWO_PARTS]

FIRST: dict[str, list[tuple[str, object]]] = {
    "Developer.reuse_ml_per_unit": [
        ("films[0].tests[0].agent_ml_per_cm2", None),
        ("films[1].times[0].agent_ml_per_cm2", None),
    ],
    "Developer.hydroquinone": [("thermometer.jacket_reading_c", 13.0), ("developers[0].pairs[0].cold_c", 12.0)],
    "Developer.replenisher_ml_per_cm2": REPLENISHED,
    "Bath.second": TWO_PARTS,
    "Bath.third": THREE_PARTS,
    "Evening.room_c": COLD_DRUM,
    "Vessel.mass_g": COLD_DRUM,
    "Vessel.material": COLD_DRUM,
    "Bottle.replenished_ml": [*REPLENISHED, ("developers[0].replenisher_ml_per_cm2", 0.005)],
    "Bottle.fresh_clearing_s": [("bottles[1].clearing_s", 200.0)],
    "Evening.film_dries_s": [("hang_places", 2)],
    "Process.moments": RED_LIGHT,
    "Process.lamp_mm": RED_LIGHT,
    "Film.safelight": RED_LIGHT,
    "Film.light_tested_s": RED_LIGHT,
    "Look.sheet": [("looks", (Look("one", measured_range=0.9),))],
    "Look.measured_range": [("looks", (Look("one", measured_range=0.9),))],
    "Look.change_percent": [("looks", (Look("one", change_percent=20.0),))],
    "Vessel.max_ml": [("films[1].times[0].agent_ml_per_cm2", 0.6)],
}
"""What the evening must be like for a key to matter at all."""

NO_CHOICE = {
    "Evening.format": "there is one format so far",
    "Evening.sheet_list": "names a file; the reader adds its sheets (tests/unit/adapters)",
    "FilmTest.readings": "names a file; the service fills in its rows (tests/cli)",
}

TYPES = (
    types.Evening,
    types.Thermometer,
    Reciprocity,
    FilmTime,
    FilmTest,
    Film,
    types.TimePair,
    Developer,
    Bath,
    Process,
    types.Bottle,
    Vessel,
    Aim,
    Placed,
    Exposure,
    Look,
    Sheet,
)


def test_the_table_names_every_key():
    """A new key of the file cannot be forgotten here."""
    declared = {f"{kind.__name__}.{field.name}" for kind in TYPES for field in dataclasses.fields(kind)}
    assert declared == CHANGES.keys() | NO_CHOICE.keys()


@pytest.mark.parametrize("key", CHANGES)
def test_a_key_changes_the_plan(key, evening, plain_plan_of, changed):
    """Changing the value of any key changes something that the plan says."""
    for path, new in FIRST.get(key, ()):
        evening = changed(evening, path, new)
    before = plain_plan_of(evening)
    for path, new in CHANGES[key]:
        assert plain_plan_of(changed(evening, path, new)) != before, (path, new)
