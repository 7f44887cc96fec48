"""The pages as an application of the framework."""

from __future__ import annotations

from django.apps import AppConfig


class WebConfig(AppConfig):
    """Pages, templates and static files."""

    name = "wetside.web"
    label = "web"
