"""The page of tokens: one is made and shown once, its use is seen, and it is revoked for good."""

from __future__ import annotations

import html
import re
import subprocess
import sys
from typing import Any

import pytest

from wetside.services.records import tokens as service

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}


def heading(answer: Any) -> str:
    found = re.search(r"<h1>(.*?)</h1>", answer.content.decode(), re.DOTALL)
    assert found
    return html.unescape(" ".join(found[1].split()))


def secret_in(answer: Any) -> str:
    found = re.search(r'id="f-secret" value="([^"]+)"', answer.content.decode())
    assert found
    return found[1]


def test_a_token_is_shown_once_and_lets_in_until_it_is_revoked(client: Any) -> None:
    """From the empty page and back to it."""
    assert heading(client.get("/darkroom/tokens/", headers=HOST)) == "No program may write here"
    sent = {"name": "probe by the sink", "scope": "readings"}
    made = client.post("/darkroom/tokens/", sent, headers=HOST)
    assert made.status_code == 200
    assert "no-store" in made.headers["Cache-Control"]
    secret = secret_in(made)
    page = client.get("/darkroom/tokens/", headers=HOST)
    assert heading(page) == "One token lets a program in"
    assert secret not in page.content.decode()
    assert "never" in page.content.decode()
    call = {"content_type": "application/json", "headers": {**HOST, "Authorization": f"Bearer {secret}"}}
    assert client.post("/api/v1/runs/now/readings", '{"shown_c": 20}', **call).status_code == 409
    assert "never" not in client.get("/darkroom/tokens/", headers=HOST).content.decode()
    key = service.token_named("probe by the sink").key
    gone = client.post(f"/darkroom/tokens/{key}/revoke/", headers=HOST)
    assert gone.status_code == 302
    assert client.post("/api/v1/runs/now/readings", '{"shown_c": 20}', **call).status_code == 401
    page = client.get("/darkroom/tokens/", headers=HOST)
    assert heading(page) == "No program may write here"
    assert "revoked" in page.content.decode()


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({"name": "", "scope": "read"}, "needs a name"),
        ({"name": "probe", "scope": "all"}, "is no scope"),
        ({"name": "probe"}, "is no scope"),
        ({"name": "a\0b", "scope": "read"}, "needs a name"),
        ({"name": "taken", "scope": "read"}, "already"),
    ],
)
def test_a_mistake_stands_beside_its_field(client: Any, sent: dict[str, str], said: str) -> None:
    """422, what was typed is kept, no token is made."""
    from wetside.adapters.clock import now

    service.make_token("taken", "read", now())
    answer = client.post("/darkroom/tokens/", sent, headers=HOST)
    assert answer.status_code == 422
    assert said in html.unescape(answer.content.decode())
    assert 'id="f-name-m"' in answer.content.decode()
    assert len(service.list_tokens()) == 1


def test_the_page_asks_little(client: Any, django_assert_max_num_queries: Any) -> None:
    """However many tokens there are."""
    from wetside.adapters.clock import now

    for number in range(30):
        service.make_token(f"program {number}", "read", now())
    with django_assert_max_num_queries(6):
        page = client.get("/darkroom/tokens/", headers=HOST)
    assert heading(page) == "30 tokens let programs in"


def test_revoking_needs_a_token_of_the_form_and_a_post(client: Any) -> None:
    """A link of another site revokes nothing; what is not there is told."""
    nowhere = "/darkroom/tokens/00000000-0000-4000-8000-000000000000/revoke/"
    assert client.get(nowhere, headers=HOST).status_code == 405
    assert client.post(nowhere, headers=HOST).status_code == 404


PROBE = """
import os, sys, django
django.setup()
from django.test import Client
from django.core.management import call_command
call_command("migrate", verbosity=0)
answer = Client().get("/", headers={"host": "127.0.0.1"})
assert answer.status_code == 200, answer.status_code
assert not {"ninja", "pydantic"} & set(sys.modules), "loaded at the start"
answer = Client().get("/api/v1/films", headers={"host": "127.0.0.1"})
assert answer.status_code == 200 and "ninja" in sys.modules
"""


def test_the_interfaces_library_waits_until_a_program_asks(tmp_path: Any) -> None:
    """The server's start and its first page load none of it."""
    import os

    env = {name: value for name, value in os.environ.items() if name != "WETSIDE_DATABASE"}
    env |= {"WETSIDE_DATA": str(tmp_path), "DJANGO_SETTINGS_MODULE": "wetside.web.settings"}
    done = subprocess.run([sys.executable, "-c", PROBE], capture_output=True, text=True, check=False, env=env)
    assert done.returncode == 0, done.stderr
