"""What is answered where the program or its database failed: a page that needs neither, and a quiet terminal."""

from __future__ import annotations

import logging
import sys
import time
from typing import TYPE_CHECKING

from django.conf import settings
from django.db import InterfaceError as ConnectionGone
from django.db import OperationalError
from django.http import HttpResponse
from django.template.loader import render_to_string

from wetside.web.api.mistakes import InterfaceError, answer_of
from wetside.wording import sentence

if TYPE_CHECKING:
    from django.http import HttpRequest

DATABASE_AWAY = (OperationalError, ConnectionGone)
"""What the database driver raises where the database does not answer, or cannot go on."""
RETRY_S = 5
TOLD_AGAIN_S = 60.0
"""A database that rests is told in the terminal once in this time, not for every request. Our choice."""


def failed(request: HttpRequest) -> HttpResponse:
    """Answer of a request that failed: 503 where the database does not answer, else 500.

    Neither needs the database: they are shown where it is away.
    """
    error = sys.exc_info()[1]
    if not isinstance(error, DATABASE_AWAY):
        return HttpResponse(render_to_string("500.html"), status=500)
    # In the network anybody may ask: where the database stands is told in the terminal alone.
    reason = sentence("web.database_in_terminal", {}) if settings.LAN else reason_of(error)
    again = {"Retry-After": str(RETRY_S)}
    if request.path.startswith("/api/"):
        return answer_of(InterfaceError(503, "web.api.database", again, reason=reason))
    shown = {"said": sentence("web.database_away", {"reason": reason})}
    if request.method == "GET":
        shown["again"] = request.get_full_path()
    return HttpResponse(render_to_string("503.html", shown), status=503, headers=again)


def reason_of(error: BaseException) -> str:
    """What the database says, in one line."""
    return " ".join(str(error).split())[:400].rstrip(" .?!")


class DatabaseAway(logging.Filter):
    """One line a minute in the terminal where the database does not answer, instead of a traceback a request."""

    def __init__(self) -> None:
        super().__init__()
        self._told_s = -TOLD_AGAIN_S

    def filter(self, record: logging.LogRecord) -> bool:
        """Whether the record is written; one of a database that is away becomes a sentence."""
        error = record.exc_info[1] if record.exc_info else None
        if not isinstance(error, DATABASE_AWAY):
            return True
        now_s = time.monotonic()
        if now_s - self._told_s < TOLD_AGAIN_S:
            return False
        self._told_s = now_s
        record.msg, record.args = sentence("web.database_away_said", {"reason": reason_of(error)}), ()
        record.exc_info = record.exc_text = None
        return True
