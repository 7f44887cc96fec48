"""Holders with the states of their sides, and the sheet with its story."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from wetside.planning.documents.words import Importance
from wetside.records.models.film import Film, FilmLot
from wetside.records.models.kept import LABEL_LENGTH, Kept
from wetside.records.models.process import Aim, Process


class Holder(Kept):
    """A film holder by its number or name; ``notch`` is the user's own code cut into its flap."""

    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    size = models.CharField(max_length=40, blank=True, default="")
    notch = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")

    class Meta:
        ordering = ("name_key",)
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(removed_at=None), name="holder_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="holder_has_name"),
        )

    def __str__(self) -> str:
        return self.name


class SideState(models.TextChoices):
    """What is known of a holder's side."""

    EMPTY = "empty"
    LOADED = "loaded"
    EXPOSED = "exposed"
    SUSPECT = "suspect"
    UNLOADED = "unloaded"


class HolderSide(Kept):
    """One side of a holder, and what lies in it; an ``unloaded`` one waits to be dusted and loaded anew."""

    holder = models.ForeignKey(Holder, on_delete=models.PROTECT, related_name="sides")
    side = models.CharField(max_length=40)
    state = models.CharField(max_length=20, choices=SideState.choices, default=SideState.EMPTY)
    film = models.ForeignKey(Film, null=True, blank=True, on_delete=models.PROTECT, related_name="holder_sides")
    lot = models.ForeignKey(FilmLot, null=True, blank=True, on_delete=models.PROTECT, related_name="holder_sides")
    loaded_on = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ("holder", "side")
        constraints = (
            models.UniqueConstraint(fields=["holder", "side"], condition=Q(removed_at=None), name="side_once_a_holder"),
            models.CheckConstraint(condition=~Q(side=""), name="side_has_name"),
            models.CheckConstraint(
                condition=Q(state__in=[state.value for state in SideState]), name="side_state_known"
            ),
            models.CheckConstraint(
                condition=Q(state__in=["loaded", "exposed", "suspect"]) | Q(film=None), name="side_film_only_if_loaded"
            ),
        )

    def __str__(self) -> str:
        return self.side


class SheetState(models.TextChoices):
    """Where a sheet stands: it waits, hangs from a frozen plan, is developed, or is lost."""

    WAITING = "waiting"
    PLANNED = "planned"
    DEVELOPED = "developed"
    LOST = "lost"


class Sheet(Kept):
    """One piece of film and its story: a label or a holder side, and a film, are enough.

    Readings, exposure meant and set, mishaps and the second exposure stand in ``facts``.
    """

    label = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    holder = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    label_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    side = models.ForeignKey(HolderSide, null=True, blank=True, on_delete=models.PROTECT, related_name="sheets")
    film = models.ForeignKey(Film, on_delete=models.PROTECT, related_name="sheets")
    lot = models.ForeignKey(FilmLot, null=True, blank=True, on_delete=models.PROTECT, related_name="sheets")
    size = models.CharField(max_length=40, blank=True, default="")
    process = models.ForeignKey(Process, null=True, blank=True, on_delete=models.PROTECT, related_name="sheets")
    aim = models.ForeignKey(Aim, null=True, blank=True, on_delete=models.PROTECT, related_name="sheets")
    n = models.FloatField(null=True, blank=True)
    scene_stops = models.FloatField(null=True, blank=True)
    exposed = models.DateField(null=True, blank=True)
    importance = models.CharField(
        max_length=20, choices=[(w.value, w.value) for w in Importance], default=Importance.ORDINARY.value
    )
    suspect = models.BooleanField(default=False)
    twin = models.ForeignKey("self", null=True, blank=True, on_delete=models.SET_NULL, related_name="twins")
    state = models.CharField(max_length=20, choices=SheetState.choices, default=SheetState.WAITING)
    developed_at = models.DateTimeField(null=True, blank=True)
    negative = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")

    class Meta:
        ordering = ("exposed", "made_at", "label_key")
        indexes = (
            models.Index(fields=["state", "exposed", "made_at"], condition=Q(removed_at=None), name="sheet_waiting"),
            models.Index(fields=["film", "state"], name="sheet_of_film"),
            models.Index(fields=["process", "state"], name="sheet_of_process"),
            models.Index(fields=["aim", "state"], name="sheet_of_aim"),
            models.Index(fields=["demo"], condition=Q(demo=True), name="sheet_of_demo"),
            models.Index(fields=["holder"], condition=Q(removed_at=None), name="sheet_of_holder"),
            models.Index(
                fields=["-removed_at", "-made_at"], condition=Q(removed_at__isnull=False), name="sheet_removed"
            ),
        )
        constraints = (
            models.CheckConstraint(condition=~Q(label="") | ~Q(holder=""), name="sheet_has_label_or_holder"),
            models.UniqueConstraint(
                fields=["label_key"],
                condition=Q(removed_at=None, state__in=["waiting", "planned"]),
                name="sheet_label_once_while_waiting",
            ),
            models.UniqueConstraint(
                fields=["side"],
                condition=Q(removed_at=None, state__in=["waiting", "planned"], side__isnull=False),
                name="sheet_one_a_side",
            ),
            models.CheckConstraint(condition=Q(n=None) | Q(n__gte=-4, n__lte=4), name="sheet_n_in_limits"),
            models.CheckConstraint(
                condition=Q(scene_stops=None) | Q(scene_stops__gte=1.5, scene_stops__lte=15),
                name="sheet_scene_in_limits",
            ),
            models.CheckConstraint(
                condition=Q(importance__in=[w.value for w in Importance]), name="sheet_importance_known"
            ),
            models.CheckConstraint(
                condition=Q(state__in=[state.value for state in SheetState]), name="sheet_state_known"
            ),
            models.CheckConstraint(
                condition=Q(state="developed") | Q(developed_at=None), name="sheet_developed_only_if_so"
            ),
        )

    def __str__(self) -> str:
        return self.label or self.holder
