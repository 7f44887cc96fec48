"""Every call of the interface keeps to its own description, whatever is sent: calls drawn from the description."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

import pytest
import schemathesis
from hypothesis import HealthCheck, Phase, settings
from schemathesis.checks import load_all_checks
from tests.web.api_archive import AT, LISTS, Archive, make_archive

from wetside.records import models
from wetside.services.records.tokens import make_token
from wetside.web.api.root import description

if TYPE_CHECKING:
    from collections.abc import Iterator

load_all_checks()
EXAMPLES = 15
"""Calls drawn for each operation, good and bad ones: all of them together take about half a minute."""


@cache
def application() -> Any:
    """The whole program as a server runs it, middleware and all."""
    from django.core.wsgi import get_wsgi_application

    return get_wsgi_application()


def described() -> Any:
    found = schemathesis.openapi.from_dict(description())
    found.app = application()
    return found


schema = described()


@pytest.fixture
def archive(db: Any) -> Iterator[Archive]:
    """One record of each kind, and a token for everything."""
    del db
    made = make_archive()
    made.tokens["all"] = make_token("drawn calls", "write", AT).secret
    yield made
    assert models.Sheet.objects.filter(pk=made.keys["sheets"]).exists()


@schema.parametrize()
@settings(
    max_examples=EXAMPLES,
    deadline=None,
    derandomize=True,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)
def test_a_call_keeps_to_its_description(archive: Archive, case: Any) -> None:
    """Never a failure; only described statuses, shapes and types; what the description forbids is refused."""
    place = case.path.removeprefix("/api/v1/").partition("/")[0]
    if "key" in (case.path_parameters or {}) and place in LISTS and hash(str(case.path_parameters["key"])) % 3:
        case.path_parameters["key"] = str(archive.keys[place])
    checks = schemathesis.checks.CHECKS
    case.call_and_validate(
        base_url="http://127.0.0.1",
        headers={"Authorization": f"Bearer {archive.tokens['all']}"},
        # What the shapes allow may still mean nothing: an unknown film, a cursor that is none, a run that is over.
        excluded_checks=[checks.get_one("positive_data_acceptance")],
    )
