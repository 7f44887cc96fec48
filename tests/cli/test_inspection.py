"""Looks of development by inspection stand on the plan's schedule, in a tray where each sheet has its own time too."""

from __future__ import annotations

EVENING = """\
format = 1
size = "4x5in"

[[films]]
name = "Tolland Ortho"
safelight = "deep-red"
light_tested = "5 min"

[[films.times]]
developer = "Slowmere"
dilution = "1+20"
time = "8:00"
agitation = "tray"
way = "inspection"
own = true

[[processes]]
name = "by eye"
developer = "Slowmere"
dilution = "1+20"
way = "inspection"
moments = 2

[[vessels]]
name = "tray"
kind = "tray"
places = 6
min = "900 ml"
max = "1000 ml"

[[sheets]]
label = "first"

[[sheets]]
label = "second"
"""


def test_looks_stand_between_going_in_and_coming_out(wetside, tmp_path):
    """Both looks are acts, in order of the clock, after the first sheet went in and before the first comes out."""
    path = tmp_path / "evening.toml"
    path.write_text(EVENING, "utf-8")
    ran = wetside("plan", path, "--json")
    assert ran.code == 0
    (load,) = ran.document["loads"]
    acts = [(act["clock_s"], act["does"]) for act in load["schedule"]]
    assert acts == sorted(acts, key=lambda one: one[0])
    looks = [clock_s for clock_s, does in acts if does == "inspect"]
    lifts = [clock_s for clock_s, does in acts if does == "lift"]
    assert len(looks) == 2
    assert 0.0 < looks[0] < looks[1] < lifts[0]
