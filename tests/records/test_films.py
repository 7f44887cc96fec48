"""Films with their times, tests and lots: kept, corrected, removed and brought back; and their evidence."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from wetside.errors import ManyErrors, RefusedError, WetsideError
from wetside.records.models import FilmLot, Sheet
from wetside.services.records import aims, developers, films, films_tests, processes
from wetside.services.records.changes import make, written_by
from wetside.services.records.film_evidence import film_evidence
from wetside.services.records.films_history import corrections_of
from wetside.services.records.films_tests import ReadingsAnswers
from wetside.wording import sentence

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)
ROOT = Path(__file__).resolve().parents[2]
CURVES = (ROOT / "examples/demo/tolland-100.csv").read_text("utf-8")
TEST = {"developer": "Brackwater", "dilution": "1+14", "clock": "full-to-drain", "stop": "acid"}
LEAFLET = {"developer": "Brackwater", "dilution": "1+14", "time": "8:00", "agitation": "intermittent"}


def tolland(**raw):
    return films.save_film({"name": "Tolland 100", "ei": "80", **raw})


def with_test(film=None, text=CURVES, **conditions):
    film = film or tolland()
    return films_tests.add_test(film, {**TEST, **conditions}, films_tests.rows_of_answers(ReadingsAnswers(text=text)))


def codes(group):
    return [finding.code.rpartition(".")[2] for finding in group.findings]


def advised(group):
    return {
        finding.advice.code.rpartition(".")[2]: finding.advice.params for finding in group.findings if finding.advice
    }


def of_times(*wanted):
    """Demo readings of some developing times only."""
    lines = CURVES.splitlines()
    return "\n".join(line for line in lines if line[:1] in "#d" or line.partition(",")[0] in wanted)


def test_a_correction_keeps_the_tests_and_says_what_changed() -> None:
    """The film's form knows nothing of its tests, and does not lose them; the history tells key by key."""
    with written_by("Ines"):
        film = with_test()
        film = films.save_film({"name": "Tolland 100", "ei": "64", "times": [LEAFLET]}, film, why="rated anew")
    assert len(films.film_document(film).tests) == 1
    newest = corrections_of(film)[0]
    assert (newest.by, newest.why) == ("Ines", "rated anew")
    changed = {change.key: (change.before, change.after) for change in newest.changes}
    assert changed["ei"] == ("80", "64")
    assert "8:00" in changed["times"][1]
    assert set(changed) == {"ei", "times"}


def test_a_test_is_measured_as_the_command_measures_it() -> None:
    """Curves, gradients and speed of the page are those of the same readings in `wetside curve`."""
    from wetside.services.curves import curves_of_file

    group = film_evidence(with_test()).groups[0]
    by_file = curves_of_file(ROOT / "examples/demo/tolland-100.csv")
    assert [time.gradient_150 for time in group.tests[0].times] == [one.measures["gradient_150"] for one in by_file]
    assert group.tests[0].speed.marked.arithmetic == 100.0
    assert 420.0 < group.tests[0].speed.dev_s < 600.0
    assert group.evidence.value == "tested"


def test_every_error_of_pasted_readings_is_told_with_its_line() -> None:
    """Nothing is kept, and no error hides another; the place is what the person pasted, not a folder of ours."""
    text = "dev_min,log_h,density\n5,-2.4,thick\n5,-2.1,0.2\nfive,-1.8,0.3\n"
    with pytest.raises(ManyErrors) as refused:
        films_tests.rows_of_answers(ReadingsAnswers(text=text))
    places = [(error.place.file, error.place.line, error.place.field) for error in refused.value.errors]
    assert places == [("readings", 2, "density"), ("readings", 4, "dev_min")]


def test_readings_by_step_need_the_tablet_and_its_exposure() -> None:
    """Step 3 of a tablet of 0.15 steps under -1.0 log lux-seconds got -1.30."""
    text = "dev_min;step;density\n" + "\n".join(f"6;{step};{1.4 - 0.1 * step:.2f}" for step in range(1, 12))
    with pytest.raises(WetsideError) as refused:
        films_tests.rows_of_answers(ReadingsAnswers(text=text, nominal=True))
    assert refused.value.code == "services.film.no_exposure"
    rows = films_tests.rows_of_answers(ReadingsAnswers(text=text, nominal=True, exposure="-1,0"))
    assert {round(log_h, 2): density for _, log_h, density in rows}[-1.3] == pytest.approx(1.1)


def test_one_time_only_cannot_be_planned_and_a_second_is_advised() -> None:
    """Readings of one time make no family: the finding outweighs all others and names a second time."""
    group = film_evidence(with_test(text=of_times("7"))).groups[0]
    assert group.evidence is None
    assert codes(group)[0] == "one_time"
    assert advised(group)["one_more_tablet"] == {"time_s": 585.0, "first_s": 420.0}


