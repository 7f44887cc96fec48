"""Bottles with their ledgers, vessels, and instruments with their checks."""

from __future__ import annotations

from django.db import models
from django.db.models import F, Q

from wetside.planning.documents.words import FixClass, VesselKind
from wetside.records.models.kept import LABEL_LENGTH, NOTE_LENGTH, Kept, Line


class BottleRole(models.TextChoices):
    """What a bottle is for; a waste vessel collects."""

    DEVELOPER = "developer"
    STOP = "stop"
    FIXER = "fixer"
    WASH_AID = "wash-aid"
    WETTING = "wetting"
    TONER = "toner"
    WASTE_DEVELOPER = "waste-developer"
    WASTE_FIXER = "waste-fixer"
    WASTE_TONER = "waste-toner"
    OTHER = "other"


class BottleForm(models.TextChoices):
    """How it stands in the bottle; its keeping and its capacity depend on it."""

    CONCENTRATE = "concentrate"
    STOCK = "stock"
    WORKING = "working"
    POWDER = "powder"


class Bottle(Kept):
    """What stands on the shelf; capacity, price and the rest of its keys stand in ``facts``.

    ``contents`` are the known ingredients with their concentrations, by the formula it was mixed from or as the user
    read them in the product's safety sheet; empty where nobody said. [%]

    ``left_ml`` and ``seen_units`` are the sums of the ledger, kept beside it by the service in the same transaction
    and compared by ``wetside check``; ``left_ml`` is None where nobody said how much there is. A unit of film is
    516 cm2.
    """

    mark = models.CharField(max_length=LABEL_LENGTH)
    mark_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    holds = models.CharField(max_length=LABEL_LENGTH)
    role = models.CharField(max_length=20, choices=BottleRole.choices, default=BottleRole.OTHER)
    product = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    left_ml = models.FloatField(null=True, blank=True)
    seen_units = models.FloatField(default=0.0)
    mixed = models.DateField(null=True, blank=True)
    opened = models.DateField(null=True, blank=True)
    form = models.CharField(max_length=20, choices=BottleForm.choices, blank=True, default="")
    dilution = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    contents = models.JSONField(default=dict, blank=True)
    keeps_until = models.DateField(null=True, blank=True)
    emptied_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ("mark_key",)
        constraints = (
            models.UniqueConstraint(
                fields=["mark_key"], condition=Q(removed_at=None, emptied_at=None), name="bottle_mark_once"
            ),
            models.CheckConstraint(condition=~Q(mark=""), name="bottle_has_mark"),
            models.CheckConstraint(condition=Q(left_ml=None) | Q(left_ml__gte=0), name="bottle_not_below_nothing"),
            models.CheckConstraint(condition=Q(seen_units__gte=0), name="bottle_seen_not_negative"),
            models.CheckConstraint(condition=Q(role__in=[role.value for role in BottleRole]), name="bottle_role_known"),
            models.CheckConstraint(
                condition=Q(form__in=["", *[form.value for form in BottleForm]]), name="bottle_form_known"
            ),
        )

    def __str__(self) -> str:
        return self.mark


class BottleLineKind(models.TextChoices):
    """What happened to a bottle."""

    FILLED = "filled"
    DRAWN = "drawn"
    RETURNED = "returned"
    FILM = "film"
    CLEARING = "clearing"
    COUNTED = "counted"
    EMPTIED = "emptied"


class BottleLine(Line):
    """One line of a bottle's ledger.

    ``change_ml`` is signed; ``area_units`` the film that went through, by ``film_class``; a clearing time keeps the
    temperature and the film that it was found with.
    """

    bottle = models.ForeignKey(Bottle, on_delete=models.PROTECT, related_name="ledger")
    number = models.PositiveIntegerField()
    at = models.DateTimeField()
    by = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    kind = models.CharField(max_length=20, choices=BottleLineKind.choices)
    change_ml = models.FloatField(default=0.0)
    area_units = models.FloatField(default=0.0)
    film_class = models.CharField(max_length=20, blank=True, default="")
    clearing_s = models.FloatField(null=True, blank=True)
    temp_c = models.FloatField(null=True, blank=True)
    film = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    fresh = models.BooleanField(default=False)
    note = models.CharField(max_length=NOTE_LENGTH, blank=True, default="")
    drawn_for = models.ForeignKey(Bottle, null=True, blank=True, on_delete=models.PROTECT, related_name="drawn_from")
    undoes = models.OneToOneField("self", null=True, blank=True, on_delete=models.PROTECT, related_name="undone_by")

    class Meta:
        ordering = ("bottle", "number")
        constraints = (
            models.UniqueConstraint(fields=["bottle", "number"], name="bottle_line_number_once"),
            models.CheckConstraint(
                condition=Q(kind__in=[kind.value for kind in BottleLineKind]), name="bottle_line_kind_known"
            ),
            models.CheckConstraint(
                condition=Q(film_class__in=["", *[word.value for word in FixClass]]), name="bottle_line_class_known"
            ),
            models.CheckConstraint(
                condition=~Q(kind="clearing") | Q(clearing_s__gt=0, temp_c__isnull=False),
                name="bottle_clearing_has_time_and_temp",
            ),
            models.CheckConstraint(
                condition=~Q(kind="drawn") | Q(change_ml__lte=0) | Q(undoes__isnull=False),
                name="bottle_drawing_takes",
            ),
        )

    def __str__(self) -> str:
        return f"{self.kind} {self.number}"


