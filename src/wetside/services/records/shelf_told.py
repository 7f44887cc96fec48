"""A code with its parameters, as the pages of the shelf hand it to whoever says it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


class Told(NamedTuple):
    """A code with its parameters."""

    code: str
    params: dict[str, Any]


def all_told(notes: Iterable[tuple[str, Mapping[str, Any]]]) -> tuple[Told, ...]:
    """Codes with their parameters as the core returns them, for a page."""
    return tuple(Told(code, dict(params)) for code, params in notes)
