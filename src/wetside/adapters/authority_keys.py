"""Key files of the certificate authority, and who may read them; nothing here loads cryptography."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wetside.adapters.data_folder import AUTHORITY

if TYPE_CHECKING:
    from pathlib import Path

ROOT_KEY, LEAF_KEY = "root.key", "server.key"


def keys_open_to_others(folder: Path) -> tuple[str, ...]:
    """Key files of the authority that others than their owner may read."""
    within = folder / AUTHORITY
    paths = [within / name for name in (ROOT_KEY, LEAF_KEY)]
    return tuple(f"{AUTHORITY}/{path.name}" for path in paths if path.exists() and path.stat().st_mode & 0o077)
