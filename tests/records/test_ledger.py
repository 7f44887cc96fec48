"""A bottle's ledger: sums, undoing, what is refused, and two who write at once."""

from __future__ import annotations

import datetime as dt
import math
import os
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest
from django.db import DatabaseError, connection, transaction
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.django import TestCase as DatabaseCase

from wetside.errors import ConflictError, RefusedError, WetsideError
from wetside.records.models import Bottle, BottleLine
from wetside.services.records.changes import change, find, make, written_by
from wetside.services.records.ledger import NewLine, book, lines_of, undo, unlike_its_ledger
from wetside.services.records.ledger_fold import Booked, film_passed, fold

if TYPE_CHECKING:
    from pathlib import Path

NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


def bottle(mark: str = "D", **values: object) -> Bottle:
    return make(Bottle, {"mark": mark, "holds": "Brackwater", "role": "developer", **values})


def sums_of(made: Bottle) -> tuple[float | None, float]:
    found = find(Bottle, made.pk)
    return found.left_ml, found.seen_units


class TestBooks(DatabaseCase):
    def test_sums_follow_the_lines(self) -> None:
        """Filled, drawn, returned, counted and emptied each do what they say, and say who did it."""
        made = bottle()
        with written_by("Ines"):
            for kind, amount, left in (
                ("filled", 1000.0, 1000.0),
                ("drawn", 50.0, 950.0),
                ("returned", 20.0, 970.0),
                ("counted", 940.0, 940.0),
                ("emptied", 0.0, 0.0),
            ):
                book(made.pk, NewLine(kind, amount), NOW)
                assert sums_of(made)[0] == left, kind
        assert set(BottleLine.objects.values_list("by", flat=True)) == {"Ines"}
        assert find(Bottle, made.pk).emptied_at == NOW

    def test_no_more_is_drawn_than_there_is(self) -> None:
        """A drawing beyond what is left is refused with both figures, and nothing is written."""
        made = bottle()
        book(made.pk, NewLine("filled", 100.0), NOW)
        with pytest.raises(RefusedError) as refused:
            book(made.pk, NewLine("drawn", 100.5), NOW)
        assert (refused.value.code, refused.value.params["left_ml"]) == ("services.ledger.not_enough", 100.0)
        assert BottleLine.objects.count() == 1

    def test_what_nobody_counted_cannot_be_drawn_from(self) -> None:
        """A bottle of unknown amount asks to be counted first."""
        made = bottle()
        with pytest.raises(RefusedError) as refused:
            book(made.pk, NewLine("drawn", 1.0), NOW)
        assert refused.value.code == "services.ledger.count_first"
        book(made.pk, NewLine("counted", 300.0), NOW)
        book(made.pk, NewLine("drawn", 1.0), NOW)
        assert sums_of(made) == (299.0, 0.0)

    def test_a_line_is_undone_once_and_by_a_line(self) -> None:
        """The mistake stays in the ledger beside the line that undoes it; neither can be undone again."""
        made = bottle()
        book(made.pk, NewLine("filled", 500.0), NOW)
        line = book(made.pk, NewLine("drawn", 80.0), NOW)
        undo(line.pk, NOW)
        assert sums_of(made) == (500.0, 0.0)
        undoing = BottleLine.objects.get(undoes=line)
        for again in (line.pk, undoing.pk):
            with pytest.raises(RefusedError):
                undo(again, NOW)
        assert BottleLine.objects.count() == 3

    def test_what_others_build_upon_is_not_undone(self) -> None:
        """A filling from which was drawn cannot go before the drawing does."""
        made = bottle()
        filled = book(made.pk, NewLine("filled", 500.0), NOW)
        drawn = book(made.pk, NewLine("drawn", 80.0), NOW)
        with pytest.raises(RefusedError) as refused:
            undo(filled.pk, NOW)
        assert refused.value.code == "services.ledger.built_upon"
        undo(drawn.pk, NOW)
        undo(filled.pk, NOW)
        assert sums_of(made) == (None, 0.0)

    def test_a_count_outlasts_what_is_undone_before_it(self) -> None:
        """Who counted looked at the bottle: a drawing that is undone afterwards does not add to the count."""
        made = bottle()
        book(made.pk, NewLine("filled", 500.0), NOW)
        drawn = book(made.pk, NewLine("drawn", 80.0), NOW)
        count = book(made.pk, NewLine("counted", 400.0), NOW)
        undo(drawn.pk, NOW)
        assert sums_of(made) == (400.0, 0.0)
        undo(count.pk, NOW)
        assert sums_of(made) == (500.0, 0.0)

    def test_emptying_frees_the_mark_and_is_undone_only_while_it_is_free(self) -> None:
        """A mark goes to the next bottle; then the emptied one cannot come back under it."""
        made = bottle("F", role="fixer")
        book(made.pk, NewLine("filled", 500.0), NOW)
        emptied = book(made.pk, NewLine("emptied"), NOW)
        other = bottle("F", role="fixer")
        with pytest.raises(ConflictError):
            undo(emptied.pk, NOW)
        change(other, {"mark": "F2"})
        undo(emptied.pk, NOW)
        assert find(Bottle, made.pk).emptied_at is None
        assert sums_of(made) == (500.0, 0.0)

    def test_the_database_keeps_lines(self) -> None:
        """No line is changed or removed, not even past this program."""
        line = book(bottle().pk, NewLine("filled", 500.0), NOW)
        with pytest.raises(DatabaseError), transaction.atomic():
            BottleLine.objects.filter(pk=line.pk).update(change_ml=1.0)
        with pytest.raises(DatabaseError), transaction.atomic():
            line.delete()

    def test_kept_sums_that_differ_from_the_ledger_are_found(self) -> None:
        """Whoever writes sums past the ledger is told on."""
        made = bottle()
        book(made.pk, NewLine("filled", 500.0), NOW)
        assert unlike_its_ledger() == []
        Bottle.objects.filter(pk=made.pk).update(left_ml=499.0)
        ((found, sums),) = unlike_its_ledger()
        assert (found.pk, sums.left_ml) == (made.pk, 500.0)


