"""Judging a fixer by the film it has seen and by how it clears."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.bath_data import load_bath_capacities
from wetside.chemistry import (
    ClearingTest,
    FilmFixed,
    FixAgain,
    FixerDecision,
    advice_for_used_fixer,
    fixer_capacity,
    fixer_share,
    half_times_s,
    judge_fixer,
    sheets_fixed,
    strength_after_loads,
)
from wetside.chemistry.fixer_baths import CARRIED_ML, PROMOTIONS
from wetside.errors import InputError
from wetside.services.options import needs, typed, whole
from wetside.units import parse_duration_s, parse_size, parse_temp_c, parse_volume_ml

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.values.evidence import Sourced


CLIP = "clip"
"""Film of both clearing tests: whoever types two times means clips of one film."""


class FixerAnswers(NamedTuple):
    """What was typed; films as count and size, such as ``52:4x5in``."""

    volume: str
    product: str | None = None
    dilution: str = "1+4"
    films: Sequence[str] = ()
    tabular: Sequence[str] = ()
    fresh: str | None = None
    now: str | None = None
    temp: str = "20 C"
    fresh_temp: str | None = None
    clip_tabular: bool = False
    alkaline: bool = False
    second_bath: bool = False
    promoted: str | None = None
    loads: str | None = None
    carried: str | None = None
    last: str | None = None


class FixerJudged(NamedTuple):
    """Answer: decision, capacity with its source [units to a litre], sheets left of the last size, what to do.

    ``each_s`` is the fixing time in each of two baths [s], None with one; ``strength`` what carried water has left of
    the bath's strength [1], None if no loads were told, and ``carried_ml`` what it was reckoned with.
    """

    decision: FixerDecision
    capacity: Sourced
    sheets_left: int | None
    each_s: tuple[float, float] | None
    strength: float | None
    carried_ml: float
    advice: tuple[tuple[str, dict[str, object]], ...]


def judge(answers: FixerAnswers) -> FixerJudged:
    """Judge a fixer.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken.
    """
    volume_ml = typed("VOLUME", parse_volume_ml, answers.volume)
    rows = [row for row in load_bath_capacities() if row.bath == "fix"]
    capacity = fixer_capacity(answers.product, rows, answers.dilution if answers.product else None)
    films = [
        *(_film("--film", text, tabular=False) for text in answers.films),
        *(_film("--tabular", text, tabular=True) for text in answers.tabular),
    ]
    share = fixer_share([film for film, _ in films], volume_ml, capacity.value)
    fresh, now = _tests(answers)
    promoted = _promoted(answers)
    decision = judge_fixer(
        share, fresh, now, tabular=answers.clip_tabular, alkaline=answers.alkaline, area_evidence=capacity.evidence
    )
    left = None
    if films and decision.action == "keep":
        last, area_cm2 = films[-1]
        one = sheets_fixed(area_cm2, volume_ml, capacity.value, tabular=last.tabular)
        left = int(max(0.0, 1.0 - share) * one + 1e-9)
    advice: tuple[tuple[str, dict[str, object]], ...] = ()
    if decision.action == "change":
        advice = tuple(advice_for_used_fixer(_fixed_last(answers, fresh), second_bath=answers.second_bath))
        if promoted >= PROMOTIONS:
            advice = tuple(
                ("services.renew_both", {}) if code == "chemistry.fixer.promote" else (code, params)
                for code, params in advice
            )
    each_s = None
    if answers.second_bath and decision.action == "keep" and decision.fix_time_s is not None:
        each_s = half_times_s(decision.fix_time_s)
    carried_ml, strength = _strength(answers, volume_ml)
    return FixerJudged(decision, capacity, left, each_s, strength, carried_ml, advice)


def _promoted(answers: FixerAnswers) -> int:
    """How often a second bath has moved up since both were new. [1]"""
    if answers.promoted is None:
        return 0
    if not answers.second_bath:
        raise InputError("services.option_missing_with", option="--second-bath", other="--promoted")
    return typed("--promoted", whole, answers.promoted)


def _fixed_last(answers: FixerAnswers, fresh: ClearingTest | None) -> FixAgain | None:
    """Sheets that a spent bath let down, for as long as the fresh one clears; None where no count was given."""
    if answers.last is None:
        return None
    count = typed("--last", whole, answers.last)
    if fresh is None:
        raise InputError("services.option_missing_with", option="--fresh", other="--last")
    return FixAgain(count, fresh.clearing_s)


def _strength(answers: FixerAnswers, volume_ml: float) -> tuple[float, float | None]:
    """Water carried into the bath by a load [ml], and what strength the loads have left of it [1]."""
    if answers.loads is None:
        if answers.carried is not None:
            raise InputError("services.option_missing_with", option="--loads", other="--carried")
        return CARRIED_ML, None
    loads = typed("--loads", whole, answers.loads)
    carried_ml = CARRIED_ML if answers.carried is None else typed("--carried", parse_volume_ml, answers.carried)
    return carried_ml, strength_after_loads(volume_ml, carried_ml, loads)


def _tests(answers: FixerAnswers) -> tuple[ClearingTest | None, ClearingTest | None]:
    if answers.fresh is None and answers.now is None:
        return None, None
    now_c = typed("--temp", parse_temp_c, answers.temp)
    fresh_c = typed("--fresh-temp", parse_temp_c, answers.fresh_temp) if answers.fresh_temp else now_c
    fresh_s = typed("--fresh", parse_duration_s, needs("--fresh", answers.fresh, "--now"))
    now_s = typed("--now", parse_duration_s, needs("--now", answers.now, "--fresh"))
    return (
        ClearingTest(fresh_s, fresh_c, CLIP, answers.dilution),
        ClearingTest(now_s, now_c, CLIP, answers.dilution),
    )


def _film(option: str, text: str, *, tabular: bool) -> tuple[FilmFixed, float]:
    """Film of an option, and the area of one sheet. [cm2]"""
    count, mark, size = text.partition(":")
    if not mark:
        raise InputError("services.film_form", option=option, value=text)
    _, width_mm, height_mm = typed(option, parse_size, size)
    area_cm2 = width_mm * height_mm / 100.0
    return FilmFixed(typed(option, whole, count) * area_cm2, tabular), area_cm2
