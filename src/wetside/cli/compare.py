"""``wetside compare``: two runs beside each other by their logs."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines, text_width, wrapped
from wetside.services.run_logs import compare_logs
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse

    from wetside.services.run_compared_said import Row
    from wetside.services.run_logs import LogsCompared

FIGURE_COLUMNS = 24
"""Columns before what differs: density with its spread, then zones."""


def run(arguments: argparse.Namespace) -> int:
    """Compare two logs and print what differs."""
    compared = compare_logs(Path(arguments.one), Path(arguments.other))
    if arguments.json:
        print_json(_document(compared))
    else:
        print_lines(_lines(compared, text_width()))
    return ExitCode.OK


def _lines(compared: LogsCompared, width: int) -> list[str]:
    said = compared.said
    lines = wrapped(said.title, width)
    for text in (said.summary, said.noise, said.basis):
        lines += wrapped(text, width) if text else []
    if said.figures:
        heads = [sentence(f"cli.compare.{head}", {}) for head in ("density", "zones")]
        lines += ["", *wrapped(f"{said.reference} {sentence('cli.compare.plus', {})}", width), ""]
        lines.append(f"{heads[0]:<16}{heads[1]:<8}")
    for row in said.figures:
        lines += _row(row, width)
    if said.words:
        lines += ["", sentence("cli.compare.words", {})]
        lines += [line for row in said.words for line in _indented(_told(row), width, 2)]
    if said.missing:
        lines += ["", sentence("cli.compare.missing", {})]
        for name, missing in said.missing:
            lines += [f"  {name}:", *(line for one in missing for line in _indented(one, width, 4))]
    return lines


def _row(row: Row, width: int) -> list[str]:
    figure = f"{row.density} {row.spread}".strip() or sentence("cli.compare.too_far", {})
    first = f"{figure:<16}{row.zones:<8}"
    text = f"{_told(row)} {sentence('cli.compare.rests', {'backing': row.backing})}"
    head, *rest = wrapped(text, width - FIGURE_COLUMNS)
    return [f"{first}{head}", *(f"{'':<{FIGURE_COLUMNS}}{line}" for line in rest)]


def _told(row: Row) -> str:
    params: dict[str, Any] = {"kind": row.kind, "one": row.one, "other": row.other}
    text = sentence("cli.compare.row", params)
    return f"{text} {row.remark}" if row.remark else text


def _indented(text: str, width: int, by: int) -> list[str]:
    return [f"{'':<{by}}{line}" for line in wrapped(text, width - by)]


def _document(compared: LogsCompared) -> dict[str, Any]:
    found, said = compared.found, compared.said
    ranked = zip(found.ranked, said.figures, strict=True)
    return {
        "one": compared.one.name,
        "other": compared.other.name,
        "said": said.title,
        "density": None if found.worth is None else found.worth.density,
        "density_spread": None if found.worth is None else found.worth.density_spread,
        "zones": None if found.worth is None else found.worth.zones,
        "explains": found.explains,
        "direct": found.direct,
        "reference_range": found.reference_range,
        "differences": [
            {
                "kind": one.difference.kind,
                "one": row.one,
                "other": row.other,
                "share": one.difference.share,
                "density": None if one.worth is None else one.worth.density,
                "zones": None if one.worth is None else one.worth.zones,
                "rests_on": one.difference.backing.value,
            }
            for one, row in ranked
        ],
        "without_figure": [{"kind": one.kind, "one": one.one, "other": one.other} for one in said.words],
        "not_known": {name: list(lines) for name, lines in said.missing},
    }
