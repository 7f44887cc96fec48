"""What the window chart is laid out in: a broad frame for paper and screen, a narrow one for a phone.

Lengths are CSS pixels at full size.
"""

from __future__ import annotations

from typing import NamedTuple


class Frame(NamedTuple):
    """Edges of the plot and places of the words around it. [px]

    ``words_above`` puts a sheet's name above its bar instead of beside it; ``film_x`` is 0 where the film follows the
    name. ``name_down`` and ``bar_down`` lead from the top of a row to the foot of its words and the middle of its bar;
    widths of words are told in average letters.
    """

    width: float
    left: float
    right: float
    row: float
    name_x: float
    film_x: float
    name_down: float
    bar_down: float
    words_above: bool
    name_letters: float
    film_letters: float
    legend_letters: float
    most_ticks: int


BROAD = Frame(
    width=800.0,
    left=236.0,
    right=772.0,
    row=30.0,
    name_x=4.0,
    film_x=112.0,
    name_down=20.0,
    bar_down=15.0,
    words_above=False,
    name_letters=14.0,
    film_letters=17.0,
    legend_letters=120.0,
    most_ticks=9,
)

NARROW = Frame(
    width=342.0,
    left=20.0,
    right=322.0,
    row=46.0,
    name_x=2.0,
    film_x=0.0,
    name_down=18.0,
    bar_down=32.0,
    words_above=True,
    name_letters=14.0,
    film_letters=14.0,
    legend_letters=48.0,
    most_ticks=5,
)
"""As wide as a phone of 390 pixels leaves beside the margins of the page: the type stands in its own size there."""
