"""How many sheets wait for a film, a process, an aim or a lot: counted by index, whatever the archive holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.db.models import Count, OuterRef, Subquery, Value
from django.db.models.functions import Coalesce

from wetside.records.models import Sheet, SheetState

if TYPE_CHECKING:
    from django.db.models.expressions import Combinable

UNDEVELOPED = (SheetState.WAITING, SheetState.PLANNED)


def waiting_of(relation: str) -> Combinable:
    """Expression for the number of sheets of each record that are not developed yet.

    Parameters
    ----------
    relation : str
        Column of the sheet that names the record: ``film``, ``process``, ``aim`` or ``lot``.

    Notes
    -----
    A count over a joined table would walk through every sheet that was ever developed.
    """
    mine = Sheet.objects.filter(state__in=UNDEVELOPED, removed_at=None, **{relation: OuterRef("pk")})
    counted = mine.order_by().values(relation).annotate(count=Count("pk")).values("count")
    return Coalesce(Subquery(counted), Value(0))
