"""Addresses: runs."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import runs, runs_live, runs_sound

urlpatterns = [
    path("runs/", runs.runs, name="runs"),
    path("runs/new/", runs.new, name="run_new"),
    path("runs/<uuid:key>/", runs.run, name="run"),
    path("runs/<uuid:key>/rules.json", runs_live.rules, name="run_rules"),
    path("runs/<uuid:key>/facts", runs_live.facts, name="run_facts"),
    path("runs/<uuid:key>/commands", runs.commands, name="run_commands"),
    path("runs/<uuid:key>/watch", runs_live.watch, name="run_watch"),
    path("runs/<uuid:key>/clips.json", runs_sound.clips, name="run_clips"),
    path("runs/clips/<slug:name>.wav", runs_sound.clip, name="run_clip"),
    path("plans/<uuid:key>/loads/<int:load>/run/", runs.start_planned, name="plan_run"),
    path("short/start/", runs.start_short, name="short_start"),
]
