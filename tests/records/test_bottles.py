"""Bottles: their judgement, their hazards, what they must not meet, and what an evening takes of them."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise
from typing import Any

import pytest

from wetside.adapters.chemistry_data import load_formulas
from wetside.errors import ManyErrors, RefusedError, WetsideError
from wetside.records.models import Bottle, BottleLine
from wetside.services.records.bottles import (
    change_bottle,
    clearing_line,
    empty,
    evening_bottles,
    film_line,
    make_bottle,
    raw_of_bottle,
)
from wetside.services.records.bottles_entries import ClearingEntry, FilmEntry, read_entry
from wetside.services.records.bottles_hazards import contents_of_formula, hazards_of, wrong_with
from wetside.services.records.bottles_judged import GOOD, NEAR, SPENT, UNSURE, Judged, judge
from wetside.services.records.bottles_page import bottle_page
from wetside.services.records.bottles_rotation import move_up, promotions_of
from wetside.services.records.changes import find
from wetside.services.records.ledger import NewLine, book, lines_of, undo
from wetside.services.records.ledger_fold import fold
from wetside.services.records.shelf import tables
from wetside.values.evidence import Evidence

pytestmark = pytest.mark.django_db
TODAY = dt.date(2026, 11, 25)
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


def put(mark: str, holds: str, role: str, raw: dict[str, Any] | None = None, **more: Any) -> Bottle:
    return make_bottle({"mark": mark, "holds": holds, **(raw or {})}, {"role": role, **more}, NOW)


def fixer(**more: Any) -> Bottle:
    return put("F", "fixer", "fixer", {"volume": "1000 ml"}, form="working", dilution="1+4", **more)


def judged(bottle: Bottle, today: dt.date = TODAY) -> Judged:
    return judge(find(Bottle, bottle.pk), lines_of([bottle.pk])[bottle.pk], tables(), today)


def film(bottle: Bottle, count: int, kind: str = "ordinary") -> None:
    book(bottle.pk, film_line(read_entry(FilmEntry, {"size": "4x5in", "count": count, "class": kind})), NOW)


def clip(bottle: Bottle, time: str, temp: str = "20 C", name: str = "Tolland 100", *, fresh: bool = False) -> None:
    raw = {"time": time, "temp": temp, "film": name, "fresh": fresh}
    book(bottle.pk, clearing_line(read_entry(ClearingEntry, raw)), NOW)


def codes(found: Judged) -> list[str]:
    return [line.code.rpartition(".")[2] for line in found.lines]


def test_a_volume_is_the_first_line_of_the_ledger() -> None:
    """What is told at making stands in the ledger, in whatever unit it was typed."""
    made = put("D", "Brackwater", "developer", {"volume": "1,5 l"})
    (line,) = lines_of([made.pk])[made.pk]
    assert (line.kind, line.change_ml, find(Bottle, made.pk).left_ml) == ("filled", 1500.0, 1500.0)


def test_a_bottle_of_an_evening_file_brings_its_film_along() -> None:
    """What it has seen becomes a line too, and the sums are its ledger's."""
    raw = {"volume": "1 l", "seen": 7.5, "clearing": "0:50", "fresh_clearing": "0:35"}
    made = find(Bottle, put("F", "fixer", "fixer", raw).pk)
    assert (made.left_ml, made.seen_units) == fold(lines_of([made.pk])[made.pk]) == (1000.0, 7.5)
    assert made.facts == {"clearing": "50 s", "fresh_clearing": "35 s"}
    changed = change_bottle(made, {"mark": "F", "holds": "fixer"}, {"role": "fixer"}, None)
    assert changed.facts == made.facts


def test_all_mistakes_of_both_tables_are_told_at_once() -> None:
    """Keys of the evening file and those of the record are refused together, each with its field."""
    with pytest.raises(ManyErrors) as refused:
        make_bottle(
            {"holds": "x", "volume": "much"}, {"role": "soup", "contents": [{"name": "salt", "percent": "120"}]}, NOW
        )
    fields = {error.place.field for error in refused.value.errors if error.place}
    assert fields == {"mark", "volume", "role", "contents[1].percent"}
    assert Bottle.objects.count() == 0


def test_a_correction_keeps_what_the_ledger_knows() -> None:
    """A form sent back unchanged changes nothing, and no form reaches into the sums."""
    made = put(
        "D",
        "Brackwater",
        "developer",
        {"volume": "500 ml", "capacity": "12"},
        contents=[{"name": "hydroquinone", "percent": "2.5"}],
    )
    before = find(Bottle, made.pk)
    changed = change_bottle(before, *raw_of_bottle(before), before.revision)
    assert changed.revision == before.revision
    assert (changed.left_ml, changed.facts, changed.contents) == (500.0, {"capacity": 12}, {"hydroquinone": 2.5})


