"""A frozen plan's document and its evening as values: each text is read once in a process, whatever asks for it.

What is kept goes by the whole text, so that a plan which was changed in any way is read anew.
"""

from __future__ import annotations

import json
from functools import lru_cache
from typing import TYPE_CHECKING

from wetside.adapters.evening_file import evening_of_text
from wetside.adapters.plan_reader import plan_of_plain

if TYPE_CHECKING:
    from wetside.planning.documents.evening import Evening
    from wetside.planning.documents.plan import Plan as PlanDocument
    from wetside.records import models

MOST_KEPT = 32
"""Plans whose values a process keeps; nobody has so many at hand. Our choice. [plans]"""


def document_of(plan: models.Plan) -> PlanDocument:
    """Document of a frozen plan.

    Raises
    ------
    WetsideError
        If it cannot be read, as one that an older program has written.
    """
    return _document(json.dumps(plan.document or {}, ensure_ascii=False))


@lru_cache(MOST_KEPT)
def _document(text: str) -> PlanDocument:
    return plan_of_plain(json.loads(text))


@lru_cache(MOST_KEPT)
def frozen_evening(text: str) -> Evening:
    """Evening of the text that a frozen plan keeps.

    Raises
    ------
    WetsideError
        As the reader of evenings.
    """
    return evening_of_text(text)
