"""How long a solution keeps: by its maker's sheet, by what is in the bottle, and by how full and closed it is.

Rows come from the caller (``wetside.adapters.chemistry_data``). No number is made up: what no row answers to is told to
read its own label.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import InputError, OutOfRangeError

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from wetside.values.evidence import Source

FORMS = ("concentrate", "stock", "working", "powder")
"""What is in the bottle or packet."""

_AIR_OF_FILL = {"full": 0, "half": 1, "opened": 1, "tank": 2, "tray": 3}
_AIR_OF_LID = {"closed": 0, "floating": 1, "none": 2}

FILLS = tuple(_AIR_OF_FILL)
"""How much air stands over it: nearly full, half full, opened, deep tank, open tray."""

LIDS = tuple(_AIR_OF_LID)
"""What keeps air away."""

_DAYS = {"hours": 1.0 / 24.0, "days": 1.0, "months": 30.4}
"""Only to compare rows with each other; a date is reckoned in the unit that the sheet prints. [d]"""


class KeepingRow(NamedTuple):
    """One row of a maker's sheet; ``amount`` None where the sheet sets no limit, ``product`` empty for a whole kind."""

    kind: str
    product: str
    form: str
    fill: str
    lid: str
    amount: float | None
    unit: str
    low_c: float | None
    high_c: float | None
    source: Source
    note: str = ""


class Keeping(NamedTuple):
    """Until when a solution is good, as far as anyone printed it.

    ``until`` and ``days_left`` are None where there is no limit or no row; ``row`` is the one that was used.
    """

    row: KeepingRow | None
    until: date | None
    days_left: int | None
    notes: tuple[tuple[str, dict[str, object]], ...]


def keeping_of(
    rows: Iterable[KeepingRow],
    made: date,
    today: date,
    *,
    form: str,
    product: str = "",
    kind: str = "",
    fill: str = "",
    lid: str = "",
) -> Keeping:
    """Until when a solution keeps, and how many days that leaves. [d]

    Parameters
    ----------
    rows : iterable of KeepingRow
    made : date
        Day on which it was mixed, or opened.
    today : date
        Day for which it is asked; not before ``made``.
    form : str
        One of :data:`FORMS`.
    product : str, optional
        Name as on the bottle, in any case of letters.
    kind : str, optional
        Such as ``fixer``, where no product is named; ignored beside a product.
    fill, lid : str, optional
        One of :data:`FILLS` and :data:`LIDS`; where empty, the shortest row counts.

    Returns
    -------
    keeping : Keeping
        Notes: ``chemistry.keeping_note.read_label`` and no date where no row answers; ``.nearest`` where the row is for
        another fill or lid than asked, with as much air or more; ``.no_limit``, ``.hours``, ``.over``; ``.cool`` where
        the row holds only in a span of temperatures, ``.not_above`` only up to one.

    Raises
    ------
    InputError
        If a word is none of these.
    OutOfRangeError
        If today lies before the day of mixing.

    Notes
    -----
    A month ends on the same day of the month, or on its last. 24 hours end on the next day, at the hour of mixing.

    References
    ----------
    .. [1] harman-powder-developers-2010, p. 9; harman-ddx-2019, p. 6 and 8; ilford-rapid-fixer-2002, p. 5.

    Examples
    --------
    >>> from datetime import date
    >>> from wetside.values.evidence import Source
    >>> row = KeepingRow("developer", "Brackwater", "stock", "full", "closed", 6.0, "months", None, None, Source("own"))
    >>> kept = keeping_of([row], date(2026, 8, 31), date(2026, 11, 25), form="stock", product="brackwater", fill="full")
    >>> kept.until.isoformat(), kept.days_left
    ('2027-02-28', 95)
    """
    for name, value, known in (("form", form, FORMS), ("fill", fill, FILLS), ("lid", lid, LIDS)):
        if value not in known and (value or name == "form"):
            raise InputError("chemistry.keeping.word", name=name, value=value, known=known)
    if today < made:
        raise OutOfRangeError("chemistry.keeping.before", made=made.isoformat(), today=today.isoformat())
    wanted = _key(product)
    fitting = [
        row
        for row in rows
        if row.form == form and _key(row.product) == wanted and (wanted or (kind and row.kind == kind))
    ]
    row = _nearest(fitting, fill, lid)
    if row is None:
        name = product or kind or form
        return Keeping(None, None, None, (("chemistry.keeping_note.read_label", {"name": name}),))
    notes: list[tuple[str, dict[str, object]]] = []
    if (fill and row.fill and row.fill != fill) or (lid and row.lid and row.lid != lid):
        notes.append(("chemistry.keeping_note.nearest", {"fill": row.fill, "lid": row.lid}))
    if row.high_c is not None and row.low_c is not None:
        notes.append(("chemistry.keeping_note.cool", {"low_c": row.low_c, "high_c": row.high_c}))
    elif row.high_c is not None:
        notes.append(("chemistry.keeping_note.not_above", {"high_c": row.high_c}))
    if row.amount is None:
        return Keeping(row, None, None, (*notes, ("chemistry.keeping_note.no_limit", {})))
    if row.unit == "hours":
        notes.append(("chemistry.keeping_note.hours", {"hours": row.amount}))
    until = _later(made, row.amount, row.unit)
    days_left = until.toordinal() - today.toordinal()
    if days_left < 0:
        notes.append(("chemistry.keeping_note.over", {"days": -days_left, "until": until.isoformat()}))
    return Keeping(row, until, days_left, tuple(notes))


def _nearest(rows: list[KeepingRow], fill: str, lid: str) -> KeepingRow | None:
    """Row that fits best, the shortest of those that fit alike; only one with as much air or more may stand in."""
    best: KeepingRow | None = None
    best_rank = (0, 0.0)
    for row in rows:
        asked_and_has = ((_AIR_OF_FILL, fill, row.fill), (_AIR_OF_LID, lid, row.lid))
        if any(asked and has and air[has] < air[asked] for air, asked, has in asked_and_has):
            continue
        off = sum(bool(asked) and bool(has) and asked != has for _, asked, has in asked_and_has)
        rank = (off, float("inf") if row.amount is None else row.amount * _DAYS[row.unit])
        if best is None or rank < best_rank:
            best, best_rank = row, rank
    return best


def _later(start: date, amount: float, unit: str) -> date:
    if unit != "months":
        # A part of a day does not count: better a day too early than one too late.
        return start.fromordinal(start.toordinal() + int(amount * _DAYS[unit] + 1e-9))
    months = start.year * 12 + start.month - 1 + int(amount)
    first = start.replace(year=months // 12, month=months % 12 + 1, day=1)
    after = first.fromordinal(first.toordinal() + 31).replace(day=1)
    last_day = after.toordinal() - first.toordinal()
    return first.replace(day=min(start.day, last_day))


def _key(name: str) -> str:
    from wetside.values.names import name_key

    return name_key(name)
