"""Addresses: Bottles, vessels and instruments."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import start

urlpatterns = [
    path("shelf/", start.start, name="shelf"),
]
