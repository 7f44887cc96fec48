"""The short way: this film, that developer, so many sheets, this drum. Nothing is written until it is kept."""

from __future__ import annotations

import dataclasses
import json
import re
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.utils import timezone

from wetside.adapters.clock import today
from wetside.adapters.evening_writer import write_evening
from wetside.adapters.plain_document import json_text, plain_value
from wetside.adapters.plan_reader import plan_of_plain
from wetside.errors import ConflictError, InputError, ManyErrors, OutOfRangeError, Place, RefusedError, WetsideError
from wetside.planning.documents.films import Film, FilmTime
from wetside.records import models
from wetside.services.library import load_library
from wetside.services.plan_evening import PlainAnswers, evening_of_answers, vessel_of_text
from wetside.services.records.bottles import evening_bottles
from wetside.services.records.changes import change, make
from wetside.services.records.documents import columns_and_facts, document_of, raw_of
from wetside.services.records.plans_cancelled import cancelled_loads
from wetside.services.records.plans_compared import split_developer
from wetside.services.records.plans_frozen import attach_files, keep_files, make_runs
from wetside.services.records.plans_reckoned import MOST_SHEETS, Reckoned, reckon
from wetside.services.records.whole_tables import named, newest_versions
from wetside.units import whole_number
from wetside.values.dilution import STOCK
from wetside.values.names import name_key, plain_name
from wetside.values.sheet_size import SheetSize

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.documents.evening import Evening, Process, Vessel
    from wetside.planning.documents.plan import Plan as PlanDocument

FIELDS = ("film", "developer", "number", "vessel", "time", "temp", "ei", "size")
"""Fields of the page: the four answers, then what is asked only where it is needed."""

FIELD_OF_OPTION = {
    "--film": "film",
    "--developer": "developer",
    "--dilution": "developer",
    "--count": "number",
    "--vessel": "vessel",
    "--time": "time",
    "--temp": "temp",
    "--ei": "ei",
    "--size": "size",
}
FIELD_OF_CODE = {
    "planning.no_time": "time",
    "services.which_index": "ei",
    "planning.which_index": "ei",
}

_VESSEL = re.compile(
    r"(?P<kind>[a-z]+)\s*[: ]\s*(?:(?:for|takes)\s+)?(?P<places>[0-9]+)(?:\s*sheets?)?\s*[,;: ]\s*"
    r"(?P<low>[0-9.,]+\s*[a-z ]*?)\s*(?:-|\N{EN DASH}|to)\s*(?P<high>[0-9.,]+\s*[a-z ]+)",
    re.IGNORECASE,
)


class Short(NamedTuple):
    """What the short way comes to: the plan, or None while it is at work, and the evening that it is of."""

    evening: Evening
    reckoned: Reckoned


class Known(NamedTuple):
    """Names that the answers can be picked from."""

    films: tuple[str, ...]
    developers: tuple[str, ...]
    vessels: tuple[str, ...]


def known_names() -> Known:
    """Films, developers and vessels of the records, and the published names after them."""
    points = load_library().points
    processes = models.ProcessVersion.objects.filter(process__removed_at=None).order_by("process", "-version")
    typed = [f"{one.developer} {one.dilution}".strip() for one in processes]
    return Known(
        _once([*models.Film.kept.values_list("name", flat=True), *sorted({point.film for point in points})]),
        _once([*typed, *(one.name for one in named(models.Developer)), *sorted({p.developer for p in points})]),
        _once(one.name for one in named(models.Vessel)),
    )


def _once(names: Any) -> tuple[str, ...]:
    return tuple({plain_name(name): name for name in reversed(list(names))}.values())[::-1]


