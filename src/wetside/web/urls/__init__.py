"""Addresses of the pages, a module a part."""

from __future__ import annotations

from django.urls import URLPattern, URLResolver, include, path

from wetside.web.views import start

urlpatterns: list[URLPattern | URLResolver] = [
    path("", start.start, name="start"),
    path("", include("wetside.web.urls.sheets")),
    path("", include("wetside.web.urls.shelf")),
    path("", include("wetside.web.urls.plans")),
    path("", include("wetside.web.urls.evidence")),
    path("", include("wetside.web.urls.darkroom")),
]
