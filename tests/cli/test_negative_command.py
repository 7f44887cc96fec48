"""``wetside negative`` as a process: worked numbers, cautions where a treatment is offered, and what is refused."""

from __future__ import annotations

import pytest

THIN = ("negative", "--shadow", "0.10", "--highlight", "1.00", "--aim", "1.05", "--only")
DENSE = ("negative", "--shadow", "0.45", "--highlight", "1.52", "--aim", "1.05", "--only", "--fixed-and-washed")


def ways(answer):
    return {way["act"]: way for way in answer["ways"]}


def test_a_thin_negative_is_intensified_only_where_it_is_known_to_be_washed(wetside):
    """0.90 by 1.15 to 1.20 is 1.035 to 1.080; without a good wash it is shown with its reason and not advised."""
    unsure = wetside(*THIN, "--json").document
    assert (unsure["advised"], ways(unsure)["intensify"]["possible"]) == ("keep", False)
    sure = wetside(*THIN, "--fixed-and-washed", "--json").document
    way = ways(sure)["intensify"]
    assert sure["advised"] == "intensify"
    assert [way[key] for key in ("range_after", "range_after_low", "range_after_high")] == pytest.approx(
        [1.0575, 1.035, 1.080]
    )
    assert sure["deviation"] == pytest.approx(0.15 / 0.08)
    assert sure["grades"] == pytest.approx(-0.15 / 0.17)


def test_cautions_come_with_a_treatment_and_only_then(wetside):
    """Toxic, ammonia, a spare first and the product's sheet stand under an intensifier that is possible."""
    told = " ".join(wetside(*THIN, "--fixed-and-washed").out.split())
    for word in ("toxic", "ammonia", "spare negative", "safety sheet", "Copy or scan"):
        assert word in told
    assert "ammonia" not in wetside(*THIN).out
    for word in ("chromium", "mercury", "dichromate"):
        assert word not in told.casefold()


def test_base_and_fog_come_off_what_was_read(wetside):
    """As read less base + fog is net: the same answer, loss and print exposure included."""
    net = wetside(*THIN, "--json").document
    read = ("negative", "--shadow", "0.32", "--highlight", "1.22", "--base-fog", "0.22", "--aim", "1.05", "--only")
    as_read = wetside(*read, "--json").document
    assert as_read["shadow_net"] == pytest.approx(net["shadow_net"])
    assert ways(as_read)["intensify"]["print_factor"] == pytest.approx(ways(net)["intensify"]["print_factor"])


def test_a_cut_keeps_the_range_and_takes_the_shadow(wetside):
    """0.30 off a dense negative: range as before, 0.30 lost, half the print exposure, half the print time."""
    answer = wetside(*DENSE, "--cut", "0.30", "--print-time", "20s", "--json").document
    way = ways(answer)["cut"]
    assert way["range_after"] == pytest.approx(1.07)
    assert way["lost"] == pytest.approx(0.30)
    assert way["print_s"] == pytest.approx(20 * 10**-0.30)
    assert answer["advised"] == "keep"


def test_a_print_time_goes_from_density_to_density(wetside):
    """12 s under 1.5 becomes 30 s under 1.9 (gluedideas-printing)."""
    words = ("negative", "--shadow", "0.8", "--highlight", "1.9", "--aim", "1.05", "--print-time", "12s")
    assert round(wetside(*words, "--printed-at", "1.5", "--json").document["print_s"]) == 30
    assert wetside(*words, "--json").document["print_s"] == pytest.approx(12.0)


def test_another_grade_has_no_print_time(wetside):
    """A hard negative goes to a softer filter, 1.28 on paper that takes 1.30; its time is for the test strip."""
    words = ("negative", "--shadow", "0.12", "--highlight", "1.40", "--filter", "2", "--print-time", "20s")
    answer = wetside(*words, "--json").document
    way = ways(answer)["print"]
    assert (answer["advised"], way["printing"]["name"], way["print_s"]) == ("print", "1", None)
    assert way["deviation"] == pytest.approx(0.02 / 0.15)
    assert way["grades"] == pytest.approx((1.10 - 1.30) / 0.17)
    assert "test strip" in " ".join(wetside(*words).out.split())


def test_only_a_range_tells_no_loss(wetside):
    """Of a bare range neither print exposure nor loss is told."""
    answer = wetside("negative", "--range", "1.35", "--aim", "1.05", "--only", "--fixed-and-washed", "--json").document
    assert all(way["lost"] is None for way in answer["ways"])
    assert [way["print_factor"] for way in answer["ways"] if way["act"] == "reduce"] == [None]
    assert ways(answer)["reduce"]["range_after"] == pytest.approx(1.05)


def test_a_scanner_has_an_aim_a_limit_and_no_grades(wetside):
    """Over net 2.0 the limit is told with the cut that would reach it; no print exposure is spoken of."""
    words = ("negative", "--shadow", "0.3", "--highlight", "2.2", "--process", "scanner")
    answer = wetside(*words, "--json").document
    assert (answer["limit"], answer["grades"]) == (2.0, None)
    assert "print" not in ways(answer)
    assert all(way["print_factor"] is None for way in answer["ways"])
    assert "0.20" in wetside(*words).out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("negative",), "--process"),
        (("negative", "--grade", "2"), "--shadow"),
        (("negative", "--grade", "2", "--shadow", "0.1"), "--highlight"),
        (("negative", "--grade", "2", "--filter", "2", "--range", "1"), "--filter"),
        (("negative", "--grade", "2", "--range", "1", "--shadow", "0.1"), "--shadow"),
        (("negative", "--grade", "2", "--range", "1", "--cut", "0.1"), "--cut"),
        (("negative", "--grade", "2", "--range", "nan"), "--range"),
        (("negative", "--grade", "2", "--shadow", "1", "--highlight", "0.2"), "swapped"),
        (("negative", "--grade", "2", "--shadow", "0.1", "--highlight", "1", "--base-fog", "0.2"), "--base-fog"),
        (("negative", "--aim", "1", "--range", "0.8", "--gain", "2"), "--gain"),
        (("negative", "--aim", "9", "--range", "1"), "--aim"),
        (("negative", "--aim", "1", "--shadow", "-1", "--highlight", "1"), "--shadow"),
        (("negative", "--aim", "1", "--range", "1", "--printed-at", "1"), "--printed-at"),
        (("negative", "--aim", "1", "--shadow", "0", "--highlight", "1", "--printed-at", "1"), "--print-time"),
        (("negative", "--aim", "1", "--shadow", "0", "--highlight", "1", "--print-time", "0s"), "--print-time"),
        (("negative", "--process", "scanner", "--range", "1", "--print-time", "9s"), "--print-time"),
        (("negative", "--grade", "2", "--range", "1", "--stained"), "blue"),
        (("negative", "--process", "platinum", "--range", "1", "--stained", "--read-in", "blue"), "uv"),
        (("negative", "--process", "platinum", "--range", "1", "--for", "alternative"), "--for"),
    ],
)
def test_refusals_name_what_is_wrong(wetside, words, said):
    """Half an answer, a stained negative in the wrong light, swapped tones: one line, no answer, no traceback."""
    ran = wetside(*words)
    assert ran.code != 0
    assert ran.out == ""
    assert said in ran.err
