"""Drafts of plans that chose a process or an aim: while one stands, what it chose is not taken away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.errors import RefusedError
from wetside.records.models import Plan

if TYPE_CHECKING:
    from wetside.records.models import Aim, Process


def refuse_if_chosen(choice: str, record: Process | Aim) -> None:
    """Refuse a removal that would pull the ground from under a draft; frozen plans keep their own copy.

    Parameters
    ----------
    choice : str
        ``process`` or ``aim``.
    record : model

    Raises
    ------
    RefusedError
        Naming the drafts, three of them at most.
    """
    drafts = Plan.kept.filter(frozen_at=None, **{f"choices__{choice}": str(record.pk)})
    names = list(drafts.order_by("name").values_list("name", flat=True))
    if names:
        raise RefusedError(
            "services.records.chosen_by_drafts", what=str(record), count=len(names), drafts="; ".join(names[:3])
        )
