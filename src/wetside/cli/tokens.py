"""``wetside token``: what lets programs in."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.errors import InputError
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse

    from wetside.services.records.tokens import TokenTold


def run(arguments: argparse.Namespace) -> int:
    """Do what was asked with tokens; a server that runs meanwhile goes by it at once.

    Raises
    ------
    InputError
        If the name or the scope is missing, or given where it changes nothing.
    """
    adds, lists = arguments.doing == "add", arguments.doing == "list"
    if lists == bool(arguments.name):
        raise InputError("cli.token.name_not" if lists else "cli.token.name", doing=arguments.doing)
    if adds != bool(arguments.scope):
        raise InputError("cli.token.scope" if adds else "cli.token.scope_not", doing=arguments.doing)
    _open(arguments, make=adds)
    from wetside.adapters.clock import now
    from wetside.services.records import tokens

    if lists:
        _tell_list(arguments, tokens.list_tokens())
    elif adds:
        made = tokens.make_token(arguments.name, arguments.scope, now())
        if arguments.json:
            print_json({"token": made.secret, **_plain(made.token)})
        else:
            print_lines([sentence("cli.token.made", {"name": made.token.name}), made.secret])
    else:
        revoked = tokens.revoke_token(tokens.token_named(arguments.name).key, now())
        if arguments.json:
            print_json(_plain(revoked))
        else:
            print_lines([sentence("cli.token.removed", {"name": revoked.name})])
    return ExitCode.OK


def _open(arguments: argparse.Namespace, *, make: bool) -> None:
    """An archive that is there is used beside a running server; only one that is not yet there is begun."""
    from wetside.web.serve import open_darkroom, set_up

    set_up(arguments.data)
    from django.conf import settings

    from wetside.adapters.data_folder import folder_info
    from wetside.services.archive.opening import open_to_read

    info = folder_info(settings.DATA_FOLDER)
    if make and (info is None or not info.records):
        open_darkroom(arguments.data, "token add").lock.release()
    open_to_read(settings.DATA_FOLDER)


def _plain(token: TokenTold) -> dict[str, Any]:
    return {
        "name": token.name,
        "scope": token.scope,
        "begins": token.begins,
        "made_at": token.made_at.isoformat(),
        "last_used_at": token.used_at.isoformat() if token.used_at else None,
        "revoked_at": token.revoked_at.isoformat() if token.revoked_at else None,
    }


def _tell_list(arguments: argparse.Namespace, tokens: tuple[TokenTold, ...]) -> None:
    if arguments.json:
        print_json({"tokens": [_plain(one) for one in tokens]})
        return
    if not tokens:
        print_lines([sentence("cli.token.none", {})])
        return
    wide = max(len(one.name) for one in tokens)
    print_lines(
        f"{one.name:<{wide}}  {one.scope:<8}  {one.begins}...  made {one.made_at:%Y-%m-%d}  "
        f"last used {f'{one.used_at:%Y-%m-%d %H:%M} UTC' if one.used_at else 'never'}"
        for one in tokens
    )
