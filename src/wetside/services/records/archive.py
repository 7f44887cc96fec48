"""Opening the archive, by the name under which the rest of the program knows it."""

from __future__ import annotations

from wetside.services.archive.opening import TOOL, Opened, open_archive, open_to_read
from wetside.services.archive.start_backup import Told

__all__ = ["TOOL", "Opened", "Told", "open_archive", "open_to_read"]
