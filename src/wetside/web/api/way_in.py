"""Who may ask: whoever has a token of the right scope, and on this machine whoever only reads."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ninja.security import HttpBearer

from wetside.adapters.clock import now
from wetside.services.records.tokens import TokenTold, token_of
from wetside.web.api.mistakes import InterfaceError

if TYPE_CHECKING:
    from django.http import HttpRequest

THIS_MACHINE = frozenset({"127.0.0.1", "::1"})


class Token(HttpBearer):
    """A token in the header ``Authorization: Bearer TOKEN``.

    Parameters
    ----------
    *scopes : str
        Any of them is enough.
    here : bool
        Whether a program on this machine needs none.
    """

    openapi_bearerFormat = "token of the darkroom"  # noqa: N815 (the library's own name)

    def __init__(self, *scopes: str, here: bool = False) -> None:
        super().__init__()
        self.scopes, self.here = scopes, here

    def __call__(self, request: HttpRequest) -> Any:
        """Let the caller in, or raise."""
        header = request.headers.get("Authorization")
        if header is None:
            if self.here and request.META.get("REMOTE_ADDR") in THIS_MACHINE:
                return "here"
            raise InterfaceError(401, "web.api.no_token", headers={"WWW-Authenticate": "Bearer"})
        scheme, _, secret = header.partition(" ")
        if scheme.lower() != "bearer":
            raise InterfaceError(401, "web.api.no_token", headers={"WWW-Authenticate": "Bearer"})
        return self.authenticate(request, secret.strip())

    def authenticate(self, request: HttpRequest, token: str) -> TokenTold:
        """Token of a secret, if it is good and its scope is enough."""
        del request
        found = token_of(token, now())
        if found is None:
            raise InterfaceError(
                401, "web.api.wrong_token", headers={"WWW-Authenticate": 'Bearer error="invalid_token"'}
            )
        if found.scope not in self.scopes:
            raise InterfaceError(403, "web.api.scope", scope=found.scope, wanted=list(self.scopes))
        return found


READ = Token("read", "write", here=True)
WRITE = Token("write")
READINGS = Token("write", "readings")


def name_of(request: Any) -> str:
    """Name of the program that asks, for the history."""
    return request.auth.name if isinstance(request.auth, TokenTold) else ""
