"""Write everything of a plan that goes to the darkroom or into an archive."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.adapters.plain_document import json_text, plain_value
from wetside.adapters.typesetting import write_cards
from wetside.adapters.whole_file import write_whole
from wetside.errors import InputError, Place

if TYPE_CHECKING:
    from pathlib import Path

    from wetside.planning.documents.plan import Plan


def write_plan(plan: Plan, folder: Path, paper: str = "a4") -> list[Path]:
    """Write run sheets, window chart, plan page and the plan itself as JSON.

    Parameters
    ----------
    plan : Plan
    folder : Path
        Made if it does not exist; other files in it are left alone.
    paper : str
        ``a4`` or ``letter``.

    Returns
    -------
    written : list of Path

    Raises
    ------
    InputError
        If the folder cannot be made or written to.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "not a name that a folder can have"
        place = Place(file=str(folder))
        raise InputError("files.file.unwritable", place=place, name=folder.name, reason=reason) from error
    written = write_cards(plan, folder, paper=paper, course=plan.course)
    document = folder / "plan.json"
    write_whole(document, f"{json_text(plain_value(plan))}\n".encode())
    return [*written, document]
