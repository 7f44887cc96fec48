"""Clearing tests: how long to fix, when a fixer is used up, and whether area or clearing ends it first."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry.limits import check_not_negative, check_positive
from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence, weakest_evidence
from wetside.values.names import name_key

if TYPE_CHECKING:
    from wetside.chemistry.fixer import Notes

LONGEST_FIX_S, LONG_FIX_S = 600.0, 480.0
"""Rapid fixer bleaches from about the first on; from the second on it is told. [s]"""

RETIRED_AT = 2.0
"""A fixer is used up when clearing takes more than this many times as long as it did in the fresh bath. [1]"""

CLEARING_HALVES_PER_C = 11.0
"""Clearing takes half as long this much warmer: 10 to 12 from memory, ``assumed``. [C]"""

SAME_TEMPERATURE_C = 0.5
"""Clearing tests no further apart than this are compared as they stand. Our choice. [C]"""

_ROUNDING = 1e-9


class ClearingTest(NamedTuple):
    """A clip of film timed in the fixer until the milky look is gone. [s, C]"""

    clearing_s: float
    temp_c: float
    film: str
    dilution: str


class FixerDecision(NamedTuple):
    """What becomes of a fixer, and why.

    ``action`` is ``keep`` or ``change``; ``binds`` the limit that is passed first or nearest: ``area``, ``clearing`` or
    ``time``. A share is 0 for a fresh bath and 1 at its limit; ``clearing_share`` and ``fix_time_s`` are None without
    a clearing test. ``notes`` are codes with parameters.
    """

    action: str
    binds: str
    area_share: float
    clearing_share: float | None
    fix_time_s: float | None
    evidence: Evidence
    notes: Notes


def fix_multiple(*, tabular: bool = False, alkaline: bool = False) -> float:
    """How many clearing times a film is fixed: 2, or 3 for tabular film and in alkaline fixer. [1]

    Parameters
    ----------
    tabular, alkaline : bool
        Kind of film, kind of fixer.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 4; us-navy-14209, p. 249 (twice); lost-labours-fixer (alkaline, three times);
       photrio-61690 (tabular, three times).

    Examples
    --------
    >>> fix_multiple(), fix_multiple(tabular=True)
    (2.0, 3.0)
    """
    return 3.0 if tabular or alkaline else 2.0


def fix_time_s(clearing_s: float, multiple: float = 2.0) -> float:
    """Fixing time from a clearing test. [s]

    Parameters
    ----------
    clearing_s : float
        Clearing time of this film in this bath now. [s]
    multiple : float
        From :func:`fix_multiple`. [1]

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 4, twice the clearing time.

    Examples
    --------
    >>> fix_time_s(45.0)
    90.0
    """
    check_positive("clearing_s", clearing_s)
    check_positive("multiple", multiple)
    return clearing_s * multiple


def clearing_limit_s(fresh_s: float) -> float:
    """Clearing time past which a fixer is used up: twice that of the fresh bath. [s]

    Parameters
    ----------
    fresh_s : float
        Clearing time of the same film in the fresh bath. [s]

    Raises
    ------
    OutOfRangeError
        If it is not positive.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 4; us-navy-14209, p. 249.

    Examples
    --------
    >>> clearing_limit_s(45.0)
    90.0
    """
    check_positive("fresh_s", fresh_s)
    return fresh_s * RETIRED_AT


def clearing_at_temp_s(test: ClearingTest, temp_c: float, halves_per_c: float = CLEARING_HALVES_PER_C) -> float:
    """Clearing time that a test lets expect at another temperature; ``assumed``. [s]

    Parameters
    ----------
    test : ClearingTest
        A test in the same bath.
    temp_c : float
        The other temperature. [C]
    halves_per_c : float
        Clearing takes half as long this much warmer. [C]

    Raises
    ------
    OutOfRangeError
        If a time is not positive or a temperature not between 1 and 60 C.

    Notes
    -----
    ``clearing * 2 ** ((test - other) / halves)``. The halving is from memory: better time a clip at the bath's own
    temperature.

    Examples
    --------
    >>> round(clearing_at_temp_s(ClearingTest(60.0, 20.0, "Tolland 100", "1+4"), 9.0))
    120
    """
    check_positive("clearing_s", test.clearing_s)
    check_positive("halves_per_c", halves_per_c)
    for value in (test.temp_c, temp_c):
        if not 1.0 <= value <= 60.0:
            raise OutOfRangeError("chemistry.fixer.temperature", value=value)
    return test.clearing_s * math.pow(2.0, (test.temp_c - temp_c) / halves_per_c)


def judge_fixer(
    area_share: float,
    fresh: ClearingTest | None = None,
    now: ClearingTest | None = None,
    *,
    tabular: bool = False,
    alkaline: bool = False,
    longest_s: float | None = LONGEST_FIX_S,
    area_evidence: Evidence = Evidence.ASSUMED,
    halves_per_c: float = CLEARING_HALVES_PER_C,
) -> FixerDecision:
    """Whether a fixer is kept or changed, by area of film and by clearing time, whichever comes first.

    Parameters
    ----------
    area_share : float
        From :func:`fixer_share`; 1 is the end. [1]
    fresh, now : ClearingTest or None
        Clearing of the same film at the same dilution in the bath when it was fresh, and now.
    tabular, alkaline : bool
        Kind of film and of fixer; see :func:`fix_multiple`.
    longest_s : float or None
        Longest fixing time that the bath does not begin to bleach in; None for a slow, plain hypo fixer. [s]
    area_evidence : Evidence
        Of the capacity behind the share.
    halves_per_c : float
        See :func:`clearing_at_temp_s`. [C]

    Returns
    -------
    decision : FixerDecision
        Without both tests the area alone decides.

    Raises
    ------
    OutOfRangeError
        If a value is out of its range.
    RefusedError
        If the two tests are of different films or dilutions: they say nothing of each other.

    Notes
    -----
    Clearing share: ``now / fresh - 1``, 1 at twice the fresh time. Time share: the same up to the clearing time whose
    multiple is ``longest_s``. The largest share binds.

    References
    ----------
    .. [1] ilford-rapid-fixer-2002, p. 4, clearing; brodie-tyrrell-fixer, about ten minutes at most.

    Examples
    --------
    >>> fresh, now = (ClearingTest(time_s, 20.0, "Tolland 100", "1+4") for time_s in (50.0, 110.0))
    >>> judge_fixer(1.07, fresh, now)[:3]
    ('change', 'clearing', 1.07)
    """
    check_not_negative("area_share", area_share)
    if longest_s is not None:
        check_positive("longest_s", longest_s)
    shares = {"area": area_share}
    notes: list[tuple[str, dict[str, object]]] = []
    if area_share >= 1.0 - _ROUNDING:
        notes.append(("chemistry.fixer.used_up", {"share": area_share}))
    if fresh is None or now is None:
        action = "change" if notes else "keep"
        return FixerDecision(action, "area", area_share, None, None, area_evidence, tuple(notes))
    fresh_s, moved = _fresh_beside(fresh, now, halves_per_c)
    evidence = weakest_evidence(area_evidence, Evidence.ASSUMED if moved else Evidence.TESTED)
    if moved:
        params = {"from_c": fresh.temp_c, "to_c": now.temp_c, "fresh_s": fresh_s}
        notes.append(("chemistry.fixer.clearing_moved", dict(params)))
    check_positive("clearing_s", now.clearing_s)
    multiple = fix_multiple(tabular=tabular, alkaline=alkaline)
    time_s = fix_time_s(now.clearing_s, multiple)
    limit_s = clearing_limit_s(fresh_s)
    shares["clearing"] = now.clearing_s / fresh_s - 1.0
    used_up = bool(area_share >= 1.0 - _ROUNDING)
    if now.clearing_s > limit_s * (1.0 + _ROUNDING):
        used_up = True
        notes.append(("chemistry.fixer.clears_slowly", {"now_s": now.clearing_s, "limit_s": limit_s}))
    if longest_s is not None:
        shares["time"], told = _time_share(fresh_s, now.clearing_s, multiple, longest_s)
        used_up = used_up or shares["time"] > 1.0 + _ROUNDING
        notes += told
    action = "change" if used_up else "keep"
    binds = max(shares, key=shares.__getitem__)
    return FixerDecision(action, binds, area_share, shares["clearing"], time_s, evidence, tuple(notes))


def _fresh_beside(fresh: ClearingTest, now: ClearingTest, halves_per_c: float) -> tuple[float, bool]:
    """Fresh clearing time at the temperature of the later test, and whether it had to be moved there."""
    if name_key(fresh.film) != name_key(now.film):
        raise RefusedError("chemistry.fixer.other_film", fresh=fresh.film, now=now.film)
    if fresh.dilution != now.dilution:
        raise RefusedError("chemistry.fixer.other_dilution", fresh=fresh.dilution, now=now.dilution)
    moved_s = clearing_at_temp_s(fresh, now.temp_c, halves_per_c)
    if abs(fresh.temp_c - now.temp_c) <= SAME_TEMPERATURE_C:
        return fresh.clearing_s, False
    return moved_s, True


def _time_share(fresh_s: float, now_s: float, multiple: float, longest_s: float) -> tuple[float, Notes]:
    """How near the fixing time is to the one that bleaches, and what is to be said of it."""
    time_s = now_s * multiple
    longest_clearing_s = longest_s / multiple
    if fresh_s >= longest_clearing_s:
        return math.inf, (("chemistry.fixer.slow_fresh", {"time_s": fresh_s * multiple, "longest_s": longest_s}),)
    share = (now_s - fresh_s) / (longest_clearing_s - fresh_s)
    if share > 1.0 + _ROUNDING:
        return share, (("chemistry.fixer.too_long", {"time_s": time_s, "longest_s": longest_s}),)
    if time_s >= LONG_FIX_S < longest_s:
        return share, (("chemistry.fixer.long", {"time_s": time_s, "longest_s": longest_s}),)
    return share, ()


class FixAgain(NamedTuple):
    """Sheets that were fixed last [1], and the clearing time in the bath that takes over [s]."""

    sheets: int
    fresh_s: float


def advice_for_used_fixer(last: FixAgain | None, *, second_bath: bool) -> Notes:
    """What to do when film has gone through a fixer that was past its end, in order, as codes with parameters.

    Parameters
    ----------
    last : FixAgain or None
        The sheets that are to be fixed again; None where there are none, or nobody knows. [1, s]
    second_bath : bool
        Whether a second bath is there to move up.

    Raises
    ------
    OutOfRangeError
        If the count or the time is not positive.

    Notes
    -----
    Refixing takes three clearing times of the fresh bath. Common practice.

    Examples
    --------
    >>> [code for code, _ in advice_for_used_fixer(FixAgain(20, 50.0), second_bath=True)][:3]
    ['chemistry.fixer.retire', 'chemistry.fixer.promote', 'chemistry.fixer.refix']
    """
    follow = "chemistry.fixer.promote" if second_bath else "chemistry.fixer.mix_new"
    advice: list[tuple[str, dict[str, object]]] = [("chemistry.fixer.retire", {}), (follow, {})]
    if last is not None:
        check_positive("sheets", last.sheets)
        advice.append(("chemistry.fixer.refix", {"count": last.sheets, "time_s": fix_time_s(last.fresh_s, 3.0)}))
        advice.append(("chemistry.fixer.wash_again", {}))
    advice.append(("chemistry.fixer.not_development", {}))
    return tuple(advice)
