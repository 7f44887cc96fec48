"""Where a number comes from, and how strong a result is that was made of several."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple


class Evidence(StrEnum):
    """The four classes, strongest first."""

    TESTED = "tested"
    PUBLISHED = "published"
    CONVERTED = "converted"
    ASSUMED = "assumed"


_STRENGTH = {kind: rank for rank, kind in enumerate(Evidence)}


def weakest_evidence(*parts: Evidence) -> Evidence:
    """Evidence of a result: as weak as its weakest part.

    Parameters
    ----------
    *parts : Evidence
        At least one.

    Examples
    --------
    >>> weakest_evidence(Evidence.TESTED, Evidence.ASSUMED).value
    'assumed'
    """
    return max(parts, key=_STRENGTH.__getitem__)


def moved_evidence(start: Evidence, *factors: Evidence) -> Evidence:
    """Evidence of a value that factors have moved away from the conditions it was made under.

    A tested or published value becomes ``converted`` as soon as one factor is applied; an assumed
    factor makes the result ``assumed``.

    Examples
    --------
    >>> moved_evidence(Evidence.PUBLISHED).value, moved_evidence(Evidence.PUBLISHED, Evidence.TESTED).value
    ('published', 'converted')
    """
    if not factors:
        return start
    return weakest_evidence(start, *factors, Evidence.CONVERTED)


class Source(NamedTuple):
    """Where a figure can be read: a key of ``docs/references.bib`` or the user's own words, and the page."""

    key: str
    where: str = ""
    date: str = ""


class Sourced(NamedTuple):
    """A number with its evidence, source and spread (half-width in the number's unit; None where unknown)."""

    value: float
    evidence: Evidence
    source: Source | None = None
    spread: float | None = None
