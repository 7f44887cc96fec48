"""Processes: what makes a new version and what does not, and what the difference is called."""

from __future__ import annotations

import datetime as dt

import pytest

from wetside.errors import ConflictError, ManyErrors, RefusedError, WetsideError
from wetside.records.models import Sheet
from wetside.services.records import developers, films, processes
from wetside.services.records.changes import make, written_by
from wetside.wording import sentence

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)
BATHS = [{"does": "develop"}, {"does": "stop", "time": "0:30"}, {"does": "fix", "time": "5:00"}]
RAW = {"name": "drum, one shot", "developer": "Brackwater", "dilution": "1+14", "temp": "20 C", "baths": BATHS}


def said(process):
    return [sentence(one.code, one.params) for one in processes.process_page(process).newest.changes]


@pytest.mark.parametrize(
    ("change", "sentences"),
    [
        ({"dilution": "1+24"}, ["Dilution: 1+24 instead of 1+14."]),
        ({"temp": "24 C"}, ["Temp: 24 C instead of 20 C."]),
        ({"clock": "pour-to-drain"}, ["Clock: pour to drain instead of full to drain."]),
        ({"way": "stand"}, ["Way: stand instead of one bath."]),
        ({"baths": [{"does": "presoak", "time": "2:00"}, *BATHS]}, ["Bath 1 is new: Presoak."]),
        ({"baths": BATHS[:2]}, ["Bath 3 is gone: Fix."]),
        (
            {"baths": [*BATHS[:1], {"does": "stop", "time": "0:45"}, BATHS[2]]},
            ["Bath 2, Stop, time: 45 s instead of 30 s."],
        ),
    ],
)
def test_what_matters_makes_a_version_and_is_told_in_words(change, sentences) -> None:
    """Developer, dilution, temperature, clock, way and baths; who and why stand with it."""
    process = processes.save_process(RAW)
    with written_by("Ines"):
        process = processes.save_process(RAW | change, process, why="even skies")
    assert process.newest == 2
    version = processes.newest_version(process)
    assert (version.made_by, version.why) == ("Ines", "even skies")
    assert said(process) == sentences


def test_two_baths_that_change_places_are_told_as_one_move() -> None:
    """What stays in its order has not moved."""
    process = processes.save_process(RAW)
    process = processes.save_process(RAW | {"baths": [BATHS[0], BATHS[2], BATHS[1]]}, process)
    assert len(said(process)) == 1
    assert "where it was" in said(process)[0]


def test_a_new_name_or_note_is_no_version() -> None:
    """Nothing of the development differs, so nothing is counted up."""
    process = processes.save_process(RAW)
    process = processes.save_process(RAW | {"name": "the drum"}, process, note="door side")
    assert (process.name, process.note, process.newest, process.versions.count()) == ("the drum", "door side", 1, 1)


def test_older_versions_stay_readable_as_they_were() -> None:
    """Version 1 still has its dilution after version 2."""
    process = processes.save_process(RAW)
    process = processes.save_process(RAW | {"dilution": "1+24"}, process)
    page = processes.process_page(process)
    assert page.newest.document.dilution.text == "1+24"
    assert [shown.document.dilution.text for shown in page.older] == ["1+14"]


def test_two_pages_do_not_make_the_same_version() -> None:
    """Who saw the older state is refused, and no version is left behind."""
    process = processes.save_process(RAW)
    processes.save_process(RAW | {"dilution": "1+24"}, process, revision=1)
    with pytest.raises(ConflictError):
        processes.save_process(RAW | {"dilution": "1+9"}, process, revision=1)
    assert process.versions.count() == 2


def test_baths_that_make_no_sense_are_refused_by_their_number() -> None:
    """A stop without a time, and a time on a developing bath: each at its own field."""
    wrong = [{"does": "develop", "time": "6:00"}, {"does": "stop"}]
    with pytest.raises(ManyErrors) as refused:
        processes.save_process(RAW | {"baths": wrong})
    assert {error.place.field for error in refused.value.errors} == {"baths[1].time", "baths[2].time"}
    assert processes.process_list().total == 0


def test_makers_who_advise_against_a_presoak_are_named_where_there_is_one() -> None:
    """And not where there is none."""
    process = processes.save_process(RAW)
    assert processes.process_page(process).presoak_against == ()
    process = processes.save_process(RAW | {"baths": [{"does": "presoak", "time": "2:00"}, *BATHS]}, process)
    assert {advice.maker for advice in processes.process_page(process).presoak_against} >= {"ILFORD"}


def test_a_process_of_waiting_sheets_and_its_developer_stay() -> None:
    """Both say for how many sheets; afterwards both can go and come back."""
    process = processes.save_process(RAW)
    developer = developers.save_developer({"name": "Brackwater"})
    film = films.save_film({"name": "Tolland 100"})
    sheet = make(Sheet, {"label": "larch", "film": film, "process": process})
    for remove, record in ((processes.remove_process, process), (developers.remove_developer, developer)):
        with pytest.raises(RefusedError) as refused:
            remove(record, NOW)
        assert refused.value.params["count"] == 1
    sheet.state = "lost"
    sheet.save()
    assert processes.bring_process_back(processes.remove_process(process, NOW)).removed_at is None
    assert developers.bring_developer_back(developers.remove_developer(developer, NOW)).removed_at is None


def test_a_developer_that_a_process_names_keeps_its_name() -> None:
    """Versions are never rewritten, so the name would point nowhere; another spelling of it may stand."""
    processes.save_process(RAW)
    developer = developers.save_developer({"name": "Brackwater"})
    with pytest.raises(WetsideError) as refused:
        developers.save_developer({"name": "Sorrel"}, developer)
    assert refused.value.code == "services.developer.named"
    assert developers.save_developer({"name": "BRACKWATER"}, developer).name == "BRACKWATER"


def test_a_developer_shows_the_coefficient_of_its_pair_inside_its_span() -> None:
    """8:00 at 20 C and 5:55 at 24 C: ln(480/355)/4 = 0.0754 a degree."""
    developer = developers.save_developer(
        {"name": "Brackwater", "pairs": [{"cold": "20 C", "cold_time": "8:00", "warm": "24 C", "warm_time": "5:55"}]}
    )
    evidence = developers.developer_evidence(developer)
    assert evidence.coefficient.per_c == pytest.approx(0.0754, abs=5e-5)
    assert [moved.temp_c for moved in evidence.moved] == [20.0, 22.0, 24.0]
    assert evidence.moved[-1].time_s == pytest.approx(355.0)


def test_the_list_asks_few_questions(django_assert_max_num_queries) -> None:
    """Sixty processes with three versions each."""
    for number in range(60):
        process = processes.save_process(RAW | {"name": f"drum {number}"})
        for dilution in ("1+24", "1+9"):
            process = processes.save_process(RAW | {"name": f"drum {number}", "dilution": dilution}, process)
    with django_assert_max_num_queries(5):
        found = processes.process_list()
    assert (found.total, len(found.lines), found.lines[0].version.version) == (60, 50, 3)
