"""From a code and its parameters to a sentence, in the reader's language."""

from __future__ import annotations

import os
import string
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

from wetside.wording.fixed import fixed_figures
from wetside.wording.manner import decimal, manner
from wetside.wording.shown import SHOWN

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from wetside.errors import WetsideError


class _Speaker(string.Formatter):
    """``str.format`` that knows the house's ways to show a value."""

    def format_field(self, value: Any, format_spec: str) -> str:
        if format_spec in SHOWN:
            return "?" if value is None else SHOWN[format_spec](value)
        told = str(super().format_field(value, format_spec))
        return decimal(told) if isinstance(value, float) else told

    def parse(self, format_string: Any) -> Any:
        """Split a sentence, with the figures that stand in its own words as the darkroom wants them."""
        parts = super().parse(format_string)
        if not any(manner()):
            return parts
        return ((fixed_figures(literal), *rest) for literal, *rest in parts)


_SPEAKER = _Speaker()


@cache
def _catalogue(package: str) -> Mapping[str, str]:
    try:
        module = import_module(f"wetside.wording.catalog.{package}")
    except ModuleNotFoundError:
        return {}
    sentences: dict[str, str] = dict(module.SENTENCES)
    for part in getattr(module, "PARTS", ()):
        sentences |= import_module(f"wetside.wording.catalog.{part}").SENTENCES
    return sentences


@cache
def _translator(languages: tuple[str, ...]) -> Callable[[str], str]:
    """The standard library's gettext, loaded only where another language than English is wanted."""
    if not languages or languages[0].partition("_")[0] in ("en", "C", "POSIX"):
        return str
    import gettext
    from importlib.resources import files

    return gettext.translation(
        "wetside", str(files("wetside.wording") / "locale"), list(languages), fallback=True
    ).gettext


def wanted_languages() -> tuple[str, ...]:
    """Languages that the environment asks for, as the standard library's gettext reads them."""
    for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        value = os.environ.get(name)
        if value:
            return tuple(part.partition(".")[0] for part in value.split(":") if part)
    return ()


def known_codes(package: str) -> frozenset[str]:
    """Codes that a package's catalogue can say."""
    return frozenset(_catalogue(package))


def sentence(code: str, params: Mapping[str, Any], languages: tuple[str, ...] | None = None) -> str:
    """Say a code.

    Parameters
    ----------
    code : str
        Its first part names the catalogue.
    params : mapping
        Values in house units, by the names that the text uses.
    languages : tuple of str, optional
        Wanted languages, best first; the environment's if absent.

    Returns
    -------
    sentence : str
        A code without a sentence is shown as it stands, with its parameters: ugly, never lost.
    """
    text = _catalogue(code.partition(".")[0]).get(code)
    if text is None:
        return f"{code} {dict(params)}" if params else code
    translate = _translator(wanted_languages() if languages is None else languages)
    return _SPEAKER.vformat(translate(text), (), params)


def speak_error(error: WetsideError, languages: tuple[str, ...] | None = None) -> str:
    """Say an error with its place in front: ``evening.toml, line 12, sheets.3.size: …``."""
    said = sentence(error.code, error.params, languages)
    if error.place is None:
        return said
    parts = [error.place.file, f"line {error.place.line}" if error.place.line else None, error.place.field]
    where = ", ".join(part for part in parts if part)
    return f"{where}: {said}" if where else said
