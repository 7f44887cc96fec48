"""One key at a time from a terminal, without waiting for it and without a line's end."""

from __future__ import annotations

import codecs
import os
import select
import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

TICK_S = 0.2
"""How often the run is looked at while a key is waited for. [s]"""


def is_a_terminal() -> bool:
    """Whether keys can be read one by one, and a screen drawn."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return False
    try:
        import termios  # noqa: F401 (asks whether the system has it)
    except ImportError:
        return False
    return True


@contextmanager
def single_keys() -> Iterator[None]:
    """Give keys at once, unseen; the terminal is put back whatever happens."""
    import termios
    import tty

    handle = sys.stdin.fileno()
    before = termios.tcgetattr(handle)
    try:
        tty.setcbreak(handle)
        yield
    finally:
        termios.tcsetattr(handle, termios.TCSADRAIN, before)


def key_within(seconds: float) -> str | None:
    """Key pressed within some time, or None. [s]"""
    ready, _, _ = select.select([sys.stdin], [], [], seconds)
    return _letter() if ready else None


def _letter() -> str:
    """Read one letter past the library's buffer, which would keep what was typed ahead from being seen."""
    decoder = codecs.getincrementaldecoder("utf-8")(errors="replace")
    while True:
        byte = os.read(sys.stdin.fileno(), 1)
        letter = decoder.decode(byte, final=not byte)
        if letter or not byte:
            return letter


def line_typed(question: str, meanwhile: Callable[[], list[str]]) -> str:
    """Ask for a line, letter by letter, because the terminal gives single keys.

    Parameters
    ----------
    question : str
    meanwhile : callable
        Called all the while; the lines that it gives are shown, and the question stands below them again.
    """
    print(question, end=" ", flush=True)
    typed = ""
    while True:
        letter = key_within(TICK_S)
        told = meanwhile()
        if told:
            print("", *told, f"{question} {typed}", sep="\n", end="", flush=True)
        if letter is None:
            continue
        if letter in ("\n", "\r", ""):
            print()
            return typed.strip()
        if letter in ("\x7f", "\b"):
            if typed:
                typed = typed[:-1]
                print("\b \b", end="", flush=True)
        elif letter.isprintable():
            typed += letter
            print(letter, end="", flush=True)
