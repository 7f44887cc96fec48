"""From parsed options to what a service is asked: each option is named as the answer's field."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    import argparse

Answers = TypeVar("Answers", bound="tuple[Any, ...]")


def answers_of(kind: type[Answers], arguments: argparse.Namespace, **made: Any) -> Answers:
    """Fill a service's named tuple from the options of the same names.

    Parameters
    ----------
    kind : named tuple class
        Whose fields the parser has as destinations.
    arguments : argparse.Namespace
        An option that was not given leaves the field's default as it is.
    **made : Any
        Fields that are no option themselves, such as answers within the answers.

    Returns
    -------
    answers : Answers
        Of the class that was given.

    Raises
    ------
    AttributeError
        If the parser does not know a field: a fault of the program, not of a person.
    """
    names: tuple[str, ...] = kind._fields  # type: ignore[attr-defined]  # named tuples have no type of their own
    given = {name: getattr(arguments, name) for name in names if name not in made}
    return kind(**{name: value for name, value in given.items() if value is not None}, **made)
