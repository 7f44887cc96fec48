"""What a page's outbox hands over: each item is taken once, in one transaction with its work, and answered alike again.

An item has a device, a number that the device counts up, a kind, and what was typed. A kind's taker does the work and
returns what the page is told. A refusal leaves no receipt: the page shows it, and the mended item comes under the same
number.
"""

from __future__ import annotations

import re
from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import IntegrityError, transaction

from wetside.errors import ConflictError, InputError, UnknownNameError
from wetside.records.models import Receipt

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

KINDS: dict[str, str] = {
    "sheet.add": "wetside.services.records.sheets_items:take_sheet",
    "sheet.change": "wetside.services.records.sheets_items:take_correction",
    "side.move": "wetside.services.records.sheets_items:take_move",
    "sides.load": "wetside.services.records.sheets_items:take_loading",
    "holders.make": "wetside.services.records.holders_items:take_holders",
    "holder.change": "wetside.services.records.holders_items:take_holder",
    "lot.add": "wetside.services.records.holders_items:take_lot",
    "film.lot": "wetside.services.records.holders_items:take_film_lot",
}
"""Every kind of item, and the function that takes it: fields in, answer out. Other parts add theirs here."""

MOST_FIELDS = 400
LONGEST_FIELD = 8000
"""Limits of one item; our choice."""
LARGEST_NUMBER = 2**53
"""Numbers above are not exact in a browser."""

_DEVICE = re.compile(r"[A-Za-z0-9-]{8,64}")


class Taken(NamedTuple):
    """Answer of an item, and whether it had been taken before."""

    answer: Mapping[str, Any]
    again: bool


class Fields:
    """What was typed, by the names of the fields, each with all its values; reads like a posted form.

    Parameters
    ----------
    values : mapping of str to sequence of str
    """

    def __init__(self, values: Mapping[str, Sequence[str]]) -> None:
        self._values = values

    def get(self, name: str, default: Any = None) -> Any:
        """Last value of a field."""
        given = self._values.get(name)
        return given[-1] if given else default

    def getlist(self, name: str) -> list[str]:
        """All values of a field."""
        return list(self._values.get(name, ()))

    def text(self, name: str) -> str:
        """Value of a field without blanks around it; empty where there is none."""
        return str(self.get(name, "")).strip()

    def __iter__(self) -> Any:
        return iter(self._values)

    def __contains__(self, name: object) -> bool:
        return name in self._values


def fields_of(raw: Any) -> dict[str, list[str]]:
    """Fields of an item as they are kept and compared: lists of text.

    Raises
    ------
    InputError
        If they are nothing that a form can send.
    """
    if not isinstance(raw, dict) or len(raw) > MOST_FIELDS:
        raise InputError("services.outbox.fields", most=MOST_FIELDS)
    found: dict[str, list[str]] = {}
    for name, given in raw.items():
        values = given if isinstance(given, list) else [given]
        if not all(isinstance(value, str) and len(value) <= LONGEST_FIELD and "\0" not in value for value in values):
            raise InputError("services.outbox.fields", most=MOST_FIELDS)
        if len(str(name)) > 80 or len(values) > MOST_FIELDS:
            raise InputError("services.outbox.fields", most=MOST_FIELDS)
        found[str(name)] = values
    return found


def do(kind: str, fields: Mapping[str, Sequence[str]]) -> dict[str, Any]:
    """Do the work of a kind, without a receipt: what a page does that has no script.

    Raises
    ------
    WetsideError
        If the kind is not known, or as its taker.
    """
    where = KINDS.get(kind)
    if where is None:
        raise UnknownNameError("services.outbox.kind", value=kind[:60], known=sorted(KINDS))
    module, _, name = where.partition(":")
    answer: dict[str, Any] = getattr(import_module(module), name)(Fields(fields))
    return answer


def take(device: str, number: int, kind: str, fields: Mapping[str, Sequence[str]]) -> Taken:
    """Take an item, once.

    Parameters
    ----------
    device : str
        Identity that the page's device gave itself.
    number : int
        Of the item, counted by the device.
    kind : str
        Key of :data:`KINDS`.
    fields : mapping
        As :func:`fields_of` returns them.

    Returns
    -------
    taken : Taken
        The same answer however often the item comes.

    Raises
    ------
    WetsideError
        If the item is refused: nothing is written, no receipt either.
    ConflictError
        If the number came before with something else in it.
    """
    if not _DEVICE.fullmatch(device):
        raise InputError("services.outbox.device")
    if isinstance(number, bool) or not isinstance(number, int) or not 1 <= number < LARGEST_NUMBER:
        raise InputError("services.outbox.number")
    body = {name: list(values) for name, values in fields.items()}
    try:
        with transaction.atomic():
            known = _answered(device, number, kind, body)
            if known is not None:
                return known
            answer = do(kind, body)
            sign(device, number, kind, body, answer)
    except TakenMeanwhileError:
        known = _answered(device, number, kind, body)
        if known is None:
            raise ConflictError("services.outbox.try_again") from None
        return known
    return Taken(answer, again=False)


class TakenMeanwhileError(Exception):
    """Another page handed the same item over while this one was at work; its work was undone."""


def sign(device: str, number: int, kind: str, body: Any, answer: Any) -> None:
    """Write the receipt of what was just done, inside the transaction that did it.

    Raises
    ------
    TakenMeanwhileError
        If another page was faster: what was done must be undone.
    """
    try:
        with transaction.atomic():
            Receipt.objects.create(device=device, number=number, kind=kind, body=body, answer=answer)
    except IntegrityError as error:
        raise TakenMeanwhileError from error


def _answered(device: str, number: int, kind: str, body: Any) -> Taken | None:
    receipt = Receipt.objects.filter(device=device, number=number).first()
    if receipt is None:
        return None
    if receipt.kind != kind or receipt.body != body:
        raise ConflictError("services.outbox.other_body", number=number)
    return Taken(receipt.answer, again=True)
