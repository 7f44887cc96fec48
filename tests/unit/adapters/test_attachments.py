"""Files under the hash of their content."""

from __future__ import annotations

import pytest

from wetside.adapters.attachments import fetch, keep, path_of
from wetside.errors import InputError


def test_what_is_kept_comes_back(tmp_path) -> None:
    """Kept twice it stands once, and reads as it was written."""
    first = keep(tmp_path, b"run sheet")
    assert keep(tmp_path, b"run sheet") == first
    assert fetch(tmp_path, first) == b"run sheet"
    assert len([path for path in tmp_path.rglob("*") if path.is_file()]) == 1


def test_damage_is_told_and_mended_by_keeping_again(tmp_path) -> None:
    """A changed byte is never handed out as the file; the same content kept again takes its place."""
    sha256 = keep(tmp_path, b"run sheet")
    path_of(tmp_path, sha256).write_bytes(b"run sheeT")
    with pytest.raises(InputError) as refused:
        fetch(tmp_path, sha256)
    assert refused.value.code == "adapters.attachment.damaged"
    assert fetch(tmp_path, keep(tmp_path, b"run sheet")) == b"run sheet"


def test_a_missing_file_and_a_wrong_name_are_told(tmp_path) -> None:
    """Neither reads anything outside the folder."""
    with pytest.raises(InputError) as refused:
        fetch(tmp_path, "0" * 64)
    assert refused.value.code == "adapters.attachment.missing"
    with pytest.raises(InputError) as refused:
        fetch(tmp_path, "../about.toml")
    assert refused.value.code == "adapters.attachment.no_hash"
