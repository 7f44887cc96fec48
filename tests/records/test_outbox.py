"""The outbox's server side: each item is taken once and answered alike again."""

from __future__ import annotations

import pytest

from wetside.errors import WetsideError
from wetside.records.models import Film, HolderSide, Receipt, Sheet
from wetside.services.records import outbox
from wetside.services.records.changes import find, make
from wetside.services.records.holders import make_holders
from wetside.services.records.outbox import KINDS, do, fields_of, take
from wetside.services.records.sheets import add_sheet

pytestmark = pytest.mark.django_db
DEVICE = "0123456789abcdef"
ROW = {"holder": ["3 left"], "film": ["Tolland 100"], "exposed": ["2026-11-07"]}


@pytest.fixture(autouse=True)
def tolland() -> Film:
    return make(Film, {"name": "Tolland 100"})


def code(act) -> str:
    with pytest.raises(WetsideError) as refused:
        act()
    return refused.value.code


def test_an_item_is_taken_once_and_answered_alike_again() -> None:
    """The second time nothing is written; the answer is the same, carry-over and all."""
    first = take(DEVICE, 1, "sheet.add", ROW)
    second = take(DEVICE, 1, "sheet.add", ROW)
    assert (first.again, second.again) == (False, True)
    assert dict(first.answer) == dict(second.answer)
    assert first.answer["next"]["holder"] == "3 right"
    assert Sheet.objects.count() == Receipt.objects.count() == 1


def test_a_refused_item_leaves_no_receipt_and_comes_again_mended() -> None:
    """Under the same number."""
    assert code(lambda: take(DEVICE, 1, "sheet.add", {"film": ["Tolland 100"]})) == "services.sheets.no_label"
    assert not Receipt.objects.exists()
    take(DEVICE, 1, "sheet.add", ROW)
    assert Sheet.objects.count() == 1


def test_a_number_with_something_else_in_it_is_a_conflict() -> None:
    """Two devices that think they are one would lose work silently."""
    take(DEVICE, 1, "sheet.add", ROW)
    other = {**ROW, "holder": ["4 left"]}
    assert code(lambda: take(DEVICE, 1, "sheet.add", other)) == "services.outbox.other_body"
    take("fedcba9876543210", 1, "sheet.add", other)
    assert Sheet.objects.count() == 2


def test_who_comes_second_at_the_same_moment_gets_the_first_answer(monkeypatch) -> None:
    """The receipt appears between look and signature: the second one's work is undone."""
    first = take(DEVICE, 1, "sheet.add", ROW)
    real, asked = outbox._answered, []

    def late(*given):
        asked.append(given)
        return None if len(asked) == 1 else real(*given)

    monkeypatch.setattr(outbox, "_answered", late)
    monkeypatch.setattr(
        outbox, "do", lambda kind, fields: {"id": str(add_sheet({"label": "x", "film": "Tolland 100"}).pk)}
    )
    second = take(DEVICE, 1, "sheet.add", ROW)
    assert second.again
    assert dict(second.answer) == dict(first.answer)
    assert [str(sheet) for sheet in Sheet.objects.all()] == ["3 left"]


@pytest.mark.parametrize(
    ("device", "number", "kind", "refusal"),
    [
        ("short", 1, "sheet.add", "services.outbox.device"),
        ("0123456789abcdef' --", 1, "sheet.add", "services.outbox.device"),
        (DEVICE, 0, "sheet.add", "services.outbox.number"),
        (DEVICE, True, "sheet.add", "services.outbox.number"),
        (DEVICE, 2**53, "sheet.add", "services.outbox.number"),
        (DEVICE, 1, "sheet.burn", "services.outbox.kind"),
    ],
)
def test_what_no_page_sends_is_refused(device, number, kind, refusal) -> None:
    """And leaves nothing."""
    assert code(lambda: take(device, number, kind, ROW)) == refusal
    assert not Receipt.objects.exists()


