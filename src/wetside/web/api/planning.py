"""The call that plans an evening."""

from __future__ import annotations

from typing import Any

from ninja import Router, Status

from wetside.services.plan_document import plan_of_document
from wetside.web.api import shapes  # noqa: TC001 (the library asks for it when the program runs)
from wetside.web.api.answers import answers
from wetside.web.api.way_in import READ

router = Router(tags=["planning"])


@router.post(
    "/plan",
    operation_id="plan_evening",
    summary="Plan an evening",
    response=answers(dict[str, Any], 400, 413, 415),
    auth=READ,
)
def plan_evening(request: Any, evening: shapes.EveningSent) -> Any:
    """The same core as ``wetside plan --json``; the answer's own schema is plan.schema.json.

    Nothing is kept, and no file is looked for.
    """
    del request
    return Status(200, plan_of_document(evening))
