"""Figures after a run against arithmetic done by hand: what is booked, film by class, and ranked differences.

The arithmetic stands beside each figure. Load 1 of the demo evening: four sheets 9x12 cm (108 cm² each) of two films,
in a drum that pours 12 s and drains 18 s, 7:20 from full to the drain begun, acid stop.
"""

from __future__ import annotations

import re

import pytest
from tests.fixtures.run_records import develop

from wetside.records import models
from wetside.services.records import demo, plans_frozen, runs, runs_compared
from wetside.services.records.runs_after import after_run, run_with_plan

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}
OUNCE_ML = 29.5735295625
"""A US fluid ounce, NIST Handbook 44, appendix C: 29.57353 ml to seven figures."""


@pytest.fixture(autouse=True)
def _folder(settings, tmp_path, monkeypatch) -> None:
    settings.DATA_FOLDER = tmp_path
    monkeypatch.setattr(plans_frozen, "keep_files", lambda *_: ())


@pytest.fixture
def plan():
    return plans_frozen.freeze(demo.make_demo())


@pytest.fixture
def us_comma():
    models.Darkroom.objects.create(units="us", decimal_sign="comma")


def proposed(run) -> dict[str, tuple[float, ...]]:
    after = after_run(run_with_plan(run.pk))
    rows = {row.kind.value: (row.drawn_ml, row.returned_ml, row.ordinary, row.tabular) for row in after.rows}
    return rows | {"water": (after.water_ml,)}


def test_what_a_late_run_used(plan) -> None:
    """Late hands change no volume: 1+14 of 300 ml is 20 ml; film in the stop is plain area, in the fixer weighted."""
    run = develop(runs.open_planned(plan.pk, 1), late_s=40.0)
    # Stop: 4 · 108 / 516 = 0.837. Fixer: exposed by +1, 0, log2(4/9) = -1.16993 and 0 stops beside what was meant, so
    # weights 1 - stops/15 = 0.93333, 1, 1.07800, 1: together 4.01133 · 108 / 516 = 0.8396.
    # Water: pre-soak 500, with the developer 300 - 20 = 280, three washes of 700: 2880 ml.
    assert proposed(run) == {
        "develop": (20.0, 0.0, 0.0, 0.0),
        "stop": (400.0, 400.0, 0.84, 0.0),
        "fix": (500.0, 500.0, 0.84, 0.0),
        "water": (2880.0,),
    }


def test_film_is_told_apart_by_class(plan) -> None:
    """The sheet of the one film (+1 stop) is ordinary; the three of the other are tabular where its film says so."""
    run = develop(runs.open_planned(plan.pk, 1))
    text = re.sub(r'(name = "Morvane 320"[^\[]*?)(\n\n|\Z)', r'\1\nfixing = "tabular"\2', plan.evening, count=1)
    assert text != plan.evening
    models.Plan.objects.filter(pk=plan.pk).update(evening=text)
    found = proposed(run)
    # Stop: 108 / 516 = 0.209 and 3 · 0.209 = 0.628.
    # Fixer: 0.93333 · 0.20930 = 0.1953 and (1 + 1.07800 + 1) · 0.20930 = 0.6442.
    assert found["stop"][2:] == (0.21, 0.63)
    assert found["fix"][2:] == (0.2, 0.64)


