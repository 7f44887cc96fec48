"""All that is wrong with a file, gathered before anything is said."""

from __future__ import annotations

from typing import TYPE_CHECKING, NoReturn

from wetside.adapters.printable import printable
from wetside.errors import InputError, ManyErrors, Place, WetsideError

if TYPE_CHECKING:
    from collections.abc import Callable

FieldPath = tuple[str | int, ...]
"""Keys and places in lists, counted from 0, from the top of the file down to a value."""

MOST_FINDINGS = 1000
"""After so many the rest of a file is not looked at: nobody reads on, and a broken file must not cost minutes."""


class EnoughError(Exception):
    """More is wrong than anybody would read."""


class Findings:
    """Errors with the paths that they belong to, in the order of their discovery."""

    def __init__(self) -> None:
        self.found: list[tuple[FieldPath, WetsideError]] = []
        self._paths: set[FieldPath] = set()

    def add(self, path: FieldPath, error: WetsideError) -> None:
        """Note an error; one that knows its file already keeps its place."""
        if len(self.found) >= MOST_FINDINGS:
            raise EnoughError
        errors = error.errors if isinstance(error, ManyErrors) else (error,)
        self.found.extend((path, one) for one in errors)
        self._paths.add(path)

    def at(self, *path: str | int) -> bool:
        """Whether something is wrong with exactly this field."""
        return path in self._paths

    def __bool__(self) -> bool:
        return bool(self.found)

    def refuse(self, place_of: Callable[[FieldPath], Place]) -> NoReturn:
        """Raise everything in the order in which it stands in the file.

        Parameters
        ----------
        place_of : callable
            Gives the place of a path.

        Raises
        ------
        WetsideError
            The error itself where there is one only, else :class:`ManyErrors`.
        """
        for path, error in self.found:
            if error.place is None or error.place.file is None:
                error.at(place_of(path))
        errors = [error for _, error in self.found]
        first = errors[0].place or Place()
        files = {error.place.file: rank for rank, error in reversed(list(enumerate(errors))) if error.place}
        files[place_of(()).file] = -1
        errors.sort(key=lambda error: (files[error.place.file], error.place.line or 0) if error.place else (0, 0))
        if len(errors) >= MOST_FINDINGS:
            errors.append(InputError("files.too_many", place=Place(file=first.file), count=len(errors)))
        raise errors[0] if len(errors) == 1 else ManyErrors(errors)


def field_text(path: FieldPath, title: str | None = None) -> str | None:
    """Path as a person counts, with the name of the thing where it has one.

    Examples
    --------
    >>> field_text(("sheets", 2, "size"), "7 left")
    'sheets[3].size (7 left)'
    """
    text = ""
    for part in path:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            text += f"{'.' if text else ''}{printable(part[:80])}"
    if not text:
        return None
    return f"{text} ({title})" if title else text
