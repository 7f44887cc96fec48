"""The framework's own check of settings that are to be relied on: nothing but what is silenced with a reason."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

from django.conf import settings

ROOT = Path(__file__).parents[2]

NEVER_SILENCED = {"security.W003", "security.W009", "security.W018", "security.W020", "security.W019"}
"""Form tokens, the secret, the debug pages, the hosts, being framed: to silence one of these would be a hole."""


def check(folder: Path, **surroundings: str) -> subprocess.CompletedProcess[str]:
    """Run the check as on a machine of its own, with a folder that was begun."""
    environment = {key: value for key, value in os.environ.items() if not key.startswith(("WETSIDE_", "DJANGO_"))}
    environment |= {"WETSIDE_DATA": str(folder), "DJANGO_SETTINGS_MODULE": "wetside.web.settings", **surroundings}
    command = [sys.executable, "-m", "django", "check", "--deploy", "--fail-level", "WARNING"]
    return subprocess.run(command, env=environment, capture_output=True, text=True, check=False, timeout=120)


def test_the_check_for_deployment_warns_of_nothing(tmp_path: Path) -> None:
    """Settings as they ship, with a secret made on the spot."""
    told = check(tmp_path / "darkroom")
    assert told.returncode == 0, told.stderr
    assert "no issues" in told.stdout + told.stderr


def test_the_check_would_warn(tmp_path: Path) -> None:
    """With the framework's own error pages switched on it does: it is really run."""
    told = check(tmp_path / "darkroom", WETSIDE_DEBUG="1")
    assert told.returncode != 0
    assert "security.W018" in told.stderr


NETWORK = {"WETSIDE_LAN": "https", "WETSIDE_LAN_HOSTS": "192.168.7.5 127.0.0.1"}


def test_over_https_cookies_are_closed_and_nothing_more_is_silenced(tmp_path: Path) -> None:
    """On the network the check is asked about cookies too, and finds nothing."""
    told = check(tmp_path / "darkroom", **NETWORK)
    assert told.returncode == 0, told.stderr
    assert "(2 silenced)" in told.stdout + told.stderr
    plain = check(tmp_path / "darkroom", **{**NETWORK, "WETSIDE_LAN": "plain"})
    assert "(4 silenced)" in plain.stdout + plain.stderr


def test_each_silenced_warning_has_its_reason() -> None:
    """The reason stands beside it in the settings, and what would be a hole is not silenced."""
    text = (ROOT / "src/wetside/web/settings.py").read_text("utf-8")
    lines = dict(re.findall(r'"(security\.W\d+)",  # (\S.+)', text))
    assert set(settings.SILENCED_SYSTEM_CHECKS) == set(lines)
    assert not NEVER_SILENCED & set(lines)
