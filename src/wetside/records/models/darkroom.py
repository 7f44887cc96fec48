"""The darkroom itself: one row with what holds for all pages."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from wetside.records.models.kept import LABEL_LENGTH, Kept


class Units(models.TextChoices):
    """Units that quantities are shown in; both are understood wherever something is typed."""

    METRIC = "metric"
    US = "us"


class DecimalSign(models.TextChoices):
    """How decimals are shown; both are understood wherever something is typed."""

    POINT = "point"
    COMMA = "comma"


class Darkroom(Kept):
    """Name, units, decimal sign, paper and time zone; there is exactly one row."""

    only = models.PositiveSmallIntegerField(default=1, unique=True)
    name = models.CharField(max_length=LABEL_LENGTH, default="darkroom")
    units = models.CharField(max_length=10, choices=Units.choices, default=Units.METRIC)
    decimal_sign = models.CharField(max_length=10, choices=DecimalSign.choices, default=DecimalSign.POINT)
    paper = models.CharField(max_length=10, default="a4")
    time_zone = models.CharField(max_length=60, blank=True, default="")

    class Meta:
        constraints = (
            models.CheckConstraint(condition=Q(only=1), name="darkroom_is_one"),
            models.CheckConstraint(condition=Q(paper__in=["a4", "letter"]), name="darkroom_paper_known"),
            models.CheckConstraint(condition=Q(units__in=["metric", "us"]), name="darkroom_units_known"),
            models.CheckConstraint(condition=Q(decimal_sign__in=["point", "comma"]), name="darkroom_decimal_known"),
        )

    def __str__(self) -> str:
        return self.name
