"""Holders, their sides and what lies in them; lots of film."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.http import HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.csrf import ensure_csrf_cookie
from django.views.decorators.http import require_POST

from wetside.adapters.clock import today
from wetside.cards.count import counted
from wetside.errors import WetsideError
from wetside.services.records import holders as kept
from wetside.services.records import outbox
from wetside.services.records.sheets_waiting import known_words
from wetside.web.forms.entry import mistakes_of
from wetside.web.views.asked import page_of
from wetside.wording import sentence

if TYPE_CHECKING:
    from collections.abc import Mapping
    from uuid import UUID

    from django.http import HttpRequest, HttpResponse

STATES = ("empty", "loaded", "exposed", "suspect", "unloaded")


@ensure_csrf_cookie
def page(request: HttpRequest) -> HttpResponse:
    """Holders and their sides."""
    return _page(request)


def _page(
    request: HttpRequest, mistakes: Mapping[str, str] | None = None, form: str = "", status: int = 200
) -> HttpResponse:
    state, notch = str(request.GET.get("state", "")), str(request.GET.get("notch", ""))[:40]
    removed = request.GET.get("show") == "removed"
    found = kept.holder_page(today(), page_of(request), state=state, notch=notch, removed=removed)
    context: dict[str, Any] = {
        "found": found,
        "states": [(one, found.states.get(one, 0)) for one in STATES],
        "loaded": counted("side", found.states.get("loaded", 0)).capitalize(),
        "exposed": counted("side", found.states.get("exposed", 0)),
        "state": state,
        "notch": notch,
        "show_removed": removed,
        "words": known_words(),
        "mistakes": mistakes or {},
        "form": form,
        "typed": request.POST,
        "today": today().isoformat(),
        "undo": _undo(request),
    }
    return render(request, "web/holders/page.html", context, status=status)


def _undo(request: HttpRequest) -> dict[str, str] | None:
    found = kept.removed_by_key(str(request.GET.get("removed", "")))
    if found is None:
        return None
    address = reverse("holder-back" if found.kind == "holder" else "lots-back", args=[found.key])
    return {"address": address, "said": sentence("web.sheets.removed", {"what": found.name})}


def _fields(request: HttpRequest) -> dict[str, list[str]]:
    return outbox.fields_of({name: request.POST.getlist(name) for name in request.POST})


@require_POST
def new(request: HttpRequest) -> HttpResponse:
    """Make holders of a span."""
    try:
        answer = outbox.do("holders.make", _fields(request))
    except WetsideError as error:
        return _page(request, mistakes_of(error), "new", 422)
    messages.success(request, answer["said"])
    return HttpResponseRedirect(answer["address"])


@require_POST
def load(request: HttpRequest) -> HttpResponse:
    """Load sides of a span."""
    try:
        answer = outbox.do("sides.load", _fields(request))
    except WetsideError as error:
        return _page(request, mistakes_of(error), "load", 422)
    messages.success(request, answer["said"])
    return HttpResponseRedirect(answer["address"])


@require_POST
def move(request: HttpRequest) -> HttpResponse:
    """Make a move of one side."""
    answer = outbox.do("side.move", _fields(request))
    messages.success(request, answer["said"])
    return HttpResponseRedirect(reverse("holders"))


@ensure_csrf_cookie
def lots(request: HttpRequest) -> HttpResponse:
    """Lots of film with their dates, and a new one."""
    mistakes: Mapping[str, str] = {}
    post = request.POST
    if request.method == "POST":
        try:
            answer = outbox.do("lot.add", _fields(request))
        except WetsideError as error:
            mistakes = mistakes_of(error)
        else:
            messages.success(request, answer["said"])
            return HttpResponseRedirect(answer["address"])
    found = kept.lots(today())
    context = {
        "lots": found,
        "counted": counted("lot", len(found)).capitalize(),
        "expired": sum(says == "expired" for _, says, _ in found),
        "words": known_words(),
        "mistakes": mistakes,
        "typed": post,
        "undo": _undo(request),
    }
    return render(request, "web/holders/lots.html", context, status=422 if mistakes else 200)


@require_POST
def remove_lot(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a lot away, with a way back."""
    del request
    kept.remove_lot(key, timezone.now())
    return HttpResponseRedirect(f"{reverse('lots')}?removed={key}")


@require_POST
def lot_back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a lot back."""
    del request
    kept.bring_lot_back(key)
    return HttpResponseRedirect(reverse("lots"))


@ensure_csrf_cookie
def one(request: HttpRequest, key: UUID) -> HttpResponse:
    """One holder: its name, size, notch and note, and the sheets that were in it."""
    holder = kept.holder_by_key(key, removed=True)
    mistakes: Mapping[str, str] = {}
    if request.method == "POST":
        try:
            answer = outbox.do("holder.change", {**_fields(request), "id": [str(key)]})
        except WetsideError as error:
            mistakes = mistakes_of(error)
        else:
            messages.success(request, answer["said"])
            return HttpResponseRedirect(answer["address"])
    context = {
        "holder": holder,
        "mistakes": mistakes,
        "typed": request.POST if mistakes else None,
        "sheets": kept.sheets_of(holder),
        "undo": {
            "address": reverse("holder-back", args=[key]),
            "said": sentence("web.sheets.removed", {"what": str(holder)}),
        }
        if holder.removed_at
        else None,
    }
    return render(request, "web/holders/one.html", context, status=422 if mistakes else 200)


@require_POST
def remove(request: HttpRequest, key: UUID) -> HttpResponse:
    """Take a holder away, with a way back."""
    del request
    kept.remove_holder(kept.holder_by_key(key), timezone.now())
    return HttpResponseRedirect(f"{reverse('holders')}?removed={key}")


@require_POST
def back(request: HttpRequest, key: UUID) -> HttpResponse:
    """Bring a holder back with its sides."""
    del request
    kept.bring_holder_back(kept.holder_by_key(key, removed=True))
    return HttpResponseRedirect(reverse("holders"))
