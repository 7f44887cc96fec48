"""Pages of films, developers, processes and aims, without a browser."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from wetside.services.records import aims, developers, films, films_tests, processes
from wetside.services.records.films_tests import ReadingsAnswers

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}
CURVES = (Path(__file__).resolve().parents[2] / "examples/demo/tolland-100.csv").read_text("utf-8")
TEST = {"developer": "Brackwater", "dilution": "1+14", "agitation": "rotary", "way": "one-bath", "channel": "visual"}
PROCESS = {
    "name": "drum, one shot",
    "developer": "Brackwater",
    "dilution": "1+14",
    "temp": "20",
    "clock": "full-to-drain",
    "way": "one-bath",
    "baths[1].does": "develop",
    "baths[2].does": "stop",
    "baths[2].time": "0:30",
    "baths[3].does": "fix",
    "baths[3].time": "5:00",
}


def read(client, address):
    answer = client.get(address, headers=HOST)
    assert answer.status_code == 200, answer.content.decode()[-2000:]
    return answer.content.decode()


def heading(text):
    return re.sub(r"<[^>]+>|\s+", " ", re.search(r"<h1>(.*?)</h1>", text, re.DOTALL)[1]).strip()


def test_the_list_s_title_is_its_answer(client) -> None:
    """No films, one, and two of which one rests on a test."""
    assert heading(read(client, "/films/")) == "No films yet"
    film = films.save_film({"name": "Tolland 100"})
    assert heading(read(client, "/films/")) == "One film; none rests on a test of your own"
    films_tests.add_test(film, TEST, films_tests.rows_of_answers(ReadingsAnswers(text=CURVES)))
    films.save_film({"name": "Morvane 320"})
    assert heading(read(client, "/films/")) == "Two films; one rests on tests of your own"


def test_a_film_with_its_times_is_kept_and_shown(client) -> None:
    """The form's rows become the film's times; the page says what is weakest."""
    post = {
        "name": "Morvane 320",
        "ei": "250",
        "safelight": "none",
        "fixing": "ordinary",
        "times[1].developer": "Brackwater",
        "times[1].time": "8:00",
        "times[1].presoak": "no",
        "reciprocity.table": "1 s 1,5; 10 s 6",
        "reciprocity.source": "leaflet",
    }
    answer = client.post("/films/new/", post, headers=HOST)
    assert answer.status_code == 302
    film = films.film_list().lines[0].film
    assert film.facts["times"][0]["presoak"] is False
    text = read(client, f"/films/{film.pk}/")
    assert "rests on times alone" in heading(text)
    assert "What would help most" in text
    form = read(client, f"/films/{film.pk}/change/")
    assert "1 s 1.5; 10 s 6" in form.replace("6.0", "6")


def test_a_mistake_stands_beside_its_field_and_nothing_typed_is_lost(client) -> None:
    """A row's wrong time: 422, the sentence at that field, the other fields as they were."""
    post = {"name": "Morvane 320", "times[1].developer": "Brackwater", "times[1].time": "soon"}
    answer = client.post("/films/new/", post, headers=HOST)
    text = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="soon"' in text
    assert 'id="f-times-1-time-m"' in text
    assert films.film_list().total == 0


def test_another_row_needs_no_script(client) -> None:
    """The button sends the form back with an empty row, and writes nothing."""
    post = {"name": "Morvane 320", "times[1].developer": "Brackwater", "times[1].time": "8:00", "act": "row"}
    answer = client.post("/films/new/", post, headers=HOST)
    assert answer.status_code == 200
    assert 'name="times[2].time"' in answer.content.decode()
    assert films.film_list().total == 0


def test_a_test_is_looked_at_before_it_is_kept(client) -> None:
    """A file is shown with chart and table, kept only by a second act, and can be removed and brought back."""
    film = films.save_film({"name": "Tolland 100"})
    address = f"/films/{film.pk}/tests/new/"
    file = SimpleUploadedFile("tolland.csv", CURVES.encode())
    answer = client.post(address, {**TEST, "file": file, "act": "look"}, headers=HOST)
    text = answer.content.decode()
    assert "not kept yet" in heading(text)
    assert "<polyline" in text
    assert not re.search(r"<svg[^>]*style=|<style| style=", text)
    assert "tests" not in films.find_film(film.pk).facts
    pasted = re.search(r'name="readings"[^>]*>(.*?)</textarea>', text, re.DOTALL)[1]
    kept = client.post(address, {**TEST, "readings": pasted, "act": "keep", "revision": "1"}, headers=HOST)
    assert kept.status_code == 302
    assert "1 entr" not in read(client, f"/films/{film.pk}/")
    film = films.find_film(film.pk)
    assert len(film.facts["tests"][0]["rows"]) == len(films_tests.rows_of_answers(ReadingsAnswers(text=CURVES)))
    client.post(f"/films/{film.pk}/tests/0/remove/", {"revision": film.revision}, headers=HOST)
    assert "tests" not in films.find_film(film.pk).facts
    client.post(f"/films/{film.pk}/tests/back/", headers=HOST)
    assert len(films.find_film(film.pk).facts["tests"]) == 1


