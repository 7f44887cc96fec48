"""The records as an application of the framework."""

from __future__ import annotations

from django.apps import AppConfig


class RecordsConfig(AppConfig):
    """Tables of the darkroom."""

    name = "wetside.records"
    label = "records"
    default_auto_field = "django.db.models.BigAutoField"