def plan_short(answers: dict[str, str], wait_s: float | None = None) -> Short:
    """Plan four answers; nothing is written.

    Parameters
    ----------
    answers : dict
        By :data:`FIELDS`, as they were typed; empty where nothing was said.
    wait_s : float, optional
        How long to wait for the plan. [s]

    Raises
    ------
    WetsideError
        With the field of everything that must be put right.
    """
    evening = evening_of_short(answers)
    reckoned = reckon(evening) if wait_s is None else reckon(evening, wait_s)
    if reckoned.plan is not None and not reckoned.plan.loads:
        # All sheets are alike, so what keeps one of them from a time is said once.
        first = reckoned.plan.unplanned[0]
        code = "services.which_index" if first.code == "planning.which_index" else first.code
        raise RefusedError(code, place=Place(field=FIELD_OF_CODE.get(first.code, "")), **first.params)
    return Short(evening, reckoned)


def evening_of_short(answers: dict[str, str]) -> Evening:
    """Evening of four answers: what the records know by a name is taken from them.

    Raises
    ------
    WetsideError
        With the field of everything that must be put right.
    """
    given = {field: (answers.get(field) or "").strip() for field in FIELDS}
    errors: list[WetsideError] = [
        InputError("services.plans.wanted", place=Place(field=field))
        for field in ("film", "developer", "number")
        if not given[field]
    ]
    vessel = _caught(errors, "vessel", lambda: _vessel(given["vessel"]))
    _caught(errors, "number", lambda: _number(given["number"]))
    for field in ("time", "temp", "ei", "size"):
        # Each optional field is read alone first, so that all mistakes are told at once.
        alone = PlainAnswers(film="x", developer="x", number="1", **{field: given[field] or None})
        _caught(errors, field, lambda alone=alone: evening_of_answers(alone))
    developer, dilution = split_developer(given["developer"])
    if errors:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    plain = PlainAnswers(
        film=given["film"],
        developer=developer,
        dilution=dilution or None,
        time=given["time"] or None,
        temp=given["temp"] or None,
        number=given["number"],
        ei=given["ei"] or None,
        size=given["size"] or None,
    )
    try:
        evening = evening_of_answers(plain)
    except WetsideError as error:
        raise _at_field(error) from None
    return _with_records(evening, vessel, given)


def _caught(errors: list[WetsideError], field: str, act: Any) -> Any:
    try:
        return act()
    except WetsideError as error:
        if all(one.place is None or one.place.field != field for one in errors):
            error.place = Place(field=field)
            errors.append(error)
        return None


def _at_field(error: WetsideError) -> WetsideError:
    field = error.place.field if error.place is not None else None
    error.place = Place(field=FIELD_OF_OPTION.get(field or "", field or ""))
    return error


def _number(text: str) -> int:
    if not text:
        raise InputError("services.plans.wanted")
    count = whole_number(text, most=MOST_SHEETS)
    if not count:
        raise OutOfRangeError("services.not_a_count", value=text[:40], most=MOST_SHEETS)
    return count


def _vessel(text: str) -> Vessel | None:
    """Vessel of the shelf by its name, or one described in a few words."""
    if not text:
        return None
    record = next((one for one in named(models.Vessel) if one.name_key == plain_name(text)), None)
    if record is not None:
        found: Vessel = document_of("vessel", raw_of("vessel", record), title=record.name)
        return found
    match = _VESSEL.fullmatch(" ".join(text.split()))
    if match is None:
        raise InputError("services.plans.which_vessel", value=text)
    kind = match["kind"].casefold()
    kind = {"tank": "hangers", "tube": "tubes", "trays": "tray", "drums": "drum"}.get(kind, kind)
    return vessel_of_text(f"{kind}:{match['places']},{match['low'].strip()}-{match['high'].strip()}")


