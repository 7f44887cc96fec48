"""Shapes of what is sent and answered, made from what the services return, so that the two cannot part."""

from __future__ import annotations

from typing import Annotated, Any, Generic, Literal, TypeVar, get_type_hints

from ninja import Schema
from ninja.params import functions as sent
from pydantic import AwareDatetime, BeforeValidator, ConfigDict, Field, Strict, StrictBool, create_model

from wetside.planning.documents.evening import Sheet
from wetside.planning.documents.keys import declared_keys
from wetside.services.records import read_all, run_readings

Item = TypeVar("Item")

CURSOR_LETTERS = 80
MOST_ITEMS = 200
USUAL_ITEMS = 50


class Mistake(Schema):
    """What is wrong: a stable code, a sentence for a person, and the field where there is one."""

    code: str
    sentence: str
    field: str | None = None


class Mistakes(Mistake):
    """The first mistake, and more of the same call."""

    more: list[Mistake] = Field(default_factory=list)


class Page(Schema, Generic[Item]):
    """A piece of a list; ``next`` is the cursor to send as ``after`` for the next one, null at the end."""

    items: list[Item]
    next: str | None = None


def _inner(hint: Any, made: dict[Any, type[Schema]]) -> Any:
    if isinstance(hint, type) and issubclass(hint, tuple) and hasattr(hint, "_fields"):
        return shape_of(hint, made)
    if getattr(hint, "__origin__", None) is list:
        return list[_inner(hint.__args__[0], made)]  # type: ignore[misc]  # made while the program runs
    return hint


def shape_of(kind: Any, made: dict[Any, type[Schema]] | None = None) -> Any:
    """Shape of a service's named tuple, with its fields and its words."""
    known = {} if made is None else made
    if kind not in known:
        fields = {name: (_inner(hint, known), ...) for name, hint in get_type_hints(kind).items()}
        doc = " ".join((kind.__doc__ or "").split())
        known[kind] = create_model(kind.__name__, __base__=Schema, __doc__=doc, **fields)  # type: ignore[call-overload]
    return known[kind]


_MADE: dict[Any, type[Schema]] = {}
SheetShape = shape_of(read_all.SheetRead, _MADE)
HolderShape = shape_of(read_all.HolderRead, _MADE)
NamedShape = shape_of(read_all.NamedRead, _MADE)
LotShape = shape_of(read_all.LotRead, _MADE)
ProcessShape = shape_of(read_all.ProcessRead, _MADE)
BottleShape = shape_of(read_all.BottleRead, _MADE)
LinesShape = shape_of(read_all.Lines, _MADE)
InstrumentShape = shape_of(read_all.InstrumentRead, _MADE)
PlanShape = shape_of(read_all.PlanRead, _MADE)
FrozenShape = shape_of(read_all.FrozenRead, _MADE)
RunShape = shape_of(run_readings.RunRead, _MADE)
FoldedShape = shape_of(run_readings.FoldedRead, _MADE)
FactsShape = shape_of(run_readings.Facts, _MADE)
TakenShape = shape_of(run_readings.ReadingTaken, _MADE)


class SheetSent(Schema):
    """A new sheet: its keys as in the evening file; a film, and a label or a holder side, are enough."""

    model_config = ConfigDict(extra="forbid")

    sheet: dict[str, Any] = Field(
        description=f"Keys of a sheet of the evening file: {', '.join(declared_keys(Sheet))}.",
        examples=[{"label": "9 left", "film": "Tolland 100"}],
    )
    lot: Annotated[str, Field(max_length=120)] = ""
    note: Annotated[str, Field(max_length=4000)] = ""
    make_film: StrictBool = Field(default=False, description="Make a film that is not known, with just its name.")


def _written(value: Any) -> Any:
    """A time is text: a bare number could be seconds of any clock."""
    if not isinstance(value, str):
        message = "a time is text with its zone, such as 2031-11-04T20:00:00Z"
        raise ValueError(message)  # noqa: TRY004 (the library makes a mistake of the caller of it)
    return value


class ReadingSent(Schema):
    """A thermometer's reading. Without ``age_s`` and ``at`` it is of now; the sender's clock is not trusted."""

    model_config = ConfigDict(extra="forbid")

    shown_c: Annotated[float, Strict()] | None = Field(
        description="What it shows, degrees Celsius; null where it shows no number."
    )
    where: Literal["developer", "jacket", "poured-out"] = "developer"
    instrument: Annotated[str | None, Field(max_length=120)] = Field(
        default=None, description="Name or identity of the thermometer's record, whose offset is taken."
    )
    age_s: Annotated[float, Strict(), Field(ge=0, le=86_400)] | None = Field(
        default=None, description="How long ago it was read, seconds; better than a time."
    )
    at: Annotated[AwareDatetime, BeforeValidator(_written)] | None = Field(
        default=None, description="When it was read, with its zone."
    )


EVENING = {
    "format": 1,
    "films": [
        {
            "name": "Tolland 100",
            "times": [{"developer": "Brackwater", "dilution": "1+14", "temp": "20 C", "time": "7:30"}],
        }
    ],
    "processes": [{"name": "drum", "developer": "Brackwater", "dilution": "1+14"}],
    "vessels": [{"name": "drum", "kind": "drum", "places": 6, "min": "300 ml", "max": "1000 ml"}],
    "sheets": [{"label": "1 left", "film": "Tolland 100", "size": "9x12cm", "process": "drum"}],
}
EveningSent = Annotated[
    dict[str, Any],
    sent.Body(
        description="Keys of an evening file as JSON, dates as text; its own schema is evening.schema.json.",
        examples=[EVENING],
    ),
]
