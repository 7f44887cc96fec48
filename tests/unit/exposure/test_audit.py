"""The audit: signs, labels, what wins, what is missing."""

import math

import pytest

from wetside import exposure as ex
from wetside.errors import ConflictError, InputError, RefusedError, UnknownNameError

FILM = ex.ReciprocityPower(1.31)
OTHER = ex.ReciprocityPower(1.43)
MEANT = ex.CameraSetting(16.0, 2.0, None, 4.0, 450.0, 300.0)
AS_MEANT = ex.CameraSetting()
SHORT = ex.CameraSetting(aperture_n=16.0, time_s=1 / 15)


def audit(meant=MEANT, given=AS_MEANT, *mishaps, **more):
    return ex.audit_exposure(meant, given, mishaps=mishaps, **{"reciprocity": FILM, **more})


def codes(told):
    return [part.code.rpartition(".")[2] for part in told.parts]


def test_nothing_wrong_is_no_part_and_no_error():
    """What was set as meant, or says nothing, is right."""
    assert audit() == ex.ExposureAudit(0.0, 0.0, ())
    assert audit(ex.CameraSetting(), ex.CameraSetting()).parts == ()


def test_engraved_numbers_are_taken_at_their_exact_values():
    """1/2 s for 1/15 s is three stops, f/11 for f/22 two."""
    told = audit(ex.CameraSetting(22.0, 1 / 15), ex.CameraSetting(11.0, 1 / 2))
    assert [part.stops for part in told.parts] == pytest.approx([2.0, 3.0], abs=1e-12)


def test_corrected_time_that_was_given_is_right():
    """The time that filter, bellows and film ask for is no error."""
    due_s = FILM.corrected_s(18.0)
    assert audit(MEANT, ex.CameraSetting(time_s=due_s)).stop_error == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("words", "time_s"),
    [
        (["bellows-forgotten"], FILM.corrected_s(8.0)),
        (["filter-forgotten"], FILM.corrected_s(4.5)),
        (["bellows-forgotten", "filter-forgotten"], FILM.corrected_s(2.0)),
        (["reciprocity-forgotten"], 18.0),
        (["reciprocity-first"], FILM.corrected_s(2.0) * 9.0),
        (["bellows-forgotten", "reciprocity-first"], FILM.corrected_s(2.0) * 4.0),
        (["bellows-forgotten", "filter-forgotten", "reciprocity-forgotten"], 2.0),
    ],
)
def test_word_time_and_both_tell_the_same_error(words, time_s):
    """A mishap told by its word, by the time that was set, or by both counts once."""
    by_word = audit(MEANT, AS_MEANT, *words)
    by_time = audit(MEANT, ex.CameraSetting(time_s=time_s))
    by_both = audit(MEANT, ex.CameraSetting(time_s=time_s), *words)
    assert by_word.stop_error < -0.5
    assert by_time.stop_error == pytest.approx(by_word.stop_error, abs=1e-9)
    assert by_both.stop_error == by_time.stop_error
    assert codes(by_both) == ["time_named"]
    assert by_both.parts[0].params["words"] == tuple(word for word in ex.MISHAPS if word in words)


def test_word_that_the_time_does_not_show_is_a_label_of_zero():
    """What was set wins: the bellows were not forgotten after all."""
    told = audit(MEANT, ex.CameraSetting(time_s=FILM.corrected_s(18.0)), "bellows-forgotten")
    assert told.stop_error == pytest.approx(0.0, abs=1e-9)
    assert codes(told) == ["time_named"]


def test_filter_left_off_is_more_light():
    """The time allowed for the filter, and there was none: the set filter wins over the word."""
    left_off = ex.CameraSetting(filter_factor=1.0)
    assert audit(MEANT, left_off).stop_error == pytest.approx(2.0)
    assert audit(MEANT, left_off, "filter-forgotten").stop_error == pytest.approx(2.0)


def test_filter_and_bellows_that_the_metering_did_not_know():
    """A loss that is told only in what was set is a loss, once, with or without the word."""
    meant, given = ex.CameraSetting(time_s=2.0), ex.CameraSetting(None, None, None, 4.0, 450.0, 300.0)
    for words in ((), ("bellows-forgotten",), ("bellows-forgotten", "filter-forgotten")):
        told = audit(meant, given, *words)
        assert told.stop_error == pytest.approx(-math.log2(9.0))


def test_other_extension_than_meant_counts_the_difference():
    """The bellows were longer than reckoned."""
    told = audit(MEANT, ex.CameraSetting(extension_mm=600.0))
    assert told.stop_error == pytest.approx(-2 * math.log2(600 / 450))
    assert codes(told) == ["bellows_other"]
    assert audit(MEANT, ex.CameraSetting(extension_mm=600.0), "bellows-forgotten").stop_error == pytest.approx(-2.0)