def _with_records(evening: Evening, vessel: Vessel | None, given: dict[str, str]) -> Evening:
    """Evening with the film, the developer, the vessel and the bottles of the records in place of bare names."""
    (film,) = evening.films
    (process,) = evening.processes
    record = models.Film.kept.filter(name_key=plain_name(film.name)).first()
    if record is not None:
        own: Film = document_of("film", raw_of("film", record), title=record.name)
        film = dataclasses.replace(
            own, ei=film.ei or own.ei, published=own.published or own.name, times=(*film.times, *own.times)
        )
        if given["time"]:  # what was typed holds for tonight, whatever tests there are
            film = dataclasses.replace(film, times=film.times[:1], tests=())
    film = dataclasses.replace(
        film, times=tuple(_at_agitation(time, vessel, typed=given["time"]) for time in film.times)
    )
    process = _own_process(process, given) or process
    developers = tuple(
        document_of("developer", raw_of("developer", one), title=one.name)
        for one in named(models.Developer)
        if one.name_key == plain_name(process.developer)
    )
    size = evening.size
    if size is None and vessel is not None and len(vessel.places) == 1 and vessel.places[0][0] != "any":
        size = _size(vessel.places[0][0])
    diluted = {plain_name(process.developer)} if (process.dilution or STOCK) != STOCK else set()
    marks = (getattr(bath, key) for bath in process.baths for key in ("bottle", "second", "third"))
    rows = evening_bottles(diluted=diluted, marked={plain_name(mark) for mark in marks if mark})
    bottles = tuple(document_of("bottle", row, title=row["mark"]) for row in rows.values())
    return dataclasses.replace(
        evening,
        date=today(),
        size=size,
        films=(film,),
        processes=(process,),
        developers=developers,
        vessels=() if vessel is None else (vessel,),
        bottles=bottles,
        sheets=tuple(dataclasses.replace(sheet, film=film.name) for sheet in evening.sheets),
    )


def _own_process(plain: Process, given: dict[str, str]) -> Process | None:
    """The only process of the records in that developer and dilution, with its own baths; none where several are."""
    same = []
    for newest in newest_versions():
        if plain_name(newest.developer) != plain_name(plain.developer):
            continue
        name = newest.process.name
        own: Process = document_of("process", raw_of("process", newest, {"name": name}), title=name)
        dilution = plain.dilution.text if plain.dilution else ""
        if (own.dilution or STOCK).text == dilution and (not given["temp"] or own.temp_c == plain.temp_c):
            same.append(own)
    return same[0] if len(same) == 1 else None


def _at_agitation(time: FilmTime, vessel: Vessel | None, *, typed: str) -> FilmTime:
    """A time that was typed belongs to the vessel that it was typed beside."""
    from wetside.planning.resolved import AGITATION_OF_VESSEL

    if not typed or vessel is None:
        return time
    return dataclasses.replace(time, agitation=AGITATION_OF_VESSEL[vessel.kind])


def _size(name: str) -> SheetSize:
    from wetside.units import parse_size

    return SheetSize(*parse_size(name))


def keep_short(answers: dict[str, str], *, paper: str = "a4", name: str = "") -> models.Plan:
    """Keep what the short way came to: a frozen plan with its run sheets and a run ready for each load.

    Sheets are attached afterwards, see :func:`attach` and :func:`attach_new`.

    Raises
    ------
    WetsideError
        As :func:`plan_short`; nothing was written.
    """
    evening, reckoned = plan_short(answers, 120.0)
    if reckoned.plan is None:
        raise RefusedError("services.plans.takes_long", plan=evening.name)
    document = reckoned.plan
    name = name.strip()[:120] or f"{evening.films[0].name} in {evening.processes[0].name}"[:120]
    document = document._replace(name=name)
    evening = dataclasses.replace(evening, name=name)
    kept = keep_files(document, evening, paper)
    with transaction.atomic():
        plan = make(
            models.Plan,
            {
                "name": name,
                "date": evening.date,
                "short": True,
                "choices": {
                    "answers": {key: value for key, value in answers.items() if key in FIELDS},
                    "count": len(document.sheets),
                },
                "frozen_at": timezone.now(),
                "evening": write_evening(evening),
                "document": json.loads(json_text(plain_value(document))),
                "facts": {"files": {one.name: one.sha256 for one in kept}},
            },
        )
        make_runs(plan, document)
        attach_files(plan, kept)
    return plan


