"""The first page: what waits, what is near, and three ways to begin."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from django.contrib import messages
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext, ngettext
from django.views.decorators.http import require_GET, require_POST

from wetside.cards.count import counted_first
from wetside.services.records import demo
from wetside.services.records.plans_near import near

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse

    from wetside.services.records.plans_near import Near


@require_GET
def start(request: HttpRequest) -> HttpResponse:
    """Where one begins."""
    found = near()
    context: dict[str, Any] = {"near": found, "title": _title(found)}
    at = _moment(request.GET.get("demo-removed", ""))
    if at is not None and not found.demo:
        context["undo"] = {
            "address": f"{reverse('demo_back')}?{_query(at)}",
            "said": gettext("The demo darkroom is removed; nothing of yours was touched."),
        }
    return render(request, "web/start.html", context)


def _title(found: Near) -> str:
    waiting, oldest_days = found.waiting, found.oldest_days
    if not waiting:
        ready = sum(loads for _, loads in found.frozen)
        loads = counted_first("load", ready)
        said = ngettext("%(loads)s is ready to be run", "%(loads)s are ready to be run", ready) % {"loads": loads}
        return said if ready else gettext("Nothing waits")
    sheets = counted_first("sheet", waiting)
    wait = ngettext("%(sheets)s waits", "%(sheets)s wait", waiting) % {"sheets": sheets}
    if not oldest_days:
        return wait
    days = ngettext("%(n)s day", "%(n)s days", oldest_days) % {"n": oldest_days}
    if waiting == 1:
        return gettext("%(wait)s, for %(days)s") % {"wait": wait, "days": days}
    return gettext("%(wait)s, the oldest %(days)s") % {"wait": wait, "days": days}


def _query(at: dt.datetime) -> str:
    from urllib.parse import urlencode

    return urlencode({"at": at.isoformat()})


def _moment(text: str) -> dt.datetime | None:
    try:
        at = dt.datetime.fromisoformat(text)
    except ValueError:
        return None
    return at if at.tzinfo is not None else None


@require_POST
def demo_make(request: HttpRequest) -> HttpResponse:
    """Make the demo darkroom and show its plan."""
    plan = demo.make_demo()
    messages.success(request, gettext("The demo darkroom is here. Everything in it is invented; try what you like."))
    return redirect("plan", key=plan.pk)


@require_POST
def demo_remove(request: HttpRequest) -> HttpResponse:
    """Remove the demo darkroom; the first page offers to bring it back."""
    from urllib.parse import urlencode

    removed = demo.remove_demo()
    if removed.needed:
        said = ngettext(
            "%(n)s record of the demo stays, because records of yours need it.",
            "%(n)s records of the demo stay, because records of yours need them.",
            removed.needed,
        )
        messages.info(request, said % {"n": removed.needed})
    return redirect(f"{reverse('start')}?{urlencode({'demo-removed': removed.at.isoformat()})}")


@require_POST
def demo_back(request: HttpRequest) -> HttpResponse:
    """Undo the removal."""
    at = _moment(request.GET.get("at", ""))
    count = demo.bring_demo_back(at) if at is not None else 0
    if count:
        messages.success(request, gettext("The demo darkroom is back."))
    return redirect("start")
