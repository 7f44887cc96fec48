"""What can go wrong, as codes with parameters; ``wetside.wording`` turns them into sentences.

A code is dotted and starts with the package that raises it (``exposure.aperture.not_positive``). No
sentence is written here, so that every language and every medium can say the same thing in its own way.
"""

from wetside.errors.tree import (
    AmbiguousError,
    ConflictError,
    InputError,
    ManyErrors,
    OutOfRangeError,
    Place,
    RefusedError,
    UnknownNameError,
    UnreadableError,
    WetsideError,
)

__all__ = [
    "AmbiguousError",
    "ConflictError",
    "InputError",
    "ManyErrors",
    "OutOfRangeError",
    "Place",
    "RefusedError",
    "UnknownNameError",
    "UnreadableError",
    "WetsideError",
]
