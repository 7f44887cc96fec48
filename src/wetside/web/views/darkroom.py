"""The darkroom and its archive: settings, who works, backups, an export, and what was removed with its way back."""

from __future__ import annotations

from typing import IO, TYPE_CHECKING

from asgiref.sync import sync_to_async
from django.conf import settings
from django.contrib import messages
from django.core.handlers.asgi import ASGIRequest
from django.http import FileResponse, StreamingHttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wetside.adapters.attachments import CHUNK
from wetside.adapters.clock import now, today
from wetside.errors import WetsideError
from wetside.services.archive import state
from wetside.services.records import darkroom as service
from wetside.services.records.removed import bring_back_removed, removed_count, removed_page
from wetside.services.records.shelf import in_words
from wetside.web.forms.entry import Entry, mistakes_of
from wetside.web.middleware import WORKER
from wetside.web.views.asked import page_of, revision_of

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import AsyncIterator, Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse
    from django.http.response import HttpResponseBase

SETTINGS = ("name", "units", "decimal_sign", "paper", "time_zone")

KINDS = {
    "film": "film",
    "filmlot": "lot of film",
    "developer": "developer",
    "holder": "holder with its sides",
    "sheet": "sheet",
    "bottle": "bottle",
    "vessel": "vessel",
    "instrument": "instrument",
    "process": "process",
    "aim": "aim",
    "plan": "plan with its loads",
    "run": "run from a log",
}
"""What each kind is called."""


@require_http_methods(["GET", "HEAD", "POST"])
def darkroom(request: HttpRequest) -> HttpResponse:
    """How the archive stands, and its settings."""
    if request.method != "POST":
        return _page(request)
    typed = {name: request.POST[name] for name in SETTINGS if name in request.POST}
    try:
        service.change_darkroom(typed, revision_of(request))
    except WetsideError as error:
        return _page(request, typed, mistakes_of(error))
    messages.success(request, _("Kept. All pages follow it from now on."))
    return redirect("darkroom")


@require_POST
def worker(request: HttpRequest) -> HttpResponse:
    """Set who works at this device; the name stands in the history of what is written here."""
    typed = request.POST.get("worker", "")
    try:
        name = service.name_of(typed, "worker")
    except WetsideError as error:
        return _page(request, {"worker": typed}, mistakes_of(error))
    if name:
        request.session[WORKER] = name
        messages.success(
            request, _("What is written on this device from now on is told as by %(name)s.") % {"name": name}
        )
    else:
        request.session.pop(WORKER, None)
        messages.success(request, _("What is written on this device is told without a name."))
    return redirect("darkroom")


def _page(
    request: HttpRequest, typed: Mapping[str, str] | None = None, wrong: Mapping[str, str] | None = None
) -> HttpResponse:
    typed, wrong = typed or {}, wrong or {}
    kept = service.darkroom_settings()
    backups = state.backups_now(settings.DATA_FOLDER, now())
    raw = {name: typed.get(name, str(getattr(kept, name))) for name in SETTINGS}
    context = {
        "title": _title(backups),
        "backups": backups,
        "fields": _fields(raw, wrong),
        "zone": _field("time_zone", _("Time zone"), raw["time_zone"], wrong),
        "zones": service.time_zones(),
        "clock": timezone.localtime(now()),
        "zone_now": timezone.get_current_timezone_name(),
        "who": _field("worker", _("Name"), typed.get("worker", str(request.session.get(WORKER, ""))), wrong),
        "rest": [said for field, said in wrong.items() if field not in (*SETTINGS, "worker")],
        "revision": request.POST.get("revision", kept.revision) if wrong else kept.revision,
        "removed": removed_count(),
        "folder": settings.DATA_FOLDER,
        "served": bool(settings.DATABASE_ADDRESS),
    }
    return render(request, "web/darkroom/darkroom.html", context, status=422 if wrong else 200)


def _field(name: str, label: str, value: str, wrong: Mapping[str, str], hint: str = "") -> Entry:
    return Entry(
        name=name,
        id=f"f-{name.replace('_', '-')}",
        label=label,
        hint=hint,
        example="",
        kind="choice" if name in service.CHOICES else "text",
        choices=(),
        required=name == "name",
        value=value,
        chosen=(),
        unit="",
        mistake=wrong.get(name, ""),
    )


