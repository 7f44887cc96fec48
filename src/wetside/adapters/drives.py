"""On which kind of drive a folder lies: SQLite must not stand on one that is shared over a network.

SQLite's write-ahead log needs memory that all its processes share, and locks that hold; drives over a network promise
neither.
"""

from __future__ import annotations

import sys
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from wetside.errors import Place, RefusedError

if TYPE_CHECKING:
    from collections.abc import Iterable

NETWORK_KINDS = frozenset((
    "9p", "acfs", "afp", "afpfs", "afs", "autofs", "ceph", "cifs", "coda", "cvfs", "davfs", "davfs2",
    "fuse.ceph", "fuse.curlftpfs", "fuse.davfs2", "fuse.glusterfs", "fuse.gvfsd-fuse", "fuse.rclone",
    "fuse.s3fs", "fuse.smbnetfs", "fuse.sshfs", "glusterfs", "gfs", "gfs2", "gpfs", "lustre", "mfs", "ncp",
    "ncpfs", "nfs", "nfs3", "nfs4", "ocfs2", "orangefs", "panfs", "pvfs2", "rclone", "remote", "s3fs",
    "smb", "smb2", "smb3", "smbfs", "sshfs", "vboxsf", "virtiofs", "vmhgfs", "webdav",
))  # fmt: skip
"""File systems that lie on another machine, as the system names them; ``remote`` is a mapped drive on Windows."""


class Mount(NamedTuple):
    """Where a drive hangs in the tree of folders, and its kind of file system."""

    point: str
    kind: str


def mounts() -> tuple[Mount, ...]:
    """All drives of this machine, shared ones included."""
    import psutil

    try:
        found = psutil.disk_partitions(all=True)
    except OSError:
        return ()
    return tuple(
        Mount(part.mountpoint, "remote" if "remote" in part.opts.split(",") else part.fstype) for part in found
    )


def mount_of(folder: Path, drives: Iterable[Mount]) -> Mount | None:
    """Drive on which a folder lies, or will lie where it does not exist yet; of those that hang one over the other,
    the last.

    Parameters
    ----------
    folder : Path
    drives : iterable of Mount
        In the order in which they were hung.
    """
    whole = folder.expanduser().absolute()
    with suppress(OSError, RuntimeError):  # else judged as it is written
        whole = whole.resolve()
    best: Mount | None = None
    for drive in drives:
        point = Path(drive.point)
        if whole.is_relative_to(point) and (best is None or len(point.parts) >= len(Path(best.point).parts)):
            best = drive
    return best


def refuse_shared_drive(folder: Path, drives: Iterable[Mount] | None = None) -> None:
    """Refuse to keep SQLite on a drive that is shared over a network.

    Parameters
    ----------
    folder : Path
    drives : iterable of Mount, optional
        Those of this machine if absent.

    Raises
    ------
    RefusedError
        If the folder lies on one.
    """
    if sys.platform == "win32" and str(folder).startswith(("\\\\", "//")):
        raise RefusedError("files.data.shared_drive", place=Place(file=str(folder)), kind="remote", point=str(folder))
    drive = mount_of(folder, mounts() if drives is None else drives)
    if drive is not None and drive.kind.lower() in NETWORK_KINDS:
        raise RefusedError("files.data.shared_drive", place=Place(file=str(folder)), kind=drive.kind, point=drive.point)
