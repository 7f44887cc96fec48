"""The body of a call: JSON of a bounded size and depth, of letters that any text can have."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NoReturn

from django.core.exceptions import RequestDataTooBig
from ninja.parser import Parser

from wetside.web.api.mistakes import InterfaceError

if TYPE_CHECKING:
    from django.http import HttpRequest

MOST_BYTES = 1_000_000
"""Of an evening that is to be planned; the largest body there is. [bytes]"""
DEEPEST = 30


def checked_body(request: HttpRequest) -> Any:
    """Body as plain values.

    Raises
    ------
    InterfaceError
        415, 413 or 400.
    """
    if request.content_type != "application/json":
        raise InterfaceError(415, "web.api.not_json")
    try:
        length = int(request.META.get("CONTENT_LENGTH") or 0)
        body = b"" if length > MOST_BYTES else request.body
    except (ValueError, RequestDataTooBig):
        length, body = MOST_BYTES + 1, b""
    if length > MOST_BYTES or len(body) > MOST_BYTES:
        raise InterfaceError(413, "web.api.large", most=MOST_BYTES)
    try:
        found = json.loads(body.decode("utf-8"), parse_constant=_no_constant)
    except RecursionError as error:
        raise InterfaceError(400, "web.api.deep", most=DEEPEST) from error
    except ValueError as error:
        reason = " ".join(str(error).split())[:200].rstrip(".")
        raise InterfaceError(400, "web.api.unreadable", reason=reason) from error
    _check(found, "body", DEEPEST)
    return found


def _no_constant(word: str) -> NoReturn:
    reason = f"{word} is no number of JSON; send null where there is none"
    raise ValueError(reason)


def _check(value: Any, field: str, levels: int) -> None:
    if levels == 0:
        raise InterfaceError(400, "web.api.deep", most=DEEPEST)
    if isinstance(value, str):
        if "\0" in value or not _is_text(value):
            raise InterfaceError(400, "web.api.letters", field=field)
    elif isinstance(value, dict):
        for key, inner in value.items():
            _check(key, field, levels - 1)
            _check(inner, key, levels - 1)
    elif isinstance(value, list):
        for inner in value:
            _check(inner, field, levels - 1)


def _is_text(value: str) -> bool:
    """Whether no half of a surrogate pair stands alone."""
    try:
        value.encode("utf-8")
    except UnicodeEncodeError:
        return False
    return True


class CheckedParser(Parser):
    """Reads bodies by :func:`checked_body`; the library wraps its errors, and keeps each as the cause of its own."""

    def parse_body(self, request: HttpRequest) -> Any:
        """Body as plain values."""
        return checked_body(request)