def test_a_fixer_by_area_against_its_makers_figure() -> None:
    """96 sheets of 4x5 in are a litre's 24 units by the maker's sheet: at 77 near the end, at 96 spent."""
    # ilford-rapid-fixer-2002, p. 2: 24 films to a litre at 1+4; four 4x5 in are one unit.
    made = fixer(product="RAPID FIXER")
    film(made, 76)
    assert judged(made).state == GOOD
    film(made, 1)
    (area, *_) = judged(made).lines
    assert (area.state, area.evidence, area.share) == (NEAR, Evidence.PUBLISHED, pytest.approx(77 / 96))
    film(made, 19)
    assert judged(made).state == SPENT


def test_tabular_film_uses_a_fixer_up_sooner() -> None:
    """52 ordinary and 20 tabular 4x5 in pass 20 units a litre; the share is the handbook's worked 1.07."""
    made = fixer()
    film(made, 52)
    film(made, 20, "tabular")
    (area, *_) = judged(made).lines
    assert (area.code, area.evidence) == ("services.judged.area_tabular", Evidence.ASSUMED)
    assert area.share == pytest.approx(13 / 20 + 5 / 0.6 / 20)
    assert judged(made).state == SPENT


def test_clearing_is_compared_at_one_temperature_with_one_film_only() -> None:
    """Twice the fresh time is the end; a test with another film, or elsewhere, is told to say nothing."""
    made = fixer()
    clip(made, "0:40", fresh=True)
    clip(made, "1:21", "24 C")
    assert codes(judged(made)) == ["no_fresh_alike"]
    clip(made, "1:21", name="Marlow 400")
    assert codes(judged(made)) == ["no_fresh_alike"]
    clip(made, "1:15", "20.4 C", "tolland 100")
    assert (judged(made).state, judged(made).lines[0].share) == (NEAR, pytest.approx(0.875))
    clip(made, "1:21")
    assert (judged(made).state, codes(judged(made))) == (SPENT, ["clearing_over"])


def test_a_bath_that_was_emptied_begins_anew() -> None:
    """Film and clearing of what was thrown out say nothing of what is there now."""
    made = fixer()
    film(made, 96)
    clip(made, "0:40", fresh=True)
    empty(made.pk, NOW)
    book(made.pk, NewLine("filled", 1000.0), NOW)
    assert judged(made).lines == ()


def test_a_product_with_two_dilutions_asks_which() -> None:
    """Nothing is chosen for the user where a maker has several figures."""
    from wetside.chemistry.fixer import BathCapacity
    from wetside.values.evidence import Source

    made = put("F", "fixer", "fixer", {"volume": "1000 ml"}, product="Marlow fix", form="working")
    film(made, 4)
    rows = tuple(
        BathCapacity("Marlow fix", dilution, units, 1000.0, Source("own"))
        for dilution, units in (("1+4", 20.0), ("1+9", 10.0))
    )
    found = judge(find(Bottle, made.pk), lines_of([made.pk])[made.pk], tables()._replace(capacities=rows), TODAY)
    assert (found.lines[0].state, found.lines[0].code) == (UNSURE, "chemistry.fixer.several")


def test_keeping_by_the_makers_sheet_and_how_full_it_is() -> None:
    """A full bottle of working fixer keeps six months, a half full one a month."""
    # ilford-rapid-fixer-2002, p. 5.
    made = put(
        "F",
        "fixer",
        "fixer",
        {"volume": "1000 ml", "mixed": "2026-10-01"},
        product="RAPID FIXER",
        form="working",
        dilution="1+4",
    )
    (line,) = judged(made).lines
    assert (line.state, line.params["until"], line.evidence) == (GOOD, "2027-04-01", Evidence.PUBLISHED)
    book(made.pk, NewLine("drawn", 500.0), NOW)
    (line,) = judged(made).lines
    assert (line.state, line.params["until"]) == (SPENT, "2026-11-01")


def test_what_no_sheet_answers_is_told_to_read_its_label() -> None:
    """An unknown product gets no made-up date."""
    made = put("D", "Brackwater", "developer", {"mixed": "2026-10-01"}, product="Brackwater", form="stock")
    (line,) = judged(made).lines
    assert (line.state, line.code) == (UNSURE, "services.judged.read_label")


