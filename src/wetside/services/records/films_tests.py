"""Own tests of a film: readings pasted or from a file, looked at before they are kept."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from wetside.adapters.readings_file import NOMINAL_STEP_LOG_H, read_curve_readings, rows_of_readings
from wetside.errors import InputError, ManyErrors, Place, UnknownNameError, WetsideError
from wetside.services.records.changes import change
from wetside.services.records.documents import columns_and_facts, raw_of
from wetside.services.records.films_checked import checked_document
from wetside.units import parse_number

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.planning.documents.evening import FilmTest
    from wetside.records.models import Film

TEST_KEYS = (
    "developer",
    "dilution",
    "temp",
    "agitation",
    "way",
    "presoak",
    "clock",
    "stop",
    "agent",
    "base_fog",
    "channel",
    "source",
)
"""Keys of a test that a form holds beside its readings."""

PASTED = "readings"
"""What errors call text that was pasted."""


class ReadingsAnswers(NamedTuple):
    """Readings as they were sent: text with a heading, or a file's bytes; how a step's exposure is known.

    ``tablet`` holds the tablet's own densities as text with a heading, ``nominal`` takes steps of 0.15; either needs
    ``exposure``, the log exposure on a clear tablet [log10 lux-second].
    """

    text: str = ""
    file: bytes | None = None
    file_name: str = ""
    tablet: str = ""
    nominal: bool = False
    exposure: str = ""


def rows_of_answers(answers: ReadingsAnswers) -> tuple[tuple[float, float, float], ...]:
    """Readings as rows of minutes, log H and density.

    Parameters
    ----------
    answers : ReadingsAnswers

    Raises
    ------
    WetsideError
        All errors at once, each with its line and column.
    """
    if answers.file is None and not answers.text.strip():
        raise InputError("services.film.no_readings", place=Place(field="readings"))
    stepped = answers.nominal or bool(answers.tablet.strip())
    exposure = 0.0
    if stepped:
        if not answers.exposure.strip():
            raise InputError("services.film.no_exposure", place=Place(field="exposure"))
        try:
            exposure = parse_number(answers.exposure)
        except WetsideError as error:
            raise error.at(Place(field="exposure")) from None
    with tempfile.TemporaryDirectory() as folder:
        # The reader of files is the reader of pages: one set of rules, one set of sentences.
        readings = Path(folder) / "readings.csv"
        readings.write_bytes(answers.file if answers.file is not None else answers.text.encode())
        tablet = None
        if answers.tablet.strip():
            tablet = Path(folder) / "tablet.csv"
            tablet.write_bytes(answers.tablet.encode())
        try:
            found = read_curve_readings(
                readings,
                tablet=tablet,
                nominal_step_log_h=NOMINAL_STEP_LOG_H if answers.nominal and tablet is None else None,
                exposure_log_h=exposure,
            )
        except WetsideError as error:
            raise _without_folder(error, answers.file_name or PASTED) from None
    return rows_of_readings(found)


def _without_folder(error: WetsideError, name: str) -> WetsideError:
    """The same errors, calling the file as the person does."""
    for one in error.errors if isinstance(error, ManyErrors) else (error,):
        if one.place is not None and one.place.file is not None:
            file = "tablet" if one.place.file.endswith("tablet.csv") else name
            one.place = Place(file, one.place.line, one.place.field)
    return error


def checked_test(film: Film, raw: Mapping[str, Any], rows: Any) -> FilmTest:
    """Test of its conditions and readings, checked as the film's document would be.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken, named without the film around it.
    """
    test = {**raw, "rows": [list(row) for row in rows]}
    try:
        document = checked_document("film", {"name": film.name, "tests": [test]})
    except WetsideError as error:
        for one in error.errors if isinstance(error, ManyErrors) else (error,):
            if one.place is not None and one.place.field is not None:
                one.place = one.place._replace(field=one.place.field.removeprefix("tests[1]").removeprefix("."))
        raise
    found: FilmTest = document.tests[0]
    return found


def add_test(film: Film, raw: Mapping[str, Any], rows: Any, *, revision: int | None = None, why: str = "") -> Film:
    """Keep a test with a film.

    Parameters
    ----------
    film : Film
    raw : mapping
        Keys of :data:`TEST_KEYS` in plain form.
    rows : sequence
        From :func:`rows_of_answers`.
    revision : int, optional
        State of the film that the person saw.
    why : str

    Raises
    ------
    WetsideError
        As :func:`checked_test`; or if the film was changed meanwhile.
    """
    checked_test(film, raw, rows)
    tests = [*film.facts.get("tests", ()), {**raw, "rows": [list(row) for row in rows]}]
    return _with_tests(film, tests, revision, why)


def test_of(film: Film, number: int) -> dict[str, Any]:
    """Test of a film in plain form, by its number from 0.

    Raises
    ------
    UnknownNameError
        If the film has no such test.
    """
    tests = film.facts.get("tests", ())
    if not 0 <= number < len(tests):
        raise UnknownNameError("services.records.not_found", what="test")
    found: dict[str, Any] = tests[number]
    return found


def rows_joined(test: Mapping[str, Any], rows: Iterable[Sequence[float]]) -> tuple[tuple[float, ...], ...]:
    """Readings of a test with further ones: what stands there already is taken once.

    Parameters
    ----------
    test : mapping
        In plain form.
    rows : iterable of sequence
        Minutes, log exposure, density. [min, log10 lux-second, 1]

    Raises
    ------
    InputError
        If a reading stands there with another density.
    """
    joined = [tuple(float(value) for value in row) for row in test.get("rows", ())]
    known = {row[:2]: row[2] for row in joined}
    for row in rows:
        minutes, log_h, density = (float(value) for value in row)
        before = known.get((minutes, log_h))
        if before is None:
            joined.append((minutes, log_h, density))
        elif before != density:
            place = Place(field="readings")
            raise InputError(
                "services.film.reading_other", place=place, time_s=minutes * 60.0, log_h=log_h, density=before
            )
    return tuple(joined)


def join_test(film: Film, number: int, rows: Any, *, revision: int | None = None, why: str = "") -> Film:
    """Keep further readings with those of a test, such as a second time beside the first.

    Parameters
    ----------
    film : Film
    number : int
        From 0, in the film's order.
    rows : sequence
        All of them, from :func:`rows_joined`.
    revision : int, optional
    why : str

    Raises
    ------
    WetsideError
        As :func:`checked_test`; or if the film was changed meanwhile, or has no such test.
    """
    test = test_of(film, number)
    checked_test(film, {key: value for key, value in test.items() if key != "rows"}, rows)
    tests = list(film.facts["tests"])
    tests[number] = {**test, "rows": [list(row) for row in rows]}
    return _with_tests(film, tests, revision, why)


def part_test(film: Film, number: int) -> Film:
    """Take the readings out again that were joined to a test last.

    Raises
    ------
    UnknownNameError
        If none were joined, or the test was changed since.
    """
    now = test_of(film, number)
    rows = now.get("rows", [])
    for state in film.history.all()[:50]:
        tests = state.facts.get("tests", [])
        before = tests[number] if number < len(tests) else {}
        had = before.get("rows", [])
        if 0 < len(had) < len(rows) and rows[: len(had)] == had and {**before, "rows": rows} == now:
            tests = list(film.facts["tests"])
            tests[number] = before
            return _with_tests(film, tests, None, "")
    raise UnknownNameError("services.records.not_found", what="readings")


def remove_test(film: Film, number: int, *, revision: int | None = None, why: str = "") -> tuple[Film, dict[str, Any]]:
    """Take a test away from a film.

    Parameters
    ----------
    film : Film
    number : int
        From 0, in the film's order.
    revision : int, optional
    why : str

    Returns
    -------
    film : Film
    removed : dict
        The test in plain form; the film's history keeps it as well.

    Raises
    ------
    UnknownNameError
        If the film has no such test.
    """
    tests = list(film.facts.get("tests", ()))
    if not 0 <= number < len(tests):
        raise UnknownNameError("services.records.not_found", what="test")
    gone = tests.pop(number)
    return _with_tests(film, tests, revision, why), gone


def bring_test_back(film: Film) -> Film:
    """Put back the test that was removed last, as the film's history keeps it.

    Raises
    ------
    UnknownNameError
        If no test was removed.
    """
    now = film.facts.get("tests", [])
    states = [state.facts.get("tests", []) for state in film.history.all()[:50]]
    for state in states:
        lost = [test for test in state if test not in now]
        if lost:
            place = state.index(lost[0])
            return _with_tests(film, [*now[:place], lost[0], *now[place:]], None, "")
    raise UnknownNameError("services.records.not_found", what="test")


def _with_tests(film: Film, tests: list[dict[str, Any]], revision: int | None, why: str) -> Film:
    raw = raw_of("film", film)
    raw.pop("tests", None)
    if tests:
        raw["tests"] = tests
    return change(film, columns_and_facts("film", checked_document("film", raw)), revision=revision, why=why)
