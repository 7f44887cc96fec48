"""``wetside negative``: a finished negative in hand, and every way on with what it gives."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.answer import print_answer, told_json
from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json
from wetside.sensitometry.after_negative import CUT, INTENSIFY, KEEP, PRINT, REDUCE, REMAKE
from wetside.sensitometry.aims import grade_change
from wetside.services.negative import NegativeAnswers, NegativeJudged, negative
from wetside.services.printing_choice import SILVER, PrintingNames
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    import argparse

    from wetside.sensitometry.after_negative import AfterOption

Told = tuple[str, dict[str, Any]]

TREATMENTS = (INTENSIFY, REDUCE, CUT)
POINTLESS = (
    "sensitometry.after.hard_enough",
    "sensitometry.after.soft_enough",
    "sensitometry.after.not_repeatable",
)
"""Reasons that say all there is to say of a way."""


def run(arguments: argparse.Namespace) -> int:
    """Print range, what is wanted, what is advised, then each way on and its cautions."""
    answer = negative(
        NegativeAnswers(
            shadow=arguments.shadow,
            highlight=arguments.highlight,
            base_fog=arguments.base_fog,
            density_range=arguments.range,
            names=PrintingNames(
                number=arguments.number,
                grade=arguments.grade,
                filter=arguments.filter,
                process=arguments.process,
                wanted=arguments.aim,
                printing=arguments.printing,
                product=arguments.product,
            ),
            only=arguments.only,
            read_in=arguments.read_in or (),
            stained=arguments.stained,
            fixed_and_washed=arguments.fixed_and_washed,
            repeatable=arguments.repeatable,
            cut=arguments.cut,
            gain=arguments.gain,
            print_time=arguments.print_time,
            printed_at=arguments.printed_at,
        ),
        Path(arguments.rows) if arguments.rows else None,
    )
    told = _told(answer)
    if arguments.json:
        print_json({**_as_json(answer), "notes": told_json(told)})
    else:
        print_answer(_rows(answer), [*_ways(answer), *told])
    return ExitCode.OK


def _as_json(answer: NegativeJudged) -> dict[str, Any]:
    decision, aim = answer.decision, answer.printing.aim
    return {
        "range": decision.range_before,
        "shadow_net": answer.reading.shadow_net if answer.tones_known else None,
        "highlight_net": answer.reading.highlight_net if answer.tones_known else None,
        "wanted": {
            "for": aim.printing,
            "name": answer.printing.name,
            "range": aim.density_range,
            "tolerance": aim.tolerance,
            "evidence": aim.evidence.value,
            "source": aim.source.key if aim.source else None,
        },
        "read_in": list(answer.use.channels),
        "off": decision.off,
        "deviation": decision.deviation,
        "grades": grade_change(decision.off) if aim.printing in SILVER else None,
        "limit": None if answer.limit is None else answer.limit.net_density,
        "print_s": answer.time_s,
        "advised": decision.advised.act,
        "ways": [
            _way_json(answer, option, time_s) for option, time_s in zip(decision.options, answer.times_s, strict=True)
        ],
    }


def _way_json(answer: NegativeJudged, option: AfterOption, time_s: float | None) -> dict[str, Any]:
    row = option.printing
    tells_exposure = _tells_exposure(answer, option)
    return {
        "act": option.act,
        "possible": option.possible,
        "reason": None if option.reason is None else told_json([(option.reason, {})])[0],
        "range_after": option.range_after,
        "range_after_low": option.range_after_low,
        "range_after_high": option.range_after_high,
        "wanted": option.wanted,
        "deviation": option.deviation,
        "zones": option.zones,
        "printing": None if row is None else {"kind": row.kind, "name": row.name, "product": row.product or None},
        "grades": option.grades if row is not None else None,
        "print_factor": option.print_factor if tells_exposure else None,
        "print_s": time_s,
        "lost": option.lost if answer.tones_known else None,
        "evidence": option.evidence.value,
        "cautions": told_json([(code, {}) for code in option.cautions]),
    }


def _rows(answer: NegativeJudged) -> list[tuple[str, str]]:
    from wetside.cards.text import MARKS

    decision, aim = answer.decision, answer.printing.aim
    within = sentence("cli.paper.within", {"range": round(aim.density_range, 2), "tolerance": aim.tolerance})
    key = f" ({aim.source.key})" if aim.source is not None and aim.source.key != "own" else ""
    name = f", {answer.printing.name}" if answer.printing.name else ""
    rows = [
        ("cli.negative.range", shown(decision.range_before, "density")),
        ("cli.negative.wanted", f"{within}{name}"),
        ("cli.paper.evidence", f"{MARKS[aim.evidence]} {aim.evidence.value}{key}"),
        ("cli.negative.off", _off(answer)),
        ("cli.negative.deviation", sentence("cli.negative.of_tolerance", {"deviation": decision.deviation})),
    ]
    if answer.time_s is not None:
        rows.append(("cli.negative.time", shown(answer.time_s, "shutter")))
    act, params = _act(decision.advised, product=False)
    return [*rows, ("cli.negative.advised", sentence(act, params))]


def _off(answer: NegativeJudged) -> str:
    """How far off, in density, then in grades where there are any."""
    off = answer.decision.off
    parts = [shown(off, "signed")]
    grades = grade_change(off)
    if answer.printing.aim.printing in SILVER and shown(grades, "mixed") != "0":
        parts.append(sentence("cli.negative.too_hard" if grades > 0 else "cli.negative.too_soft", {"grades": grades}))
    return ", ".join(parts)


def _act(option: AfterOption, *, product: bool = True) -> Told:
    """Name of a way, with the grade or filter that it goes to, and the paper that the filter is for."""
    code = option.act
    if option.act == PRINT:
        said = shown(option.grades, "mixed")
        code = "print_same" if said == "0" else "print_harder" if option.grades > 0 else "print_softer"
    elif option.printing is not None:
        code = f"{option.act}_and_print"
    row = option.printing
    name = "" if row is None else f"{row.kind} {row.name}" + (f" ({row.product})" if row.product and product else "")
    return f"cli.negative.act_{code}", {"row": name}


def _tells_exposure(answer: NegativeJudged, option: AfterOption) -> bool:
    """Whether the middle tone's change says what the print exposure becomes; a scanner has none."""
    if answer.printing.aim.printing == "scanner":
        return False
    return answer.tones_known and option.printing is None and option.act not in (PRINT, REMAKE)


