"""Ways in for programs: a token is shown once when it is made, kept as its hash, and found again by that."""

from __future__ import annotations

import datetime as dt
import hashlib
import secrets
from typing import TYPE_CHECKING, NamedTuple

from django.db import IntegrityError, transaction

from wetside.errors import ConflictError, InputError, OutOfRangeError, UnknownNameError
from wetside.records.models import LABEL_LENGTH, Token, TokenScope
from wetside.values.names import plain_name

if TYPE_CHECKING:
    from uuid import UUID

BEGINS = "wet-"
"""First letters of every token, so that one is known where it lies about."""
SECRET_BYTES = 32
"""So many that no hash with a salt, and no slow one, is needed: nobody tries 2**256. [bytes]"""
SHOWN_LETTERS = 8
MOST_TOKENS = 50
"""Tokens that are good at a time; our choice."""
USED_AGAIN = dt.timedelta(minutes=1)
"""The last use is written no more often than this."""
LONGEST_SECRET = 200
SCOPES = tuple(str(scope.value) for scope in TokenScope)


class TokenTold(NamedTuple):
    """A token without its secret. ``scope`` is ``read``, ``write`` (read and write) or ``readings``."""

    key: UUID
    name: str
    scope: str
    begins: str
    made_at: dt.datetime
    used_at: dt.datetime | None
    revoked_at: dt.datetime | None


class Made(NamedTuple):
    """A new token with its secret, which is nowhere kept."""

    token: TokenTold
    secret: str


def make_token(name: str, scope: str, at: dt.datetime) -> Made:
    """Make a token.

    Parameters
    ----------
    name : str
        What it is for; one good token a name.
    scope : str
        ``read``, ``write`` or ``readings``.
    at : datetime

    Raises
    ------
    WetsideError
        If the name is empty, too long or taken, the scope is none, or too many tokens are good.
    """
    told = " ".join(name.split())
    if not told or len(told) > LABEL_LENGTH or "\0" in told:
        raise InputError("services.token.name", most=LABEL_LENGTH)
    if scope not in SCOPES:
        raise UnknownNameError("services.token.scope", value=scope, known=list(SCOPES))
    secret = f"{BEGINS}{secrets.token_urlsafe(SECRET_BYTES)}"
    token = Token(
        name=told,
        name_key=plain_name(told),
        scope=scope,
        begins=secret[:SHOWN_LETTERS],
        sha256=_hash(secret),
        made_at=at,
    )
    try:
        with transaction.atomic():
            if Token.objects.filter(revoked_at=None).count() >= MOST_TOKENS:
                raise OutOfRangeError("services.token.most", most=MOST_TOKENS)
            token.save(force_insert=True)
    except IntegrityError as error:
        raise ConflictError("services.token.taken", value=told) from error
    return Made(_told(token), secret)


def list_tokens(*, revoked: bool = False) -> tuple[TokenTold, ...]:
    """Tokens that are good, the oldest first; or those that were revoked, the last first."""
    rows = Token.objects.filter(revoked_at__isnull=not revoked)
    if revoked:
        rows = rows.order_by("-revoked_at", "id")
    return tuple(_told(row) for row in rows[: MOST_TOKENS * 2])


def token_named(name: str) -> TokenTold:
    """Good token of a name.

    Raises
    ------
    UnknownNameError
        If there is none.
    """
    found = Token.objects.filter(revoked_at=None, name_key=plain_name(name)).first()
    if found is None:
        known = list(Token.objects.filter(revoked_at=None).values_list("name", flat=True)[:MOST_TOKENS])
        raise UnknownNameError("services.token.unknown", value=name, known=known)
    return _told(found)


def revoke_token(key: UUID, at: dt.datetime) -> TokenTold:
    """Let a token in no more, from now on and for good.

    Raises
    ------
    UnknownNameError
        If there is no such token.
    """
    with transaction.atomic():
        token = Token.objects.select_for_update().filter(pk=key).first()
        if token is None:
            raise UnknownNameError("services.records.not_found", what="token")
        if token.revoked_at is None:
            token.revoked_at = at
            token.save(update_fields=["revoked_at"])
    return _told(token)


def token_of(secret: str, at: dt.datetime) -> TokenTold | None:
    """Good token of a secret, its use noted; None where there is none.

    Parameters
    ----------
    secret : str
        As a program sent it.
    at : datetime
    """
    if not secret.startswith(BEGINS) or len(secret) > LONGEST_SECRET or not secret.isascii():
        return None
    token = Token.objects.filter(sha256=_hash(secret), revoked_at=None).first()
    if token is None:
        return None
    if token.used_at is None or not dt.timedelta(0) <= at - token.used_at < USED_AGAIN:
        Token.objects.filter(pk=token.pk).update(used_at=at)
        token.used_at = at
    return _told(token)


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode("ascii")).hexdigest()


def _told(token: Token) -> TokenTold:
    return TokenTold(token.pk, token.name, token.scope, token.begins, token.made_at, token.used_at, token.revoked_at)
