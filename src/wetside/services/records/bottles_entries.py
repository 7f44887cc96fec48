"""What a page may ask about a bottle, as declared keys: the reader of the files reads what was typed here too."""

from __future__ import annotations

import datetime as dt  # noqa: TC003 (the reader resolves the annotations)
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from wetside.adapters.binder import Binder
from wetside.adapters.findings import Findings, field_text
from wetside.errors import Place
from wetside.planning.documents.keys import kept_table, key
from wetside.planning.documents.words import FixClass
from wetside.values.dilution import Dilution  # noqa: TC001
from wetside.values.sheet_size import SheetSize  # noqa: TC001

if TYPE_CHECKING:
    from collections.abc import Mapping


class Role(StrEnum):
    """What a bottle is for."""

    DEVELOPER = "developer"
    STOP = "stop"
    FIXER = "fixer"
    WASH_AID = "wash-aid"
    WETTING = "wetting"
    TONER = "toner"
    WASTE_DEVELOPER = "waste-developer"
    WASTE_FIXER = "waste-fixer"
    WASTE_TONER = "waste-toner"
    OTHER = "other"


class Form(StrEnum):
    """How it stands in the bottle."""

    CONCENTRATE = "concentrate"
    STOCK = "stock"
    WORKING = "working"
    POWDER = "powder"


@kept_table
class Substance:
    """One ingredient of a bottle, as its label or safety sheet has it."""

    name: str = key("name", "name", "Substance, as the safety sheet names it.", example="acetic acid")
    percent: float = key(
        "percent", "number", "Its concentration; of a span the upper end. [%]", low=0.0, high=100.0, example="12"
    )


@kept_table
class BottleMore:
    """What a bottle's record holds beside the keys of the evening file."""

    role: Role = key("role", "choice", "What it is for, or what it collects.", choices=Role)
    product: str | None = key(
        "product",
        "name",
        "Name as on the label; capacity and keeping are looked up by it.",
        default=None,
        example="Brackwater",
    )
    form: Form | None = key("form", "choice", "How it stands in the bottle.", choices=Form, default=None)
    dilution: Dilution | None = key(
        "dilution", "dilution", "Strength of a working solution.", default=None, example="1+4"
    )
    opened: dt.date | None = key("opened", "date", "Day on which it was opened.", default=None)
    contents: tuple[Substance, ...] = key(
        "contents", "tables", "What is in it, by its safety sheet.", default=(), table="Substance"
    )


@kept_table
class Amount:
    """An amount of liquid, for what is drawn, returned, filled or counted."""

    volume_ml: float = key("volume", "volume", "How much.", low=0.0, high=1_000_000.0, example="50 ml")
    note: str | None = key("note", "text", "Why, if it matters later.", default=None, example="spilt a little")


@kept_table
class ClearingEntry:
    """A scrap of film timed in the fixer until its milky look is gone."""

    time_s: float = key("time", "duration", "How long it took to clear.", low=1.0, high=3600.0, example="0:50")
    temp_c: float = key("temp", "temperature", "Temperature of the fixer.", low=1.0, high=60.0, example="20 C")
    film: str = key(
        "film", "name", "Film of the scrap: only tests with one film can be compared.", example="Tolland 100"
    )
    film_class: FixClass = key("class", "choice", "How this film fixes.", choices=FixClass, default=FixClass.ORDINARY)
    fresh: bool = key(
        "fresh", "flag", "It has fixed nothing yet: later tests are held against this one.", default=False
    )


@kept_table
class FilmEntry:
    """Film that went through a bath."""

    size: SheetSize = key("size", "size", "Size of the sheets.", example="4x5in")
    count: int = key("count", "whole", "How many.", low=1, high=1000, example="6")
    film_class: FixClass = key(
        "class", "choice", "Tabular film uses up a fixer sooner.", choices=FixClass, default=FixClass.ORDINARY
    )


@kept_table
class Emptying:
    """A bottle that is emptied."""

    into: str | None = key("into", "name", "Waste vessel that takes it.", default=None)
    note: str | None = key("note", "text", "What became of it.", default=None, example="handed over at the depot")


def read_entry(document: type, raw: Mapping[str, Any]) -> Any:
    """What a page sent, read as a file is.

    Raises
    ------
    WetsideError
        With the field of everything that cannot be taken.
    """
    findings = Findings()
    found = Binder(findings).table(document, raw, ())
    if findings:
        findings.refuse(lambda path: Place(field=field_text(path, None)))
    return found
