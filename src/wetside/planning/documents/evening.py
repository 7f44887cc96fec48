"""The evening file's types: what a photographer writes down before the lights go out.

Attributes are in house units and carry them in their names; the keys of the file are plain words, because there each
value carries its own unit (``time = "7:30"``, ``max = "1000 ml"``).
"""

# ruff: noqa: RUF009 (a key is declared by a call; the default it makes is immutable)

from __future__ import annotations

import datetime as dt  # noqa: TC003 (the reader resolves the annotations)
from dataclasses import dataclass

from wetside.planning.documents.keys import key
from wetside.planning.documents.words import (
    AfterUse,
    BathKind,
    Channel,
    Importance,
    Mishap,
    Printing,
    VesselKind,
)
from wetside.values.conditions import Agitation, ClockRule, StopKind
from wetside.values.dilution import Dilution  # noqa: TC001
from wetside.values.sheet_size import SheetSize  # noqa: TC001

EVENING_FORMAT = 1


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Reciprocity:
    """How a film loses speed in long exposures: a power, or a table of factors."""

    power: float | None = key(
        "power",
        "number",
        "Exponent p of corrected = metered ** p, in seconds.",
        default=None,
        low=1.0,
        high=2.5,
        example="1.29",
    )
    threshold_s: float = key(
        "threshold",
        "duration",
        "Metered times up to this need no correction.",
        default=1.0,
        low=0.001,
        high=1000.0,
        example="1 s",
    )
    points: tuple[tuple[float, float], ...] = key(
        "table",
        "reciprocity_points",
        "Pairs of metered time and factor.",
        default=(),
        example='[["1 s", 1.5], ["10 s", 6]]',
    )
    published: str | None = key(
        "published", "text", "Film whose published figures are used.", default=None, example="Tolland 100"
    )
    source: str | None = key(
        "source", "text", "Where the figures come from.", default=None, example="maker's sheet, May 2026"
    )


@dataclass(frozen=True, slots=True)
class FilmTime:
    """A developing time from a box, a sheet or one's own practice, with its conditions."""

    developer: str = key("developer", "name", "Developer that the time belongs to.", example="Brackwater")
    span_s: tuple[float, float] = key(
        "time", "duration_span", 'The time, or a span such as "7:00-8:00".', low=1.0, high=14400.0, example="7:30"
    )
    dilution: Dilution | None = key(
        "dilution", "dilution", "Dilution that the time belongs to; any if absent.", default=None, example="1+24"
    )
    temp_c: float = key(
        "temp", "temperature", "Temperature that the time belongs to.", default=20.0, low=5.0, high=45.0, example="20 C"
    )
    agitation: Agitation = key(
        "agitation", "choice", "How the liquid moved.", default=Agitation.ROTARY, choices=Agitation
    )
    presoak: bool | None = key("presoak", "flag", "Whether a pre-soak came before.", default=None)
    clock: ClockRule | None = key(
        "clock", "choice", "Which moments the time lies between.", default=None, choices=ClockRule
    )
    stop: StopKind | None = key("stop", "choice", "What ended development.", default=None, choices=StopKind)
    agent_ml_per_cm2: float | None = key(
        "agent",
        "agent_per_area",
        "Stock or concentrate to an area of film under which the time was found.",
        default=None,
        example="62.5 ml per 516 cm2",
    )
    gradient: float | None = key(
        "gradient", "number", "Average gradient that the time aims at.", default=None, low=0.1, high=3.0, example="0.62"
    )
    own: bool = key("own", "flag", "True if you have proved the time yourself.", default=False)
    source: str | None = key("source", "text", "Where the time comes from.", default=None, example="box, 2026")


