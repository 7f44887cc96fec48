"""The evening's page: when it ends, what comes when, and everything that lies around the loads."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.blocks import BLANK, Card, Column, Listing, Row, Table
from wetside.cards.count import counted
from wetside.cards.course_lists import each_load, first_list, last_list
from wetside.cards.hours import (
    clock_time,
    clock_time_said,
    days_on,
    length,
    length_in_words,
    rounded_end_s,
)
from wetside.cards.names import label, short
from wetside.cards.shelf_tables import tables_after, tables_before
from wetside.cards.words import clean_sentence
from wetside.wording import decimal, manner, sentence, shown

if TYPE_CHECKING:
    from wetside.planning.documents.course import Course, CourseStep
    from wetside.planning.documents.plan import Load, Plan

NAMES_TOLD = 6
"""Sheets that a step names before it counts them; the run sheet names them all. Our choice."""

OWN_NOUN = frozenset({"drum", "tray"})
"""Vessels that are counted by their own name."""


def course_card(plan: Plan, course: Course) -> Card:
    """Lay out the course of an evening.

    Parameters
    ----------
    plan : Plan
    course : Course
        Of that plan.

    Returns
    -------
    course_card : Card
        Its title says when the evening is over, or how long it takes where it has no beginning on the clock.
    """
    if not plan.loads:
        return Card(sentence("cards.course.title_none", {}), (), _notes(course))
    blocks: list[Table | Listing] = [_steps(plan, course)]
    looks = [step for step in course.steps if step.does == "look"]
    if looks:
        blocks.append(_looks(course, looks))
    tidy = next((step.starts_s for step in course.steps if step.does == "tidy"), None)
    # What is mixed stands before the first list, which sends the reader there, and fills the first page of paper.
    blocks.extend(tables_before(course))
    blocks.extend(
        (
            first_list(plan, course),
            each_load(plan, looks=bool(looks)),
            last_list(
                None if tidy is None else clock_time_said(tidy, course.starts_s), clocked=course.starts_s is not None
            ),
        )
    )
    blocks.extend(tables_after(course))
    blocks.extend(_notes(course))
    return Card(_title(plan, course), _subtitle(course), tuple(blocks))


def _title(plan: Plan, course: Course) -> str:
    loads = counted("load", len(plan.loads))
    end_s = rounded_end_s(course.ends_s, course.starts_s)
    if course.starts_s is None:
        return sentence("cards.course.title_lasts", {"lasts": length_in_words(end_s), "loads": loads})
    kinds = {load.vessel_kind for load in plan.loads}
    noun = kinds.pop() if len(kinds) == 1 else ""
    vessels = counted(noun if noun in OWN_NOUN else "vessel", len({load.vessel for load in plan.loads}))
    end = clock_time_said(end_s, course.starts_s)
    return sentence("cards.course.title_until", {"end": end, "loads": loads, "vessels": vessels})


def _subtitle(course: Course) -> tuple[str, ...]:
    told = []
    dark = next((step.starts_s for step in course.steps if step.does == "load"), None)
    if dark is not None:
        if course.starts_s is None:
            told.append(sentence("cards.course.begin_open", {"dark": length(dark)}))
        else:
            start = clock_time(0.0, course.starts_s)
            told.append(
                sentence("cards.course.begin", {"start": start, "dark": clock_time_said(dark, course.starts_s)})
            )
    hung = [step.starts_s + step.lasts_s for step in course.steps if step.does == "run"]
    if hung and course.starts_s is not None:
        told.append(sentence("cards.course.end", {"hung": clock_time_said(max(hung), course.starts_s)}))
    if course.places:
        code = "cards.course.places_one" if course.places == 1 else "cards.course.places"
        told.append(sentence(code, {"sheets": counted("sheet", course.places)}))
    if course.water_ml > 0:
        code = "cards.course.water_us" if manner().us else "cards.course.water"
        told.append(sentence(code, {"litres": shown(course.water_ml, "large_ml")}))
    if course.cost is not None:
        told.append(sentence("cards.course.cost", {"cost": decimal(f"{course.cost:.2f}")}))
    return tuple(told)


def _steps(plan: Plan, course: Course) -> Table:
    rows: list[Row] = []
    loads = {load.number: load for load in plan.loads}
    clips = _clips(plan)
    day = 0
    for step in course.steps:
        now = days_on(step.starts_s, course.starts_s)
        if now > day:
            day = now
            later = (
                sentence("cards.course.midnight_next", {})
                if now == 1
                else sentence("cards.course.midnight_later", {"days": counted("day", now)})
            )
            rows.append(Row(("0:00", "", sentence("cards.course.midnight", {}), later)))
        load = loads.get(step.load) if step.load is not None else None
        does, with_what = _said(step, load, clips)
        rows.append(Row((clock_time(step.starts_s, course.starts_s), length(step.lasts_s), does, with_what)))
    at = "cards.course.column_after" if course.starts_s is None else "cards.course.column_at"
    return Table(
        "",
        (
            Column(sentence(at, {}), figures=True),
            Column(sentence("cards.course.column_lasts", {}), figures=True),
            Column(sentence("cards.course.column_do", {})),
            Column(sentence("cards.course.column_with", {})),
        ),
        tuple(rows),
        sentence("cards.course.times", {}),
    )


def _clips(plan: Plan) -> dict[int, str]:
    """Clips of each load, counted through the evening as on the run sheets."""
    told = {}
    hung = 0
    for load in plan.loads:
        first, last = hung + 1, hung + len(load.sheets)
        code = "cards.course.clip" if first >= last else "cards.course.clips"
        if last == first + 1:
            code = "cards.course.clips_two"
        told[load.number] = sentence(code, {"first": first, "last": last})
        hung = last
    return told


def _said(step: CourseStep, load: Load | None, clips: dict[int, str]) -> tuple[str, str]:
    """What a step does, and with what; a kind that this card does not know is said by its own code."""
    params = {"load": step.load, "vessel": short(step.vessel or "", 30)}
    if step.does == "set-up":
        return sentence("cards.course.do_set_up", {}), sentence("cards.course.with_set_up", {})
    if step.does == "tidy":
        return sentence("cards.course.do_tidy", {}), sentence("cards.course.with_tidy", {})
    if step.does == "look":
        return sentence("cards.course.do_look", params), sentence("cards.course.with_look", {})
    if step.does == "new-fixer":
        with_what = {**params, "bottle": short(str(step.params.get("bottle", "")), 30)}
        return sentence("cards.course.do_new_fixer", {}), sentence("cards.course.with_new_fixer", with_what)
    if step.does in ("wait-vessel", "wait-places"):
        code = f"cards.course.with_{step.does.replace('-', '_')}"
        return sentence("cards.course.do_wait", {}), sentence(code, params)
    if step.does == "load" and load is not None:
        return (
            sentence("cards.course.do_load", params),
            sentence("cards.course.with_load", {**params, "sheets": _sheets(load)}),
        )
    if step.does == "run" and load is not None:
        code = "cards.course.do_run" if load.own_times_s is None else "cards.course.do_run_own"
        return (
            sentence(code, {**params, "time_s": load.time_s}),
            sentence("cards.course.with_run", {**params, "clips": clips[load.number]}),
        )
    return clean_sentence(step.code, step.params), ""


def _sheets(load: Load) -> str:
    numbers = [int(sheet) for sheet in load.sheets if sheet.isdecimal()]
    if len(numbers) == len(load.sheets) > 2 and numbers == list(range(numbers[0], numbers[-1] + 1)):
        return sentence("cards.plan.span", {"first": numbers[0], "last": numbers[-1]})
    if len(load.sheets) > NAMES_TOLD:
        return counted("sheet", len(load.sheets))
    return shown([label(sheet, 24) for sheet in load.sheets], "list")


def _looks(course: Course, looks: list[CourseStep]) -> Table:
    code = "cards.course.look_load_open" if course.starts_s is None else "cards.course.look_load"
    rows = tuple(
        Row(
            (
                sentence(code, {"load": step.load, "at": clock_time_said(step.starts_s, course.starts_s)}),
                clean_sentence(step.code, step.params),
                BLANK,
                BLANK,
            ),
            remark=sentence("cards.course.decide", {}),
        )
        for step in looks
    )
    return Table(
        sentence("cards.course.looks", {}),
        tuple(Column(sentence(f"cards.course.column_{name}", {})) for name in ("look", "why", "shadow", "highlight")),
        rows,
        sentence("cards.course.look_foot", {}),
    )


def _notes(course: Course) -> tuple[Listing, ...]:
    told = tuple(dict.fromkeys(clean_sentence(note.code, note.params) for note in course.notes))
    return (Listing(sentence("cards.plan.know", {}), told),) if told else ()
