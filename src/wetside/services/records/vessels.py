"""Vessels: made and corrected; what their runs teach stands in :mod:`wetside.services.records.runs_learned`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.records.models import Vessel
from wetside.services.records.changes import change, find, make
from wetside.services.records.documents import columns_and_facts, document_of, raw_of

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

KEYS = ("name", "kind", "places", "min", "max", "pour", "drain", "dries", "spacing")
"""Keys of the evening file's vessel, in the order in which a page asks for them."""


def vessels() -> list[Vessel]:
    """Vessels of the darkroom, by name."""
    return list(Vessel.kept.all())


def make_vessel(raw: Mapping[str, Any]) -> Vessel:
    """Add a vessel.

    Raises
    ------
    WetsideError
        With the fields of what cannot be taken; or if its name is taken.
    """
    return make(Vessel, columns_and_facts("vessel", document_of("vessel", raw)))


def change_vessel(vessel: Vessel, raw: Mapping[str, Any], revision: int | None) -> Vessel:
    """Correct a vessel.

    Raises
    ------
    WetsideError
        As :func:`make_vessel`; or if it was changed meanwhile.
    """
    return change(vessel, columns_and_facts("vessel", document_of("vessel", raw)), revision=revision)


def raw_of_vessel(vessel: Vessel) -> dict[str, Any]:
    """What stands in the fields of a vessel's form, in plain form."""
    return raw_of("vessel", vessel)


def places_of(vessel: Vessel) -> tuple[tuple[str, int], ...]:
    """Sizes with the sheets that a vessel takes of each; one row ``any`` where it takes as many of every size."""
    found: tuple[tuple[str, int], ...] = document_of("vessel", raw_of("vessel", vessel)).places
    return found


def find_vessel(key: UUID) -> Vessel:
    """Vessel by its identity, removed ones too.

    Raises
    ------
    UnknownNameError
        If there is none.
    """
    return find(Vessel, key, removed=True)


def removed_vessel(key: UUID) -> Vessel | None:
    """Vessel that was removed; None where it was not, or where there is none."""
    found: Vessel | None = Vessel.objects.filter(pk=key).exclude(removed_at=None).first()
    return found
