"""The plan's card: the answer as its title, then the loads, the windows, what fewer loads cost, and the care."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.blocks import Card, Column, Listing, Row, Table
from wetside.cards.count import counted, counted_first
from wetside.cards.names import label, short
from wetside.cards.off_aim import EVEN_DENSITY, NORMAL_RANGE, OffAim, off_aim, said_off_aim
from wetside.cards.words import clean_sentence
from wetside.wording import decimal, manner, sentence, shown

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wetside.cards.blocks import Steps
    from wetside.planning.documents.plan import Load, Plan, PlannedSheet, Rung

NAMES_TOLD = 8
"""Sheets that a table names in one cell before it counts them instead. Our choice."""

TOLD_WITH_LIQUID = "planning.no_reference"
"""Note that the liquid's own lines already say."""

_OUTSIDE = 1.0 + 1e-9


def plan_card(plan: Plan, *, all_cautions: bool = False) -> Card:
    """Lay out a plan for the terminal and the screen.

    Parameters
    ----------
    plan : Plan
    all_cautions : bool
        Tell every caution of the plan instead of the short form that ends by saying where they stand.

    Returns
    -------
    plan_card : Card
        Blocks without content are left out, so that the plain evening stays short.
    """
    blocks: list[Table | Listing | Steps] = []
    if plan.loads:
        blocks.extend((_loads(plan), _windows(plan)))
    if len(plan.ladder) > 1:
        blocks.append(_ladder(plan))
    for code, items, grave in (
        ("cards.plan.unplanned", _unplanned(plan), True),
        ("cards.plan.liquid", _liquid(plan), False),
        ("cards.plan.know", _notes(plan), False),
        ("cards.plan.care", _care(plan, all_cautions=all_cautions), False),
    ):
        if items:
            blocks.append(Listing(sentence(code, {}), tuple(items), grave))
    return Card(_title(plan), _subtitle(plan), tuple(blocks))


def _title(plan: Plan) -> str:
    planned = len(plan.sheets)
    if not plan.loads:
        return sentence("cards.plan.title_none", {"sheets": counted_first("sheet", planned + len(plan.unplanned))})
    return sentence(
        "cards.plan.title", {"sheets": counted_first("sheet", planned), "loads": counted("load", len(plan.loads))}
    )


def _subtitle(plan: Plan) -> tuple[str, ...]:
    told = []
    loads = len(plan.loads)
    if loads:
        if plan.proved or plan.lower_bound >= loads:
            told.append(sentence("cards.plan.fewest", {}))
        else:
            told.append(
                sentence(
                    "cards.plan.bound",
                    {
                        "least": counted_first("load", plan.lower_bound),
                        "planned": counted("load", loads),
                    },
                )
            )
        liquid = sum(load.volume_ml for load in plan.loads)
        vessels = list(dict.fromkeys(load.vessel for load in plan.loads))
        amount = shown(liquid, "ml") if liquid < 1000.0 else _litres(liquid)
        where = counted("vessel", len(vessels)) if len(vessels) > 1 else short(vessels[0], 40)
        shared = _shared_developer(plan)
        told.append(
            sentence(
                "cards.plan.liquid_needed",
                {
                    "amount": amount,
                    "what": shared or sentence("cards.plan.developer", {}),
                    "where": where,
                },
            )
        )
    outside = sum(sheet.deviation > _OUTSIDE for sheet in plan.sheets)
    if outside:
        told.append(sentence("cards.plan.outside", {"sheets": counted_first("sheet", outside)}))
    if plan.unplanned and loads:
        told.append(sentence("cards.plan.without_time", {"sheets": counted_first("sheet", len(plan.unplanned))}))
    return tuple(told)


def _litres(volume_ml: float) -> str:
    if manner().us:
        return sentence("cards.plan.quarts", {"quarts": shown(volume_ml, "large_ml")})
    litres = decimal(f"{volume_ml / 1000.0:.2g}")
    return sentence("cards.plan.litre" if litres == "1" else "cards.plan.litres", {"litres": litres})


def _developer(load: Load) -> str:
    params = {"developer": short(load.developer, 24), "dilution": short(load.dilution, 24), "temp_c": load.temp_c}
    return sentence("cards.plan.developer_of", params)


def _shared_developer(plan: Plan) -> str:
    """Developer, dilution and temperature, where all loads have the same."""
    told = {_developer(load) for load in plan.loads}
    return told.pop() if len(told) == 1 else ""