def test_a_second_time_is_added_to_the_first(client) -> None:
    """Readings of one time are kept, the second time alone is pasted later, and can be taken out again."""
    film = films.save_film({"name": "Tolland 100"})
    lines = [line for line in CURVES.strip().splitlines() if not line.startswith("#")]
    times = sorted({line.split(",")[0] for line in lines[1:]}, key=float)
    first, second = ("\n".join([lines[0], *(x for x in lines[1:] if x.split(",")[0] == t)]) for t in times[:2])
    client.post(f"/films/{film.pk}/tests/new/", {**TEST, "readings": first, "act": "keep"}, headers=HOST)
    page = read(client, f"/films/{film.pk}/")
    assert "?onto=0" in page
    address = f"/films/{film.pk}/tests/new/?onto=0"
    text = read(client, address)
    assert "kept already" in text
    assert 'id="f-developer"' not in text
    before = films.find_film(film.pk)
    sent = {"onto": "0", "readings": second, "revision": before.revision}
    looked = client.post(address, {**sent, "act": "look"}, headers=HOST).content.decode()
    both = len(first.splitlines()) + len(second.splitlines()) - 2
    assert heading(looked).startswith(f"{both} readings")
    assert films.find_film(film.pk).facts == before.facts
    kept = client.post(address, {**sent, "act": "keep"}, headers=HOST)
    assert kept.status_code == 302
    (test,) = films.find_film(film.pk).facts["tests"]
    assert len(test["rows"]) == both
    assert test["developer"] == "Brackwater"
    again = client.post(address, {**sent, "readings": second, "act": "look", "revision": ""}, headers=HOST)
    assert heading(again.content.decode()).startswith(f"{both} readings")
    minutes, log_h, _ = second.splitlines()[1].split(",")[:3]
    other = {**sent, "readings": f"dev_min,log_h,density\n{minutes},{log_h},3.9\n"}
    assert "stands a density of" in client.post(address, other, headers=HOST).content.decode()
    assert "Take them out again" in read(client, kept["Location"])
    client.post(f"/films/{film.pk}/tests/0/part/", headers=HOST)
    assert films.find_film(film.pk).facts == before.facts
    assert client.post(f"/films/{film.pk}/tests/0/part/", headers=HOST).status_code == 404
    assert client.get(f"/films/{film.pk}/tests/new/?onto=7", headers=HOST).status_code == 404


def test_every_error_of_readings_and_conditions_is_told_at_once(client) -> None:
    """A wrong density and a wrong dilution: both are said, with line and field, and nothing is kept."""
    film = films.save_film({"name": "Tolland 100"})
    post = {**TEST, "dilution": "thin", "readings": "dev_min,log_h,density\n5,-2.4,thick\n", "act": "keep"}
    answer = client.post(f"/films/{film.pk}/tests/new/", post, headers=HOST)
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "readings, line 2, density" in text
    assert 'id="f-dilution-m"' in text
    assert heading(text).startswith("2 things")


def test_baths_move_are_added_and_taken_out_without_scripts(client) -> None:
    """Buttons send the form back in its new order; only keeping it writes."""

    def order(act):
        text = client.post("/processes/new/", {**PROCESS, "act": act}, headers=HOST).content.decode()
        return re.findall(r"<legend>\d+\. ([^<]+)</legend>", text)

    assert order("up-3") == ["Develop", "Fix", "Stop"]
    assert order("down-1") == ["Stop", "Develop", "Fix"]
    assert order("up-1") == ["Develop", "Stop", "Fix"]
    assert order("remove-2") == ["Develop", "Fix"]
    assert len(order("add")) == 4
    assert processes.process_list().total == 0