@dataclass(frozen=True, slots=True)
class FilmTest:
    """One's own readings of a step tablet, developed for several times under stated conditions."""

    developer: str = key("developer", "name", "Developer of the test.", example="Brackwater")
    dilution: Dilution | None = key("dilution", "dilution", "Dilution of the test.", default=None, example="1+24")
    readings: str | None = key(
        "readings",
        "text",
        "CSV file beside this one, with columns dev_min, log_h, density.",
        default=None,
        example="tolland-readings.csv",
    )
    rows: tuple[tuple[float, float, float], ...] = key(
        "rows", "curve_rows", "The same readings written here: [minutes, log H, density].", default=()
    )
    temp_c: float = key(
        "temp", "temperature", "Temperature of the test.", default=20.0, low=5.0, high=45.0, example="20 C"
    )
    agitation: Agitation = key(
        "agitation", "choice", "How the liquid moved.", default=Agitation.ROTARY, choices=Agitation
    )
    presoak: bool | None = key("presoak", "flag", "Whether a pre-soak came before.", default=None)
    clock: ClockRule | None = key(
        "clock", "choice", "Which moments the times lie between.", default=None, choices=ClockRule
    )
    stop: StopKind | None = key("stop", "choice", "What ended development.", default=None, choices=StopKind)
    agent_ml_per_cm2: float | None = key(
        "agent",
        "agent_per_area",
        "Stock or concentrate to an area of film.",
        default=None,
        example="62.5 ml per 516 cm2",
    )
    base_fog: float | None = key(
        "base_fog",
        "number",
        "Density of unexposed film through the same bath; else the lowest reading.",
        default=None,
        low=0.0,
        high=2.0,
        example="0.12",
    )
    channel: Channel = key("channel", "choice", "Light of the densitometer.", default=Channel.VISUAL, choices=Channel)
    source: str | None = key(
        "source",
        "text",
        "Date and instrument of the test.",
        default=None,
        example="test of 2026-10-03, borrowed densitometer",
    )


@dataclass(frozen=True, slots=True)
class Film:
    """An emulsion as sold, and all that is known of it."""

    name: str = key("name", "name", "Name of the film.")
    ei: float | None = key(
        "ei", "number", "Exposure index that you rate it at.", default=None, low=0.1, high=100000.0, example="80"
    )
    published: str | None = key(
        "published",
        "text",
        "Name under which shipped starting points are looked up.",
        default=None,
        example="Tolland 100",
    )
    reciprocity: Reciprocity | None = key("reciprocity", "table", "Long exposures.", default=None, table="Reciprocity")
    times: tuple[FilmTime, ...] = key("times", "tables", "Known developing times.", default=(), table="FilmTime")
    tests: tuple[FilmTest, ...] = key("tests", "tables", "Own tests.", default=(), table="FilmTest")


@dataclass(frozen=True, slots=True)
class TimePair:
    """Two times that give the same contrast at two temperatures."""

    cold_c: float = key("cold", "temperature", "Lower temperature.", low=5.0, high=45.0, example="20 C")
    cold_s: float = key(
        "cold_time", "duration", "Time at the lower temperature.", low=1.0, high=14400.0, example="10:00"
    )
    warm_c: float = key("warm", "temperature", "Higher temperature.", low=5.0, high=45.0, example="24 C")
    warm_s: float = key(
        "warm_time", "duration", "Time at the higher temperature.", low=1.0, high=14400.0, example="7:30"
    )
    own: bool = key("own", "flag", "True if you have tested the pair yourself.", default=False)
    source: str | None = key("source", "text", "Where the pair comes from.", default=None, example="own test, 2026")


@dataclass(frozen=True, slots=True)
class Developer:
    """A developer and how its times move with temperature."""

    name: str = key("name", "name", "Name of the developer.", example="Brackwater")
    published: str | None = key(
        "published", "text", "Name under which shipped time pairs are looked up.", default=None, example="Brackwater"
    )
    coefficient_per_c: float | None = key(
        "coefficient",
        "number",
        "Your own choice of the share by which times fall per degree C (logarithmic); always marked assumed.",
        default=None,
        low=0.0,
        high=0.3,
        example="0.075",
    )
    pairs: tuple[TimePair, ...] = key("pairs", "tables", "Times at two temperatures.", default=(), table="TimePair")
    reuse_ml_per_unit: float | None = key(
        "reuse_limit",
        "volume",
        "Maker's reuse limit: stock to 516 cm2 of film. Only ever a warning.",
        default=None,
        low=0.1,
        high=10000.0,
        example="100 ml",
    )


