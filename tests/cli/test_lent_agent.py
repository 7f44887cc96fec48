"""Sheets whose reference agent nobody knows share a bath with sheets whose reference is known."""

from __future__ import annotations

import pytest

EVENING = """\
format = 1
size = "13x18cm"

[[films]]
name = "Tolland 100"
times = [{ developer = "Brackwater", dilution = "1+9", time = "7:00", agent = "25.8 ml per 516 cm2" }]

[[films]]
name = "Sallow 200"
times = [{ developer = "Brackwater", dilution = "1+9", time = "7:00" }]

[[processes]]
name = "usual"
developer = "Brackwater"
dilution = "1+9"

[[vessels]]
name = "drum"
kind = "drum"
places = 2
min = "60 ml"
max = "MOST"

[[sheets]]
label = "known"
film = "Tolland 100"

[[sheets]]
label = "unknown"
film = "Sallow 200"
"""


@pytest.mark.parametrize(("most", "loads"), [("60 ml", 2), ("130 ml", 1)])
def test_loads_and_volumes_count_the_same_agent(wetside, tmp_path, most, loads):
    """What the check counts, the loads were chosen with: no load is poured with less than half of the agent."""
    path = tmp_path / "evening.toml"
    path.write_text(EVENING.replace("MOST", most), "utf-8")
    plan = wetside("plan", path, "--json").document
    assert not plan["unplanned"]
    assert len(plan["loads"]) == loads == plan["lower_bound"]
    assert all(load["check"]["agent_ratio"] >= 0.5 - 1e-6 for load in plan["loads"])
    lent = [load for load in plan["loads"] if "unknown" in load["sheets"]]
    assert "planning.some_reference" in [note["code"] for note in lent[0]["notes"]]
