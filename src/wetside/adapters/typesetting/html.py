"""Run sheets and the plan as pages that stand alone: one file, nothing fetched, light and dark, fit to be printed."""

from __future__ import annotations

import base64
from functools import lru_cache
from html import escape
from importlib.resources import files
from typing import TYPE_CHECKING

from wetside.adapters.typesetting.svg import svg_of_chart
from wetside.adapters.typesetting.tokens import DARK, LIGHT
from wetside.cards.blocks import BLANK, Listing, Steps, Table
from wetside.cards.names import breakable, with_units
from wetside.cards.words import chosen_word, evidence_word, why_heading
from wetside.values.evidence import Evidence

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from wetside.cards.acts import ActRow
    from wetside.cards.blocks import Card, Row, Step
    from wetside.cards.run_sheet import RunSheet
    from wetside.cards.window_chart import WindowChart

FACES = (
    ("Atkinson Hyperlegible Next", 400, "atkinson-hyperlegible-next-400.woff2"),
    ("Atkinson Hyperlegible Next", 700, "atkinson-hyperlegible-next-700.woff2"),
    ("Wetside Serif", 600, "wetside-serif-600.woff2"),
)

MARKS = {
    Evidence.TESTED: '<rect x="1.5" y="1.5" width="13" height="13" style="fill:currentColor"/>',
    Evidence.PUBLISHED: '<circle cx="8" cy="8" r="6.8" style="fill:currentColor"/>',
    Evidence.CONVERTED: '<circle cx="8" cy="8" r="6" style="fill:none;stroke:currentColor;stroke-width:1.7"/>'
    '<path d="M8 2a6 6 0 0 0 0 12z" style="fill:currentColor"/>',
    Evidence.ASSUMED: '<circle cx="8" cy="8" r="6" style="fill:none;stroke:currentColor;stroke-width:1.7;'
    'stroke-dasharray:2.4 2.3"/>',
}
"""Evidence told by shape, and always with its word."""


@lru_cache(maxsize=1)
def _style() -> str:
    here = files("wetside.adapters.typesetting")
    faces = "".join(
        f'@font-face{{font-family:"{family}";font-weight:{weight};font-display:swap;'
        f"src:url(data:font/woff2;base64,{base64.b64encode((here / 'fonts' / name).read_bytes()).decode()})}}"
        for family, weight, name in FACES
    )
    css = (here / "page.css").read_text(encoding="utf-8")
    for word, tokens in (("LIGHT_TOKENS", LIGHT), ("DARK_TOKENS", DARK)):
        css = css.replace(word, ";".join(f"--{name}:{value}" for name, value in tokens.items()))
    return faces + css


def _page(title: str, language: str, body: Iterable[str]) -> str:
    parts = "\n".join(body)
    return (
        f'<!doctype html>\n<html lang="{escape(language)}">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="color-scheme" content="light dark">\n'
        f"<title>{escape(title)}</title>\n<style>{_style()}</style>\n</head>\n<body>\n<main>\n{parts}\n</main>\n</body>\n</html>\n"
    )


def html_of_plan(
    card: Card,
    chart: WindowChart | None = None,
    reckonings: Iterable[Card] = (),
    evening: str = "",
    narrow_chart: WindowChart | None = None,
) -> str:
    """Write the page of a plan.

    Parameters
    ----------
    card : Card
        From ``wetside.cards.plan_card``.
    chart : WindowChart, optional
    reckonings : iterable of Card
        One a sheet, or a set of like sheets; each opens where it is wanted.
    evening : str
        Name and date, for the foot of the page.
    narrow_chart : WindowChart, optional
        The same chart laid out for a phone, shown there in place of the other.
    """

    def body() -> Iterator[str]:
        yield _header(card)
        tables = [block for block in card.blocks if isinstance(block, Table)]
        if tables:
            yield _table(tables[0])
        if chart is not None:
            yield f'<figure class="broad">{svg_of_chart(chart, in_page=True)}</figure>'
        if narrow_chart is not None:
            yield f'<figure class="narrow">{svg_of_chart(narrow_chart, in_page=True)}</figure>'
        for block in card.blocks:
            if tables and block is tables[0]:
                continue
            yield _block(block)
        whys = [f"<details><summary>{_said(one.title)}</summary>{_inside(one)}</details>" for one in reckonings]
        if whys:
            yield f"<section><h2>{_said(why_heading())}</h2>{''.join(whys)}</section>"
        yield _footer(evening)

    return _page(card.title, "en", body())


