"""Addresses: Plans, the short way, the demo darkroom's two clicks."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import plans, plans_frozen, plans_import, short_way, start

urlpatterns = [
    path("plans/", plans.plans, name="plans"),
    path("plans/new/", plans.new, name="plan_new"),
    path("plans/import/", plans_import.import_evening, name="plan_import"),
    path("plans/import/take/", plans_import.take_evening, name="plan_take"),
    path("plans/<uuid:key>/", plans.plan, name="plan"),
    path("plans/<uuid:key>/choose/", plans.choose, name="plan_choose"),
    path("plans/<uuid:key>/sheets/", plans.sheets, name="plan_sheets"),
    path("plans/<uuid:key>/why/", plans.why, name="plan_why"),
    path("plans/<uuid:key>/compare/", plans.compared, name="plan_compare"),
    path("plans/<uuid:key>/evening.toml", plans.evening_file, name="plan_evening"),
    path("plans/<uuid:key>/remove/", plans.remove, name="plan_remove"),
    path("plans/<uuid:key>/back/", plans.back, name="plan_back"),
    path("plans/<uuid:key>/freeze/", plans_frozen.freeze, name="plan_freeze"),
    path("plans/<uuid:key>/unfreeze/", plans_frozen.unfreeze, name="plan_unfreeze"),
    path("plans/<uuid:key>/cancel-rest/", plans_frozen.cancel, name="plan_cancel"),
    path("plans/<uuid:key>/rest-back/", plans_frozen.rest_back, name="plan_rest_back"),
    path("plans/<uuid:key>/again/", plans_frozen.again, name="plan_again"),
    path("plans/<uuid:key>/files/<str:name>", plans_frozen.kept_file, name="plan_file"),
    path("plans/<uuid:key>/loads/<int:load>/", plans_frozen.load, name="plan_load"),
    path("plans/<uuid:key>/loads/<int:load>/developed/", plans_frozen.developed, name="plan_developed"),
    path("plans/<uuid:key>/loads/<int:load>/not-developed/", plans_frozen.undeveloped, name="plan_undeveloped"),
    path("plans/<uuid:key>/attach/", plans_frozen.attach, name="plan_attach"),
    path("short/", short_way.short, name="short"),
    path("short/why/", short_way.why, name="short_why"),
    path("short/load-<int:load>.pdf", short_way.run_sheet_pdf, name="short_pdf"),
    path("short/keep/", short_way.keep, name="short_keep"),
    path("demo/make/", start.demo_make, name="demo_make"),
    path("demo/remove/", start.demo_remove, name="demo_remove"),
    path("demo/back/", start.demo_back, name="demo_back"),
]
