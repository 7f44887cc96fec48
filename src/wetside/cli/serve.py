"""``wetside serve``: the darkroom in the browser, on this machine only unless ``--lan`` is given."""

from __future__ import annotations

import gc
import webbrowser
from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_json, print_lines
from wetside.cli.screen import has_screen
from wetside.errors import ConflictError
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence

    from wetside.services.records.archive import Told


def run(arguments: argparse.Namespace) -> int:
    """Serve until Ctrl-C.

    Raises
    ------
    ConflictError
        If something is asked that only the network needs, without ``--lan``.
    """
    if arguments.lan:
        from wetside.cli.serve_lan import run as run_lan

        gc.enable()  # a server lives long
        return run_lan(arguments)
    for option in ("plain", "address", "phone", "certificate_port"):
        if getattr(arguments, option):
            raise ConflictError("cli.serve.lan_only", option=f"--{option.replace('_', '-')}")
    from wetside.web.serve import serve

    def ready(address: str, told: Sequence[Told]) -> None:
        said = [sentence(one.code, one.params) for one in told]
        if arguments.json:
            print_json(
                {
                    "address": address,
                    "told": [{"code": one.code, "message": text} for one, text in zip(told, said, strict=True)],
                }
            )
        else:
            print_lines([sentence("cli.serve.ready", {"address": address}), *said])
        if arguments.open and has_screen():
            webbrowser.open(address)

    def meanwhile(one: Told) -> None:
        said = sentence(one.code, one.params)
        print_lines([said])

    gc.enable()  # a server lives long
    # A script gets one answer that says all, so that it waits for the backup.
    serve(arguments.port, ready, arguments.data, None if arguments.json else meanwhile)
    return ExitCode.OK
