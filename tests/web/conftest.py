"""What tests of pages share: asking and posting as this machine's own browser, and a folder of their own."""

from __future__ import annotations

import pytest

HOST = {"host": "127.0.0.1"}


@pytest.fixture
def own_folder(settings, tmp_path) -> None:
    """Data folder of this test alone."""
    settings.DATA_FOLDER = tmp_path


@pytest.fixture
def get(client):
    return lambda address, data=None, **more: client.get(address, data or {}, headers=HOST, **more)


@pytest.fixture
def post(client):
    return lambda address, data=None, **more: client.post(address, data or {}, headers=HOST, **more)
