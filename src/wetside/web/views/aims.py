"""Pages of aims: the list, and the form that may begin with a paper, a printing or a paper test."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_POST

from wetside.errors import WetsideError
from wetside.planning.documents.evening import Aim
from wetside.planning.documents.words import Printing
from wetside.services.records import aims
from wetside.services.records.films_history import corrections_of
from wetside.web.forms.entry import entries, mistakes_of, raw_of_post, words_of
from wetside.web.views.asked import page_of, revision_of, units_of
from wetside.web.views.films import back_to, undo_of
from wetside.web.views.films_posted import first_word, told
from wetside.wording import decimal

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

LABELS = {"for": "What the negative is for", "range": "Density range", "channel": "Light of the densitometer"}


def aim_list(request: HttpRequest) -> HttpResponse:
    """All aims with their ranges."""
    found = aims.aim_list(page_of(request))
    title = gettext("No aims yet")
    if found.total:
        low, high = (pick(line.aim.density_range for line in found.lines) for pick in (min, max))
        title = ngettext("%(word)s aim", "%(word)s aims", found.total) % {"word": first_word(found.total)}
        ranges = (
            gettext("density range %(low).2f")
            if low == high
            else gettext("density ranges from %(low).2f to %(high).2f")
        ) % {"low": low, "high": high}
        title = f"{title}, {decimal(ranges)}"
    undo = undo_of(request, "aim-back", aims.find_aim)
    return render(request, "web/aims/list.html", {"list": found, "title": title, "undo": undo})


def aim_form(request: HttpRequest, key: UUID | None = None) -> HttpResponse:
    """Make an aim, or look at one and correct it."""
    record = None if key is None else aims.find_aim(key)
    if request.method == "POST":
        raw = raw_of_post(Aim, aims.FORM_KEYS, request.POST, units=units_of(request))
        note, why = request.POST.get("note", "").strip(), request.POST.get("why", "").strip()
        try:
            saved = aims.save_aim(raw, record, note=note, revision=revision_of(request), why=why)
        except WetsideError as error:
            return _page(request, record, raw, error, note=note, why=why)
        messages.success(request, gettext("%(what)s is kept.") % {"what": saved.name})
        return redirect("aims")
    if record is not None:
        return _page(request, record, aims.raw_aim(record), note=record.note)
    return _begun(request)


def _begun(request: HttpRequest) -> HttpResponse:
    """An empty form, or one begun from what was chosen or counted."""
    asked = request.GET.get("begin", "")
    try:
        if asked == "row":
            begun = aims.aim_from_row(request.GET.get("row", ""))
        elif asked == "steps":
            begun = aims.aim_from_steps(
                request.GET.get("first", ""), request.GET.get("last", ""), request.GET.get("paper", "graded-paper")
            )
        else:
            return _page(request, None, {})
    except WetsideError as error:
        return _page(request, None, {}, begin_mistakes=mistakes_of(error))
    return _page(request, None, begun.raw, note=begun.note, begun=begun)


def _page(
    request: HttpRequest,
    record: Any,
    raw: dict[str, Any],
    error: WetsideError | None = None,
    *,
    note: str = "",
    why: str = "",
    begun: Any = None,
    begin_mistakes: dict[str, str] | None = None,
) -> HttpResponse:
    mistakes, loose = ({}, []) if error is None else told(error, aims.FORM_KEYS)
    papers = [printing.value for printing in Printing if printing is not Printing.SCANNER]
    context = {
        "aim": record,
        "fields": entries(Aim, aims.FORM_KEYS, raw, mistakes, labels=LABELS, units=units_of(request)),
        "offered": aims.offered_rows() if record is None else (),
        "papers": [(paper, words_of(paper)) for paper in papers],
        "asked": request.GET,
        "begun": begun,
        "begin_mistakes": begin_mistakes or {},
        "tolerances": [(words_of(name), value) for name, value in aims.tolerances().items()],
        "note": note,
        "why": why,
        "loose": loose,
        "mistakes": bool(error),
        "history": corrections_of(record) if record else (),
        "revision": request.POST.get("revision") or (record.revision if record else ""),
    }
    status = 422 if error or begin_mistakes else 200
    return render(request, "web/aims/form.html", context, status=status)


@require_POST
def aim_remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take an aim away."""
    del request
    removed = aims.remove_aim(aims.find_aim(key), timezone.now())
    return back_to("aims", removed.pk)


@require_POST
def aim_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring an aim back."""
    record = aims.bring_aim_back(aims.find_aim(key, removed=True))
    messages.success(request, gettext("%(what)s is back.") % {"what": record.name})
    return redirect("aims")
