"""Addresses: Plans and the short way."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import start

urlpatterns = [
    path("plans/", start.start, name="plans"),
    path("short/", start.start, name="short"),
]
