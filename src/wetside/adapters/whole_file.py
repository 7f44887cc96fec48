"""Reading a kept file as a whole, with every way in which that fails; and writing one whole or not at all."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from wetside.errors import InputError, Place, UnknownNameError, UnreadableError

LARGEST_BYTES = 5_000_000
"""Our choice: a hundred times the size of a year's evenings, and still read in seconds."""

_MARKS = ((b"\xef\xbb\xbf", "utf-8"), (b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be"))


def read_whole(path: str | os.PathLike[str]) -> bytes:
    """Bytes of a file that a person keeps.

    Parameters
    ----------
    path : path
        An ordinary file of at most :data:`LARGEST_BYTES`.

    Raises
    ------
    InputError
        If it is missing, a folder, a device, too large, or not ours to read; the file's name stands in the place.
    """
    name = os.fspath(path)
    place = Place(file=name)
    try:
        status = os.stat(name)  # noqa: PTH116 (a path with a NUL must be told apart from a missing one)
        if stat.S_ISDIR(status.st_mode):
            raise InputError("files.file.folder", place=place, name=name)
        if not stat.S_ISREG(status.st_mode):
            raise InputError("files.file.not_plain", place=place, name=name)
        with Path(name).open("rb") as handle:
            data = handle.read(LARGEST_BYTES + 1)
    except FileNotFoundError as error:
        raise _missing(Path(name)) from error
    except PermissionError as error:
        raise InputError("files.file.denied", place=place, name=name) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "not a name that a file can have"
        raise InputError("files.file.unreadable", place=place, name=name, reason=reason) from error
    if len(data) > LARGEST_BYTES:
        raise InputError("files.file.too_large", place=place, name=name, limit_mb=LARGEST_BYTES / 1e6)
    return data


def read_text(path: str | os.PathLike[str]) -> str:
    """Text of a file, with one kind of line ends and without the mark that some editors put in front.

    UTF-8, or UTF-16 that says so by its mark.

    Raises
    ------
    InputError
        As :func:`read_whole`, and for bytes that are not text; the line is named.
    """
    return text_of(read_whole(path), os.fspath(path))


def text_of(data: bytes, file: str) -> str:
    """Text of bytes that came from a file, as :func:`read_text` reads them.

    Parameters
    ----------
    data : bytes
    file : str
        Name for the place of errors.

    Raises
    ------
    InputError
        For bytes that are not text; the line is named.
    """
    encoding = "utf-8"
    for mark, name in _MARKS:
        if data.startswith(mark):
            data, encoding = data[len(mark) :], name
            break
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise UnreadableError(
            "files.text.not_utf8", place=Place(file, line), byte=f"{data[error.start]:02X}"
        ) from error
    if "\0" in text:
        raise UnreadableError("files.text.nul", place=Place(file, text.count("\n", 0, text.index("\0")) + 1))
    return text.replace("\r\n", "\n").replace("\r", "\n")


def write_whole(path: str | os.PathLike[str], data: bytes | str) -> None:
    """Write a file so that at every moment either the old or the new one stands there, whole.

    Written beside, forced to the disk, then renamed.

    Parameters
    ----------
    path : path
        Its folder must exist.
    data : bytes or str
        Text is written as UTF-8 with plain line ends.

    Raises
    ------
    InputError
        If the folder is missing or cannot be written to, or the disk is full.
    """
    target = Path(path)
    content = data.encode("utf-8") if isinstance(data, str) else data
    beside = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        try:
            with beside.open("wb") as handle:
                handle.write(content)
                handle.flush()
                os.fsync(handle.fileno())
            beside.replace(target)
        finally:
            beside.unlink(missing_ok=True)
        _force_folder(target.parent)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "not a name that a file can have"
        raise InputError(
            "files.file.unwritable", place=Place(file=os.fspath(path)), name=target.name, reason=reason
        ) from error


def _force_folder(folder: Path) -> None:
    """Force a rename to the disk, on the systems that can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _missing(path: Path) -> InputError:
    from wetside.adapters.suggest import nearest_word

    place = Place(file=os.fspath(path))
    try:
        stems = {entry.stem: entry.name for entry in sorted(path.parent.iterdir())}
    except OSError:
        return InputError("files.file.no_folder", place=place, name=path.name, folder=os.fspath(path.parent))
    nearest = nearest_word(path.stem, stems)
    if nearest is None:
        return UnknownNameError("files.file.missing", place=place, name=path.name, folder=os.fspath(path.parent))
    return UnknownNameError("files.file.missing_near", place=place, name=path.name, nearest=stems[nearest])


def beside(path: str | os.PathLike[str], name: str) -> Path:
    """Path of a file that another names: in the same folder or below it, never elsewhere.

    Parameters
    ----------
    path : path
        The file that names the other.
    name : str
        As it is written there, with ``/`` between folders.

    Raises
    ------
    InputError
        If the name is absolute, climbs out of the folder, or is a link that leads out of it.
    """
    parts = name.replace("\\", "/").split("/")
    if name.startswith(("/", "\\", "~")) or ".." in parts or ":" in parts[0]:
        raise InputError("files.beside.elsewhere", value=name)
    folder = Path(path).parent
    found = folder.joinpath(*parts)
    try:
        inside = found.resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):
        inside = False
    if not inside:
        raise InputError("files.beside.elsewhere", value=name)
    return found
