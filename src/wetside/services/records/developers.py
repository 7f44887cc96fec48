"""Developers: listed, made, corrected, removed, with the coefficient that a plan would use."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Count

from wetside.development.coefficient import is_inside_span, temperature_factor
from wetside.errors import RefusedError
from wetside.planning.factors import coefficient_of
from wetside.records.models import Developer, Process, ProcessVersion, Sheet
from wetside.services.library import load_library
from wetside.services.records.changes import bring_back, change, find, make, remove
from wetside.services.records.documents import columns_and_facts, document_of, raw_of
from wetside.services.records.films_checked import checked_document
from wetside.values.names import plain_name

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping
    from uuid import UUID

    from wetside.development.coefficient import TemperatureCoefficient

A_PAGE = 50
FORM_KEYS = ("name", "published", "coefficient", "pairs", "reuse_limit", "stains")
"""Keys of a developer's form: all that its document has."""

EXAMPLE_S = 480.0
"""A time of eight minutes, to say what a coefficient does. [s]"""


class DeveloperLine(NamedTuple):
    """A developer in the list, with its coefficient; None where nothing is known of it."""

    developer: Developer
    coefficient: TemperatureCoefficient | None

    @property
    def percent(self) -> float | None:
        """Share by which times fall with a degree, in percent; None where it is not known."""
        return None if self.coefficient is None else self.coefficient.per_c * 100.0


class DeveloperList(NamedTuple):
    """One page of developers; ``total`` is of all of them."""

    lines: tuple[DeveloperLine, ...]
    total: int
    page: int
    pages: int
    removed: tuple[Developer, ...]


class Moved(NamedTuple):
    """A time of eight minutes at 20 C, moved to another temperature. [C], [s]"""

    temp_c: float
    time_s: float


class DeveloperEvidence(NamedTuple):
    """A developer with all that follows from it; ``moved`` only inside the span of its pairs."""

    developer: Developer
    coefficient: TemperatureCoefficient | None
    moved: tuple[Moved, ...]
    processes: tuple[str, ...]

    @property
    def spread_percent(self) -> float | None:
        """Half-width of the share, in percent; None where unknown."""
        spread = None if self.coefficient is None else self.coefficient.spread
        return spread * 100.0 if spread else None

    @property
    def by_source(self) -> tuple[tuple[str, float], ...]:
        """Share that each source gives, in percent."""
        return tuple((key, share * 100.0) for key, share in self.coefficient.by_source) if self.coefficient else ()


def developer_list(page: int = 1) -> DeveloperList:
    """Developers by name, a page at a time."""
    count = Developer.kept.aggregate(count=Count("pk"))["count"]
    pages = max(1, -(-count // A_PAGE))
    page = min(max(page, 1), pages)
    library = load_library()
    return DeveloperList(
        tuple(
            DeveloperLine(row, _coefficient(row, library))
            for row in Developer.kept.order_by("name_key")[(page - 1) * A_PAGE : page * A_PAGE]
        ),
        count,
        page,
        pages,
        tuple(Developer.objects.exclude(removed_at=None).order_by("-removed_at")[:20]),
    )


def _coefficient(developer: Developer, library: Any) -> TemperatureCoefficient | None:
    return coefficient_of(developer.name, document_of("developer", raw_of("developer", developer)), library)


def developer_evidence(developer: Developer) -> DeveloperEvidence:
    """A developer with its coefficient, what that does to a time, and the processes that name it."""
    coefficient = _coefficient(developer, load_library())
    moved: tuple[Moved, ...] = ()
    if coefficient is not None:
        moved = tuple(
            Moved(temp_c, EXAMPLE_S * temperature_factor(coefficient, 20.0, temp_c))
            for temp_c in (18.0, 20.0, 22.0, 24.0)
            if is_inside_span(coefficient, temp_c) and is_inside_span(coefficient, 20.0)
        )
    return DeveloperEvidence(developer, coefficient, moved, tuple(row.name for row in _processes(developer.name)))


def find_developer(key: UUID | str, *, removed: bool = False) -> Developer:
    """Developer by its identity.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    return find(Developer, key, removed=removed)


def raw_developer(developer: Developer) -> dict[str, Any]:
    """Developer in the plain form of an evening file."""
    return raw_of("developer", developer)


def save_developer(
    raw: Mapping[str, Any],
    developer: Developer | None = None,
    *,
    note: str = "",
    revision: int | None = None,
    why: str = "",
) -> Developer:
    """Make a developer, or correct one.

    Parameters
    ----------
    raw : mapping
        Keys of :data:`FORM_KEYS` in plain form.
    developer : Developer, optional
        The one to correct.
    note : str
    revision : int, optional
    why : str

    Raises
    ------
    WetsideError
        Naming the field; or if a process names the developer by the name that it has now.
    """
    values = columns_and_facts("developer", checked_document("developer", raw)) | {"note": note}
    if developer is None:
        return make(Developer, values, why=why)
    if plain_name(values["name"]) != plain_name(developer.name):
        named = [row.name for row in _processes(developer.name)]
        if named:
            raise RefusedError("services.developer.named", what=developer.name, processes=named[:3])
    return change(developer, values, revision=revision, why=why)


def remove_developer(developer: Developer, now: dt.datetime) -> Developer:
    """Take a developer away.

    Raises
    ------
    RefusedError
        While sheets wait for a process that names it.
    """
    processes = _processes(developer.name)
    waiting = Sheet.kept.filter(process__in=[row.pk for row in processes], state__in=("waiting", "planned"))
    count = waiting.count()
    if count:
        named = sorted({sheet.process.name for sheet in waiting.select_related("process")[:200]})[:3]
        raise RefusedError("services.developer.in_use", what=developer.name, processes=named, count=count)
    return remove(developer, now)


def bring_developer_back(developer: Developer) -> Developer:
    """Undo a removal; errors as :func:`wetside.services.records.changes.bring_back`."""
    return bring_back(developer)


def _processes(name: str) -> list[Process]:
    """Processes whose newest version names a developer."""
    wanted = plain_name(name)
    versions = ProcessVersion.objects.select_related("process").filter(process__removed_at=None)
    return [
        row.process for row in versions if row.version == row.process.newest and plain_name(row.developer) == wanted
    ]
