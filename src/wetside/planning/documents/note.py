"""A code with parameters, as documents carry it."""

from __future__ import annotations

from typing import Any, NamedTuple


class Note(NamedTuple):
    """Something that a person should know, as a code with parameters."""

    code: str
    params: dict[str, Any] = {}  # noqa: RUF012 (nobody writes into a note)
