"""Instruments: what they read too high, the checks that say so, and the one that plans use.

The newest check proposes an offset; it holds when somebody takes it.
"""

from __future__ import annotations

from enum import StrEnum
from functools import partial
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Max, Prefetch

from wetside.adapters.clock import day_of
from wetside.errors import InputError, OutOfRangeError, Place, RefusedError
from wetside.planning.documents.keys import kept_table, key
from wetside.records.models import Instrument, InstrumentCheck, worker
from wetside.services.records.bottles_entries import read_entry
from wetside.services.records.changes import change, find, make
from wetside.units import f_step_of_c_step, parse_number, parse_temp_c, parse_temp_step_c, parse_volume_ml

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Mapping
    from uuid import UUID

OLD_DAYS = {"thermometer": 365, "densitometer": 90, "measure": 3650, "meter": 730, "clock": 730}
"""Days after which a check is told to be old. Our choice. [d]"""
LARGEST = {"thermometer": 15.0, "densitometer": 1.0, "measure": 1000.0, "meter": 5.0, "clock": 60.0}
"""Largest offset that is not a slip of the pen, in the instrument's unit. Our choice."""
DECIMALS = {"thermometer": 1, "densitometer": 2, "measure": 1, "meter": 2, "clock": 1}
"""Decimals that an offset is shown with."""


class Kind(StrEnum):
    """What an instrument measures."""

    THERMOMETER = "thermometer"
    DENSITOMETER = "densitometer"
    MEASURE = "measure"
    METER = "meter"
    CLOCK = "clock"


@kept_table
class InstrumentEntry:
    """An instrument as a page asks for it."""

    name: str = key("name", "name", "What you call it.", example="long glass one")
    kind: Kind = key("kind", "choice", "What it is.", choices=Kind)
    reads_high: str | None = key(
        "reads_high",
        "text",
        "How much it reads too high, with its unit; negative if too low. Better: check it below.",
        default=None,
        example="0.4 C",
    )
    note: str | None = key("note", "text", "What helps to tell it from others.", default=None)


@kept_table
class CheckEntry:
    """A comparison of an instrument with a reference."""

    against: str = key("against", "text", "What it was held against.", example="ice water, or the certified one")
    reference: str = key("reference", "text", "What the reference says, with its unit.", example="20 C")
    read: str = key("read", "text", "What this instrument read beside it.", example="20.4 C")
    note: str | None = key("note", "text", "How it was done.", default=None)


class Checked(NamedTuple):
    """An instrument with its checks, the newest first; ``proposed`` the offset that the newest one gives.

    ``days`` since then, None without a check; ``differs`` where the offset in use is another than the proposed one;
    ``old`` where it should be checked again.
    """

    instrument: Instrument
    checks: tuple[InstrumentCheck, ...]
    proposed: float | None
    days: int | None
    differs: bool
    old: bool

    @property
    def size(self) -> float:
        """Offset in use without its sign."""
        return abs(float(self.instrument.reads_high))

    @property
    def fahrenheit(self) -> float:
        """Offset in use of a thermometer, in steps of Fahrenheit."""
        return f_step_of_c_step(self.instrument.reads_high)

    @property
    def fahrenheit_size(self) -> float:
        """The same without its sign."""
        return abs(self.fahrenheit)

    @property
    def fahrenheit_proposed(self) -> float | None:
        """Proposed offset of a thermometer, in steps of Fahrenheit."""
        return None if self.proposed is None else f_step_of_c_step(self.proposed)


def _with_unit(text: str, unit: str | None) -> str:
    bare = text.strip().replace(",", ".").lstrip("+-\N{MINUS SIGN}").replace(".", "", 1)
    return f"{text} {unit}" if unit and bare.isdigit() else text


_UNITS: Mapping[str, Mapping[str, str]] = {
    "metric": {"thermometer": "C", "measure": "ml"},
    "us": {"thermometer": "F", "measure": "US fl oz"},
}


def read_value(kind: str, text: str, field: str, units: str, *, step: bool = False) -> float:
    """A reading or an offset of an instrument, as typed. [C, density, ml, stops or s]

    Parameters
    ----------
    kind : str
        Of the instrument.
    text : str
        With its unit, or a bare number in the darkroom's.
    field : str
        Where it was typed.
    units : str
        ``metric`` or ``us``.
    step : bool
        Whether it is a difference.

    Raises
    ------
    WetsideError
        With the field.
    """
    parse: Callable[[str], float] = parse_number
    sign = 1.0
    if kind == "thermometer":
        parse = parse_temp_step_c if step else parse_temp_c
    elif kind == "measure":
        parse = partial(parse_volume_ml, low_ml=0.0)
        if text.strip().startswith(("-", "\N{MINUS SIGN}")):
            # A volume is not negative; how much a measure is short is.
            sign, text = -1.0, text.strip()[1:]
    text = _with_unit(text, _UNITS[units].get(kind))
    try:
        return sign * parse(text)
    except InputError as error:
        raise error.at(Place(field=field)) from None


def checked(instrument: Instrument, today: dt.date) -> Checked:
    """Instrument with what its checks say."""
    checks = tuple(sorted(instrument.checks.all(), key=lambda one: (one.at, str(one.pk)), reverse=True))
    proposed = round(checks[0].read - checks[0].reference, 3) if checks else None
    on = day_of(checks[0].at) if checks else instrument.checked
    days = (today - on).days if on else None
    differs = proposed is not None and abs(proposed - instrument.reads_high) > 0.0005
    return Checked(instrument, checks, proposed, days, differs, days is None or days > OLD_DAYS[instrument.kind])


