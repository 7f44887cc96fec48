"""Plan an evening that came as a document, not as a file: the same core, and no file is looked for."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.adapters.binder import Binder
from wetside.adapters.clock import today
from wetside.adapters.evening_writer import plain_values
from wetside.adapters.findings import EnoughError, Findings, field_text
from wetside.adapters.name_checks import check_names
from wetside.adapters.plain_document import plain_value
from wetside.adapters.sense_checks import check_sense
from wetside.errors import InputError, OutOfRangeError, Place, RefusedError
from wetside.planning.documents.evening import EVENING_FORMAT, Evening
from wetside.planning.evening_plan import plan_evening
from wetside.services.library import load_library
from wetside.services.plan_evening import TOOL

if TYPE_CHECKING:
    from collections.abc import Mapping

MOST_SHEETS = 300
"""Sheets of one posted evening; our choice: more than a darkroom develops in a month, and planned in seconds."""


def plan_of_document(raw: Mapping[str, Any]) -> dict[str, Any]:
    """Plan of an evening, as ``wetside plan --json`` prints it.

    Parameters
    ----------
    raw : mapping
        The keys of an evening file as plain values; dates as text.

    Raises
    ------
    WetsideError
        With the field of everything that must be put right; if it names a file, or has more sheets than a call takes.
    """
    evening = evening_of_document(raw)
    plan = plan_evening(evening, load_library(None), today=today(), tool=TOOL, inputs=plain_values(evening))
    found: dict[str, Any] = plain_value(plan)
    return found


def evening_of_document(raw: Mapping[str, Any]) -> Evening:
    """Evening of plain values, checked as a file's reader does; errors as :func:`plan_of_document`."""
    number = raw.get("format")
    if isinstance(number, int) and not isinstance(number, bool) and EVENING_FORMAT < number < 1_000_000:
        error = RefusedError("files.format.newer", value=number, known=EVENING_FORMAT)
        raise error.at(Place(field="format"))
    findings = Findings()
    evening: Evening | None = None
    try:
        evening = Binder(findings).table(Evening, raw, ())
        _own_rules(evening, findings)
        evening = check_names(evening, findings)
        check_sense(evening, findings)
    except EnoughError:
        evening = None
    if findings or evening is None:
        findings.refuse(lambda path: Place(field=field_text(path)))
    return evening


def _own_rules(evening: Evening, findings: Findings) -> None:
    """What a document may not ask for that a file may: other files, and more sheets than one call plans."""
    if evening.sheet_list is not None:
        findings.add(("sheet_list",), InputError("services.posted.names_file", value=evening.sheet_list))
    for rank, film in enumerate(evening.films or ()):
        for place, test in enumerate(getattr(film, "tests", None) or ()):
            if getattr(test, "readings", None) is not None:
                path = ("films", rank, "tests", place, "readings")
                findings.add(path, InputError("services.posted.names_file", value=test.readings))
    count = len(evening.sheets or ())
    if count > MOST_SHEETS:
        findings.add(("sheets",), OutOfRangeError("services.posted.most_sheets", count=count, most=MOST_SHEETS))
    elif not count and not findings.at("sheets") and evening.sheet_list is None:
        findings.add((), InputError("files.evening.no_sheets"))
