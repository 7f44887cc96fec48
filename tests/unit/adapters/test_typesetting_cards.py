"""The evening's pages as PDF, PNG and HTML."""

from __future__ import annotations

import re
import subprocess
from html.parser import HTMLParser

import pytest

from wetside.adapters.typesetting import evening_cards, write_cards, write_evening_cards
from wetside.adapters.typesetting.html import html_of_card
from wetside.adapters.typesetting.paper import PAPERS, Typesetter
from wetside.cards.blocks import BLANK, Card, Listing, Step, Steps, Table
from wetside.cards.plan_card import plan_card
from wetside.chemistry import cautions_of
from wetside.errors import InputError, UnknownNameError
from wetside.planning.documents.plan import Note
from wetside.values.evidence import Evidence

EVENINGS = {
    "two_drums": ("nine_sheets", "two_drums"),
    "past_midnight": ("nine_sheets", "past_midnight"),
    "without_beginning": ("nine_sheets", "without_beginning"),
    "plain": ("plain_evening", "plain"),
    "tray": ("tray_evening", "two_drums"),
    "hostile": ("hostile_plan", "hostile"),
}
SOUND = [name for name in EVENINGS if name != "hostile"]
CAUTIONS = tuple(
    Note(code) for code in cautions_of(["mix", "develop", "stop", "fix", "wetting", "waste", "electricity"])
)
pdftotext = pytest.mark.needs_program("pdftotext")


def evening(plans, courses, name):
    plan, course = EVENINGS[name]
    made = getattr(plans, plan)()._replace(cautions=CAUTIONS)
    return made, getattr(courses, course)(made)


def words_of(pdf, tmp_path, *options):
    path = tmp_path / "card.pdf"
    path.write_bytes(pdf)
    return subprocess.run(["pdftotext", *options, str(path), "-"], check=True, capture_output=True, text=True).stdout


def plain(text):
    return re.sub(r"[\s\u200b\u00a0\u202a-\u202e\u2066-\u2069]+", "", text.replace(BLANK, ""))


def texts(card):
    """Every text of a card."""
    yield card.title
    yield from card.subtitle
    for block in card.blocks:
        yield block.title
        if isinstance(block, Table):
            yield block.foot
            yield from (column.title for column in block.columns)
            for row in block.rows:
                yield from row.cells
                yield row.remark
        elif isinstance(block, Listing):
            yield from block.items


@pytest.mark.parametrize("name", EVENINGS)
@pytest.mark.parametrize("paper", PAPERS)
def test_the_same_bytes_every_time(plans, courses, name, paper):
    """Two settings of a card do not differ in a byte, as PDF or as page."""
    for card in evening_cards(*evening(plans, courses, name)).values():
        assert Typesetter(card, paper, "foot").pdf() == Typesetter(card, paper, "foot").pdf()
        assert html_of_card(card, "foot") == html_of_card(card, "foot")


@pdftotext
@pytest.mark.parametrize("name", SOUND)
@pytest.mark.parametrize("paper", PAPERS)
def test_every_text_is_on_paper(plans, courses, tmp_path, name, paper):
    """Each title, cell, remark, item and foot can be read off the PDF."""
    for card in evening_cards(*evening(plans, courses, name)).values():
        said = plain(words_of(Typesetter(card, paper).pdf(), tmp_path, "-raw"))
        # A line that ends after a hyphen is read back joined.
        assert [text for text in texts(card) if plain(text).replace("-", "") not in said.replace("-", "")] == []


@pdftotext
@pytest.mark.parametrize("name", EVENINGS)
@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_runs_off_the_page_or_over_another_word(plans, courses, tmp_path, name, paper):
    """Every word lies inside the margins, and no two words lie on each other."""
    for card in evening_cards(*evening(plans, courses, name)).values():
        boxes = words_of(Typesetter(card, paper, "foot").pdf(), tmp_path, "-bbox")
        for page in re.split(r"<page ", boxes)[1:]:
            width = float(re.search(r'width="([\d.]+)"', page)[1])
            height = float(re.search(r'height="([\d.]+)"', page)[1])
            found = re.findall(
                r'xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', page
            )
            words = [(float(a), float(b), float(c), float(d), word) for a, b, c, d, word in found]
            assert words, "an empty page"
            for left, top, right, bottom, word in words:
                assert left >= 40.0, word
                assert right <= width - 40.0 + 1.0, word
                assert top >= 20.0, word
                assert bottom <= height - 15.0, word
            for index, one in enumerate(words):
                for other in words[index + 1 :]:
                    across = min(one[2], other[2]) - max(one[0], other[0])
                    down = min(one[3], other[3]) - max(one[1], other[1])
                    assert not (across > 1.5 and down > 0.45 * min(one[3] - one[1], other[3] - other[1])), (one, other)


@pytest.mark.parametrize("paper", PAPERS)
def test_cards_stay_few_pages(plans, courses, paper):
    """The plain evening takes one page, an evening of four loads three, safety and house two each, troubles one."""
    pages = {
        name: len(Typesetter(card, paper).pictures())
        for name, card in evening_cards(*evening(plans, courses, "two_drums")).items()
    }
    assert pages["evening"] <= 3
    assert pages["safety"] <= 2
    assert pages["house"] <= 2
    assert pages["trouble"] == 1
    plan, course = evening(plans, courses, "plain")
    assert len(Typesetter(evening_cards(plan, course)["evening"], paper).pictures()) == 1


