"""Why a sheet gets its time: the reckoning as a stack of lines, and its weakest part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cards.blocks import Card, Listing, Step, Steps
from wetside.cards.names import clean, short
from wetside.cards.off_aim import off_aim, said_off_aim
from wetside.cards.words import clean_sentence
from wetside.values.evidence import Evidence
from wetside.wording import decimal, manner, sentence, shown

if TYPE_CHECKING:
    from wetside.planning.documents.plan import Plan, PlannedSheet, ReckoningStep
    from wetside.values.evidence import Source

_RANK = {kind: rank for rank, kind in enumerate(Evidence)}


def reckoning_card(plan: Plan, sheet: PlannedSheet) -> Card:
    """Lay out the reckoning of one sheet.

    Parameters
    ----------
    plan : Plan
        It says how many loads there are.
    sheet : PlannedSheet
        One of its sheets.
    """
    aim_range = sheet.aim_range
    name = short(sheet.id)
    low_s, high_s = sheet.window_s
    subtitle = [
        sentence(
            "cards.why.window",
            {
                "low_s": low_s,
                "high_s": high_s,
                "load": sheet.load,
                "load_s": sheet.load_time_s,
                "loads": len(plan.loads),
            },
        )
    ]
    if abs(sheet.percent) >= 0.5:
        off = off_aim(sheet.density, sheet.density_guess, sheet.percent, aim_range)
        code = "cards.why.off_outside" if sheet.deviation > 1.0 + 1e-9 else "cards.why.off"
        subtitle.append(sentence(code, {"off": said_off_aim(off)}))
    steps = Steps(
        tuple(_step(step, aim_range) for step in sheet.reckoning),
        sentence("cards.why.develop", {}),
        shown(sheet.time_s, "mss"),
    )
    weakest = _weakest(sheet)
    blocks: list[Steps | Listing] = [steps]
    if weakest is not None:
        told = sentence(
            "cards.why.weakest",
            {
                "part": clean_sentence(weakest.code, weakest.params),
                "evidence": sentence(f"cards.evidence.{weakest.evidence}", {}),
                "advice": sentence(f"cards.why.advice_{weakest.evidence}", {}),
            },
        )
        blocks.append(Listing("", (told,)))
    notes = tuple(dict.fromkeys(clean_sentence(note.code, note.params) for note in sheet.notes))
    if notes:
        blocks.append(Listing(sentence("cards.plan.know", {}), notes))
    return Card(sentence("cards.why.title", {"sheet": name, "time_s": sheet.time_s}), tuple(subtitle), tuple(blocks))


def _step(step: ReckoningStep, aim_range: float) -> Step:
    if step.factor is not None:
        value = sentence("cards.why.factor", {"factor": step.factor})
    elif step.unit == "s":
        value = shown(step.value, "mss")
    elif step.unit in ("stops", "zones"):
        value = sentence(f"cards.why.{step.unit}", {"value": step.value})
    else:
        value = _in_unit(step.value, step.unit)
    effect = ""
    if step.factor is not None:
        percent = (step.factor - 1.0) * 100.0
        effect = said_off_aim(off_aim(step.effect_density, None, percent, aim_range))
    elif step.spread is not None and step.unit == "s":
        effect = sentence("cards.why.spread", {"spread_s": step.spread})
    return Step(step.evidence, clean_sentence(step.code, step.params), value, effect, _source(step.source))


def _in_unit(value: float, unit: str) -> str:
    """A value with its unit; temperatures and volumes as the darkroom shows them."""
    if any(manner()) and unit in ("C", "ml"):
        return shown(value, "temp" if unit == "C" else "ml")
    return decimal(f"{value:.3g} {unit}").strip()


def _source(source: Source | None) -> str:
    """Where a figure can be read; the user's own words stand without the key."""
    if source is None:
        return ""
    if source.key == "own":
        return short(source.where or sentence("cards.why.own", {}), 80)
    if source.key == "common-practice":
        return ", ".join(part for part in (sentence("cards.why.common", {}), decimal(clean(source.where))) if part)
    return ", ".join(part for part in (clean(source.key), short(source.where, 80), clean(source.date)) if part)


def _weakest(sheet: PlannedSheet) -> ReckoningStep | None:
    """The line with the weakest evidence; of several, the one that does most."""
    weak = [step for step in sheet.reckoning if step.evidence not in (Evidence.TESTED, Evidence.PUBLISHED)]
    if not weak:
        return None
    return max(weak, key=lambda step: (_RANK[step.evidence], abs(step.effect_density or 0.0)))
