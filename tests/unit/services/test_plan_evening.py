"""From a handful of answers to an evening, and from there to a plan or one reason."""

from __future__ import annotations

import pytest

from wetside.errors import InputError, RefusedError, WetsideError
from wetside.planning.documents.words import VesselKind
from wetside.services.plan_evening import PlainAnswers, evening_of_answers, plan_answers, vessel_of_text
from wetside.values.conditions import Agitation

PLAIN = PlainAnswers(film="Tolland 100", developer="Brackwater", time="7:30", number="12")


def test_what_is_left_out_is_filled_in():
    """Stock, 20 C, drum agitation and no vessel stand where nothing was said."""
    evening = evening_of_answers(PLAIN)
    assert [sheet.label for sheet in evening.sheets][::11] == ["01", "12"]
    (process,) = evening.processes
    assert (process.developer, process.temp_c, process.dilution.text) == ("Brackwater", 20.0, "stock")
    (time,) = evening.films[0].times
    assert (time.span_s, time.agitation, time.own) == ((450.0, 450.0), Agitation.ROTARY, False)
    assert evening.vessels == ()


def test_a_bare_time_holds_in_the_vessel():
    """A time that is given beside a tray is a time for trays: nothing is converted."""
    evening = evening_of_answers(PLAIN._replace(vessel="tray:4,500-1000ml", time="7:00-8:00"))
    assert evening.films[0].times[0].agitation is Agitation.TRAY
    assert evening.films[0].times[0].span_s == (420.0, 480.0)


@pytest.mark.parametrize(
    ("text", "low_ml", "high_ml"),
    [
        ("drum:6,300-1000ml", 300.0, 1000.0),
        ("Drum:6,300 ml-1 l", 300.0, 1000.0),
        ("drum: 6 , 0.3-1l", 300.0, 1000.0),
        ("drum:6,500-500ml", 500.0, 500.0),
    ],
)
def test_vessel_of_a_word(text, low_ml, high_ml):
    """Kind, places and limits; a lower limit without a unit has that of the upper."""
    vessel = vessel_of_text(text)
    assert (vessel.kind, vessel.places, vessel.min_ml, vessel.max_ml) == (
        VesselKind.DRUM,
        (("any", 6),),
        pytest.approx(low_ml),
        pytest.approx(high_ml),
    )


@pytest.mark.parametrize("missing", ["film", "developer", "count"])
def test_what_cannot_be_done_without_is_asked_for(missing):
    """Film, developer and count are wanted, and empty is as good as absent."""
    field = {"count": "number"}.get(missing, missing)
    for value in (None, "", "  "):
        with pytest.raises(InputError) as caught:
            evening_of_answers(PLAIN._replace(**{field: value}))
        assert caught.value.params["option"] == f"--{missing}"


@pytest.mark.parametrize(
    ("field", "text"),
    [("dilution", "1:3"), ("time", "soon"), ("temp", "68"), ("count", "many"), ("size", "big"), ("ei", "-")],
)
def test_an_error_knows_its_option(field, text):
    """What cannot be read names the option that it came from."""
    with pytest.raises(WetsideError) as caught:
        evening_of_answers(PLAIN._replace(**{"number" if field == "count" else field: text}))
    assert caught.value.place.field == f"--{field}"


def test_one_reason_for_all_sheets():
    """Where no sheet can be planned the reason is an error, once, not a plan of nothing."""
    with pytest.raises(RefusedError) as caught:
        plan_answers(PLAIN._replace(time=None))
    assert caught.value.code == "planning.no_time"


def test_several_indexes_are_listed():
    """A film with published rows for several indexes asks for the option that picks one."""
    answers = PlainAnswers(film="FP4 PLUS", developer="ID-11", dilution="1+1", number="1")
    with pytest.raises(RefusedError) as caught:
        plan_answers(answers)
    assert caught.value.code == "services.which_index"
    assert len(plan_answers(answers._replace(ei="125")).loads) == 1
