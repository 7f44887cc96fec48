"""The options of the kept archive: serve it, examine it, back it up, carry it."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command, data_folder


def add_serve(commands: Any) -> None:
    """Add `wetside serve`."""
    serve = command(
        commands,
        "serve",
        "serve",
        "Open the darkroom's records in the browser, on this machine only or with --lan in your network.",
        "wetside serve\n  wetside account add ines\n  wetside serve --lan",
    )
    serve.add_argument(
        "--port", type=int, default=8017, metavar="N", help="port to listen on; 0 takes any that is free"
    )
    data_folder(serve)
    serve.add_argument("--open", action="store_true", help="open the page in your browser")
    lan = serve.add_argument_group("in your network, for those who have an account")
    lan.add_argument("--lan", action="store_true", help="listen on this machine's private addresses too; all sign in")
    lan.add_argument(
        "--plain", action="store_true", help="without encryption: others in the network can read along and act as you"
    )
    lan.add_argument(
        "--address", action="append", default=[], metavar="A", help="only on this private address; may be given again"
    )
    lan.add_argument("--phone", metavar="NAME", help="account that the telephone's link signs in, if there are several")
    lan.add_argument(
        "--certificate-port",
        type=int,
        metavar="N",
        help="port of the page that hands out the certificate, the next one if left out",
    )


def add_account(commands: Any) -> None:
    """Add `wetside account`."""
    account = command(
        commands,
        "account",
        "account",
        "Who may sign in where the network is served: add, list, password, remove, bring back.",
        "wetside account add ines\n  wetside account list\n  wetside account password ines --stdin < word.txt",
    )
    account.add_argument(
        "doing", choices=("add", "list", "password", "remove", "bring-back"), help="what to do with the account"
    )
    account.add_argument("name", nargs="?", metavar="NAME", help="name that is signed in with")
    account.add_argument(
        "--stdin", action="store_true", help="read the password from the first line of the standard input"
    )
    data_folder(account)


def add_check(commands: Any) -> None:
    """Add `wetside check`."""
    data_folder(
        command(commands, "check", "check", "Examine the archive and say what to do; change nothing.", "wetside check")
    )


def add_backup(commands: Any) -> None:
    """Add `wetside backup`."""
    backup = command(
        commands,
        "backup",
        "backup",
        "Make a backup of the archive and read it back; or list them, or go back to one.",
        "wetside backup\n  wetside backup --list\n  wetside backup --restore 20261125-201500-000000-start.sqlite3",
    )
    backup.add_argument("--list", action="store_true", help="list the backups that count")
    backup.add_argument("--restore", metavar="NAME", help="go back to one; the file that stands there is kept beside")
    data_folder(backup)


def add_export(commands: Any) -> None:
    """Add `wetside export`."""
    export = command(
        commands,
        "export",
        "export",
        "Write the whole archive as plain files, to a folder or a zip.",
        "wetside export darkroom.zip",
    )
    export.add_argument("target", metavar="DIR_OR_ZIP", help="new folder, or a name that ends in .zip")
    data_folder(export)


def add_import(commands: Any) -> None:
    """Add `wetside import`."""
    taken = command(
        commands,
        "import",
        "import_",
        "Read an export into an archive that is empty.",
        "wetside import darkroom.zip --data new-folder",
    )
    taken.add_argument("source", metavar="DIR_OR_ZIP", help="what wetside export wrote")
    data_folder(taken)
