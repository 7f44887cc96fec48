"""Opening the archive: the folder's format, the tables in this version's form."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.core.management import call_command

from wetside import __version__
from wetside.adapters.data_folder import make_folder

if TYPE_CHECKING:
    from pathlib import Path

TOOL = f"wetside {__version__}"


def open_archive(folder: Path) -> None:
    """Make or open the data folder and bring its tables to this version's form.

    Parameters
    ----------
    folder : Path

    Raises
    ------
    WetsideError
        If the folder is newer than this program, holds other things, or cannot be written to; nothing was changed.
    """
    make_folder(folder, TOOL)
    call_command("migrate", verbosity=0, interactive=False)
