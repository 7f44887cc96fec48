"""Plan an evening from its file, or from a handful of answers."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside import __version__
from wetside.adapters.clock import today
from wetside.adapters.evening_file import read_evening
from wetside.adapters.evening_writer import plain_values
from wetside.errors import InputError, RefusedError
from wetside.planning.documents.evening import EVENING_FORMAT, Evening, Film, FilmTime, Process, Sheet, Vessel
from wetside.planning.documents.words import VesselKind
from wetside.planning.evening_plan import plan_evening
from wetside.planning.resolved import AGITATION_OF_VESSEL
from wetside.services.library import load_library
from wetside.services.options import typed
from wetside.units import parse_duration_span_s, parse_number, parse_size, parse_temp_c, parse_volume_ml
from wetside.values.sheet_size import SheetSize

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.planning.documents.plan import Plan

TOOL = f"wetside {__version__}"

MOST_SHEETS = 100_000
"""More than any darkroom holds; a slip of the finger ends here. [sheets]"""


class PlainAnswers(NamedTuple):
    """Answers of the plain evening, as they were typed; None where nothing was said."""

    film: str | None = None
    ei: str | None = None
    developer: str | None = None
    dilution: str | None = None
    time: str | None = None
    temp: str | None = None
    number: str | None = None
    size: str | None = None
    vessel: str | None = None


def plan_file(path: Path, rows: Path | None = None) -> Plan:
    """Read an evening file and plan it.

    Raises
    ------
    ManyErrors, WetsideError
        With file, line and field of everything that must be put right.
    """
    return _plan(read_evening(path), rows)


def plan_answers(answers: PlainAnswers, rows: Path | None = None) -> Plan:
    """Plan the plain evening from a handful of answers.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    plan = _plan(evening_of_answers(answers), rows)
    if not plan.loads:
        # All sheets are alike, so what keeps one of them from a time is said once.
        reason = plan.unplanned[0]
        code = "services.which_index" if reason.code == "planning.which_index" else reason.code
        raise RefusedError(code, **reason.params)
    return plan


def _plan(evening: Evening, rows: Path | None) -> Plan:
    return plan_evening(evening, load_library(rows), today=today(), tool=TOOL, inputs=plain_values(evening))


def evening_of_answers(answers: PlainAnswers) -> Evening:
    """Evening of a plain set of answers: one film, one developer, one vessel."""
    from wetside.chemistry import parse_dilution
    from wetside.chemistry.dilution import require_name_only

    film_name = _wanted(answers.film, "--film")
    developer = _wanted(answers.developer, "--developer")
    typed("--developer", require_name_only, developer)
    dilution = typed("--dilution", parse_dilution, answers.dilution or "stock")
    count = typed("--count", _whole, _wanted(answers.number, "--count"))
    digits = len(str(count))  # so that the order of the labels is that of the numbers
    vessel = vessel_of_text(answers.vessel) if answers.vessel else None
    size = SheetSize(*typed("--size", parse_size, answers.size)) if answers.size else None
    temp_c = typed("--temp", parse_temp_c, answers.temp) if answers.temp else 20.0
    times: tuple[FilmTime, ...] = ()
    if answers.time:
        span = typed("--time", parse_duration_span_s, answers.time)
        agitation = AGITATION_OF_VESSEL[vessel.kind if vessel else VesselKind.DRUM]
        times = (FilmTime(developer=developer, span_s=span, dilution=dilution, temp_c=temp_c, agitation=agitation),)
    ei = typed("--ei", parse_number, answers.ei) if answers.ei else None
    return Evening(
        format=EVENING_FORMAT,
        name="evening",
        size=size,
        films=(Film(name=film_name, ei=ei, published=film_name, times=times),),
        processes=(
            Process(name=f"{developer} {dilution.text}", developer=developer, dilution=dilution, temp_c=temp_c),
        ),
        vessels=(vessel,) if vessel else (),
        sheets=tuple(Sheet(film=film_name, label=f"{number:0{digits}d}") for number in range(1, count + 1)),
    )


def _wanted(value: str | None, option: str) -> str:
    if not value or not value.strip():
        raise InputError("services.option_missing", option=option)
    return value.strip()


def _whole(text: str) -> int:
    text = text.strip()
    if not (text.isascii() and text.isdecimal() and len(text) < 10 and 1 <= int(text) <= MOST_SHEETS):
        raise InputError("services.not_a_count", value=text, most=MOST_SHEETS)
    return int(text)


def vessel_of_text(text: str) -> Vessel:
    """Vessel of ``--vessel``: kind, places and limits, such as ``drum:6,300-1000ml``.

    Raises
    ------
    InputError
        If the text has another form, naming the part.
    """
    kind_text, colon, rest = text.partition(":")
    places_text, comma, limits = rest.partition(",")
    low_text, dash, high_text = limits.partition("-")
    if not (colon and comma and dash):
        raise InputError("services.vessel_form", value=text)
    kind = kind_text.strip().casefold()
    if kind not in {word.value for word in VesselKind}:
        raise InputError("services.vessel_kind", value=kind_text, kinds=[word.value for word in VesselKind])
    unit = high_text.strip().lstrip("0123456789., ")
    high_ml = typed("--vessel", parse_volume_ml, high_text)
    low = low_text.strip()
    low_ml = typed("--vessel", parse_volume_ml, low if not low[-1:].isdigit() else f"{low} {unit}")
    if low_ml > high_ml:
        raise InputError("services.vessel_limits", low_ml=low_ml, high_ml=high_ml)
    return Vessel(
        name=kind,
        kind=VesselKind(kind),
        places=(("any", typed("--vessel", _whole, places_text)),),
        min_ml=low_ml,
        max_ml=high_ml,
    )
