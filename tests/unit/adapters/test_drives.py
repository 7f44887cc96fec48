"""Drives that are shared over a network are told from the machine's own, by lists of drives made up here."""

from __future__ import annotations

from pathlib import Path

import pytest

from wetside.adapters.drives import Mount, mount_of, mounts, refuse_shared_drive
from wetside.errors import RefusedError

DRIVES = (
    Mount("/", "ext4"),
    Mount("/home", "btrfs"),
    Mount("/home/ines/cloud", "fuse.sshfs"),
    Mount("/mnt/shelf", "nfs4"),
    Mount("/mnt/shelf/inside", "ext4"),
    Mount("/mnt/shelf-of-mine", "xfs"),
    Mount("/media/twice", "cifs"),
    Mount("/media/twice", "ext4"),
)


@pytest.mark.parametrize(
    ("folder", "kind"),
    [
        ("/srv/darkroom", "ext4"),
        ("/home/ines/darkroom", "btrfs"),
        ("/home/ines/cloud", "fuse.sshfs"),
        ("/mnt/shelf/darkroom/deep", "nfs4"),
        ("/mnt/shelf/inside/darkroom", "ext4"),
        ("/mnt/shelf-of-mine/darkroom", "xfs"),
        ("/media/twice/darkroom", "ext4"),
    ],
)
def test_the_drive_of_a_folder(folder, kind) -> None:
    """The innermost drive counts, a name that only begins alike does not, and of two in one place the last."""
    assert mount_of(Path(folder), DRIVES).kind == kind


@pytest.mark.parametrize("kind", ["nfs", "nfs4", "cifs", "smbfs", "fuse.sshfs", "9p", "afpfs", "remote", "CIFS"])
def test_a_shared_drive_is_refused_with_kind_and_place(kind) -> None:
    """The refusal names what was found where."""
    with pytest.raises(RefusedError) as refused:
        refuse_shared_drive(Path("/mnt/shelf/darkroom"), [Mount("/", "ext4"), Mount("/mnt/shelf", kind)])
    assert refused.value.params == {"kind": kind, "point": "/mnt/shelf"}


@pytest.mark.parametrize("kind", ["ext4", "xfs", "btrfs", "apfs", "NTFS", "tmpfs", "overlay", "fuseblk", "zfs", ""])
def test_a_disk_of_this_machine_is_taken(kind) -> None:
    """Local file systems, and those that nobody names."""
    refuse_shared_drive(Path("/mnt/shelf/darkroom"), [Mount("/mnt/shelf", kind)])
    refuse_shared_drive(Path("/mnt/shelf/darkroom"), [])


def test_a_link_to_a_shared_drive_is_followed(tmp_path) -> None:
    """The folder counts where it really lies."""
    (tmp_path / "shared").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "shared")
    with pytest.raises(RefusedError):
        refuse_shared_drive(
            tmp_path / "link" / "darkroom", [Mount("/", "ext4"), Mount(str(tmp_path / "shared"), "nfs")]
        )


def test_this_machines_drives_can_be_listed() -> None:
    """The system's own list has the root."""
    assert any(drive.point == "/" for drive in mounts())
