"""Addresses: Sheets and holders."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import holders, sheets, sheets_entry, sheets_filters, sheets_list, sheets_one, sheets_outbox

urlpatterns = [
    path("sheets/", sheets.waiting_sheets, name="sheets"),
    path("sheets/pick/", sheets.pick, name="sheets-pick"),
    path("sheets/new/", sheets_entry.new, name="sheets-new"),
    path("sheets/list/", sheets_list.look, name="sheets-list"),
    path("sheets/list/keep/", sheets_list.keep, name="sheets-list-keep"),
    path("sheets/filters/", sheets_filters.filters, name="sheets-filters"),
    path("sheets/<uuid:key>/", sheets_one.one, name="sheet"),
    path("sheets/<uuid:key>/reckon/", sheets_one.reckon, name="sheet-reckon"),
    path("sheets/<uuid:key>/undo/", sheets_one.undo, name="sheet-undo"),
    path("sheets/<uuid:key>/remove/", sheets_one.remove, name="sheet-remove"),
    path("sheets/<uuid:key>/back/", sheets_one.back, name="sheet-back"),
    path("sheets/<uuid:key>/end/", sheets_one.end, name="sheet-end"),
    path("sheets/<uuid:key>/wait/", sheets_one.wait, name="sheet-wait"),
    path("holders/", holders.page, name="holders"),
    path("holders/new/", holders.new, name="holders-new"),
    path("holders/load/", holders.load, name="holders-load"),
    path("holders/move/", holders.move, name="holders-move"),
    path("holders/lots/", holders.lots, name="lots"),
    path("holders/lots/<uuid:key>/remove/", holders.remove_lot, name="lots-remove"),
    path("holders/lots/<uuid:key>/back/", holders.lot_back, name="lots-back"),
    path("holders/<uuid:key>/", holders.one, name="holder"),
    path("holders/<uuid:key>/remove/", holders.remove, name="holder-remove"),
    path("holders/<uuid:key>/back/", holders.back, name="holder-back"),
    path("outbox/", sheets_outbox.hand_over, name="outbox"),
    path("outbox/token/", sheets_outbox.token, name="outbox-token"),
]
