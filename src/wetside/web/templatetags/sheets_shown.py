"""Words of the pages of sheets: zones, stops on the film, times as they are engraved."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import template

from wetside.web.forms.entry import words_of
from wetside.wording import sentence, shown

if TYPE_CHECKING:
    from collections.abc import Mapping

register = template.Library()

NOTHING_STOPS = 0.05
"""Errors below are told as none: no shutter is that true. Our choice. [stops]"""


@register.filter
def plain_word(word: str) -> str:
    """Word of a choice as a person reads it."""
    return words_of(str(word))


@register.filter
def zones(value: float) -> str:
    """Development as N, N-1, N+½. [zones]"""
    return shown(value, "n")


@register.filter
def shutter_said(seconds: float) -> str:
    """Time as it is engraved or counted [s], with minutes told as such."""
    return f"{shown(seconds, 'mss')} min" if seconds >= 120 else shown(seconds, "shutter")


@register.filter
def stops_added(stops: float) -> str:
    """What a step adds to the time. [stops]"""
    return sentence("web.sheets.stops_more", {"stops": stops})


@register.filter
def stops_on_film(stops: float) -> str:
    """Stop error on the film [stops], and which way it goes."""
    if abs(stops) < NOTHING_STOPS:
        return sentence("web.sheets.no_error", {})
    return sentence("web.sheets.over" if stops > 0 else "web.sheets.under", {"stops": stops})


@register.filter
def dict_get(values: Mapping[str, Any], name: str) -> Any:
    """Value of a name; empty where there is none."""
    return values.get(name, "") if values else ""
