"""How a darkroom wants figures shown: its units and its decimal sign, for all that is said inside a ``with``.

Whoever shows something to a darkroom (a page, a printed run sheet) sets the manner around it; whatever says a sentence,
a card or a chart reads it here. Without one, figures are metric with a point, as the commands print them.
"""

from __future__ import annotations

import re
from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

_POINT = re.compile(r"(?<=[0-9])\.(?=[0-9])")


class Manner(NamedTuple):
    """Units and decimal sign of a darkroom."""

    us: bool = False
    comma: bool = False


PLAIN = Manner()
"""Metric, with a point."""

_NOW: ContextVar[Manner] = ContextVar("manner", default=PLAIN)


def manner() -> Manner:
    """Manner of whatever is said now."""
    return _NOW.get()


@contextmanager
def shown_in(wanted: Manner) -> Iterator[None]:
    """Show figures in a darkroom's manner.

    Parameters
    ----------
    wanted : Manner

    Examples
    --------
    >>> from wetside.wording import shown
    >>> with shown_in(Manner(us=True, comma=True)):
    ...     shown(20.0, "temp")
    '68,0 °F'
    """
    token = _NOW.set(wanted)
    try:
        yield
    finally:
        _NOW.reset(token)


def decimal(text: str) -> str:
    """Figures with the decimal sign that is wanted now.

    Examples
    --------
    >>> decimal("1.05")
    '1.05'
    >>> with shown_in(Manner(comma=True)):
    ...     decimal("1.05")
    '1,05'
    """
    return _POINT.sub(",", text) if _NOW.get().comma else text
