"""Where the figures of an exposure are from: filters by film and light, and models of long exposures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.zones import NOTHING, said, table
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wetside.exposure.reciprocity_choice import ReciprocityComparison
    from wetside.services.filters import FilterUse


def filter_lines(filters: Sequence[FilterUse]) -> list[str]:
    """Source and evidence of each named filter, and what there is to say of metering through it."""
    lines: list[str] = []
    for use in filters:
        if use.found is not None:
            params = {"filter": use.name, "film": use.found.film, "source": use.found.source.key}
            code = "published" if use.found.evidence.value == "published" else "lent"
            lines += said(f"cli.filter.{code}", params, before=True)
        for remark in use.remarks:
            lines += said(remark.code, dict(remark.params), before=True)
    return lines


def filters_json(filters: Sequence[FilterUse]) -> list[dict[str, Any]]:
    """Stable keys for scripts."""
    return [
        {
            "filter": use.name,
            "factor": use.factor,
            "film": None if use.found is None else use.found.film,
            "evidence": None if use.found is None else use.found.evidence.value,
            "source": None if use.found is None else use.found.source.key,
            "notes": [
                {"code": remark.code, "message": sentence(remark.code, dict(remark.params))} for remark in use.remarks
            ],
        }
        for use in filters
    ]


def model_lines(comparison: ReciprocityComparison, *, all_of_them: bool) -> list[str]:
    """All models beside each other; or, where they are not asked for, that they differ."""
    spread = {"spread": comparison.spread_stops}
    if not all_of_them:
        return said("cli.models.differ", spread, before=True) if comparison.differ else []
    from wetside.cards.text import MARKS

    heads = [sentence(f"cli.models.{name}", {}) for name in ("model", "give", "added", "source")]
    rows = []
    for answer in comparison.answers:
        model = answer.kind.value
        rows.append(
            [
                sentence("cli.models.used", {"model": model}) if answer.is_default else model,
                NOTHING if answer.time_s is None else shown(answer.time_s, "shutter"),
                NOTHING if answer.stops is None else shown(answer.stops, "signed"),
                f"{MARKS[answer.evidence]} {answer.source}",
            ]
        )
    lines = ["", *table(heads, rows, words_last=True), *said(comparison.reason, {}, before=True)]
    if any(answer.time_s is None for answer in comparison.answers):
        lines += said("cli.models.ends", {}, before=True)
    if comparison.differ and comparison.spread_film_stops is not None:
        lines += said("cli.models.spread", {**spread, "film": comparison.spread_film_stops}, before=True)
    return lines


def models_json(comparison: ReciprocityComparison) -> dict[str, Any]:
    """Stable keys for scripts."""
    return {
        "metered_s": comparison.metered_s,
        "answers": [
            {
                "model": answer.kind.value,
                "time_s": answer.time_s,
                "stops": answer.stops,
                "ends_s": answer.ends_s,
                "evidence": answer.evidence.value,
                "source": answer.source,
                "used": answer.is_default,
            }
            for answer in comparison.answers
        ],
        "reason": comparison.reason,
        "spread_stops": comparison.spread_stops,
        "spread_film_stops": comparison.spread_film_stops,
        "differ": comparison.differ,
    }
