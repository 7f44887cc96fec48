"""Addresses: Sheets and holders."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import start

urlpatterns = [
    path("sheets/", start.start, name="sheets"),
]
