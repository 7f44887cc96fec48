"""Every refusal of the package and of the reader of published rows can be said."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from wetside.development import TimePair, coefficient_of_pairs, first_order_law, temperature_factor
from wetside.errors import WetsideError
from wetside.wording import known_codes, speak_error

SOURCE = Path(__file__).resolve().parents[3] / "src/wetside"
CODE = re.compile(r'"((?:development|starting_points)\.[a-z_0-9]+(?:\.[a-z_0-9]+)?)"')


@pytest.mark.parametrize(
    ("package", "files"),
    [
        ("development", sorted((SOURCE / "development").glob("*.py"))),
        ("starting_points", sorted((SOURCE / "adapters").glob("*.py"))),
    ],
)
def test_codes_and_sentences_are_the_same(package: str, files: list[Path]) -> None:
    """No code without a sentence, no sentence without a code."""
    text = "\n".join(path.read_text("utf-8") for path in files)
    written = {code for code in CODE.findall(text) if code.startswith(f"{package}.")}
    assert written == known_codes(package)


def test_a_refusal_tells_what_is_allowed() -> None:
    """The span, and what to do."""
    with pytest.raises(WetsideError) as caught:
        temperature_factor(coefficient_of_pairs([TimePair(20, 480, 24, 380)]), 20.0, 26.0)
    said = speak_error(caught.value, ("en",))
    assert "26.0 °C" in said
    assert "20.0 °C to 24.0 °C" in said
    with pytest.raises(WetsideError) as caught:
        first_order_law(360, 0.5, 1.0)
    assert "less than twice" in speak_error(caught.value, ("en",))
