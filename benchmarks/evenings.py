"""Evening files of any size, always the same for the same arguments."""

from __future__ import annotations

import random

HEAD = """format = 1
name = "many sheets"
date = 2026-11-20

[[processes]]
name = "usual"
developer = "Brackwater"
dilution = "1+14"

"""


def equal_sheets(count: int, films: int = 6) -> str:
    """Sheets of one size in families of known times, a drum that takes six."""
    parts = [HEAD.replace("date =", 'size = "4x5in"\ndate =')]
    parts.append(_films([f"{6 + number}:00" for number in range(films)]))
    parts.append(_vessel("drum", 'places = 6\nmin = "300 ml"\nmax = "1000 ml"'))
    parts.extend(f'[[sheets]]\nlabel = "s{number:05d}"\nfilm = "Film {number % films}"\n\n' for number in range(count))
    return "".join(parts)


def mixed_sheets(count: int, seed: int = 1) -> str:
    """Sheets of three sizes, some of them dense, films of many times, two drums whose agent binds."""
    chance = random.Random(seed)
    times = [f"{chance.randrange(330, 840) // 60}:{chance.randrange(0, 60, 5):02d}" for _ in range(12)]
    parts = [HEAD, _films(times, 'agent = "30 ml per 516 cm2"')]
    parts.append(
        _vessel("long drum", 'places = { "9x12cm" = 6, "4x5in" = 5, "5x7in" = 3 }\nmin = "300 ml"\nmax = "900 ml"')
    )
    parts.append(_vessel("short drum", 'places = { "9x12cm" = 3, "4x5in" = 2 }\nmin = "170 ml"\nmax = "450 ml"'))
    for number in range(count):
        size = chance.choice(["9x12cm", "9x12cm", "4x5in", "4x5in", "5x7in"])
        dense = 'meant = { time = "1/8 s" }\nset = { time = "1/2 s" }\n' if chance.random() < 0.15 else ""
        film = chance.randrange(len(times))
        parts.append(f'[[sheets]]\nlabel = "s{number:05d}"\nfilm = "Film {film}"\nsize = "{size}"\n{dense}\n')
    return "".join(parts)


def _films(times: list[str], more: str = "") -> str:
    tail = f", {more}" if more else ""
    return "".join(
        f'[[films]]\nname = "Film {number}"\n'
        f'times = [{{ developer = "Brackwater", dilution = "1+14", time = "{time}", own = true{tail} }}]\n\n'
        for number, time in enumerate(times)
    )


def _vessel(name: str, more: str) -> str:
    return f'[[vessels]]\nname = "{name}"\nkind = "drum"\n{more}\n\n'
