"""The server on the network: accounts first, then HTTPS by a certificate of its own, or plain HTTP with a warning."""

from __future__ import annotations

import os
import socket
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from wetside.adapters.lan_addresses import Served, host_of, served
from wetside.errors import InputError, RefusedError

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from wetside.adapters.local_authority import Authority
    from wetside.services.records.archive import Opened, Told
    from wetside.services.records.telephone import Code


class Wish(NamedTuple):
    """What was asked for on the command line.

    ``certificate_port`` is the port of the page that hands out the certificate; the next one if absent.
    """

    port: int
    data: str | None = None
    plain: bool = False
    addresses: tuple[str, ...] = ()
    account: str | None = None
    certificate_port: int | None = None


class Ready(NamedTuple):
    """What the person at the terminal needs: where the server is, and how a telephone comes in."""

    address: str
    local: str
    certificate: str
    fingerprint: str
    code: Code | None
    link: str
    told: Sequence[Told]


def serve_lan(wish: Wish, ready: Callable[[Ready], None]) -> None:
    """Answer on this machine's private addresses until the program is ended.

    Parameters
    ----------
    wish : Wish
    ready : callable
        Called once the sockets listen.

    Raises
    ------
    WetsideError
        If there is no account, no private address, a port is taken, or the archive or its authority cannot be opened.
    """
    from wetside.web.serve import open_darkroom

    reached = served(list(wish.addresses))
    pages, port = _listening(reached.addresses, wish.port)
    handing: list[socket.socket] = []
    try:
        first = reached.addresses[0]
        address = f"{'http' if wish.plain else 'https'}://{host_of(first)}:{port}/"
        certificate = ""
        if not wish.plain:
            beside = wish.certificate_port if wish.certificate_port is not None else (port + 1 if wish.port else 0)
            handing, found = _listening(reached.addresses, beside)
            certificate = f"http://{host_of(first)}:{found}/"
        os.environ |= {
            "WETSIDE_LAN": "plain" if wish.plain else "https",
            "WETSIDE_LAN_HOSTS": " ".join(reached.hosts),
            "WETSIDE_LAN_ADDRESS": address,
            "WETSIDE_LAN_CERTIFICATE": certificate,
        }
        opened = open_darkroom(wish.data)
        try:
            _serve(wish, reached, opened, pages, handing, address, certificate, ready)
        finally:
            opened.close()
    finally:
        for one in (*pages, *handing):
            with suppress(OSError):
                one.close()


def _serve(
    wish: Wish,
    reached: Served,
    opened: Opened,
    pages: list[socket.socket],
    handing: list[socket.socket],
    address: str,
    certificate: str,
    ready: Callable[[Ready], None],
) -> None:
    import uvicorn
    from django.conf import settings
    from django.urls import reverse

    from wetside.adapters.clock import now
    from wetside.services.records.accounts import active_names
    from wetside.services.records.archive import Told
    from wetside.services.records.telephone import make_code
    from wetside.web.certificate_page import certificate_server
    from wetside.web.stopping import WAITS_S, StoppingServer

    names = active_names()
    if not names:
        raise RefusedError("web.lan.no_account")
    told = list(opened.told)
    authority: Authority | None = None
    hosts = reached.hosts
    if not wish.plain:
        from wetside.adapters.local_authority import authority_for

        authority = authority_for(settings.DATA_FOLDER, reached.addresses, reached.names, now())
        told += [Told("web.lan.made", {"folder": str(settings.DATA_FOLDER)})] if authority.made_root else []
        if authority.names_left_out:
            told.append(Told("web.lan.name", {"names": list(authority.names_left_out)}))
            hosts = [host for host in hosts if host not in authority.names_left_out]
            settings.ALLOWED_HOSTS = hosts
    whose = wish.account or (names[0] if len(names) == 1 else None)
    code = make_code(whose, now()) if whose else None
    config = uvicorn.Config(
        "wetside.web.asgi:application",
        log_level="warning",
        lifespan="off",
        server_header=False,
        timeout_graceful_shutdown=WAITS_S,
        proxy_headers=False,  # nobody stands before us: an address that a request names for itself is not believed
        ssl_certfile=str(authority.certificate) if authority else None,
        ssl_keyfile=str(authority.key) if authority else None,
    )
    handed = certificate_server(authority, hosts, address, handing) if authority else None
    for one in (*pages, *handing):
        one.listen(128)
    port = pages[0].getsockname()[1]
    path = reverse("telephone-code", args=(code.text,)) if code else ""
    local = f"{address.partition(':')[0]}://127.0.0.1:{port}/"
    link = address.rstrip("/") + path if code else ""
    ready(Ready(address, local, certificate, authority.fingerprint if authority else "", code, link, told))
    try:
        if handed:
            handed.start()
        StoppingServer(config).run(sockets=pages)
    finally:
        if handed:
            handed.stop()


def _listening(addresses: Sequence[str], port: int) -> tuple[list[socket.socket], int]:
    """Sockets on each address at one port; loopback and private addresses alone, never all addresses of the machine."""
    made: list[socket.socket] = []
    try:
        for address in addresses:
            kind = socket.AF_INET6 if ":" in address else socket.AF_INET
            one = socket.socket(kind, socket.SOCK_STREAM, socket.IPPROTO_TCP)
            made.append(one)
            one.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            if kind == socket.AF_INET6:
                one.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 1)
            one.bind((address, port))
            port = one.getsockname()[1]
    except (OSError, OverflowError) as error:
        for one in made:
            one.close()
        reason = str(getattr(error, "strerror", None) or error).rstrip(".")
        raise InputError("web.port_taken", port=port, reason=reason) from error
    return made, port