def _fields(raw: Mapping[str, str], wrong: Mapping[str, str]) -> list[Entry]:
    """Fields of the settings but the time zone."""
    words = {
        "metric": _("metric: ml, °C"),
        "us": _("US: fl oz, °F"),
        "point": _("point: 2.5"),
        "comma": _("comma: 2,5"),
        "a4": _("A4"),
        "letter": _("US letter"),
    }
    told = {
        "name": (_("Name of the darkroom"), _("As it is called among those who work here.")),
        "units": (_("Units"), _("For what is shown. Typed amounts may always carry either.")),
        "decimal_sign": (_("Decimal sign"), _("For what is shown. Typed numbers may always use either.")),
        "paper": (_("Paper"), _("Of run sheets and lists that are printed.")),
    }
    made = [_field(name, label, raw[name], wrong, hint) for name, (label, hint) in told.items()]
    return [
        one._replace(
            choices=tuple((word, words[word]) for word in service.CHOICES.get(one.name, ())),
            required=one.kind == "choice" or one.required,
        )
        for one in made
    ]


def _title(backups: state.Backups) -> str:
    if backups.newest_age is None:
        return _("Everything is kept, but there is no backup to go back to")
    return _("Everything is kept; the newest backup is %(age)s old") % {"age": age_in_words(backups.newest_age)}


def age_in_words(age: dt.timedelta) -> str:
    """Age as a title says it: whole minutes, from an hour on hours, from two days on days.

    Examples
    --------
    >>> from datetime import timedelta
    >>> age_in_words(timedelta(hours=2, minutes=50)), age_in_words(timedelta(days=2))
    ('two hours', 'two days')
    """
    minutes = int(age.total_seconds() // 60)
    if minutes < 1:
        return _("less than a minute")
    for size, thing, least in ((1440, "day", 2), (60, "hour", 1)):
        if minutes // size >= least:
            return in_words(minutes // size, thing).lower()
    return in_words(minutes, "minute").lower()


@require_POST
def backup(request: HttpRequest) -> HttpResponse:
    """Make a backup now."""
    made = state.make_one_now(settings.DATA_FOLDER)
    said = _("Backup made and read back: %(rows)s rows.") % {"rows": made.total_rows}
    messages.success(request, said)
    return redirect("darkroom")


@require_safe
def export(request: HttpRequest) -> HttpResponseBase:
    """The whole archive as a zip of plain files, sent in pieces."""
    handle = state.export_file(settings.DATA_FOLDER)
    name = f"wetside-{today():%Y-%m-%d}.zip"
    if not isinstance(request, ASGIRequest):
        return FileResponse(handle, as_attachment=True, filename=name, content_type="application/zip")
    size = handle.seek(0, 2)
    handle.seek(0)
    answer = StreamingHttpResponse(_pieces(handle), content_type="application/zip")
    answer["Content-Length"] = str(size)
    answer["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


async def _pieces(handle: IO[bytes]) -> AsyncIterator[bytes]:
    """A file's content, so that the server never holds all of it."""
    read = sync_to_async(handle.read)
    try:
        while piece := await read(CHUNK):
            yield piece
    finally:
        handle.close()


@require_safe
def removed(request: HttpRequest) -> HttpResponse:
    """What was removed, of all kinds, the last first."""
    found = removed_page(page_of(request))
    rows = [(one, _(KINDS[one.kind])) for one in found.records]
    count = in_words(found.total, "record")
    context = {"rows": rows, "total": found.total, "count": count, "page": found.page, "pages": found.pages}
    return render(request, "web/darkroom/removed.html", context)


@require_POST
def back(request: HttpRequest, kind: str, key: UUID) -> HttpResponse:
    """Bring a removed record back."""
    found = bring_back_removed(kind, key)
    messages.success(
        request, _("%(kind)s %(name)s is back.") % {"kind": _(KINDS[kind]).capitalize(), "name": found.label}
    )
    return redirect("darkroom-removed")
