"""Filter factors by film and light."""

from __future__ import annotations

import pytest

from wetside import exposure as ex
from wetside.adapters.ways_data import load_filters
from wetside.errors import ManyErrors, WetsideError
from wetside.exposure import Light, PublishedFilter, Sensitivity
from wetside.values.evidence import Evidence, Source

NOTES = Source("own notes")
ROWS = [
    PublishedFilter("Tolland 100", Sensitivity.PAN, Light.DAYLIGHT, "yellow", 2.0, NOTES),
    PublishedFilter("Morvane 320", Sensitivity.PAN, Light.DAYLIGHT, "yellow", 1.5, NOTES),
    PublishedFilter("Morvane 320", Sensitivity.PAN, Light.TUNGSTEN, "yellow", 1.25, NOTES),
    PublishedFilter("Tolland 100", Sensitivity.PAN, Light.DAYLIGHT, "red", 8.0, NOTES),
]


def test_a_films_own_factor_comes_first() -> None:
    """A film's own row is published; another film's is lent as assumed, and the others are shown."""
    own = ex.filter_factor(ROWS, "yellow", Sensitivity.PAN, Light.DAYLIGHT, "Morvane 320")
    assert (own.factor, own.evidence) == (1.5, Evidence.PUBLISHED)
    lent = ex.filter_factor(ROWS, "yellow", Sensitivity.PAN, Light.DAYLIGHT, "Other")
    assert (lent.factor, lent.evidence) == (2.0, Evidence.ASSUMED)
    assert [row.film for row in lent.others] == ["Morvane 320"]


def test_the_light_changes_the_factor() -> None:
    """The same filter has another factor in lamp light."""
    assert ex.filter_factor(ROWS, "yellow", Sensitivity.PAN, Light.TUNGSTEN).factor == 1.25


def test_an_unknown_pair_names_what_is_known() -> None:
    """No factor is carried over to another sensitivity or light."""
    with pytest.raises(WetsideError) as caught:
        ex.filter_factor(ROWS, "yellow", Sensitivity.ORTHO, Light.DAYLIGHT)
    assert caught.value.code == "exposure.filter.pair_unknown"
    assert caught.value.params["known"] == ("panchromatic in daylight", "panchromatic in tungsten")
    with pytest.raises(WetsideError) as caught:
        ex.filter_factor(ROWS, "green", Sensitivity.PAN, Light.DAYLIGHT)
    assert caught.value.params["known"] == ("yellow", "red")


@pytest.mark.parametrize("name", ["red", "Deep red", "deep-red"])
def test_ortho_film_is_blind_behind_red(name: str) -> None:
    """No factor makes up for a colour that the film does not see."""
    with pytest.raises(WetsideError) as caught:
        ex.filter_factor(ROWS, name, Sensitivity.ORTHO, Light.DAYLIGHT)
    assert caught.value.code == "exposure.filter.blind"


def test_light_by_index() -> None:
    """Daylight's index set under a lamp needs twice the time; the other way round half of it."""
    _, indices = load_filters()
    assert ex.light_factor(indices, "ortho plus", Light.TUNGSTEN, Light.DAYLIGHT) == 0.5
    with pytest.raises(WetsideError) as caught:
        ex.light_factor(indices, "Tolland 100", Light.DAYLIGHT, Light.TUNGSTEN)
    assert caught.value.code == "exposure.filter.light_unknown"


def test_meters_that_read_through_a_filter() -> None:
    """Reading through yellow only forbids adding the factor; through orange the meter may be 1.5 stops off."""
    assert ex.filter_remarks("orange", metered_through=False) == ()
    assert len(ex.filter_remarks("yellow", metered_through=True)) == 1
    assert ex.filter_remarks("orange", metered_through=True)[1].params["stops"] == 1.5


def test_own_rows_are_read_and_checked(tmp_path) -> None:
    """A user's rows follow ours; a row without factor and index, or of no known light, is told with its place."""
    folder = tmp_path / "filters"
    folder.mkdir()
    own = folder / "own.csv"
    head = "film,sensitivity,light,filter,factor,ei,source\n"
    own.write_text(head + "Tolland 100,panchromatic,tungsten,green,4,,own notes\n", "utf-8")
    assert load_filters(tmp_path)[0][-1].filter == "green"
    own.write_text(head + "Tolland 100,panchromatic,,green,,,own notes\nTolland 100,pan,daylight,,,80,x\n", "utf-8")
    with pytest.raises(ManyErrors) as caught:
        load_filters(tmp_path)
    assert {error.place.field for error in caught.value.errors} == {"light", "factor", "sensitivity"}
