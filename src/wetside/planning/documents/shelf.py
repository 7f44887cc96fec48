"""The evening file's types for what stands in the darkroom: instrument, baths, bottles, vessels, and aims."""

from __future__ import annotations

import datetime as dt  # noqa: TC003 (the reader resolves the annotations)

from wetside.development.ways import Way
from wetside.planning.documents.keys import kept_table, key
from wetside.planning.documents.words import AfterUse, BathKind, Channel, Material, Printing, VesselKind
from wetside.values.conditions import ClockRule
from wetside.values.dilution import Dilution  # noqa: TC001

ANY_SIZE = "any"
"""Stands for the size where a vessel takes the same number of sheets of every size."""


@kept_table
class Thermometer:
    """The instrument of the evening and what it shows."""

    name: str = key("name", "text", "What you call it.", default="thermometer", example="long glass one")
    reads_high_c: float = key(
        "reads_high",
        "temperature_step",
        "How much it reads too high; negative if too low.",
        default=0.0,
        low=-15.0,
        high=15.0,
        example="0.4 C",
    )
    jacket_reading_c: float | None = key(
        "jacket_reads",
        "temperature",
        "What it shows in the water jacket tonight, if that cannot be brought to the process's temperature.",
        default=None,
        low=5.0,
        high=45.0,
        example="21.3 C",
    )


@kept_table
class Bath:
    """One step of a process."""

    does: BathKind = key("does", "choice", "What the bath does.", choices=BathKind)
    name: str | None = key("name", "text", "What it is called on the run sheet.", default=None, example="acid stop")
    bottle: str | None = key("bottle", "name", "Mark of the bottle that it comes from.", default=None, example="S")
    second: str | None = key(
        "second",
        "name",
        "Mark of the bottle with the second part, where the developer is mixed from two or three.",
        default=None,
        example="B",
    )
    third: str | None = key(
        "third",
        "name",
        "Mark of the bottle with the third part, where the developer is mixed from three.",
        default=None,
        example="C",
    )
    time_s: float | None = key(
        "time",
        "duration",
        "How long; a developing bath without a time takes the planned one.",
        default=None,
        low=1.0,
        high=86400.0,
        example="0:30",
    )
    share: float | None = key(
        "share",
        "number",
        "Part of the planned time that a developing bath takes, where there are several.",
        default=None,
        low=0.01,
        high=1.0,
        example="0.5",
    )
    temp_c: float | None = key(
        "temp",
        "temperature",
        "Temperature, where it differs from the process's.",
        default=None,
        low=2.0,
        high=45.0,
        example="18 C",
    )
    volume_ml: float | None = key(
        "volume",
        "volume",
        "Liquid to pour; else as much as the developer.",
        default=None,
        low=1.0,
        high=1_000_000.0,
        example="500 ml",
    )
    changes: int = key(
        "changes", "whole", "How many fills of the same kind follow each other.", default=1, low=1, high=50, example="3"
    )
    after: AfterUse = key(
        "after", "choice", "Whether it goes back to its bottle or to waste.", default=AfterUse.WASTE, choices=AfterUse
    )
    out_of_vessel: bool = key(
        "out_of_vessel", "flag", "True if the sheets leave the vessel for this bath.", default=False
    )


@kept_table
class Process:
    """A versioned, ordered list of baths."""

    name: str = key("name", "name", "Name of the process.", example="drum, one shot")
    developer: str = key("developer", "name", "Developer.", example="Brackwater")
    dilution: Dilution | None = key(
        "dilution", "dilution", "Dilution of the developer; stock if absent.", default=None, example="1+24"
    )
    temp_c: float = key(
        "temp", "temperature", "True temperature of the developer.", default=20.0, low=5.0, high=45.0, example="20 C"
    )
    clock: ClockRule = key(
        "clock",
        "choice",
        "Which moments the developing time lies between.",
        default=ClockRule.FULL_TO_DRAIN,
        choices=ClockRule,
    )
    version: int = key(
        "version",
        "whole",
        "Goes up with every change of baths, pre-soak, clock, agitation or dilution.",
        default=1,
        low=1,
        high=100000,
    )
    baths: tuple[Bath, ...] = key(
        "baths", "tables", "The baths in order; a plain set if absent.", default=(), table="Bath"
    )
    way: Way = key(
        "way",
        "choice",
        "How the developing baths follow each other; another way is another process, with times of its own.",
        default=Way.ONE_BATH,
        choices=Way,
    )
    moments: int = key(
        "moments",
        "whole",
        "Later agitations of a semi-stand development, or looks of one by inspection.",
        default=0,
        low=0,
        high=50,
        example="2",
    )
    lamp_mm: float = key(
        "lamp",
        "length",
        "From safelight to film, for development by inspection.",
        default=1200.0,
        low=100.0,
        high=10000.0,
        example="1500 mm",
    )


