"""Files under the hash of their content."""

from __future__ import annotations

import pytest

from wetside.adapters.attachments import attachment_path, fetch_attachment, keep_attachment
from wetside.errors import InputError


def test_what_is_kept_comes_back(tmp_path) -> None:
    """Kept twice it stands once, and reads as it was written."""
    first, size = keep_attachment(tmp_path, b"run sheet")
    assert keep_attachment(tmp_path, b"run sheet") == (first, size) == (first, 9)
    assert fetch_attachment(tmp_path, first) == b"run sheet"
    assert len([path for path in tmp_path.rglob("*") if path.is_file()]) == 1


def test_damage_is_told_and_mended_by_keeping_again(tmp_path) -> None:
    """A changed byte is never handed out as the file; the same content kept again takes its place."""
    sha256, _ = keep_attachment(tmp_path, b"run sheet")
    attachment_path(tmp_path, sha256).write_bytes(b"run sheeT")
    with pytest.raises(InputError) as refused:
        fetch_attachment(tmp_path, sha256)
    assert refused.value.code == "adapters.attachment.damaged"
    assert fetch_attachment(tmp_path, keep_attachment(tmp_path, b"run sheet")[0]) == b"run sheet"


def test_a_missing_file_and_a_wrong_name_are_told(tmp_path) -> None:
    """Neither reads anything outside the folder."""
    with pytest.raises(InputError) as refused:
        fetch_attachment(tmp_path, "0" * 64)
    assert refused.value.code == "adapters.attachment.missing"
    with pytest.raises(InputError) as refused:
        fetch_attachment(tmp_path, "../about.toml")
    assert refused.value.code == "files.attachment.no_hash"
