"""Pages of processes, without a browser: baths in their order, versions that are never rewritten, removals undone."""

from __future__ import annotations

import datetime as dt
import re
from typing import Any

import pytest

from wetside.records.models import Film, Plan, Process, Sheet
from wetside.services.records import processes
from wetside.services.records.changes import make, remove

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}
SENT = {
    "name": "drum, one shot",
    "developer": "Brackwater",
    "dilution": "1+14",
    "temp": "20 C",
    "baths[1].does": "develop",
    "baths[2].does": "stop",
    "baths[2].time": "0:30",
    "baths[3].does": "fix",
    "baths[3].time": "5:00",
}
RAW = {
    "name": "drum, one shot",
    "developer": "Brackwater",
    "dilution": "1+14",
    "temp": "20 C",
    "baths": [{"does": "develop"}, {"does": "stop", "time": "0:30"}, {"does": "fix", "time": "5:00"}],
}


@pytest.fixture
def get(client: Any) -> Any:
    return lambda address: client.get(address, headers=HOST)


@pytest.fixture
def post(client: Any) -> Any:
    return lambda address, **sent: client.post(address, sent, headers=HOST)


def words(answer: Any) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.content.decode()))


def heading(answer: Any) -> str:
    found = re.search(r"<h1>(.*?)</h1>", answer.content.decode(), re.DOTALL)
    assert found
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", found[1])).strip()


def add(post: Any) -> Process:
    answer = post("/processes/new/", **SENT)
    assert answer.status_code == 302, words(answer)
    return Process.objects.get()


def legends(answer: Any) -> list[str]:
    return re.findall(r"<legend>(\d+\. [^<]+)</legend>", answer.content.decode())


def test_a_new_form_begins_with_the_plain_baths(get: Any) -> None:
    """Nobody types what everybody does."""
    assert [legend.partition(". ")[2] for legend in legends(get("/processes/new/"))][:3] == ["Develop", "Stop", "Fix"]


def test_baths_move_and_go_without_being_kept(post: Any) -> None:
    """Each act shows the new order; only the last button writes."""
    assert legends(post("/processes/new/", act="down-2", **SENT)) == ["1. Develop", "2. Fix", "3. Stop"]
    assert legends(post("/processes/new/", act="up-1", **SENT)) == ["1. Develop", "2. Stop", "3. Fix"]
    assert legends(post("/processes/new/", act="remove-2", **SENT)) == ["1. Develop", "2. Fix"]
    assert len(legends(post("/processes/new/", act="add", **SENT))) == 4
    assert Process.objects.count() == 0


@pytest.mark.parametrize("act", ["up-99", "down-0", "remove-4444", "sideways-1", "up-"])
def test_an_act_on_no_bath_breaks_nothing(post: Any, act: str) -> None:
    """A page that was left open, or a slip of an address."""
    assert post("/processes/new/", act=act, **SENT).status_code in (200, 302)


@pytest.mark.parametrize(
    ("changed", "sentence"),
    [
        ({"dilution": "1+24"}, "1+24 instead of 1+14"),
        ({"temp": "75.2 F"}, "24 C instead of 20 C"),
        ({"clock": "pour-to-drain"}, "pour to drain instead of full to drain"),
        ({"way": "stand"}, "stand instead of one bath"),
        ({"baths[2].time": "0:45"}, "45 s instead of 30 s"),
        ({"baths[4].does": "wash", "baths[4].time": "10:00"}, "Bath 4 is new: Wash"),
    ],
)
def test_what_matters_is_a_new_version_and_is_told(get: Any, post: Any, changed: dict[str, str], sentence: str) -> None:
    """The page names the difference; the older version stays readable."""
    process = add(post)
    sent = SENT | changed | {"revision": str(process.revision), "why": "even skies"}
    assert post(f"/processes/{process.pk}/change/", **sent).status_code == 302
    page = get(f"/processes/{process.pk}/")
    assert heading(page).endswith("version 2")
    assert sentence in words(page)
    assert "even skies" in words(page)
    assert "no longer the newest" in words(get(f"/processes/{process.pk}/versions/1/"))


