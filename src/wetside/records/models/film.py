"""Films, the lots that they were bought in, and developers."""

from __future__ import annotations

from django.db import models
from django.db.models import Q

from wetside.records.models.kept import LABEL_LENGTH, Kept


class Film(Kept):
    """An emulsion as sold; times, tests and reciprocity stand in ``facts``.

    ``ei`` is the exposure index that it is rated at; ``published`` the name under which shipped rows are looked up.
    """

    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    ei = models.FloatField(null=True, blank=True)
    published = models.CharField(max_length=LABEL_LENGTH, null=True, blank=True)  # noqa: DJ001 (unknown is not empty)

    class Meta:
        ordering = ("name_key",)
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(removed_at=None), name="film_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="film_has_name"),
            models.CheckConstraint(condition=Q(ei=None) | Q(ei__gte=0.1, ei__lte=100000), name="film_ei_in_limits"),
        )

    def __str__(self) -> str:
        return self.name


class FilmLot(Kept):
    """A box or emulsion number of a film, and how long it is good."""

    film = models.ForeignKey(Film, on_delete=models.PROTECT, related_name="lots")
    number = models.CharField(max_length=LABEL_LENGTH)
    size = models.CharField(max_length=40, blank=True, default="")
    expires = models.DateField(null=True, blank=True)
    opened = models.DateField(null=True, blank=True)
    bought = models.PositiveIntegerField(null=True, blank=True)

    class Meta:
        ordering = ("film", "number")
        constraints = (
            models.UniqueConstraint(
                fields=["film", "number", "size"], condition=Q(removed_at=None), name="lot_number_once"
            ),
            models.CheckConstraint(condition=~Q(number=""), name="lot_has_number"),
        )

    def __str__(self) -> str:
        return self.number


class Developer(Kept):
    """A developer and how its times move with temperature; time pairs stand in ``facts``."""

    name = models.CharField(max_length=LABEL_LENGTH)
    name_key = models.CharField(max_length=LABEL_LENGTH, editable=False)
    published = models.CharField(max_length=LABEL_LENGTH, null=True, blank=True)  # noqa: DJ001 (unknown is not empty)

    class Meta:
        ordering = ("name_key",)
        constraints = (
            models.UniqueConstraint(fields=["name_key"], condition=Q(removed_at=None), name="developer_name_once"),
            models.CheckConstraint(condition=~Q(name=""), name="developer_has_name"),
        )

    def __str__(self) -> str:
        return self.name
