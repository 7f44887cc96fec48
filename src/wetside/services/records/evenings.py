"""Records as an evening, through the same reader and checks as a file.

An evening of the records is the chosen sheets with all that they may need: their films, the newest version of each
process, aims, developers, what stands on the shelf, and the choices of a plan. An error names the record and its field.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple
from uuid import UUID

from django.db.models import Q

from wetside.adapters.binder import Binder, title_of
from wetside.adapters.findings import EnoughError, Findings, field_text
from wetside.adapters.name_checks import check_names
from wetside.adapters.sense_checks import check_sense
from wetside.errors import InputError, Place
from wetside.planning.documents.evening import EVENING_FORMAT, Evening
from wetside.records import models
from wetside.services.records.bottles import evening_bottles
from wetside.services.records.documents import raw_of
from wetside.services.records.page_reads import once
from wetside.services.records.whole_tables import named, newest_versions, thermometers
from wetside.units import write_temp_step
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wetside.adapters.findings import FieldPath

TABLES: Mapping[str, tuple[str, type]] = {
    "films": ("film", models.Film),
    "developers": ("developer", models.Developer),
    "processes": ("process", models.Process),
    "bottles": ("bottle", models.Bottle),
    "vessels": ("vessel", models.Vessel),
    "aims": ("aim", models.Aim),
}
"""Tables of an evening, the kind of their documents, and where they are kept."""


class Choices(NamedTuple):
    """What a plan has chosen, as its ``choices`` hold it.

    ``keys`` are the evening's own keys in plain form; ``tables`` the identities of the records that each table of the
    evening is made of, in their order, where not all of them are meant; ``process``, ``aim`` and ``thermometer`` are
    identities.
    """

    keys: Mapping[str, Any] = {}
    tables: Mapping[str, Sequence[str]] = {}
    process: str = ""
    aim: str = ""
    thermometer: str = ""


def choices_of(plan: models.Plan) -> Choices:
    """Choices of a plan."""
    kept = plan.choices
    return Choices(
        keys=kept.get("keys", {}),
        tables=kept.get("tables", {}),
        process=kept.get("process", ""),
        aim=kept.get("aim", ""),
        thermometer=kept.get("thermometer", ""),
    )


def evening_of_plan(plan: models.Plan) -> Evening:
    """Evening of a draft plan, from the records as they are now.

    Parameters
    ----------
    plan : Plan

    Raises
    ------
    WetsideError
        As :func:`evening_of_sheets`.
    """
    date = plan.date.isoformat() if plan.date else ""
    return evening_of_sheets(sheets_of(plan), choices_of(plan), name=plan.name, date=date)


def sheets_of(plan: models.Plan) -> list[models.Sheet]:
    """Sheets of a plan in their order, with all that an evening asks of them."""
    return list(once(("sheets of a plan", plan.pk), lambda: _sheets_of(plan)))


def _sheets_of(plan: models.Plan) -> list[models.Sheet]:
    places = plan.places.select_related("sheet__film", "sheet__process", "sheet__aim", "sheet__twin").order_by("rank")
    return [place.sheet for place in places if place.sheet.removed_at is None]


def evening_of_sheets(
    sheets: Sequence[models.Sheet], choices: Choices | None = None, *, name: str = "evening", date: str = ""
) -> Evening:
    """Evening of chosen sheets.

    Parameters
    ----------
    sheets : sequence of Sheet
        In their order, with film, process, aim and twin fetched.
    choices : Choices, optional
    name : str
        Of the evening.
    date : str
        ISO 8601; the day on which it is planned if empty.

    Returns
    -------
    evening : Evening
        Read and cross-checked as a file is.

    Raises
    ------
    WetsideError
        With the record and the field of everything that must be put right.
    """
    if not sheets:
        raise InputError("services.plans.no_sheets")
    return checked_evening(raw_evening(sheets, choices or Choices(), name=name, date=date))


def checked_evening(raw: Mapping[str, Any]) -> Evening:
    """Evening of plain tables, as a file's reader would bind and check it.

    Parameters
    ----------
    raw : mapping
        The keys of an evening file.

    Raises
    ------
    WetsideError
        With the record and the field of everything that must be put right.
    """
    findings = Findings()
    evening: Evening | None = None
    try:
        evening = Binder(findings).table(Evening, raw, ())
        evening = check_names(evening, findings)
        check_sense(evening, findings)
    except EnoughError:
        evening = None
    if findings or evening is None:
        findings.refuse(lambda path: _place(raw, path))
    return evening


def _place(raw: Mapping[str, Any], path: FieldPath) -> Place:
    """A record by its name and the field in it; a number in a list would say nothing on a page."""
    title = title_of(raw, path[:2]) if len(path) > 1 else None
    if title is None:
        return Place(field=field_text(path))
    inside = field_text(path[2:])
    return Place(field=f"{title}: {inside}" if inside else title)


def raw_evening(sheets: Sequence[models.Sheet], choices: Choices, *, name: str, date: str) -> dict[str, Any]:
    """Chosen sheets and what they need as plain tables; one query a table, whatever the archive holds."""
    raw: dict[str, Any] = {"format": EVENING_FORMAT, "name": name}
    if date:
        raw["date"] = date
    versions = _chosen({one.process_id: one for one in newest_versions()}, choices.tables.get("processes"))
    aims = _named(models.Aim, choices.tables.get("aims"))
    processes = [version.process for version in versions]
    for key, records, chosen in (("process", processes, choices.process), ("aim", aims, choices.aim)):
        named = next((record.name for record in records if str(record.pk) == chosen), None)
        if named is not None:
            raw[key] = named
    raw |= {key: value for key, value in choices.keys.items() if key != "thermometer"}
    thermometer = _thermometer(choices)
    if thermometer:
        raw["thermometer"] = thermometer
    films = _films(sheets, choices.tables.get("films"))
    raw["films"] = [raw_of("film", film) for film in films]
    raw["processes"] = [raw_of("process", version, {"name": version.process.name}) for version in versions]
    raw["bottles"] = _bottles(choices.tables.get("bottles"), raw["processes"])
    raw["vessels"] = [raw_of("vessel", one) for one in _named(models.Vessel, choices.tables.get("vessels"))]
    raw["aims"] = [raw_of("aim", one) for one in aims]
    developers = [raw_of("developer", one) for one in _named(models.Developer, choices.tables.get("developers"))]
    raw["developers"] = [*developers, *_other_developers(developers, raw)] if developers else []
    raw["sheets"] = [raw_sheet(sheet) for sheet in sheets]
    _drop_twins_elsewhere(raw["sheets"])
    return {key: value for key, value in raw.items() if value != []}


def raw_sheet(sheet: models.Sheet) -> dict[str, Any]:
    """Sheet as the plain table that stands in an evening file."""
    related: dict[str, Any] = {"film": sheet.film.name}
    if sheet.size:
        related["size"] = sheet.size
    if sheet.process is not None:
        related["process"] = sheet.process.name
    if sheet.aim is not None:
        related["aim"] = sheet.aim.name
    if sheet.twin is not None:
        related["twin"] = sheet.twin.label or sheet.twin.holder
    if sheet.state == models.SheetState.DEVELOPED:
        related["done"] = True
    return raw_of("sheet", sheet, related)


def _named(table: type, chosen: Sequence[str] | None) -> list[Any]:
    """Records of a small table that were not removed: the chosen ones in their order, or all of them."""
    return _chosen({record.pk: record for record in named(table)}, chosen)


def _chosen(records: Mapping[UUID, Any], chosen: Sequence[str] | None) -> list[Any]:
    """The chosen records in their order, or all of them."""
    if chosen is None:
        return list(records.values())
    return [records[key] for key in identities(chosen) if key in records]


def identities(chosen: Iterable[str]) -> list[UUID]:
    """Identities among texts; what is none is left out."""
    found = []
    for key in chosen:
        try:
            found.append(UUID(str(key)))
        except ValueError:
            continue
    return found


def _bottles(chosen: Sequence[str] | None, processes: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Bottles on the shelf; those that a file named in its order."""
    if chosen is None:
        diluted = {plain_name(one["developer"]) for one in processes if one.get("dilution", "stock") != "stock"}
        baths = [bath for one in processes for bath in one.get("baths", ())]
        marked = {plain_name(bath[key]) for bath in baths for key in ("bottle", "second", "third") if bath.get(key)}
        return list(evening_bottles(diluted=diluted, marked=marked).values())
    wanted = identities(chosen)
    rows = evening_bottles(wanted)
    return [rows[key] for key in wanted if key in rows]


