"""Runs and their events, and what the pages' outboxes have handed over."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from wetside.records.models.kept import LABEL_LENGTH, Kept, Line
from wetside.records.models.plan import Plan


class RunState(models.TextChoices):
    """Where a run stands."""

    READY = "ready"
    RUNNING = "running"
    ENDED = "ended"
    ABANDONED = "abandoned"


class Run(Kept):
    """A load as it happened; what happened stands in its events."""

    plan = models.ForeignKey(Plan, null=True, blank=True, on_delete=models.PROTECT, related_name="runs")
    load = models.PositiveIntegerField(default=1)
    name = models.CharField(max_length=LABEL_LENGTH)
    state = models.CharField(max_length=20, choices=RunState.choices, default=RunState.READY)
    rehearsal = models.BooleanField(default=False)

    class Meta:
        ordering = ("-made_at",)
        indexes = (
            models.Index(fields=["state", "plan"], name="run_by_state"),
            models.Index(fields=["-made_at"], condition=Q(removed_at=None), name="run_newest"),
        )
        constraints = (
            models.CheckConstraint(condition=Q(load__gte=1), name="run_load_positive"),
            models.CheckConstraint(condition=Q(state__in=[s.value for s in RunState]), name="run_state_known"),
            models.UniqueConstraint(
                fields=["plan", "load"],
                condition=Q(removed_at=None, rehearsal=False, plan__isnull=False) & ~Q(state="abandoned"),
                name="run_once_a_load",
            ),
        )

    def __str__(self) -> str:
        return self.name


class RunEvent(models.Model):
    """One fact of a run, never changed and never removed: the database refuses both."""

    run = models.ForeignKey(Run, on_delete=models.PROTECT, related_name="events")
    seq = models.PositiveIntegerField()
    kind = models.CharField(max_length=60)
    version = models.PositiveIntegerField()
    at_utc = models.DateTimeField()
    boot_s = models.FloatField()
    boot_id = models.CharField(max_length=64)
    device = models.CharField(max_length=64)
    device_number = models.PositiveBigIntegerField()
    data = models.JSONField(default=dict)

    class Meta:
        ordering = ("run", "seq")
        constraints = (
            models.UniqueConstraint(fields=["run", "seq"], name="event_seq_once"),
            models.UniqueConstraint(fields=["run", "device", "device_number"], name="event_once_a_device"),
            models.CheckConstraint(condition=Q(seq__gte=1), name="event_seq_from_one"),
            models.CheckConstraint(condition=Q(version__gte=1), name="event_version_from_one"),
        )

    def __str__(self) -> str:
        return f"{self.seq} {self.kind}"


class Receipt(Line):
    """What a page's outbox handed over: taken once, and answered the same way when it is sent again."""

    device = models.CharField(max_length=64)
    number = models.PositiveBigIntegerField()
    kind = models.CharField(max_length=60)
    taken_at = models.DateTimeField(auto_now_add=True)
    body = models.JSONField()
    answer = models.JSONField()

    class Meta:
        ordering = ("device", "number")
        constraints = (models.UniqueConstraint(fields=["device", "number"], name="receipt_once"),)

    def __str__(self) -> str:
        return f"{self.device} {self.number}"