def test_two_tablets_are_advised_around_the_time_that_a_plan_would_start_from() -> None:
    """A leaflet's 8:00 without a test: tablets at 6:30 and 9:30, as 0.8 and 1.2 of it in quarters of a minute."""
    film = films.save_film({"name": "Morvane 320", "times": [{**LEAFLET, "agitation": "rotary", "source": "leaflet"}]})
    group = film_evidence(film).groups[0]
    assert codes(group)[:2] == ["no_test", "no_gradient"]
    assert {name: advised(group)["two_tablets"][name] for name in ("short_s", "long_s")} == {
        "short_s": 390.0,
        "long_s": 570.0,
    }
    said = sentence(group.findings[0].advice.code, group.findings[0].advice.params)
    assert "6:30 and 9:30" in said


def test_tablets_are_never_advised_below_the_time_that_develops_evenly() -> None:
    """From 4:00 the shorter tablet stays at the floor of 5:00, and the longer one moves along."""
    film = films.save_film({"name": "Morvane 320", "times": [{**LEAFLET, "time": "4:00", "agitation": "rotary"}]})
    group = film_evidence(film).groups[0]
    assert codes(group)[0] == "bare_time"
    assert (advised(group)["two_tablets"]["short_s"], advised(group)["two_tablets"]["long_s"]) == (300.0, 450.0)


def test_conditions_that_move_a_time_are_findings_with_what_they_come_to() -> None:
    """A leaflet's tank time in a drum, at a process's 22 C, in a developer with a pair."""
    developers.save_developer(
        {"name": "Brackwater", "pairs": [{"cold": "20 C", "cold_time": "8:00", "warm": "24 C", "warm_time": "5:55"}]}
    )
    processes.save_process({"name": "warm", "developer": "Brackwater", "dilution": "1+14", "temp": "22 C"})
    film = films.save_film({"name": "Morvane 320", "times": [{**LEAFLET, "source": "leaflet"}]})
    group = film_evidence(film).groups[0]
    assert {"moved_agitation", "moved_temperature"} <= set(codes(group))
    moved = next(one for one in group.findings if one.code.endswith("moved_temperature"))
    # ln(480/355)/4 = 0.0754 a degree; two degrees: exp(-0.1508) - 1 = -14.0 %
    assert moved.params["percent"] == pytest.approx(-14.0, abs=0.05)
    assert group.evidence.value in ("converted", "assumed")


def test_a_coefficient_is_asked_for_only_while_there_is_none() -> None:
    """With a pair of times the finding goes."""
    film = with_test()
    assert "no_coefficient" in codes(film_evidence(film).groups[0])
    developers.save_developer(
        {"name": "Brackwater", "pairs": [{"cold": "20 C", "cold_time": "8:00", "warm": "24 C", "warm_time": "5:55"}]}
    )
    assert "no_coefficient" not in codes(film_evidence(film).groups[0])


def test_what_was_noted_is_no_longer_weak() -> None:
    """Base + fog and the reference volume are findings until they are entered."""
    bare = film_evidence(with_test()).groups[0]
    assert {"no_base_fog", "no_reference"} <= set(codes(bare))
    other = films.save_film({"name": "Morvane 320"})
    full = film_evidence(with_test(other, base_fog="0.10", agent="20 ml per 516 cm2")).groups[0]
    assert not {"no_base_fog", "no_reference"} & set(codes(full))


def test_an_aim_that_the_tested_times_do_not_reach_is_named_with_a_further_time() -> None:
    """Tests of 5:00 and 7:00 do not reach the range of 1.60; a longer tablet is advised."""
    aims.save_aim({"name": "salt print", "for": "alternative", "range": "1.60", "channel": "visual"})
    group = film_evidence(with_test(text=of_times("5", "7"))).groups[0]
    finding = next(one for one in group.findings if one.code.endswith("aim_not_reached"))
    assert (finding.params["aim"], finding.params["n"]) == ("salt print", 0.0)
    assert advised(group)["third_tablet"]["time_s"] > 420.0


def test_readings_in_another_light_than_the_aim_are_told() -> None:
    """Visual readings serve no UV aim: the planner's own refusal stands on the page, with the light to read in."""
    aims.save_aim({"name": "salt print", "for": "alternative", "range": "1.60", "channel": "uv"})
    group = film_evidence(with_test()).groups[0]
    assert group.evidence is None
    assert codes(group)[0] == "other_channel"
    assert advised(group)["read_again"] == {"channel": "uv"}