def _films(sheets: Sequence[models.Sheet], chosen: Sequence[str] | None) -> list[models.Film]:
    """Films that a file named, then those that the sheets are of or were found in the holder.

    A file that declares no film at all is taken at its sheets' word; so are its records, where nothing more is known.
    """
    found_in = {plain_name(word) for sheet in sheets if (word := sheet.facts.get("in_holder"))}
    named_by_file = identities(chosen or ())
    known: dict[UUID, models.Film] = {}
    if found_in or named_by_file:
        asked = models.Film.kept.filter(Q(pk__in=named_by_file) | Q(name_key__in=found_in))
        known = {film.pk: film for film in asked}
    films = {key: known[key] for key in named_by_file if key in known}
    needed = {sheet.film_id: sheet.film for sheet in sheets if sheet.film.removed_at is None or sheet.film_id in films}
    needed |= {key: film for key, film in known.items() if film.name_key in found_in}
    if chosen == [] and all(_is_bare(film) for film in needed.values()):
        return []
    needed |= {sheet.film_id: sheet.film for sheet in sheets}
    return list((films | {key: film for key, film in needed.items() if key not in films}).values())


def _is_bare(film: models.Film) -> bool:
    return raw_of("film", film) == {"name": film.name, "published": film.name}


def _thermometer(choices: Choices) -> dict[str, Any]:
    raw: dict[str, Any] = dict(choices.keys.get("thermometer", {}))
    if not choices.thermometer:
        return raw
    instrument = next((one for one in thermometers() if str(one.pk) == choices.thermometer), None)
    if instrument is not None:
        raw["name"] = instrument.name
        if instrument.reads_high:
            raw["reads_high"] = write_temp_step(instrument.reads_high)
    return raw


def _other_developers(declared: Sequence[Mapping[str, Any]], raw: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Developers that films and processes name and nobody made a record of: known by their name, nothing more."""
    known = {plain_name(one["name"]) for one in declared}
    rows = [row for film in raw["films"] for part in ("times", "tests") for row in film.get(part, ())]
    others: dict[str, str] = {}
    for row in [*rows, *raw["processes"]]:
        name = row.get("developer") if isinstance(row, dict) else None
        if isinstance(name, str) and plain_name(name) not in known:
            others.setdefault(plain_name(name), name)
    return [{"name": name} for name in others.values()]


def _drop_twins_elsewhere(rows: Iterable[dict[str, Any]]) -> None:
    """A twin that was not chosen cannot be kept apart tonight."""
    rows = list(rows)
    here = {plain_name(row.get("label") or row.get("holder") or "") for row in rows}
    for row in rows:
        if "twin" in row and plain_name(row["twin"]) not in here:
            del row["twin"]
