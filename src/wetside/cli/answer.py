"""How the small commands say their answer: named values, then what to mind, then the cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.chemistry import cautions_of
from wetside.cli.output import print_lines, text_width, wrapped
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    Name = str | tuple[str, Mapping[str, Any]]
    """Code of a name, with parameters where it has any."""

    Row = tuple[Name, str]
    """A name and its value as shown."""

CAUTIONS_SHOWN = 4
"""Cautions that stand under an answer, the first of each occasion; all are in ``docs/explanation/chemistry.md``."""

WIDEST = 78
"""Columns of running text: a longer line is hard to read."""


def print_answer(
    rows: Sequence[Row],
    told: Iterable[tuple[str, Mapping[str, Any]]] = (),
    occasions: Iterable[str] = (),
) -> None:
    """Print values beside the names of their codes, sentences, and the first cautions of what is being done.

    Parameters
    ----------
    rows : sequence of Row
        Code of a name, with parameters where it has any, and its value as shown.
    told : iterable of (str, mapping)
        Codes of sentences with parameters.
    occasions : iterable of str
        See :data:`wetside.chemistry.cautions.OCCASIONS`.
    """
    width = min(text_width(), WIDEST)
    names = [(_name(name), value) for name, value in rows]
    wide = max((len(name) for name, _ in names), default=0)
    lines = [f"{name:<{wide}}  {value}" for name, value in names]
    for code, params in told:
        text = sentence(code, dict(params))
        lines += [*([] if text.startswith("- ") else [""]), *wrapped(text, width)]
    cautions = " ".join(sentence(code, {}) for code in first_cautions(occasions))
    if cautions:
        lines += ["", *wrapped(cautions, width)]
    print_lines(lines)


def _name(name: Name) -> str:
    code, params = (name, {}) if isinstance(name, str) else name
    return sentence(code, dict(params))


def first_cautions(occasions: Iterable[str]) -> tuple[str, ...]:
    """Codes of the cautions that are shown: as many of each occasion, its first ones."""
    names = tuple(occasions)
    each = CAUTIONS_SHOWN // max(1, len(names))
    return tuple(dict.fromkeys(code for name in names for code in cautions_of([name])[:each]))


def told_json(told: Iterable[tuple[str, Mapping[str, Any]]]) -> list[dict[str, str]]:
    """Sentences with their codes, for scripts."""
    return [{"code": code, "message": sentence(code, dict(params))} for code, params in told]