def test_the_first_button_of_a_form_keeps_it(client) -> None:
    """Enter in a field presses the first button: it must not move a bath."""
    text = client.post("/processes/new/", {**PROCESS, "act": "add"}, headers=HOST).content.decode()
    form = text[text.index('<form method="post">') :]
    assert 'name="act"' not in re.search(r"<button[^>]*>", form)[0]


def test_a_changed_process_says_its_new_version(client) -> None:
    """Dilution makes version 2, and its page says so in words; a name does not."""
    client.post("/processes/new/", PROCESS, headers=HOST)
    process = processes.process_list().lines[0].process
    change = {**PROCESS, "dilution": "1+24", "why": "finer", "revision": "1"}
    client.post(f"/processes/{process.pk}/change/", change, headers=HOST)
    text = read(client, f"/processes/{process.pk}/")
    assert heading(text).endswith("version 2")
    assert "Dilution: 1+24 instead of 1+14." in text
    assert "1+14" in read(client, f"/processes/{process.pk}/versions/1/")
    client.post(f"/processes/{process.pk}/change/", {**change, "name": "the drum", "revision": "2"}, headers=HOST)
    assert heading(read(client, f"/processes/{process.pk}/")).endswith("version 2")


def test_an_aim_begins_with_a_paper_test(client) -> None:
    """The counted steps stand in the form, and nothing is kept before it is said so."""
    text = read(client, "/aims/new/?begin=steps&first=5&last=11&paper=graded-paper")
    assert 'value="1.05"' in text
    wrong = client.get("/aims/new/?begin=steps&first=5&last=many&paper=graded-paper", headers=HOST)
    assert wrong.status_code == 422
    assert 'id="f-last-m"' in wrong.content.decode()
    assert client.get("/aims/new/?begin=row&row=nothing", headers=HOST).status_code == 422
    assert aims.aim_list().total == 0


@pytest.mark.parametrize("part", ["film", "developer", "process", "aim"])
def test_each_removal_offers_its_way_back(client, part) -> None:
    """After a removal the list says what is gone, with a button that brings it back."""
    made = {
        "film": lambda: films.save_film({"name": "Tolland 100"}),
        "developer": lambda: developers.save_developer({"name": "Brackwater"}),
        "process": lambda: processes.save_process({"name": "drum", "developer": "Brackwater"}),
        "aim": lambda: aims.save_aim({"name": "grade 2", "for": "graded-paper", "range": "1.05"}),
    }[part]()
    folder = {"film": "films", "developer": "films/developers", "process": "processes", "aim": "aims"}[part]
    answer = client.post(f"/{folder}/{made.pk}/remove/", headers=HOST)
    assert answer.status_code == 302
    text = read(client, answer.headers["Location"])
    assert f"{made.name} is removed." in text
    assert f'action="/{folder}/{made.pk}/back/"' in text
    assert client.post(f"/{folder}/{made.pk}/back/", headers=HOST).status_code == 302
    assert made.name in read(client, f"/{folder}/")


@pytest.mark.parametrize("removed", ["", "nothing", "00000000-0000-0000-0000-000000000000"])
def test_an_address_with_a_wrong_removal_is_a_plain_list(client, removed) -> None:
    """What cannot be found is not offered."""
    assert "Bring it back" not in read(client, f"/films/?removed={removed}&page=x")


def test_pages_ask_few_questions(client, django_assert_max_num_queries) -> None:
    """Film, list and form with 200 films and 2,000 rows of readings stay within twelve."""
    rows = films_tests.rows_of_answers(ReadingsAnswers(text=CURVES))
    for number in range(200):
        film = films.save_film({"name": f"Tolland {number}"})
    for _ in range(20):
        film = films_tests.add_test(film, TEST, rows)
    assert 20 * len(rows) >= 2000
    for address in ("/films/", f"/films/{film.pk}/", f"/films/{film.pk}/change/", "/processes/", "/aims/"):
        with django_assert_max_num_queries(12):
            read(client, address)


def test_pages_of_films_load_no_solver() -> None:
    """Importing the pages brings neither scipy nor numpy."""
    import subprocess
    import sys

    program = (
        "import os, sys, tempfile; os.environ['WETSIDE_DATA'] = tempfile.mkdtemp(); "
        "os.environ['DJANGO_SETTINGS_MODULE'] = 'wetside.web.settings'; import django; django.setup(); "
        "import wetside.web.urls.evidence; print({'scipy', 'numpy'} & set(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"