@pdftotext
def test_a_long_evening_breaks_its_table(plans, courses, tmp_path):
    """A time table longer than a page goes on over the next one under its headings, and no step is lost."""
    plan, course = evening(plans, courses, "two_drums")
    card = evening_cards(plan, course)["evening"]
    steps = card.blocks[0]
    long = card._replace(blocks=(steps._replace(rows=steps.rows * 8), *card.blocks[1:]))
    said = words_of(Typesetter(long).pdf(), tmp_path, "-layout")
    assert said.count("Set up") == 8
    assert said.count("takes") >= 3


def test_accessible(plans, courses):
    """The PDF declares PDF/UA-1 and its language."""
    for card in evening_cards(*evening(plans, courses, "two_drums")).values():
        pdf = Typesetter(card).pdf()
        assert b"pdfuaid" in pdf
        assert b"/Lang" in pdf


def test_any_card_can_be_set(plans):
    """The plan's card, with evidence in its cells, and a stack of reckoning lines can be set too."""
    assert Typesetter(plan_card(plans.eventful_evening())).pdf().startswith(b"%PDF")
    steps = Steps((Step(Evidence.TESTED, "time", "7:00", "+0.05", "own"),), "develop", "7:00")
    assert Typesetter(Card("7 left: why 7:00", (), (steps,))).pdf().startswith(b"%PDF")


def test_unknown_paper_is_refused(plans, courses):
    """A paper that is not known is refused before a file is written."""
    plan, course = evening(plans, courses, "plain")
    with pytest.raises(UnknownNameError):
        Typesetter(evening_cards(plan, course)["house"], "a9")


class Outline(HTMLParser):
    """Tags in order and text outside the style, with the kinds of tags."""

    def __init__(self):
        super().__init__()
        self.open, self.tags, self.text, self.broken, self.kinds = [], [], [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.kinds += [value for name, value in attrs if name == "class"]
        if tag not in ("meta", "wbr", "br"):
            self.open.append(tag)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.broken.append(tag)

    def handle_data(self, data):
        if "style" not in self.open:
            self.text.append(data)


@pytest.mark.parametrize("name", EVENINGS)
def test_pages_stand_alone_and_say_everything(plans, courses, name):
    """Pages are whole and well nested, fetch and run nothing, have one first heading, and hold every text."""
    for card in evening_cards(*evening(plans, courses, name)).values():
        page = html_of_card(card, "Evening of the weir")
        found = Outline()
        found.feed(page)
        assert found.broken == []
        assert found.open == []
        assert found.tags.count("h1") == 1
        assert not {"script", "link", "b", "img"} & set(found.tags)
        assert not re.search(r"""(?:src|href)\s*=\s*["']?(?!data:)|url\((?!data:)|@import""", page)
        said = plain("".join(found.text))
        assert [text for text in texts(card) if plain(text) not in said] == []
        assert BLANK not in "".join(found.text)


def test_ticks_and_blanks_are_drawn(plans, courses):
    """Lists to tick and places to write in have their own look on the page."""
    found = Outline()
    found.feed(html_of_card(evening_cards(*evening(plans, courses, "two_drums"))["evening"]))
    assert "ticks" in found.kinds
    assert "blank" in found.kinds
    assert "write" in found.kinds


@pytest.mark.parametrize("paper", PAPERS)
def test_files_of_the_evening(plans, courses, tmp_path, paper):
    """Evening, safety, house and troubles are written as PDF and page; the last two are of no evening."""
    plan, course = evening(plans, courses, "two_drums")
    paths = write_evening_cards(plan, course, tmp_path / "out", paper)
    wanted = [f"{name}.{end}" for name in ("evening", "safety", "house", "trouble") for end in ("pdf", "html")]
    assert [path.name for path in paths] == wanted
    assert {path.name for path in (tmp_path / "out").iterdir()} == set(wanted)
    assert plan.name in (tmp_path / "out" / "evening.html").read_text()
    assert plan.name not in (tmp_path / "out" / "house.html").read_text()
    assert plan.name not in (tmp_path / "out" / "trouble.html").read_text()


def test_the_cards_of_a_plan_take_the_evening_along(plans, courses, tmp_path):
    """With a course the folder holds the evening's pages beside the run sheets, without one it does not."""
    plan, course = evening(plans, courses, "plain")
    without = {path.name for path in write_cards(plan, tmp_path / "a")}
    together = {path.name for path in write_cards(plan, tmp_path / "b", course=course)}
    assert together - without == {
        "evening.pdf",
        "evening.html",
        "safety.pdf",
        "safety.html",
        "house.pdf",
        "house.html",
        "trouble.pdf",
        "trouble.html",
    }


def test_a_folder_with_an_impossible_name_is_named(plans, courses):
    """A folder's name that no folder can have is told as an error of input."""
    from pathlib import Path

    plan, course = evening(plans, courses, "plain")
    with pytest.raises(InputError):
        write_evening_cards(plan, course, Path("a\0b"))
