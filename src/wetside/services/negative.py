"""A finished negative in hand: what can still be done with it, and what each way gives."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.printing_data import density_limit, load_printing_ranges, rows_of_kind
from wetside.errors import InputError, OutOfRangeError, Place, WetsideError
from wetside.sensitometry.after_negative import (
    PRINT,
    REMAKE,
    AfterDecision,
    AfterOption,
    NegativeReading,
    decide_after_negative,
    intensified_density,
    print_time_s,
)
from wetside.sensitometry.channels import VISUAL, readings_for_printing
from wetside.sensitometry.zones import SHADOW_NET
from wetside.services.options import needs, typed
from wetside.services.printing_choice import SILVER, NamedPrinting, PrintingNames, filters_of, named_printing
from wetside.units import parse_duration_s, parse_number

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from wetside.sensitometry.channels import ChannelUse
    from wetside.sensitometry.grades import PrintingRange
    from wetside.sensitometry.rescue import DensityLimit

NET = (0.0, 6.0)
"""Densities of a negative. [density]"""


class NegativeAnswers(NamedTuple):
    """What was typed; None where nothing was said.

    ``shadow`` and ``highlight`` are net unless ``base_fog`` stands beside them; ``density_range`` instead of both;
    ``only`` where no other grade or filter is at hand.
    """

    shadow: str | None = None
    highlight: str | None = None
    base_fog: str | None = None
    density_range: str | None = None
    names: PrintingNames = PrintingNames()
    only: bool = False
    read_in: Sequence[str] = ()
    stained: bool = False
    fixed_and_washed: bool = False
    repeatable: bool = False
    cut: str | None = None
    gain: str | None = None
    print_time: str | None = None
    printed_at: str | None = None


class NegativeJudged(NamedTuple):
    """Answer.

    ``reading`` holds net densities; ``tones_known`` is false where only a range was given: then nothing that hangs on
    them is told. ``limit`` is that of the printing where the highlight passes it; ``time_s`` the print time of this
    negative as it is, ``times_s`` that of each way, None where it cannot be told [s].
    """

    printing: NamedPrinting
    reading: NegativeReading
    tones_known: bool
    use: ChannelUse
    decision: AfterDecision
    limit: DensityLimit | None
    time_s: float | None
    times_s: tuple[float | None, ...]


def negative(answers: NegativeAnswers, rows: Path | None = None) -> NegativeJudged:
    """Judge a finished negative.

    Raises
    ------
    WetsideError
        Naming the option that is missing or cannot be taken; a stained negative that was not read in the light of the
        printing is refused.
    """
    if not answers.names.options:
        raise InputError("services.negative_printing")
    known = load_printing_ranges(rows)
    printing = named_printing(answers.names, known)
    aim = printing.aim
    use = readings_for_printing(aim.printing, answers.read_in or (VISUAL,), stained=answers.stained)
    shadow, highlight = _tones(answers)
    tones_known = answers.density_range is None
    cut = typed("--cut", _density, answers.cut) if answers.cut is not None else None
    if not tones_known:
        for option, text in (("--cut", answers.cut), ("--printed-at", answers.printed_at)):
            if text is not None:
                raise InputError("services.negative_tones", option=option)
    reading = NegativeReading(
        shadow,
        highlight,
        fixed_and_washed=answers.fixed_and_washed,
        repeatable=answers.repeatable,
        evidence=use.evidence,
    )
    gain = None if answers.gain is None else typed("--gain", _gain, answers.gain)
    others = () if answers.only else _rows(answers, printing, known)
    decision = decide_after_negative(reading, aim, others, cut=cut, own_gain=gain)
    if aim.printing == "scanner" and answers.print_time is not None:
        raise InputError("services.negative_scanner", place=Place(field="--print-time"))
    time_s = _time_s(answers, highlight)
    limit = density_limit(known, "scanner" if aim.printing == "scanner" else "printing")
    limited = aim.printing != "alternative" and tones_known and highlight > limit.net_density
    times = tuple(_time_after(time_s, option, tones_known=tones_known) for option in decision.options)
    return NegativeJudged(printing, reading, tones_known, use, decision, limit if limited else None, time_s, times)


def _tones(answers: NegativeAnswers) -> tuple[float, float]:
    """Net densities of shadow and highlight; of a bare range they begin at the density aimed at for a shadow."""
    if answers.density_range is not None:
        given = {"--shadow": answers.shadow, "--highlight": answers.highlight, "--base-fog": answers.base_fog}
        twice = [option for option, text in given.items() if text is not None]
        if twice:
            raise InputError("services.negative_twice", options=twice)
        return SHADOW_NET, SHADOW_NET + typed("--range", _range, answers.density_range)
    if answers.shadow is None and answers.highlight is None:
        raise InputError("services.negative_nothing")
    shadow = typed("--shadow", _density, needs("--shadow", answers.shadow, "--highlight"))
    highlight = typed("--highlight", _density, needs("--highlight", answers.highlight, "--shadow"))
    if answers.base_fog is None:
        return shadow, highlight
    base = typed("--base-fog", _density, answers.base_fog)
    for option, value in (("--shadow", shadow), ("--highlight", highlight)):
        if value < base:
            raise OutOfRangeError("services.negative_under_base", place=Place(field=option), value=value, base=base)
    return shadow - base, highlight - base


def _density(text: str) -> float:
    value = parse_number(text)
    if not NET[0] <= value <= NET[1]:
        raise OutOfRangeError("services.negative_density", value=value, low=NET[0], high=NET[1])
    return value


def _gain(text: str) -> float:
    value = parse_number(text)
    intensified_density(1.0, value)
    return value


def _range(text: str) -> float:
    value = parse_number(text)
    if not 0.05 <= value <= 4.0:
        raise OutOfRangeError("services.density_range", value=value, low=0.05, high=4.0)
    return value


def _rows(
    answers: NegativeAnswers, printing: NamedPrinting, known: Sequence[PrintingRange]
) -> tuple[PrintingRange, ...]:
    """Grades or filters that the printing could change to; none where its range is not counted as theirs is."""
    row, kind = printing.row, printing.aim.printing
    if kind not in SILVER or (row is not None and row.kind not in ("grade", "filter")):
        return ()
    if kind == "graded-paper":
        return rows_of_kind(known, "grade")
    return filters_of(answers.names.product or (row.product if row is not None and row.product else None), known)


def _time_s(answers: NegativeAnswers, highlight: float) -> float | None:
    """Print time of this negative, from its own or from that of a known density."""
    if answers.print_time is None:
        if answers.printed_at is not None:
            needs("--print-time", None, "--printed-at")
        return None
    time_s = typed("--print-time", parse_duration_s, answers.print_time)
    try:
        old = highlight if answers.printed_at is None else typed("--printed-at", _density, answers.printed_at)
        return print_time_s(time_s, old, highlight)
    except WetsideError as error:
        raise (error if error.place is not None else error.at(Place(field="--print-time"))) from None


def _time_after(time_s: float | None, option: AfterOption, *, tones_known: bool) -> float | None:
    """Print time of a way: unknown on another grade, whose speed is another, and for a negative not yet made."""
    if time_s is None or option.printing is not None or option.act in (PRINT, REMAKE):
        return None
    if option.print_factor == 1.0:
        return time_s
    return time_s * option.print_factor if tones_known else None
