"""The options of what lets programs in."""

from __future__ import annotations

from typing import Any

from wetside.cli.options.parts import command, data_folder


def add_token(commands: Any) -> None:
    """Add `wetside token`."""
    token = command(
        commands,
        "token",
        "tokens",
        "Tokens that let programs in: add one (it is shown once), list them, remove one for good.",
        'wetside token add "probe by the sink" --scope readings\n'
        "  wetside token list\n"
        '  wetside token remove "probe by the sink"',
    )
    token.add_argument("doing", choices=("add", "list", "remove"), help="what to do with tokens")
    token.add_argument("name", nargs="?", metavar="NAME", help="program that the token is for")
    token.add_argument(
        "--scope",
        choices=("read", "write", "readings"),
        help="what it may: read; read and write; send readings and nothing else",
    )
    data_folder(token)
