"""Options and the answers that services ask for have the same names, and one place for each default."""

from __future__ import annotations

import pytest

from wetside.cli.answers import answers_of
from wetside.cli.parser import parse_words
from wetside.services.expose import ExposeAnswers
from wetside.services.fixer import FixerAnswers
from wetside.services.negative import NegativeAnswers
from wetside.services.paper import PaperAnswers
from wetside.services.plan_evening import PlainAnswers
from wetside.services.printing_choice import PrintingNames
from wetside.services.temper_evening import TemperAnswers
from wetside.services.wash import WashAnswers
from wetside.services.zones import ZoneAnswers

BARE = [
    (TemperAnswers, ("temper",)),
    (WashAnswers, ("wash", "500ml")),
    (FixerAnswers, ("fixer", "1l")),
    (PaperAnswers, ("paper",)),
    (ExposeAnswers, ("expose",)),
    (PlainAnswers, ("plan",)),
    (PrintingNames, ("negative",)),
    (ZoneAnswers, ("curve", "readings.csv")),
]


@pytest.mark.parametrize(("kind", "words"), BARE)
def test_what_is_not_typed_keeps_the_default_of_the_answer(kind, words):
    """Every field has an option; without options the defaults of the service hold, not others of the parser."""
    found = answers_of(kind, parse_words(words))
    for name, default in kind._field_defaults.items():
        assert getattr(found, name) == default or (not getattr(found, name) and not default), name


@pytest.mark.parametrize(
    ("kind", "words", "field", "value"),
    [
        (TemperAnswers, ("temper", "--at", "19C"), "liquid_temp", "19C"),
        (TemperAnswers, ("temper", "--range", "1.2"), "density_range", "1.2"),
        (TemperAnswers, ("temper", "--bath-at", "26C"), "bath_temp", "26C"),
        (FixerAnswers, ("fixer", "1l", "--film", "1:4x5in", "--film", "2:4x5in"), "films", ["1:4x5in", "2:4x5in"]),
        (PaperAnswers, ("paper", "--list"), "listing", True),
        (PaperAnswers, ("paper", "--for", "alternative"), "printing", "alternative"),
        (ExposeAnswers, ("expose", "--filter", "2"), "filters", ["2"]),
        (ExposeAnswers, ("expose", "--metered-through"), "metered_through", True),
        (TemperAnswers, ("temper", "--evening", "evening.toml"), "evening", "evening.toml"),
        (PrintingNames, ("negative", "--aim", "1.05"), "wanted", "1.05"),
        (PrintingNames, ("negative", "--for", "scanner"), "printing", "scanner"),
        (ZoneAnswers, ("curve", "readings.csv", "--flash-gain", "0.5@III"), "flash_gain", "0.5@III"),
        (WashAnswers, ("wash", "500ml", "--thiosulfate", "80"), "thiosulfate", "80"),
        (PlainAnswers, ("plan", "--count", "12"), "number", "12"),
    ],
)
def test_an_option_reaches_its_field(kind, words, field, value):
    """What is typed arrives under the name that the service knows."""
    assert getattr(answers_of(kind, parse_words(words)), field) == value


def test_answers_within_answers_are_handed_over():
    """A field that is no option of its own comes from the caller; the others keep their defaults or what was typed."""
    arguments = parse_words(("negative", "--range", "1.35", "--grade", "2", "--only"))
    found = answers_of(NegativeAnswers, arguments, names=answers_of(PrintingNames, arguments))
    assert found == NegativeAnswers(density_range="1.35", names=PrintingNames(grade="2"), only=True)


def test_a_field_without_an_option_is_a_fault():
    """A service cannot ask for what the parser does not know."""
    with pytest.raises(AttributeError):
        answers_of(WashAnswers, parse_words(("fixer", "1l")))
