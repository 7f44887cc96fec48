"""Films and the lots that they were bought in: listed, made, corrected, removed and brought back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Count, Q

from wetside.errors import InputError, Place, RefusedError
from wetside.records.models import Film, FilmLot, HolderSide, Sheet
from wetside.services.library import load_library
from wetside.services.records.changes import bring_back, change, find, make, remove
from wetside.services.records.documents import columns_and_facts, document_of, raw_of
from wetside.services.records.films_checked import checked_document
from wetside.services.records.sheets_counted import waiting_of
from wetside.units import whole_number
from wetside.values.evidence import Evidence
from wetside.values.names import name_key

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping
    from uuid import UUID

    from wetside.planning.documents.evening import Film as FilmDocument

A_PAGE = 50
"""Films on one page of the list. Our choice."""

FORM_KEYS = ("name", "ei", "published", "safelight", "light_tested", "fixing", "reciprocity", "times")
"""Keys that the film's own form holds; its tests are entered one by one."""

WAITING = ("waiting", "planned")


class FilmLine(NamedTuple):
    """A film in the list: what is known of it by count, and the strongest evidence of a time; None where there is none.

    ``waiting`` counts sheets that are not developed yet.
    """

    film: Film
    tests: int
    own_times: int
    times: int
    waiting: int
    evidence: Evidence | None


class FilmList(NamedTuple):
    """One page of films; ``total`` and ``tested`` are of all of them."""

    lines: tuple[FilmLine, ...]
    total: int
    tested: int
    page: int
    pages: int
    removed: tuple[Film, ...]


