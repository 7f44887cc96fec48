"""The pages' worker, at the root, because a worker keeps only what lies below its own address."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from django.http import HttpResponse
from django.views.decorators.http import require_GET

if TYPE_CHECKING:
    from django.http import HttpRequest


@cache
def _script() -> bytes:
    return (files("wetside.web") / "static" / "web" / "worker.js").read_bytes()


@require_GET
def worker(request: HttpRequest) -> HttpResponse:
    """Script of the worker, never older than the program."""
    del request
    answer = HttpResponse(_script(), content_type="text/javascript; charset=utf-8")
    answer["Cache-Control"] = "no-cache"
    return answer