@pytest.mark.parametrize(
    "raw", [None, [], "x", {"a": 1}, {"a": [1]}, {"a": "x" * 9000}, {"a": "\0"}, {f"{n}": "" for n in range(401)}]
)
def test_fields_that_no_form_sends_are_refused(raw) -> None:
    """Bounded before anything is looked at."""
    assert code(lambda: fields_of(raw)) == "services.outbox.fields"


def test_every_kind_has_its_taker() -> None:
    """The table names functions that are there."""
    from importlib import import_module

    for where in KINDS.values():
        module, _, name = where.partition(":")
        assert callable(getattr(import_module(module), name))


def test_a_tap_of_a_mishap_keeps_what_was_typed_with_it() -> None:
    """One item: the form as it stands, and the mishap."""
    sheet = add_sheet({"holder": "3 left", "film": "Tolland 100"})
    fields = {
        "id": [str(sheet.pk)],
        "revision": ["1"],
        "holder": ["3 left"],
        "film": ["Tolland 100"],
        "n": ["N-1"],
        "tap": ["filter-forgotten"],
    }
    take(DEVICE, 1, "sheet.change", fields)
    changed = find(Sheet, sheet.pk)
    assert (changed.n, changed.facts) == (-1.0, {"mishaps": ["filter-forgotten"]})
    assert code(lambda: take(DEVICE, 2, "sheet.change", fields)) == "services.records.changed_meanwhile"


def test_holder_moves_and_loads_are_items_too() -> None:
    """Loaded by a span, exposed by a tap on the day of the tap, taken back."""
    make_holders("3 to 4")
    assert (
        "4 sides"
        in do("sides.load", {"holders": ["3 to 4"], "film": ["Tolland 100"], "loaded_on": ["2026-11-01"]})["said"]
    )
    side = HolderSide.kept.filter(holder__name="3").first()
    answer = take(
        DEVICE, 1, "side.move", {"side": [str(side.pk)], "move": ["expose"], "typed_on": ["2026-11-07"]}
    ).answer
    assert str(find(Sheet, answer["id"]).exposed) == "2026-11-07"
    take(DEVICE, 2, "side.move", {"side": [str(side.pk)], "move": ["take-back"]})
    assert find(HolderSide, side.pk).state == "loaded"
    assert not Sheet.kept.exists()
    assert code(lambda: do("side.move", {"side": [str(side.pk)], "move": ["eat"]})) == "services.holders.no_move"
    assert code(lambda: do("side.move", {"side": ["x"], "move": ["dust"]})) == "services.sheets.no_identity"


def test_lots_and_holders_are_items_too() -> None:
    """Made, corrected on the revision that the answer names, refused where the page is older."""
    from wetside.records.models import FilmLot, Holder

    said = take(DEVICE, 1, "holders.make", {"holders": ["7"], "size": ["9x12cm"]}).answer["said"]
    assert said == "Kept with their sides: one holder."
    holder = Holder.kept.get(name="7")
    fields = {"id": [str(holder.pk)], "revision": ["1"], "name": ["7"], "note": ["leaks"]}
    answer = take(DEVICE, 2, "holder.change", fields).answer
    assert (answer["revision"], find(Holder, holder.pk).note) == (2, "leaks")
    assert code(lambda: take(DEVICE, 3, "holder.change", fields)) == "services.records.changed_meanwhile"
    lot = find(FilmLot, take(DEVICE, 3, "lot.add", {"film": ["Tolland 100"], "number": ["L-7"]}).answer["id"])
    film = {"of": [str(lot.film_id)], "id": [str(lot.pk)], "revision": ["1"], "number": ["L-7"], "bought": ["25"]}
    assert take(DEVICE, 4, "film.lot", film).answer["revision"] == 2
    new = {"of": [str(lot.film_id)], "id": [""], "number": ["L-8"]}
    take(DEVICE, 5, "film.lot", new)
    assert [(one.number, one.bought) for one in FilmLot.kept.order_by("number")] == [("L-7", 25), ("L-8", None)]
    assert code(lambda: do("film.lot", {**new, "of": ["nobody"]})) == "services.sheets.no_identity"
