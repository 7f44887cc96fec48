"""Rescue of a misexposed sheet: when the time changes, when it must not, and what is told."""

from __future__ import annotations

from itertools import pairwise

import pytest

from wetside.errors import OutOfRangeError, RefusedError
from wetside.sensitometry.rescue import (
    DensityLimit,
    Misexposure,
    longest_time_under_limit,
    practice_cut,
    rescue_predictions,
    rescue_sheet,
)
from wetside.sensitometry.shoulder import longest_time_before_shoulder, shoulder_log_h, shoulder_log_h_at
from wetside.values.conditions import Agitation, Conditions
from wetside.values.curve import characteristic_curve
from wetside.values.evidence import Evidence
from wetside.values.family import contrast_family
from wetside.wording.sentence import known_codes, sentence

NAN = float("nan")
SCANNER = DensityLimit("scanner", 2.0, Evidence.ASSUMED)


def family_of(*curves):
    return contrast_family(
        "Tolland 100",
        curves,
        conditions=Conditions("Brackwater", "1+24", 20.0, Agitation.ROTARY),
        channel="visual",
        evidence=Evidence.TESTED,
    )


STRAIGHT = family_of(
    *(characteristic_curve(s, (-3.0, 2.0), (0.1, 0.1 + 5 * g)) for s, g in ((300.0, 0.5), (600.0, 0.7)))
)


def bent(dev_s, slope, start):
    """Toe, straight part to ``start``, then a shoulder of a fifth of the slope."""
    log_h = [-4.0, -3.4, -3.0, *(-2.9 + 0.1 * at for at in range(60))]
    density = [0.1, 0.11, 0.14]
    for place in log_h[3:]:
        density.append(density[-1] + 0.1 * slope * (1.0 if place <= start + 1e-9 else 0.2))
    return characteristic_curve(dev_s, log_h, density)


BENT = family_of(bent(300.0, 0.5, 0.4), bent(600.0, 0.7, 0.0))


def codes(advice):
    return {note.code.rpartition(".")[2] for note in advice.notes}


def test_overexposure_keeps_the_normal_time_and_says_how_to_print():
    """The range stays, the tones move up, and nothing costs a load."""
    advice = rescue_sheet(STRAIGHT, Misexposure(-2.8, 1.8, 3.0), 450.0, 1.08, 0.08, limit=SCANNER)
    assert advice.act == "normal"
    assert advice.advised.density_range == pytest.approx(advice.meant.density_range)
    assert "print_longer" in codes(advice)
    assert "own_load" not in codes(advice)
    assert advice.evidence is Evidence.TESTED


def test_a_contraction_for_an_assumed_limit_is_assumed():
    """It goes only as far as the limit, is told to cost a load, and is no surer than the limit."""
    advice = rescue_sheet(STRAIGHT, Misexposure(-2.8, 1.8, 5.0), 450.0, 1.08, 0.08, limit=SCANNER)
    assert advice.act == "contract"
    assert advice.advised.highlight_net == pytest.approx(2.0)
    assert {"contracted", "own_load"} <= codes(advice)
    assert advice.evidence is Evidence.ASSUMED


def test_without_a_limit_nothing_is_contracted():
    """A straight family and no stated limit: the normal time, however dense."""
    assert rescue_sheet(STRAIGHT, Misexposure(-2.8, 1.8, 6.0), 450.0, 1.08, 0.08).act == "normal"


def test_a_shoulder_is_found_where_the_slope_has_halved():
    """The middle of the first chord of a stop with half the slope."""
    assert shoulder_log_h(BENT.curves[0]) == pytest.approx(0.4, abs=0.2)
    assert shoulder_log_h(STRAIGHT.curves[0]) is None
    assert shoulder_log_h_at(BENT, 450.0) == pytest.approx(
        0.5 * (shoulder_log_h(BENT.curves[0]) + shoulder_log_h(BENT.curves[1]))
    )


def test_a_highlight_on_the_shoulder_is_brought_in_front_of_it_where_a_tested_time_does():
    """Less development moves the shoulder out, in this family; the advised time is where it begins at the highlight."""
    sheet = Misexposure(-2.8, 1.8, 4.0)
    advice = rescue_sheet(BENT, sheet, 600.0, 1.08, 0.08)
    assert advice.act == "contract"
    assert shoulder_log_h_at(BENT, advice.dev_s) == pytest.approx(sheet.film_log_h[1])
    assert "before_shoulder" in codes(advice)


def test_a_highlight_that_no_time_brings_back_keeps_the_normal_time():
    """Contraction that gives no separation back is not advised."""
    advice = rescue_sheet(BENT, Misexposure(-2.8, 1.8, 6.5), 600.0, 1.08, 0.08)
    assert advice.act == "normal"
    assert "on_shoulder" in codes(advice)
    assert longest_time_before_shoulder(BENT, 2.0, 600.0) is None


def test_underexposure_is_not_pushed_beyond_what_the_paper_can_use():
    """Longer only until the range is the aim's; the shadow is told as lost."""
    advice = rescue_sheet(BENT, Misexposure(-2.8, 1.8, -2.0), 330.0, 0.95, 0.08)
    assert advice.act == "lengthen"
    assert advice.advised.density_range == pytest.approx(0.95)
    assert {"no_shadow_by_push", "offer_after", "shadow_lost", "own_load"} <= codes(advice)
    assert advice.lost_stops > 0.0
    assert advice.lost_density > 0.0


