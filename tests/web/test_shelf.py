"""Pages of the shelf, without a browser: what was typed is kept, what is wrong stands beside it, all can be undone."""

from __future__ import annotations

import datetime as dt
import re
from typing import Any
from uuid import uuid4

import pytest
from django.db import connection

from wetside.records.models import Bottle, BottleLine, Darkroom, Instrument, Vessel
from wetside.services.records.demo import make_demo
from wetside.services.records.ledger import lines_of
from wetside.services.records.ledger_fold import fold

pytestmark = pytest.mark.django_db
HOST = {"host": "127.0.0.1"}
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


@pytest.fixture
def get(client: Any) -> Any:
    return lambda address: client.get(address, headers=HOST)


@pytest.fixture
def post(client: Any) -> Any:
    return lambda address, **sent: client.post(address, sent, headers=HOST)


def heading(answer: Any) -> str:
    found = re.search(r"<h1>(.*?)</h1>", answer.content.decode(), re.DOTALL)
    assert found
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", found[1])).replace("\N{NO-BREAK SPACE}", " ").strip()


def add(post: Any, **sent: str) -> Bottle:
    first = {"mark": "D", "holds": "Brackwater", "role": "developer", "volume": "500"}
    answer = post("/shelf/bottles/new/", **(first | sent))
    assert answer.status_code == 302, answer.content.decode()
    found: Bottle = Bottle.objects.get(pk=answer.headers["Location"].rstrip("/").rpartition("/")[2])
    return found


def test_a_bottle_is_added_corrected_removed_and_brought_back(get: Any, post: Any) -> None:
    """Its page answers with what is left; a removal offers the way back."""
    made = add(post)
    page = f"/shelf/bottles/{made.pk}/"
    assert heading(get(page)) == "D: 500 ml of Brackwater"
    sent = {"mark": "D1", "holds": "Brackwater", "role": "developer", "revision": str(made.revision)}
    assert post(f"{page}change/", **sent).status_code == 302
    again = post(f"{page}change/", **(sent | {"mark": "D2"}))
    assert again.status_code == 422
    assert "was changed on another page" in again.content.decode()
    gone = post(f"{page}remove/")
    assert gone.status_code == 302
    shelf = get(gone.headers["Location"])
    assert heading(shelf) == "The shelf is empty"
    assert f"{page}back/" in shelf.content.decode()
    post(f"{page}back/")
    assert heading(get("/shelf/")) == "One bottle; none is near its end"


def test_mistakes_stand_beside_their_fields_and_nothing_typed_is_lost(post: Any) -> None:
    """422, the sentence at the field, the text as typed."""
    answer = post("/shelf/bottles/new/", mark="D", holds="Brackwater", role="developer", volume="plenty")
    text = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="plenty"' in text
    assert 'id="f-volume-m"' in text
    assert 'value="Brackwater"' in text
    assert Bottle.objects.count() == 0


@pytest.mark.parametrize(
    ("what", "sent", "left", "seen"),
    [
        ("drawn", {"volume": "50,5"}, 449.5, 0.0),
        ("drawn", {"volume": "1 US fl oz"}, 470.426, 0.0),
        ("returned", {"volume": "20"}, 520.0, 0.0),
        ("counted", {"volume": "480"}, 480.0, 0.0),
        ("filled", {"volume": "0.5 l"}, 1000.0, 0.0),
        ("film", {"size": "4x5in", "count": "6", "class": "ordinary"}, 500.0, 1.5),
        ("emptied", {}, 0.0, 0.0),
        ("clearing", {"time": "0:50", "temp": "68 F", "film": "Tolland 100", "class": "tabular"}, 500.0, 0.0),
    ],
)
def test_an_entry_is_booked_and_undone(
    get: Any, post: Any, what: str, sent: dict[str, str], left: float, seen: float
) -> None:
    """Each entry changes what it says, is told with its undo, and goes again."""
    made = add(post, role="fixer", holds="Rapid fixer")
    page = f"/shelf/bottles/{made.pk}/"
    answer = post(f"{page}enter/{what}/", **sent)
    assert answer.status_code == 302
    now = Bottle.objects.get(pk=made.pk)
    assert (now.left_ml, now.seen_units) == (pytest.approx(left), pytest.approx(seen))
    text = get(answer.headers["Location"]).content.decode()
    line = BottleLine.objects.order_by("-number").first()
    assert "Undo it" in text
    assert f"undo/{line.pk}/" in text
    assert post(f"{page}undo/{line.pk}/").status_code == 302
    back = Bottle.objects.get(pk=made.pk)
    assert (back.left_ml, back.seen_units, back.emptied_at) == (500.0, 0.0, None)
    assert fold(lines_of([made.pk])[made.pk]) == (500.0, 0.0)


