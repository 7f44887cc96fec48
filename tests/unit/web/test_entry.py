"""Fields of a page from declared keys, and back."""

from __future__ import annotations

import pytest

from wetside.errors import WetsideError
from wetside.planning.documents.evening import Film, Vessel
from wetside.services.records.documents import document_of
from wetside.web.forms.entry import entries, mistakes_of, raw_of_post


def test_what_is_left_empty_is_left_out() -> None:
    """Empty fields and rows in which only a choice stands say nothing."""
    post = {"name": "Tolland 100", "ei": "  ", "times[1].agitation": "rotary", "reciprocity.power": ""}
    assert raw_of_post(Film, ("name", "ei", "times", "reciprocity"), post) == {"name": "Tolland 100"}


def test_rows_are_read_by_their_numbers() -> None:
    """Rows keep their order, and gaps between their numbers do not matter."""
    post = {
        "name": "Tolland 100",
        "times[7].developer": "Brackwater",
        "times[7].time": "8:00",
        "times[12].developer": "Sorrel",
        "times[12].time": "9:30",
    }
    raw = raw_of_post(Film, ("name", "times"), post)
    film = document_of("film", raw)
    assert [(time.developer, time.span_s[0]) for time in film.times] == [("Brackwater", 480.0), ("Sorrel", 570.0)]


@pytest.mark.parametrize(("units", "least"), [("metric", 300.0), ("us", 300 * 29.5735295625)])
def test_a_bare_number_has_the_unit_beside_its_field(units: str, least: float) -> None:
    """Metric or US as the darkroom shows it; a unit that was typed counts before that."""
    post = {"name": "short drum", "kind": "drum", "places": "6", "min": "300", "max": "20 l"}
    names = ("name", "kind", "places", "min", "max")
    vessel = document_of("vessel", raw_of_post(Vessel, names, post, units=units))
    assert vessel.min_ml == pytest.approx(least)
    assert vessel.max_ml == 20_000.0


def test_places_by_size_are_typed_as_a_list() -> None:
    """One number, or a number a size."""
    post = {"name": "long drum", "kind": "drum", "places": "9x12cm 6, 13x18cm 4", "min": "300 ml", "max": "1 l"}
    vessel = document_of("vessel", raw_of_post(Vessel, ("name", "kind", "places", "min", "max"), post))
    assert dict(vessel.places) == {"9x12cm": 6, "13x18cm": 4}


def test_mistakes_stand_beside_their_fields() -> None:
    """Each error is found again by the name of its field, in the rows too, and what was typed stays."""
    post = {"name": "Tolland 100", "ei": "many", "times[1].developer": "Brackwater", "times[1].time": "soon"}
    raw = raw_of_post(Film, ("name", "ei", "times"), post)
    with pytest.raises(WetsideError) as refused:
        document_of("film", raw)
    mistakes = mistakes_of(refused.value)
    assert set(mistakes) == {"ei", "times[1].time"}
    field = entries(Film, ("ei",), raw, mistakes)[0]
    assert (field.value, field.mistake) == ("many", mistakes["ei"])