@dataclass(frozen=True, slots=True)
class Bath:
    """One step of a process."""

    does: BathKind = key("does", "choice", "What the bath does.", choices=BathKind)
    name: str | None = key("name", "text", "What it is called on the run sheet.", default=None, example="acid stop")
    bottle: str | None = key("bottle", "name", "Mark of the bottle that it comes from.", default=None, example="S")
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


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Bottle:
    """What stands on the shelf."""

    mark: str = key("mark", "name", "Letter or short mark on the bottle.", example="D")
    holds: str = key("holds", "text", "What is in it.", example="Brackwater concentrate")
    volume_ml: float | None = key(
        "volume", "volume", "How much is left.", default=None, low=0.0, high=1_000_000.0, example="400 ml"
    )
    mixed: dt.date | None = key("mixed", "date", "Date of mixing or opening.", default=None)
    keeps_until: dt.date | None = key("keeps_until", "date", "Last good day.", default=None)


ANY_SIZE = "any"
"""Stands for the size where a vessel takes the same number of sheets of every size."""


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
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


@dataclass(frozen=True, slots=True)
class Placed:
    """A meter reading and the zone it is put on or wanted on."""

    ev: float = key("ev", "number", "Reading, as EV at the film's index.", low=-20.0, high=30.0, example="9")
    zone: float = key("zone", "number", "Zone.", low=0.0, high=12.0, example="3")


@dataclass(frozen=True, slots=True)
class Exposure:
    """Aperture, time and what lies in the way of the light."""

    aperture_n: float | None = key("aperture", "aperture", "f-number as engraved.", default=None, example="f/22")
    time_s: float | None = key(
        "time",
        "duration",
        "Shutter time as engraved, or in seconds.",
        default=None,
        low=1e-5,
        high=864000.0,
        example="1/15 s",
    )
    ei: float | None = key(
        "ei", "number", "Exposure index that the meter was set to.", default=None, low=0.1, high=100000.0, example="80"
    )
    filter_factor: float | None = key(
        "filter", "number", "Filter factor.", default=None, low=1.0, high=100000.0, example="2"
    )
    extension_mm: float | None = key(
        "extension",
        "length",
        "Bellows extension, rear nodal point to film.",
        default=None,
        low=1.0,
        high=10000.0,
        example="210 mm",
    )
    focal_mm: float | None = key(
        "focal", "length", "Focal length.", default=None, low=1.0, high=10000.0, example="150 mm"
    )