def test_a_presoak_in_front_is_a_new_version_with_the_makers_advice(get: Any, post: Any) -> None:
    """Who advises against it is named with the source."""
    process = add(post)
    rows = {key.replace("baths[", "baths[1"): value for key, value in SENT.items() if key.startswith("baths")}
    sent = {key: value for key, value in SENT.items() if not key.startswith("baths")} | rows
    sent |= {"baths[1].does": "presoak", "baths[1].time": "2:00"}
    assert post(f"/processes/{process.pk}/change/", **sent).status_code == 302
    text = words(get(f"/processes/{process.pk}/"))
    assert "Bath 1 is new: Presoak" in text
    assert "ILFORD" in text


def test_a_name_and_a_note_are_no_version(get: Any, post: Any) -> None:
    """And the page says so."""
    process = add(post)
    answer = post(f"/processes/{process.pk}/change/", **(SENT | {"name": "the drum", "note": "door side"}))
    assert "its version 1 stays as it is" in words(get(answer.headers["Location"]))
    assert heading(get(f"/processes/{process.pk}/")) == "the drum: 3 baths, version 1"


def test_mistakes_of_baths_stand_at_their_fields(post: Any) -> None:
    """Both at once; what was typed stays; nothing is written."""
    answer = post("/processes/new/", **(SENT | {"baths[2].time": "a moment", "temp": "warm"}))
    text = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="a moment"' in text
    assert 'value="warm"' in text
    assert text.count('class="mistake"') == 2
    assert Process.objects.count() == 0


def test_two_pages_do_not_make_the_same_version(post: Any) -> None:
    """The later page is refused and keeps what was typed."""
    process = add(post)
    seen = {"revision": str(process.revision)}
    assert post(f"/processes/{process.pk}/change/", **(SENT | seen | {"dilution": "1+24"})).status_code == 302
    late = post(f"/processes/{process.pk}/change/", **(SENT | seen | {"dilution": "1+9"}))
    assert late.status_code == 422
    assert 'value="1+9"' in late.content.decode()
    assert process.versions.count() == 2


def test_a_process_in_use_stays_with_a_clear_sentence(get: Any, post: Any) -> None:
    """While sheets wait for it; afterwards it goes, stays readable by version, and comes back."""
    process = add(post)
    sheet = make(Sheet, {"label": "larch", "film": make(Film, {"name": "Tolland 100"}), "process": process})
    refused = post(f"/processes/{process.pk}/remove/")
    assert refused.status_code == 422
    assert "drum, one shot" in words(refused)
    sheet.state = "lost"
    sheet.save()
    plan = make(Plan, {"name": "Friday's evening", "choices": {"process": str(process.pk)}})
    chosen = post(f"/processes/{process.pk}/remove/")
    assert chosen.status_code == 422
    assert "Friday&#x27;s evening" in chosen.content.decode()
    remove(plan, dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC))
    gone = post(f"/processes/{process.pk}/remove/")
    assert heading(get(gone.headers["Location"])) == "No processes yet"
    assert get(f"/processes/{process.pk}/versions/1/").status_code == 200
    post(f"/processes/{process.pk}/back/")
    assert heading(get("/processes/")).startswith("One process")


def test_a_phone_is_told_what_each_value_of_a_bath_is(get: Any, post: Any) -> None:
    """Every cell beside the bath's name carries the heading that the phone hides."""
    body = get(f"/processes/{add(post).pk}/").content.decode()
    table = body[body.index("<tbody>") : body.index("</tbody>")]
    cells = re.findall(r"<td([^>]*)>", table)
    assert len(cells) == 3 * 4
    assert all("data-name=" in cell for cell in cells)


def test_pages_ask_few_questions_whatever_the_archive_holds(get: Any, django_assert_max_num_queries: Any) -> None:
    """Sixty processes, one of them with forty versions."""
    for number in range(60):
        process = processes.save_process(RAW | {"name": f"drum {number}"})
    for parts in range(15, 55):
        process = processes.save_process(RAW | {"name": "drum 59", "dilution": f"1+{parts}"}, process)
    page = f"/processes/{process.pk}/"
    for address in ("/processes/", page, f"{page}change/", f"{page}versions/3/"):
        with django_assert_max_num_queries(12):
            assert get(address).status_code == 200
