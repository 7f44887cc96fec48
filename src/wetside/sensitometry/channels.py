"""Which light a density is for: what a printing needs, and which readings may serve it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import OutOfRangeError, RefusedError
from wetside.values.evidence import Evidence, moved_evidence

if TYPE_CHECKING:
    from collections.abc import Collection

VISUAL, BLUE, GREEN, UV, SCANNER = "visual", "blue", "green", "uv", "scanner"
CHANNELS = (VISUAL, BLUE, GREEN, UV, SCANNER)
"""Lights that densities are read in; ``scanner`` is the light of the scanner that will be used."""

_NEEDED = {
    "graded-paper": (BLUE,),
    "variable-paper": (BLUE, GREEN),
    "alternative": (UV,),
    "scanner": (SCANNER,),
}


class ChannelUse(NamedTuple):
    """The readings that may serve a printing: their channels, their evidence, and what was taken for granted."""

    printing: str
    channels: tuple[str, ...]
    evidence: Evidence
    code: str | None


def channels_of_printing(printing: str) -> tuple[str, ...]:
    """Channels that a printing sees a negative in.

    Parameters
    ----------
    printing : str
        ``graded-paper``, ``variable-paper``, ``alternative`` or ``scanner``.

    Returns
    -------
    channels : tuple of str
        Graded paper sees blue; variable contrast blue and green, because stain acts on it as a filter; alternative
        processes UV; a scanner its own light (common practice: handbook, corrections 2).

    Raises
    ------
    OutOfRangeError
        If the printing is none of these.

    Examples
    --------
    >>> channels_of_printing("variable-paper")
    ('blue', 'green')
    """
    try:
        return _NEEDED[printing]
    except KeyError:
        raise OutOfRangeError("sensitometry.aim.printing_unknown", printing=printing, known=list(_NEEDED)) from None


def readings_for_printing(
    printing: str, read_in: Collection[str], *, stained: bool, evidence: Evidence = Evidence.TESTED
) -> ChannelUse:
    """Choose the readings of a negative or a family that may serve a printing, or refuse.

    Parameters
    ----------
    printing : str
        See :func:`channels_of_printing`.
    read_in : collection of str
        Channels in which there are readings.
    stained : bool
        Whether the developer stains, or the negative was stained afterwards.
    evidence : Evidence
        Of the readings.

    Returns
    -------
    use : ChannelUse
        Of a silver negative without stain the visual readings may serve any printing, marked converted. A tint of
        the base alone is no stain: it adds the same to every tone and leaves ranges as they are.

    Raises
    ------
    OutOfRangeError
        If the printing or a channel is not known.
    RefusedError
        If a stained negative was not read in every channel that the printing sees, or one without stain neither there
        nor visually.

    Examples
    --------
    >>> readings_for_printing("graded-paper", ["visual", "blue"], stained=True).channels
    ('blue',)
    >>> readings_for_printing("alternative", ["visual"], stained=False).evidence.value
    'converted'
    """
    needed = channels_of_printing(printing)
    for channel in read_in:
        if channel not in CHANNELS:
            raise OutOfRangeError("sensitometry.channel.unknown", channel=channel, known=list(CHANNELS))
    if all(channel in read_in for channel in needed):
        return ChannelUse(printing, needed, evidence, None)
    missing = [channel for channel in needed if channel not in read_in]
    if stained:
        raise RefusedError("sensitometry.channel.stained", printing=printing, missing=missing, read_in=sorted(read_in))
    # Silver is grey: the light hardly matters, and stays a step away from what was measured all the same.
    serving = VISUAL if VISUAL in read_in else next((channel for channel in needed if channel in read_in), None)
    if serving is None:
        raise RefusedError("sensitometry.channel.not_read", printing=printing, missing=missing, read_in=sorted(read_in))
    return ChannelUse(
        printing, (serving,), moved_evidence(evidence, Evidence.CONVERTED), "sensitometry.channel.converted"
    )
