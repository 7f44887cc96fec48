"""Where a page's outbox hands over what was kept on the device."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from django.core.exceptions import RequestDataTooBig
from django.http import JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.views.decorators.cache import never_cache
from django.views.decorators.csrf import ensure_csrf_cookie

from wetside.errors import WetsideError
from wetside.services.records import outbox
from wetside.web.forms.entry import mistakes_of
from wetside.wording import sentence

if TYPE_CHECKING:
    from django.http import HttpRequest, HttpResponse


@never_cache
def token(request: HttpRequest) -> HttpResponse:
    """Fresh token for a page that outlived its own."""
    return JsonResponse({"token": get_token(request)})


@never_cache
@ensure_csrf_cookie
def hand_over(request: HttpRequest) -> HttpResponse:
    """Take one item, once; or show what this device still keeps."""
    if request.method != "POST":
        return render(request, "web/sheets/outbox.html")
    try:
        item = json.loads(request.body)
        device, number, kind, fields = (item[name] for name in ("device", "number", "kind", "fields"))
        device, kind = str(device), str(kind)
    except (ValueError, KeyError, TypeError, RecursionError, RequestDataTooBig):
        return JsonResponse(
            {"mistakes": {"": sentence("services.outbox.fields", {"most": outbox.MOST_FIELDS})}}, status=422
        )
    try:
        taken = outbox.take(device, number, kind, outbox.fields_of(fields))
    except WetsideError as error:
        return JsonResponse({"mistakes": mistakes_of(error)}, status=422)
    return JsonResponse({**taken.answer, "again": taken.again})
