"""Processes, each a line of versions that are never changed, and aims."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q

from wetside.planning.documents.words import Channel, Printing
from wetside.records.models.kept import LABEL_LENGTH, Kept, Line
from wetside.values.conditions import ClockRule


class Process(Kept):
    """A process by its name; what it consists of stands in its versions, the newest of which counts."""

    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    newest = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ("name_key",)
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(removed_at=None), name="process_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="process_has_name"),
            models.CheckConstraint(condition=Q(newest__gte=1), name="process_newest_positive"),
        )

    def __str__(self) -> str:
        return self.name


class ProcessVersion(Line):
    """One state of a process: developer, dilution, temperature, clock rule and the ordered list of baths (``facts``).

    A change of baths, pre-soak, clock rule, agitation or dilution is a new version; a version is never rewritten.
    """

    process = models.ForeignKey(Process, on_delete=models.PROTECT, related_name="versions")
    version = models.PositiveIntegerField()
    made_at = models.DateTimeField(auto_now_add=True)
    made_by = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    why = models.CharField(max_length=400, blank=True, default="")
    developer = models.CharField(max_length=LABEL_LENGTH)
    dilution = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    temp_c = models.FloatField()
    clock = models.CharField(max_length=40, choices=[(word.value, word.value) for word in ClockRule])
    facts = models.JSONField(default=dict, blank=True)

    class Meta:
        ordering = ("process", "version")
        constraints = (
            models.UniqueConstraint(fields=["process", "version"], name="process_version_once"),
            models.CheckConstraint(condition=Q(version__gte=1), name="process_version_positive"),
            models.CheckConstraint(condition=Q(temp_c__gte=5, temp_c__lte=45), name="process_temp_in_limits"),
            models.CheckConstraint(
                condition=Q(clock__in=[word.value for word in ClockRule]), name="process_clock_known"
            ),
        )

    def __str__(self) -> str:
        return f"{self.process_id} {self.version}"


class Aim(Kept):
    """The density range that a printing asks for. [density]"""

    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    printing = models.CharField(max_length=40, choices=[(word.value, word.value) for word in Printing])
    density_range = models.FloatField()
    tolerance = models.FloatField(null=True, blank=True)
    channel = models.CharField(
        max_length=40, choices=[(word.value, word.value) for word in Channel], default=Channel.VISUAL.value
    )

    class Meta:
        ordering = ("name_key",)
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(removed_at=None), name="aim_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="aim_has_name"),
            models.CheckConstraint(
                condition=Q(density_range__gte=0.2, density_range__lte=3.5), name="aim_range_in_limits"
            ),
            models.CheckConstraint(
                condition=Q(tolerance=None) | Q(tolerance__gte=0.01, tolerance__lte=1), name="aim_tolerance_in_limits"
            ),
            models.CheckConstraint(condition=Q(printing__in=[w.value for w in Printing]), name="aim_printing_known"),
            models.CheckConstraint(condition=Q(channel__in=[w.value for w in Channel]), name="aim_channel_known"),
            models.CheckConstraint(
                condition=Q(tolerance=None) | Q(tolerance__lte=F("density_range")), name="aim_tolerance_below_range"
            ),
        )

    def __str__(self) -> str:
        return self.name