ENTRIES = st.one_of(
    st.tuples(
        st.sampled_from(["filled", "drawn", "returned", "counted"]), st.floats(0.0, 2000.0, allow_subnormal=False)
    ),
    st.tuples(st.just("film"), st.floats(0.0, 9.0, allow_subnormal=False)),
    st.tuples(st.just("emptied"), st.just(0.0)),
    st.tuples(st.just("undo"), st.integers(0, 30)),
)


class TestAnySequence(DatabaseCase):
    @settings(max_examples=60)
    @given(st.lists(ENTRIES, max_size=25))
    def test_sums_equal_the_fold_of_the_ledger(self, acts: list[tuple[str, float]]) -> None:
        """After any entries and undos, taken or refused: kept sums, fold and plain sums agree, and none is negative."""
        made = bottle()
        for act, value in acts:
            try:
                if act == "undo":
                    rows = list(BottleLine.objects.filter(bottle=made).order_by("number"))
                    if rows:
                        undo(rows[int(value) % len(rows)].pk, NOW)
                elif act == "film":
                    book(made.pk, NewLine("film", area_units=value, film_class="ordinary"), NOW)
                else:
                    book(made.pk, NewLine(act, value), NOW)
            except WetsideError:
                continue
            left, seen = sums_of(made)
            booked = lines_of([made.pk])[made.pk]
            assert (left, seen) == fold(booked)
            assert (left or 0.0) >= 0
            assert seen >= 0
            assert math.isclose(math.fsum(one.change_ml for one in booked), left or 0.0, abs_tol=1e-6)
            assert math.isclose(math.fsum(one.area_units for one in booked), seen, abs_tol=1e-6)
            assert [one.number for one in booked] == list(range(1, len(booked) + 1))
        assert unlike_its_ledger() == []


