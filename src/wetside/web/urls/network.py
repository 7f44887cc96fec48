"""Addresses: signing in and out, the telephone, devices that are signed in."""

from __future__ import annotations

from django.urls import path

from wetside.web.views import network

urlpatterns = [
    path("sign-in/", network.sign_in, name="sign-in"),
    path("sign-out/", network.sign_out, name="sign-out"),
    path("telephone/", network.telephone, name="telephone"),
    path("telephone/devices/<uuid:key>/out/", network.device_out, name="device-out"),
    path("telephone/<str:code>/", network.telephone_code, name="telephone-code"),
]
