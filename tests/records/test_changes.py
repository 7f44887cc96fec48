"""Making, correcting, removing and bringing back a record."""

from __future__ import annotations

import datetime as dt

import pytest

from wetside.errors import ConflictError, RefusedError, UnknownNameError
from wetside.records.models import Film, ProcessVersion, Vessel
from wetside.services.records.changes import bring_back, change, find, history_of, make, remove, written_by

pytestmark = pytest.mark.django_db
NOW = dt.datetime(2026, 11, 25, 20, 0, tzinfo=dt.UTC)


def test_a_correction_keeps_who_when_and_what_before() -> None:
    """The history names the worker, and the value before and after."""
    with written_by("Ines"):
        film = make(Film, {"name": "Tolland 100", "ei": 100.0})
    with written_by("Jonas"):
        change(film, {"ei": 80.0}, why="rated anew")
    newest, first = history_of(find(Film, film.pk))
    assert (newest.by, newest.why, newest.changes) == ("Jonas", "rated anew", (("ei", 100.0, 80.0),))
    assert (first.by, first.kind) == ("Ines", "made")


def test_two_pages_do_not_overwrite_each_other() -> None:
    """Who saw an older state is refused, and nothing is written."""
    film = make(Film, {"name": "Tolland 100"})
    change(film, {"ei": 80.0}, revision=1)
    with pytest.raises(ConflictError) as refused:
        change(film, {"ei": 64.0}, revision=1)
    assert refused.value.code == "services.records.changed_meanwhile"
    assert find(Film, film.pk).ei == 80.0


def test_nothing_is_written_where_nothing_differs() -> None:
    """A form that was sent unchanged leaves no trace."""
    film = make(Film, {"name": "Tolland 100", "ei": 80.0})
    change(film, {"ei": 80.0})
    assert len(history_of(film)) == 1


def test_a_name_stands_once_but_is_free_after_a_removal() -> None:
    """The database refuses a second film of a name by its rule; a removed one can come back until the name is taken."""
    film = make(Film, {"name": "Tolland 100"})
    with pytest.raises(ConflictError) as refused:
        make(Film, {"name": "  TOLLAND  100"})
    assert refused.value.code == "records.rule.film_name_once"
    removed = remove(film, NOW)
    with pytest.raises(UnknownNameError):
        find(Film, film.pk)
    with pytest.raises(RefusedError):
        remove(removed, NOW)
    other = make(Film, {"name": "Tolland 100"})
    with pytest.raises(ConflictError):
        bring_back(removed)
    remove(other, NOW)
    assert bring_back(removed).removed_at is None


def test_a_constraint_of_the_table_is_told_by_its_code() -> None:
    """What only the database sees becomes a sentence of its own."""
    with pytest.raises(ConflictError) as refused:
        make(Vessel, {"name": "short drum", "kind": "drum", "min_ml": 400.0, "max_ml": 300.0})
    assert refused.value.code == "records.rule.vessel_least_below_most"


def test_a_version_of_a_process_is_never_rewritten() -> None:
    """The database itself refuses it."""
    from django.db import DatabaseError, transaction

    from wetside.records.models import Process

    process = make(Process, {"name": "drum, one shot"})
    version = ProcessVersion.objects.create(
        process=process, version=1, developer="Brackwater", temp_c=20.0, clock="full-to-drain"
    )
    with pytest.raises(DatabaseError), transaction.atomic():
        ProcessVersion.objects.filter(pk=version.pk).update(temp_c=24.0)
    with pytest.raises(DatabaseError), transaction.atomic():
        version.delete()
