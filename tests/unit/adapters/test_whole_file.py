"""Files written whole or not at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wetside.adapters.whole_file import write_whole
from wetside.errors import InputError

if TYPE_CHECKING:
    from pathlib import Path


def test_a_file_is_written_and_nothing_left_beside_it(tmp_path: Path) -> None:
    """Text as UTF-8, bytes as they are; an older file is replaced."""
    path = tmp_path / "a.txt"
    write_whole(path, "å\n")
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"
    assert [entry.name for entry in tmp_path.iterdir()] == ["a.txt"]


def test_a_failed_writing_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A full disk shows as an error, and what stood there stands."""
    path = tmp_path / "a.txt"
    write_whole(path, "old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(InputError) as caught:
        write_whole(path, "new")
    assert caught.value.code == "files.file.unwritable"
    assert path.read_text() == "old"
    assert [entry.name for entry in tmp_path.iterdir()] == ["a.txt"]


def test_a_missing_folder_is_refused(tmp_path: Path) -> None:
    """The system's reason is passed on."""
    with pytest.raises(InputError):
        write_whole(tmp_path / "no/a.txt", "x")
