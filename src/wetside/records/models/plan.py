"""Plans: an evening's inputs, what was planned of them, and the files that were frozen with them."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from wetside.records.models.kept import LABEL_LENGTH, Kept, Line
from wetside.records.models.sheet import Sheet


class Plan(Kept):
    """An evening: its choices while it is a draft, its document once it is frozen.

    ``choices`` says what was picked (process, vessels, aim, rules); ``evening`` is the whole evening file that it
    stands on and ``document`` the plan, both written when it is frozen: later edits of the shelf do not change them.
    ``short`` marks a plan of four answers, without sheets of the records.
    """

    name = models.CharField(max_length=LABEL_LENGTH)
    date = models.DateField(null=True, blank=True)
    short = models.BooleanField(default=False)
    choices = models.JSONField(default=dict, blank=True)
    frozen_at = models.DateTimeField(null=True, blank=True)
    evening = models.TextField(blank=True, default="")
    document = models.JSONField(null=True, blank=True)

    class Meta:
        ordering = ("-made_at",)
        indexes = (models.Index(fields=["-made_at"], condition=Q(removed_at=None), name="plan_newest"),)
        constraints = (
            models.CheckConstraint(condition=~Q(name=""), name="plan_has_name"),
            models.CheckConstraint(
                condition=Q(frozen_at=None) | (~Q(evening="") & Q(document__isnull=False)),
                name="plan_frozen_is_complete",
            ),
        )

    def __str__(self) -> str:
        return self.name


class PlanSheet(Line):
    """A sheet's place in a plan; ``load`` is set once the plan is frozen."""

    plan = models.ForeignKey(Plan, on_delete=models.CASCADE, related_name="places")
    sheet = models.ForeignKey(Sheet, on_delete=models.PROTECT, related_name="places")
    rank = models.PositiveIntegerField()
    load = models.PositiveIntegerField(null=True, blank=True)

    class Meta:
        ordering = ("plan", "rank")
        constraints = (models.UniqueConstraint(fields=["plan", "sheet"], name="plan_sheet_once"),)

    def __str__(self) -> str:
        return f"{self.rank}"


class Attachment(Line):
    """A file that belongs to a record, kept in the data folder under the hash of its content."""

    plan = models.ForeignKey(Plan, null=True, blank=True, on_delete=models.PROTECT, related_name="attachments")
    sheet = models.ForeignKey(Sheet, null=True, blank=True, on_delete=models.PROTECT, related_name="attachments")
    name = models.CharField(max_length=LABEL_LENGTH)
    kind = models.CharField(max_length=LABEL_LENGTH)
    sha256 = models.CharField(max_length=64)
    size_bytes = models.PositiveBigIntegerField()
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ("plan", "sheet", "name")
        constraints = (
            models.CheckConstraint(
                condition=Q(plan__isnull=False, sheet=None) | Q(plan=None, sheet__isnull=False),
                name="attachment_belongs_to_one",
            ),
            models.CheckConstraint(condition=Q(sha256__regex=r"^[0-9a-f]{64}$"), name="attachment_hash_is_one"),
        )

    def __str__(self) -> str:
        return self.name
