"""Processes: each a line of versions, the newest of which counts; a change of what matters is a new version."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from django.db import transaction
from django.db.models import Count, F

from wetside.errors import ConflictError, RefusedError, UnknownNameError
from wetside.planning.resolved import PLAIN_BATHS, has_presoak
from wetside.records.models import Developer, Process, ProcessVersion, Sheet, worker
from wetside.services.library import load_library
from wetside.services.records.changes import bring_back, change, find, make, remove
from wetside.services.records.documents import columns_and_facts, document_of, raw_of
from wetside.services.records.drafts import refuse_if_chosen
from wetside.services.records.films_checked import checked_document
from wetside.services.records.processes_compared import Difference, differences
from wetside.services.records.sheets_counted import waiting_of

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping
    from uuid import UUID

    from wetside.development import PresoakAdvice
    from wetside.planning.documents.evening import Process as ProcessDocument

A_PAGE = 50
FORM_KEYS = ("name", "developer", "dilution", "temp", "clock", "way", "moments", "lamp")
"""Keys of a process's form beside its baths; the version is counted, never typed."""

BATH_KEYS = (
    "does",
    "name",
    "time",
    "bottle",
    "second",
    "third",
    "volume",
    "changes",
    "after",
    "temp",
    "share",
    "out_of_vessel",
)
"""Keys of a bath, in the order in which a form shows them."""


class ProcessLine(NamedTuple):
    """A process in the list, with its newest version and the sheets that wait for it."""

    process: Process
    version: ProcessVersion
    baths: int
    presoak: bool
    waiting: int


class ProcessList(NamedTuple):
    """One page of processes; ``total`` is of all of them."""

    lines: tuple[ProcessLine, ...]
    total: int
    page: int
    pages: int
    removed: tuple[Process, ...]


class ShownVersion(NamedTuple):
    """A version as it is read: its document, and in words what differs from the one before."""

    version: ProcessVersion
    document: ProcessDocument
    changes: tuple[Difference, ...]


class ProcessPage(NamedTuple):
    """A process with all its versions, the newest first, and the makers who advise against its pre-soak."""

    process: Process
    newest: ShownVersion
    older: tuple[ShownVersion, ...]
    presoak_against: tuple[PresoakAdvice, ...]
    waiting: int
    developer: Developer | None