def _loads(plan: Plan) -> Table:
    rows = []
    shared = bool(_shared_developer(plan))
    by_id = {sheet.id: sheet for sheet in plan.sheets}
    for load in plan.loads:
        mixed = shown(load.volume_ml, "ml")
        if load.water_ml:
            parts = [shown(part, "bare_ml") for part in load.parts_ml or (load.concentrate_ml,)]
            water = shown(load.water_ml, "bare_ml")
            mixed = sentence("cards.act.mixed", {"volume": mixed, "parts": " + ".join(parts), "water": water})
        own = load.own_times_s
        time = shown(load.time_s, "mss")
        if own and max(own) - min(own) >= 1.0:
            time = f"{shown(min(own), 'mss')}–{shown(max(own), 'mss')}"
        cells = (str(load.number), time, _named(load.sheets), short(load.vessel, 24), mixed)
        rows.append(
            Row(cells if shared else (*cells, _developer(load)), remark=_worst(load, by_id.get(load.worst_sheet)))
        )
    columns = (
        Column(sentence("cards.plan.column_load", {}), figures=True),
        Column(sentence("cards.plan.column_develop", {}), figures=True),
        Column(sentence("cards.plan.column_sheets", {})),
        Column(sentence("cards.plan.column_vessel", {})),
        Column(sentence("cards.plan.column_pour", {})),
        Column(sentence("cards.plan.column_in", {})),
    )
    return Table("", columns[:-1] if shared else columns, tuple(rows))


def _worst(load: Load, sheet: PlannedSheet | None) -> str:
    """The sheet of a load that is furthest off, where it is off at all."""
    told = load.worst_density if load.worst_density is not None else load.worst_density_guess
    if sheet is None or abs(load.worst_percent) < 0.5 or (told is not None and abs(told) < EVEN_DENSITY):
        return ""
    off = off_aim(load.worst_density, load.worst_density_guess, load.worst_percent, sheet.aim_range)
    code = "cards.plan.worst_outside" if load.worst_deviation > _OUTSIDE else "cards.plan.worst"
    return sentence(code, {"sheet": label(sheet.id, 40), "off": said_off_aim(off)})


def _named(names: Sequence[str], *, last_and: bool = False) -> str:
    """Names while they are few, then the first ones and how many more; whole numbers in a row as a span."""
    numbers = [int(name) for name in names if name.isdecimal()]
    if len(numbers) == len(names) > 2 and numbers == list(range(numbers[0], numbers[0] + len(numbers))):
        return sentence("cards.plan.span", {"first": numbers[0], "last": numbers[-1]})
    if len(names) <= NAMES_TOLD:
        told_all = [label(name, 40) for name in names]
        return shown(told_all, "list") if last_and else ", ".join(told_all)
    told = ", ".join(label(name, 24) for name in names[: NAMES_TOLD - 2])
    return sentence("cards.plan.and_more", {"names": told, "more": counted("more_sheet", len(names) - NAMES_TOLD + 2)})


def sheets_alike(sheets: Iterable[PlannedSheet], *, by_reckoning: bool = False) -> list[list[PlannedSheet]]:
    """Sheets with the same film, time, window and evidence, in the order of the loads.

    Parameters
    ----------
    sheets : iterable of PlannedSheet
    by_reckoning : bool
        Keep those apart whose load or whose way to the time differs.
    """
    alike: dict[tuple[object, ...], list[PlannedSheet]] = {}
    for sheet in sheets:
        ends = tuple(shown(end, "mss") for end in sheet.window_s)
        same: tuple[object, ...] = (sheet.film, sheet.process, shown(sheet.time_s, "mss"), ends, sheet.evidence)
        if by_reckoning:
            way = tuple(step.code for step in sheet.reckoning)
            same = (*same, sheet.load, sheet.aim, sheet.n, round(sheet.stop_error, 2), way)
        alike.setdefault(same, []).append(sheet)
    return sorted(alike.values(), key=lambda lot: min(sheet.load for sheet in lot))


def _windows(plan: Plan) -> Table:
    rows = [
        Row(
            (
                _named([sheet.id for sheet in lot]),
                short(lot[0].film, 24),
                shown(lot[0].time_s, "mss"),
                sentence("cards.plan.window", {"low_s": lot[0].window_s[0], "high_s": lot[0].window_s[1]}),
                lot[0].evidence,
                _named([str(number) for number in sorted({sheet.load for sheet in lot})]),
            )
        )
        for lot in sheets_alike(plan.sheets)
    ]
    return Table(
        sentence("cards.plan.windows", {}),
        (
            Column(sentence("cards.plan.column_sheets", {})),
            Column(sentence("cards.plan.column_film", {})),
            Column(sentence("cards.plan.column_own", {}), figures=True),
            Column(sentence("cards.plan.column_window", {}), figures=True),
            Column(sentence("cards.plan.column_evidence", {})),
            Column(sentence("cards.plan.column_load", {})),
        ),
        tuple(rows),
    )


def _ladder(plan: Plan) -> Table:
    chosen = next((rung.loads for rung in plan.ladder if rung.chosen), len(plan.loads))
    fewer = any(rung.loads < chosen for rung in plan.ladder)
    more = any(rung.loads > chosen for rung in plan.ladder)
    title = (
        "cards.plan.ladder_both" if fewer and more else "cards.plan.ladder_fewer" if fewer else "cards.plan.ladder_more"
    )
    by_id = {sheet.id: sheet for sheet in plan.sheets}
    return Table(
        sentence(title, {}),
        (
            Column(sentence("cards.plan.column_loads", {}), figures=True),
            Column(sentence("cards.plan.column_worst", {})),
            Column(sentence("cards.plan.column_density", {}), figures=True),
            Column(sentence("cards.plan.column_grade", {})),
            Column(sentence("cards.plan.column_zones", {}), figures=True),
            Column(sentence("cards.plan.column_time", {}), figures=True),
        ),
        tuple(_rung(rung, by_id.get(rung.worst_sheet)) for rung in plan.ladder),
    )