@kept_table
class Bottle:
    """What stands on the shelf."""

    mark: str = key("mark", "name", "Letter or short mark on the bottle.", example="D")
    holds: str = key("holds", "text", "What is in it.", example="Brackwater concentrate")
    volume_ml: float | None = key(
        "volume", "volume", "How much is left.", default=None, low=0.0, high=1_000_000.0, example="400 ml"
    )
    mixed: dt.date | None = key("mixed", "date", "Date of mixing or opening.", default=None)
    keeps_until: dt.date | None = key("keeps_until", "date", "Last good day.", default=None)
    replenished_ml: float | None = key(
        "replenished",
        "volume",
        "Replenisher that has gone into it since it was mixed; 0 ml for a bath mixed today.",
        default=None,
        low=0.0,
        high=1_000_000.0,
        example="350 ml",
    )
    seen_units: float = key(
        "seen",
        "number",
        "Film that has gone through it, in units of 516 cm2 (80 square inches, four sheets of 4x5 in).",
        default=0.0,
        low=0.0,
        high=100_000.0,
        example="7.5",
    )
    capacity_per_l: float | None = key(
        "capacity",
        "number",
        "Units of film that a litre serves, by its maker; for a fixer 20 if absent.",
        default=None,
        low=0.1,
        high=10_000.0,
        example="24",
    )
    clearing_s: float | None = key(
        "clearing",
        "duration",
        "How long a scrap of tonight's film took to clear in it.",
        default=None,
        low=1.0,
        high=3600.0,
        example="0:50",
    )
    fresh_clearing_s: float | None = key(
        "fresh_clearing",
        "duration",
        "The same when it was fresh.",
        default=None,
        low=1.0,
        high=3600.0,
        example="0:35",
    )
    price_per_l: float | None = key(
        "price",
        "number",
        "What a litre costs, in your money.",
        default=None,
        low=0.0,
        high=1_000_000.0,
        example="18.50",
    )


@kept_table
class Vessel:
    """A drum, a set of tubes, a tray or hangers in a tank."""

    name: str = key("name", "name", "Name of the vessel.", example="short drum")
    kind: VesselKind = key("kind", "choice", "What it is.", choices=VesselKind)
    places: tuple[tuple[str, int], ...] = key(
        "places",
        "places",
        "Sheets that it takes: one number for every size, or a number a size.",
        example='{ "9x12cm" = 6, "13x18cm" = 4 }',
    )
    min_ml: float = key(
        "min", "volume", "Least liquid that wets every sheet.", low=1.0, high=1_000_000.0, example="300 ml"
    )
    max_ml: float = key(
        "max", "volume", "Most that it holds, or that the motor turns.", low=1.0, high=1_000_000.0, example="1000 ml"
    )
    pour_s: float = key(
        "pour", "duration", "How long filling takes.", default=10.0, low=0.0, high=300.0, example="10 s"
    )
    drain_s: float = key(
        "drain", "duration", "How long draining takes.", default=15.0, low=0.0, high=300.0, example="15 s"
    )
    spacing_s: float = key(
        "spacing",
        "duration",
        "Where each sheet has its own time: seconds between two sheets for a pair of hands.",
        default=20.0,
        low=1.0,
        high=600.0,
        example="20 s",
    )
    dries_s: float = key(
        "dries",
        "duration",
        "How long it takes to be rinsed and dry again.",
        default=900.0,
        low=0.0,
        high=86_400.0,
        example="15 min",
    )
    mass_g: float | None = key(
        "mass",
        "mass",
        "Mass of the part that the liquid touches; with its material and the evening's room it tells at what to pour.",
        default=None,
        low=1.0,
        high=100_000.0,
        example="300 g",
    )
    material: Material | None = key(
        "material", "choice", "What that part is made of.", default=None, choices=Material, example="polypropylene"
    )


@kept_table
class Aim:
    """The density range that a printing asks for."""

    name: str = key("name", "name", "Name of the aim.", example="grade 2")
    printing: Printing = key("for", "choice", "What the negative is for.", choices=Printing)
    density_range: float = key(
        "range", "number", "Density range, highlight less shadow.", low=0.2, high=3.5, example="1.05"
    )
    tolerance: float | None = key(
        "tolerance",
        "number",
        "How far the range may be off; else 0.08 on graded paper, 0.15 "
        "on variable contrast or for a scan, 0.10 for an alternative process.",
        default=None,
        low=0.01,
        high=1.0,
        example="0.08",
    )
    channel: Channel = key(
        "channel", "choice", "Light that the range is meant in.", default=Channel.VISUAL, choices=Channel
    )
