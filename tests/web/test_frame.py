"""The pages' frame, without a browser."""

from __future__ import annotations

import re

import pytest

pytestmark = pytest.mark.django_db


def test_no_page_allows_inline_script_or_style(client) -> None:
    """The policy names only this server, and the frame has neither inline script nor style."""
    answer = client.get("/", headers={"host": "127.0.0.1"})
    policy = answer.headers["Content-Security-Policy"]
    assert "unsafe" not in policy
    assert "default-src 'none'" in policy
    text = answer.content.decode()
    assert not re.search(r"<script(?![^>]*src=)|<style| style=|\son\w+=", text)


def test_another_host_is_refused(client) -> None:
    """A page of another site cannot reach this server under a name of its own."""
    assert client.get("/", headers={"host": "darkroom.example"}).status_code == 400


def test_a_form_without_its_token_is_refused(client) -> None:
    """Forms carry a token of this browser."""
    from django.test import Client

    answer = Client(enforce_csrf_checks=True).post("/", headers={"host": "127.0.0.1"})
    assert answer.status_code == 403
    assert b"Nothing was written" in answer.content