def test_a_push_raises_the_highs_and_hardly_the_shadows():
    """What the longer time adds to the shadow is a small part of what it adds to the highlight."""
    advice = rescue_sheet(BENT, Misexposure(-2.8, 1.8, -2.0), 330.0, 0.95, 0.08)
    shadow = advice.advised.shadow_net - advice.at_normal.shadow_net
    highlight = advice.advised.highlight_net - advice.at_normal.highlight_net
    assert shadow < 0.1 * highlight


def test_a_range_that_no_time_reaches_is_told():
    """The longest tested time is taken, and the paper must do the rest."""
    advice = rescue_sheet(BENT, Misexposure(-2.8, 1.8, -2.0), 450.0, 1.8, 0.08)
    assert advice.dev_s == 600.0
    assert "range_not_reached" in codes(advice)


def test_a_right_exposure_changes_nothing():
    """No error, no advice but to look first."""
    advice = rescue_sheet(STRAIGHT, Misexposure(-2.8, 1.8, 0.0), 450.0, 1.08, 0.08, limit=SCANNER)
    assert (advice.act, advice.denser, advice.print_factor) == ("normal", 0.0, 1.0)
    assert codes(advice) == {"look_first"}


def test_a_double_exposure_moves_shadow_and_highlight_apart():
    """Each end has its own error, and so the range changes."""
    advice = rescue_sheet(STRAIGHT, Misexposure(-2.8, 1.8, 2.0, 1.0), 450.0, 1.08, 0.08)
    assert advice.advised.density_range == pytest.approx(0.6 * (1.8 - 0.30103), abs=1e-5)


def test_a_twin_is_looked_at_first():
    """With a twin the other sheet goes first; without, the least important one."""
    sheet = Misexposure(-2.8, 1.8, 2.0)
    assert "twin_first" in codes(rescue_sheet(STRAIGHT, sheet, 450.0, 1.08, 0.08, twin=True))
    assert "look_first" in codes(rescue_sheet(STRAIGHT, sheet, 450.0, 1.08, 0.08))


def test_what_is_not_read_is_not_told():
    """A sheet beyond the readings keeps the normal time, with None for what is not known."""
    advice = rescue_sheet(STRAIGHT, Misexposure(-2.8, 1.8, 12.0), 450.0, 1.08, 0.08, limit=SCANNER)
    assert (advice.act, advice.advised.highlight_net, advice.print_factor) == ("normal", None, None)
    assert "not_read" in codes(advice)
    assert advice.advised.code == "values.family.highlight_not_read"


def test_predictions_span_the_tested_times():
    """Nine times from the first to the last, density rising with each."""
    found = rescue_predictions(STRAIGHT, Misexposure(-2.8, 1.8, 1.0))
    assert (found[0].dev_s, found[-1].dev_s, len(found)) == (300.0, 600.0, 9)
    assert all(a.highlight_net < b.highlight_net for a, b in pairwise(found))


@pytest.mark.parametrize(
    ("stops", "low", "high"),
    [(-3.0, 0.0, 0.0), (0.0, 0.0, 0.0), (2.0, 0.0, 0.0), (3.0, 0.10, 0.15), (4.0, 0.20, 0.30), (7.0, 0.20, 0.30)],
)
def test_common_practice_without_a_family(stops, low, high):
    """Up to two stops nothing, three 10 to 15 %, four and more 20 to 30 %: assumed, and said to be a guess."""
    cut = practice_cut(stops)
    assert (cut.low, cut.high, cut.evidence) == (low, high, Evidence.ASSUMED)
    assert "ommon practice" in sentence(cut.code, {}, ())


def test_every_note_is_said():
    """Each note that any of these sheets brings has a sentence that its parameters fill."""
    for stops in (-3.0, -1.0, 0.0, 2.0, 4.0, 5.0, 6.5, 7.0, 12.0):
        for family in (STRAIGHT, BENT):
            for twin in (True, False):
                advice = rescue_sheet(family, Misexposure(-2.0, 1.4, stops), 450.0, 1.6, 0.08, limit=SCANNER, twin=twin)
                for note in advice.notes:
                    assert note.code in known_codes("sensitometry")
                    assert "{" not in sentence(note.code, note.params, ())


@pytest.mark.parametrize(
    ("ask", "code"),
    [
        (lambda: practice_cut(NAN), "sensitometry.rescue.stops"),
        (lambda: rescue_predictions(STRAIGHT, Misexposure(NAN, 1.8, 1.0)), "sensitometry.zone.anchor"),
        (lambda: rescue_predictions(STRAIGHT, Misexposure(-2.8, 0.0, 1.0)), "sensitometry.aim.log_range"),
        (lambda: rescue_predictions(STRAIGHT, Misexposure(-2.8, 1.8, 1.0, NAN)), "sensitometry.rescue.stops"),
        (
            lambda: rescue_sheet(STRAIGHT, Misexposure(-9.0, 1.8, 1.0), 450.0, 1.0, 0.1),
            "sensitometry.rescue.meant_not_read",
        ),
        (
            lambda: rescue_sheet(STRAIGHT, Misexposure(-2.8, 1.8, 1.0), 450.0, NAN, 0.1),
            "sensitometry.aim.density_range",
        ),
        (lambda: longest_time_under_limit(STRAIGHT, 0.2, 0.0, 450.0), "sensitometry.rescue.limit"),
    ],
)
def test_what_cannot_be_rescued_is_refused_and_said(ask, code):
    """Each refusal has its code and a sentence."""
    with pytest.raises((OutOfRangeError, RefusedError)) as caught:
        ask()
    assert caught.value.code == code
    assert code in known_codes("sensitometry")
    assert "{" not in sentence(code, caught.value.params, ())
