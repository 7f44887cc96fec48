"""Aims: typed, from a paper or printing by name, or from a paper test by eye."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Count

from wetside.adapters.printing_data import load_printing_ranges
from wetside.errors import InputError, Place, RefusedError, UnknownNameError, WetsideError
from wetside.planning.documents.words import Printing
from wetside.records.models import Aim, Sheet
from wetside.sensitometry.aims import default_tolerance
from wetside.sensitometry.channels import channels_of_printing
from wetside.sensitometry.grades import aim_of_row
from wetside.sensitometry.paper_test import aim_of_test, paper_range_of_steps
from wetside.services.records.changes import bring_back, change, find, make, remove
from wetside.services.records.documents import columns_and_facts, raw_of
from wetside.services.records.drafts import refuse_if_chosen
from wetside.services.records.films_checked import checked_document
from wetside.services.records.sheets_counted import waiting_of
from wetside.units import whole_number

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping
    from uuid import UUID

    from wetside.sensitometry.grades import PrintingAim, PrintingRange
    from wetside.values.evidence import Evidence

A_PAGE = 50
FORM_KEYS = ("name", "for", "range", "tolerance", "channel")
"""Keys of an aim's form: all that its document has."""

OFFERED = ("grade", "filter", "enlarger", "process")
"""Rows of the printing data that make an aim; a limit of a scanner makes none."""


class AimLine(NamedTuple):
    """An aim in the list; ``tolerance`` its own or its printing's [density], with whether it is the default."""

    aim: Aim
    tolerance: float
    is_default: bool
    waiting: int


class AimList(NamedTuple):
    """One page of aims; ``total`` is of all of them."""

    lines: tuple[AimLine, ...]
    total: int
    page: int
    pages: int
    removed: tuple[Aim, ...]


class OfferedRow(NamedTuple):
    """A grade, filter, enlarger or process that an aim may begin with; ``key`` names it in an address."""

    key: str
    row: PrintingRange


class Begun(NamedTuple):
    """An aim begun from evidence: its plain form, a note that says from what, and how strong that is."""

    raw: dict[str, Any]
    note: str
    evidence: Evidence
    uncertainty: float | None


def aim_list(page: int = 1) -> AimList:
    """Aims by name, a page at a time."""
    count = Aim.kept.aggregate(count=Count("pk"))["count"]
    pages = max(1, -(-count // A_PAGE))
    page = min(max(page, 1), pages)
    rows = Aim.kept.annotate(waiting=waiting_of("aim")).order_by("name_key")[(page - 1) * A_PAGE : page * A_PAGE]
    return AimList(
        tuple(
            AimLine(
                row,
                default_tolerance(row.printing) if row.tolerance is None else row.tolerance,
                row.tolerance is None,
                row.waiting,
            )
            for row in rows
        ),
        count,
        page,
        pages,
        tuple(Aim.objects.exclude(removed_at=None).order_by("-removed_at")[:20]),
    )


def tolerances() -> dict[str, float]:
    """Default tolerance of each printing. [density]"""
    return {printing.value: default_tolerance(printing.value) for printing in Printing}


def offered_rows() -> tuple[OfferedRow, ...]:
    """What an aim may begin with, grouped as the data has it."""
    rows = load_printing_ranges()
    return tuple(
        OfferedRow(f"{row.kind}:{row.product}:{row.name}", row) for kind in OFFERED for row in rows if row.kind == kind
    )


def aim_from_row(key: str) -> Begun:
    """Aim of a published grade, filter, enlarger or process.

    Parameters
    ----------
    key : str
        Of an :class:`OfferedRow`.

    Raises
    ------
    UnknownNameError
        If there is no such row.
    """
    for offered in offered_rows():
        if offered.key == key:
            row = offered.row
            name = f"{row.kind} {row.name}" if row.kind in ("grade", "filter") else row.name
            source = row.source.key if not row.source.where else f"{row.source.key}, {row.source.where}"
            return _begun(aim_of_row(row), name, f"{name} {row.product}".strip() + f" ({row.evidence.value}: {source})")
    raise UnknownNameError("services.aim.unknown_row", place=Place(field="row"), value=key)


def aim_from_steps(first: str, last: str, printing: str) -> Begun:
    """Aim of a paper test by eye: a step tablet was printed, and the toned steps were counted.

    Parameters
    ----------
    first, last : str
        First step that is not black and last that is not white, as typed; the clear step is 1.
    printing : str
        What the paper is, such as ``graded-paper``.

    Raises
    ------
    WetsideError
        Naming the step that cannot be.
    """
    steps = []
    for field, text in (("first", first), ("last", last)):
        step = whole_number(text, most=999)
        if step is None:
            raise InputError("services.aim.steps", place=Place(field=field), value=text[:40])
        steps.append(step)
    try:
        test = paper_range_of_steps(steps[0], steps[1])
    except WetsideError as error:
        raise error.at(Place(field="last")) from None
    begun = _begun(aim_of_test(test, printing), "own paper", f"own paper test by eye, steps {steps[0]} to {steps[1]}")
    return begun._replace(uncertainty=test.uncertainty)


def _begun(aim: PrintingAim, name: str, note: str) -> Begun:
    raw: dict[str, Any] = {
        "name": name,
        "for": aim.printing,
        "range": round(aim.density_range, 2),
        "channel": aim.channels[0],
    }
    if abs(aim.tolerance - default_tolerance(aim.printing)) > 1e-9:
        raw["tolerance"] = round(aim.tolerance, 2)
    return Begun(raw, note, aim.evidence, None)


def channels_seen(printing: str) -> tuple[str, ...]:
    """Lights that a printing sees."""
    return channels_of_printing(printing)


def find_aim(key: UUID | str, *, removed: bool = False) -> Aim:
    """Aim by its identity.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    return find(Aim, key, removed=removed)


def raw_aim(aim: Aim) -> dict[str, Any]:
    """Aim in the plain form of an evening file."""
    return raw_of("aim", aim)


def save_aim(
    raw: Mapping[str, Any], aim: Aim | None = None, *, note: str = "", revision: int | None = None, why: str = ""
) -> Aim:
    """Make an aim, or correct one.

    Raises
    ------
    WetsideError
        Naming the field, or the rule that refuses it.
    """
    values = columns_and_facts("aim", checked_document("aim", raw)) | {"note": note}
    return make(Aim, values, why=why) if aim is None else change(aim, values, revision=revision, why=why)


def remove_aim(aim: Aim, now: dt.datetime) -> Aim:
    """Take an aim away.

    Raises
    ------
    RefusedError
        While sheets wait for it, or a draft of a plan chose it.
    """
    waiting = Sheet.kept.filter(aim=aim, state__in=("waiting", "planned")).count()
    if waiting:
        raise RefusedError("services.aim.sheets_wait", what=aim.name, count=waiting)
    refuse_if_chosen("aim", aim)
    return remove(aim, now)


def bring_aim_back(aim: Aim) -> Aim:
    """Undo a removal; errors as :func:`wetside.services.records.changes.bring_back`."""
    return bring_back(aim)