@pytest.mark.usefixtures("us_comma")
def test_ounces_with_a_comma_are_booked_as_the_same_volumes(client, plan) -> None:
    """What the fields show, sent back as it stands, is what was used, within half of the last figure shown."""
    run = develop(runs.open_planned(plan.pk, 1), late_s=40.0)
    page = f"/runs/{run.pk}/after/"
    body = client.get(page, headers=HOST).content.decode()
    form = body[body.index('class="booking"') :]
    sent = dict(re.findall(r'<input [^>]*name="([^"]+)"[^>]*value="([^"]*)"', form))
    for name, inner in re.findall(r'<select [^>]*name="([^"]+)"[^>]*>(.*?)</select>', form, re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', inner)
        sent[name] = chosen[1] if chosen else ""
    # 20 / 29.5735 = 0.676, 400 / 29.5735 = 13.526, 500 / 29.5735 = 16.907
    assert (sent["b2.drawn"], sent["b4.ordinary"]) == ("0,68", "0,84")
    assert client.post(page, sent, headers=HOST).status_code == 302
    lines = models.BottleLine.objects.filter(note=run.name)
    half_ml = 0.05 * OUNCE_ML
    for mark, drawn_ml in (("D", -20.0), ("S", -400.0), ("F", -500.0)):
        assert lines.get(bottle__mark=mark, kind="drawn").change_ml == pytest.approx(drawn_ml, abs=half_ml)
    for mark in "SF":
        there_and_back = [line.change_ml for line in lines.filter(bottle__mark=mark).exclude(kind="film")]
        assert sum(there_and_back) == pytest.approx(0.0, abs=1e-6)
        assert lines.get(bottle__mark=mark, kind="film").area_units == 0.84
    assert runs.find_run(run.pk).facts["booked"]["water_ml"] == pytest.approx(2880.0, abs=half_ml)


def test_a_stop_forty_seconds_late(plan) -> None:
    """A load and the same load rehearsed with a late stop differ by the forty seconds alone."""
    one = develop(runs.open_planned(plan.pk, 1))
    other = develop(runs.open_planned(plan.pk, 1, rehearsal=True), late_s=40.0)
    said = runs_compared.compare_runs(str(one.pk), str(other.pk)).said
    # The film's average point: 12/2 + 440 + 18/2 + 12/2 = 461 s; forty more: 501 s. ln(501/461) = 0.08321, +8.7 %.
    # Density 1.05 · 0.65 · 0.08321 = 0.0568. One zone is half of ln(CI(N+1) / CI(N-1)), CI = 1.05 / (1.8 - 0.301 n):
    # ln(2.101/1.499) / 2 = 0.1688, and 0.65 · 0.08321 / 0.1688 = 0.32 zones.
    (row,) = said.figures
    assert (row.kind, row.density, row.percent, row.zones) == ("Late and early acts", "+0.06", "+8.7 %", "+0.3")


@pytest.mark.usefixtures("us_comma")
@pytest.mark.parametrize("turned", [False, True])
def test_differences_are_ranked_by_what_they_are_worth(client, turned) -> None:
    """8:00 on time, 9:20 with the stop 40 s late, with a comma; the other way round turns every sign, not the order."""
    one = develop(runs.open_quick("Tolland 100", "Brackwater", 480.0))
    other = develop(runs.open_quick("Tolland 100", "Brackwater", 560.0), late_s=40.0)
    names = ("other", "one") if turned else ("one", "other")
    page = client.get("/runs/compare/", dict(zip(names, (str(one.pk), str(other.pk)), strict=True)), headers=HOST)
    body = page.content.decode().replace("\N{MINUS SIGN}", "-").replace("\N{NO-BREAK SPACE}", " ")
    kinds = re.findall(r'<tr><th scope="row">([^<]+)', body)
    figures = re.findall(r'data-name="Density" class="compare-figure"><strong>([^<]+)</strong>', body)
    # Pour 10, drain 15, stop's pour 10 add 5 + 7.5 + 5 = 17.5 s to the clock's time.
    # Time: ln(560/480) = 0.15415 · 1.05 · 0.65 = 0.105. Hands: ln(617.5/577.5) = 0.06697: 0.046.
    # Handling is a smaller part of the longer time: ln(577.5/560) - ln(497.5/480) = -0.00504: -0.003.
    # Together ln(617.5/497.5) = 0.21608: 0.147.
    sign = "-" if turned else "+"
    assert kinds[:3] == ["Developing time", "Late and early acts", "Pour and drain of the vessel"]
    assert figures == [f"{sign}0,11", f"{sign}0,05", "0,00"]
    assert f"Together {sign}0,15 density" in body