def free_places(plan: models.Plan, document: PlanDocument) -> tuple[tuple[int, str, int], ...]:
    """Places of a short plan that no sheet is attached to: rank, its own label, load; none of cancelled loads."""
    taken, gone = set(plan.places.values_list("rank", flat=True)), cancelled_loads(plan)
    free = ((rank, one.id, one.load) for rank, one in enumerate(document.sheets) if one.load not in gone)
    return tuple(one for one in free if one[0] not in taken)


def waiting_for(document: PlanDocument) -> tuple[models.Sheet, ...]:
    """Waiting sheets that could be attached: those of the plan's film."""
    wanted = {name_key(one.film) for one in document.sheets}
    waiting = models.Sheet.kept.filter(state=models.SheetState.WAITING).select_related("film")
    return tuple(sheet for sheet in waiting[: MOST_SHEETS * 4] if name_key(sheet.film.name) in wanted)


def attach(plan: models.Plan, keys: Sequence[str]) -> int:
    """Attach waiting sheets of the records to a short plan, in the order of the list.

    Returns
    -------
    count : int
        How many were attached.

    Raises
    ------
    WetsideError
        If one of them is another film, does not wait, or there are more than places; nothing was written.
    """
    from wetside.services.records.plans import picked

    document = _document(plan)
    sheets = picked(keys)
    free = free_places(plan, document)
    if len(sheets) > len(free):
        raise ConflictError("services.plans.attach_count", places=len(free), count=len(sheets))
    wanted = document.sheets[0].film
    with transaction.atomic():
        for sheet, (rank, _, load) in zip(sheets, free, strict=False):
            if name_key(sheet.film.name) != name_key(wanted):
                raise ConflictError("services.plans.other_film", sheet=str(sheet), film=sheet.film.name, wanted=wanted)
            _put(plan, sheet, rank, load)
    return len(sheets)


def attach_new(plan: models.Plan) -> int:
    """Make a record for every sheet of a short plan that has none, and of its film if there is none yet.

    Returns
    -------
    count : int
        How many were made.
    """
    document = _document(plan)
    free = free_places(plan, document)
    if not free:
        return 0
    wanted = document.sheets[0]
    with transaction.atomic():
        film = models.Film.kept.filter(name_key=plain_name(wanted.film)).first()
        if film is None:
            film = make(models.Film, columns_and_facts("film", Film(name=wanted.film, published=wanted.film)))
        day = (plan.date or today()).isoformat()
        taken = set(
            models.Sheet.kept.filter(state__in=[models.SheetState.WAITING, models.SheetState.PLANNED]).values_list(
                "label_key", flat=True
            )
        )
        for rank, label, load in free:
            name = f"{day} no. {label}"
            number = 2
            while plain_name(name) in taken:
                name, number = f"{day} no. {label} ({number})", number + 1
            taken.add(plain_name(name))
            size = wanted.size if wanted.size and wanted.area_cm2 else ""
            sheet = make(models.Sheet, {"label": name, "film": film, "size": size, "demo": plan.demo})
            _put(plan, sheet, rank, load)
    return len(free)


def _document(plan: models.Plan) -> PlanDocument:
    if not plan.short or plan.frozen_at is None:
        raise RefusedError("services.plans.not_short", plan=plan.name)
    return plan_of_plain(plan.document or {})


def _put(plan: models.Plan, sheet: models.Sheet, rank: int, load: int) -> None:
    """A sheet takes its place; where its load is developed already, so is the sheet."""
    run = plan.runs.filter(removed_at=None, load=load).first()
    values: dict[str, Any] = {"state": models.SheetState.PLANNED}
    if run is not None and run.state == models.RunState.ENDED:
        values = {"state": models.SheetState.DEVELOPED, "developed_at": run.changed_at}
    change(sheet, values, why=f"attached: {plan.name}")
    models.PlanSheet.objects.create(plan=plan, sheet=sheet, rank=rank, load=load)
