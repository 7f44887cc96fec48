"""Pages of sheets, holders and lists, without a browser and without scripts."""

from __future__ import annotations

import datetime as dt
import io
import json
import re

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection

from wetside.records.models import Film, Holder, HolderSide, Receipt, Sheet
from wetside.services.records.changes import find, make
from wetside.services.records.holders import keep_lot, make_holders
from wetside.services.records.sheets import add_sheet

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}
TODAY = dt.date.today()  # noqa: DTZ011, TID251 (the pages ask the same clock)


@pytest.fixture
def tolland() -> Film:
    return make(Film, {"name": "Tolland 100", "ei": 80.0})


def get(client, address, status=200):
    answer = client.get(address, headers=HOST)
    assert answer.status_code == status, answer.content.decode()[:2000]
    return answer.content.decode()


def post(client, address, fields, status=302):
    answer = client.post(address, fields, headers=HOST)
    assert answer.status_code == status, answer.content.decode()[:3000]
    return answer


def title(text: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", "", re.search(r"<h1[^>]*>(.*?)</h1>", text, re.DOTALL)[1]).split())


def test_the_title_of_the_list_is_its_answer(client, tolland) -> None:
    """How many wait, and since when the oldest."""
    assert title(get(client, "/sheets/")) == "No sheet waits"
    add_sheet({"holder": "3 left", "film": "Tolland 100", "exposed": f"{TODAY.year - 1}-11-07"})
    assert title(get(client, "/sheets/")) == f"One sheet waits; the oldest since 7 November {TODAY.year - 1}"
    add_sheet({"holder": "3 right", "film": "Tolland 100", "suspect": True, "importance": "irreplaceable"})
    text = get(client, "/sheets/")
    assert title(text).startswith("Two sheets wait; ")
    assert "suspect" in text
    assert "irreplaceable" in text


def test_a_list_of_twenty_thousand_costs_twelve_queries(client, tolland, django_assert_max_num_queries) -> None:
    """The page as a whole, the settings of the darkroom among them."""
    Sheet.objects.bulk_create(
        Sheet(label=f"{number}", label_key=f"{number}", film=tolland, exposed=TODAY) for number in range(20_000)
    )
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")  # as a served database has it after a while; PostgreSQL plans by it
    for address in ("/sheets/?page=77", "/sheets/?show=developed", "/sheets/new/", "/holders/", "/holders/lots/"):
        with django_assert_max_num_queries(12):
            get(client, address)
    sheet = Sheet.objects.first()
    with django_assert_max_num_queries(12):
        get(client, f"/sheets/{sheet.pk}/")


def test_what_was_ticked_goes_on_to_a_plan(client, tolland) -> None:
    """As one list of identities; nothing ticked is told."""
    keys = [str(add_sheet({"label": label, "film": "Tolland 100"}).pk) for label in ("a", "b")]
    answer = client.get("/sheets/pick/", {"sheet": [*keys, keys[0], "x"]}, headers=HOST)
    assert answer.headers["Location"] == f"/plans/new/?sheets={keys[0]},{keys[1]}"
    assert client.get("/sheets/pick/", headers=HOST).headers["Location"] == "/sheets/?none=1"
    assert "No sheet was ticked" in get(client, "/sheets/?none=1")


def test_a_row_is_kept_without_scripts_and_the_next_one_begun(client, tolland) -> None:
    """Carry-over by the server; the film stays, the side goes on."""
    post(client, "/sheets/new/", {"holder": "3 left", "film": "Tolland 100", "size": "9x12cm", "exposed": "2026-11-07"})
    text = get(client, "/sheets/new/")
    assert title(text) == "Next: 3 right"
    for value in ("3 right", "Tolland 100", "9x12cm", "2026-11-07"):
        assert f'value="{value}"' in text


def test_a_mistake_stands_beside_its_field_and_what_was_typed_stays(client, tolland) -> None:
    """And an unknown film offers to be made."""
    text = post(client, "/sheets/new/", {"holder": "3 left", "film": "Quern", "n": "N-9"}, 422).content.decode()
    assert 'value="Quern"' in text
    assert "N-9" in text
    assert not Sheet.objects.exists()
    text = post(client, "/sheets/new/", {"holder": "3 left", "film": "Quern"}, 422).content.decode()
    assert re.search(r'<div class="offer" data-offer>', text)
    assert "There is no film" in text
    post(client, "/sheets/new/", {"holder": "3 left", "film": "Quern", "make_film": "on"})
    assert Sheet.objects.get().film.name == "Quern"


def test_a_sheets_page_shows_exposure_readings_and_mishaps(client, tolland) -> None:
    """Each step with its time, N, and the stop error of each mishap."""
    sheet = add_sheet(
        {
            "holder": "3 left",
            "film": "Tolland 100",
            "meant": {"time": "2 s", "filter": 4.0, "extension": "450 mm", "focal": "300 mm"},
            "shadow": {"ev": 9.0, "zone": 3.0},
            "highlight": {"ev": 15.0, "zone": 8.0},
        }
    )
    text = get(client, f"/sheets/{sheet.pk}/")
    assert title(text) == "3 left: Tolland 100"
    assert "N\N{MINUS SIGN}1 asked for by the readings" in text
    assert "Give 18 s" in text
    assert "\N{MINUS SIGN}1¼ stops on the film: under" in text
    assert "Give the rating that was set" in text


def test_a_mishap_is_one_tap_that_keeps_what_was_typed(client, tolland) -> None:
    """The button sends the form as it stands."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    fields = {
        "holder": "3 left",
        "film": "Tolland 100",
        "revision": "1",
        "meant.filter": "4",
        "tap": "filter-forgotten",
    }
    post(client, f"/sheets/{sheet.pk}/", fields)
    assert find(Sheet, sheet.pk).facts == {"meant": {"filter": 4.0}, "mishaps": ["filter-forgotten"]}
    text = get(client, f"/sheets/{sheet.pk}/")
    assert re.search(r'value="filter-forgotten" aria-pressed="true"', text)
    assert "\N{MINUS SIGN}2 stops on the film: under" in text


def test_a_mishap_that_cannot_be_reckoned_yet_is_not_nothing(client, tolland) -> None:
    """A forgotten filter without its factor went wrong all the same."""
    sheet = add_sheet({"label": "5", "film": "Tolland 100"})
    fields = {"label": "5", "film": "Tolland 100", "meant.time": "2 s"}
    page = f"/sheets/{sheet.pk}/reckon/"
    assert "Nothing went wrong" in post(client, page, fields, 200).content.decode()
    told = post(client, page, {**fields, "mishaps": "filter-forgotten"}, 200).content.decode()
    assert "What it is on the film is not known yet" in told
    assert "its factor is missing" in told
    assert "Nothing went wrong" not in told
    known = {**fields, "mishaps": "filter-forgotten", "meant.filter": "4"}
    assert "\N{MINUS SIGN}2 stops on the film" in post(client, page, known, 200).content.decode()


def test_the_reckoning_follows_what_is_typed_and_writes_nothing(client, tolland) -> None:
    """Also where a field cannot be read yet."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    fields = {"holder": "3 left", "film": "Tolland 100", "meant.time": "2 s", "meant.filter": "4"}
    assert "Give 8 s" in post(client, f"/sheets/{sheet.pk}/reckon/", fields, 200).content.decode()
    wrong = post(client, f"/sheets/{sheet.pk}/reckon/", {**fields, "meant.filter": "0"}, 200).content.decode()
    assert "meant.filter" in wrong
    assert find(Sheet, sheet.pk).revision == 1


def test_another_page_was_faster(client, tolland) -> None:
    """Told above the form, and nothing overwritten."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    fields = {"holder": "3 left", "film": "Tolland 100", "revision": "1", "n": "N-1"}
    post(client, f"/sheets/{sheet.pk}/", fields)
    text = post(client, f"/sheets/{sheet.pk}/", {**fields, "n": "N+1"}, 422).content.decode()
    assert "was changed on another page" in text
    assert find(Sheet, sheet.pk).n == -1.0


def test_every_way_of_a_sheet_has_its_way_back(client, tolland) -> None:
    """Corrected, removed, lost, developed."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    post(client, f"/sheets/{sheet.pk}/", {"holder": "3 left", "film": "Tolland 100", "n": "N-1"})
    post(client, f"/sheets/{sheet.pk}/undo/", {"revision": "2"})
    assert find(Sheet, sheet.pk).n is None
    for no_number in ("\N{SUPERSCRIPT TWO}", "9" * 5000):
        post(client, f"/sheets/{sheet.pk}/undo/", {"revision": no_number})
    assert find(Sheet, sheet.pk).n is None
    gone = post(client, f"/sheets/{sheet.pk}/remove/", {})
    assert "Bring it back" in get(client, gone.headers["Location"])
    assert "Bring it back" in get(client, "/sheets/?show=removed")
    assert "Bring it back" in get(client, f"/sheets/{sheet.pk}/")
    post(client, f"/sheets/{sheet.pk}/back/", {})
    for state in ("lost", "developed"):
        post(client, f"/sheets/{sheet.pk}/end/", {"state": state, "negative": "sleeve 12"})
        assert "3 left" in get(client, f"/sheets/?show={state}")
        post(client, f"/sheets/{sheet.pk}/wait/", {})
    assert find(Sheet, sheet.pk).state == "waiting"
    post(client, f"/sheets/{sheet.pk}/end/", {"state": "eaten"}, 422)


def test_a_list_is_looked_through_and_kept(client, tolland) -> None:
    """Pasted, then confirmed; the second time it is known."""
    pasted = "holder\tfilm\tn\n3 left\tTolland 100\tN-1\n3 right\tQuern\t\n"
    text = post(client, "/sheets/list/", {"pasted": pasted}, 200).content.decode()
    assert title(text) == "2 sheets can be kept"
    assert "Quern" in text
    from html import unescape

    packed = unescape(re.search(r'name="packed" value="([^"]*)"', text)[1])
    post(client, "/sheets/list/keep/", {"name": "pasted rows", "packed": packed})
    assert Sheet.objects.count() == 2
    again = post(client, "/sheets/list/", {"pasted": pasted}, 200).content.decode()
    assert title(again) == "This list was kept before"
    post(client, "/sheets/list/keep/", {"name": "pasted rows", "packed": packed})
    assert Sheet.objects.count() == 2


def test_a_list_with_mistakes_is_shown_whole(client, tolland) -> None:
    """The rows to mend stand below; nothing can be kept."""
    pasted = "holder\tfilm\tn\n3 left\tTolland 100\tN-9\n3 right\tTolland 100\t\n"
    text = post(client, "/sheets/list/", {"pasted": pasted}, 422).content.decode()
    assert title(text) == "1 of 2 rows has a mistake"
    assert "Keep all of them" not in text
    assert "3 right\tTolland 100" in text
    assert "Paste some rows" in post(client, "/sheets/list/", {"pasted": " "}, 422).content.decode()


def test_files_are_taken_by_what_they_are(client, tolland) -> None:
    """A workbook, a CSV, and what is neither."""
    import openpyxl

    book = openpyxl.Workbook()
    book.active.append(["holder", "film"])
    book.active.append(["3 left", "Tolland 100"])
    kept = io.BytesIO()
    book.save(kept)
    for name, data, status in (
        ("list.xlsx", kept.getvalue(), 200),
        ("list.csv", b"holder;film\n4 left;Tolland 100\n", 200),
        ("list.xlsx", b"not a workbook", 422),
        ("list.csv", b"\x00\x01", 422),
        ("large.csv", b"holder,film\n" + b" " * 5_000_001, 422),
    ):
        post(client, "/sheets/list/", {"file": SimpleUploadedFile(name, data)}, status)


def test_holders_are_made_loaded_exposed_and_taken_back(client, tolland) -> None:
    """By plain forms."""
    assert title(get(client, "/holders/")) == "No holders yet"
    post(client, "/holders/new/", {"holders": "3 to 4", "sides": "left, right", "size": "9x12cm", "notch": ""})
    post(client, "/holders/load/", {"holders": "3 to 4", "film": "Tolland 100"})
    assert title(get(client, "/holders/")) == "Four sides loaded, no sides exposed"
    side = HolderSide.kept.first()
    post(client, "/holders/move/", {"side": str(side.pk), "move": "expose"})
    assert title(get(client, "/holders/")) == "Three sides loaded, one side exposed"
    text = post(client, "/holders/move/", {"side": str(side.pk), "move": "expose"}, 422).content.decode()
    assert "only a loaded side can be exposed" in text
    post(client, "/holders/move/", {"side": str(side.pk), "move": "take-back"})
    assert not Sheet.kept.exists()
    text = post(client, "/holders/load/", {"holders": "9", "film": "Tolland 100"}, 422).content.decode()
    assert "There is no holder or side" in text
    assert 'value="9"' in text
    post(client, "/holders/new/", {"holders": "9 to 3", "sides": "left"}, 422)


def test_a_holder_its_notch_and_its_way_back(client, tolland) -> None:
    """Found by the notch, corrected, removed, brought back."""
    (holder,) = make_holders("3")
    post(client, f"/holders/{holder.pk}/", {"name": "3", "size": "", "notch": "V U", "note": "leaks", "revision": "1"})
    assert title(get(client, "/holders/?notch=v+u")) == "1 holder has the notch v u"
    post(client, f"/holders/{holder.pk}/", {"name": "", "size": "", "notch": "", "note": ""}, 422)
    add_sheet({"holder": "3 left", "film": "Tolland 100"})
    assert title(get(client, f"/holders/{holder.pk}/")) == "Holder 3: 1 sheet was in it"
    post(client, f"/holders/{holder.pk}/remove/", {}, 422)
    side = HolderSide.kept.get(side="left")
    post(client, "/holders/move/", {"side": str(side.pk), "move": "unload"})
    gone = post(client, f"/holders/{holder.pk}/remove/", {})
    assert "Bring it back" in get(client, gone.headers["Location"])
    post(client, f"/holders/{holder.pk}/back/", {})
    assert Holder.kept.exists()


def test_where_a_negative_is_kept_is_noted_late(client, tolland) -> None:
    """Of a sheet that was developed before it was entered; never cut, and not before there is a negative."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100", "done": True})
    address = f"/sheets/{sheet.pk}/end/"
    post(client, address, {"state": "kept", "negative": "sleeve 12,  3"})
    assert find(Sheet, sheet.pk).negative == "sleeve 12, 3"
    post(client, address, {"state": "kept", "negative": "x" * 121}, 422)
    assert find(Sheet, sheet.pk).negative == "sleeve 12, 3"
    waits = add_sheet({"holder": "4 left", "film": "Tolland 100"})
    post(client, f"/sheets/{waits.pk}/end/", {"state": "kept", "negative": "sleeve 1"}, 422)
    post(client, f"/sheets/{waits.pk}/end/", {"state": "developed", "negative": "x" * 121}, 422)
    assert find(Sheet, waits.pk).state == "waiting"


def test_lots_warn_and_come_back(client, tolland) -> None:
    """Past its date is said in the title."""
    assert title(get(client, "/holders/lots/")) == "No lots yet"
    post(client, "/holders/lots/", {"film": "Tolland 100", "number": "4711", "expires": "2020-01-01"})
    assert title(get(client, "/holders/lots/")) == "One lot, 1 past its date"
    post(client, "/holders/lots/", {"film": "Quern", "number": "1"}, 422)
    post(client, "/holders/lots/", {"film": "Tolland 100", "number": "3", "bought": "9" * 5000}, 422)
    lot = keep_lot("Tolland 100", "2")
    gone = post(client, f"/holders/lots/{lot.pk}/remove/", {})
    assert "Bring it back" in get(client, gone.headers["Location"])
    post(client, f"/holders/lots/{lot.pk}/back/", {})


def hand(client, number, fields, kind="sheet.add", device="0123456789abcdef"):
    body = {"device": device, "number": number, "kind": kind, "fields": fields}
    return client.post("/outbox/", json.dumps(body), content_type="application/json", headers=HOST)


def test_the_outbox_takes_each_number_once(client, tolland) -> None:
    """The same answer, and one receipt."""
    row = {"holder": ["3 left"], "film": ["Tolland 100"]}
    first, second = hand(client, 1, row), hand(client, 1, row)
    assert (first.status_code, second.status_code) == (200, 200)
    assert {**first.json(), "again": True} == second.json()
    assert Sheet.objects.count() == Receipt.objects.count() == 1
    wrong = hand(client, 2, {"holder": ["4 left"], "film": ["Quern"]})
    assert wrong.status_code == 422
    assert "film" in wrong.json()["mistakes"]


@pytest.mark.parametrize("body", ["", "[]", "{}", "null", "[" * 100_000, '{"device": 1}', b"\xff", "1" * 5000])
def test_what_is_no_item_is_refused_as_one(client, body) -> None:
    """With a sentence, as JSON."""
    answer = client.post("/outbox/", body, content_type="application/json", headers=HOST)
    assert answer.status_code == 422
    assert answer.json()["mistakes"][""]


def test_a_page_that_outlived_its_token_gets_a_fresh_one() -> None:
    """Without it the item is refused; with it, taken."""
    from django.test import Client

    client = Client(enforce_csrf_checks=True)
    assert hand(client, 1, {}).status_code == 403
    token = client.get("/outbox/token/", headers=HOST).json()["token"]
    body = {"device": "0123456789abcdef", "number": 1, "kind": "sheet.add", "fields": {}}
    answer = client.post(
        "/outbox/", json.dumps(body), content_type="application/json", headers={**HOST, "x-csrftoken": token}
    )
    assert answer.status_code == 422


def test_filter_factors_follow_the_film_and_the_light(client, tolland) -> None:
    """One orthochromatic film is 80 in daylight and 40 in lamp light (ilford-processing-chart-2019): twice the time."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    assert "/sheets/filters/?film=Tolland%20100" in get(client, f"/sheets/{sheet.pk}/")
    lamps = {"film": "ORTHO PLUS", "light": "tungsten", "metered_for": "daylight"}
    page = client.get("/sheets/filters/", lamps, headers=HOST).content.decode()
    assert re.search(r"<h1>ORTHO PLUS in tungsten: give\s+2\.00\s+times the time</h1>", page)
    assert '<option value="orthochromatic" selected>' in page
    lent = client.get("/sheets/filters/", {"film": "Tolland 100"}, headers=HOST).content.decode()
    assert "1.5" in lent
    assert "assumed" in lent
    odd = client.get("/sheets/filters/", {"light": "moon", "sees": "x" * 500}, headers=HOST)
    assert odd.status_code == 200
    unknown = client.get("/sheets/filters/", {"film": "Tolland 100", "light": "tungsten"}, headers=HOST)
    assert "▲" in unknown.content.decode()


@pytest.mark.parametrize("number", ["²", "9" * 5000, "-1", "1e3", "٣"])
def test_figures_that_are_no_number_are_told_not_tripped_over(client, tolland, number) -> None:
    """Powers, other scripts' digits, more figures than an integer is read from: as a state, a count, a page, a lot."""
    post(client, "/sheets/new/", {"holder": "3 left", "film": "Tolland 100"})
    sheet = Sheet.objects.get()
    post(client, f"/sheets/{sheet.pk}/", {"holder": "3 left", "film": "Tolland 100", "note": "a", "revision": number})
    post(client, f"/sheets/{sheet.pk}/undo/", {"revision": number})
    for address in (f"/sheets/?page={number}", f"/plans/?page={number}", f"/runs/?page={number}", "/shelf/?page=²"):
        get(client, address)
    asked = {"film": "Tolland 100", "developer": "Brackwater 1+9", "time": "7:30", "vessel": "drum 6, 300-1000 ml"}
    answer = client.get("/short/", {**asked, "number": number}, headers={"host": "127.0.0.1"})
    assert "is not a number of sheets" in answer.content.decode()
    assert (
        "is not a number"
        not in client.get("/short/", {**asked, "number": "6"}, headers={"host": "127.0.0.1"}).content.decode()
    )
    told = post(client, f"/films/{tolland.pk}/lots/new/", {"number": "4711", "bought": number}, 422)
    assert 'class="mistake"' in told.content.decode()
