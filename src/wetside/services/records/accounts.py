"""Accounts: who may come in over the network. The framework's own users; a removed one is put aside, not deleted."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from django.conf import settings
from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import get_default_password_validators
from django.core.exceptions import ValidationError
from django.db import transaction

from wetside.adapters.clock import now
from wetside.errors import ConflictError, InputError, ManyErrors, OutOfRangeError, Place, RefusedError, UnknownNameError
from wetside.records.models import SignedIn

if TYPE_CHECKING:
    import datetime as dt

    from django.contrib.auth.models import User

LONGEST_NAME = 60
"""Letters that an account's name may have. [letters]"""
LONGEST_PASSWORD = 1000
"""Letters that a password may have: hashing a longer one would only keep the server busy. [letters]"""


class Account(NamedTuple):
    """An account as a list tells it."""

    name: str
    active: bool
    made_at: dt.datetime
    last_at: dt.datetime | None
    devices: int


def add_account(name: str, password: str) -> str:
    """Make an account.

    Parameters
    ----------
    name : str
    password : str

    Returns
    -------
    str
        The name as it is kept.

    Raises
    ------
    WetsideError
        If the name cannot be one or is taken (a removed account keeps its name), or the password is too weak.
    """
    kind = get_user_model()
    name = _name_of(name)
    with transaction.atomic():
        taken = kind.objects.filter(username__iexact=name).first()
        if taken is not None:
            code = "services.accounts.taken" if taken.is_active else "services.accounts.taken_removed"
            raise ConflictError(code, place=Place(field="name"), name=taken.get_username())
        account = kind(username=name)
        _check_password(password, account)
        account.set_password(password)
        account.save()
    return name


def change_password(name: str, password: str) -> str:
    """Set another password; every device of the account is signed out by it.

    Raises
    ------
    WetsideError
        If there is no such account, it is removed, or the password is too weak.
    """
    with transaction.atomic():
        account = account_named(name)
        _check_password(password, account)
        account.set_password(password)
        account.save(update_fields=["password"])
        _sign_out_everywhere(account)
    return account.get_username()


def remove_account(name: str) -> str:
    """Put an account aside: nobody comes in by it, its devices are signed out, and it can be brought back.

    Raises
    ------
    WetsideError
        If there is no such account, or it is removed already.
    """
    with transaction.atomic():
        account = account_named(name)
        account.is_active = False
        account.save(update_fields=["is_active"])
        _sign_out_everywhere(account)
    return account.get_username()


def bring_back_account(name: str) -> str:
    """Undo a removal; devices sign in anew.

    Raises
    ------
    WetsideError
        If there is no such account, or it was not removed.
    """
    with transaction.atomic():
        account = _any_named(name)
        if account.is_active:
            raise RefusedError("services.accounts.not_removed", name=account.get_username())
        account.is_active = True
        account.save(update_fields=["is_active"])
    return account.get_username()


def list_accounts() -> tuple[Account, ...]:
    """All accounts by their names, the removed ones among them."""
    from django.db.models import Count, Q

    signed_in = Count("devices", filter=Q(devices__ended_at=None))
    rows = get_user_model().objects.annotate(signed_in=signed_in).order_by("username")
    return tuple(
        Account(row.get_username(), row.is_active, row.date_joined, row.last_login, row.signed_in) for row in rows
    )


def active_names() -> tuple[str, ...]:
    """Names of the accounts by which somebody may come in."""
    return tuple(one.name for one in list_accounts() if one.active)


def account_named(name: str) -> User:
    """Account by its name, however it is spelled in capitals.

    Raises
    ------
    WetsideError
        If there is none, or it is removed.
    """
    account = _any_named(name)
    if not account.is_active:
        raise RefusedError("services.accounts.removed", name=account.get_username())
    return account


def _any_named(name: str) -> User:
    kind = get_user_model()
    text = " ".join(name.split())[:LONGEST_NAME]
    account = kind.objects.select_for_update().filter(username__iexact=text).first() if text else None
    if account is None:
        known = sorted(kind.objects.values_list("username", flat=True))
        code = "services.accounts.unknown" if known else "services.accounts.none"
        raise UnknownNameError(code, place=Place(field="name"), value=text, known=known)
    return account


def _sign_out_everywhere(account: User) -> None:
    SignedIn.objects.filter(account=account, ended_at=None).update(ended_at=now())


def _name_of(name: str) -> str:
    kind = get_user_model()
    text = kind.normalize_username(" ".join(name.split()))
    place = Place(field="name")
    if not text:
        raise InputError("services.accounts.no_name", place=place)
    if len(text) > LONGEST_NAME:
        raise OutOfRangeError("services.accounts.long_name", place=place, most=LONGEST_NAME)
    try:
        kind._meta.get_field("username").run_validators(text)  # noqa: SLF001 (the framework's documented way)
    except ValidationError as error:
        raise InputError("services.accounts.odd_name", place=place, value=text) from error
    return text


def _check_password(password: str, account: User) -> None:
    """All that is wrong with a password at once."""
    place = Place(field="password")
    if len(password) > LONGEST_PASSWORD:
        raise OutOfRangeError("services.accounts.long_password", place=place, most=LONGEST_PASSWORD)
    wrong: list[InputError] = []
    for validator in get_default_password_validators():
        try:
            validator.validate(password, account)
        except ValidationError as error:
            code = WEAK.get(str(error.error_list[0].code), "services.accounts.weak")
            wrong.append(InputError(code, place=place, least=settings.LEAST_PASSWORD))
    if wrong:
        raise ManyErrors(wrong) if len(wrong) > 1 else wrong[0]


WEAK = {
    "password_too_short": "services.accounts.short_password",
    "password_too_common": "services.accounts.common_password",
    "password_entirely_numeric": "services.accounts.digits_only",
    "password_too_similar": "services.accounts.like_the_name",
}
"""The framework's findings and the code of the sentence for each."""