def test_sources_that_disagree_stand_as_a_span() -> None:
    """Two sources under the same conditions: the shortest to the longest; other conditions are no contradiction."""
    film = films.save_film(
        {
            "name": "Morvane 320",
            "times": [
                {**LEAFLET, "source": "leaflet"},
                {**LEAFLET, "time": "9:00", "source": "second leaflet"},
                {**LEAFLET, "time": "6:00", "temp": "24 C", "source": "third leaflet"},
            ],
        }
    )
    (span,) = film_evidence(film).groups[0].spans
    assert (span.low_s, span.high_s, span.sources) == (480.0, 540.0, ("leaflet", "second leaflet"))


def test_a_published_row_shows_inside_its_own_film_only() -> None:
    """HP5 PLUS has the maker's rows with their sources; a film of another name has none."""
    own = film_evidence(films.save_film({"name": "HP5 PLUS", "ei": "400"}))
    rows = [row for group in own.groups for row in group.published]
    assert rows
    assert all(row.source.key and row.film.endswith("HP5 PLUS") for row in rows)
    assert not any(group.used for group in own.groups)
    assert not film_evidence(films.save_film({"name": "Morvane 320"})).groups


def test_rows_for_another_index_are_told_as_such() -> None:
    """ID-11 is printed for EI 400 and more; who rates the film at 200 is told which indexes there are."""
    evidence = film_evidence(films.save_film({"name": "HP5 PLUS", "ei": "200"}))
    group = next(one for one in evidence.groups if (one.developer, one.dilution) == ("ID-11", "stock"))
    assert codes(group)[0] == "other_index"
    assert "400" in group.findings[0].params["indexes"]
    assert evidence.weakest is None


def test_long_exposures_are_those_of_the_film_s_own_power() -> None:
    """8 s to the power 1.28 is 14.3 s; an eighth of a second needs nothing."""
    film = tolland(reciprocity={"power": "1.28", "threshold": "1 s", "source": "leaflet"})
    eighth, eight, minute = film_evidence(film).reciprocity.exposures
    assert (eighth.given_s, eight.given_s) == (0.125, pytest.approx(8.0**1.28))
    assert minute.stops == pytest.approx(1.654, abs=0.001)


def test_a_film_of_waiting_sheets_stays_and_the_others_come_back() -> None:
    """Removal says how many sheets wait; once they are done it works, and can be undone."""
    film = tolland()
    sheet = make(Sheet, {"label": "larch by the weir", "film": film})
    with pytest.raises(RefusedError) as refused:
        films.remove_film(film, NOW)
    assert refused.value.params["count"] == 1
    sheet.state = "lost"
    sheet.save()
    removed = films.remove_film(film, NOW)
    assert films.film_list().total == 0
    assert [one.name for one in films.film_list().removed] == ["Tolland 100"]
    assert films.bring_film_back(removed).removed_at is None


def test_a_test_is_removed_and_brought_back_in_its_place() -> None:
    """The film's history holds what was taken away."""
    film = with_test(with_test(), source="second tablet")
    film, gone = films_tests.remove_test(film, 0)
    assert "source" not in gone
    film = films_tests.bring_test_back(film)
    assert [test.source for test in films.film_document(film).tests] == [None, "second tablet"]


def test_a_lot_has_a_number_a_size_that_is_one_and_days_that_are() -> None:
    """Each mistake names its field; a good lot is kept once."""
    film = tolland()
    for answers, field in (
        (films.LotAnswers(), "number"),
        (films.LotAnswers("1183", size="postcard-ish"), "size"),
        (films.LotAnswers("1183", expires="next spring"), "expires"),
        (films.LotAnswers("1183", bought="a box"), "bought"),
    ):
        with pytest.raises(WetsideError) as refused:
            films.save_lot(film, answers)
        assert refused.value.place.field == field
    films.save_lot(film, films.LotAnswers("1183", "9x12cm", "2027-03-31", "", "25"))
    (lot,) = films.lots_of(film)
    assert (lot.expires, lot.bought) == (dt.date(2027, 3, 31), 25)
    make(Sheet, {"label": "larch", "film": film, "lot": lot})
    with pytest.raises(RefusedError):
        films.remove_lot(FilmLot.objects.get(), NOW)


def test_the_list_asks_few_questions_whatever_its_size(django_assert_max_num_queries) -> None:
    """200 films, ten of them with 200 readings each."""
    for number in range(200):
        film = films.save_film({"name": f"Tolland {number}"})
        if number < 10:
            with_test(film)
    with django_assert_max_num_queries(6):
        found = films.film_list(2)
    assert (found.total, found.tested, found.pages, len(found.lines)) == (200, 10, 4, 50)


def test_one_film_asks_few_questions_with_many_tests(django_assert_max_num_queries) -> None:
    """Twenty tests of 105 readings, more than 2,000 rows."""
    film = tolland()
    for _ in range(20):
        film = with_test(film)
    with django_assert_max_num_queries(8):
        evidence = film_evidence(film)
    assert len(evidence.groups[0].tests) == 20
