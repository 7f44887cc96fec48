"""The darkroom's page, without a browser: settings, names in the history, backups, an export, what was removed."""

from __future__ import annotations

import datetime as dt
import io
import json
import re
import zipfile
from typing import TYPE_CHECKING, Any
from uuid import uuid4

import pytest
from django.apps import apps
from django.utils import timezone

from wetside.adapters import backup_store as store
from wetside.adapters.clock import now
from wetside.records import models
from wetside.services.records import changes, removed
from wetside.services.records.darkroom import darkroom_settings
from wetside.services.records.ledger import NewLine, book
from wetside.web.views.darkroom import KINDS, age_in_words

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}
AT = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


@pytest.fixture(autouse=True)
def clock_of_utc() -> Iterator[None]:
    """Whatever zone a page has set, the next test begins without."""
    yield
    timezone.deactivate()


@pytest.fixture
def folder(tmp_path: Path, settings: Any) -> Path:
    settings.DATA_FOLDER = tmp_path
    return tmp_path


@pytest.fixture
def get(client: Any, folder: Path) -> Any:
    del folder
    return lambda address: client.get(address, headers=HOST)


@pytest.fixture
def post(client: Any, folder: Path) -> Any:
    del folder
    return lambda address, **sent: client.post(address, sent, headers=HOST)


def heading(answer: Any) -> str:
    found = re.search(r"<h1>(.*?)</h1>", answer.content.decode(), re.DOTALL)
    assert found
    return re.sub(r"\s+", " ", found[1].replace("\N{NO-BREAK SPACE}", " ")).strip()


def told_backup(folder: Path, age: dt.timedelta, size: int = 9) -> store.Backup:
    """A backup's file with its note."""
    made = now() - age
    name = store.name_for(made, "asked", "sqlite")
    backup = store.Backup(
        name, made, "asked", "sqlite", size, "0" * 64, {"records_sheet": 1234}, "0001", "a", "wetside"
    )
    (store.backups_folder(folder) / name).write_bytes(b"9 letters")
    store.write_note(folder, backup)
    return backup


def of_every_kind() -> list[models.Kept]:
    """One record of each kind, the later ones resting on the earlier."""
    film = changes.make(models.Film, {"name": "Tolland 100"})
    holder = changes.make(models.Holder, {"name": "7"})
    side = changes.make(models.HolderSide, {"holder": holder, "side": "left"})
    plan = changes.make(models.Plan, {"name": "Friday"})
    return [
        film,
        changes.make(models.FilmLot, {"film": film, "number": "L 12"}),
        changes.make(models.Developer, {"name": "Brackwater"}),
        holder,
        side,
        changes.make(models.Sheet, {"label": "K 1", "film": film, "size": "4x5in"}),
        changes.make(models.Bottle, {"mark": "D", "holds": "Brackwater", "role": "developer"}),
        changes.make(models.Vessel, {"name": "short drum", "kind": "drum", "min_ml": 300, "max_ml": 1000}),
        changes.make(models.Instrument, {"name": "long glass one", "kind": "thermometer"}),
        changes.make(models.Process, {"name": "usual"}),
        changes.make(models.Aim, {"name": "grade two", "printing": "graded-paper", "density_range": 1.05}),
        plan,
        changes.make(models.Run, {"name": "Friday, load 1", "plan": plan}),
        changes.make(models.Run, {"name": "out of a log"}),
    ]


def test_the_title_tells_the_age_of_the_newest_backup_that_is_whole(get: Any, folder: Path) -> None:
    """A backup whose file has changed is marked, and does not count."""
    assert heading(get("/darkroom/")) == "Everything is kept, but there is no backup to go back to"
    told_backup(folder, dt.timedelta(hours=2, minutes=10))
    harmed = told_backup(folder, dt.timedelta(minutes=10), size=10)
    page = get("/darkroom/")
    assert heading(page) == "Everything is kept; the newest backup is two hours old"
    text = page.content.decode()
    assert "1234" in text
    assert "changed or gone since" in text
    assert harmed.name in text
    (folder / "backups" / harmed.name).unlink()
    assert "changed or gone since" not in get("/darkroom/").content.decode(), "without its file it is no backup at all"


@pytest.mark.parametrize(
    ("age", "said"),
    [
        (dt.timedelta(seconds=-3), "less than a minute"),
        (dt.timedelta(seconds=59), "less than a minute"),
        (dt.timedelta(minutes=1), "one minute"),
        (dt.timedelta(minutes=59), "59 minutes"),
        (dt.timedelta(minutes=60), "one hour"),
        (dt.timedelta(hours=47), "47 hours"),
        (dt.timedelta(days=2), "two days"),
    ],
)
def test_an_age_is_said_in_words(age: dt.timedelta, said: str) -> None:
    """Never older than it is."""
    assert age_in_words(age) == said


