"""What tests of pages share: asking and posting as this machine's own browser, and a folder of their own."""

from __future__ import annotations

import datetime as dt

import pytest
from tests.fixtures.printed_once import _printed_once

from wetside.adapters.machine_clock import moment_now
from wetside.runs.moment import Moment
from wetside.services.records import plans_frozen, runs

HOST = {"host": "127.0.0.1"}
printed_once = _printed_once


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


@pytest.fixture
def opened_long_ago(own_folder, monkeypatch) -> None:
    """Runs that are opened now began an hour and a half ago; what is frozen is not printed."""
    now = moment_now()
    ago = dt.timedelta(seconds=5400)
    monkeypatch.setattr(runs, "moment_now", lambda: Moment(now.at_utc - ago, now.boot_s - 5400.0, now.boot_id))
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())
