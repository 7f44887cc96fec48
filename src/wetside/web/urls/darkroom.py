"""Addresses: Settings, backups, copies, the demo darkroom."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import start

urlpatterns = [
    path("darkroom/", start.start, name="darkroom"),
]
