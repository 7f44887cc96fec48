"""Coming in over the network: signing in and out, the link for a telephone, and the devices that are signed in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import login, logout
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.utils.translation import gettext as _
from django.views.decorators.csrf import csrf_protect
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST

from wetside.adapters.clock import now
from wetside.adapters.link_code import code_picture
from wetside.errors import RefusedError
from wetside.services.records import sign_in as service
from wetside.services.records.telephone import VALID_S, account_of_code, make_code, use_code
from wetside.web.guard import DEVICE, open_to_all
from wetside.wording import speak_error

if TYPE_CHECKING:
    from uuid import UUID

    from django.contrib.auth.models import User
    from django.http import HttpRequest, HttpResponse

BACKEND = "django.contrib.auth.backends.ModelBackend"


@open_to_all
@sensitive_post_parameters("password")
@csrf_protect
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Sign in by name and password."""
    if not settings.LAN or request.is_known:  # type: ignore[attr-defined]
        return redirect(_wanted(request))
    if request.method != "POST":
        return _sign_in_page(request)
    name, password = request.POST.get("name", ""), request.POST.get("password", "")
    try:
        account = service.check_password(name, password, _address(request), now())
    except RefusedError as error:
        answer = _sign_in_page(request, speak_error(error), 429)
        answer["Retry-After"] = str(error.params["wait_s"])
        return answer
    if account is None:
        return _sign_in_page(request, _("Name and password do not belong together."), 422)
    _let_in(request, account, "password")
    return redirect(_wanted(request))


def _sign_in_page(request: HttpRequest, said: str = "", status: int = 200) -> HttpResponse:
    context = {
        "said": said,
        "name": request.POST.get("name", "")[:60] if said else "",
        "next": request.POST.get("next", "") or request.GET.get("next", ""),
        "plain": settings.LAN == "plain",
        "certificate": settings.LAN_CERTIFICATE,
    }
    return render(request, "web/network/sign_in.html", context, status=status)


def _wanted(request: HttpRequest) -> str:
    """Where somebody wanted to go, if that is a page of ours."""
    wanted = request.POST.get("next", "") or request.GET.get("next", "")
    safe = url_has_allowed_host_and_scheme(wanted, {request.get_host()}, require_https=request.is_secure())
    return wanted if safe and wanted.startswith("/") else reverse("start")


def _let_in(request: HttpRequest, account: User, way: str) -> None:
    """Begin a session of its own: what the old one held is dropped, and its key changes."""
    request.session.flush()
    login(request, account, backend=BACKEND)
    told_as = request.headers.get("User-Agent", "")
    request.session[DEVICE] = service.sign_device_in(account, way, told_as, now())


def _address(request: HttpRequest) -> str:
    return str(request.META.get("REMOTE_ADDR") or "")


@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """Sign this device out; its session is worth nothing any more, a copy of it neither."""
    service.sign_device_out(str(request.session.get(DEVICE, "")), now())
    logout(request)
    return redirect("sign-in" if settings.LAN else "start")


@require_http_methods(["GET", "HEAD", "POST"])
def telephone(request: HttpRequest) -> HttpResponse:
    """The link for a telephone, made when it is asked for, and the devices of this account."""
    if not settings.LAN:
        return render(request, "web/network/not_served.html")
    code = link = None
    if request.method == "POST":
        code = make_code(request.user.get_username(), now())
        link = settings.LAN_ADDRESS.rstrip("/") + reverse("telephone-code", args=(code.text,))
    token = str(request.session.get(DEVICE, ""))
    context = {
        "link": link,
        "picture": code_picture(link) if link else "",
        "ends_at": timezone.localtime(code.ends_at) if code else None,
        "minutes": VALID_S // 60,
        "certificate": settings.LAN_CERTIFICATE,
        "certificate_picture": code_picture(settings.LAN_CERTIFICATE) if settings.LAN_CERTIFICATE and link else "",
        "plain": settings.LAN == "plain",
        "devices": service.devices_of(request.user.pk or 0, token),
    }
    return render(request, "web/network/telephone.html", context)


@require_POST
def device_out(request: HttpRequest, key: UUID) -> HttpResponse:
    """Sign one of this account's devices out."""
    if request.user.pk is not None and service.sign_out_one(request.user.pk, key, now()):
        messages.success(request, _("That device is signed out. It comes in again with a new link or the password."))
    return redirect("telephone")


@open_to_all
@csrf_protect
@require_http_methods(["GET", "HEAD", "POST"])
def telephone_code(request: HttpRequest, code: str) -> HttpResponse:
    """Sign in by the link's code. Opening the link shows a button: what only looks at links uses none up."""
    if not settings.LAN:
        return redirect("start")
    if request.method != "POST":
        name = account_of_code(code, now())
        if name is None:
            service.count_bad_code(_address(request), now())
        return render(
            request,
            "web/network/telephone_code.html",
            {"name": name, "minutes": VALID_S // 60},
            status=200 if name else 422,
        )
    account = use_code(code, _address(request), now())
    _let_in(request, account, "telephone")
    return redirect("start")
