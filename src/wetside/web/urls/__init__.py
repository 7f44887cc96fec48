"""Addresses of the pages, a module a part."""

from __future__ import annotations

from django.templatetags.static import static
from django.urls import URLPattern, URLResolver, include, path
from django.views.generic import RedirectView

from wetside.web.views import start

handler500 = "wetside.web.failures.failed"

urlpatterns: list[URLPattern | URLResolver] = [
    path("", start.start, name="start"),
    # Asked for by browsers beside a file that names no picture of its own.
    path("favicon.ico", RedirectView.as_view(url=static("web/mark.svg"))),
    path("", include("wetside.web.urls.sheets")),
    path("", include("wetside.web.urls.shelf")),
    path("", include("wetside.web.urls.plans")),
    path("", include("wetside.web.urls.worker")),
    path("", include("wetside.web.urls.runs")),
    path("", include("wetside.web.urls.evidence")),
    path("", include("wetside.web.urls.darkroom")),
    path("", include("wetside.web.urls.network")),
    path("", include("wetside.web.urls.api")),
]