def _ways(answer: NegativeJudged) -> list[Told]:
    """One line for each way: what it is called, what it gives, what it takes, and why it is only shown."""
    from wetside.cards.text import MARKS

    lines: list[Told] = [("cli.negative.ways", {})]
    for option, time_s in zip(answer.decision.options, answer.times_s, strict=True):
        code, params = _act(option)
        if option.reason in POINTLESS:
            needless = {"act": sentence(code, params), "reason": sentence(option.reason, {})}
            lines.append(("cli.negative.way", {"text": sentence("cli.negative.needless", needless)}))
            continue
        parts = [sentence(f"cli.negative.gives_{_gives(option)}", {**option._asdict(), "act": sentence(code, params)})]
        if option.printing is not None and shown(option.grades, "mixed") != "0":
            parts.append(
                sentence("cli.negative.harder" if option.grades > 0 else "cli.negative.softer", option._asdict())
            )
        if answer.tones_known and option.lost >= 0.005:
            parts.append(sentence("cli.negative.lost", {"lost": option.lost}))
        if _tells_exposure(answer, option) and option.act != KEEP:
            parts.append(sentence("cli.negative.exposure", {"factor": option.print_factor}))
            if time_s is not None:
                parts.append(sentence("cli.negative.new_time", {"time_s": time_s}))
        if option.act != REMAKE:
            parts.append(f"{MARKS[option.evidence]} {option.evidence.value}.")
        if option.reason is not None:
            parts.append(sentence("cli.negative.not_now", {"reason": sentence(option.reason, {})}))
        lines.append(("cli.negative.way", {"text": " ".join(parts)}))
    return lines


def _gives(option: AfterOption) -> str:
    if option.act in (KEEP, REMAKE, PRINT):
        return option.act
    return "span" if option.range_after_high - option.range_after_low >= 0.005 else "treated"


def _told(answer: NegativeJudged) -> list[Told]:
    decision, row = answer.decision, answer.printing.row
    told: list[Told] = []
    if decision.advised.deviation > 1.0 + 1e-9:
        told.append(("cli.negative.none_serves", {}))
    if answer.use.code is not None:
        told.append((answer.use.code, {}))
    if answer.limit is not None:
        over = answer.reading.highlight_net - answer.limit.net_density
        told.append(
            (
                "cli.negative.over_limit",
                {
                    "highlight": answer.reading.highlight_net,
                    "limit": answer.limit.net_density,
                    "kind": answer.limit.kind,
                    "over": over,
                },
            )
        )
    if answer.printing.aim.printing == "scanner":
        told.append(("cli.paper.scanner", {}))
    if not answer.tones_known:
        told.append(("cli.negative.only_range", {}))
    if row is not None and row.kind in ("enlarger", "process") and row.printing in SILVER:
        told.append(("cli.negative.no_grades_here", {}))
    if any(option.printing is not None for option in decision.options):
        told.append(("cli.negative.other_speed", {}))
        told.append(("cli.paper.grades_recalled", {}))
    treated = [option for option in decision.options if option.act in TREATMENTS and option.possible]
    told += [(code, {}) for code in dict.fromkeys(code for option in treated for code in option.cautions)]
    return told
