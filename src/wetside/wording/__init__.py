"""Codes with parameters in, sentences out: for terminal, web, paper and voice, in every language.

The core writes codes; each package of the core has a catalogue of its sentences in ``wetside.wording.catalog``, loaded
when the first of its codes is said.
"""

from wetside.wording.manner import PLAIN, Manner, decimal, manner, shown_in
from wetside.wording.sentence import known_codes, sentence, speak_error
from wetside.wording.shown import shown

__all__ = [
    "PLAIN",
    "Manner",
    "decimal",
    "known_codes",
    "manner",
    "sentence",
    "shown",
    "shown_in",
    "speak_error",
]
