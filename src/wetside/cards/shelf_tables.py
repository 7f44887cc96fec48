"""What an evening takes from the shelf and leaves behind: mixing, bottles, fixer, waste."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.blocks import Column, Row, Table
from wetside.cards.names import short
from wetside.cards.words import clean_sentence
from wetside.planning.documents.words import BathKind
from wetside.planning.resolved import names_on_bottles
from wetside.values.names import plain_name
from wetside.wording import decimal, manner, sentence, shown

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wetside.planning.documents.course import Course, Draw, FixerState, Mixing, Replenishing, Waste


def tables_before(course: Course) -> Iterator[Table]:
    """Tables of what is mixed, from which bottles it comes, and each load's top-up; one without a row is left out.

    Parameters
    ----------
    course : Course
    """
    if course.mixing:
        yield _mixing(course)
    if course.draws:
        yield _draws(course.draws)
    if course.replenishing:
        yield _replenishing(course.replenishing)


def tables_after(course: Course) -> Iterator[Table]:
    """Tables of what the evening leaves behind, used fixer and waste; one without a row is left out.

    Parameters
    ----------
    course : Course
    """
    if course.fixers:
        yield _fixers(course.fixers)
    if course.waste:
        yield _waste(course.waste)


def _columns(names: Sequence[str], figures: Sequence[str]) -> tuple[Column, ...]:
    return tuple(Column(sentence(f"cards.course.column_{name}", {}), figures=name in figures) for name in names)


def _volume(volume_ml: float) -> str:
    """Millilitres, and whole ones from ten on: no measure at a sink shows more."""
    return shown(float(round(volume_ml)) if volume_ml >= 10 and not manner().us else volume_ml, "ml")


def _ready_in(row: Mixing, course: Course) -> str | None:
    """Mark of the one bottle that a bath stands ready in: nothing new is mixed where it is full enough."""
    if row.kind == BathKind.FIX.value:
        marks = [fixer.bottle for fixer in course.fixers]
    else:
        own, other = names_on_bottles(row.name)
        marks = [draw.bottle for draw in course.draws if plain_name(draw.holds) in own | other]
    return marks[0] if len(marks) == 1 else None


def _mixing(course: Course) -> Table:
    told = []
    for row in course.mixing:
        name = short(row.name, 30) if row.name != row.kind else sentence(f"cards.bath.{row.kind}", {})
        if row.dilution:
            name = f"{name} {short(row.dilution, 16)}"
        mark = None if row.parts_ml else _ready_in(row, course)
        parts = sentence(
            "cards.course.as_told" if mark is None else "cards.course.in_bottle", {"mark": short(mark or "", 20)}
        )
        if row.parts_ml and row.water_ml:
            said = [shown(part, "bare_ml") for part in row.parts_ml]
            water = shown(row.water_ml, "ml")
            parts = sentence("cards.course.parts", {"parts": " + ".join(said), "water": water})
        elif row.parts_ml:
            parts = sentence("cards.course.ready_made", {})
        often = (
            sentence("cards.course.once", {})
            if row.times == 1
            else sentence("cards.course.fresh", {"times": row.times})
        )
        told.append(Row((str(row.order), name, _volume(row.volume_ml), parts, often)))
    names = ("order", "liquid", "volume", "parts", "times")
    return Table(sentence("cards.course.mixing", {}), _columns(names, ("order", "volume")), tuple(told))


def _draws(draws: Sequence[Draw]) -> Table:
    priced = any(draw.cost is not None for draw in draws)
    rows = []
    for draw in draws:
        if draw.left_ml is None:
            left = sentence("cards.course.unknown", {})
        else:
            left = sentence("cards.course.empty", {}) if draw.left_ml < 0.5 else _volume(draw.left_ml)
        cells = (short(draw.bottle, 20), short(draw.holds, 40), _volume(draw.volume_ml), left)
        cost = "–" if draw.cost is None else decimal(f"{draw.cost:.2f}")
        rows.append(Row((*cells, cost) if priced else cells))
    names = ("bottle", "holds", "take", "left", "cost")
    return Table(
        sentence("cards.course.draws", {}),
        _columns(names if priced else names[:-1], ("take", "left", "cost")),
        tuple(rows),
        sentence("cards.course.oldest", {}),
    )


def _replenishing(rows: Sequence[Replenishing]) -> Table:
    known = any(row.turnover is not None for row in rows)
    told = []
    for row in rows:
        cells = (
            str(row.load),
            short(row.bottle or row.developer, 20),
            _volume(row.set_aside_ml),
            _volume(row.add_ml),
        )
        state = "–"
        if row.turnover is not None:
            params = {"state": sentence(f"cards.course.bath_{row.state}", {}), "turnover": row.turnover}
            state = sentence("cards.course.bath_state", params)
        told.append(Row((*cells, state) if known else cells))
    names = ("after_load", "bath", "set_aside", "add", "state")
    total = _volume(sum(row.add_ml for row in rows))
    return Table(
        sentence("cards.course.replenishing", {"total": total}),
        _columns(names if known else names[:-1], ("after_load", "set_aside", "add")),
        tuple(told),
        sentence("cards.course.replenishing_foot", {}),
    )


def _fixers(states: Sequence[FixerState]) -> Table:
    timed = any(state.fix_s is not None for state in states)
    rows = []
    for state in states:
        code = ("renew_none", "renew_one")[len(state.changes)] if len(state.changes) < 2 else "renew_many"
        renewed = list(map(str, state.changes))
        params = {"loads": renewed[0] if len(renewed) == 1 else renewed}
        renew = sentence(f"cards.course.{code}", params)
        fix = "–" if state.fix_s is None else shown(state.fix_s, "mss")
        cells = (short(state.bottle, 20), shown(state.before, "share"), shown(state.after, "share"), renew)
        rows.append(Row((*cells, fix) if timed else cells))
    names = ("bottle", "before", "used", "renew", "fix")
    return Table(
        sentence("cards.course.fixers", {}),
        _columns(names if timed else names[:-1], ("before", "used", "fix")),
        tuple(rows),
        sentence("cards.course.fixer_foot", {}),
    )


def _waste(rows: Sequence[Waste]) -> Table:
    return Table(
        sentence("cards.course.waste", {}),
        _columns(("vessel", "holding"), ("holding",)),
        tuple(Row((clean_sentence(row.vessel, {}), _volume(row.volume_ml))) for row in rows),
        sentence("cards.course.waste_foot", {}),
    )
