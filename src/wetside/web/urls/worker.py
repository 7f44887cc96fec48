"""Address of the pages' worker."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import worker

urlpatterns = [path("worker.js", worker.worker, name="worker")]