@dataclass(frozen=True, slots=True)
class Sheet:
    """One piece of film and its story; a label or a holder side, and a film, are enough.

    The reader fills in ``film`` where the evening has only one, and leaves it empty nowhere.
    """

    film: str = key(
        "film",
        "name",
        "Film on the sheet; may be left out where the evening has one film only.",
        default="",
        example="Tolland 100",
    )
    label: str | None = key("label", "text", "What you call it.", default=None, example="larch by the weir")
    holder: str | None = key(
        "holder", "text", "Holder and side, which serve as label too.", default=None, example="7 left"
    )
    size: SheetSize | None = key("size", "size", "Format; else the evening's.", default=None, example="9x12cm")
    process: str | None = key("process", "name", "Process; else the evening's.", default=None, example="drum, one shot")
    aim: str | None = key("aim", "name", "Aim; else the evening's.", default=None, example="grade 2")
    n: float | None = key(
        "n",
        "zones",
        'Wanted development in zones: 0 or "N" normal, -1 or "N-1" contracted, 1 or "N+1" expanded.',
        default=None,
        low=-4.0,
        high=4.0,
        example="N-1",
    )
    scene_stops: float | None = key(
        "scene",
        "number",
        "Range of the scene in stops, in place of n or readings.",
        default=None,
        low=1.5,
        high=15.0,
        example="7",
    )
    shadow: Placed | None = key(
        "shadow", "table", "Shadow reading and the zone it was placed on.", default=None, table="Placed"
    )
    highlight: Placed | None = key(
        "highlight", "table", "Highlight reading and the zone it shall print on.", default=None, table="Placed"
    )
    meant: Exposure | None = key("meant", "table", "What the metering asked for.", default=None, table="Exposure")
    was_set: Exposure | None = key("set", "table", "What was set on the camera.", default=None, table="Exposure")
    mishaps: tuple[Mishap, ...] = key("mishaps", "choices", "What went wrong.", default=(), choices=Mishap)
    in_holder: str | None = key(
        "in_holder", "name", "Film that was really in the holder.", default=None, example="Morvane 320"
    )
    second: Exposure | None = key(
        "second", "table", "The second of two exposures on the same sheet.", default=None, table="Exposure"
    )
    twin: str | None = key(
        "twin", "text", "Label of the sheet exposed alike, to be developed apart.", default=None, example="7 right"
    )
    importance: Importance = key(
        "importance", "choice", "How much would be lost.", default=Importance.ORDINARY, choices=Importance
    )
    suspect: bool = key("suspect", "flag", "True if its film or state is not known for certain.", default=False)
    exposed: dt.date | None = key("exposed", "date", "Day of exposure.", default=None)

    @property
    def id(self) -> str:
        """Label, or the holder side where there is no label."""
        return self.label or self.holder or ""


@dataclass(frozen=True, slots=True)
class Evening:
    """The loads of one sitting in the darkroom, before they are planned."""

    format: int = key("format", "whole", "Format of this file.", low=1, high=EVENING_FORMAT)
    name: str = key("name", "text", "Name of the evening.", default="evening", example="first frost")
    date: dt.date | None = key("date", "date", "Day of the evening; today if absent.", default=None)
    process: str | None = key(
        "process", "name", "Process of sheets that name none.", default=None, example="drum, one shot"
    )
    aim: str | None = key("aim", "name", "Aim of sheets that name none.", default=None, example="grade 2")
    size: SheetSize | None = key("size", "size", "Format of sheets that name none.", default=None, example="9x12cm")
    flare_log: float = key(
        "flare",
        "number",
        "Log range lost to flare between scene and film, subtracted once.",
        default=0.40,
        low=0.0,
        high=1.2,
        example="0.40",
    )
    floor_s: float = key(
        "floor",
        "duration",
        "Shortest developing time that you trust to be even.",
        default=300.0,
        low=30.0,
        high=3600.0,
        example="5:00",
    )
    smallest_ml: float = key(
        "smallest_measure",
        "volume",
        "Smallest amount that your measure can read.",
        default=10.0,
        low=0.05,
        high=1000.0,
        example="10 ml",
    )
    suspects_alone: bool = key("suspects_alone", "flag", "Give every suspect a load of its own.", default=True)
    twins_apart: bool = key("twins_apart", "flag", "Keep twins in different loads.", default=True)
    sheet_list: str | None = key(
        "sheet_list", "text", "CSV or XLSX file beside this one with more sheets.", default=None, example="sheets.csv"
    )
    thermometer: Thermometer = key(
        "thermometer", "table", "Instrument of the evening.", default_factory=Thermometer, table="Thermometer"
    )
    films: tuple[Film, ...] = key("films", "tables", "Films.", default=(), table="Film")
    developers: tuple[Developer, ...] = key("developers", "tables", "Developers.", default=(), table="Developer")
    processes: tuple[Process, ...] = key("processes", "tables", "Processes.", default=(), table="Process")
    bottles: tuple[Bottle, ...] = key("bottles", "tables", "Bottles.", default=(), table="Bottle")
    vessels: tuple[Vessel, ...] = key("vessels", "tables", "Vessels.", default=(), table="Vessel")
    aims: tuple[Aim, ...] = key("aims", "tables", "Aims.", default=(), table="Aim")
    sheets: tuple[Sheet, ...] = key("sheets", "tables", "Sheets.", default=(), table="Sheet")
