"""One function for each kind of value that a kept file holds: from what stands in the file to what the program uses."""

from __future__ import annotations

import datetime as dt
import math
import re
import unicodedata
from typing import TYPE_CHECKING, Any

from wetside.adapters.printable import UNPRINTABLE, printable
from wetside.adapters.suggest import nearest_word
from wetside.errors import (
    ConflictError,
    InputError,
    OutOfRangeError,
    UnknownNameError,
    UnreadableError,
    WetsideError,
)
from wetside.planning.documents.evening import ANY_SIZE
from wetside.values.sheet_size import SheetSize

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from enum import StrEnum

    from wetside.planning.documents.keys import Key
    from wetside.values.dilution import Dilution

LONGEST = {"text": 300, "name": 80}
"""Our choice: what is longer does not fit on a run sheet."""
MOST_ITEMS = 5000
MOST_PLACES = 1000
READING_LIMITS = ((0.0, 240.0), (-8.0, 8.0), (-0.1, 7.0))
"""Minutes, log H and density of one reading; outside these it is a slip of the pen. Our choice."""

EXAMPLES = {
    "text": "3 left",
    "name": "Tolland 100",
    "number": "1.05",
    "zones": "N-1",
    "whole": "1",
    "flag": "true",
    "date": "2026-11-25",
    "duration": "7:30",
    "clock_time": "19:30",
    "duration_span": "7:00-8:00",
    "temperature": "20 C",
    "temperature_step": "0.4 C",
    "volume": "600 ml",
    "mass": "300 g",
    "length": "210 mm",
    "size": "9x12cm",
    "places": '{ "9x12cm" = 6 }',
    "dilution": "1+24",
    "agent_per_area": "62.5 ml per 516 cm2",
    "aperture": "f/22",
    "texts": '["one", "two"]',
    "reciprocity_points": '[["1 s", 1.5], ["10 s", 6]]',
    "curve_rows": "[[6.0, -2.4, 0.12], [6.0, -2.1, 0.21]]",
}
"""How a value of each kind is written where the key has no example of its own."""

_BARE_KINDS = frozenset(
    {"number", "whole", "flag", "date", "places", "texts", "choices", "reciprocity_points", "curve_rows"}
)
_CLOCK_TIME = re.compile(r"([0-9]{1,2})[:.]([0-9]{2})(?: ?h)?")
_ZONES = re.compile(r"[nN] ?(?:([+-]) ?(.+))?")


def example_of(key: Key) -> str:
    """Value of a key as it is written in the file, quotation marks included.

    Examples
    --------
    >>> from wetside.planning.documents.evening import Sheet
    >>> from wetside.planning.documents.keys import declared_keys
    >>> example_of(declared_keys(Sheet)["size"])
    '"9x12cm"'
    """
    if key.choices is not None:
        word = str(next(iter(key.choices)))
        return f'["{word}"]' if key.kind == "choices" else f'"{word}"'
    example = key.example or EXAMPLES.get(key.kind, "")
    return example if key.kind in _BARE_KINDS else f'"{example}"'


def shown_raw(raw: object) -> str:
    """Value of a file as it may stand in a sentence: short, and never a failure of its own.

    Examples
    --------
    >>> shown_raw(True), shown_raw([1, 2]), shown_raw(16 ** 5000)
    ('true', 'a list', 'a number of about 6021 digits')
    """
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, int) and raw.bit_length() > 200:
        return f"a number of about {raw.bit_length() * 30103 // 100000 + 1} digits"
    if isinstance(raw, dict):
        return "a table"
    if isinstance(raw, list):
        return "a list"
    return printable(str(raw)[:200])


def _wrong(key: Key, raw: object, code: str) -> UnreadableError:
    return UnreadableError(code, key=key.name, value=shown_raw(raw), example=example_of(key))


def _inside(value: float, key: Key, raw: object) -> float:
    low = -math.inf if key.low is None else key.low
    high = math.inf if key.high is None else key.high
    if low <= value <= high:
        return value
    raise OutOfRangeError("files.number.out_of_range", key=key.name, value=shown_raw(raw), low=low, high=high)


def _plain_text(raw: object, key: Key, longest: int) -> str:
    if not isinstance(raw, str):
        raise _wrong(key, raw, "files.kind.text")
    text = " ".join(raw.split())
    # Letters that nobody sees, and marks without a letter to stand on, are no name.
    if all(unicodedata.category(letter)[0] in "CMZ" for letter in text) and not UNPRINTABLE.search(text):
        raise InputError("files.text.empty", key=key.name, example=example_of(key))
    if len(text) > longest:
        raise OutOfRangeError("files.text.too_long", key=key.name, length=len(text), limit=longest, value=text)
    if UNPRINTABLE.search(text):
        raise UnreadableError("files.text.control", key=key.name, value=printable(text))
    return text