def test_film_counts_against_the_liquid_that_took_it() -> None:
    """What was drawn and thrown away shares no load; what comes back does; emptying begins anew."""

    def passed(*acts: tuple[str, float, float]) -> list[tuple[float, float | None]]:
        lines = [Booked(None, number, None, *act) for number, act in enumerate(acts, start=1)]
        return [(film.units, film.volume_ml) for film in film_passed(lines)]

    assert passed(("filled", 1000, 0), ("film", 0, 2)) == [(2, 1000)]
    assert passed(("filled", 1000, 0), ("drawn", -500, 0), ("film", 0, 2)) == [(2, 500)]
    assert passed(("filled", 1000, 0), ("drawn", -1000, 0), ("film", 0, 2)) == [(2, 1000)]
    assert passed(("filled", 1000, 0), ("film", 0, 2), ("emptied", -1000, -2), ("filled", 500, 0), ("film", 0, 3)) == [
        (3, 500)
    ]
    assert passed(("film", 0, 2)) == [(2, None)]


WRITER = """
import datetime as dt, sys, uuid
import django
django.setup()
from wetside.services.records.ledger import NewLine, book
for _ in range(int(sys.argv[2])):
    book(uuid.UUID(sys.argv[1]), NewLine("drawn", 1.0), dt.datetime(2026, 11, 25, tzinfo=dt.timezone.utc))
"""
OPENER = """
import datetime as dt, pathlib, os, sys
import django
django.setup()
from wetside.records.models import Bottle
from wetside.services.records.archive import open_archive
from wetside.services.records.changes import make
from wetside.services.records.ledger import NewLine, book
open_archive(pathlib.Path(os.environ["WETSIDE_DATA"]))
made = make(Bottle, {"mark": "D", "holds": "Brackwater", "role": "developer"})
book(made.pk, NewLine("filled", 500.0), dt.datetime(2026, 11, 25, tzinfo=dt.timezone.utc))
print(made.pk)
"""
READER = """
import django
django.setup()
from wetside.records.models import Bottle, BottleLine
from wetside.services.records.ledger import unlike_its_ledger
assert unlike_its_ledger() == []
print(Bottle.objects.get().left_ml, BottleLine.objects.count())
"""


def test_two_who_write_at_once_lose_no_line(tmp_path: Path) -> None:
    """Two processes draw from one bottle; every line is there and the sum is right."""
    environment = {**os.environ, "WETSIDE_DATA": str(tmp_path / "darkroom")}
    environment["DJANGO_SETTINGS_MODULE"] = "wetside.web.settings"
    environment.pop("WETSIDE_DATABASE", None)

    def said(text: str, *arguments: str) -> str:
        done = subprocess.run(
            [sys.executable, "-c", text, *arguments], env=environment, capture_output=True, text=True, check=True
        )
        return done.stdout.strip()

    key = said(OPENER)
    writers = [subprocess.Popen([sys.executable, "-c", WRITER, key, "40"], env=environment) for _ in range(2)]
    assert [writer.wait(120) for writer in writers] == [0, 0]
    assert said(READER) == "420.0 81"


@pytest.mark.django_db(transaction=True)
def test_two_threads_on_a_server_lose_no_line() -> None:
    """The same where the database is a server's and locks single rows."""
    if connection.vendor == "sqlite":
        pytest.skip("tests run on SQLite in memory, which has one writer; two processes try its file")
    from concurrent.futures import ThreadPoolExecutor

    made = bottle()
    book(made.pk, NewLine("filled", 500.0), NOW)

    def draw(_: int) -> None:
        for _ in range(20):
            book(made.pk, NewLine("drawn", 1.0), NOW)
        connection.close()

    with ThreadPoolExecutor(2) as both:
        list(both.map(draw, range(2)))
    assert sums_of(made) == (460.0, 0.0)
    assert BottleLine.objects.count() == 41
