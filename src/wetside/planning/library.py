"""What the planner may look up beside the evening file: shipped and own published figures."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.development import ContinuousCut, PresoakAdvice, StartingPoint, TimePair
    from wetside.exposure import ReciprocityModel


class PublishedReciprocity(NamedTuple):
    """A film's published loss of speed in long exposures."""

    film: str
    model: ReciprocityModel
    source: str


class Library(NamedTuple):
    """Published figures; the service fills it from data files and the user's own folders.

    ``pairs`` and ``reciprocity`` are keyed by :func:`~wetside.values.names.name_key`.
    """

    points: tuple[StartingPoint, ...] = ()
    pairs: Mapping[str, tuple[TimePair, ...]] = {}
    reciprocity: Mapping[str, PublishedReciprocity] = {}
    cuts: tuple[ContinuousCut, ...] = ()
    presoak_against: tuple[PresoakAdvice, ...] = ()
