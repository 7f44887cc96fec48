"""``wetside serve``: the darkroom in the browser, on this machine only."""

from __future__ import annotations

import gc
import os
import sys
import webbrowser
from typing import TYPE_CHECKING

from wetside.cli.exit_codes import ExitCode
from wetside.cli.output import print_lines
from wetside.wording import sentence

if TYPE_CHECKING:
    import argparse


def run(arguments: argparse.Namespace) -> int:
    """Serve until Ctrl-C."""
    if arguments.data:
        os.environ["WETSIDE_DATA"] = arguments.data
    from wetside.web.serve import serve

    def ready(address: str) -> None:
        print_lines([sentence("cli.serve.ready", {"address": address})])
        if arguments.open and _has_screen():
            webbrowser.open(address)

    gc.enable()  # a server lives long
    serve(arguments.port, ready)
    return ExitCode.OK


def _has_screen() -> bool:
    """Whether a browser would have a screen of its own; without one it would take over this terminal."""
    return sys.platform in ("darwin", "win32") or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