class Vessel(Kept):
    """A drum, a set of tubes, a tray or hangers in a tank; places by size and the rest stand in ``facts``.

    Pour, drain and drying are what the user said, or what was learned and adopted. [s]

    ``follows_s`` is how fast the liquid in it follows its jacket, a relaxation time [s], and ``jacket_off_c`` by how
    much the jacket stands above the process's temperature [C]; both are learned in runs and adopted, None until then.
    """

    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    kind = models.CharField(max_length=20, choices=[(word.value, word.value) for word in VesselKind])
    min_ml = models.FloatField()
    max_ml = models.FloatField()
    pour_s = models.FloatField(default=10.0)
    drain_s = models.FloatField(default=15.0)
    dries_s = models.FloatField(default=900.0)
    follows_s = models.FloatField(null=True, blank=True, default=None)
    jacket_off_c = models.FloatField(null=True, blank=True, default=None)

    class Meta:
        ordering = ("name_key",)
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(removed_at=None), name="vessel_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="vessel_has_name"),
            models.CheckConstraint(condition=Q(min_ml__gte=1), name="vessel_wets_with_something"),
            models.CheckConstraint(condition=Q(max_ml__gte=F("min_ml")), name="vessel_least_below_most"),
            models.CheckConstraint(condition=Q(kind__in=[w.value for w in VesselKind]), name="vessel_kind_known"),
            models.CheckConstraint(
                condition=Q(pour_s__gte=0, pour_s__lte=300, drain_s__gte=0, drain_s__lte=300, dries_s__gte=0),
                name="vessel_times_in_limits",
            ),
            models.CheckConstraint(
                condition=Q(follows_s=None) | Q(follows_s__gte=30, follows_s__lte=3600), name="vessel_follows_in_limits"
            ),
            models.CheckConstraint(
                condition=Q(jacket_off_c=None) | Q(jacket_off_c__gte=-15, jacket_off_c__lte=15),
                name="vessel_jacket_in_limits",
            ),
        )

    def __str__(self) -> str:
        return self.name


class InstrumentKind(models.TextChoices):
    """What an instrument measures."""

    THERMOMETER = "thermometer"
    DENSITOMETER = "densitometer"
    MEASURE = "measure"
    METER = "meter"
    CLOCK = "clock"


class Instrument(Kept):
    """A thermometer, a densitometer, a measure; ``reads_high`` is what it shows too much, in its unit.

    Degrees for a thermometer, density for a densitometer, millilitres for a measure, stops for a meter.
    """

    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    kind = models.CharField(max_length=20, choices=InstrumentKind.choices)
    reads_high = models.FloatField(default=0.0)
    checked = models.DateField(null=True, blank=True)

    class Meta:
        ordering = ("kind", "name_key")
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(removed_at=None), name="instrument_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="instrument_has_name"),
            models.CheckConstraint(
                condition=Q(kind__in=[kind.value for kind in InstrumentKind]), name="instrument_kind_known"
            ),
        )

    def __str__(self) -> str:
        return self.name


class InstrumentCheck(Line):
    """One comparison of an instrument with a reference; the offset is what it read less the reference."""

    instrument = models.ForeignKey(Instrument, on_delete=models.PROTECT, related_name="checks")
    at = models.DateTimeField()
    by = models.CharField(max_length=LABEL_LENGTH, blank=True, default="")
    against = models.CharField(max_length=LABEL_LENGTH)
    reference = models.FloatField()
    read = models.FloatField()
    note = models.CharField(max_length=NOTE_LENGTH, blank=True, default="")

    class Meta:
        ordering = ("instrument", "at")

    def __str__(self) -> str:
        return f"{self.read} against {self.reference}"