@pytest.mark.parametrize(
    ("until", "state"), [("2026-11-24", SPENT), ("2026-11-25", NEAR), ("2026-12-09", NEAR), ("2026-12-10", GOOD)]
)
def test_the_date_on_the_label(until: str, state: str) -> None:
    """Its last good day is a good day; a fortnight before is near."""
    assert judged(put("T", "toner", "toner", {"keeps_until": until})).state == state


def test_an_unknown_product_says_read_its_safety_sheet() -> None:
    """Nothing is ever called harmless: no contents, a substance the table lacks, one without an entry."""
    unknown = hazards_of(put("A", "Brackwater", "developer"))
    assert (unknown.known, unknown.notes) == (False, (("chemistry.hazard.unknown", {"names": ["Brackwater"]}),))
    partly = hazards_of(put("B", "x", "other", contents=[{"name": "moon dust", "percent": "3"}]))
    assert "chemistry.hazard.unknown" in dict(partly.notes)
    unlisted = hazards_of(put("C", "y", "other", contents=[{"name": "sodium thiosulfate", "percent": "20"}]))
    assert "chemistry.hazard.unlisted" in dict(unlisted.notes)
    for found in (partly, unlisted):
        assert found.notes[0][0] == "chemistry.hazard.sheet_first"


def test_hazards_go_by_concentration() -> None:
    """Acetic acid at 10 % irritates, at 25 % burns: the table's own limits."""
    # clp-annex-vi-2020, 607-002-00-6.
    for percent, code in (("9.9", None), ("10", "H315"), ("25", "H314")):
        found = hazards_of(put(f"S{percent}", "stop", "stop", contents=[{"name": "acetic acid", "percent": percent}]))
        assert (code in found.h_codes) if code else not found.h_codes


def test_a_formulas_contents_are_named_as_the_table_lists_them() -> None:
    """Water of crystallisation leaves the name, strength goes into the concentration, of a range the upper end."""
    formulas = load_formulas()
    assert contents_of_formula(formulas["non-swelling-stop"])["acetic acid"] == pytest.approx(3.2 * 0.28)
    assert contents_of_formula(formulas["bisulfite-stop"]) == {"sodium metabisulfite": 5.0}
    assert contents_of_formula(formulas["alkaline-rapid-fixer"])["ammonium thiosulfate"] == pytest.approx(48.0)
    assert set(contents_of_formula(formulas["plain-acid-fixer"])) == {
        "sodium thiosulfate",
        "sodium sulfite",
        "sodium metabisulfite",
    }


def test_wrong_combinations_with_what_else_stands_there() -> None:
    """Dangers come first, each with the bottles it concerns; a bottle that nobody named is not called safe."""
    stop = put("S", "stop", "stop", contents=[{"name": "acetic acid", "percent": "2"}])
    put("F", "Rapid fixer", "fixer")
    put("T", "Selenium toner", "toner")
    put("D", "Brackwater", "developer")
    put("X", "mystery", "other")
    page = bottle_page(stop.pk, TODAY)
    assert [(pair.code.rpartition(".")[2], pair.kind, pair.marks) for pair in page.wrong] == [
        ("acid_thiosulfate", "gas", ("F", "T")),
        ("selenium_acid", "gas", ("T",)),
    ]
    mystery = bottle_page(Bottle.objects.get(mark="X").pk, TODAY)
    assert (mystery.wrong, mystery.known_to_combinations) == ((), False)
    assert wrong_with(stop, [stop]) == ()


def test_used_fixer_goes_into_its_own_waste_vessel_and_back_out_again() -> None:
    """Both ledgers are written together and undone together; another kind of waste is refused."""
    made = fixer()
    waste = put("W", "used fixer", "waste-fixer", {"volume": "300 ml"})
    other = put("V", "used developer", "waste-developer")
    with pytest.raises(RefusedError) as refused:
        empty(made.pk, NOW, other.pk)
    assert refused.value.code == "services.bottles.other_waste"
    with pytest.raises(RefusedError):
        empty(waste.pk, NOW, made.pk)
    line = empty(made.pk, NOW, waste.pk)
    assert (find(Bottle, made.pk).left_ml, find(Bottle, waste.pk).left_ml) == (0.0, 1300.0)
    undo(line, NOW)
    assert (find(Bottle, made.pk).left_ml, find(Bottle, waste.pk).left_ml) == (1000.0, 300.0)
    assert find(Bottle, made.pk).emptied_at is None