def test_settings_are_kept_with_a_history_and_followed_by_the_pages(get: Any, post: Any) -> None:
    """Units and decimal sign show on the shelf at once; who changed them stands in the history."""
    bottle = {"mark": "D", "holds": "Brackwater", "role": "developer", "volume": "500"}
    made = post("/shelf/bottles/new/", **bottle).headers["Location"]
    assert "500\N{NO-BREAK SPACE}ml" in get(made).content.decode()
    post("/darkroom/worker/", worker="  Ines  Tal ")
    sent = {"units": "us", "decimal_sign": "comma", "paper": "letter", "time_zone": "europe/berlin"}
    assert post("/darkroom/", name="The cellar", revision="0", **sent).status_code == 302
    kept = darkroom_settings()
    assert (kept.name, kept.units, kept.decimal_sign) == ("The cellar", "us", "comma")
    assert (kept.paper, kept.time_zone) == ("letter", "Europe/Berlin")
    assert "16,9\N{NO-BREAK SPACE}fl\N{NO-BREAK SPACE}oz" in get(made).content.decode()
    assert changes.history_of(kept)[0].by == "Ines Tal"
    again = post("/darkroom/", name="Another", revision="0")
    assert again.status_code == 422
    assert "was changed on another page" in again.content.decode()


def test_a_mistake_stands_beside_its_field_and_nothing_is_written(post: Any) -> None:
    """All of them at once; what was typed stays."""
    answer = post("/darkroom/", name=" ", units="furlongs", time_zone="Europe/Berln", revision="0")
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "The darkroom needs a name" in text
    assert "Did you mean Europe/Berlin?" in text
    assert 'value="Europe/Berln"' in text
    assert text.count('class="mistake"') == 3
    assert not models.Darkroom.objects.exists()
    assert "Did you mean America/Sao_Paulo?" in post("/darkroom/", time_zone="Sao Paolo").content.decode()
    nowhere = post("/darkroom/", time_zone="<nowhere at all>")
    assert "There is no time zone" in nowhere.content.decode()
    assert "<nowhere" not in nowhere.content.decode()


def test_a_name_that_is_too_long_is_refused_and_an_empty_one_forgets(client: Any, post: Any) -> None:
    """The name belongs to this device."""
    assert post("/darkroom/worker/", worker="x" * 121).status_code == 422
    post("/darkroom/worker/", worker="Ines")
    assert client.session["worker"] == "Ines"
    post("/darkroom/worker/", worker="")
    assert "worker" not in client.session


def test_an_export_is_a_zip_of_everything(get: Any) -> None:
    """Its index counts what is there, and it leaves nothing behind in the folder."""
    changes.make(models.Film, {"name": "Tolland 100"})
    answer = get("/darkroom/export.zip")
    assert answer.headers["Content-Type"] == "application/zip"
    assert re.fullmatch(r'attachment; filename="wetside-\d{4}-\d\d-\d\d\.zip"', answer.headers["Content-Disposition"])
    with zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content))) as found:
        index = json.loads(found.read("index.json"))
        assert index["format"] == 1
        assert index["tables"]["film"]["rows"] == 1
        assert b"Tolland 100" in found.read(index["tables"]["film"]["file"])


def test_every_kind_of_record_is_in_the_bin_or_comes_with_another() -> None:
    """A kind that is new to the records must be brought in here."""
    kept = {model for model in apps.get_app_config("records").get_models() if issubclass(model, models.Kept)}
    assert kept == {*removed.LABELS, *removed.WITH_OTHERS, models.Darkroom}
    assert set(KINDS) == {removed.kind_of(model) for model in removed.LABELS}


def test_everything_removed_comes_back(get: Any, post: Any) -> None:
    """Each kind by its own button; sides with their holder, loads with their plan."""
    made = of_every_kind()
    for record in made:
        changes.remove(record, AT)
    text = get("/darkroom/removed/").content.decode()
    assert heading(get("/darkroom/removed/")) == "Twelve records are removed, and can be brought back"
    for called in ("Tolland 100 L 12", "D Brackwater", "K 1", "grade two", "lot of film", "2026-11-25 20:00"):
        assert called in text
    ways = re.findall(r'action="(/darkroom/removed/[^"]*/back/)"', text)
    assert len(ways) == len(removed.LABELS)
    for way in ways:
        assert post(way).status_code == 302
    assert heading(get("/darkroom/removed/")) == "Nothing is removed"
    assert not [record for record in made if type(record).objects.get(pk=record.pk).removed_at]