def _rung(rung: Rung, sheet: PlannedSheet | None) -> Row:
    if abs(rung.worst_percent) < 0.05:
        off, worst = (
            OffAim(shown(0.0, "signed"), "–", "–", shown(0.0, "whole_percent"), guessed=False),
            sentence("cards.plan.nobody", {}),
        )
    else:
        off = off_aim(
            rung.worst_density, rung.worst_density_guess, rung.worst_percent, sheet.aim_range if sheet else NORMAL_RANGE
        )
        worst = label(rung.worst_sheet, 28)
    remarks = []
    if rung.broken:
        remarks.append(sentence("cards.plan.broken", {"sheets": _named(rung.broken)}))
    if rung.without is not None:
        remarks.append(sentence(f"cards.plan.without_{rung.without}", {}))
    if rung.alike:
        remarks.append(sentence("cards.plan.alike", {}))
    if not rung.proved:
        remarks.append(sentence("cards.plan.unproved", {}))
    density = sentence("cards.plan.about", {"value": off.density}) if off.guessed and off.density else off.density
    return Row(
        (str(rung.loads), worst, density, off.grade or "–", off.zones or "–", off.time), rung.chosen, " ".join(remarks)
    )


def _unplanned(plan: Plan) -> list[str]:
    """Sheets without a time, those with the same reason together."""
    reasons: dict[str, list[str]] = {}
    for one in plan.unplanned:
        reasons.setdefault(clean_sentence(one.code, one.params), []).append(one.id)
    told = []
    for why, names in reasons.items():
        numbers = len(names) > 1 and all(name.isdecimal() for name in names)
        code = "cards.plan.unplanned_numbers" if numbers else "cards.plan.unplanned_names"
        told.append(sentence(code, {"sheets": _named(names, last_and=True), "why": why}))
    return told


def _liquid(plan: Plan) -> list[str]:
    """Which of the two needs binds in each load, like loads together."""
    told: dict[str, list[int]] = {}
    for load in plan.loads:
        check = load.check
        code = check.binds if check.agent_need_ml is not None else "unknown"
        params = {
            "volume_ml": load.volume_ml,
            "wetting_ml": check.wetting_ml,
            "agent_ml": check.agent_need_ml,
            "ratio": check.agent_ratio,
            "effect": check.agent_effect_density,
            "vessel": short(load.vessel, 24),
        }
        said = sentence(f"cards.plan.binds_{code}", params)
        if check.agent_effect_density is not None and abs(check.agent_effect_density) >= 0.005:
            said += " " + sentence("cards.plan.agent_effect", params)
        if check.passes:
            ways = [clean_sentence(note.code, note.params) for note in check.passes]
            said += " " + sentence("cards.plan.passes", {"ways": "; ".join(ways)})
        told.setdefault(said, []).append(load.number)
    return [_prefixed(said, numbers, len(plan.loads)) for said, numbers in told.items()]


def _prefixed(said: str, numbers: Sequence[int], loads: int) -> str:
    if len(numbers) == loads:
        return said
    code = "cards.plan.of_load" if len(numbers) == 1 else "cards.plan.of_loads"
    return sentence(code, {"loads": _named([str(number) for number in numbers]), "said": said})


def _notes(plan: Plan) -> list[str]:
    """What is worth knowing: of the evening, of loads, of sheets; the same sentence once."""
    told: dict[str, None] = {clean_sentence(note.code, note.params): None for note in plan.notes}
    of_loads: dict[str, list[int]] = {}
    for load in plan.loads:
        for note in load.notes:
            if note.code == TOLD_WITH_LIQUID:
                continue
            of_loads.setdefault(clean_sentence(note.code, note.params), []).append(load.number)
    for said, numbers in of_loads.items():
        told[_prefixed(said, numbers, len(plan.loads))] = None
    of_sheets: dict[str, list[str]] = {}
    for sheet in plan.sheets:
        for note in sheet.notes:
            of_sheets.setdefault(clean_sentence(note.code, note.params), []).append(sheet.id)
    for said, names in of_sheets.items():
        everywhere = len(names) == len(plan.sheets)
        told[said if everywhere else sentence("cards.plan.of_sheets", {"sheets": _named(names), "said": said})] = None
    return list(told)


def _care(plan: Plan, *, all_cautions: bool) -> list[str]:
    if all_cautions and plan.cautions:
        return list(dict.fromkeys(clean_sentence(note.code, note.params) for note in plan.cautions))
    if not plan.loads:
        return []
    waste = sentence("cards.plan.care_waste", {})
    if plan.cautions:
        waste = f"{waste} {sentence('cards.plan.more_care', {})}"
    return [sentence("cards.plan.care_short", {}), waste]
