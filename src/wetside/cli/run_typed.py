"""What a key of ``wetside run`` asks for; some keys ask for a line more."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.cli.run_keys import line_typed
from wetside.errors import InputError, Place
from wetside.runs import commands as c
from wetside.runs.events import Incident, Where
from wetside.services.options import typed
from wetside.units import parse_duration_s, parse_temp_c
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Callable

    from wetside.runs.state import State

INCIDENTS = {
    "p": Incident.POWER,
    "l": Incident.LIGHT,
    "d": Incident.LEAK,
    "s": Incident.SCRATCHED,
    "k": Incident.STUCK,
    "w": Incident.TOUCHED,
    "o": Incident.OTHER,
}
"""What went wrong, by the letter that tells it."""
MINUS = "-\N{MINUS SIGN}"


def command_of_key(key: str, meanwhile: Callable[[], list[str]]) -> c.Command | None:
    """Command of a key, None where it means nothing or the line was left empty.

    Parameters
    ----------
    key : str
        One letter.
    meanwhile : callable
        Called while a line is typed: what has become due in the run, which goes on.

    Raises
    ------
    WetsideError
        Naming the key whose line cannot be read.
    """
    if key in ("\n", "\r", " "):
        return c.Tell()
    if key == "p":
        return c.Tell(on_time=True)
    if key == "u":
        return c.TakeBack()
    ask = _ASKING.get(key)
    if ask is None:
        return None
    code, read = ask
    text = line_typed(sentence(code, {}), meanwhile)
    # An empty line takes the key back, except where it is an answer: the sheet that is being loaded.
    return read(text) if text or key == "l" else None


def _reading(text: str) -> c.Command:
    where = {"j": Where.JACKET, "o": Where.POURED_OUT}.get(text[:1].lower(), Where.DEVELOPER)
    value = text.lstrip("jJoO ")
    if value[-1:].isdigit():
        value = f"{value} C"  # wet hands type no unit; the question names it
    return c.Reading(typed("t", parse_temp_c, value), where)


def _lost(text: str) -> c.Command:
    return c.Lose(place=int(text)) if text.isdecimal() and len(text) < 6 else c.Lose(text or None)


def _watch(text: str) -> c.Command:
    return c.TellTime(typed("w", parse_duration_s, text))


def _looked(text: str) -> c.Command:
    shorter = text.startswith(tuple(MINUS))
    by_s = typed("k", parse_duration_s, text.lstrip(f"+{MINUS} ")) if text != "0" else 0.0
    return c.Look(-by_s if shorter else by_s)


def _incident(text: str) -> c.Command:
    """Letter, then the places of the sheets, how long ago if it was not now, and words: all in one line."""
    letter, _, rest = text.partition(" ")
    what = INCIDENTS.get(letter.lower())
    if what is None:
        raise InputError("cli.run.incident", place=Place(field="i"), value=letter)
    first, _, after = rest.strip().partition(" ")
    places: tuple[int, ...] = ()
    if first.startswith("#"):
        places, rest = _places(first), after
    ago, _, words = rest.strip().partition(" ")
    if ago[:1].isdigit() and ":" in ago:
        return c.Incidence(what, typed("i", parse_duration_s, ago), words.strip(), places=places)
    return c.Incidence(what, 0.0, rest.strip(), places=places)


def _places(text: str) -> tuple[int, ...]:
    """Places such as ``#2,5``."""
    figures = [one for one in text.lstrip("#").split(",") if one]
    if not figures or not all(one.isascii() and one.isdecimal() and len(one) < 4 for one in figures):
        raise InputError("cli.run.incident_places", place=Place(field="i"), value=text)
    return tuple(int(one) for one in figures)


def _given_up(text: str) -> c.Command:
    """A run is not given up by one key: the word is asked for, and why may follow it."""
    word, _, why = text.partition(" ")
    if word.lower() != sentence("cli.run.give_up_word", {}):
        raise InputError("cli.run.not_given_up", place=Place(field="g"))
    return c.Abandon(why.strip())


_ASKING: dict[str, tuple[str, Callable[[str], c.Command]]] = {
    "t": ("cli.run.ask_reading", _reading),
    "l": ("cli.run.ask_lost", _lost),
    "w": ("cli.run.ask_watch", _watch),
    "k": ("cli.run.ask_look", _looked),
    "i": ("cli.run.ask_incident", _incident),
    "g": ("cli.run.ask_give_up", _given_up),
}
"""Keys that ask for a line: the question, and what reads the answer."""


def order_typed(state: State) -> c.Identify:
    """Ask which sheet hangs where; no answer is a legal one."""
    text = line_typed(sentence("cli.run.ask_order", {"sheets": state.sheets}), list)
    order = tuple(name.strip() for name in text.split(",") if name.strip()) or None
    return c.Identify(
        order, tuple(one.name for one in state.orders)
    )  # what another tells while it is typed, nobody saw
