"""What one page asks of the tables more than once is read once: kept while the page is made, and for nothing longer.

Only pages that are asked for and change nothing open this; whoever writes all the same drops what was kept.
"""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterator

Found = TypeVar("Found")

_kept: ContextVar[dict[Hashable, Any] | None] = ContextVar("page_reads", default=None)


@contextmanager
def one_page() -> Iterator[None]:
    """Keep what is read inside the block until it ends."""
    token = _kept.set({})
    try:
        yield
    finally:
        _kept.reset(token)


def once(key: Hashable, read: Callable[[], Found]) -> Found:
    """What was read under a name on this page; read now where it was not, or where no page is made.

    Parameters
    ----------
    key : hashable
        Names what is read.
    read : callable
        Reads it.
    """
    kept = _kept.get()
    if kept is None:
        return read()
    if key not in kept:
        kept[key] = read()
    found: Found = kept[key]
    return found


def keep(key: Hashable, found: object) -> None:
    """Keep what was read together with other things; nothing where no page is made."""
    kept = _kept.get()
    if kept is not None:
        kept[key] = found


def is_read(key: Hashable) -> bool:
    """Whether that was read on this page."""
    kept = _kept.get()
    return kept is not None and key in kept


def is_page() -> bool:
    """Whether a page is made that changes nothing."""
    return _kept.get() is not None


def forget() -> None:
    """Drop what was kept: something was written."""
    kept = _kept.get()
    if kept is not None:
        kept.clear()