def text_value(raw: object, key: Key) -> str:
    """One line of text; blanks at its ends and double ones are dropped."""
    return _plain_text(raw, key, LONGEST["text"])


def name_value(raw: object, key: Key) -> str:
    """Name that other tables refer to."""
    return _plain_text(raw, key, LONGEST["name"])


def _fit_to_print(raw: str, key: Key) -> str:
    """Return text that may stand in the sentences of whoever reads it further."""
    text = " ".join(raw.split())
    if UNPRINTABLE.search(text):
        raise UnreadableError("files.text.control", key=key.name, value=printable(raw[:200]))
    return text


def number_value(raw: object, key: Key) -> float:
    """Read a number without a unit; text with a comma or a point is read too.

    Parameters
    ----------
    raw : object
        What stands in the file.
    key : Key
        Its limits, both allowed, are in the unit of the value. [as the key says]

    Raises
    ------
    UnreadableError
        If it is no number.
    AmbiguousError
        If its mark may part thousands or decimals.
    OutOfRangeError
        If it is not finite, or outside the limits of the key.
    """
    if isinstance(raw, bool) or not isinstance(raw, int | float | str):
        raise _wrong(key, raw, "files.kind.number")
    if isinstance(raw, str):
        from wetside.units import parse_number

        # Where no value reaches a thousand, 1,250 can only be one and a quarter.
        return _inside(
            parse_number(_fit_to_print(raw, key), comma_thousandths=key.high is not None and key.high < 1000), key, raw
        )
    if isinstance(raw, int) and raw.bit_length() > 900:
        _inside(math.inf, key._replace(high=1e300 if key.high is None else key.high), raw)
    if not math.isfinite(raw):
        raise OutOfRangeError("files.number.not_finite", key=key.name, value=shown_raw(raw), example=example_of(key))
    return _inside(float(raw), key, raw) + 0.0


def zones_value(raw: object, key: Key) -> float:
    """Development in zones: a number, or ``N``, ``N-1``, ``N+1/2``."""
    if isinstance(raw, str):
        match = _ZONES.fullmatch(raw.strip().replace("\N{MINUS SIGN}", "-"))
        if match:
            sign, size = match.groups()
            return number_value(f"{sign}{size}", key) if sign else 0.0
    return number_value(raw, key)


def whole_value(raw: object, key: Key) -> int:
    """Whole number."""
    if isinstance(raw, str) and raw.strip().isascii() and raw.strip().isdigit() and len(raw) < 20:
        raw = int(raw)
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise _wrong(key, raw, "files.kind.whole")
    _inside(raw, key, raw)
    return raw


def flag_value(raw: object, key: Key) -> bool:
    """Yes or no, written ``true`` or ``false``."""
    if not isinstance(raw, bool):
        raise _wrong(key, raw, "files.kind.flag")
    return raw


