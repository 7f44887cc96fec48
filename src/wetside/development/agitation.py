"""How a developing time moves when the liquid moves differently over the film.

Makers print times for intermittent agitation and one cut for continuous agitation. Who advises what is data with a
source, handed in as values; without it the cut is common practice and says so.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.development._demands import require_not_negative, require_positive
from wetside.errors import RefusedError
from wetside.values.conditions import Agitation
from wetside.values.evidence import Evidence, Source, Sourced

if TYPE_CHECKING:
    from collections.abc import Iterable

ASSUMED_CUT = 0.85
"""Common practice: continuous agitation takes 15 % off the intermittent time. [1]"""
ASSUMED_CUT_SPREAD = 0.05
"""Common practice: 10 to 20 %. [1]"""
PRESOAK_CANCELS_S = 300.0
"""Common practice: a pre-soak of 5 min makes a rotary time as long as the intermittent one. [s]"""


class ContinuousCut(NamedTuple):
    """What one sheet says of continuous agitation without a pre-soak.

    ``factor`` multiplies the intermittent time [1]; ``spread`` its half-width [1].
    """

    maker: str
    agitation: Agitation
    factor: float
    spread: float
    source: Source
    note: str = ""


class PresoakAdvice(NamedTuple):
    """What one sheet says of water before the developer; ``advises`` False where it advises against it."""

    maker: str
    advises: bool
    duration_s: float | None
    source: Source
    note: str = ""


def choose_cut(
    cuts: Iterable[ContinuousCut], agitation: Agitation, source_key: str | None = None, maker: str | None = None
) -> ContinuousCut | None:
    """Cut that belongs to a time: of the same sheet if it names one, else of the same maker.

    Parameters
    ----------
    cuts : iterable of ContinuousCut
        In order of preference.
    agitation : Agitation
        The continuous class.
    source_key : str, optional
        Sheet that the time was read in.
    maker : str, optional
        Maker of the film or developer.

    Returns
    -------
    cut : ContinuousCut or None
        None where no sheet says anything: then the cut is assumed.

    Examples
    --------
    >>> choose_cut((), Agitation.ROTARY) is None
    True
    """
    of_class = [cut for cut in cuts if cut.agitation is agitation]
    for cut in of_class:
        if source_key is not None and cut.source.key == source_key:
            return cut
    for cut in of_class:
        if maker is not None and cut.maker.casefold() == maker.casefold():
            return cut
    return None


def makers_against_presoak(advice: Iterable[PresoakAdvice]) -> tuple[PresoakAdvice, ...]:
    """Advice against a pre-soak, to be named beside any factor that counts on one; one entry a maker.

    Parameters
    ----------
    advice : iterable of PresoakAdvice
        In order of preference.

    Examples
    --------
    >>> makers_against_presoak([PresoakAdvice("Tolland", False, None, Source("own words"))])[0].maker
    'Tolland'
    """
    first: dict[str, PresoakAdvice] = {}
    for entry in advice:
        if not entry.advises:
            first.setdefault(entry.maker, entry)
    return tuple(first.values())


def presoak_cancels_cut(duration_s: float | None) -> bool:
    """Tell whether a pre-soak is long enough to cancel the rotary cut (common practice: 5 min).

    Parameters
    ----------
    duration_s : float or None
        None for no pre-soak. [s]

    Raises
    ------
    OutOfRangeError
        If the duration is negative or not finite.

    Examples
    --------
    >>> presoak_cancels_cut(60.0), presoak_cancels_cut(300.0), presoak_cancels_cut(None)
    (False, True, False)
    """
    if duration_s is None:
        return False
    require_not_negative(duration_s, "development.agitation.presoak_negative")
    return duration_s >= PRESOAK_CANCELS_S


def _level(
    agitation: Agitation, presoak: bool | None, cut: ContinuousCut | None
) -> tuple[float, float, Evidence | None]:
    """Time of this class over the intermittent one, its spread, and the evidence (None where nothing was needed)."""
    if agitation is Agitation.INTERMITTENT:
        return 1.0, 0.0, None
    if agitation is Agitation.ROTARY and presoak:
        return 1.0, ASSUMED_CUT_SPREAD, Evidence.ASSUMED
    if cut is None:
        return ASSUMED_CUT, ASSUMED_CUT_SPREAD, Evidence.ASSUMED
    require_positive(cut.factor, "development.agitation.cut_not_positive")
    return cut.factor, cut.spread, Evidence.PUBLISHED


def agitation_factor(
    from_class: Agitation,
    to_class: Agitation,
    *,
    presoak_from: bool | None = None,
    presoak_to: bool | None = None,
    cut: ContinuousCut | None = None,
    tray_cut: ContinuousCut | None = None,
) -> Sourced:
    """Multiplier of a developing time for another way to move the liquid.

    Parameters
    ----------
    from_class, to_class : Agitation
        Class of the time, and class that will be used.
    presoak_from, presoak_to : bool, optional
        Whether a pre-soak of 5 min or more belongs to the time, and will be given. None: not known, counted as none;
        where the class stays the same nothing is converted then.
    cut, tray_cut : ContinuousCut, optional
        Published cuts for rotary and tray; assumed 0.85 +- 0.05 where absent.

    Returns
    -------
    factor : Sourced
        [1]; ``published`` where a maker's cut is applied the way it is printed, ``converted`` where it is turned round,
        ``assumed`` where a pre-soak cancels it or no maker is known. A factor of 1 with a spread of 0 converts nothing.

    Raises
    ------
    RefusedError
        Stand development is neither converted to another class nor from one.

    Notes
    -----
    Each class stands at a level of the intermittent time: intermittent 1, rotary without pre-soak and tray at their
    cut, rotary with pre-soak 1. The factor is the quotient of two levels, so there and back is no change.

    References
    ----------
    .. [1] harman-powder-developers-2010, pp. 3-4; ilford-processing-chart-2019; rollei-retro-2021, p. 3. Pre-soak:
    common practice.

    Examples
    --------
    >>> agitation_factor(Agitation.INTERMITTENT, Agitation.ROTARY)
    Sourced(value=0.85, evidence=<Evidence.ASSUMED: 'assumed'>, source=None, spread=0.05)
    >>> agitation_factor(Agitation.INTERMITTENT, Agitation.ROTARY, presoak_to=True).value
    1.0
    """
    if from_class is to_class and (
        from_class is not Agitation.ROTARY or presoak_from is None or presoak_to is None or presoak_from is presoak_to
    ):
        # Nothing is moved, so nothing may weaken: ``tested`` is neutral where evidence is combined.
        return Sourced(1.0, Evidence.TESTED, None, 0.0)
    if Agitation.STAND in (from_class, to_class):
        raise RefusedError("development.agitation.stand", from_class=from_class.value, to_class=to_class.value)
    cuts = {Agitation.ROTARY: cut, Agitation.TRAY: tray_cut}
    start, start_spread, start_evidence = _level(from_class, presoak_from, cuts.get(from_class))
    end, end_spread, end_evidence = _level(to_class, presoak_to, cuts.get(to_class))
    value = end / start
    # Relative spreads of two independent levels; a maker's own cut applied as printed keeps its own.
    spread = value * ((start_spread / start) ** 2 + (end_spread / end) ** 2) ** 0.5
    if start_evidence is None:
        evidence = end_evidence or Evidence.ASSUMED
    elif Evidence.ASSUMED in (start_evidence, end_evidence):
        evidence = Evidence.ASSUMED
    else:
        evidence = Evidence.CONVERTED
    said = cuts.get(to_class) if start_evidence is None else cuts.get(from_class) or cuts.get(to_class)
    source = None if said is None or evidence is Evidence.ASSUMED else said.source
    return Sourced(value, evidence, source, spread)
