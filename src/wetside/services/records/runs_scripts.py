"""What a live run follows: a load of a frozen plan with its own evening, or film, developer and minutes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.adapters.evening_file import evening_of_text
from wetside.adapters.plan_reader import plan_of_plain
from wetside.errors import InputError, ManyErrors, Place, RefusedError, UnknownNameError, WetsideError
from wetside.planning.factors import coefficient_of
from wetside.records import models
from wetside.runs.from_plan import Handling, quick_script, script_of_load
from wetside.runs.script import FLOOR_S
from wetside.runs.script_data import require_sound
from wetside.services.library import load_library
from wetside.services.records.documents import document_of, raw_of
from wetside.services.records.plans_compared import split_developer
from wetside.units import parse_duration_s, parse_temp_c
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.runs.script import Script

SHORT_FIELDS = ("film", "developer", "time", "temp", "vessel")
"""What a run without a plan is asked: three answers, and two that have usual ones."""


def planned_script(plan: models.Plan, load: int) -> Script:
    """Script of a load of a frozen plan: all of it from what was frozen, and the vessel's learned times.

    Parameters
    ----------
    plan : Plan
    load : int
        Its number. [1]

    Raises
    ------
    RefusedError
        If the plan is a draft.
    UnknownNameError
        If it has no such load.
    """
    if plan.frozen_at is None or not plan.document:
        raise RefusedError("services.runs.draft", plan=plan.name)
    document = plan_of_plain(plan.document)
    found = next((one for one in document.loads if one.number == load), None)
    if found is None:
        raise UnknownNameError("services.plans.no_load", load=load)
    evening = evening_of_text(plan.evening)
    own = next((one for one in evening.developers if plain_name(one.name) == plain_name(found.developer)), None)
    vessel = models.Vessel.kept.filter(name_key=plain_name(found.vessel)).first()
    script = script_of_load(
        found,
        document.sheets,
        coefficient=coefficient_of(found.developer, own, load_library(None)),
        handling=None if vessel is None else Handling(vessel.pour_s, vessel.drain_s),
        floor_s=evening.floor_s,
    )
    require_sound(script)
    return script


def short_script(answers: Mapping[str, str]) -> Script:
    """Script of a few answers.

    Parameters
    ----------
    answers : mapping
        By :data:`SHORT_FIELDS`, as they were typed.

    Raises
    ------
    WetsideError
        With the field of everything that must be put right.
    """
    given = {field: (answers.get(field) or "").strip() for field in SHORT_FIELDS}
    errors: list[WetsideError] = [
        InputError("services.plans.wanted", place=Place(field=field))
        for field in ("film", "developer", "time")
        if not given[field]
    ]
    time_s = temp_c = handling = None
    try:
        time_s = parse_duration_s(given["time"]) if given["time"] else None
    except WetsideError as error:
        errors.append(_at(error, "time"))
    try:
        temp_c = parse_temp_c(given["temp"]) if given["temp"] else 20.0
    except WetsideError as error:
        errors.append(_at(error, "temp"))
    if given["vessel"]:
        vessel = models.Vessel.kept.filter(name_key=plain_name(given["vessel"])).first()
        if vessel is None:
            errors.append(
                UnknownNameError("services.runs.no_vessel", place=Place(field="vessel"), value=given["vessel"])
            )
        else:
            handling = Handling(vessel.pour_s, vessel.drain_s)
    if errors or time_s is None or temp_c is None:
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)
    developer, dilution = split_developer(given["developer"])
    record = models.Developer.kept.filter(name_key=plain_name(developer)).first()
    own = None if record is None else document_of("developer", raw_of("developer", record), title=record.name)
    try:
        script = quick_script(
            given["film"],
            developer,
            time_s,
            temp_c=temp_c,
            handling=handling,
            coefficient=coefficient_of(developer, own, load_library(None)),
            floor_s=FLOOR_S,
        )
        require_sound(script)
    except WetsideError as error:
        raise _at(error, "time") from None
    return script._replace(dilution=dilution or "", vessel=given["vessel"])


def _at(error: WetsideError, field: str) -> WetsideError:
    error.place = Place(field=field)
    return error
