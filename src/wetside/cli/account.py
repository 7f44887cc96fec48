"""``wetside account``: who may sign in where the network is served."""

from __future__ import annotations

import getpass
import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.errors import InputError
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from wetside.services.records.accounts import Account


def run(arguments: argparse.Namespace) -> int:
    """Do what was asked with an account.

    Raises
    ------
    InputError
        If no account is named, or there is no way to ask for the password.
    """
    if arguments.doing == "list":
        with _archive(arguments):
            from wetside.services.records.accounts import list_accounts

            _tell_list(arguments, list_accounts())
        return ExitCode.OK
    if not arguments.name:
        raise InputError("cli.account.name", doing=arguments.doing)
    with _archive(arguments, make=arguments.doing == "add"):
        from wetside.services.records import accounts

        if arguments.doing == "add":
            name = accounts.add_account(arguments.name, _password(arguments))
            _say(arguments, "cli.account.added", name)
        elif arguments.doing == "password":
            name = accounts.change_password(arguments.name, _password(arguments))
            _say(arguments, "cli.account.password", name)
        elif arguments.doing == "remove":
            _say(arguments, "cli.account.removed", accounts.remove_account(arguments.name))
        else:
            _say(arguments, "cli.account.back", accounts.bring_back_account(arguments.name))
    return ExitCode.OK


@contextmanager
def _archive(arguments: argparse.Namespace, *, make: bool = False) -> Iterator[None]:
    """An archive that is there is used beside a running server; only one that is not yet there is begun."""
    from wetside.web.serve import open_darkroom, set_up

    set_up(arguments.data)
    from django.conf import settings

    from wetside.adapters.data_folder import folder_info
    from wetside.services.archive.opening import open_to_read

    info = folder_info(settings.DATA_FOLDER)
    if make and (info is None or not info.records):
        open_darkroom(arguments.data, "account add").lock.release()
    open_to_read(settings.DATA_FOLDER)
    yield


def _password(arguments: argparse.Namespace) -> str:
    """Password from the standard input, or asked twice without being shown."""
    if arguments.stdin:
        line = sys.stdin.readline()
        if not line:
            raise InputError("cli.account.no_line")
        return line.rstrip("\r\n")
    if not sys.stdin.isatty():
        raise InputError("cli.account.no_terminal")
    first = getpass.getpass("Password: ")
    if getpass.getpass("Once more: ") != first:
        raise InputError("cli.account.differ")
    return first


def _say(arguments: argparse.Namespace, code: str, name: str) -> None:
    params: dict[str, Any] = {"name": name}
    if arguments.json:
        print_json({"code": code, "message": sentence(code, params), "name": name})
    else:
        print_lines([sentence(code, params)])


def _tell_list(arguments: argparse.Namespace, accounts: tuple[Account, ...]) -> None:
    if arguments.json:
        plain = [
            {
                "name": one.name,
                "active": one.active,
                "made_at": one.made_at.isoformat(),
                "last_signed_in_at": one.last_at.isoformat() if one.last_at else None,
                "devices": one.devices,
            }
            for one in accounts
        ]
        print_json({"accounts": plain})
        return
    if not accounts:
        print_lines([sentence("cli.account.list_none", {})])
        return
    wide = max(len(one.name) for one in accounts)
    print_lines(
        f"{one.name:<{wide}}  {'may sign in' if one.active else 'removed    '}  devices: {one.devices}  "
        f"last signed in: {f'{one.last_at:%Y-%m-%d %H:%M} UTC' if one.last_at else 'never'}"
        for one in accounts
    )
