"""Addresses: runs."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import (
    runs,
    runs_after,
    runs_booking,
    runs_compare,
    runs_dark,
    runs_live,
    runs_look,
    runs_mishap,
    runs_sound,
    runs_taken,
    runs_untied,
)

urlpatterns = [
    path("runs/", runs.runs, name="runs"),
    path("runs/new/", runs.new, name="run_new"),
    path("runs/log/", runs_taken.look, name="run_log"),
    path("runs/log/take/", runs_taken.take, name="run_log_take"),
    path("runs/<uuid:key>/untie/", runs_untied.untie, name="run_untie"),
    path("runs/<uuid:key>/tie-again/", runs_untied.tie, name="run_tie"),
    path("runs/<uuid:key>/remove/", runs_untied.remove, name="run_remove"),
    path("runs/<uuid:key>/back/", runs_untied.back, name="run_back"),
    path("runs/compare/", runs_compare.compare, name="run_compare"),
    path("runs/<uuid:key>/", runs.run, name="run"),
    path("runs/<uuid:key>/rules.json", runs_live.rules, name="run_rules"),
    path("runs/<uuid:key>/facts", runs_live.facts, name="run_facts"),
    path("runs/<uuid:key>/settle/", runs_compare.settle, name="run_settle"),
    path("runs/<uuid:key>/look/", runs_look.look, name="run_look"),
    path("runs/<uuid:key>/look/back/", runs_look.back, name="run_look_back"),
    path("runs/<uuid:key>/look/take/", runs_look.take, name="run_look_take"),
    path("runs/<uuid:key>/look/leave/", runs_look.leave, name="run_look_leave"),
    path("plans/<uuid:key>/look/undo/", runs_look.undo, name="plan_look_undo"),
    path("runs/<uuid:key>/commands", runs.commands, name="run_commands"),
    path("runs/<uuid:key>/watch", runs_live.watch, name="run_watch"),
    path("runs/<uuid:key>/clips.json", runs_sound.clips, name="run_clips"),
    path("runs/clips/<slug:name>.wav", runs_sound.clip, name="run_clip"),
    path("runs/<uuid:key>/loading/", runs_dark.run_loading, name="run_loading"),
    path("runs/<uuid:key>/loading.wav", runs_dark.run_loading_sound, name="run_loading_sound"),
    path("runs/<uuid:key>/dark/", runs_dark.dark, name="run_dark"),
    path("runs/<uuid:key>/dark/words.json", runs_dark.words, name="run_dark_words"),
    path("runs/<uuid:key>/after/", runs_after.after, name="run_after"),
    path("runs/<uuid:key>/after/reckon/", runs_booking.reckon, name="run_reckon"),
    path("runs/<uuid:key>/after/undo/", runs_after.unbook, name="run_unbook"),
    path("runs/<uuid:key>/after/dry/", runs_after.dry, name="run_dry"),
    path("runs/<uuid:key>/hanging/", runs_after.hanging, name="run_hanging"),
    path("runs/<uuid:key>/mishap/", runs_mishap.mishap, name="run_mishap"),
    path("runs/<uuid:key>/mishap/back/", runs_mishap.back, name="run_mishap_back"),
    path("plans/<uuid:key>/loads/<int:load>/loading/", runs_dark.plan_loading, name="plan_loading"),
    path("plans/<uuid:key>/loads/<int:load>/loading.wav", runs_dark.plan_loading_sound, name="plan_loading_sound"),
    path("plans/<uuid:key>/loads/<int:load>/run/", runs.start_planned, name="plan_run"),
    path("short/start/", runs.start_short, name="short_start"),
]
