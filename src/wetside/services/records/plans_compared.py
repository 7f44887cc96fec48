"""The chosen sheets in up to three developers: the answer of each beside the others, never more than is asked for."""

from __future__ import annotations

import dataclasses
from typing import TYPE_CHECKING, NamedTuple

from wetside.chemistry import parse_dilution
from wetside.chemistry.dilution import require_name_only
from wetside.errors import WetsideError
from wetside.planning.documents.evening import Bottle, Evening, Process
from wetside.planning.resolved import names_on_bottles
from wetside.services.records.documents import document_of, raw_of
from wetside.services.records.evenings import evening_of_plan
from wetside.services.records.plans_reckoned import reckon
from wetside.services.records.whole_tables import newest_versions
from wetside.values.dilution import STOCK
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.planning.documents.plan import Plan, PlannedSheet
    from wetside.records import models

MOST_COMPARED = 3
"""More columns than a person can weigh would be a look-up table. Our choice."""


class Answer(NamedTuple):
    """What one developer comes to for the chosen sheets.

    ``plan`` is None while it is at work and where it was refused, which ``error`` then says; ``agent_at_hand_ml`` is
    None where no bottle of it stands on the shelf or nobody said how much is in it.
    """

    name: str
    process: Process | None
    plan: Plan | None
    error: WetsideError | None = None
    agent_ml: float = 0.0
    agent_at_hand_ml: float | None = None

    @property
    def loads(self) -> int:
        """Loads that it takes."""
        return len(self.plan.loads) if self.plan else 0

    @property
    def without_time(self) -> int:
        """Sheets for which it has no time."""
        return len(self.plan.unplanned) if self.plan else 0

    @property
    def at_work(self) -> bool:
        """Whether it is still reckoned."""
        return self.plan is None and self.error is None

    @property
    def worst(self) -> PlannedSheet | None:
        """The sheet that is furthest off its aim."""
        return max(self.plan.sheets, key=lambda sheet: sheet.deviation) if self.plan and self.plan.sheets else None

    @property
    def short(self) -> bool:
        """Whether the bottles hold too little."""
        return self.agent_at_hand_ml is not None and self.agent_at_hand_ml < self.agent_ml


def compare(plan: models.Plan, wanted: Sequence[str]) -> tuple[Answer, ...]:
    """Plan the sheets of a draft in each of up to three developers.

    Parameters
    ----------
    plan : Plan
        A draft.
    wanted : sequence of str
        Identities of processes, or developers as typed: ``Brackwater 1+24``.
    """
    wanted = [word for word in dict.fromkeys(wanted) if word][:MOST_COMPARED]
    if not wanted:
        return ()
    evening = evening_of_plan(plan)
    kept = {str(version.process_id): version for version in newest_versions()}
    return tuple(_answer(evening, word, kept.get(word)) for word in wanted)


def _answer(evening: Evening, word: str, newest: models.ProcessVersion | None) -> Answer:
    try:
        process = _of_record(newest) if newest is not None else typed_process(word)
        answered = reckon(in_process(evening, process)).plan
    except WetsideError as error:
        return Answer(newest.process.name if newest is not None else word, None, None, error)
    wanted_ml = sum(load.concentrate_ml for load in answered.loads) if answered else 0.0
    return Answer(process.name, process, answered, None, wanted_ml, _at_hand_ml(evening.bottles, process.developer))


def _of_record(newest: models.ProcessVersion) -> Process:
    name = newest.process.name
    found: Process = document_of("process", raw_of("process", newest, {"name": name}), title=name)
    return found


def typed_process(text: str) -> Process:
    """Process of a developer as it is typed: its name, and at the end the dilution, stock if none is said.

    Raises
    ------
    WetsideError
        If something that looks like a dilution cannot be read as one: it is not taken for stock.

    Examples
    --------
    >>> typed_process("Brackwater 1+24").dilution.text
    '1+24'
    >>> typed_process("Brackwater").dilution.text
    'stock'
    """
    developer, dilution = split_developer(text)
    require_name_only(developer)
    parsed = parse_dilution(dilution) if dilution else STOCK
    return Process(name=" ".join(text.split()), developer=developer, dilution=parsed)


def split_developer(text: str) -> tuple[str, str]:
    """Developer and dilution of what was typed in one go; the dilution is empty where none was said.

    Examples
    --------
    >>> split_developer("Brackwater two 1 + 24"), split_developer("Brackwater stock"), split_developer("Brackwater")
    (('Brackwater two', '1 + 24'), ('Brackwater', 'stock'), ('Brackwater', ''))
    """
    words = text.split()
    for first in range(1, len(words)):
        rest = " ".join(words[first:])
        if rest.casefold() != "stock" and "+" not in rest and "%" not in rest:
            continue
        try:
            parse_dilution(rest)
        except WetsideError:
            continue
        return " ".join(words[:first]), rest
    return " ".join(words), ""


def in_process(evening: Evening, process: Process) -> Evening:
    """Evening with all of its sheets in one process, whatever they were meant for."""
    sheets = tuple(dataclasses.replace(sheet, process=None) for sheet in evening.sheets)
    return dataclasses.replace(evening, process=process.name, processes=(process,), sheets=sheets)


def _at_hand_ml(bottles: Sequence[Bottle], developer: str) -> float | None:
    own, other = names_on_bottles(developer)
    same = [bottle for bottle in bottles if plain_name(bottle.holds) in own | other]
    volumes = [bottle.volume_ml for bottle in same if bottle.volume_ml is not None]
    return sum(volumes) if volumes else None
