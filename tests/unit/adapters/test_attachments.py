"""Files kept by the hash of their content."""

from __future__ import annotations

import hashlib
import io

import pytest

from wetside.adapters.attachments import attachment_path, hash_of_file, keep_attachment, kept_attachments
from wetside.errors import InputError


def test_the_same_content_is_kept_once(tmp_path) -> None:
    """Twice the same content, as bytes and as a file in pieces: one file, under its hash, nothing beside it."""
    content = b"x" * 3_000_000
    given = keep_attachment(tmp_path, content)
    assert given == (hashlib.sha256(content).hexdigest(), len(content))
    assert keep_attachment(tmp_path, io.BytesIO(content)) == given
    assert list(kept_attachments(tmp_path)) == [given[0]]
    assert hash_of_file(attachment_path(tmp_path, given[0])) == given[0]
    assert not [path for path in (tmp_path / "attachments").iterdir() if path.is_file()]


@pytest.mark.parametrize("name", ["", "../../secret", "A" * 64, "a" * 63, "a" * 63 + "\n", "/etc/passwd"])
def test_a_name_from_elsewhere_is_never_a_path(tmp_path, name) -> None:
    """Only a hash is."""
    with pytest.raises(InputError):
        attachment_path(tmp_path, name)


def test_a_reading_that_breaks_off_leaves_nothing(tmp_path) -> None:
    """A file that fails half-way is not kept."""

    class Broken(io.BytesIO):
        def read(self, *_):
            if self.tell():
                raise OSError(5, "Input/output error")
            return super().read(10)

    with pytest.raises(InputError):
        keep_attachment(tmp_path, Broken(b"y" * 100))
    assert not [path for path in (tmp_path / "attachments").rglob("*") if path.is_file()]
