"""What the planner may look up beside the evening file: shipped and own published figures."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from wetside.chemistry import CombinationTable, VesselMaterial
    from wetside.development import ContinuousCut, PresoakAdvice, PublishedRange, ReuseRule, StartingPoint, TimePair
    from wetside.exposure import ReciprocityModel


class PublishedReciprocity(NamedTuple):
    """A film's published loss of speed in long exposures."""

    film: str
    model: ReciprocityModel
    source: str


class Library:
    """Published figures, each kind read when it is first asked for: an evening of one's own times needs none.

    Parameters
    ----------
    load : mapping of str to callable, optional
        For each kind a function without arguments; kinds that are absent are empty.

    Notes
    -----
    ``pairs`` and ``reciprocity`` are keyed by :func:`~wetside.values.names.name_key`.
    """

    def __init__(self, load: Mapping[str, Callable[[], Any]] | None = None) -> None:
        self._load = dict(load or {})

    def _read(self, kind: str, empty: Any) -> Any:
        return self._load[kind]() if kind in self._load else empty

    @cached_property
    def points(self) -> tuple[StartingPoint, ...]:
        """Cited developing times."""
        points: tuple[StartingPoint, ...] = self._read("points", ())
        return points

    @cached_property
    def pairs(self) -> Mapping[str, tuple[TimePair, ...]]:
        """Times at two temperatures, by developer."""
        pairs: Mapping[str, tuple[TimePair, ...]] = self._read("pairs", {})
        return pairs

    @cached_property
    def reciprocity(self) -> Mapping[str, PublishedReciprocity]:
        """Loss of speed in long exposures, by film."""
        reciprocity: Mapping[str, PublishedReciprocity] = self._read("reciprocity", {})
        return reciprocity

    @cached_property
    def cuts(self) -> tuple[ContinuousCut, ...]:
        """What sheets say of continuous agitation."""
        cuts: tuple[ContinuousCut, ...] = self._read("cuts", ())
        return cuts

    @cached_property
    def reuse_rules(self) -> tuple[ReuseRule, ...]:
        """What makers print of developer used again."""
        rules: tuple[ReuseRule, ...] = self._read("reuse_rules", ())
        return rules

    @cached_property
    def combinations(self) -> CombinationTable | None:
        """What must never come together."""
        combinations: CombinationTable | None = self._read("combinations", None)
        return combinations

    @cached_property
    def temperature_ranges(self) -> tuple[PublishedRange, ...]:
        """Temperatures that sources name for developing."""
        ranges: tuple[PublishedRange, ...] = self._read("temperature_ranges", ())
        return ranges

    @cached_property
    def materials(self) -> Mapping[str, VesselMaterial]:
        """Specific heats of what vessels are made of, by the word for it."""
        materials: Mapping[str, VesselMaterial] = self._read("materials", {})
        return materials

    @cached_property
    def presoak_against(self) -> tuple[PresoakAdvice, ...]:
        """Makers who advise against a pre-soak."""
        advice: tuple[PresoakAdvice, ...] = self._read("presoak_against", ())
        return advice
