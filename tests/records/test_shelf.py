"""The shelf's answer, and mixing from it: proposed, booked in one act, undone in one."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from wetside.chemistry import mix_volumes, parse_dilution
from wetside.errors import InputError, RefusedError, WetsideError
from wetside.records.models import Bottle, BottleLine
from wetside.services.records.bottles import empty, make_bottle
from wetside.services.records.bottles_entries import read_entry
from wetside.services.records.changes import find
from wetside.services.records.ledger import NewLine, book, undo
from wetside.services.records.mixing import MixAsk, Proposal, at_a_mark_ml, choices, propose
from wetside.services.records.mixing_booked import Target, book_mixing
from wetside.services.records.shelf import shelf_page
from wetside.wording import sentence

pytestmark = pytest.mark.django_db
TODAY = dt.date(2026, 11, 25)
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


def put(mark: str, holds: str, role: str, volume: str | None = None, **more: Any) -> Bottle:
    own = {"mark": mark, "holds": holds, **({"volume": volume} if volume else {})}
    own |= {key: more.pop(key) for key in ("mixed", "keeps_until") if key in more}
    return make_bottle(own, {"role": role, **more}, NOW)


def ask(what: str = "Brackwater", dilution: str | None = "1+24", volume: str = "600 ml", **more: Any) -> Proposal:
    raw = {"what": what, "volume": volume, **({"dilution": dilution} if dilution else {})}
    chosen = more.pop("chosen", None)
    return propose(read_entry(MixAsk, raw | more), TODAY, chosen)


def title() -> str:
    told = shelf_page(TODAY).title
    return sentence(told.code, told.params)


def left(bottle: Bottle) -> float | None:
    return find(Bottle, bottle.pk).left_ml


def test_the_title_is_the_answer() -> None:
    """It counts, and names the one that is near its end; waste is no bottle of the shelf."""
    assert title() == "The shelf is empty"
    for number in range(10):
        put(f"D{number}", "Brackwater", "developer", "500 ml")
    put("W", "used fixer", "waste-fixer", "2 l")
    assert title() == "Ten bottles; none is near its end"
    put("T", "Selenium toner", "toner", "500 ml", keeps_until="2026-11-30")
    assert title() == "Eleven bottles; Selenium toner (T) is near its end"
    put("T2", "Sulfide toner", "toner", "500 ml", keeps_until="2026-11-01")
    assert title() == "Twelve bottles; one spent, one near the end"
    put("T3", "Sulfide toner", "toner", "500 ml", keeps_until="2026-11-01")
    page = shelf_page(TODAY)
    assert [row.bottle.mark for row in page.ends] == ["T2", "T3", "T"]
    assert [one.mark for one in page.waste] == ["W"]


def test_dangers_on_this_shelf_are_named_once() -> None:
    """Two stops and two fixers make one danger; what only spoils work is none."""
    for number in (1, 2):
        put(f"S{number}", "Acid stop", "stop")
        put(f"F{number}", "Rapid fixer", "fixer")
    put("D", "Brackwater", "developer")
    (danger,) = shelf_page(TODAY).dangers
    assert (danger.code, {danger.first[0], danger.second[0]}) == ("chemistry.combination.acid_thiosulfate", {"S", "F"})


def test_the_oldest_bottle_is_drawn_first_and_the_next_fills_up() -> None:
    """Opened first, used first; amounts stand at a mark; both draws and the water make the whole."""
    new = put("D2", "Brackwater", "developer", "500 ml", opened="2026-11-01")
    old = put("D1", "brackwater", "developer", "15 ml", opened="2026-06-01")
    found = ask()
    (part,) = found.parts
    assert [(draw.bottle.pk, draw.draw_ml) for draw in part.draws] == [(old.pk, 15.0), (new.pk, 9.0)]
    assert (part.wanted_ml, found.water_ml, found.ready) == (24.0, 576.0, True)
    assert mix_volumes(parse_dilution("1+24"), 600.0).concentrates_ml == (part.exact_ml,)


def test_a_spent_bottle_is_shown_and_not_proposed() -> None:
    """What is past its date stands there with nothing drawn; the user may."""
    old = put("D1", "Brackwater", "developer", "100 ml", keeps_until="2026-01-01", opened="2025-01-01")
    new = put("D2", "Brackwater", "developer", "100 ml", opened="2026-11-01")
    draws = ask().parts[0].draws
    assert [(draw.spent, draw.draw_ml) for draw in draws] == [(True, 0.0), (False, 24.0)]
    chosen = ask(chosen={old.pk: 24.0, new.pk: 0.0})
    assert chosen.ready


def test_not_enough_says_what_is_lacking() -> None:
    """Nothing is booked, and the lacking amount is named; so is too much."""
    made = put("D", "Brackwater", "developer", "10 ml")
    found = ask()
    assert (found.ready, found.parts[0].lacking_ml) == (False, 14.0)
    with pytest.raises(InputError) as refused:
        book_mixing(found, read_entry(Target, {}), NOW, TODAY)
    assert (refused.value.code, refused.value.params["lacking_ml"]) == ("services.mixing.lacking", 14.0)
    with pytest.raises(InputError) as refused:
        book_mixing(ask(chosen={made.pk: 30.0}), read_entry(Target, {}), NOW, TODAY)
    assert refused.value.code == "services.mixing.too_much"
    assert (left(made), BottleLine.objects.count()) == (10.0, 1)


def test_what_the_ledger_does_not_have_is_not_drawn() -> None:
    """The user may choose the bottle, not more than is in it; then nothing at all is booked, no bottle made."""
    one = put("D1", "Brackwater", "developer", "20 ml")
    two = put("D2", "Brackwater", "developer", "100 ml")
    with pytest.raises(RefusedError):
        book_mixing(ask(chosen={one.pk: 22.0, two.pk: 2.0}), read_entry(Target, {"mark": "W"}), NOW, TODAY)
    assert (left(one), left(two), Bottle.objects.count()) == (20.0, 100.0, 2)


def test_mixed_books_the_drawings_and_the_new_bottle_and_undoes_all() -> None:
    """One act: two drawings and a filled bottle with strength, day and contents; one undo takes all back."""
    parts = [{"name": "acetic acid", "percent": "20"}]
    one = put("A1", "Stop concentrate", "stop", "10 ml", opened="2026-01-01", contents=parts)
    two = put("A2", "Stop concentrate", "stop", "500 ml", opened="2026-02-01", contents=parts)
    found = ask("Stop concentrate", "1+19", "1000 ml")
    assert found.steps[1].code == "services.mixing.acid_in"
    lines = book_mixing(found, read_entry(Target, {"mark": "S"}), NOW, TODAY)
    made = Bottle.objects.get(mark="S")
    assert (made.left_ml, made.mixed, made.dilution, made.form, made.role) == (1000.0, TODAY, "1+19", "working", "stop")
    assert made.contents == {"acetic acid": 1.0}
    assert (left(one), left(two)) == (0.0, 460.0)
    undo(lines[0].pk, NOW)
    assert (left(one), left(two)) == (10.0, 500.0)
    assert find(Bottle, made.pk, removed=True).removed_at is not None


def test_a_mix_for_at_once_is_undone_whole_too() -> None:
    """Without a bottle that takes it the drawings still stand together."""
    one = put("D1", "Brackwater", "developer", "15 ml", opened="2026-01-01")
    two = put("D2", "Brackwater", "developer", "500 ml", opened="2026-02-01")
    lines = book_mixing(ask(), read_entry(Target, {}), NOW, TODAY)
    assert (left(one), left(two)) == (0.0, 491.0)
    undo(lines[1].pk, NOW)
    assert (left(one), left(two)) == (15.0, 500.0)


def test_a_mix_tops_up_what_holds_the_same_and_nothing_else() -> None:
    """Fresh beside old keeps the older day; another liquid, or the source itself, is refused."""
    put("D", "Brackwater", "developer", "500 ml")
    same = put("W", "Brackwater 1+24", "developer", "100 ml", mixed="2026-11-01")
    book_mixing(ask(), read_entry(Target, {"mark": "w"}), NOW, TODAY)
    assert (left(same), find(Bottle, same.pk).mixed) == (700.0, dt.date(2026, 11, 1))
    for mark, holds, code in (("D", None, "holds_other"), ("D", "Brackwater", "into_itself")):
        with pytest.raises(WetsideError) as refused:
            book_mixing(ask(), read_entry(Target, {"mark": mark, **({"holds": holds} if holds else {})}), NOW, TODAY)
        assert refused.value.code == f"services.mixing.{code}"


def test_a_developer_of_two_parts_wants_both() -> None:
    """Each part is drawn from its own bottles."""
    put("A", "Marlow A", "developer", "100 ml")
    put("B", "Marlow B", "developer", "100 ml")
    with pytest.raises(InputError) as refused:
        ask("Marlow A", "1+2+100", "515 ml")
    assert refused.value.code == "services.mixing.two_liquids"
    found = ask("Marlow A", "1+2+100", "515 ml", second="Marlow B")
    assert [(part.name, part.wanted_ml) for part in found.parts] == [("Marlow A", 5.0), ("Marlow B", 10.0)]
    with pytest.raises(InputError):
        ask("Marlow A", "1+24", second="Marlow B")


def test_a_developer_of_three_parts_wants_all_of_them() -> None:
    """500 ml of 1+2+1+96: 5, 10 and 5 ml; what is missing, too much or named twice is told at its field."""
    for mark in "ABC":
        put(mark, f"Marlow {mark}", "developer", "100 ml")
    found = ask("Marlow A", "1+2+1+96", "500 ml", second="Marlow B", third="Marlow C")
    assert [(part.name, part.wanted_ml) for part in found.parts] == [
        ("Marlow A", 5.0),
        ("Marlow B", 10.0),
        ("Marlow C", 5.0),
    ]
    assert found.water_ml == 480.0
    for given, further, code, field in (
        ("1+2+1+96", {"second": "Marlow B"}, "three_liquids", "third"),
        ("1+2+97", {"second": "Marlow B", "third": "Marlow C"}, "no_third", "third"),
        ("1+2+1+96", {"second": "Marlow B", "third": "Marlow A"}, "same_twice", "third"),
        ("1+1+1+1+96", {"second": "Marlow B", "third": "Marlow C"}, "many_liquids", "dilution"),
    ):
        with pytest.raises(InputError) as refused:
            ask("Marlow A", given, "500 ml", **further)
        assert (refused.value.code, refused.value.place.field) == (f"services.mixing.{code}", field)


def test_a_formula_is_told_in_its_order_and_fills_a_bottle() -> None:
    """Metol before sulfite; the bottle knows its contents, and so its hazards."""
    found = ask("formula:mq-borax", None, "500 ml")
    assert found.order is not None
    assert [(step.name, step.amount) for step in found.order.steps][:2] == [
        ("metol", 1.0),
        ("sodium sulfite anhydrous", 50.0),
    ]
    with pytest.raises(InputError) as refused:
        book_mixing(found, read_entry(Target, {}), NOW, TODAY)
    assert refused.value.code == "services.mixing.nothing_to_book"
    (line,) = book_mixing(found, read_entry(Target, {"mark": "M"}), NOW, TODAY)
    made = Bottle.objects.get(mark="M")
    assert (made.left_ml, made.contents["hydroquinone"], made.form) == (500.0, 0.5, "stock")
    undo(line.pk, NOW)
    assert find(Bottle, made.pk, removed=True).removed_at is not None


def test_water_is_tempered_for_the_bottle() -> None:
    """A cold concentrate wants warmer water; without its temperature none is told."""
    put("F", "Rapid fixer", "fixer", "1 l")
    assert ask("Rapid fixer", "1+4", "1 l").water_c is None
    warm = ask("Rapid fixer", "1+4", "1 l", concentrate_temp="17 C").water_c
    assert warm == pytest.approx(20.75, abs=0.02)


@pytest.mark.parametrize(("exact", "mark"), [(31.25, 31.0), (6.07, 6.0), (24.0, 24.0), (333.3, 335.0), (0.04, 0.2)])
def test_amounts_stand_at_a_mark_of_the_measure(exact: float, mark: float) -> None:
    """The same marks as ``wetside mix`` reckons with."""
    assert at_a_mark_ml(exact) == mark


def test_what_can_be_mixed() -> None:
    """Liquids once each, without waste and what was emptied; every formula that ships."""
    put("D1", "Brackwater", "developer", "1 l")
    put("D2", "brackwater ", "developer", "1 l")
    put("W", "used fixer", "waste-fixer", "1 l")
    gone = put("G", "gone", "developer", "1 l")
    empty(gone.pk, NOW)
    found = choices()
    assert found.liquids == ("Brackwater",)
    assert ("formula:mq-borax", "mq borax") in found.formulas
    with pytest.raises(InputError) as refused:
        ask("gone")
    assert refused.value.code == "services.mixing.not_on_shelf"


@pytest.mark.parametrize("bottles", [3, 60])
def test_the_shelf_asks_the_database_as_often_for_many_as_for_few(
    bottles: int, django_assert_max_num_queries: Any
) -> None:
    """The number of queries does not grow with the shelf."""
    for number in range(bottles):
        made = put(f"F{number}", "Rapid fixer", "fixer", "1 l", form="working")
        book(made.pk, NewLine("film", area_units=1.0, film_class="ordinary"), NOW)
    with django_assert_max_num_queries(3):
        page = shelf_page(TODAY)
    assert (page.total, page.pages) == (bottles, 1 if bottles < 50 else 2)


def test_a_process_may_name_the_product() -> None:
    """A bottle of "Brackwater concentrate" is found by its product, a working solution of it is not drawn from."""
    concentrate = put("D", "Brackwater concentrate", "developer", "500 ml", product="Brackwater", form="concentrate")
    put("W", "Brackwater 1+24", "developer", "500 ml", product="Brackwater", form="working")
    assert [draw.bottle.pk for draw in ask().parts[0].draws] == [concentrate.pk]


def test_a_bottle_that_says_concentrate_behind_the_name_is_found() -> None:
    """As the form's own example says, without a product beside it."""
    concentrate = put("D", "Brackwater concentrate", "developer", "500 ml", form="concentrate")
    put("W", "Brackwater 1+24", "developer", "500 ml", form="working")
    assert [draw.bottle.pk for draw in ask().parts[0].draws] == [concentrate.pk]


def test_a_row_says_film_by_class_and_the_newest_clearing_time() -> None:
    """What the shelf lists of a fixer."""
    made = put("F", "Rapid fixer", "fixer", "1 l", form="working")
    for units, word in ((1.5, "ordinary"), (0.5, "tabular"), (1.0, "ordinary")):
        book(made.pk, NewLine("film", area_units=units, film_class=word), NOW)
    for seconds in (40.0, 55.0):
        book(made.pk, NewLine("clearing", clearing_s=seconds, temp_c=20.0, film="Tolland 100"), NOW)
    (row,) = shelf_page(TODAY).rows
    assert row.seen == (("ordinary", 2.5), ("tabular", 0.5))
    assert row.clearing is not None
    assert row.clearing.clearing_s == 55.0
