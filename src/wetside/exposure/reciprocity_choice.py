"""Several published answers to one long exposure, beside each other; the user chooses, and the maker is the default.

The maker's power or table, times added by published tests, Schwarzschild's exponent, and one user's rule do not agree.
None of them is averaged: one is used, the others stand beside it.
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import InputError, RefusedError, UnknownNameError
from wetside.exposure import _limits as limits
from wetside.exposure.reciprocity import ReciprocityModel, ReciprocityPower, check_reciprocity
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_SCHWARZSCHILD = (1.0 / 3.0, 1.0)
_PER_DOUBLING = (0.0, 2.0)
_FREE_S = (1e-3, 1000.0)
DIFFER_STOPS = 1.0 / 3.0
"""Our choice: models that differ by a third of a stop on the lens differ for the photographer. [stops]"""


class ReciprocityKind(StrEnum):
    """Where a model comes from, the one that is taken by default first."""

    OWN_TEST = "own-test"
    MAKER_TABLE = "maker-table"
    MAKER_POWER = "maker-power"
    ADDED_TIME = "added-time"
    SCHWARZSCHILD = "schwarzschild"
    PER_DOUBLING = "per-doubling"


_RANK = {kind: rank for rank, kind in enumerate(ReciprocityKind)}
_WHY = {
    ReciprocityKind.OWN_TEST: "exposure.reciprocity.default_own",
    ReciprocityKind.MAKER_TABLE: "exposure.reciprocity.default_maker",
    ReciprocityKind.MAKER_POWER: "exposure.reciprocity.default_maker",
}


class ReciprocityDoubling(NamedTuple):
    """Nothing up to a time, then a share of a stop more for each doubling.

    Parameters
    ----------
    free_s : float
        Longest time without a correction. [s]
    stops_per_doubling : float
        Stops added by each doubling beyond it. [stops]

    References
    ----------
    .. [1] apug-1435069: one user's test of one film, 16 s and a third of a stop.

    Examples
    --------
    >>> rule = ReciprocityDoubling(16.0, 1 / 3)
    >>> rule.corrected_s(16.0), round(rule.corrected_s(32.0), 1), round(rule.effective_s(40.32), 1)
    (16.0, 40.3, 32.0)
    """

    free_s: float
    stops_per_doubling: float

    def corrected_s(self, metered_s: float) -> float:
        """Return the time to give. [s]"""
        _check_doubling(self)
        metered = limits.running_time(metered_s)
        if metered <= self.free_s:
            return metered
        return max(metered, float(metered * (metered / self.free_s) ** self.stops_per_doubling))

    def effective_s(self, given_s: float) -> float:
        """Return what a given time is worth. [s]"""
        _check_doubling(self)
        given = limits.running_time(given_s)
        if given <= self.free_s:
            return given
        return float(self.free_s * (given / self.free_s) ** (1.0 / (1.0 + self.stops_per_doubling)))


class NamedReciprocity(NamedTuple):
    """A model with its name: what kind it is, for which film, who says so and how strong that is."""

    kind: ReciprocityKind
    model: ReciprocityModel
    source: str
    evidence: Evidence = Evidence.PUBLISHED
    film: str = ""


class ReciprocityAnswer(NamedTuple):
    """What one model makes of a metered time.

    ``time_s`` to give [s] and ``stops`` added [stops], None where the model ends before that time (``ends_s`` [s]).
    """

    kind: ReciprocityKind
    source: str
    evidence: Evidence
    time_s: float | None
    stops: float | None
    ends_s: float | None
    is_default: bool


class ReciprocityComparison(NamedTuple):
    """All answers to one metered time.

    ``spread_stops`` is the longest time over the shortest, of what is said of this film (what is assumed for any film
    does not count), as stops on the lens [stops]; ``spread_film_stops`` the
    same on the film, as the default model weighs time [stops], None where it ends before. ``reason`` says why the
    default is the default, as a code; ``differ`` whether the choice matters.
    """

    metered_s: float
    answers: tuple[ReciprocityAnswer, ...]
    default: ReciprocityAnswer
    reason: str
    spread_stops: float
    spread_film_stops: float | None
    differ: bool


class ThresholdClaim(NamedTuple):
    """Longest time that needs no correction, as one source prints it. [s]"""

    film: str
    threshold_s: float
    source: str


class ThresholdContradiction(NamedTuple):
    """Two thresholds of one film; ``most_stops`` is the largest difference that it makes with a power [stops]."""

    film: str
    low: ThresholdClaim
    high: ThresholdClaim
    most_stops: float
    code: str

    @property
    def params(self) -> dict[str, float | str]:
        """What the sentence of ``code`` needs."""
        return {
            "film": self.film,
            "low_s": self.low.threshold_s,
            "low_source": self.low.source,
            "high_s": self.high.threshold_s,
            "high_source": self.high.source,
            "most_stops": self.most_stops,
        }


def power_of_schwarzschild(p: float, threshold_s: float = 1.0) -> ReciprocityPower:
    """Model of Schwarzschild's exponent, ``effect = I * t ** p``.

    Parameters
    ----------
    p : float
        Schwarzschild's exponent, from a third to 1. [1]
    threshold_s : float
        Longest time that needs no correction. [s]

    Raises
    ------
    OutOfRangeError
        If the exponent or the threshold is not possible.

    References
    ----------
    .. [1] liquisearch-schwarzschild: 0.86 in his work on stars, 0.7 to 1 as a rule; not one constant for all films.

    Examples
    --------
    >>> round(power_of_schwarzschild(0.86).corrected_s(10.0), 2)
    14.55
    """
    limits.within("exposure.reciprocity.schwarzschild_out_of_range", p, _SCHWARZSCHILD)
    model = ReciprocityPower(1.0 / p, threshold_s)
    check_reciprocity(model)
    return model


def exponent_of_pair(metered_s: float, given_s: float) -> float:
    """Exponent of the power that one pair of times implies.

    Parameters
    ----------
    metered_s : float
        More than 1 s: at 1 s every power gives 1 s. [s]
    given_s : float
        At least as long. [s]

    Returns
    -------
    exponent_of_pair : float
        ``ln(given) / ln(metered)``. [1]

    Raises
    ------
    OutOfRangeError
        If a time or the exponent is not possible.

    Examples
    --------
    >>> round(exponent_of_pair(10.0, 20.4), 2)
    1.31
    """
    limits.within("exposure.reciprocity.pair_out_of_range", metered_s, (1.01, limits.TIME_S[1]))
    limits.within("exposure.reciprocity.pair_out_of_range", given_s, (metered_s, limits.RUNNING_TIME_S[1]))
    return limits.within(
        "exposure.reciprocity.exponent_out_of_range", math.log(given_s) / math.log(metered_s), (1.0, 3.0)
    )


def local_exponent(model: ReciprocityModel, low_s: float, high_s: float) -> float:
    """Slope of a model between two metered times on log-log axes; a power has the same everywhere.

    Parameters
    ----------
    model : ReciprocityModel
        Any.
    low_s, high_s : float
        Two metered times, the shorter first. [s]

    Raises
    ------
    OutOfRangeError
        If the times are not possible, or not in order.
    RefusedError
        If the model ends before the second time.

    Examples
    --------
    >>> round(local_exponent(ReciprocityPower(1.31), 10.0, 60.0), 2)
    1.31
    """
    low = limits.time(low_s)
    high = limits.within("exposure.reciprocity.pair_out_of_range", high_s, (low * 1.001, limits.TIME_S[1]))
    return math.log(model.corrected_s(high) / model.corrected_s(low)) / math.log(high / low)


def compare_reciprocity(
    metered_s: float, models: Sequence[NamedReciprocity], chosen: ReciprocityKind | None = None
) -> ReciprocityComparison:
    """Ask every model that is known for a film, and say which one is used and why.

    Parameters
    ----------
    metered_s : float
        Time that light, filters and bellows ask for. [s]
    models : sequence of NamedReciprocity
        Of one film.
    chosen : ReciprocityKind, optional
        The user's choice. Without one: own test, then the maker's table, then the maker's power, then others.

    Raises
    ------
    InputError
        If no model is known.
    UnknownNameError
        If the chosen kind is not among them.
    OutOfRangeError
        If a time or a model is not possible.
    RefusedError
        If all models end before this time.

    Examples
    --------
    >>> from wetside.exposure.reciprocity import ReciprocityGainer
    >>> film = [NamedReciprocity(ReciprocityKind.MAKER_POWER, ReciprocityPower(1.31), "sheet"),
    ...         NamedReciprocity(ReciprocityKind.ADDED_TIME, ReciprocityGainer(0.101), "tests")]
    >>> answer = compare_reciprocity(10.0, film)
    >>> answer.default.kind.value, round(answer.spread_stops, 2), answer.differ
    ('maker-power', 0.52, True)
    """
    metered = limits.time(metered_s)
    if not models:
        raise InputError("exposure.reciprocity.no_models")
    kinds = [named.kind for named in models]
    if chosen is not None and chosen not in kinds:
        known = tuple(dict.fromkeys(kind.value for kind in kinds))
        raise UnknownNameError("exposure.reciprocity.not_offered", value=chosen.value, known=known, nearest=None)
    # By kind, then in the order given: what the maker says of the film outranks what a book says of all films.
    order = sorted(range(len(models)), key=lambda place: (_RANK[models[place].kind], place))
    wanted = [place for place in order if chosen is None or models[place].kind is chosen]
    answers = [_answer(models[place], metered) for place in range(len(models))]
    default = next((place for place in wanted if answers[place].time_s is not None), None)
    if default is None:
        ends_s = max(answer.ends_s or 0.0 for answer in answers)
        raise RefusedError("exposure.reciprocity.all_end", metered_s=metered, last_s=ends_s)
    answers[default] = answers[default]._replace(is_default=True)
    reached = [(answer.evidence, answer.time_s) for answer in answers if answer.time_s is not None]
    # An exponent of no film in particular is shown, and makes no disagreement about this film.
    said = [time_s for evidence, time_s in reached if evidence is not Evidence.ASSUMED]
    times = said or [time_s for _, time_s in reached]
    spread = math.log2(max(times) / min(times))
    reason = _WHY.get(models[default].kind, "exposure.reciprocity.default_others")
    if chosen is not None:
        reason = "exposure.reciprocity.default_chosen"
    elif default != wanted[0]:
        reason = "exposure.reciprocity.default_goes_further"
    film_stops = _on_film(models[default].model, min(times), max(times))
    shown = tuple(answers[place] for place in order)
    return ReciprocityComparison(
        metered, shown, answers[default], reason, spread, film_stops, spread >= DIFFER_STOPS - 1e-12
    )


def threshold_contradictions(claims: Iterable[ThresholdClaim], p: float) -> tuple[ThresholdContradiction, ...]:
    """Thresholds of one film that its sources do not agree on, and what that is worth.

    Parameters
    ----------
    claims : iterable of ThresholdClaim
        Of any films.
    p : float
        The maker's exponent. [1]

    Returns
    -------
    contradictions : tuple of ThresholdContradiction
        One a film, between its lowest and its highest threshold.

    Raises
    ------
    OutOfRangeError
        If a threshold or the exponent is not possible.

    Notes
    -----
    Between the two thresholds one source corrects and the other does not: at most ``(p - 1) * log2(highest)`` stops,
    and nothing up to 1 s, where a power would shorten the time and is not let.

    Examples
    --------
    >>> both = [ThresholdClaim("Tolland 100", 0.5, "sheet"), ThresholdClaim("Tolland 100", 1.0, "note")]
    >>> [(found.most_stops, found.code) for found in threshold_contradictions(both, 1.31)]
    [(0.0, 'exposure.reciprocity.thresholds_harmless')]
    """
    limits.within("exposure.reciprocity.exponent_out_of_range", p, (1.0, 3.0))
    by_film: dict[str, list[ThresholdClaim]] = {}
    for claim in claims:
        limits.within("exposure.reciprocity.threshold_out_of_range", claim.threshold_s, (0.0, 1000.0))
        by_film.setdefault(claim.film, []).append(claim)
    found = []
    for film, said in by_film.items():
        low, high = (pick(said, key=lambda claim: claim.threshold_s) for pick in (min, max))
        if low.threshold_s == high.threshold_s:
            continue
        worth = ReciprocityPower(p, low.threshold_s).corrected_s(max(high.threshold_s, limits.TIME_S[0]))
        stops = math.log2(worth / max(high.threshold_s, limits.TIME_S[0]))
        code = "exposure.reciprocity.thresholds_matter" if stops else "exposure.reciprocity.thresholds_harmless"
        found.append(ThresholdContradiction(film, low, high, stops, code))
    return tuple(found)


def _answer(named: NamedReciprocity, metered_s: float) -> ReciprocityAnswer:
    check_reciprocity(named.model)
    try:
        time_s = named.model.corrected_s(metered_s)
    except RefusedError as error:
        ends_s = error.params.get("last_s")
        last_s = ends_s if isinstance(ends_s, float | int) else None
        return ReciprocityAnswer(named.kind, named.source, named.evidence, None, None, last_s, is_default=False)
    stops = math.log2(time_s / metered_s)
    return ReciprocityAnswer(named.kind, named.source, named.evidence, time_s, stops, None, is_default=False)


def _on_film(model: ReciprocityModel, low_s: float, high_s: float) -> float | None:
    try:
        return math.log2(model.effective_s(high_s) / model.effective_s(low_s))
    except RefusedError:
        return None


def _check_doubling(model: ReciprocityDoubling) -> None:
    limits.within("exposure.reciprocity.free_out_of_range", model.free_s, _FREE_S)
    limits.within("exposure.reciprocity.doubling_out_of_range", model.stops_per_doubling, _PER_DOUBLING)
