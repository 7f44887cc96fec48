"""Numbers that a run's negatives got at hanging: they belong to its clips, and follow the order that counts.

With each order that somebody gave numbers for, the run keeps them by clip. So when another order comes to count, or
none does any more, the sheets get theirs, or have none; and get them again when that is undone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.records import models
from wetside.records.one_writer import NEGATIVES, one_writer
from wetside.services.records.changes import change
from wetside.services.records.runs_sheets import sheets_of_run

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from typing import Any

    from wetside.runs.state import State

CLIPS = "clips"
"""Key of a run's facts: orders with the numbers on their clips, the newest last."""
MOST_ORDERS = 12
"""Orders of one run whose numbers are kept, the newest; nobody corrects more often. Our choice. [orders]"""


def hung_why(run: models.Run) -> str:
    """Reason with which a hanging gives a number, as the history keeps it."""
    return f"hung: {run.name}"[: models.LABEL_LENGTH]


def keep_numbers(run: models.Run, order: Sequence[str], numbers: Sequence[str]) -> None:
    """Keep with a run which numbers hang on the clips of an order; within the caller's transaction.

    Parameters
    ----------
    run : Run
    order, numbers : sequence of str
        By clip; an empty number is none.
    """
    row = {"order": list(order), "numbers": [number.strip() for number in numbers[: len(order)]]}

    def kept(facts: Mapping[str, Any]) -> dict[str, Any]:
        others = [one for one in facts.get(CLIPS, ()) if one["order"] != row["order"]]
        return {**facts, CLIPS: [*others, row][-MOST_ORDERS:]}

    change(run, {"facts": kept}, why=hung_why(run))


def numbers_follow(run: models.Run, before: State, after: State) -> None:
    """Give the negatives of a run their numbers anew where another order counts than before.

    A number that was not given at hanging stays with its sheet, and one that another sheet has by now is not given.

    Parameters
    ----------
    run : Run
        Locked by the caller.
    before, after : State
        As it was folded, and as it is now.
    """
    if run.rehearsal or before.order == after.order:
        return
    run = models.Run.objects.select_related("plan").get(pk=run.pk)
    records = {name: sheet for name, sheet in sheets_of_run(run).items() if sheet.removed_at is None}
    if not records:
        return
    one_writer(NEGATIVES)
    mine = [name for name, sheet in records.items() if not sheet.negative or _hung_number(run, sheet)]
    by_clip = _numbers_by_clip(run, before.order, {name: records[name] for name in mine})
    wanted = dict(zip(after.order, _numbers_of(run, after.order) or by_clip, strict=False)) if after.order else {}
    theirs = models.Sheet.kept.filter(negative__in=[number for number in wanted.values() if number])
    taken = set(theirs.exclude(pk__in=[records[name].pk for name in mine]).values_list("negative", flat=True))
    for name in mine:
        number = wanted.get(name, "")
        number = "" if number in taken else number
        if records[name].negative != number:
            change(records[name], {"negative": number}, why=hung_why(run))


def _numbers_of(run: models.Run, order: Sequence[str]) -> list[str]:
    """Numbers that were given for an order; empty where nobody gave any."""
    return next((one["numbers"] for one in run.facts.get(CLIPS, ()) if one["order"] == list(order)), [])


def _numbers_by_clip(run: models.Run, order: Sequence[str] | None, records: Mapping[str, models.Sheet]) -> list[str]:
    """Numbers that hang on the clips by the order that counted; kept with the run, so that they can come back."""
    if order is None:
        return []
    found = [records[name].negative if name in records else "" for name in order]
    if any(found) and found != _numbers_of(run, order):
        keep_numbers(run, order, found)
    return found


def _hung_number(run: models.Run, sheet: models.Sheet) -> bool:
    """Whether a sheet's number was given at the hanging of this run, and by nobody else."""
    why = None
    for version in sheet.history.all():  # the newest first
        if version.negative != sheet.negative:
            break
        why = version.history_change_reason
    return why == hung_why(run)