def html_of_card(card: Card, foot: str = "", language: str = "en") -> str:
    """Write the page of any card: its blocks in their order.

    Parameters
    ----------
    card : Card
    foot : str
        For the foot of the page.
    language : str
        Of the card's sentences.
    """
    return _page(card.title, language, (_header(card), *(_block(block) for block in card.blocks), _footer(foot)))


def _header(card: Card) -> str:
    lead = " ".join(card.subtitle)
    return f'<header><h1>{_said(card.title)}</h1><p class="lead">{_said(lead)}</p></header>'


def _footer(text: str) -> str:
    return f"<footer>{_said(text)}</footer>" if text else ""


def _inside(card: Card) -> str:
    return f"<p>{_said(' '.join(card.subtitle))}</p>" + "".join(_block(block) for block in card.blocks)


def _said(text: str) -> str:
    """Text of any kind, kept apart from the direction of what stands around it."""
    told = escape(breakable(with_units(text))).replace("\u200b", "<wbr>").replace(BLANK, '<span class="blank"></span>')
    return f"<bdi>{told}</bdi>" if any("\u0590" <= mark <= "\u08ff" for mark in text) else told


def _mark(kind: Evidence) -> str:
    return f'<svg class="mark" viewBox="0 0 16 16" aria-hidden="true">{MARKS[kind]}</svg>'


def _cell(cell: str) -> str:
    if isinstance(cell, Evidence):
        return f'<span class="evidence">{_mark(cell)}{escape(evidence_word(cell))}</span>'
    return _said(cell)


def _block(block: Table | Listing | Steps) -> str:
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Steps):
        return _steps(block)
    return _listing(block)


def _listing(block: Listing) -> str:
    if not block.title:
        return "".join(f"<p>{_said(item)}</p>" for item in block.items)
    kind = ' class="grave"' if block.grave else ""
    items = "".join(f"<li>{_said(item)}</li>" for item in block.items)
    ticks = ' class="ticks"' if block.ticks else ""
    return f"<section{kind}><h2>{_said(block.title)}</h2><ul{ticks}>{items}</ul></section>"


def _table(block: Table) -> str:
    heads = "".join(
        f'<th scope="col"{_class(["figures"] if column.figures else [])}>{_said(column.title)}</th>'
        for column in block.columns
    )
    rows = "".join(_row(row, block) for row in block.rows)
    table = f'<div class="wide"><table><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table></div>'
    foot = f"<p>{_said(block.foot)}</p>" if block.foot else ""
    title = f"<h2>{_said(block.title)}</h2>" if block.title else ""
    return f"<section>{title}{table}{foot}</section>"


def _row(row: Row, block: Table) -> str:
    kinds = [kind for kind, holds in (("chosen", row.chosen), ("told", bool(row.remark))) if holds]
    cells = []
    for index, (cell, column) in enumerate(zip(row.cells, block.columns, strict=True)):
        told = _cell(cell)
        if index == 0 and row.chosen:
            told += f'<span class="unseen"> {escape(chosen_word())}</span>'
        kind = "figures" if column.figures else "write" if cell == BLANK else ""
        cells.append(f"<td{_class([kind] if kind else [])}>{told}</td>")
    remark = ""
    if row.remark:
        kind = "chosen remark" if row.chosen else "remark"
        remark = f'<tr class="{kind}"><td></td><td colspan="{len(row.cells) - 1}">{_said(row.remark)}</td></tr>'
    return f"<tr{_class(kinds)}>{''.join(cells)}</tr>{remark}"