def process_list(page: int = 1) -> ProcessList:
    """Processes by name, a page at a time."""
    count = Process.kept.aggregate(count=Count("pk"))["count"]
    pages = max(1, -(-count // A_PAGE))
    page = min(max(page, 1), pages)
    processes = list(
        Process.kept.annotate(waiting=waiting_of("process")).order_by("name_key")[(page - 1) * A_PAGE : page * A_PAGE]
    )
    newest = {
        version.process_id: version
        for version in ProcessVersion.objects.filter(process__in=[row.pk for row in processes]).filter(
            version=F("process__newest")
        )
    }
    lines = []
    for row in processes:
        document = _document(row, newest[row.pk])
        lines.append(
            ProcessLine(row, newest[row.pk], len(document.baths or PLAIN_BATHS), has_presoak(document), row.waiting)
        )
    removed = tuple(Process.objects.exclude(removed_at=None).order_by("-removed_at")[:20])
    return ProcessList(tuple(lines), count, page, pages, removed)


def find_process(key: UUID | str, *, removed: bool = False) -> Process:
    """Process by its identity.

    Raises
    ------
    UnknownNameError
        If there is none, or it was removed.
    """
    return find(Process, key, removed=removed)


def newest_version(process: Process) -> ProcessVersion:
    """Version that counts.

    Raises
    ------
    UnknownNameError
        If the process has none.
    """
    return version_of(process, process.newest)


def version_of(process: Process, number: int) -> ProcessVersion:
    """Version of a process by its number.

    Raises
    ------
    UnknownNameError
        If there is no such version.
    """
    found: ProcessVersion | None = process.versions.filter(version=number).first()
    if found is None:
        raise UnknownNameError("services.records.not_found", what="version")
    return found


def raw_process(process: Process) -> dict[str, Any]:
    """Newest version in the plain form of an evening file."""
    return raw_of("process", newest_version(process), {"name": process.name})


def plain_baths() -> list[dict[str, Any]]:
    """Baths of a plain process in plain form, to begin a new one with: common practice."""
    from wetside.adapters.evening_writer import plain_values

    return [plain_values(bath) for bath in PLAIN_BATHS]


def process_page(process: Process, most: int = 60) -> ProcessPage:
    """Everything that a process's page shows.

    Parameters
    ----------
    process : Process
    most : int
        Versions that are shown; older ones are left out.
    """
    versions = list(process.versions.order_by("-version")[: most + 1])
    documents = [_document(process, version) for version in versions]
    shown = [
        ShownVersion(version, document, differences(documents[rank + 1], document) if rank + 1 < len(documents) else ())
        for rank, (version, document) in enumerate(zip(versions, documents, strict=True))
    ][:most]
    against = load_library().presoak_against if has_presoak(documents[0]) else ()
    waiting = Sheet.kept.filter(process=process, state__in=("waiting", "planned")).count()
    from wetside.values.names import plain_name

    developer = Developer.kept.filter(name_key=plain_name(documents[0].developer)).first()
    return ProcessPage(process, shown[0], tuple(shown[1:]), tuple(against), waiting, developer)


def _document(process: Process, version: ProcessVersion) -> ProcessDocument:
    document: ProcessDocument = document_of("process", raw_of("process", version, {"name": process.name}))
    return document


def save_process(
    raw: Mapping[str, Any],
    process: Process | None = None,
    *,
    note: str = "",
    revision: int | None = None,
    why: str = "",
) -> Process:
    """Make a process with its first version; or rename one, or add a version to it where anything else differs.

    Parameters
    ----------
    raw : mapping
        Keys of :data:`FORM_KEYS` and ``baths`` in plain form.
    process : Process, optional
        The one to change.
    note : str
    revision : int, optional
        State that the person saw.
    why : str
        Kept with the version.

    Returns
    -------
    process : Process
        Its ``newest`` tells whether there is a new version.

    Raises
    ------
    WetsideError
        Naming the field; or if the process was changed meanwhile. Nothing was written then.
    """
    document = checked_document("process", {key: value for key, value in raw.items() if key != "version"})
    with transaction.atomic():
        if process is None:
            made = make(Process, {"name": document.name, "note": note}, why=why)
            _add_version(made, document, 1, why)
            return made
        if revision is not None:
            _require_unchanged(process, revision)
        before = _document(process, newest_version(process))
        values: dict[str, Any] = {"name": document.name, "note": note}
        if not differences(before, document):
            return change(process, values, revision=revision, why=why)
        number = process.newest + 1
        changed = change(process, {**values, "newest": number}, revision=revision, why=why)
        _add_version(changed, document, number, why)
        return changed


def _require_unchanged(process: Process, revision: int) -> None:
    now = find_process(process.pk)
    if now.revision != revision:
        raise ConflictError("services.records.changed_meanwhile", what=now.name)


def _add_version(process: Process, document: ProcessDocument, number: int, why: str) -> None:
    values = columns_and_facts("process", document) | {"version": number}
    ProcessVersion.objects.create(process=process, made_by=worker(), why=why[:400], **values)


def remove_process(process: Process, now: dt.datetime) -> Process:
    """Take a process away; its versions stay readable where plans used them.

    Raises
    ------
    RefusedError
        While sheets wait for it, or a draft of a plan chose it.
    """
    waiting = Sheet.kept.filter(process=process, state__in=("waiting", "planned")).count()
    if waiting:
        raise RefusedError("services.process.sheets_wait", what=process.name, count=waiting)
    refuse_if_chosen("process", process)
    return remove(process, now)


def bring_process_back(process: Process) -> Process:
    """Undo a removal; errors as :func:`wetside.services.records.changes.bring_back`."""
    return bring_back(process)
