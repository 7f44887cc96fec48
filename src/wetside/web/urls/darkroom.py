"""Addresses: Settings, backups, copies, what was removed."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import darkroom

urlpatterns = [
    path("darkroom/", darkroom.darkroom, name="darkroom"),
    path("darkroom/worker/", darkroom.worker, name="darkroom-worker"),
    path("darkroom/backups/make/", darkroom.backup, name="darkroom-backup"),
    path("darkroom/export.zip", darkroom.export, name="darkroom-export"),
    path("darkroom/removed/", darkroom.removed, name="darkroom-removed"),
    path("darkroom/removed/<slug:kind>/<uuid:key>/back/", darkroom.back, name="darkroom-back"),
]
