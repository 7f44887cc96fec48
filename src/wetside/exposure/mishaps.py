"""Words for what went wrong at the camera, and the settings that an audit compares."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import ConflictError, UnknownNameError

if TYPE_CHECKING:
    from collections.abc import Iterable

BELLOWS_FORGOTTEN = "bellows-forgotten"
FILTER_FORGOTTEN = "filter-forgotten"
RECIPROCITY_FORGOTTEN = "reciprocity-forgotten"
RECIPROCITY_FIRST = "reciprocity-first"
WRONG_RATING = "wrong-rating"
WRONG_FILM = "wrong-film"
DOUBLE_EXPOSURE = "double-exposure"

TIME_WORDS = (BELLOWS_FORGOTTEN, FILTER_FORGOTTEN, RECIPROCITY_FORGOTTEN, RECIPROCITY_FIRST)
"""Words whose error is in the time that was given; a time that is known makes them mere labels."""

MISHAPS = (*TIME_WORDS, WRONG_RATING, WRONG_FILM, DOUBLE_EXPOSURE)
"""All words, in the order in which they are shown."""


class CameraSetting(NamedTuple):
    """What a sheet was exposed with, as engraved or counted; None where nothing is said.

    In what was *meant*, ``time_s`` is the time that was metered at ``aperture_n`` and rating ``ei`` through no filter,
    before bellows and reciprocity. In what was *given*, ``time_s`` is how long the shutter stood open. Lengths are
    the bellows' extension and the focal length. [1], [s], [1], [1], [mm], [mm]
    """

    aperture_n: float | None = None
    time_s: float | None = None
    ei: float | None = None
    filter_factor: float | None = None
    extension_mm: float | None = None
    focal_mm: float | None = None


def checked_mishaps(words: Iterable[str]) -> frozenset[str]:
    """Return the words as a set, or refuse one that nothing answers to and two that exclude each other.

    Parameters
    ----------
    words : iterable of str
        Of :data:`MISHAPS`.

    Raises
    ------
    UnknownNameError
        If a word is not known; the nearest one is named.
    ConflictError
        If reciprocity was both forgotten and corrected first.

    Examples
    --------
    >>> sorted(checked_mishaps(["wrong-film"]))
    ['wrong-film']
    """
    found = frozenset(words)
    for word in sorted(found.difference(MISHAPS)):
        import difflib

        nearest = difflib.get_close_matches(word, MISHAPS, n=1)
        if nearest:
            raise UnknownNameError("exposure.mishap.unknown", value=word, nearest=nearest[0], choices=MISHAPS)
        raise UnknownNameError("exposure.mishap.unlike", value=word, nearest=None, choices=MISHAPS)
    if {RECIPROCITY_FORGOTTEN, RECIPROCITY_FIRST} <= found:
        raise ConflictError("exposure.mishap.two_reciprocities", words=(RECIPROCITY_FORGOTTEN, RECIPROCITY_FIRST))
    return found
