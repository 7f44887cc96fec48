"""The telephone's way in: a code for one use, valid for ten minutes, that carries on the account that asked for it."""

from __future__ import annotations

import datetime as dt
import secrets
from typing import TYPE_CHECKING, NamedTuple

from django.db import transaction

from wetside.errors import RefusedError
from wetside.records.models import TelephoneCode
from wetside.services.records.accounts import account_named
from wetside.services.records.sign_in import count_bad_code, hash_of

if TYPE_CHECKING:
    from django.contrib.auth.models import User
    from django.db.models import QuerySet

VALID_S = 600
"""How long a code holds. [s]"""
OPEN_MOST = 5
"""Codes of an account that hold at the same time; an older one ends when one more is made. [1]"""


class Code(NamedTuple):
    """A code as it is shown once, and until when it holds."""

    text: str
    account: str
    ends_at: dt.datetime


def make_code(name: str, now: dt.datetime) -> Code:
    """Make a code for an account.

    Parameters
    ----------
    name : str
        Name of the account that asks for it.
    now : datetime

    Raises
    ------
    WetsideError
        If there is no such account, or it is removed.
    """
    text = secrets.token_urlsafe(24)
    ends_at = now + dt.timedelta(seconds=VALID_S)
    with transaction.atomic():
        account = account_named(name)
        codes = TelephoneCode.objects
        codes.filter(ends_at__lt=now - dt.timedelta(days=1)).delete()
        for older in codes.filter(account=account, used_at=None, ends_at__gt=now).order_by("-made_at")[OPEN_MOST - 1 :]:
            older.used_at = now
            older.save(update_fields=["used_at"])
        codes.create(account=account, code_hash=hash_of(text), made_at=now, ends_at=ends_at)
    return Code(text, account.get_username(), ends_at)


def account_of_code(text: str, now: dt.datetime) -> str | None:
    """Name of the account that a code would sign in, without using it; None where it does not hold."""
    found = _holding(text, now).select_related("account").first()
    return found.account.get_username() if found else None


def use_code(text: str, address: str, now: dt.datetime) -> User:
    """Use a code up.

    Parameters
    ----------
    text : str
    address : str
        Where it comes from; attempts with wrong codes are counted for it.
    now : datetime

    Raises
    ------
    RefusedError
        If it is used, too old or none at all, which are told alike; or if the address must wait.
    """
    with transaction.atomic():
        found = _holding(text, now).select_related("account").select_for_update(of=("self",)).first()
        if found is not None and TelephoneCode.objects.filter(pk=found.pk, used_at=None).update(used_at=now):
            account: User = found.account
            return account
    count_bad_code(address, now)
    raise RefusedError("services.telephone.code", minutes=VALID_S // 60)


def _holding(text: str, now: dt.datetime) -> QuerySet[TelephoneCode]:
    return TelephoneCode.objects.filter(
        code_hash=hash_of(text), used_at=None, made_at__lte=now, ends_at__gt=now, account__is_active=True
    )