def test_an_entry_that_cannot_be_stays_open_with_its_mistake(post: Any) -> None:
    """More than there is, and a test without a temperature, are told where they were typed."""
    made = add(post, role="fixer")
    page = f"/shelf/bottles/{made.pk}/"
    answer = post(f"{page}enter/drawn/", volume="600")
    text = answer.content.decode()
    assert answer.status_code == 422
    assert "There are 500 ml in bottle" in text
    assert 'value="600 ml"' in text
    answer = post(f"{page}enter/clearing/", time="0:50", film="Tolland 100")
    assert answer.status_code == 422
    assert 'id="clearing-f-temp-m"' in answer.content.decode()
    assert BottleLine.objects.count() == 1


def test_an_unknown_product_says_read_its_safety_sheet(get: Any, post: Any) -> None:
    """Neither its hazards nor its company are ever called none."""
    made = add(post, role="wetting", holds="Moon milk")
    text = get(f"/shelf/bottles/{made.pk}/").content.decode()
    assert "Nothing is known here of Moon milk: read its safety sheet before you open it." in text
    assert "read its safety sheet before you bring it together with anything" in text


def test_the_mixing_page_proposes_books_and_undoes(get: Any, post: Any) -> None:
    """From the question to the booked bottle and back; too little is told and not booked."""
    made = add(post)
    assert heading(get("/shelf/mixing/")) == "What do you mix?"
    asked = {"what": "Brackwater", "dilution": "1+24", "volume": "600 ml"}
    page = get("/shelf/mixing/?what=Brackwater&dilution=1%2B24&volume=600")
    assert heading(page) == "600 ml of Brackwater 1+24"
    assert f'name="draw-{made.pk}"' in page.content.decode()
    short = post("/shelf/mixing/", **asked, act="mixed", mark="W", **{f"draw-{made.pk}": "20"})
    assert short.status_code == 422
    assert "are lacking" in short.content.decode()
    unread = post("/shelf/mixing/", **asked, act="reckon", **{f"draw-{made.pk}": "a lot"})
    assert unread.status_code == 422
    done = post("/shelf/mixing/", **asked, act="mixed", mark="W", **{f"draw-{made.pk}": "24"})
    assert done.status_code == 302, done.content.decode()
    text = get(done.headers["Location"]).content.decode()
    assert "Brackwater 1+24" in text
    mixed = Bottle.objects.get(mark="W")
    line = BottleLine.objects.get(bottle=mixed)
    back = post(f"/shelf/bottles/{mixed.pk}/undo/{line.pk}/")
    assert back.headers["Location"] == f"/shelf/?removed={mixed.pk}"
    assert Bottle.objects.get(pk=made.pk).left_ml == 500.0


def test_us_units_and_a_comma_are_shown_and_taken(get: Any, post: Any) -> None:
    """A darkroom in ounces with a comma sees and types them."""
    Darkroom.objects.create(units="us", decimal_sign="comma")
    made = add(post, volume="20")
    assert made.left_ml == pytest.approx(591.471)
    assert heading(get(f"/shelf/bottles/{made.pk}/")) == "D: 20,0 fl oz of Brackwater"
    page = get("/shelf/mixing/?what=Brackwater&dilution=1%2B24&volume=20")
    typed = re.search(rf'name="draw-{made.pk}"[^>]*value="([^"]+)"', page.content.decode())
    assert typed
    asked = {"what": "Brackwater", "dilution": "1+24", "volume": "20 US fl oz", "act": "mixed"}
    assert post("/shelf/mixing/", **asked, **{f"draw-{made.pk}": typed[1]}).status_code == 302


