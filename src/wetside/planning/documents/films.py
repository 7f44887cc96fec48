"""The evening file's types for what is known of films and developers."""

from __future__ import annotations

from wetside.development.inspection import Safelight
from wetside.development.ways import Way
from wetside.planning.documents.keys import kept_table, key
from wetside.planning.documents.words import Channel, FixClass
from wetside.values.conditions import Agitation, ClockRule, StopKind
from wetside.values.dilution import Dilution  # noqa: TC001


@kept_table
class Reciprocity:
    """How a film loses speed in long exposures: a power, or a table of factors."""

    power: float | None = key(
        "power",
        "number",
        "Exponent p: corrected time is metered time to the power p, both in seconds.",
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


@kept_table
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
    way: Way = key(
        "way",
        "choice",
        "Way of developing that the time belongs to.",
        default=Way.ONE_BATH,
        choices=Way,
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


@kept_table
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
    way: Way = key(
        "way",
        "choice",
        "Way of developing that the test belongs to.",
        default=Way.ONE_BATH,
        choices=Way,
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


@kept_table
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
    safelight: Safelight = key(
        "safelight",
        "choice",
        "Light that open film stands, after a test of your own.",
        default=Safelight.NONE,
        choices=Safelight,
    )
    light_tested_s: float | None = key(
        "light_tested",
        "duration",
        "Longest safelight that left no fog in that test.",
        default=None,
        low=1.0,
        high=7200.0,
        example="4 min",
    )
    fixing: FixClass = key(
        "fixing",
        "choice",
        "Whether it fixes like an ordinary or a tabular film.",
        default=FixClass.ORDINARY,
        choices=FixClass,
    )
    times: tuple[FilmTime, ...] = key("times", "tables", "Known developing times.", default=(), table="FilmTime")
    tests: tuple[FilmTest, ...] = key("tests", "tables", "Own tests.", default=(), table="FilmTest")


@kept_table
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


@kept_table
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
    replenisher_ml_per_cm2: float | None = key(
        "replenisher",
        "agent_per_area",
        "Replenisher to an area of film, where the developer is replenished.",
        default=None,
        example="26 ml per unit",
    )
    hydroquinone: bool | None = key(
        "hydroquinone",
        "flag",
        "Whether it holds hydroquinone: then no time is converted to under 15 C; leave it out where you do not know.",
        default=None,
        example="true",
    )
    stains: bool = key(
        "stains",
        "flag",
        "Its image is stained: only readings in a light that the printing sees can plan it.",
        default=False,
        example="true",
    )
