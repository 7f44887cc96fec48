"""Whole numbers as typed or sent: plain digits within a bound, and nothing else."""

from __future__ import annotations

import pytest

from wetside.units import whole_number


@pytest.mark.parametrize(("text", "number"), [("0", 0), (" 12 ", 12), ("007", 7), ("999999999", 10**9 - 1)])
def test_plain_digits_are_read(text: str, number: int) -> None:
    """Blanks around them and zeros before them do no harm."""
    assert whole_number(text) == number


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "-1",
        "+1",
        "1.0",
        "1,0",
        "1e3",
        "²",
        "٣",
        "1 2",
        "1000000000",
        "9" * 5000,
        "0" * 5000,
        "1\x00",
        None,
        12,
    ],
)
def test_anything_else_is_none(text: object) -> None:
    """Other scripts' digits, powers, and more figures than an integer is read from."""
    assert whole_number(text) is None


def test_the_bound_itself_is_taken() -> None:
    """And nothing above it."""
    assert whole_number("500", most=500) == 500
    assert whole_number("501", most=500) is None
