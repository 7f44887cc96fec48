"""Loading in the dark: the order as a sound and as a page, and the device that stays and is black."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from django.conf import settings
from django.http import HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_http_methods, require_safe

from wetside.adapters.machine_clock import moment_now
from wetside.cards.count import counted
from wetside.errors import WetsideError
from wetside.runs import commands as c
from wetside.runs.script import LIGHTS_OUT
from wetside.services.dark_words import dark_words
from wetside.services.loading_sound import PAUSE_S, loading_sound, pause_of
from wetside.services.records import loading
from wetside.services.records import plans as plans_service
from wetside.services.records import runs as service
from wetside.services.run_rules import run_rules
from wetside.web.forms.entry import mistakes_of
from wetside.wording import sentence, speak_error

if TYPE_CHECKING:
    from uuid import UUID

    from django.http import HttpRequest

    from wetside.services.records.loading import LoadingOrder

_RANGE = re.compile(r"bytes=(?P<first>\d{0,12})-(?P<last>\d{0,12})")


@never_cache
@require_safe
def run_loading(request: HttpRequest, key: UUID) -> HttpResponse:
    """Loading order of a run."""
    run, state, order = loading.order_of_run(key)
    acts = () if state.script is None else state.script.acts
    return _page(
        request,
        order,
        {
            "run": run,
            "name": run.name,
            "sound": reverse("run_loading_sound", args=[key]),
            "told_out": LIGHTS_OUT in state.stamps,
            "holds": any(act.key == LIGHTS_OUT for act in acts),
            "guided": any(act.does == "load" for act in acts),
            "wet": state.status.value not in ("nothing", "ready"),
        },
    )


@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
def plan_loading(request: HttpRequest, key: UUID, load: int) -> HttpResponse:
    """Loading order of a frozen plan's load; and the ways on from it, each in one tap."""
    plan = plans_service.find_plan(key)
    order = loading.order_of_load(plan, load)
    if request.method == "POST":
        dark = request.POST.get("how") == "dark"
        run = service.open_planned(key, load, guided_loading=dark)
        if dark:
            return redirect("run_dark", key=run.pk)
        state = service.standing(run).state
        if state.status.value == "ready" and LIGHTS_OUT not in state.stamps:
            service.command(run, c.Tell(act=LIGHTS_OUT), moment_now())
        return redirect("run", key=run.pk)
    context = {
        "plan": plan,
        "load": load,
        "name": plan.name,
        "sound": reverse("plan_loading_sound", args=[key, load]),
        "holds": True,
    }
    return _page(request, order, context)


def _page(request: HttpRequest, order: LoadingOrder, context: dict[str, Any]) -> HttpResponse:
    asked = request.GET.get("pause", f"{PAUSE_S:.0f}").strip()
    mistakes: dict[str, str] = {}
    silent, made = "", None
    try:
        pause_s = pause_of(asked)
    except WetsideError as error:
        mistakes, pause_s = mistakes_of(error), PAUSE_S
    try:
        made = loading_sound(order, settings.DATA_FOLDER, pause_s)
    except WetsideError as error:
        silent = speak_error(error)
    at = iter(made.places_s if made is not None else ())
    context |= {
        "order": order,
        "rows": [(one, None if one.lost else next(at, None)) for one in order.places],
        "some": {
            "holder": any(one.holder and one.holder != one.sheet for one in order.places),
            "notch": any(one.notch for one in order.places),
            "film": any(one.film for one in order.places),
            "clip": any(one.clip for one in order.places),
        },
        "title": _title(order),
        "pause": asked,
        "pause_s": pause_s,
        "mistakes": mistakes,
        "made": made,
        "silent": silent,
        "sheets": counted("sheet", len(order.left)) if order.left else "",
    }
    return render(request, "web/runs/loading.html", context, status=422 if mistakes else 200)


def _title(order: LoadingOrder) -> str:
    left = order.left
    if not left:
        return sentence("run_sound.title.none", {})
    place = left[0].place[:1].upper() + left[0].place[1:]
    params = {"first_place": place, "first": left[0].sheet, "last": left[-1].sheet}
    if len(left) == 1:
        return sentence("run_sound.title.one", params)
    return sentence("run_sound.title.places", {**params, "sheets": counted("sheet", len(left))})


@require_safe
def run_loading_sound(request: HttpRequest, key: UUID) -> HttpResponse:
    """Loading order of a run, as a sound."""
    return _sound(request, loading.order_of_run(key)[2])


@require_safe
def plan_loading_sound(request: HttpRequest, key: UUID, load: int) -> HttpResponse:
    """Loading order of a load, as a sound."""
    return _sound(request, loading.order_of_load(plans_service.find_plan(key), load))


def _sound(request: HttpRequest, order: LoadingOrder) -> HttpResponse:
    """The sound, or the part of it that a player asks for: telephones play nothing that cannot be had in parts."""
    made = loading_sound(order, settings.DATA_FOLDER, pause_of(request.GET.get("pause", f"{PAUSE_S:.0f}"))).sound
    wanted = _span(request.headers.get("Range", ""), made.size)
    if wanted is None:
        answer = HttpResponse(status=416)
        answer["Content-Range"] = f"bytes */{made.size}"
        return answer
    begin, end = wanted
    part = (begin, end) != (0, made.size)
    answer = HttpResponse(b"".join(made.read(begin, end)), status=206 if part else 200, content_type="audio/wav")
    answer["Content-Length"] = str(end - begin)
    answer["Accept-Ranges"] = "bytes"
    answer["Cache-Control"] = "private, no-store"
    answer["Content-Disposition"] = 'inline; filename="loading.wav"'
    if part:
        answer["Content-Range"] = f"bytes {begin}-{end - 1}/{made.size}"
    return answer


def _span(text: str, size: int) -> tuple[int, int] | None:
    """Bytes that a header asks for; all where it asks for what this does not give, None where none lie there."""
    found = _RANGE.fullmatch(text.strip())
    if found is None or not (found["first"] or found["last"]):
        return 0, size
    if not found["first"]:
        return max(0, size - int(found["last"])), size
    first = int(found["first"])
    last = int(found["last"]) if found["last"] else size - 1
    if first >= size or last < first:
        return None
    return first, min(last + 1, size)


@never_cache
@require_safe
def dark(request: HttpRequest, key: UUID) -> HttpResponse:
    """The page that turns black."""
    run, state, order = loading.order_of_run(key)
    acts = () if state.script is None else state.script.acts
    context = {
        "run": run,
        "opened": state.script is not None,
        "over": state.status.value in ("ended", "abandoned"),
        "guided": any(act.does == "load" for act in acts),
        "open_air": order.vessel_kind in ("tray", "hangers"),
        "sheets": counted("sheet", len(order.left)) if order.left else "",
    }
    return render(request, "web/runs/dark.html", context)


@never_cache
@require_safe
def words(request: HttpRequest, key: UUID) -> HttpResponse:
    """What the black page says, and its clips; rendered now, where they are not there yet."""
    del request
    run, state, order = loading.order_of_run(key)
    found = service.standing(run)
    said = dark_words(state, order, run_rules(found.state, found.now, found.seq)["words"], settings.DATA_FOLDER)
    return JsonResponse(
        {
            **said._asdict(),
            "clips": {
                text: {"address": reverse("run_clip", args=[clip.name]), "lasts_s": clip.lasts_s}
                for text, clip in said.clips.items()
            },
        }
    )
