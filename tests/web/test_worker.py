"""The pages' worker stands at the root, is plain script, and is asked for anew each time."""

from __future__ import annotations

from typing import Any

import pytest

pytestmark = pytest.mark.django_db


def test_worker_at_the_root(client: Any) -> None:
    answer = client.get("/worker.js", headers={"host": "127.0.0.1"})
    assert answer.status_code == 200
    assert answer.headers["Content-Type"].startswith("text/javascript")
    assert answer.headers["Cache-Control"] == "no-cache"
    assert b"respondWith" in answer.content
    assert client.post("/worker.js", headers={"host": "127.0.0.1"}).status_code == 405
