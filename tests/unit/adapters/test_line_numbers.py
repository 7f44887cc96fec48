"""The scanner that finds the lines of keys."""

from __future__ import annotations

from wetside.adapters.line_numbers import KeyLines

TEXT = '''# note [[not]]
a = "x # y"
"odd key".b.c = 1
long = """
[[sheets]]
label = "no"
"""
raw = \'\'\'
z = 1 \'\'\'
list = [ # note ]
  1, [2,
  3], { q = 1, r.s = [
    5 ] },
]

[[films]]
name = 'a'
places = { "9x12cm \\" n" = 6, "any" = 0 }
[films.reciprocity]
power = 1.3
[[films.times]]
time = "7:30"
[[films.times]]
  time  =  "8:00"   # late
[[films]]
[[films.times]]
time = "9:00"
[x."y z".w]
v = 2026-11-25 10:00:00
last = """a"""""
end = 1'''


def test_every_key_has_its_line() -> None:
    """Headers, lists of tables, dotted and quoted keys, long texts, lists and inline tables."""
    lines = KeyLines(TEXT)
    wanted = {
        ("a",): 2,
        ("odd key", "b", "c"): 3,
        ("long",): 4,
        ("raw",): 8,
        ("list",): 10,
        ("list", 1): 11,
        ("list", 1, 1): 12,
        ("list", 2, "q"): 12,
        ("list", 2, "r", "s", 0): 13,
        ("films", 0): 16,
        ("films", 0, "name"): 17,
        ("films", 0, "places", '9x12cm " n'): 18,
        ("films", 0, "places", "any"): 18,
        ("films", 0, "reciprocity", "power"): 20,
        ("films", 0, "times", 1): 23,
        ("films", 0, "times", 1, "time"): 24,
        ("films", 1, "times", 0, "time"): 27,
        ("x", "y z", "w", "v"): 29,
        ("x", "y z", "w", "end"): 31,
    }
    assert {path: lines.line_of(path) for path in wanted} == wanted


def test_an_unknown_path_falls_back_to_what_is_around_it() -> None:
    """A missing key is told on its table's line, a missing table nowhere."""
    lines = KeyLines(TEXT)
    assert lines.line_of(("films", 1, "name")) == 25
    assert lines.line_of(("vessels",)) is None


def test_a_text_that_is_not_understood_costs_the_line_only() -> None:
    """The scanner stops in silence."""
    assert KeyLines("a = 1\n= = =\nb = 2").line_of(("a",)) == 1