def _class(kinds: list[str]) -> str:
    return f' class="{" ".join(kinds)}"' if kinds else ""


def _steps(block: Steps) -> str:
    def line(step: Step) -> str:
        told = "; ".join(part for part in (step.effect, step.source) if part)
        word = evidence_word(step.evidence)
        small = f"<small>{_said(f'{word}: {told}' if told else word)}</small>"
        what = f'<span class="what">{_said(step.text)}</span><span>{_said(step.value)}</span>'
        return f"<li>{_mark(step.evidence)}{what}{small}</li>"

    lines = "".join(line(step) for step in block.steps)
    total = (
        f'<li class="sum"><span></span><span>{_said(block.sum_label)}</span><span>{_said(block.sum_value)}</span></li>'
    )
    return f'<ol class="steps">{lines}{total}</ol>'


def html_of_run_sheet(sheet: RunSheet) -> str:
    """Write the page of a run sheet.

    Parameters
    ----------
    sheet : RunSheet
        From ``wetside.cards.run_sheet``.
    """

    def body() -> Iterator[str]:
        places = "".join(
            f'<tr><td>{_said(place.place)}</td><td class="name">{_said(place.sheet)}</td>'
            f"<td>{_said(place.clip)}</td></tr>"
            for place in sheet.places
        )
        yield (
            f'<header class="head"><div><h1>{_said(sheet.title)}</h1>'
            f'<p class="lead">{_said(" ".join(sheet.subtitle))}</p></div>'
            f'<div><table class="places"><tbody>{places}</tbody></table><p>{_said(sheet.tally)}</p></div></header>'
        )
        fields = "".join(
            f'<span>{_said(field.before)} <span class="blank"></span> {_said(field.after)}</span>'
            for field in sheet.fields
        )
        yield f'<p class="fields">{fields}</p>'
        kinds = ("time", "act", "detail", "done")
        heads = "".join(
            f'<th scope="col" class="{kind}">{_said(word)}</th>'
            for kind, word in zip(kinds, sheet.headings, strict=True)
        )
        yield (
            f'<table class="acts"><thead><tr><td class="beside"></td>{heads}</tr></thead>'
            f"<tbody>{''.join(_acts(sheet))}</tbody></table>"
        )
        feet = "".join(f"<p><strong>{_said(title)}:</strong> {_said(told)}</p>" for title, told in sheet.feet)
        yield f'<aside class="feet">{feet}</aside>'
        yield f"<footer>{_said(' · '.join(part for part in (sheet.evening, sheet.page) if part))}</footer>"

    return _page(sheet.title, sheet.language, body())


def _acts(sheet: RunSheet) -> Iterator[str]:
    rows = sheet.rows
    for index, row in enumerate(rows):
        following = rows[index + 1] if index + 1 < len(rows) else None
        starts = not row.waits and (index == 0 or rows[index - 1].waits)
        beside = '<td class="beside"></td>' if row.waits else ""
        if starts:
            span = next((i for i, one in enumerate(rows[index:]) if one.waits), len(rows) - index)
            beside = f'<td class="band" rowspan="{span}"><span>{_said(sheet.band)}</span></td>'
        kinds = []
        if not row.waits:
            kinds.append("firm")
            if following is None or following.waits:
                kinds.append("last")
        elif following is not None and not following.waits:
            kinds.append("before")
        yield f"<tr{_class(kinds)}>{beside}{_act_cells(row)}</tr>"


def _act_cells(row: ActRow) -> str:
    return (
        f'<td class="time">{_said(row.time)}</td><td class="act">{_said(row.act)}</td>'
        f'<td class="detail">{_said(row.detail)}</td><td class="done"><span></span></td>'
    )
