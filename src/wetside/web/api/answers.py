"""Which answers a call may give, as its description lists them."""

from __future__ import annotations

from typing import Any

from wetside.web.api.shapes import Mistakes


def answers(shape: Any, *refusals: int, made: bool = False) -> dict[int, Any]:
    """Answers of a call: what it gives, and how it refuses.

    Parameters
    ----------
    shape : schema
    *refusals : int
        Beside those of every call: 401, 403 and 422.
    made : bool
        Whether it makes something (201).
    """
    return {201 if made else 200: shape, **dict.fromkeys(sorted({401, 403, 422, 503, *refusals}), Mistakes)}