def test_bringing_back_twice_changes_nothing(post: Any) -> None:
    """A second tap on the same button is harmless, also for a sheet in a holder side that it fills itself."""
    film = changes.make(models.Film, {"name": "Tolland 100"})
    holder = changes.make(models.Holder, {"name": "7"})
    side = changes.make(models.HolderSide, {"holder": holder, "side": "left", "state": "exposed", "film": film})
    sheet = changes.make(models.Sheet, {"holder": "7 left", "side": side, "film": film, "size": "4x5in"})
    post(f"/darkroom/removed/sheet/{sheet.pk}/back/")
    assert models.Sheet.objects.get(pk=sheet.pk).side_id == side.pk


def test_a_name_taken_meanwhile_and_a_kind_unknown_are_told(post: Any) -> None:
    """Nothing is written, and the page says why."""
    film = changes.make(models.Film, {"name": "Tolland 100"})
    changes.remove(film, AT)
    changes.make(models.Film, {"name": "Tolland 100"})
    answer = post(f"/darkroom/removed/film/{film.pk}/back/")
    assert answer.status_code == 422
    assert models.Film.objects.get(pk=film.pk).removed_at == AT
    assert post(f"/darkroom/removed/secret/{uuid4()}/back/").status_code == 404
    assert post(f"/darkroom/removed/film/{uuid4()}/back/").status_code == 404


def test_pages_of_a_large_bin_cost_few_queries(get: Any, django_assert_max_num_queries: Any) -> None:
    """The bin is paged in the database, the last removed first."""
    for number in range(85):
        film = changes.make(models.Film, {"name": f"Tolland {number}"})
        changes.remove(film, AT + dt.timedelta(minutes=number))
    with django_assert_max_num_queries(12):
        assert "85 removed records can be brought back" in get("/darkroom/").content.decode()
    with django_assert_max_num_queries(12):
        last = get("/darkroom/removed/?page=3").content.decode()
    assert "Tolland 4<" in last
    assert "Tolland 5<" not in last
    assert "Page 3 of 3" in last
    assert "Tolland 84<" in get("/darkroom/removed/").content.decode()


def test_the_second_half_past_two_of_the_night_in_which_clocks_go_back(get: Any, post: Any) -> None:
    """Berlin, 25 October 2026: 00:30 UTC and 01:30 UTC are both 02:30 there; the order is that of the moments.

    EU directive 2000/84/EC: summer time ends at 1.00 a.m. UTC on the last Sunday of October.
    """
    post("/darkroom/", time_zone="Europe/Berlin")
    for name, hour, minute in (("first", 0, 30), ("second", 1, 30), ("between", 0, 59)):
        moment = dt.datetime(2026, 10, 25, hour, minute, tzinfo=dt.UTC)
        changes.remove(changes.make(models.Film, {"name": name}), moment)
    text = get("/darkroom/removed/").content.decode()
    rows = re.findall(r'<th scope="row">(\w+)</th>.*?(\d{4}-\d\d-\d\d \d\d:\d\d)', text, re.DOTALL)
    assert rows == [("second", "2026-10-25 02:30"), ("between", "2026-10-25 02:59"), ("first", "2026-10-25 02:30")]


def test_a_bottle_entry_of_that_night_shows_local_time_and_stays_in_order(get: Any, post: Any) -> None:
    """The ledger goes by its numbers and moments, not by what the clock on the wall said."""
    post("/darkroom/", time_zone="Europe/Berlin")
    made = post("/shelf/bottles/new/", mark="D", holds="Brackwater", role="developer", volume="500").headers["Location"]
    bottle = models.Bottle.objects.get()
    for amount, hour, minute in ((100, 0, 45), (50, 1, 30)):
        line = NewLine(models.BottleLineKind.COUNTED, amount)
        book(bottle.pk, line, dt.datetime(2026, 10, 25, hour, minute, tzinfo=dt.UTC))
    text = get(made).content.decode()
    wanted = ["2026-10-25 02:30 (UTC+1)", "2026-10-25 02:45 (UTC+2)"]
    assert re.findall(r'class="nowrap">(2026-10-25 [^<]*)</td>', text) == wanted
    assert heading(get(made)) == "D: 50 ml of Brackwater"