def instruments(today: dt.date) -> list[Checked]:
    """Instruments of the darkroom, thermometers among their kind, each with its checks."""
    rows = Instrument.kept.prefetch_related(Prefetch("checks", InstrumentCheck.objects.order_by("-at")))
    return [checked(one, today) for one in rows]


def instrument(key: UUID) -> Instrument:
    """Instrument by its identity, removed ones too.

    Raises
    ------
    UnknownNameError
        If there is none.
    """
    return find(Instrument, key, removed=True)


def _values(raw: Mapping[str, Any], units: str) -> dict[str, Any]:
    entry: InstrumentEntry = read_entry(InstrumentEntry, raw)
    high = 0.0
    if entry.reads_high is not None:
        high = read_value(str(entry.kind), entry.reads_high, "reads_high", units, step=True)
        _check_offset(str(entry.kind), high, "reads_high")
    return {"name": entry.name, "kind": str(entry.kind), "reads_high": high, "note": entry.note or ""}


def _check_offset(kind: str, value: float, field: str) -> None:
    if abs(value) > LARGEST[kind]:
        raise OutOfRangeError(
            "services.instruments.far_off", place=Place(field=field), value=value, most=LARGEST[kind], kind=kind
        )


def make_instrument(raw: Mapping[str, Any], units: str = "metric") -> Instrument:
    """Add an instrument.

    Raises
    ------
    WetsideError
        With the fields of what cannot be taken; or if its name is taken.
    """
    return make(Instrument, _values(raw, units))


def change_instrument(
    one: Instrument, raw: Mapping[str, Any], revision: int | None, units: str = "metric"
) -> Instrument:
    """Correct an instrument.

    Raises
    ------
    WetsideError
        As :func:`make_instrument`; or if it was changed meanwhile, or its kind does not fit its checks.
    """
    values = _values(raw, units)
    if values["kind"] != one.kind and one.checks.exists():
        raise RefusedError("services.instruments.kind_checked", place=Place(field="kind"), kind=one.kind)
    return change(one, values, revision=revision)


def check_instrument(
    one: Instrument, raw: Mapping[str, Any], at: dt.datetime, units: str = "metric"
) -> InstrumentCheck:
    """Keep a comparison with a reference; the offset in use stays until somebody takes the new one.

    Raises
    ------
    WetsideError
        With the fields of what cannot be taken.
    """
    entry: CheckEntry = read_entry(CheckEntry, raw)
    reference = read_value(one.kind, entry.reference, "reference", units)
    read = read_value(one.kind, entry.read, "read", units)
    _check_offset(one.kind, read - reference, "read")
    return InstrumentCheck.objects.create(
        instrument=one,
        at=at,
        by=worker(),
        against=entry.against,
        reference=reference,
        read=read,
        note=entry.note or "",
    )


def take_proposed(one: Instrument, today: dt.date) -> Instrument:
    """Use the offset that the newest check proposes.

    Raises
    ------
    RefusedError
        If it was never checked.
    """
    found = checked(one, today)
    if found.proposed is None:
        raise RefusedError("services.instruments.never_checked", name=one.name)
    day = day_of(found.checks[0].at)
    return change(one, {"reads_high": found.proposed, "checked": day}, why="taken from a check")


def put_back(one: Instrument, reads_high: str) -> Instrument:
    """Use an earlier offset again, in the instrument's unit.

    Raises
    ------
    WetsideError
        If it is no number, or larger than an instrument can be off.
    """
    value = parse_number(reads_high)
    _check_offset(one.kind, value, "reads_high")
    return change(one, {"reads_high": value}, why="put back")


def raw_of_instrument(one: Instrument) -> dict[str, Any]:
    """What stands in the fields of an instrument's form, in plain form."""
    unit = _UNITS["metric"].get(one.kind, "")
    raw = {"name": one.name, "kind": one.kind, "reads_high": f"{one.reads_high:g} {unit}".strip()}
    return raw | ({"note": one.note} if one.note else {})


def removed_instrument(key: UUID) -> Instrument | None:
    """Instrument that was removed; None where it was not, or where there is none."""
    found: Instrument | None = Instrument.objects.filter(pk=key).exclude(removed_at=None).first()
    return found


def thermometer_of_plans(name: str = "") -> dict[str, Any] | None:
    """Thermometer of an evening file with its offset: the named one, else the one that was checked last.

    Parameters
    ----------
    name : str
        Empty for the one that was checked last; of those that never were, the first by name.

    Returns
    -------
    raw : dict or None
        Keys ``name`` and ``reads_high`` in plain form; None where the darkroom has none.
    """
    one = thermometer_checked_last(name)
    return None if one is None else {"name": one.name, "reads_high": f"{one.reads_high:g} C"}


def thermometer_checked_last(name: str = "") -> Instrument | None:
    """Thermometer that a plan takes where nobody chose one: the one that was checked last, else the first by name.

    Parameters
    ----------
    name : str
        Only those of this name; empty for all.
    """
    from wetside.values.names import plain_name

    rows = list(Instrument.kept.filter(kind="thermometer").annotate(last=Max("checks__at")).order_by("name_key"))
    if name:
        rows = [one for one in rows if one.name_key == plain_name(name)]
    if not rows:
        return None
    found: Instrument = max((row for row in rows if row.last is not None), key=lambda row: row.last, default=rows[0])
    return found
