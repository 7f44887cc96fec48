"""Codes with parameters in, sentences out: for terminal, web, paper and voice, in every language.

The core writes codes; each package of the core has a catalogue of its sentences in ``wetside.wording.catalog``, loaded
when the first of its codes is said.
"""

from wetside.wording.sentence import known_codes, sentence, speak_error
from wetside.wording.shown import shown

__all__ = ["known_codes", "sentence", "shown", "speak_error"]
