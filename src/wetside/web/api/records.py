"""Calls that read the records, and the one that adds a sheet."""

from __future__ import annotations

from typing import Annotated, Any, Literal
from uuid import UUID  # noqa: TC003 (the library asks for it when the program runs)

from ninja import Query, Router, Status

from wetside.services.records import read_all
from wetside.services.records.changes import written_by
from wetside.services.records.sheets import add_sheet
from wetside.web.api import shapes
from wetside.web.api.answers import answers
from wetside.web.api.way_in import READ, WRITE, name_of

router = Router(tags=["records"])

After = Annotated[
    str | None, Query(None, max_length=shapes.CURSOR_LETTERS, description="Cursor of the piece before: its next.")
]
Most = Annotated[
    int, Query(shapes.USUAL_ITEMS, ge=1, le=shapes.MOST_ITEMS, description="Records of one piece at most.")
]
Number = Annotated[int, Query(0, ge=0, le=2**31 - 1, description="The number after which the piece begins.")]


def _reads(kind: str, one: str, shape: Any, what: str) -> None:
    """Calls for the list of a kind and for one record of it."""

    def read_list(request: Any, after: After = None, most: Most = shapes.USUAL_ITEMS) -> Any:
        del request
        return Status(200, read_all.read_list(kind, after, most))

    def read_one(request: Any, key: UUID) -> Any:
        del request
        return Status(200, read_all.read_one(kind, key))

    router.get(
        f"/{kind}",
        operation_id=f"list_{kind}",
        summary=f"{what}, in pieces, in the order in which they were made",
        response=answers(shapes.Page[shape]),
        auth=READ,
    )(read_list)
    router.get(
        f"/{kind}/{{uuid:key}}",
        operation_id=f"read_{one}",
        summary=f"One {one}",
        response=answers(shape, 404),
        auth=READ,
    )(read_one)


@router.get(
    "/sheets",
    operation_id="list_sheets",
    summary="Sheets, in pieces, in the order in which they were made",
    response=answers(shapes.Page[shapes.SheetShape]),
    auth=READ,
)
def list_sheets(
    request: Any,
    after: After = None,
    most: Most = shapes.USUAL_ITEMS,
    state: Annotated[
        Literal["waiting", "planned", "developed", "lost"] | None, Query(None, description="Only sheets of this state.")
    ] = None,
) -> Any:
    """Sheets with what is known of them."""
    del request
    return Status(200, read_all.read_list("sheets", after, most, **({"state": state} if state else {})))


@router.post(
    "/sheets",
    operation_id="add_sheet",
    summary="Add a sheet",
    response=answers(shapes.SheetShape, 400, 409, 413, 415, made=True),
    auth=WRITE,
)
def post_sheet(request: Any, sent: shapes.SheetSent) -> Any:
    """Keep a new sheet, as the page of a new sheet does; a holder side that is named counts as exposed."""
    with written_by(name_of(request)):
        sheet = add_sheet(sent.sheet, lot=sent.lot, note=sent.note, make_film=sent.make_film)
    return Status(201, read_all.read_one("sheets", sheet.pk))


@router.get(
    "/sheets/{uuid:key}",
    operation_id="read_sheet",
    summary="One sheet",
    response=answers(shapes.SheetShape, 404),
    auth=READ,
)
def read_sheet(request: Any, key: UUID) -> Any:
    """Everything that is known of a sheet."""
    del request
    return Status(200, read_all.read_one("sheets", key))


_reads("holders", "holder", shapes.HolderShape, "Holders with their sides")
_reads("films", "film", shapes.NamedShape, "Films")
_reads("lots", "lot", shapes.LotShape, "Lots of films")
_reads("developers", "developer", shapes.NamedShape, "Developers")
_reads("processes", "process", shapes.ProcessShape, "Processes with their versions")
_reads("aims", "aim", shapes.NamedShape, "Aims")
_reads("vessels", "vessel", shapes.NamedShape, "Vessels")
_reads("bottles", "bottle", shapes.BottleShape, "Bottles, emptied ones too")
_reads("instruments", "instrument", shapes.InstrumentShape, "Instruments")
_reads("plans", "plan", shapes.PlanShape, "Plans")


@router.get(
    "/bottles/{uuid:key}/ledger",
    operation_id="read_ledger",
    summary="Ledger of a bottle, the oldest line first",
    response=answers(shapes.LinesShape, 404),
    auth=READ,
)
def read_ledger(request: Any, key: UUID, after: Number = 0, most: Most = shapes.USUAL_ITEMS) -> Any:
    """Lines are never changed: ``after`` is the number of the last one that is known."""
    del request
    return Status(200, read_all.read_ledger(key, after, most))


@router.get(
    "/plans/{uuid:key}/document",
    operation_id="read_frozen_plan",
    summary="Document of a frozen plan",
    response=answers(shapes.FrozenShape, 404),
    auth=READ,
)
def read_frozen(request: Any, key: UUID) -> Any:
    """The evening file that the plan stands on, and the plan, as both were frozen."""
    del request
    return Status(200, read_all.read_frozen(key))