def test_aperture_error_counts_whole_deep_in_reciprocity():
    """A stop of light is a stop, however long the time."""
    told = audit(MEANT, ex.CameraSetting(aperture_n=11.0))
    assert told.stop_error == pytest.approx(1.0)


def test_aperture_error_needs_no_time_and_no_table():
    """The film's table may end long before; nothing asks it."""
    table = ex.ReciprocityTable(((1.0, 1.0),))
    told = audit(MEANT, ex.CameraSetting(aperture_n=22.0), "filter-forgotten", reciprocity=table)
    assert told.stop_error == pytest.approx(-3.0)
    assert audit(ex.CameraSetting(8.0), ex.CameraSetting(16.0)).stop_error == -2.0


def test_time_beyond_the_table_is_refused():
    """What the given time was worth is not guessed."""
    with pytest.raises(RefusedError):
        audit(MEANT, ex.CameraSetting(time_s=60.0), reciprocity=ex.ReciprocityTable(((1.0, 1.0),)))


def test_due_time_that_is_not_known_is_left_open():
    """The error of a short time can be known where the due time lies beyond the table."""
    table = ex.ReciprocityTable(((1.0, 1.0), (10.0, 2.0)))
    told = audit(MEANT, ex.CameraSetting(time_s=1.0), reciprocity=table)
    assert told.stop_error == pytest.approx(-math.log2(18.0))
    assert told.parts[0].params["due_s"] is None


@pytest.mark.parametrize(("set_ei", "stops"), [(400.0, -2.0), (25.0, 2.0), (100.0, 0.0)])
def test_rating_set_faster_is_less_exposure(set_ei, stops):
    """Rated 400 instead of 100: two stops under."""
    assert audit(SHORT, ex.CameraSetting(ei=set_ei), film_ei=100.0).stop_error == stops


def test_rating_is_compared_with_what_was_meant():
    """A deliberate rating of 50 is no error; 200 on the dial is then two stops."""
    meant = SHORT._replace(ei=50.0)
    assert audit(meant, AS_MEANT, film_ei=100.0).stop_error == 0.0
    assert audit(meant, ex.CameraSetting(ei=200.0), film_ei=100.0).stop_error == -2.0
    assert audit(meant, AS_MEANT, "wrong-rating", film_ei=100.0).stop_error == 1.0


def test_rating_that_time_or_aperture_already_show_counts_once():
    """Dialled 400, and so 1/60 s was set for 1/15 s: two stops under, not four."""
    for given in (ex.CameraSetting(time_s=1 / 60, ei=400.0), ex.CameraSetting(aperture_n=32.0, ei=400.0)):
        for words in ((), ("wrong-rating",)):
            told = audit(SHORT, given, *words, film_ei=100.0)
            assert told.stop_error == pytest.approx(-2.0)
            assert codes(told)[-1] == "rating_shown"
    told = audit(SHORT, ex.CameraSetting(time_s=1 / 60), "wrong-rating", film_ei=100.0)
    assert told.stop_error == pytest.approx(-2.0)
    assert codes(told) == ["time", "rating_labelled"]


def test_rating_that_what_was_set_does_not_show_counts():
    """Dialled 400 and set what the meter said, or slipped besides."""
    told = audit(SHORT, ex.CameraSetting(time_s=1 / 15, ei=400.0), "wrong-rating", film_ei=100.0)
    assert told.stop_error == -2.0
    assert audit(SHORT, ex.CameraSetting(time_s=1 / 2, ei=400.0), film_ei=100.0).stop_error == pytest.approx(1.0)


def test_wrong_film_counts_speed_and_reciprocity():
    """A slower film that loses more: both parts, whatever was set."""
    told = audit(MEANT, AS_MEANT, "wrong-film", film_ei=400.0, actual_ei=100.0, actual_reciprocity=OTHER)
    given_s = FILM.corrected_s(18.0)
    loss = math.log2(OTHER.effective_s(given_s) / 18.0)
    assert loss < 0
    assert told.stop_error == pytest.approx(loss - 2.0)
    assert codes(told) == ["film_reciprocity", "film"]
    again = audit(MEANT, ex.CameraSetting(time_s=given_s), film_ei=400.0, actual_ei=100.0, actual_reciprocity=OTHER)
    assert again.stop_error == pytest.approx(told.stop_error)


def test_double_exposure_fills_the_shadow_and_hardly_the_highlight():
    """A middle tone over III is +2.32, over VIII +0.17; the second's own error counts."""
    told = audit(MEANT, AS_MEANT, "double-exposure")
    assert (told.stop_error, told.stop_error_highlight) == pytest.approx((math.log2(5), math.log2(9 / 8)))
    darker = audit(MEANT, AS_MEANT, second=ex.CameraSetting(aperture_n=32.0))
    assert darker.stop_error == pytest.approx(1.0)
    assert darker.stop_error_highlight == pytest.approx(math.log2(1 + 2**-5))
    assert darker.parts[-1].params["highlight_stops"] == darker.stop_error_highlight


