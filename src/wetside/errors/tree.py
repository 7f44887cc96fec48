"""The exception tree."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


class Place(NamedTuple):
    """Where a wrong value stands: file, line (1 is the first), and the path of the field in it."""

    file: str | None = None
    line: int | None = None
    field: str | None = None


class WetsideError(Exception):
    """A refusal that a person can act on.

    Parameters
    ----------
    code : str
        Stable and dotted; the first part names the package that raised it.
    place : Place, optional
        Where the value stands, filled in by whoever knows the file.
    **params
        What the sentence needs: the value, what is allowed, the nearest known name.
    """

    def __init__(self, code: str, /, *, place: Place | None = None, **params: object) -> None:
        self.code = code
        self.params: Mapping[str, object] = params
        self.place = place
        super().__init__(code, params)

    def at(self, place: Place) -> WetsideError:
        """Return the same error (this object), now knowing its place; a known field is kept."""
        known = self.place or Place()
        field = place.field
        if known.field is not None and place.field is not None:
            field = f"{place.field}.{known.field}"
        elif known.field is not None:
            field = known.field
        self.place = Place(known.file or place.file, known.line or place.line, field)
        return self

    def __str__(self) -> str:
        shown = ", ".join(f"{key}={value!r}" for key, value in self.params.items())
        return f"{self.code}({shown})"


class InputError(WetsideError):
    """What a person typed or a file holds cannot be taken as it stands."""


class UnreadableError(InputError):
    """The text has no meaning as the kind of value that is wanted."""


class OutOfRangeError(InputError):
    """The value has a meaning and lies outside what is possible or allowed."""


class UnknownNameError(InputError):
    """A key or a name that nothing answers to; ``nearest`` is the closest known one or None."""


class AmbiguousError(InputError):
    """More than one thing answers; ``choices`` lists them."""


class ConflictError(InputError):
    """Two values that cannot both be true."""


class RefusedError(WetsideError):
    """The science or the planner declines to give a number, and says why."""


class ManyErrors(WetsideError):  # noqa: N818 (it holds errors, it is not one)
    """All errors of one file at once, in the order in which they stand in it."""

    def __init__(self, errors: Iterable[WetsideError]) -> None:
        self.errors = tuple(errors)
        super().__init__("errors.many", count=len(self.errors))
