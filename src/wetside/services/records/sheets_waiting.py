"""What waits: the longest waiting first, sheets that may share a load beside each other, a page at a time."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple

from django.db.models import Case, Count, DateField, F, IntegerField, Min, Q, Value, When
from django.db.models.functions import Coalesce, TruncDate

from wetside.records.models import Aim, Film, PlanSheet, Process, ProcessVersion, Sheet, SheetState
from wetside.services.records.sheets_names import UNDEVELOPED
from wetside.services.records.whole_tables import names_of

if TYPE_CHECKING:
    import datetime as dt

PAGE = 50
"""Sheets on a page; our choice."""
OTHERS_PAGE = 25
"""The same of those that wait no more: they are looked up one by one. Our choice."""
LOOKED_BACK = 150
"""Entries of the history that are asked for what was written last. Our choice."""
MADE_LAST = 60
"""New sheets among which those that were kept last are found: a removed one is none of them. Our choice."""
LONG_DAYS = 30
"""From here on a waiting sheet is told to wait long: within about a month is the usual advice. [days]"""

SHOWN = ("developed", "lost", "removed")
"""Other lists than that of what waits."""


class WaitingSheet(NamedTuple):
    """A sheet of the list, with what is said of it. ``days`` is how long it has waited. [days]

    ``size`` and ``plan_process`` are what its plan gives where the sheet itself names none; empty where neither does.
    """

    sheet: Sheet
    label: str
    film: str
    since: dt.date
    days: int
    long: bool
    mishaps: tuple[str, ...]
    twin: str
    size: str
    plan_process: str


class WaitingGroup(NamedTuple):
    """Sheets that may share a load; without a process, those of one film.

    ``total`` counts the whole group, ``sheets`` are those that stand on this page. ``plan_process`` is the process that
    a plan gives to all of these, where they name none themselves.
    """

    process: str
    film: str
    developer: str
    dilution: str
    temp_c: float | None
    total: int
    sheets: tuple[WaitingSheet, ...]
    key: str
    plan_process: str


class Waiting(NamedTuple):
    """A page of what waits, and what waits in all."""

    total: int
    oldest: dt.date | None
    planned: int
    groups: tuple[WaitingGroup, ...]
    page: int
    pages: int


class SheetPage(NamedTuple):
    """A page of sheets that do not wait any more."""

    total: int
    sheets: tuple[WaitingSheet, ...]
    page: int
    pages: int


class _Group(NamedTuple):
    oldest: dt.date
    key: str
    total: int
    chosen: Q
    process: ProcessVersion | None
    name: str


def _since() -> Coalesce:
    return Coalesce("exposed", TruncDate("made_at"), output_field=DateField())


def waiting(today: dt.date, page: int = 1) -> Waiting:
    """What waits, a page of it.

    Parameters
    ----------
    today : date
    page : int
        From 1; what lies outside is the nearest.
    """
    sheets = Sheet.kept.filter(state__in=UNDEVELOPED)
    groups = _groups(sheets)
    count = sum(group.total for group in groups)
    pages = max(1, -(-count // PAGE))
    page = min(max(page, 1), pages)
    start = (page - 1) * PAGE
    here: list[_Group] = []
    before = passed = 0
    for group in groups:
        if passed + group.total > start and passed < start + PAGE:
            if not here:
                before = passed
            here.append(group)
        passed += group.total
    shown = _shown(sheets, here, start - before, today)
    planned = sheets.filter(state=SheetState.PLANNED).count() if count else 0
    return Waiting(count, min((group.oldest for group in groups), default=None), planned, tuple(shown), page, pages)


def _groups(sheets: Any) -> list[_Group]:
    """All groups, the one with the oldest sheet first."""
    counted = list(sheets.order_by().values("process_id", "film_id").annotate(count=Count("pk"), oldest=Min(_since())))
    names = Process.objects.in_bulk({row["process_id"] for row in counted if row["process_id"]})
    versions = {
        version.process_id: version
        for version in ProcessVersion.objects.filter(
            process_id__in={row["process_id"] for row in counted}, version=F("process__newest")
        )
    }
    merged: dict[str, list[dict[str, Any]]] = {}
    for row in counted:
        process = versions.get(row["process_id"])
        key = _same_load(process) if process else f"{row['process_id'] or ''} {row['film_id']}"
        merged.setdefault(key, []).append(row)
    groups = []
    for key, rows in merged.items():
        process = versions.get(rows[0]["process_id"])
        ids = {row["process_id"] for row in rows}
        chosen = Q(process_id__in=ids) if process else Q(film_id=rows[0]["film_id"], process_id=rows[0]["process_id"])
        name = " / ".join(sorted({str(names[one]) for one in ids if one in names}))
        groups.append(_Group(min(r["oldest"] for r in rows), key, sum(r["count"] for r in rows), chosen, process, name))
    return sorted(groups, key=lambda group: (group.oldest, group.key))


def _same_load(version: ProcessVersion) -> str:
    """What must be equal for sheets to share a load, as ``planning.groups`` has it."""
    facts = json.dumps(version.facts, sort_keys=True)
    return f"{version.developer.casefold()}|{version.dilution}|{version.temp_c}|{version.clock}|{facts}"


def _shown(sheets: Any, groups: list[_Group], skip: int, today: dt.date) -> list[WaitingGroup]:
    """Sheets of the page, in one query, under their groups."""
    if not groups:
        return []
    rank = Case(
        *(When(group.chosen, then=Value(number)) for number, group in enumerate(groups)),
        default=Value(len(groups)),
        output_field=IntegerField(),
    )
    any_of = Q()
    for group in groups:
        any_of |= group.chosen
    found = list(
        sheets.filter(any_of)
        .annotate(group_rank=rank, since=_since())
        .select_related("film", "twin", "process", "aim")
        .order_by("group_rank", "since", "made_at", "label_key")[skip : skip + PAGE]
    )
    given = _given_by_plans([sheet for sheet in found if not sheet.size or sheet.process_id is None])
    shown = []
    for number, group in enumerate(groups):
        mine = tuple(_waiting_sheet(sheet, today, given.get(sheet.pk)) for sheet in found if sheet.group_rank == number)
        if not mine:
            continue
        version = group.process
        shown.append(
            WaitingGroup(
                process=group.name,
                film=mine[0].film if version is None else "",
                developer=version.developer if version else "",
                dilution=version.dilution if version else "",
                temp_c=version.temp_c if version else None,
                total=group.total,
                sheets=mine,
                key=f"g{number}",
                plan_process=mine[0].plan_process if len({one.plan_process for one in mine}) == 1 else "",
            )
        )
    return shown


class _Given(NamedTuple):
    size: str = ""
    process: str = ""


def _given_by_plans(sheets: list[Any]) -> dict[Any, _Given]:
    """Size and process that the newest plan of each sheet gives to sheets that name none."""
    if not sheets:
        return {}
    places = (
        PlanSheet.objects.filter(sheet__in=sheets, plan__removed_at=None)
        .order_by("plan__made_at")
        .values_list("sheet_id", "plan__choices__keys__size", "plan__choices__process")
    )
    chosen = {sheet: (size, process) for sheet, size, process in places}
    names = {
        str(pk): name
        for pk, name in Process.kept.filter(pk__in={one for _, one in chosen.values() if one}).values_list("pk", "name")
    }
    return {
        sheet: _Given(size if isinstance(size, str) else "", names.get(process, ""))
        for sheet, (size, process) in chosen.items()
    }


def _waiting_sheet(sheet: Any, today: dt.date, given: _Given | None = None) -> WaitingSheet:
    given = given or _Given()
    days = max(0, (today - sheet.since).days)
    return WaitingSheet(
        sheet=sheet,
        label=str(sheet),
        film=sheet.film.name,
        since=sheet.since,
        days=days,
        long=days >= LONG_DAYS,
        mishaps=tuple(sheet.facts.get("mishaps", ())),
        twin=str(sheet.twin) if sheet.twin else "",
        size=sheet.size or given.size,
        plan_process="" if sheet.process_id else given.process,
    )


def no_longer_waiting(which: str, today: dt.date, page: int = 1) -> SheetPage:
    """Sheets that are developed, lost or removed, the newest first.

    Parameters
    ----------
    which : str
        One of :data:`SHOWN`.
    today : date
    page : int
        From 1; what lies outside is the nearest.
    """
    chosen = Sheet.objects.filter(removed_at__isnull=False) if which == "removed" else Sheet.kept.filter(state=which)
    order = {"removed": "-removed_at", "developed": "-developed_at"}.get(which, "-changed_at")
    # First which, then what they are: twenty thousand rows are sorted by their keys alone, and once.
    ordered = chosen.order_by(order, "-made_at").values_list("pk", flat=True)
    first = _developed_last() if which == SheetState.DEVELOPED and page <= 1 else None
    if first is None:
        first = list(ordered[: OTHERS_PAGE + 1])
        count = len(first) if len(first) <= OTHERS_PAGE else chosen.count()
    else:
        count = chosen.count()
    pages = max(1, -(-count // OTHERS_PAGE))
    page = min(max(page, 1), pages)
    start = (page - 1) * OTHERS_PAGE
    here = first[:OTHERS_PAGE] if page == 1 else list(ordered[start : start + OTHERS_PAGE])
    rows = Sheet.objects.filter(pk__in=here).annotate(since=_since()).select_related("film", "twin", "process", "aim")
    found = sorted(rows, key=lambda sheet: here.index(sheet.pk))
    return SheetPage(count, tuple(_waiting_sheet(sheet, today) for sheet in found), page, pages)


def _developed_last() -> list[Any] | None:
    """A page of the sheets that were developed last, found by the history; None where that does not settle it.

    Whatever became developed was written then. So a sheet that is not among the entries looked at was developed
    before the oldest of them, and the table need not be sorted where a whole page was developed after it.
    """
    entries = Sheet.history.filter(state=SheetState.DEVELOPED).order_by("-history_id")
    seen = list(entries.values_list("id", "history_date")[:LOOKED_BACK])
    if len(seen) < LOOKED_BACK:  # few, or taken over from where no history was kept
        return None
    oldest = min(at for _, at in seen)
    # Asked for by their identities alone, or a database goes through all that are developed.
    sheets = Sheet.objects.filter(pk__in={key for key, _ in seen}).order_by()
    rows = sheets.values_list("developed_at", "made_at", "pk", "state", "removed_at")
    developed = [row for row in rows if row[3] == SheetState.DEVELOPED and row[4] is None and row[0] is not None]
    found = [
        row[2] for row in sorted(developed, key=lambda row: row[:2], reverse=True)[:OTHERS_PAGE] if row[0] > oldest
    ]
    return found if len(found) == OTHERS_PAGE else None


def known_words() -> dict[str, list[str]]:
    """Names that an entry page offers: films, processes, aims, and sizes that were used."""
    films, processes, aims = names_of((Film, Process, Aim))
    return {"films": films[:500], "processes": processes[:500], "aims": aims[:500], "sizes": _sizes()}


def _sizes() -> list[str]:
    """Sizes of the sheets that were written last, then the usual ones."""
    newest = Sheet.history.order_by("-history_id").values_list("size", flat=True)[:LOOKED_BACK]
    used = sorted({size for size in newest if size})
    return list(dict.fromkeys([*used[:30], "9x12cm", "13x18cm", "18x24cm", "4x5in", "5x7in", "8x10in"]))


def last_kept(most: int = 12) -> list[Sheet]:
    """Sheets that were kept last, the newest first: what an entry page carries over and shows again."""
    # The history counts what was written; a table of twenty thousand sheets need not be sorted for a dozen.
    made = Sheet.history.filter(history_type="+").order_by("-history_id")
    newest = made.values_list("id", flat=True)[:MADE_LAST]
    found = list(newest)
    sheets = Sheet.kept.filter(pk__in=found) if found else Sheet.kept.all()  # taken over without their history
    return list(sheets.select_related("film", "process", "aim").order_by("-made_at", "-label_key")[:most])