def date_value(raw: object, key: Key) -> dt.date:
    """Day, without a time of day."""
    if isinstance(raw, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", raw.strip()):
        try:
            return dt.date.fromisoformat(raw.strip())
        except ValueError:
            raise _wrong(key, raw, "files.kind.date") from None
    if isinstance(raw, dt.datetime) or not isinstance(raw, dt.date):
        raise _wrong(key, raw, "files.kind.date")
    return raw


def _quantity_text(raw: object, key: Key) -> str:
    if isinstance(raw, str):
        return _fit_to_print(raw, key)
    if isinstance(raw, int | float) and not isinstance(raw, bool):
        raise _wrong(key, raw, "files.unit.missing")
    raise _wrong(key, raw, "files.kind.quantity")


def duration_value(raw: object, key: Key) -> float:
    """Time. [s]"""
    from wetside.units import parse_duration_s

    return parse_duration_s(_quantity_text(raw, key), low_s=key.low, high_s=key.high)


def clock_time_value(raw: object, key: Key) -> float:
    """Time of day, in seconds after midnight. [s]

    Parameters
    ----------
    raw : object
        What stands in the file.
    key : Key
        What the key allows.

    Raises
    ------
    UnreadableError
        If it is no time of day from 0:00 to 23:59.
    """
    text = _quantity_text(raw, key)
    match = _CLOCK_TIME.fullmatch(text.strip())
    if match is None or int(match[1]) > 23 or int(match[2]) > 59:
        raise UnreadableError("files.kind.clock_time", key=key.name, value=text, example=example_of(key))
    return int(match[1]) * 3600.0 + int(match[2]) * 60.0


def duration_span_value(raw: object, key: Key) -> tuple[float, float]:
    """Time or span of two. [s]"""
    from wetside.units import parse_duration_span_s

    return parse_duration_span_s(_quantity_text(raw, key), low_s=key.low, high_s=key.high)


def temperature_value(raw: object, key: Key) -> float:
    """Temperature. [C]"""
    from wetside.units import parse_temp_c

    return parse_temp_c(_quantity_text(raw, key), low_c=key.low, high_c=key.high)


def temperature_step_value(raw: object, key: Key) -> float:
    """Difference of temperatures. [C]"""
    from wetside.units import parse_temp_step_c

    return parse_temp_step_c(_quantity_text(raw, key), low_c=key.low, high_c=key.high)


def volume_value(raw: object, key: Key) -> float:
    """Volume. [ml]"""
    from wetside.units import parse_volume_ml

    return parse_volume_ml(_quantity_text(raw, key), low_ml=key.low, high_ml=key.high)


def mass_value(raw: object, key: Key) -> float:
    """Mass. [g]"""
    from wetside.units import parse_mass_g

    return parse_mass_g(_quantity_text(raw, key), low_g=key.low, high_g=key.high)


def length_value(raw: object, key: Key) -> float:
    """Length. [mm]"""
    from wetside.units import parse_length_mm

    return parse_length_mm(_quantity_text(raw, key), low_mm=key.low, high_mm=key.high)


def size_value(raw: object, key: Key) -> SheetSize:
    """Format of a sheet."""
    from wetside.units import parse_size

    return SheetSize(*parse_size(_quantity_text(raw, key)))


def places_value(raw: object, key: Key) -> tuple[tuple[str, int], ...]:
    """Sheets that a vessel takes: one number for every size, or a number a size.

    Parameters
    ----------
    raw : object
        What stands in the file.
    key : Key
        What the key allows.

    Raises
    ------
    InputError
        If no size is given, or a size or a count cannot be read.
    ConflictError
        If a size is given twice.
    OutOfRangeError
        If a count is not from 1 to 1000.
    """
    if not isinstance(raw, dict):
        return ((ANY_SIZE, _count(raw, key)),)
    if not raw:
        raise InputError("files.places.empty", key=key.name, example=example_of(key))
    counts: dict[str, int] = {}
    for size, count in raw.items():
        name = ANY_SIZE if size.strip().casefold() == ANY_SIZE else size_value(size, key).name
        if name in counts:
            raise ConflictError("files.places.twice", key=key.name, value=name)
        counts[name] = _count(count, key)
    return tuple(counts.items())


def _count(raw: object, key: Key) -> int:
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise _wrong(key, raw, "files.kind.places")
    if not 1 <= raw <= MOST_PLACES:
        raise OutOfRangeError("files.number.out_of_range", key=key.name, value=shown_raw(raw), low=1, high=MOST_PLACES)
    return raw


def dilution_value(raw: object, key: Key) -> Dilution:
    """Dilution as parts."""
    from wetside.chemistry.dilution import parse_dilution

    return parse_dilution(_quantity_text(raw, key))


def agent_per_area_value(raw: object, key: Key) -> float:
    """Stock or concentrate to an area of film. [ml/cm2]"""
    from wetside.units import parse_agent_per_area

    return parse_agent_per_area(_quantity_text(raw, key))


def aperture_value(raw: object, key: Key) -> float:
    """f-number; it has no unit, so that a bare number is as good."""
    from wetside.units import parse_aperture

    if isinstance(raw, int | float) and not isinstance(raw, bool):
        raw = shown_raw(raw)
    return parse_aperture(_quantity_text(raw, key))


def choice_value(raw: object, key: Key) -> StrEnum:
    """One of the words that the key allows; case, blanks and underscores do not matter.

    Parameters
    ----------
    raw : object
        What stands in the file.
    key : Key
        What the key allows.

    Raises
    ------
    InputError
        If it is no text.
    UnknownNameError
        If the word is not allowed; the nearest one is named.
    """
    words = key.choices
    assert words is not None  # noqa: S101 (declared so)
    allowed = [str(word) for word in words]
    if not isinstance(raw, str):
        raise InputError("files.kind.choice", key=key.name, value=shown_raw(raw), allowed=allowed)
    word = "-".join(raw.replace("_", " ").replace("-", " ").casefold().split())
    if word in allowed:
        return words(word)
    nearest = nearest_word(raw, allowed)
    code = "files.choice.unknown" if nearest is None else "files.choice.unknown_near"
    raise UnknownNameError(code, key=key.name, value=shown_raw(raw), nearest=nearest, allowed=allowed)


def _items(raw: object, key: Key, code: str) -> list[Any]:
    if not isinstance(raw, list):
        raise _wrong(key, raw, code)
    if len(raw) > MOST_ITEMS:
        raise OutOfRangeError("files.list.too_long", key=key.name, length=len(raw), limit=MOST_ITEMS)
    return raw


def texts_value(raw: object, key: Key) -> tuple[str, ...]:
    """List of texts."""
    return tuple(text_value(item, key) for item in _items(raw, key, "files.kind.list"))


def choices_value(raw: object, key: Key) -> tuple[StrEnum, ...]:
    """List of words that the key allows, each once.

    Parameters
    ----------
    raw : object
        What stands in the file.
    key : Key
        What the key allows.

    Raises
    ------
    InputError
        If it is no list, or an item is no allowed word.
    ConflictError
        If a word stands twice.
    """
    words = [choice_value(item, key) for item in _items(raw, key, "files.kind.list")]
    for word in words:
        if words.count(word) > 1:
            raise ConflictError("files.list.twice", key=key.name, value=str(word))
    return tuple(words)


def reciprocity_points_value(raw: object, key: Key) -> tuple[tuple[float, float], ...]:
    """Pairs of metered time [s] and factor [1], the times rising.

    Parameters
    ----------
    raw : object
        What stands in the file.
    key : Key
        What the key allows.

    Raises
    ------
    InputError
        If it is no list of pairs, or is empty; if a time or a factor cannot be read.
    OutOfRangeError
        If a factor is not from 1 to 1000, or a time outside 10 microseconds to 10 days.
    ConflictError
        If the times do not rise.
    """
    from wetside.units import parse_duration_s

    points: list[tuple[float, float]] = []
    for item in _items(raw, key, "files.kind.points"):
        if not isinstance(item, list) or len(item) != 2:
            raise _wrong(key, item, "files.kind.points")
        time, factor = item
        if not isinstance(time, str):
            raise _wrong(key, time, "files.kind.points")
        time_s = parse_duration_s(time, low_s=1e-5, high_s=864_000.0)
        value = number_value(factor, key._replace(low=1.0, high=1000.0))
        if points and time_s <= points[-1][0]:
            raise ConflictError("files.points.not_rising", key=key.name, value=time)
        points.append((time_s, value))
    if not points:
        raise InputError("files.list.empty", key=key.name, example=example_of(key))
    return tuple(points)


def reading_value(parts: list[Any], key: Key) -> tuple[float, float, float]:
    """One reading: minutes, log H, density.

    Parameters
    ----------
    parts : list
        Minutes, log H and density as they stand in the file. [min, log lx s, density]
    key : Key
        For the place of errors.

    Raises
    ------
    UnreadableError
        If a part is no number.
    OutOfRangeError
        If a part is outside :data:`READING_LIMITS`, or the time is not more than 0.
    """
    minutes, log_h, density = (
        _column_value(part, key._replace(name=name, low=low, high=high))
        for part, name, (low, high) in zip(parts, ("dev_min", "log_h", "density"), READING_LIMITS, strict=True)
    )
    if minutes <= 0:
        raise OutOfRangeError("files.readings.no_time", key="dev_min", value=minutes)
    return minutes, log_h, density


def _column_value(part: Any, key: Key) -> float:
    """Number of one column; what cannot be read as a number names its column too."""
    try:
        return number_value(part, key)
    except WetsideError as error:
        error.params = {"key": key.name, **error.params}
        raise


def curve_rows_value(raw: object, key: Key) -> tuple[tuple[float, float, float], ...]:
    """Take readings written in the file itself: minutes, log H, density.

    Parameters
    ----------
    raw : object
        What stands in the file.
    key : Key
        What the key allows.

    Raises
    ------
    InputError
        If it is no list of rows of three, or is empty.
    OutOfRangeError
        As :func:`reading_value`.
    """
    rows = []
    for item in _items(raw, key, "files.kind.rows"):
        if not isinstance(item, list) or len(item) != 3:
            raise _wrong(key, item, "files.kind.rows")
        rows.append(reading_value(item, key))
    if not rows:
        raise InputError("files.list.empty", key=key.name, example=example_of(key))
    return tuple(rows)


READERS: Mapping[str, Callable[[Any, Key], Any]] = {
    "text": text_value,
    "name": name_value,
    "number": number_value,
    "zones": zones_value,
    "whole": whole_value,
    "flag": flag_value,
    "date": date_value,
    "duration": duration_value,
    "clock_time": clock_time_value,
    "duration_span": duration_span_value,
    "temperature": temperature_value,
    "temperature_step": temperature_step_value,
    "volume": volume_value,
    "mass": mass_value,
    "length": length_value,
    "size": size_value,
    "places": places_value,
    "dilution": dilution_value,
    "agent_per_area": agent_per_area_value,
    "aperture": aperture_value,
    "choice": choice_value,
    "texts": texts_value,
    "choices": choices_value,
    "reciprocity_points": reciprocity_points_value,
    "curve_rows": curve_rows_value,
}
"""Every kind but ``table`` and ``tables``, which the binder takes itself."""
