"""The first page: what waits, and the way to a plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.shortcuts import render

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


def start(request: HttpRequest) -> HttpResponse:
    """Where one begins."""
    return render(request, "web/start.html")
