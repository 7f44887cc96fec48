"""Whether this machine has a screen for a browser."""

from __future__ import annotations

import os
import sys


def has_screen() -> bool:
    """Whether a browser would have a screen of its own; without one it would take over this terminal."""
    return sys.platform in ("darwin", "win32") or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))
