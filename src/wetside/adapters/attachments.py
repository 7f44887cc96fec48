"""Files that belong to records, kept in the data folder under the hash of their content.

A file is written beside its place, forced to the disk, renamed and read back; one that is there already is not written
again. Whoever reads one gets what was written, or is told that it is damaged.
"""

from __future__ import annotations

import hashlib
import re
from typing import TYPE_CHECKING

from wetside.adapters.data_folder import ATTACHMENTS
from wetside.adapters.whole_file import write_whole
from wetside.errors import InputError, Place

if TYPE_CHECKING:
    from pathlib import Path

_HASH = re.compile(r"[0-9a-f]{64}")


def path_of(folder: Path, sha256: str) -> Path:
    """Place of a file: two letters of its hash, then the whole.

    Parameters
    ----------
    folder : Path
        The data folder.
    sha256 : str
        64 hexadecimal digits.

    Raises
    ------
    InputError
        If this is no hash.
    """
    if not _HASH.fullmatch(sha256):
        raise InputError("adapters.attachment.no_hash", value=sha256)
    return folder / ATTACHMENTS / sha256[:2] / sha256


def keep(folder: Path, data: bytes) -> str:
    """Keep a file.

    Parameters
    ----------
    folder : Path
        The data folder.
    data : bytes

    Returns
    -------
    sha256 : str
        Under which :func:`fetch` finds it.

    Raises
    ------
    InputError
        If it cannot be written, or does not read back as it was written.
    """
    sha256 = hashlib.sha256(data).hexdigest()
    path = path_of(folder, sha256)
    if _read(path) == data:
        return sha256
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise InputError(
            "files.file.unwritable", place=Place(file=str(path)), name=path.name, reason=str(error.strerror)
        ) from error
    write_whole(path, data)
    if _read(path) != data:
        raise InputError("adapters.attachment.not_read_back", place=Place(file=str(path)))
    return sha256


def fetch(folder: Path, sha256: str) -> bytes:
    """Return a kept file as it was written.

    Raises
    ------
    InputError
        If it is missing or was changed since.
    """
    path = path_of(folder, sha256)
    data = _read(path)
    if data is None:
        raise InputError("adapters.attachment.missing", place=Place(file=str(path)))
    if hashlib.sha256(data).hexdigest() != sha256:
        raise InputError("adapters.attachment.damaged", place=Place(file=str(path)))
    return data


def _read(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None
