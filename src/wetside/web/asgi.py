"""The application that the server runs."""

from __future__ import annotations

import os
import warnings
from concurrent.futures import ThreadPoolExecutor
from typing import TYPE_CHECKING

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wetside.web.settings")

import django
from asgiref.sync import sync_to_async
from django.core.handlers.asgi import ASGIHandler
from django.db import close_old_connections

from wetside.web.pieces import with_turns

if TYPE_CHECKING:
    from django.http import HttpRequest
    from django.http.response import HttpResponseBase

THREADS = 16
"""Requests that are answered at once by a process; further ones wait. Streams of watchers need none. Four processes
stay below the hundred connections that PostgreSQL allows as it is installed. Our choice."""

# Files of the pages are given by a middleware that reads them in pieces, in a thread; the framework warns of it in the
# words of a programmer, in the terminal of the person who serves.
warnings.filterwarnings("ignore", message="StreamingHttpResponse must consume synchronous iterators")


class Pages(ASGIHandler):
    """Answers each request in one thread of a few that stay.

    The framework gives every request a thread of its own, changes it between middleware and view, and begins with a
    new connection to the database each time: more work than most of our pages are.
    """

    def __init__(self) -> None:
        super().__init__()
        self._threads = ThreadPoolExecutor(THREADS, thread_name_prefix="page")

    def load_middleware(self, is_async: bool = False) -> None:
        """Chain of plain functions, whatever is asked for."""
        del is_async
        super().load_middleware(is_async=False)

    async def get_response_async(self, request: HttpRequest) -> HttpResponseBase:
        """Answer in a thread that stays."""
        return await sync_to_async(self._answer, thread_sensitive=False, executor=self._threads)(request)

    def _answer(self, request: HttpRequest) -> HttpResponseBase:
        # What the framework does around each request, here in the thread whose connection it is.
        close_old_connections()
        try:
            return self.get_response(request)
        finally:
            close_old_connections()


django.setup(set_prefix=False)
application = with_turns(Pages())
