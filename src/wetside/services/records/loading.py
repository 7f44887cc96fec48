"""What goes where in a load: place by place the sheet, its film, the holder it is in and the notch of that holder."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.cards.names import short
from wetside.errors import RefusedError, UnknownNameError
from wetside.services.records.frozen_documents import document_of, frozen_evening
from wetside.services.records.runs import find_run, standing
from wetside.services.records.sheets_names import side_of
from wetside.wording import sentence

if TYPE_CHECKING:
    from uuid import UUID

    from wetside.planning.documents.plan import Plan
    from wetside.records import models
    from wetside.runs.state import State


class LoadingPlace(NamedTuple):
    """A place in the vessel, counted from 1 [1], and the sheet that goes into it; empty text where nothing is known."""

    number: int
    place: str
    sheet: str
    film: str
    holder: str
    notch: str
    clip: str
    lost: bool = False


class LoadingOrder(NamedTuple):
    """All places of a load; ``vessel`` and its kind are empty where a run names none."""

    load: int | None
    vessel: str
    vessel_kind: str
    places: tuple[LoadingPlace, ...]

    @property
    def left(self) -> tuple[LoadingPlace, ...]:
        """Places whose sheet is not lost."""
        return tuple(one for one in self.places if not one.lost)


def order_of_load(plan: models.Plan, load: int) -> LoadingOrder:
    """Loading order of a frozen plan's load.

    Raises
    ------
    RefusedError
        If the plan is not frozen: its loads may still change.
    UnknownNameError
        If there is no such load.
    """
    if plan.frozen_at is None:
        raise RefusedError("services.runs.not_frozen", plan=plan.name)
    document = document_of(plan)
    found = next((one for one in document.loads if one.number == load), None)
    if found is None:
        raise UnknownNameError("services.plans.no_load", load=load)
    hung = sum(len(one.sheets) for one in document.loads if one.number < load)
    return LoadingOrder(
        load, found.vessel, found.vessel_kind, _places(document, plan, found.sheets, found.vessel_kind, hung)
    )


def _places(
    document: Plan, plan: models.Plan, sheets: tuple[str, ...], kind: str, hung: int
) -> tuple[LoadingPlace, ...]:
    films = {sheet.id: sheet.film for sheet in document.sheets}
    holders = {sheet.label or sheet.holder or "": sheet.holder or "" for sheet in frozen_evening(plan.evening).sheets}
    return tuple(
        LoadingPlace(
            number,
            sentence(f"cards.place.{kind}", {"number": number}),
            sheet,
            films.get(sheet, ""),
            holders.get(sheet, ""),
            _notch(holders.get(sheet, "")),
            sentence("cards.place.clip", {"number": hung + number}),
        )
        for number, sheet in enumerate(sheets, 1)
    )


def _notch(holder: str) -> str:
    """Code that the user cut into the holder, where that holder is kept."""
    side = side_of(holder) if holder else None
    return "" if side is None else side.holder.notch


def order_of_run(key: UUID | str) -> tuple[models.Run, State, LoadingOrder]:
    """A run, where it stands, and its loading order; lost sheets are marked, and are not loaded.

    Raises
    ------
    UnknownNameError
        If there is no such run.
    """
    run = find_run(key)
    state = standing(run).state
    script = state.script
    if script is None:
        if run.plan is not None and run.load is not None:
            return run, state, order_of_load(run.plan, run.load)
        return run, state, LoadingOrder(None, "", "", ())
    if run.plan is not None and run.load is not None:
        order = order_of_load(run.plan, run.load)
        places = tuple(one._replace(lost=one.sheet in state.lost) for one in order.places)
        return run, state, order._replace(places=places)
    places = tuple(
        LoadingPlace(number, str(number), one.id, one.film, "", "", "", one.id in state.lost)
        for number, one in enumerate(script.sheets, 1)
    )
    return run, state, LoadingOrder(None, script.vessel, script.vessel_kind, places)


def said_of_place(place: LoadingPlace) -> str:
    """What is spoken for a place, as the fingers need it: the place first, then the sheet and where to find it."""
    params = {"place": place.place, "sheet": short(place.sheet), "holder": place.holder, "notch": place.notch}
    code = "run_sound.loading.place"
    if place.holder and place.holder != place.sheet:
        code += "_holder"
    return sentence(code, params) + (sentence("run_sound.loading.notch", params) if place.notch else "")
