"""Several models of one long exposure: which is used, and what the others say."""

from __future__ import annotations

import pytest

from wetside import exposure as ex
from wetside.adapters.ways_data import load_threshold_claims, reciprocity_models_for
from wetside.errors import WetsideError
from wetside.exposure import NamedReciprocity, ReciprocityKind
from wetside.values.evidence import Evidence
from wetside.wording import sentence

TABLE = NamedReciprocity(ReciprocityKind.MAKER_TABLE, ex.ReciprocityTable(((0.5, 1.0), (10.0, 4.0))), "sheet")
POWER = NamedReciprocity(ReciprocityKind.MAKER_POWER, ex.ReciprocityPower(1.3), "note")
ADDED = NamedReciprocity(ReciprocityKind.ADDED_TIME, ex.ReciprocityGainer(0.1), "tests")
OWN = NamedReciprocity(ReciprocityKind.OWN_TEST, ex.ReciprocityPower(1.2), "own", Evidence.TESTED)


def test_the_order_of_defaults() -> None:
    """Own test, then the maker's table, then the maker's power, then others, in whatever order they are given."""
    assert ex.compare_reciprocity(5.0, [ADDED, POWER, TABLE, OWN]).default.kind is ReciprocityKind.OWN_TEST
    assert ex.compare_reciprocity(5.0, [ADDED, POWER, TABLE]).default.kind is ReciprocityKind.MAKER_TABLE
    assert ex.compare_reciprocity(5.0, [ADDED, POWER]).default.kind is ReciprocityKind.MAKER_POWER
    only = ex.compare_reciprocity(5.0, [ADDED])
    assert only.reason == "exposure.reciprocity.default_others"
    assert only.spread_stops == 0
    assert not only.differ


def test_the_user_chooses() -> None:
    """A choice is used and said; one that is not there is refused with what is."""
    chosen = ex.compare_reciprocity(5.0, [POWER, ADDED], ReciprocityKind.ADDED_TIME)
    assert chosen.default.source == "tests"
    assert chosen.reason == "exposure.reciprocity.default_chosen"
    with pytest.raises(WetsideError) as caught:
        ex.compare_reciprocity(5.0, [POWER, ADDED], ReciprocityKind.PER_DOUBLING)
    assert caught.value.params["known"] == ("maker-power", "added-time")


def test_where_a_table_ends_the_next_goes_on() -> None:
    """A table that ends is shown with its end, and the next model is used and said so."""
    found = ex.compare_reciprocity(30.0, [TABLE, POWER])
    assert found.default.kind is ReciprocityKind.MAKER_POWER
    assert found.reason == "exposure.reciprocity.default_goes_further"
    assert found.answers[0].time_s is None
    assert found.answers[0].ends_s == 10.0
    with pytest.raises(WetsideError) as caught:
        ex.compare_reciprocity(30.0, [TABLE])
    assert caught.value.code == "exposure.reciprocity.all_end"


def test_what_is_assumed_of_every_film_makes_no_spread() -> None:
    """Schwarzschild's own exponent is shown beside a film's figure and does not disagree with it."""
    found = ex.compare_reciprocity(10.0, reciprocity_models_for("FOMAPAN 100"))
    assert [answer.kind.value for answer in found.answers] == ["maker-table", "schwarzschild"]
    assert found.spread_stops == 0


def test_an_unknown_film_has_one_assumed_answer() -> None:
    """A film of which nothing is known gets an assumed answer, never a silent one."""
    found = ex.compare_reciprocity(10.0, reciprocity_models_for("Tolland 100"))
    assert found.default.evidence is Evidence.ASSUMED


def test_own_rows_count_as_a_test(tmp_path) -> None:
    """A film in a user's own folder outranks its maker."""
    folder = tmp_path / "reciprocity"
    folder.mkdir()
    (folder / "own.csv").write_text("film,power,source\nHP5 PLUS,1.25,own notes\n", "utf-8")
    first = reciprocity_models_for("HP5 PLUS", tmp_path)[0]
    assert (first.kind, first.evidence) == (ReciprocityKind.OWN_TEST, Evidence.TESTED)


def test_thresholds_that_contradict() -> None:
    """Two films' sources contradict each other and it does not matter; the third film's agree."""
    found = ex.threshold_contradictions(load_threshold_claims(), 1.31)
    assert [(one.film, one.most_stops) for one in found] == [("HP5 PLUS", 0.0), ("DELTA 400", 0.0)]
    assert "no difference" in sentence(found[0].code, found[0].params, ("en",))


@pytest.mark.parametrize(
    ("call", "code"),
    [
        (lambda: ex.compare_reciprocity(10.0, []), "no_models"),
        (lambda: ex.power_of_schwarzschild(1.2), "schwarzschild_out_of_range"),
        (lambda: ex.exponent_of_pair(1.0, 1.0), "pair_out_of_range"),
        (lambda: ex.exponent_of_pair(10.0, 9.0), "pair_out_of_range"),
        (lambda: ex.exponent_of_pair(2.0, 100.0), "exponent_out_of_range"),
        (lambda: ex.local_exponent(POWER.model, 10.0, 10.0), "pair_out_of_range"),
        (lambda: ex.ReciprocityDoubling(0.0, 0.3).corrected_s(1.0), "free_out_of_range"),
        (lambda: ex.ReciprocityDoubling(16.0, 3.0).effective_s(1.0), "doubling_out_of_range"),
        (
            lambda: ex.threshold_contradictions([ex.ThresholdClaim("f", -1.0, "s")], 1.3),
            "threshold_out_of_range",
        ),
    ],
)
def test_what_cannot_be_is_refused(call, code: str) -> None:
    """Impossible exponents, times and thresholds carry their code."""
    with pytest.raises(WetsideError) as caught:
        call()
    assert caught.value.code == f"exposure.reciprocity.{code}"
