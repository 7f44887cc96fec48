"""The evening file's types: what a photographer writes down before the lights go out.

Attributes are in house units and carry them in their names; the keys of the file are plain words, because there each
value carries its own unit (``time = "7:30"``, ``max = "1000 ml"``). The types of the tables inside are declared in
``films`` and ``shelf``.
"""

from __future__ import annotations

import datetime as dt  # noqa: TC003 (the reader resolves the annotations)

from wetside.planning.documents.films import Developer, Film, FilmTest, FilmTime, Reciprocity, TimePair
from wetside.planning.documents.keys import kept_table, key
from wetside.planning.documents.shelf import ANY_SIZE, Aim, Bath, Bottle, Process, Thermometer, Vessel
from wetside.planning.documents.words import Importance, Mishap
from wetside.values.sheet_size import SheetSize  # noqa: TC001

__all__ = [
    "ANY_SIZE",
    "EVENING_FORMAT",
    "Aim",
    "Bath",
    "Bottle",
    "Developer",
    "Evening",
    "Exposure",
    "Film",
    "FilmTest",
    "FilmTime",
    "Look",
    "Placed",
    "Process",
    "Reciprocity",
    "Sheet",
    "Thermometer",
    "TimePair",
    "Vessel",
]

EVENING_FORMAT = 1


@kept_table
class Placed:
    """A meter reading and the zone it is put on or wanted on."""

    ev: float = key("ev", "number", "Reading, as EV at the film's index.", low=-20.0, high=30.0, example="9")
    zone: float = key("zone", "number", "Zone.", low=0.0, high=12.0, example="3")


@kept_table
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


@kept_table
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
    done: bool = key(
        "done", "flag", "True if it is developed already and only its twin or its look still counts.", default=False
    )

    @property
    def id(self) -> str:
        """Label, or the holder side where there is no label."""
        return self.label or self.holder or ""


@kept_table
class Look:
    """What a developed sheet showed; the sheets that are not done yet are planned anew by it."""

    sheet: str = key("sheet", "text", "Sheet that was looked at; it is done.", example="7 left")
    measured_range: float | None = key(
        "range", "number", "Density range that it came to.", default=None, low=0.1, high=4.0, example="0.96"
    )
    change_percent: float | None = key(
        "change",
        "number",
        "By how much the time of the others shall change, in percent.",
        default=None,
        low=-60.0,
        high=150.0,
        example="10",
    )


@kept_table
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
    marks_ml: float = key(
        "measure_marks",
        "volume",
        "Marks of the measure that you fill from: what is poured is rounded up to one.",
        default=10.0,
        low=1.0,
        high=100.0,
        example="25 ml",
    )
    suspects_alone: bool = key("suspects_alone", "flag", "Give every suspect a load of its own.", default=True)
    twins_apart: bool = key("twins_apart", "flag", "Keep twins in different loads.", default=True)
    starts_s: float | None = key(
        "starts", "clock_time", "Time of day at which you begin.", default=None, example="19:30"
    )
    room_c: float | None = key(
        "room",
        "temperature",
        "Temperature of the room where dry vessels stand.",
        default=None,
        low=2.0,
        high=45.0,
        example="17 C",
    )
    setting_up_s: float = key(
        "setting_up",
        "duration",
        "From the first step to lights out: jacket, bottles, checks.",
        default=2400.0,
        low=0.0,
        high=86_400.0,
        example="40 min",
    )
    loading_s: float = key(
        "loading",
        "duration",
        "For each sheet that is loaded in the dark.",
        default=30.0,
        low=0.0,
        high=3600.0,
        example="30 s",
    )
    hang_places: int | None = key(
        "hang_places", "whole", "Clips or lines to dry on.", default=None, low=1, high=10_000, example="12"
    )
    film_dries_s: float = key(
        "film_dries",
        "duration",
        "How long a sheet hangs until its place is free again.",
        default=7200.0,
        low=0.0,
        high=864_000.0,
        example="2 h",
    )
    looks: tuple[Look, ...] = key("looks", "tables", "What developed sheets showed.", default=(), table="Look")
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
