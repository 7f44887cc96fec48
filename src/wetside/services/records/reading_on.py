"""Long lists in pieces: a cursor says where the last piece ended, so that what is added meanwhile moves nothing."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any, NamedTuple
from uuid import UUID

from django.db.models import Q

from wetside.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Callable

    from django.db.models import QuerySet

LONGEST_CURSOR = 80


class Piece(NamedTuple):
    """Records of a list, and the cursor that the next piece begins after; None at the end."""

    items: tuple[Any, ...]
    next: str | None


def piece_of(rows: QuerySet[Any], after: str | None, most: int, read: Callable[[Any], Any]) -> Piece:
    """A piece of a list in the order in which its records were made.

    Parameters
    ----------
    rows : query
        Of a table with ``made_at`` and an identity.
    after : str, optional
        Cursor of the piece before.
    most : int
    read : callable
        From a row to what is told of it.

    Raises
    ------
    InputError
        If the cursor is none.
    """
    if after:
        at, key = _parts(after)
        rows = rows.filter(Q(made_at__gt=at) | Q(made_at=at, pk__gt=key))
    found = list(rows.order_by("made_at", "pk")[: most + 1])
    cut = found[:most]
    more = len(found) > most
    return Piece(tuple(read(row) for row in cut), _cursor(cut[-1]) if more else None)


def _cursor(row: Any) -> str:
    return f"{row.made_at.astimezone(dt.UTC):%Y%m%dT%H%M%S.%f}-{row.pk.hex}"


def _parts(cursor: str) -> tuple[dt.datetime, UUID]:
    moment, _, key = cursor.partition("-")
    if len(cursor) > LONGEST_CURSOR or not cursor.isascii():
        raise InputError("services.cursor", value=cursor[:LONGEST_CURSOR])
    try:
        at = dt.datetime.strptime(moment, "%Y%m%dT%H%M%S.%f").replace(tzinfo=dt.UTC)
        return at, UUID(hex=key)
    except (ValueError, OverflowError) as error:
        raise InputError("services.cursor", value=cursor[:LONGEST_CURSOR]) from error
