"""Files that belong to records, kept in the data folder under the hash of their content.

A file is written once, beside and then renamed, and never changed: the same content has the same name, however many
records point to it.
"""

from __future__ import annotations

import hashlib
import os
import re
import threading
from typing import IO, TYPE_CHECKING

from wetside.adapters.data_folder import ATTACHMENTS
from wetside.errors import InputError, Place

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

CHUNK = 1 << 20
HASH = re.compile(r"[0-9a-f]{64}")


def attachment_path(folder: Path, sha256: str) -> Path:
    """Where a file of this hash stands: in a folder of its first two letters.

    Raises
    ------
    InputError
        If this is no hash: a name from elsewhere never becomes a path.
    """
    if not HASH.fullmatch(sha256):
        raise InputError("files.attachment.no_hash", value=sha256)
    return folder / ATTACHMENTS / sha256[:2] / sha256


def keep_attachment(folder: Path, content: bytes | IO[bytes]) -> tuple[str, int]:
    """Keep a file's content.

    Parameters
    ----------
    folder : Path
        The data folder.
    content : bytes or binary file
        A file is read in pieces.

    Returns
    -------
    sha256 : str
    size_bytes : int

    Raises
    ------
    InputError
        If it cannot be written: a full disk, a closed folder. Nothing is left behind.
    """
    within = folder / ATTACHMENTS
    beside = within / f".{os.getpid()}.{threading.get_ident()}.part"
    try:
        within.mkdir(mode=0o700, exist_ok=True)
        digest, size = hashlib.sha256(), 0
        try:
            with beside.open("wb") as handle:
                for piece in _pieces(content):
                    digest.update(piece)
                    size += len(piece)
                    handle.write(piece)
                handle.flush()
                os.fsync(handle.fileno())
            target = attachment_path(folder, digest.hexdigest())
            target.parent.mkdir(mode=0o700, exist_ok=True)
            beside.replace(target)
        finally:
            beside.unlink(missing_ok=True)
    except OSError as error:
        raise InputError(
            "files.file.unwritable", place=Place(file=str(within)), name=ATTACHMENTS, reason=str(error.strerror)
        ) from error
    return digest.hexdigest(), size


def fetch_attachment(folder: Path, sha256: str) -> bytes:
    """Content of a kept file, as it was written.

    Raises
    ------
    InputError
        If this is no hash, or the file is missing or was changed since.
    """
    path = attachment_path(folder, sha256)
    try:
        content = path.read_bytes()
    except OSError as error:
        raise InputError("adapters.attachment.missing", place=Place(file=str(path))) from error
    if hashlib.sha256(content).hexdigest() != sha256:
        raise InputError("adapters.attachment.damaged", place=Place(file=str(path)))
    return content


def kept_attachments(folder: Path) -> Iterator[str]:
    """Hashes of all files that stand there, in order."""
    within = folder / ATTACHMENTS
    if within.is_dir():
        names = (path.name for path in within.glob("[0-9a-f][0-9a-f]/*"))
        yield from sorted(name for name in names if HASH.fullmatch(name))


def hash_of_file(path: Path) -> str:
    """SHA-256 of a file's content, read in pieces."""
    with path.open("rb") as handle:
        return hashlib.file_digest(handle, "sha256").hexdigest()


def _pieces(content: bytes | IO[bytes]) -> Iterator[bytes]:
    if isinstance(content, bytes):
        yield content
        return
    while piece := content.read(CHUNK):
        yield piece
