"""A set of plain files that belongs together: a folder or a zip, written whole or not at all, read file by file."""

from __future__ import annotations

import os
import shutil
from contextlib import contextmanager
from pathlib import Path, PurePosixPath
from typing import IO, TYPE_CHECKING, Protocol

from wetside.errors import InputError, Place

if TYPE_CHECKING:
    from collections.abc import Iterator
    from zipfile import ZipFile

LONG_AGO = (1980, 1, 1, 0, 0, 0)
"""Time of every file in a zip: equal contents give equal bytes."""


class Writing(Protocol):
    """Where files are written to."""

    def write(self, name: str) -> IO[bytes]:
        """Open a new file; names have ``/`` between folders."""
        ...


class Reading(Protocol):
    """Where files are read from."""

    def read(self, name: str) -> IO[bytes]:
        """Open a file.

        Raises
        ------
        KeyError
            If there is none of this name.
        """
        ...


class _FolderOut:
    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def write(self, name: str) -> IO[bytes]:
        path = self._folder.joinpath(*PurePosixPath(name).parts)
        path.parent.mkdir(parents=True, exist_ok=True)
        return path.open("xb")


class ZipOut:
    """Files into a zip, one after the other."""

    def __init__(self, archive: ZipFile) -> None:
        self._archive = archive

    def write(self, name: str) -> IO[bytes]:
        """Open a new file in the zip."""
        from zipfile import ZIP_DEFLATED, ZipInfo

        info = ZipInfo(name, LONG_AGO)
        info.compress_type = ZIP_DEFLATED
        info.external_attr = 0o600 << 16
        info.create_system = 3
        return self._archive.open(info, "w", force_zip64=True)


class _FolderIn:
    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def read(self, name: str) -> IO[bytes]:
        path = self._folder.joinpath(*PurePosixPath(name).parts)
        if not path.is_file():
            raise KeyError(name)
        return path.open("rb")


class _ZipIn:
    def __init__(self, archive: ZipFile) -> None:
        self._archive = archive

    def read(self, name: str) -> IO[bytes]:
        return self._archive.open(name)


@contextmanager
def written_together(target: Path) -> Iterator[Writing]:
    """Write files beside ``target``, and put them there once the block has ended well.

    Parameters
    ----------
    target : Path
        A zip if it ends in ``.zip``, else a folder. Must not exist, or be an empty folder.

    Raises
    ------
    InputError
        If something stands there already, or it cannot be written: the disk is full. Nothing is left behind.
    """
    if target.exists() and not (target.is_dir() and target.suffix != ".zip" and not any(target.iterdir())):
        raise InputError("files.export.taken", place=Place(file=str(target)), name=target.name)
    beside = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        try:
            if target.suffix == ".zip":
                from zipfile import ZipFile

                with ZipFile(beside, "w") as archive:
                    yield ZipOut(archive)
                with beside.open("rb") as handle:
                    os.fsync(handle.fileno())
            else:
                beside.mkdir(parents=True, mode=0o700)
                yield _FolderOut(beside)
            if target.is_dir():
                target.rmdir()
            beside.replace(target)
        finally:
            if beside.is_dir():
                shutil.rmtree(beside)
            else:
                beside.unlink(missing_ok=True)
    except OSError as error:
        raise InputError(
            "files.file.unwritable",
            place=Place(file=str(target)),
            name=target.name,
            reason=error.strerror or str(error),
        ) from error


@contextmanager
def read_together(source: Path) -> Iterator[Reading]:
    """Read files of a folder or a zip.

    Raises
    ------
    InputError
        If it is neither, or cannot be read.
    """
    import zlib
    from zipfile import BadZipFile, ZipFile

    place = Place(file=str(source))
    try:
        if source.is_dir():
            yield _FolderIn(source)
            return
        with ZipFile(source) as archive:
            yield _ZipIn(archive)
    except FileNotFoundError as error:
        raise InputError("files.export.none", place=place, name=source.name) from error
    except (BadZipFile, zlib.error, NotImplementedError, EOFError) as error:
        raise InputError("files.export.no_zip", place=place, name=source.name) from error
    except OSError as error:
        reason = error.strerror or str(error)
        raise InputError("files.file.unreadable", place=place, name=source.name, reason=reason) from error
