"""Ways of developing other than one bath from start to end, and which evidence may pass between them."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import RefusedError

if TYPE_CHECKING:
    from collections.abc import Mapping


class Way(StrEnum):
    """How the developing baths of a process follow each other; a condition of every time."""

    ONE_BATH = "one-bath"
    TWO_BATH = "two-bath"
    """Bath A soaks, bath B acts; also called divided development."""
    REPLACED = "replaced"
    """The developer is replaced by fresh developer on the way."""
    STAND = "stand"
    SEMI_STAND = "semi-stand"
    INSPECTION = "inspection"
    """One bath whose end a look may move."""
    REUSED = "reused"
    REPLENISHED = "replenished"


CONVERTIBLE = frozenset({Way.ONE_BATH, Way.REPLACED, Way.INSPECTION, Way.REUSED})
"""Ways between which a rule exists; a time of any other way says something about that way only."""


class Remark(NamedTuple):
    """Something to say beside a result: a code with what its sentence needs."""

    code: str
    params: Mapping[str, float | str | None]


def require_same_way(tested: Way, wanted: Way) -> None:
    """Refuse to carry a time from one way of developing to another between which no rule exists.

    Parameters
    ----------
    tested : Way
        Way that the time belongs to.
    wanted : Way
        Way that will be used.

    Raises
    ------
    RefusedError
        ``development.ways.not_converted`` unless both are the same or both are in :data:`CONVERTIBLE`.

    Examples
    --------
    >>> require_same_way(Way.ONE_BATH, Way.INSPECTION)
    """
    if tested is not wanted and not {tested, wanted} <= CONVERTIBLE:
        raise RefusedError("development.ways.not_converted", tested=tested.value, wanted=wanted.value)
