"""``wetside compare``: two logs beside each other, the largest likely effect first; what cannot be compared is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from tests.fixtures.run_logs import facts_of, log_of, quick

from wetside.runs.from_plan import quick_script

if TYPE_CHECKING:
    from pathlib import Path

FIRST, SECOND = "examples/two_runs/first.log", "examples/two_runs/second.log"


def written(folder: Path, name: str, data: bytes) -> Path:
    path = folder / name
    path.write_bytes(data)
    return path


def test_the_one_known_difference_is_named_first_and_turns_its_sign(wetside, tmp_path: Path) -> None:
    """Half a minute more is the largest figure; the other way round it is as much less."""
    one = written(tmp_path, "one.log", log_of(facts_of(quick())))
    other = written(tmp_path, "other.log", log_of(facts_of(quick_script("Tolland 100", "Brackwater 1+14", 540.0))))
    found = wetside("compare", one, other, "--json").document
    turned = wetside("compare", other, one, "--json").document
    assert (found["one"], found["other"], found["differences"][0]["kind"]) == ("one.log", "other.log", "time")
    assert found["differences"][0]["share"] == pytest.approx(0.11778, abs=1e-5)  # ln(540 / 480), by hand
    assert turned["density"] == pytest.approx(-found["density"])
    assert any("Nobody named the vessel" in line for line in found["not_known"]["Both"])


def test_words_and_figures_stand_beside_each_other(wetside) -> None:
    """The title first, then figures, then what nobody knows."""
    done = wetside("compare", FIRST, SECOND)
    assert done.code == 0, done.err
    assert done.out.startswith("second.log: likely")
    assert done.out.index("Temperature as it was read") < done.out.index("Late and early acts")
    assert "Nobody knows:" in done.out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((FIRST, FIRST), "Both are the same run"),
        ((FIRST, "examples/demo/evening.toml"), "line 1: This is no log of a run"),
        ((FIRST, "examples/none.log"), "cannot be read"),
        ((FIRST, "examples"), "cannot be read"),
    ],
)
def test_what_cannot_be_compared_is_told(wetside, words: tuple[str, ...], said: str) -> None:
    """With the file, and no traceback."""
    done = wetside("compare", *words)
    assert done.code != 0
    assert said in done.err


def test_a_run_that_developed_nothing_is_not_compared(wetside, tmp_path: Path) -> None:
    """It was opened, and no more."""
    opened = written(tmp_path, "opened.log", log_of(facts_of()[:1]))
    done = wetside("compare", FIRST, opened)
    assert "has developed nothing" in done.err


def test_no_archive_is_begun_by_a_log(wetside, tmp_path: Path) -> None:
    """Where there is none, that is said."""
    done = wetside("take", FIRST, "--data", tmp_path / "none")
    assert done.code != 0
    assert "no archive" in done.err
