"""Signing in: attempts are counted before the password is looked at, and each failure makes the next one wait longer.

The counts lie in the database, so a restart does not reset them. Names and addresses are counted as keyed hashes: a
password typed into the field of the name is not kept.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import hmac
import math
import secrets
from typing import TYPE_CHECKING, NamedTuple

from django.conf import settings
from django.contrib.auth import authenticate
from django.contrib.auth.models import User
from django.db import transaction

from wetside.errors import RefusedError
from wetside.records.models import LABEL_LENGTH, SignedIn, SignInAttempts

if TYPE_CHECKING:
    from uuid import UUID

FREE = {"account": 4, "address": 8}
"""Failures that cost no wait. [1]"""
LONGEST_WAIT_S = 900
"""Longest wait between two attempts. [s]"""
FORGOTTEN_AFTER_S = 86_400
"""Quiet time after which failures are forgotten. [s]"""
KEPT_MOST = 20_000
"""Counts that are kept at most; beyond it the oldest go. [1]"""


class Device(NamedTuple):
    """A device that is signed in."""

    key: UUID
    way: str
    told_as: str
    made_at: dt.datetime
    this_one: bool


def wait_after(failed: int, kind: str) -> int:
    """Wait that so many failures cost: 1 s after the free ones, doubled by each further one. [s]

    Examples
    --------
    >>> [wait_after(n, "account") for n in (4, 5, 6, 10, 40)]
    [0, 1, 2, 32, 900]
    """
    beyond = failed - FREE[kind]
    return 0 if beyond < 1 else min(LONGEST_WAIT_S, 2 ** min(beyond - 1, 20))


def check_password(name: str, password: str, address: str, now: dt.datetime) -> User | None:
    """Account of a name and password; None where they do not belong together.

    The attempt is counted as a failure first and taken back where it succeeds, so that attempts at the same moment do
    not slip through. Known and unknown names cost the same work and are answered alike.

    Parameters
    ----------
    name, password : str
        As typed.
    address : str
        Where the attempt comes from.
    now : datetime

    Raises
    ------
    RefusedError
        If account or address must wait; the password was not looked at then.
    """
    whose = {"account": _whose("account", name.strip().casefold()), "address": _whose("address", address)}
    _count(whose, now)
    known = User.objects.filter(username__iexact=name.strip()).only("username").first()
    account = authenticate(username=known.username if known else name.strip(), password=password)  # one hash, always
    if account is None:
        return None
    _take_back(whose)
    return account if isinstance(account, User) else None


def count_bad_code(address: str, now: dt.datetime) -> None:
    """Count an attempt with a code that does not hold, for its address.

    Raises
    ------
    RefusedError
        If the address must wait.
    """
    _count({"address": _whose("address", address)}, now)


def _count(whose: dict[str, str], now: dt.datetime) -> None:
    with transaction.atomic():
        rows = {
            kind: SignInAttempts.objects.select_for_update().get_or_create(
                whose_hash=key, defaults={"failed": 0, "last_at": now, "waits_until": now}
            )[0]
            for kind, key in sorted(whose.items())
        }
        waits = max(math.ceil((row.waits_until - now).total_seconds()) for row in rows.values())
        # A clock that was set back does not lock anybody out for longer than the longest wait.
        if 0 < waits <= LONGEST_WAIT_S:
            raise RefusedError("services.sign_in.wait", wait_s=waits)
        for kind, row in rows.items():
            quiet = (now - row.last_at).total_seconds()
            row.failed = 1 if quiet > FORGOTTEN_AFTER_S else row.failed + 1
            row.last_at = now
            row.waits_until = now + dt.timedelta(seconds=wait_after(row.failed, kind))
            row.save()
        _forget(now)


def _forget(now: dt.datetime) -> None:
    SignInAttempts.objects.filter(last_at__lt=now - dt.timedelta(seconds=FORGOTTEN_AFTER_S)).delete()
    if SignInAttempts.objects.count() > KEPT_MOST:
        oldest = SignInAttempts.objects.order_by("last_at").values_list("pk", flat=True)[:1000]
        SignInAttempts.objects.filter(pk__in=list(oldest)).delete()


def _take_back(whose: dict[str, str]) -> None:
    """Forget the account's failures; the address only gets this attempt back, for it may try other names too."""
    with transaction.atomic():
        SignInAttempts.objects.filter(whose_hash=whose["account"]).delete()
        row = SignInAttempts.objects.select_for_update().filter(whose_hash=whose["address"]).first()
        if row is not None:
            row.failed = max(0, row.failed - 1)
            row.waits_until = row.last_at
            row.save()


def _whose(kind: str, text: str) -> str:
    key = settings.SECRET_KEY.encode("utf-8")
    return hmac.new(key, f"{kind} {text[:LABEL_LENGTH]}".encode(), hashlib.sha256).hexdigest()


def sign_device_in(account: User, way: str, told_as: str, now: dt.datetime) -> str:
    """Note a device as signed in and give the token that its session carries; only the token's hash is kept."""
    token = secrets.token_urlsafe(32)
    told = "".join(letter for letter in told_as if letter.isprintable())[:LABEL_LENGTH]
    SignedIn.objects.create(account=account, token_hash=hash_of(token), way=way, told_as=told, made_at=now)
    return token


def is_signed_in(account_key: int, token: str) -> bool:
    """Whether a device's token still holds."""
    return SignedIn.objects.filter(token_hash=hash_of(token), account_id=account_key, ended_at=None).exists()


def sign_device_out(token: str, now: dt.datetime) -> None:
    """End what a device's token opens."""
    SignedIn.objects.filter(token_hash=hash_of(token), ended_at=None).update(ended_at=now)


def devices_of(account_key: int, token: str) -> tuple[Device, ...]:
    """Devices of an account that are signed in, the newest first; at most 50."""
    rows = SignedIn.objects.filter(account_id=account_key, ended_at=None).order_by("-made_at")[:50]
    mine = hash_of(token)
    return tuple(Device(row.pk, row.way, row.told_as, row.made_at, row.token_hash == mine) for row in rows)


def sign_out_one(account_key: int, device: UUID, now: dt.datetime) -> bool:
    """Sign one of the account's own devices out; False where it is none."""
    found = SignedIn.objects.filter(pk=device, account_id=account_key, ended_at=None)
    return bool(found.update(ended_at=now))


def hash_of(secret: str) -> str:
    """Hash under which a random secret is kept."""
    return hashlib.sha256(secret.encode("utf-8", "replace")).hexdigest()