def film_list(page: int = 1) -> FilmList:
    """Films by name, a page at a time.

    Parameters
    ----------
    page : int
        From 1; beyond the last the last is shown.
    """
    totals = Film.kept.aggregate(count=Count("pk"), tested=Count("pk", filter=Q(facts__has_key="tests")))
    pages = max(1, -(-totals["count"] // A_PAGE))
    page = min(max(page, 1), pages)
    films = list(
        Film.kept.annotate(waiting=waiting_of("film")).order_by("name_key")[(page - 1) * A_PAGE : page * A_PAGE]
    )
    published = {name_key(point.film) for point in load_library().points}
    return FilmList(
        tuple(_line(film, published) for film in films),
        totals["count"],
        totals["tested"],
        page,
        pages,
        tuple(Film.objects.exclude(removed_at=None).defer("facts").order_by("-removed_at")[:20]),
    )


def _line(film: Film, published: set[str]) -> FilmLine:
    times = film.facts.get("times", ())
    own, cited = sum(1 for row in times if row.get("own")), sum(1 for row in times if row.get("source"))
    tests = len(film.facts.get("tests", ()))
    evidence = None
    if tests or own:
        evidence = Evidence.TESTED
    elif cited or name_key(film.published or film.name) in published:
        evidence = Evidence.PUBLISHED
    elif times:
        evidence = Evidence.ASSUMED
    return FilmLine(film, tests, own, len(times), film.waiting, evidence)  # type: ignore[attr-defined]


def find_film(key: UUID | str, *, removed: bool = False) -> Film:
    """Film by its identity.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    return find(Film, key, removed=removed)


def film_document(film: Film) -> FilmDocument:
    """All that is kept of a film, as the evening file's type."""
    document: FilmDocument = document_of("film", raw_of("film", film))
    return document


def raw_film(film: Film) -> dict[str, Any]:
    """Film in the plain form of an evening file."""
    return raw_of("film", film)


def save_film(
    raw: Mapping[str, Any], film: Film | None = None, *, note: str = "", revision: int | None = None, why: str = ""
) -> Film:
    """Make a film, or correct one; its tests stay as they are.

    Parameters
    ----------
    raw : mapping
        Keys of :data:`FORM_KEYS` in plain form.
    film : Film, optional
        The one to correct.
    note : str
    revision : int, optional
        State that the person saw.
    why : str

    Raises
    ------
    WetsideError
        Naming the field, or the rule that refuses it.
    """
    kept = dict(raw)
    if film is not None and "tests" in film.facts:
        kept["tests"] = film.facts["tests"]
    values = columns_and_facts("film", checked_document("film", kept)) | {"note": note}
    return make(Film, values, why=why) if film is None else change(film, values, revision=revision, why=why)


def points_of_text(text: str) -> list[list[Any]]:
    """Metered times with factors, as a person types them, in plain form.

    Parameters
    ----------
    text : str
        Such as ``1 s 1.5, 10 s 6``; semicolons part them where decimals have commas.

    Raises
    ------
    InputError
        If a pair has no factor.

    Examples
    --------
    >>> points_of_text("1 s 1.5, 10 s 6"), points_of_text("1 s 1,5; 10 s 6")
    ([['1 s', '1.5'], ['10 s', '6']], [['1 s', '1,5'], ['10 s', '6']])
    """
    parts = text.replace("\n", ";").split(";") if ";" in text or "\n" in text else text.split(",")
    pairs = [part.strip().rpartition(" ") for part in parts if part.strip()]
    if not pairs or not all(time.strip() for time, _, _ in pairs):
        raise InputError("services.film.points", place=Place(field="reciprocity.table"), value=text)
    return [[time.strip(), factor] for time, _, factor in pairs]


def text_of_points(points: Any) -> str:
    """The inverse of :func:`points_of_text`.

    Examples
    --------
    >>> text_of_points([["1 s", 1.5], ["10 s", 6]])
    '1 s 1.5; 10 s 6'
    """
    return "; ".join(f"{time} {factor}" for time, factor in points)


def remove_film(film: Film, now: dt.datetime) -> Film:
    """Take a film away.

    Raises
    ------
    RefusedError
        While sheets of it wait, or it lies in a holder.
    """
    waiting = Sheet.kept.filter(film=film, state__in=WAITING).count()
    if waiting:
        raise RefusedError("services.film.sheets_wait", what=film.name, count=waiting)
    loaded = HolderSide.kept.filter(film=film).count()
    if loaded:
        raise RefusedError("services.film.in_holders", what=film.name, count=loaded)
    return remove(film, now)


def bring_film_back(film: Film) -> Film:
    """Undo a removal; errors as :func:`wetside.services.records.changes.bring_back`."""
    return bring_back(film)


def lots_of(film: Film) -> tuple[FilmLot, ...]:
    """Lots of a film, with the number of sheets that wait from each as ``waiting``."""
    return tuple(film.lots.filter(removed_at=None).annotate(waiting=waiting_of("lot")).order_by("number", "size"))


class LotAnswers(NamedTuple):
    """A lot as it was typed; dates as a page's date field sends them."""

    number: str = ""
    size: str = ""
    expires: str = ""
    opened: str = ""
    bought: str = ""


def save_lot(film: Film, answers: LotAnswers, lot: FilmLot | None = None, *, revision: int | None = None) -> FilmLot:
    """Make or correct a lot.

    Raises
    ------
    WetsideError
        Naming the field.
    """
    values = {
        "number": " ".join(answers.number.split()),
        "size": _size(answers.size),
        "expires": _date("expires", answers.expires),
        "opened": _date("opened", answers.opened),
        "bought": _bought(answers.bought),
    }
    if not values["number"]:
        raise InputError("services.film.lot_number", place=Place(field="number"))
    if lot is None:
        return make(FilmLot, {**values, "film": film})
    return change(lot, values, revision=revision)


def find_lot(key: UUID | str, *, removed: bool = False) -> FilmLot:
    """Lot by its identity; errors as :func:`find_film`."""
    return find(FilmLot, key, removed=removed)


def remove_lot(lot: FilmLot, now: dt.datetime) -> FilmLot:
    """Take a lot away.

    Raises
    ------
    RefusedError
        While sheets of it wait, or it lies in a holder.
    """
    waiting = Sheet.kept.filter(lot=lot, state__in=WAITING).count()
    if waiting:
        raise RefusedError("services.film.lot_sheets_wait", what=lot.number, count=waiting)
    loaded = HolderSide.kept.filter(lot=lot).count()
    if loaded:
        raise RefusedError("services.film.lot_in_holders", what=lot.number, count=loaded)
    return remove(lot, now)


def bring_lot_back(lot: FilmLot) -> FilmLot:
    """Undo a removal; errors as :func:`wetside.services.records.changes.bring_back`."""
    return bring_back(lot)


def _size(text: str) -> str:
    from wetside.errors import WetsideError
    from wetside.units import parse_size

    if not text.strip():
        return ""
    try:
        parse_size(text)
    except WetsideError as error:
        raise error.at(Place(field="size")) from None
    return " ".join(text.split())


def _date(field: str, text: str) -> dt.date | None:
    import datetime as dt

    if not text.strip():
        return None
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        raise InputError("services.film.date", place=Place(field=field), value=text) from None


def _bought(text: str) -> int | None:
    if not text.strip():
        return None
    count = whole_number(text, most=99_999)
    if count is None:
        raise InputError("services.film.bought", place=Place(field="bought"), value=text[:40])
    return count
