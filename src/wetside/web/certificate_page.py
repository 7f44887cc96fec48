"""The one page on plain HTTP: it hands out the authority's certificate, says how to take it in, and leads to HTTPS.

It asks for nothing, sets no cookie and knows no record. Its port is a server of its own in a thread of this process.
"""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING, Any

from wetside.wording import sentence

if TYPE_CHECKING:
    import socket
    from collections.abc import Awaitable, Callable, MutableMapping, Sequence

    from wetside.adapters.local_authority import Authority

    Message = MutableMapping[str, Any]
    Receive = Callable[[], Awaitable[Message]]
    Send = Callable[[Message], Awaitable[None]]

FILE = "wetside-authority"
HELD = (
    (b"content-security-policy", b"default-src 'none'; style-src 'self'; base-uri 'none'; frame-ancestors 'none'"),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cache-control", b"no-store"),
)


class CertificateServer:
    """Server of the page, started and stopped beside the one of the darkroom."""

    def __init__(
        self, answers: dict[str, tuple[str, bytes]], hosts: Sequence[str], sockets: list[socket.socket]
    ) -> None:
        import uvicorn

        self._sockets = sockets
        application = _application(answers, frozenset(hosts))
        self._server = uvicorn.Server(
            uvicorn.Config(application, log_level="warning", lifespan="off", server_header=False, proxy_headers=False)
        )
        self._thread = threading.Thread(target=self._server.run, args=(sockets,), daemon=True)

    def start(self) -> None:
        """Begin to answer."""
        self._thread.start()

    def stop(self) -> None:
        """End, and wait for it a moment."""
        self._server.should_exit = True
        if self._thread.is_alive():
            self._thread.join(3)


def certificate_server(
    authority: Authority, hosts: Sequence[str], address: str, sockets: list[socket.socket]
) -> CertificateServer:
    """Server of the page.

    Parameters
    ----------
    authority : Authority
    hosts : sequence of str
        Names under which it answers.
    address : str
        Address of the darkroom over HTTPS, for those who do not come by a name of their own.
    sockets : list of socket
        What it listens on.
    """
    return CertificateServer(answers_of(authority, address), hosts, sockets)


def answers_of(authority: Authority, address: str) -> dict[str, tuple[str, bytes]]:
    """What the page's server has to give: kind and content by path."""
    from django.contrib.staticfiles.finders import find
    from django.template.loader import render_to_string

    page = render_to_string(
        "web/network/certificate.html",
        {
            "address": address,
            "pairs": authority.fingerprint.split(":"),
            "ends_at": authority.ends_at,
            "file": FILE,
        },
    )
    answers = {
        "/": ("text/html; charset=utf-8", page.encode("utf-8")),
        f"/{FILE}.crt": ("application/x-x509-ca-cert", authority.root_der),
        f"/{FILE}.pem": ("application/x-pem-file", authority.root_pem),
    }
    for name in ("wetside.css", "network.css"):
        path = find(f"web/{name}")
        if isinstance(path, str):
            with open(path, "rb") as handle:  # noqa: PTH123 (the finder gives text)
                answers[f"/{name}"] = ("text/css; charset=utf-8", handle.read())
    return answers


def _application(answers: dict[str, tuple[str, bytes]], hosts: frozenset[str]) -> Any:
    async def application(scope: Message, receive: Receive, send: Send) -> None:
        del receive
        if scope["type"] != "http":
            return
        status, kind, content = _answer(scope, answers, hosts)
        headers = [
            (b"content-type", kind.encode("ascii")),
            (b"content-length", str(len(content)).encode("ascii")),
            *HELD,
        ]
        await send({"type": "http.response.start", "status": status, "headers": headers})
        await send({"type": "http.response.body", "body": b"" if scope["method"] == "HEAD" else content})

    return application


def _answer(scope: Message, answers: dict[str, tuple[str, bytes]], hosts: frozenset[str]) -> tuple[int, str, bytes]:
    named = dict(scope["headers"]).get(b"host", b"").decode("latin-1").casefold()
    host = named if named.endswith("]") else named.rpartition(":")[0] or named
    if host not in hosts:
        said = sentence("web.lan.strange_host", {"known": sorted(hosts)})
        return 400, "text/plain; charset=utf-8", said.encode("utf-8")
    if scope["method"] not in ("GET", "HEAD"):
        return 405, "text/plain; charset=utf-8", b""
    found = answers.get(scope["path"])
    if found is None:
        return 404, "text/plain; charset=utf-8", sentence("web.lan.only_certificate", {}).encode("utf-8")
    return 200, *found
