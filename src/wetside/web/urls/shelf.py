"""Addresses: Bottles, vessels and instruments."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import bottles, instruments, mixing, shelf, vessels

urlpatterns = [
    path("shelf/", shelf.shelf, name="shelf"),
    path("shelf/gone/", shelf.gone_bottles, name="shelf-gone"),
    path("shelf/bottles/new/", bottles.new, name="bottle-new"),
    path("shelf/bottles/<uuid:key>/", bottles.show, name="bottle"),
    path("shelf/bottles/<uuid:key>/change/", bottles.edit, name="bottle-change"),
    path("shelf/bottles/<uuid:key>/enter/<slug:what>/", bottles.enter, name="bottle-enter"),
    path("shelf/bottles/<uuid:key>/undo/<uuid:line>/", bottles.undo_line, name="bottle-undo"),
    path("shelf/bottles/<uuid:key>/remove/", bottles.take_away, name="bottle-remove"),
    path("shelf/bottles/<uuid:key>/back/", bottles.back, name="bottle-back"),
    path("shelf/mixing/", mixing.mixing, name="mixing"),
    path("shelf/vessels/", vessels.listed, name="vessels"),
    path("shelf/vessels/new/", vessels.new, name="vessel-new"),
    path("shelf/vessels/<uuid:key>/", vessels.edit, name="vessel"),
    path("shelf/vessels/<uuid:key>/take/<slug:column>/", vessels.take, name="vessel-take"),
    path("shelf/vessels/<uuid:key>/forget/", vessels.forget, name="vessel-forget"),
    path("shelf/vessels/<uuid:key>/remove/", vessels.take_away, name="vessel-remove"),
    path("shelf/vessels/<uuid:key>/back/", vessels.back, name="vessel-back"),
    path("shelf/instruments/", instruments.listed, name="instruments"),
    path("shelf/instruments/new/", instruments.new, name="instrument-new"),
    path("shelf/instruments/<uuid:key>/", instruments.show, name="instrument"),
    path("shelf/instruments/<uuid:key>/change/", instruments.edit, name="instrument-change"),
    path("shelf/instruments/<uuid:key>/check/", instruments.check, name="instrument-check"),
    path("shelf/instruments/<uuid:key>/take/", instruments.take, name="instrument-take"),
    path("shelf/instruments/<uuid:key>/put-back/", instruments.put_back_offset, name="instrument-put-back"),
    path("shelf/instruments/<uuid:key>/remove/", instruments.take_away, name="instrument-remove"),
    path("shelf/instruments/<uuid:key>/back/", instruments.back, name="instrument-back"),
]
