"""A darkroom in US units with a comma: every sentence, chart, card and printed sheet follows; plain figures stay."""

from __future__ import annotations

import html
import re
from urllib.parse import urlencode

import pytest

from wetside import __version__
from wetside.records import models
from wetside.services.records import demo, plans_frozen, plans_reckoned
from wetside.services.records.evenings import evening_of_plan
from wetside.wording import Manner, sentence, shown, shown_in

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("own_folder")]
HOST = {"host": "127.0.0.1"}
US = Manner(us=True, comma=True)
METRIC = re.compile(r"\d[   ]?(?:ml|°C|mm|litres?)\b")
POINT = re.compile(r"(?<![\d.])\d+\.\d+(?![\d.])")


def words(answer) -> str:
    """What a person reads on a page: no markup, no script, and nothing that waits in a field to be typed over."""
    assert answer.status_code == 200, answer.content.decode()[:2000]
    text = re.sub(r"(?s)<(script|style|head|datalist|textarea)\b.*?</\1>", " ", answer.content.decode())
    labels = " ".join(re.findall(r'(?:aria-label|title)="([^"]*)"', text))
    return html.unescape(re.sub(r"<[^>]*>", " ", text) + labels)


def addresses() -> list[str]:
    """The whole walk."""
    plan = demo.make_demo()
    document = plans_reckoned.reckon(evening_of_plan(plan), 60.0).plan
    assert document is not None
    found = ["/", "/plans/", "/sheets/", "/films/", "/films/developers/", "/processes/", "/aims/", "/darkroom/"]
    found += [
        f"/plans/{plan.pk}/",
        *(f"/plans/{plan.pk}/why/?{urlencode({'sheet': sheet.id})}" for sheet in document.sheets),
    ]
    found += ["/shelf/", "/shelf/vessels/", "/shelf/instruments/", "/shelf/mixing/"]
    found += [f"/shelf/bottles/{bottle.pk}/" for bottle in models.Bottle.kept.all()]
    found += [f"/shelf/instruments/{one.pk}/" for one in models.Instrument.kept.all()]
    found += [f"/films/{film.pk}/" for film in models.Film.kept.all()]
    found += [f"/processes/{process.pk}/" for process in models.Process.kept.all()]
    found += ["/shelf/mixing/?what=Brackwater&dilution=1%2B9&volume=600+ml"]
    found += ["/short/?film=Tolland+40&developer=Marrow+1%2B9&number=8&vessel=drum+6,+300-1000+ml&time=7:30"]
    return found


def test_the_whole_walk_follows_a_us_darkroom_with_a_comma(client) -> None:
    """No millilitre, no degree Celsius, no decimal point on any page."""
    models.Darkroom.objects.create(units="us", decimal_sign="comma", name="cellar")
    wrong = {}
    seen = ""
    for address in addresses():
        text = words(client.get(address, headers=HOST))
        if "/darkroom/" in address:
            continue  # its choices show both ways
        seen += text
        found = [
            text[max(0, m.start() - 50) : m.end() + 20].strip() for rule in (METRIC, POINT) for m in rule.finditer(text)
        ]
        if found:
            wrong[address] = found
    assert not wrong, "\n".join(sorted({" ".join(one.split()) for many in wrong.values() for one in many}))
    assert "fl oz" in seen
    assert "68,0 °F" in seen.replace(" ", " ")


def test_frozen_run_sheets_are_printed_in_the_darkrooms_manner(client) -> None:
    """The run sheets on the disk and the pages of the loads are as the darkroom was when they were frozen."""
    models.Darkroom.objects.create(units="us", decimal_sign="comma", name="cellar")
    plan = plans_frozen.freeze(demo.make_demo())
    pages = [words(client.get(f"/plans/{plan.pk}/loads/{number}/", headers=HOST)) for number in range(1, 7)]
    names = [one.name for one in plans_frozen.files_of(plan) if one.name.endswith(".html")]
    assert len(names) == 11
    kept = [plans_frozen.file_of(plan, name)[1].decode() for name in names]
    for text in (*pages, *(re.sub(r"(?s)<style.*?</style>|<[^>]*>", " ", one) for one in kept)):
        told = html.unescape(text).replace(f"wetside {__version__}", "")
        assert [told[m.start() - 60 : m.end() + 20] for rule in (METRIC, POINT) for m in rule.finditer(told)] == []
    assert "fl oz" in " ".join(kept)
    assert "fl oz" in " ".join(pages)
    models.Darkroom.objects.update(units="metric", decimal_sign="point")
    assert [plans_frozen.file_of(plan, name)[1].decode() for name in names] == kept


def test_a_metric_darkroom_with_a_point_says_what_the_command_prints(client) -> None:
    """Plain settings change no figure: the cards are those of the command line."""
    from wetside.cards.plan_card import plan_card

    plan = demo.make_demo()
    document = plans_reckoned.reckon(evening_of_plan(plan), 60.0).plan
    card = plan_card(document)
    models.Darkroom.objects.create(name="cellar")
    text = " ".join(words(client.get(f"/plans/{plan.pk}/", headers=HOST)).split())
    for row in card.blocks[0].rows:
        assert " ".join(row.cells[1].split()) in text
    assert METRIC.search(text)
    assert "fl oz" not in text


@pytest.mark.parametrize(
    ("value", "how", "plain", "us"),
    [
        (20.0, "temp", "20.0 °C", "68,0 °F"),
        (-0.5, "degrees", "−0.5 °C", "−0,9 °F"),
        (600.0, "ml", "600 ml", "20,3 fl oz"),
        (12.5, "ml", "12.5 ml", "0,42 fl oz"),
        (0.0, "ml", "0 ml", "0,0 fl oz"),
        (516.128, "cm2", "516 cm²", "80 in²"),
        (127.0, "mm", "127 mm", "5 in"),
        (1.05, "density", "1.05", "1,05"),
        (-0.04, "signed", "−0.04", "−0,04"),
        (5.6, "f", "f/5.6", "f/5,6"),
        (465.0, "mss", "7:45", "7:45"),
        (1.66, "stops", "+1⅔", "+1⅔"),
    ],
)
def test_each_way_to_show_follows(value: float, how: str, plain: str, us: str) -> None:
    """Volumes, temperatures, differences, lengths and decimals change; times and stops stay."""
    assert shown(value, how) == plain
    with shown_in(US):
        assert shown(value, how) == us
    assert shown(value, how) == plain


def test_figures_in_the_words_of_a_sentence_follow() -> None:
    """Limits that stand in the sentence itself are shown in the darkroom's units too."""
    code = "records.rule.process_temp_in_limits"
    assert sentence(code, {}) == "A process works between 5 and 45 °C."
    with shown_in(US):
        assert sentence(code, {}) == "A process works between 41 and 113 °F."
    with shown_in(Manner(comma=True)):
        assert sentence(code, {}) == "A process works between 5 and 45 °C."


def test_examples_of_fields_can_be_typed_as_they_stand(client) -> None:
    """What a field of a US darkroom gives as an example is understood when it is typed."""
    from wetside.units import parse_temp_c, parse_volume_ml

    models.Darkroom.objects.create(units="us", decimal_sign="comma", name="cellar")
    text = words(client.get("/shelf/mixing/", headers=HOST))
    found = re.search(r"Working solution wanted\.\s+Such as ([^.]*)\.", text)
    assert found
    assert parse_volume_ml(found[1]) == pytest.approx(600.0, rel=0.01)
    with shown_in(US):
        assert parse_temp_c(shown(21.3, "plain_c")) == pytest.approx(21.3, abs=0.01)
