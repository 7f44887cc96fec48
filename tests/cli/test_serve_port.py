"""A port that cannot be had."""

from __future__ import annotations

import subprocess
import sys


def test_an_impossible_port_is_told_in_a_sentence(tmp_path) -> None:
    """No traceback, exit code 2, and what to do instead."""
    words = ["serve", "--port", "99999", "--data", str(tmp_path / "darkroom")]
    program = "import sys; from wetside.cli import main; sys.exit(main())"
    done = subprocess.run([sys.executable, "-c", program, *words], capture_output=True, text=True, check=False)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert "--port" in done.stderr