def test_vessels_and_instruments_have_their_pages(get: Any, post: Any) -> None:
    """Added, refused with the field, checked, the offset taken and put back, removed and brought back."""
    assert heading(get("/shelf/vessels/")) == "No vessels yet"
    sent = {"name": "short drum", "kind": "drum", "places": "9x12cm 6, 13x18cm 4", "min": "300", "max": "1000"}
    for places in ("some", "9" * 5000, f"9x12cm {'9' * 5000}"):
        assert post("/shelf/vessels/new/", **(sent | {"places": places})).status_code == 422
    post("/shelf/vessels/new/", **sent)
    vessel = Vessel.objects.get()
    assert heading(get(f"/shelf/vessels/{vessel.pk}/")) == "Short drum: 6 × 9x12cm, 4 × 13x18cm"
    assert post(f"/shelf/vessels/{vessel.pk}/", **(sent | {"min": "2000", "revision": "1"})).status_code == 422
    gone = post(f"/shelf/vessels/{vessel.pk}/remove/")
    assert f"{vessel.pk}/back/" in get(gone.headers["Location"]).content.decode()
    post(f"/shelf/vessels/{vessel.pk}/back/")
    assert heading(get("/shelf/vessels/")) == "One vessel to develop in"

    assert heading(get("/shelf/instruments/")) == "No instruments yet"
    post("/shelf/instruments/new/", name="long glass one", kind="thermometer", reads_high="0,1")
    one = Instrument.objects.get()
    page = f"/shelf/instruments/{one.pk}/"
    assert heading(get(page)) == "Long glass one reads too high by 0.1 °C"
    assert post(f"{page}check/", against="ice water", reference="0", read="hot").status_code == 422
    assert post(f"{page}check/", against="ice water", reference="0", read="0,4").status_code == 302
    assert "Take this offset" in get(page).content.decode()
    taken = post(f"{page}take/")
    assert heading(get(taken.headers["Location"])) == "Long glass one reads too high by 0.4 °C"
    post(f"{page}put-back/", before="0.1")
    assert heading(get(page)) == "Long glass one reads too high by 0.1 °C"
    assert heading(get("/shelf/instruments/")) == "One instrument, checked in good time"
    gone = post(f"{page}remove/")
    assert f"{page}back/" in get(gone.headers["Location"]).content.decode()


def test_addresses_of_nothing_are_told(get: Any, post: Any) -> None:
    """A bottle that is not there, a line that is not there, nonsense after the question mark."""
    assert get(f"/shelf/bottles/{uuid4()}/").status_code == 404
    made = add(post)
    assert post(f"/shelf/bottles/{made.pk}/undo/{uuid4()}/").status_code == 404
    assert get(f"/shelf/?removed=x&page={'9' * 40}").status_code == 200
    assert get(f"/shelf/bottles/{made.pk}/?booked=x&page=-1").status_code == 200
    assert post(f"/shelf/bottles/{made.pk}/enter/drunk/", volume="1").status_code == 302
    assert post(f"/shelf/bottles/{made.pk}/enter/emptied/", into="somewhere").status_code == 422


@pytest.fixture
def full_shelf() -> list[Bottle]:
    """500 bottles with 20,000 lines, written past the services for speed; sums as the services would keep them."""
    bottles = Bottle.objects.bulk_create(
        Bottle(
            mark=f"F{number}",
            mark_key=f"f{number}",
            holds="Rapid fixer",
            role="fixer" if number % 2 else "developer",
            form="working",
            left_ml=1000.0,
            seen_units=38 * 0.25 if number % 2 else 0.0,
        )
        for number in range(500)
    )
    lines = []
    for bottle in bottles:
        lines.append(BottleLine(bottle=bottle, number=1, at=NOW, kind="filled", change_ml=1000.0))
        for number in range(2, 41):
            film = bottle.role == "fixer" and number > 2
            lines.append(
                BottleLine(
                    bottle=bottle,
                    number=number,
                    at=NOW,
                    kind="film" if film else "counted",
                    area_units=0.25 if film else 0.0,
                )
            )
    BottleLine.objects.bulk_create(lines, batch_size=2000)
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")  # as a served database has it after a while; PostgreSQL plans by it
    return bottles


def test_a_full_shelf_takes_at_most_twelve_queries_a_page(
    get: Any, full_shelf: list[Bottle], django_assert_max_num_queries: Any
) -> None:
    """500 bottles, 20,000 lines: the number of queries is that of a small shelf, and lists are cut."""
    pages = (
        "/shelf/",
        "/shelf/?page=10",
        f"/shelf/bottles/{full_shelf[1].pk}/",
        "/shelf/mixing/",
        "/shelf/mixing/?what=Rapid+fixer&dilution=1%2B4&volume=600",
        "/shelf/gone/",
        "/shelf/vessels/",
        "/shelf/instruments/",
    )
    for address in pages:
        with django_assert_max_num_queries(12):
            assert get(address).status_code == 200, address
    assert get("/shelf/").content.decode().count("<tr>") == 51


def test_a_bottle_of_the_demo_says_how_it_stands(client) -> None:
    """Its form need not be guessed: concentrate for the developer, working solution for what goes back."""
    make_demo()
    for mark, form in (("D", "concentrate"), ("F", "working")):
        bottle = Bottle.kept.get(mark=mark)
        page = client.get(f"/shelf/bottles/{bottle.pk}/change/", headers=HOST).content.decode()
        assert f'<option value="{form}" selected>' in page