def test_an_evening_takes_bottles_with_their_clearing_times() -> None:
    """Waste and emptied bottles stay away; the clearing times come from the ledger, and can be read as a file is."""
    from wetside.services.records.documents import document_of

    made = fixer()
    clip(made, "0:40", fresh=True)
    put("W", "used fixer", "waste-fixer", {"volume": "300 ml"})
    gone = put("G", "old", "developer", {"volume": "1 l"})
    empty(gone.pk, NOW)
    (raw,) = evening_bottles().values()
    assert "clearing" not in raw
    clip(made, "1:00")
    film(made, 4)
    (raw,) = evening_bottles().values()
    found = document_of("bottle", raw)
    assert (found.mark, found.clearing_s, found.fresh_clearing_s, found.seen_units) == ("F", 60.0, 40.0, 1.0)


def test_a_page_is_paged_and_says_what_one_tap_draws() -> None:
    """A long ledger is cut; the quick drawing is the last amount, and is not offered beyond what is left."""
    made = put("D", "Brackwater", "developer", {"volume": "1000 ml"})
    assert bottle_page(made.pk, TODAY).quick_ml == 50.0
    for _ in range(30):
        book(made.pk, NewLine("drawn", 32.0), NOW)
    page = bottle_page(made.pk, TODAY, 2)
    assert (len(page.lines), page.page, page.pages, page.quick_ml) == (6, 2, 2, 32.0)
    book(made.pk, NewLine("counted", 20.0), NOW)
    assert bottle_page(made.pk, TODAY).quick_ml is None
    assert bottle_page(made.pk, TODAY, 99).page == 2


def test_a_test_without_its_temperature_is_refused() -> None:
    """It could not be compared with the next one."""
    with pytest.raises(WetsideError) as refused:
        read_entry(ClearingEntry, {"time": "0:40", "film": "Tolland 100"})
    assert refused.value.place is not None
    assert refused.value.place.field == "temp"


def test_the_second_bath_moves_up_and_all_of_it_is_undone_as_one() -> None:
    """The first goes to its waste, the second's count begins anew, its fresh clearing time stays."""
    first, second = fixer(), put("F2", "fixer", "fixer", {"volume": "900 ml"}, form="working", dilution="1+4")
    waste = put("W", "used fixer", "waste-fixer", {"volume": "0 ml"})
    film(first, 96)
    film(second, 8)
    clip(second, "0:40", fresh=True)
    advice = [note.code for note in bottle_page(first.pk, TODAY).advice]
    assert advice[:2] == ["chemistry.fixer.retire", "chemistry.fixer.promote"]
    line = move_up(first.pk, second.pk, NOW, waste.pk)
    found = find(Bottle, second.pk)
    assert (found.left_ml, found.seen_units, found.emptied_at) == (900.0, 0.0, None)
    assert (find(Bottle, first.pk).left_ml, find(Bottle, waste.pk).left_ml) == (0.0, 1000.0)
    assert promotions_of(second.pk) == 1
    clip(second, "1:21")
    assert judged(second).state == SPENT
    undo(BottleLine.objects.get(bottle=second, clearing_s=81.0).pk, NOW)
    undo(line.pk, NOW)
    back = [find(Bottle, one.pk) for one in (first, second, waste)]
    assert [(one.left_ml, one.seen_units) for one in back] == [(1000.0, 24.0), (900.0, 2.0), (0.0, 0.0)]
    assert all(one.emptied_at is None for one in back)
    assert promotions_of(second.pk) == 0


def test_after_three_times_both_baths_are_renewed() -> None:
    """The fourth bath in a row is not moved up into."""
    baths = [put(f"F{n}", "fixer", "fixer", {"volume": "1 l"}, dilution="1+4") for n in range(5)]
    for first, second in pairwise(baths[:4]):
        move_up(first.pk, second.pk, NOW)
    assert promotions_of(baths[3].pk) == 3
    film(baths[3], 96)
    assert "services.renew_both" in [note.code for note in bottle_page(baths[3].pk, TODAY).advice]
    with pytest.raises(RefusedError) as refused:
        move_up(baths[3].pk, baths[4].pk, NOW)
    assert refused.value.code == "services.renew_both"
    stop = put("S", "stop", "stop", {"volume": "1 l"})
    for other in (stop, baths[4]):
        with pytest.raises(RefusedError):
            move_up(baths[4].pk, other.pk, NOW)


def test_a_waste_vessel_stays_when_its_first_filling_is_undone() -> None:
    """Only a bottle that a mixing made goes with it."""
    vessel = put("WS", "waste", "waste-developer")
    used = put("U", "Brackwater 1+24", "developer")
    book(used.pk, NewLine("filled", 300.0), NOW)
    undo(empty(used.pk, NOW, vessel.pk), NOW)
    assert find(Bottle, vessel.pk).removed_at is None
    assert find(Bottle, used.pk).left_ml == 300.0
