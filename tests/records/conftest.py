"""Archives on folders and databases of their own."""

from __future__ import annotations

import importlib.util
from pathlib import Path

from tests.fixtures.printed_once import _printed_once

_spec = importlib.util.spec_from_file_location(
    "archive_fixtures", Path(__file__).parents[1] / "fixtures" / "archive_fixtures.py"
)
_fixtures = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(_fixtures)

archives = _fixtures.archives
filled_template = _fixtures.filled_template
begun_template = _fixtures.begun_template
filled_export = _fixtures.filled_export
filled = _fixtures.filled
begun = _fixtures.begun
server_archive = _fixtures.server_archive
live = _fixtures.live
printed_once = _printed_once
