"""House values as a page shows them, in the darkroom's units and with its decimal sign.

``{% ml bottle.left_ml %}``, ``{% celsius process.temp_c %}``, ``{{ load.time_s|mss }}``, ``{{ note|said }}``.
"""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING, Any

from django import template
from django.template.defaultfilters import date as framework_date
from django.template.defaultfilters import filesizeformat as framework_filesizeformat
from django.template.defaultfilters import floatformat as framework_floatformat

from wetside.adapters.clock import zone_mark
from wetside.units import f_of_c
from wetside.wording import decimal, known_codes, manner, sentence, shown, speak_error
from wetside.wording.fixed import fixed_figures

if TYPE_CHECKING:
    from wetside.errors import WetsideError

register = template.Library()

TIE = "\N{NO-BREAK SPACE}"


@register.filter
def mss(seconds: float | None) -> str:
    """Time [s] as m:ss; a dash where there is none."""
    return "–" if seconds is None else shown(seconds, "mss")


@register.filter
def said(note: Any) -> str:
    """Sentence of a note, an error, or anything else with a code and parameters."""
    return sentence(note.code, note.params)


@register.filter
def error_said(error: WetsideError) -> str:
    """Sentence of an error with its place in front."""
    return speak_error(error)


@register.simple_tag
def say(code: str, **params: Any) -> str:
    """Sentence of a code."""
    return sentence(code, params)


@register.simple_tag
def number(value: float | None, decimals: int = 2) -> str:
    """Number [any] with the darkroom's decimal sign; a dash where there is none."""
    return "–" if value is None else decimal(f"{value:.{decimals}f}")


@register.simple_tag
def ml(value: float | None) -> str:
    """Volume [ml] in the darkroom's units; a dash where nobody said."""
    return "–" if value is None else shown(value, "ml").replace(" ", TIE)


@register.simple_tag
def celsius(value: float | None, decimals: int = 1) -> str:
    """Temperature [C] in the darkroom's units; a dash where there is none."""
    if value is None:
        return "–"
    us = manner().us
    return decimal(f"{f_of_c(value) if us else value:.{decimals}f}") + f"{TIE}{'°F' if us else '°C'}"


_PARTED = re.compile(r"(?<=[0-9]) (?=(?:°[CF]|C|ml|l|fl oz|oz|g|s|min|h|days?|mm|cm²?|m|%|stops?)(?![A-Za-z0-9]))")


@register.filter
def together(text: object) -> str:
    """Text in which no line parts a number from its unit.

    Examples
    --------
    >>> together("20.0 °C, 300 ml in 5 places").replace(TIE, "_")
    '20.0_°C, 300_ml in 5 places'
    """
    return _PARTED.sub(TIE, str(text))


@register.filter
def first_word(count: int) -> str:
    """Number as a word with a capital, to begin a title.

    Examples
    --------
    >>> first_word(5), first_word(40)
    ('Five', '40')
    """
    code = f"cards.number.{count}"
    return (sentence(code, {}) if code in known_codes("cards") else str(count)).capitalize()


@register.filter
def fixed(text: str) -> str:
    """Words of a page whose own figures follow the darkroom: ``{% translate "at 20 °C" as h %}{{ h|fixed }}``."""
    return fixed_figures(str(text))


@register.filter(is_safe=True)
def floatformat(value: Any, places: str | int = -1) -> str:
    """Take the place of the framework's filter of that name: the same figures with the darkroom's decimal sign."""
    return decimal(str(framework_floatformat(value, places)))


@register.filter(is_safe=True)
def filesizeformat(size_bytes: Any) -> str:
    """Take the place of the framework's filter of that name, as :func:`floatformat` does."""
    return decimal(str(framework_filesizeformat(size_bytes)))


@register.filter(expects_localtime=True, is_safe=False)
def date(value: Any, how: str | None = None) -> str:
    """Take the place of the framework's filter: a time in the hour that a clock shows twice has its offset."""
    told = str(framework_date(value, how))
    if isinstance(value, dt.datetime) and value.tzinfo is not None and "i" in (how or ""):
        mark = zone_mark(value)
        return f"{told} ({mark})" if mark else told
    return told
