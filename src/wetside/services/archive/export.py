"""The whole archive as plain files: lines of JSON a table, an index with counts and hashes, and the kept files."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING, NamedTuple

from wetside import __version__
from wetside.adapters.attachments import CHUNK, attachment_path
from wetside.adapters.data_folder import folder_info
from wetside.adapters.plain_files import ZipOut, written_together
from wetside.records.models import Attachment
from wetside.services.archive.migrations import newest_applied
from wetside.services.archive.tables import lines, one_state, tables

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path
    from typing import IO, Any

    from wetside.adapters.plain_files import Writing
    from wetside.services.archive.tables import Table

EXPORT_FORMAT = 1
"""Format of the plain files. [1]"""
INDEX = "index.json"
README = "README.txt"

TOLD = """The whole archive of a darkroom as plain files, format 1.

index.json lists the tables with their rows and hashes. A table is a file of lines; each line is one row as JSON, in
UTF-8. Times are in UTC. attachments/ holds files under the SHA-256 of their content. Nothing here needs the program
that wrote it; to read it into an empty archive: wetside import FOLDER-OR-ZIP
"""


class Exported(NamedTuple):
    """What was written: rows of each table, and of the kept files those that were there and those that were not."""

    rows: Mapping[str, int]
    files: int
    missing: tuple[str, ...]

    @property
    def total_rows(self) -> int:
        """Rows of all tables."""
        return sum(self.rows.values())


def export_archive(folder: Path, target: Path, *, with_files: bool = True) -> Exported:
    """Write everything into a folder or a zip.

    Parameters
    ----------
    folder : Path
        The data folder.
    target : Path
        Ends in ``.zip`` for a zip; must not exist yet.
    with_files : bool
        Whether the kept files come along; without them they are only listed.

    Raises
    ------
    WetsideError
        If it cannot be written, or a row has no plain form; nothing is left behind.
    """
    with written_together(target) as out:
        return _write(folder, out, with_files=with_files)


def export_into(folder: Path, handle: IO[bytes]) -> Exported:
    """Write everything as a zip into an open file."""
    from zipfile import ZipFile

    with ZipFile(handle, "w") as archive:
        return _write(folder, ZipOut(archive), with_files=True)


def _write(folder: Path, out: Writing, *, with_files: bool) -> Exported:
    with out.write(README) as handle:
        handle.write(TOLD.encode("utf-8"))
    listed: dict[str, dict[str, Any]] = {}
    with one_state():
        for table in tables():
            listed[table.name] = _write_table(table, out)
        attached = list(Attachment.objects.order_by("sha256").values_list("sha256", "size_bytes").distinct())
        migration = newest_applied()
    missing = tuple(sha256 for sha256, _ in attached if not attachment_path(folder, sha256).is_file())
    if with_files:
        for sha256, _ in attached:
            if sha256 not in missing:
                _copy(attachment_path(folder, sha256), out, f"attachments/{sha256}")
    info = folder_info(folder)
    index = {
        "format": EXPORT_FORMAT,
        "tool": f"wetside {__version__}",
        "archive": info.archive if info else "",
        "migration": migration,
        "tables": listed,
        "attachments": [
            {"sha256": sha256, "size_bytes": size, "here": with_files and sha256 not in missing}
            for sha256, size in attached
        ],
    }
    with out.write(INDEX) as handle:
        handle.write(json.dumps(index, indent=1, sort_keys=True).encode("utf-8") + b"\n")
    here = len(attached) - len(missing) if with_files else 0
    return Exported({name: int(entry["rows"]) for name, entry in listed.items()}, here, missing)


def _write_table(table: Table, out: Writing) -> dict[str, Any]:
    name = f"tables/{table.name}.jsonl"
    digest, rows = hashlib.sha256(), 0
    with out.write(name) as handle:
        for line in lines(table):
            handle.write(line)
            digest.update(line)
            rows += 1
    return {"file": name, "rows": rows, "sha256": digest.hexdigest(), "columns": table.columns}


def _copy(path: Path, out: Writing, name: str) -> None:
    with path.open("rb") as source, out.write(name) as handle:
        while piece := source.read(CHUNK):
            handle.write(piece)
