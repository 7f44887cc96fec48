"""House values as a page shows them, in the darkroom's units and with its decimal sign.

``{% ml bottle.left_ml %}``, ``{% celsius process.temp_c %}``, ``{{ load.time_s|mss }}``, ``{{ note|said }}``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import template

from wetside.wording import sentence, shown, speak_error

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wetside.errors import WetsideError

register = template.Library()

ML_PER_FL_OZ = 29.5735295625
"""US fluid ounce; NIST handbook 44, appendix C. [ml]"""


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


@register.simple_tag(takes_context=True)
def number(context: Mapping[str, Any], value: float | None, decimals: int = 2) -> str:
    """Number [any] with the darkroom's decimal sign; a dash where there is none."""
    if value is None:
        return "–"
    return signed_for(context, f"{value:.{decimals}f}")


@register.simple_tag(takes_context=True)
def ml(context: Mapping[str, Any], value: float | None) -> str:
    """Volume [ml] in the darkroom's units; a dash where nobody said."""
    if value is None:
        return "–"
    if _us(context):
        return signed_for(context, f"{value / ML_PER_FL_OZ:.1f}") + "\N{NO-BREAK SPACE}fl\N{NO-BREAK SPACE}oz"
    return signed_for(context, shown(value, "ml")).replace(" ", "\N{NO-BREAK SPACE}")


@register.simple_tag(takes_context=True)
def celsius(context: Mapping[str, Any], value: float | None, decimals: int = 1) -> str:
    """Temperature [C] in the darkroom's units; a dash where there is none."""
    if value is None:
        return "–"
    if _us(context):
        return signed_for(context, f"{value * 1.8 + 32:.{decimals}f}") + "\N{NO-BREAK SPACE}°F"
    return signed_for(context, f"{value:.{decimals}f}") + "\N{NO-BREAK SPACE}°C"


def signed_for(context: Mapping[str, Any], text: str) -> str:
    """Digits with the darkroom's decimal sign."""
    darkroom = context.get("darkroom")
    return text.replace(".", ",") if darkroom is not None and darkroom.decimal_sign == "comma" else text


def _us(context: Mapping[str, Any]) -> bool:
    darkroom = context.get("darkroom")
    return darkroom is not None and darkroom.units == "us"
