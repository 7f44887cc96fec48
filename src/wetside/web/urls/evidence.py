"""Addresses: Films, processes and aims."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import start

urlpatterns = [
    path("films/", start.start, name="films"),
    path("processes/", start.start, name="processes"),
    path("aims/", start.start, name="aims"),
]