def test_double_exposure_adds_to_the_first_one_s_error():
    """A first exposure two stops under leaves more room for the second."""
    told = audit(MEANT, ex.CameraSetting(aperture_n=32.0), "double-exposure")
    assert told.stop_error == pytest.approx(-2.0 + math.log2(1 + 16))
    assert told.stop_error_highlight == pytest.approx(-2.0 + math.log2(1.5))
    assert math.fsum(part.stops for part in told.parts) == told.stop_error


def test_wrong_film_takes_both_exposures():
    """On the film in the holder both are two stops more, so what the second adds is the same."""
    told = audit(SHORT, AS_MEANT, "double-exposure", film_ei=100.0, actual_ei=400.0)
    assert told.stop_error == pytest.approx(2.0 + math.log2(5))


@pytest.mark.parametrize(
    ("code", "meant", "given", "words", "more"),
    [
        ("extension_missing", ex.CameraSetting(time_s=1.0), AS_MEANT, ["bellows-forgotten"], {}),
        ("extension_missing", ex.CameraSetting(time_s=1.0), ex.CameraSetting(time_s=2.0), ["bellows-forgotten"], {}),
        ("focal_missing", ex.CameraSetting(time_s=1.0, extension_mm=300.0), AS_MEANT, [], {}),
        ("filter_missing", ex.CameraSetting(time_s=1.0), AS_MEANT, ["filter-forgotten"], {}),
        ("metered_time_missing", ex.CameraSetting(), AS_MEANT, ["reciprocity-forgotten"], {}),
        ("metered_time_missing", ex.CameraSetting(), AS_MEANT, ["reciprocity-first"], {}),
        ("metered_time_missing", ex.CameraSetting(), ex.CameraSetting(time_s=1.0), [], {}),
        ("metered_time_missing", ex.CameraSetting(), AS_MEANT, [], {"film_ei": 1.0, "actual_ei": 1.0,
                                                                     "actual_reciprocity": OTHER}),
        ("meant_aperture_missing", ex.CameraSetting(time_s=1.0), ex.CameraSetting(aperture_n=8.0), [], {}),
        ("rating_missing", SHORT, AS_MEANT, ["wrong-rating"], {"film_ei": 100.0}),
        ("film_rating_missing", SHORT, ex.CameraSetting(ei=100.0), [], {}),
        ("film_rating_missing", SHORT, AS_MEANT, [], {"actual_ei": 100.0}),
        ("actual_film_missing", SHORT, AS_MEANT, ["wrong-film"], {"film_ei": 100.0}),
        ("actual_film_missing", SHORT, AS_MEANT, [], {"film_ei": 100.0, "actual_reciprocity": OTHER}),
    ],
)  # fmt: skip
def test_what_is_missing_is_named(code, meant, given, words, more):
    """A mishap without its numbers is refused, and says which one to give."""
    with pytest.raises(InputError) as caught:
        audit(meant, given, *words, **more)
    assert caught.value.code == f"exposure.audit.{code}"


def test_words_that_exclude_each_other_are_refused():
    """Reciprocity forgotten, and corrected first."""
    with pytest.raises(ConflictError):
        audit(MEANT, AS_MEANT, "reciprocity-forgotten", "reciprocity-first")


def test_wrong_rating_that_is_the_right_one_is_refused():
    """The word and the number contradict each other."""
    with pytest.raises(ConflictError):
        audit(SHORT, ex.CameraSetting(ei=100.0), "wrong-rating", film_ei=100.0)


@pytest.mark.parametrize(("word", "nearest"), [("bellows forgotten", "bellows-forgotten"), ("xyzzy", None)])
def test_unknown_word_names_the_nearest(word, nearest):
    """A misspelt mishap is never passed over."""
    with pytest.raises(UnknownNameError) as caught:
        audit(MEANT, AS_MEANT, word)
    assert caught.value.params["nearest"] == nearest


def test_every_part_can_be_said():
    """Each part's parameters fill its sentence."""
    from wetside.wording import sentence

    told = [
        audit(MEANT, ex.CameraSetting(11.0, 3.0, 400.0, 2.0, 600.0), "reciprocity-first", "double-exposure",
              "wrong-film", film_ei=100.0, actual_ei=400.0, actual_reciprocity=OTHER),
        audit(MEANT, AS_MEANT, "bellows-forgotten", "filter-forgotten", "reciprocity-first"),
        audit(MEANT, AS_MEANT, "reciprocity-forgotten"),
        audit(SHORT, ex.CameraSetting(time_s=1 / 60, ei=400.0), film_ei=100.0),
        audit(SHORT, ex.CameraSetting(time_s=1 / 60), "wrong-rating"),
    ]  # fmt: skip
    said = [sentence(part.code, part.params, ("en",)) for one in told for part in one.parts]
    assert len(said) > 12
    assert not [text for text in said if "exposure." in text or "?" in text or "{" in text]
