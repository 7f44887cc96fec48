"""What the forms of films, developers, processes and aims share: rows, mistakes, the state that a person saw."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.utils.translation import gettext

from wetside.web.forms.entry import entries, mistakes_of
from wetside.wording import known_codes, sentence

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wetside.errors import WetsideError
    from wetside.web.forms.entry import Entry


class Row(NamedTuple):
    """One row of an inner table: its number from 1, its title, first its main fields, then those seldom needed.

    ``wrong`` where one of the seldom needed has a mistake, so that they stand open.
    """

    number: int
    title: str
    main: tuple[Entry, ...]
    more: tuple[Entry, ...]
    wrong: bool


def told(error: WetsideError, names: Sequence[str]) -> tuple[dict[str, str], list[str]]:
    """Mistakes by field, and those that belong to no field of the page.

    Parameters
    ----------
    error : WetsideError
    names : sequence of str
        Names of the page's fields, of inner rows as far as the bracket.
    """
    mistakes = mistakes_of(error)
    loose = [said for field, said in mistakes.items() if field.partition("[")[0].partition(".")[0] not in names]
    return mistakes, loose


def rows(
    document: type,
    path: str,
    raw: Sequence[Mapping[str, Any]],
    mistakes: Mapping[str, str],
    main: Sequence[str],
    more: Sequence[str] = (),
    *,
    titles: Sequence[str] = (),
    labels: Mapping[str, str] | None = None,
    units: str = "metric",
) -> tuple[Row, ...]:
    """Fields of the rows of an inner table.

    Parameters
    ----------
    document : dataclass type
        Of a row.
    path : str
        Key of the table, such as ``times``.
    raw : sequence of mapping
        What stands in each row; an empty one is a row to fill in.
    mistakes : mapping
    main, more : sequence of str
        Keys of a row.
    titles : sequence of str
        A row each.
    labels : mapping, optional
        Names of fields where the key's own word would not do.
    units : str
    """
    made = []
    for number, row in enumerate(raw, 1):
        here = f"{path}[{number}]"
        seldom = entries(document, more, row, mistakes, path=here, labels=labels, units=units)
        made.append(
            Row(
                number,
                titles[number - 1] if number <= len(titles) else str(number),
                entries(document, main, row, mistakes, path=here, labels=labels, units=units),
                seldom,
                any(entry.mistake for entry in seldom),
            )
        )
    return tuple(made)


def number_word(count: int) -> str:
    """Number as a word up to twelve.

    Examples
    --------
    >>> number_word(4), number_word(40)
    ('four', '40')
    """
    code = f"cards.number.{count}"
    return sentence(code, {}) if code in known_codes("cards") else str(count)


def first_word(count: int) -> str:
    """Number as a word with a capital, to begin a title.

    Examples
    --------
    >>> first_word(4), first_word(0)
    ('Four', 'No')
    """
    text = number_word(count) if count else gettext("no")
    return text[:1].upper() + text[1:]
