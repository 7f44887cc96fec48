"""Documents as PDF, PNG, HTML and SVG."""

from __future__ import annotations

import re
import subprocess
import xml.etree.ElementTree as ET  # what is parsed here was made here
from html.parser import HTMLParser

import pytest

from wetside.adapters.typesetting import write_cards
from wetside.adapters.typesetting.curve_svg import curve_svg
from wetside.adapters.typesetting.html import html_of_plan, html_of_run_sheet
from wetside.adapters.typesetting.paper import PAPERS, Typesetter
from wetside.adapters.typesetting.svg import svg_of_chart
from wetside.adapters.typesetting.tokens import DARK, LIGHT
from wetside.cards.chart_frame import NARROW
from wetside.cards.plan_card import plan_card
from wetside.cards.reckoning import reckoning_card
from wetside.cards.run_sheet import run_sheet_of_load
from wetside.cards.window_chart import window_chart
from wetside.errors import InputError, UnknownNameError

PLANS = ["nine_sheets", "plain_evening", "tray_evening", "eventful_evening", "hostile_plan"]
pdftotext = pytest.mark.needs_program("pdftotext")


def first_sheet(plan, **more):
    return run_sheet_of_load(plan, plan.loads[0], **more)


def words_of(pdf, tmp_path, *options):
    path = tmp_path / "sheet.pdf"
    path.write_bytes(pdf)
    return subprocess.run(["pdftotext", *options, str(path), "-"], check=True, capture_output=True, text=True).stdout


def plain(text):
    return re.sub(r"[\s\u200b\u00a0\u202a-\u202e\u2066-\u2069]+", "", text)


@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("paper", PAPERS)
def test_the_same_bytes_every_time(plans, name, paper):
    """Two settings of one run sheet do not differ in a byte, as PDF or as pictures."""
    sheet = first_sheet(getattr(plans, name)())
    one, two = Typesetter(sheet, paper), Typesetter(sheet, paper)
    assert one.pdf() == two.pdf()
    assert one.pictures() == two.pictures()


def test_accessible_where_every_letter_can_be_drawn(plans):
    """The PDF declares PDF/UA-1 and has a title and a language."""
    pdf = Typesetter(first_sheet(plans.nine_sheets())).pdf()
    assert b"pdfuaid" in pdf
    assert b"/Lang" in pdf


@pdftotext
@pytest.mark.parametrize("name", [name for name in PLANS if name != "hostile_plan"])
@pytest.mark.parametrize("paper", PAPERS)
def test_every_line_is_on_paper(plans, tmp_path, name, paper):
    """Each act, time, detail, sheet and foot note can be read off the PDF."""
    plan = getattr(plans, name)()
    for load in plan.loads:
        sheet = run_sheet_of_load(plan, load)
        said = plain(words_of(Typesetter(sheet, paper).pdf(), tmp_path, "-raw"))
        wanted = [sheet.title, sheet.tally, sheet.band, *(text for _, text in sheet.feet)]
        wanted += [part for row in sheet.rows for part in (row.time, row.act, row.detail)]
        wanted += [place.sheet for place in sheet.places]
        assert [one for one in wanted if plain(one) not in said] == []


@pdftotext
@pytest.mark.parametrize("name", PLANS)
@pytest.mark.parametrize("paper", PAPERS)
def test_nothing_runs_off_the_page_or_over_another_word(plans, tmp_path, name, paper):
    """Every word lies inside the margins, and no two words lie on each other."""
    plan = getattr(plans, name)()
    for load in plan.loads:
        boxes = words_of(Typesetter(run_sheet_of_load(plan, load), paper).pdf(), tmp_path, "-bbox")
        for page in re.split(r"<page ", boxes)[1:]:
            width = float(re.search(r'width="([\d.]+)"', page)[1])
            height = float(re.search(r'height="([\d.]+)"', page)[1])
            found = re.findall(
                r'xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', page
            )
            words = [(float(a), float(b), float(c), float(d), word) for a, b, c, d, word in found]
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
def test_sixteen_acts_stand_on_one_page(plans, paper):
    """A drum's evening of up to sixteen acts takes one page of either paper."""
    plan = plans.nine_sheets()
    sheet = run_sheet_of_load(plan, plan.loads[0])
    extra = sheet.rows[-2]
    assert len(Typesetter(sheet._replace(rows=(*sheet.rows, extra, extra)[:16]), paper).pictures()) == 1


@pdftotext
def test_a_long_tray_goes_on_with_its_head_repeated(plans, tmp_path):
    """More acts than a page can hold in large type go on to a second page under the same title."""
    sheet = first_sheet(plans.tray_evening(12))
    setter = Typesetter(sheet)
    assert len(setter.pictures()) == 2
    second = words_of(setter.pdf(), tmp_path, "-f", "2", "-layout")
    assert sheet.title in second
    assert "continued" in second


@pdftotext
@pytest.mark.parametrize("count", [1, 4, 8, 12])
def test_times_and_acts_are_never_small(plans, tmp_path, count):
    """Times and acts are set in 14 points or more; most sheets reach 26."""
    plan = plans.tray_evening(count) if count > 1 else plans.plain_evening()
    boxes = words_of(Typesetter(first_sheet(plan)).pdf(), tmp_path, "-bbox")
    heights = [
        float(d) - float(b)
        for b, d in re.findall(r'yMin="([\d.]+)" xMax="[\d.]+" yMax="([\d.]+)">\d+:\d\d</word>', boxes)
    ]
    assert max(heights) >= 14.0


def test_unknown_paper_is_refused(plans):
    """A paper that is not known is named with those that are."""
    with pytest.raises(UnknownNameError, match="paper"):
        Typesetter(first_sheet(plans.plain_evening()), "a9")


@pytest.mark.parametrize("name", [*PLANS, "many_sheets"])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_the_chart_is_well_formed_and_described(plans, name, theme):
    """The SVG parses, needs no style sheet, has title and description, and holds every text as text."""
    chart = window_chart(getattr(plans, name)())
    root = ET.fromstring(  # noqa: S314
        svg_of_chart(chart, theme)
    )
    space = "{http://www.w3.org/2000/svg}"
    assert root.find(f"{space}title").text == chart.title
    assert root.find(f"{space}desc").text == chart.description
    assert not root.findall(f".//{space}style")
    assert not root.findall(f".//{space}script")
    assert {element.tag.removeprefix(space) for element in root.iter()} <= {
        "svg",
        "title",
        "desc",
        "rect",
        "line",
        "text",
        "circle",
        "path",
    }


def test_both_themes_can_be_read():
    """Text has a contrast of 4.5 to 1 or more on its ground, in light and dark."""

    def luminance(colour):
        parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    for theme in (LIGHT, DARK):
        for text in ("ink", "soft", "accent", "warn"):
            for ground in ("paper", "sheet"):
                high, low = sorted((luminance(theme[text]), luminance(theme[ground])), reverse=True)
                assert (high + 0.05) / (low + 0.05) >= 4.5, (text, ground)


class Outline(HTMLParser):
    """Tags in order, and text outside the style."""

    def __init__(self):
        super().__init__()
        self.open, self.tags, self.text, self.broken = [], [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        if tag not in ("meta", "wbr", "br"):
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append(tag)

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.broken.append(tag)

    def handle_data(self, data):
        if "style" not in self.open:
            self.text.append(data)


def outline(page):
    found = Outline()
    found.feed(page)
    assert found.broken == []
    assert found.open == []
    return found


def plan_page(plan):
    reckonings = [reckoning_card(plan, sheet) for sheet in plan.sheets[:20]]
    return html_of_plan(
        plan_card(plan, all_cautions=True),
        window_chart(plan),
        reckonings,
        f"{plan.name} · {plan.date}",
        window_chart(plan, NARROW),
    )


@pytest.mark.parametrize("name", PLANS)
def test_screen_and_phone_each_have_their_chart(plans, name):
    """Two drawings with ids of their own, one for each width, and none that scrolls sideways."""
    page = plan_page(getattr(plans, name)())
    style, _, body = page.partition("</style>")
    ids = re.findall(r' id="([^"]+)"', body)
    assert len(ids) == len(set(ids))
    assert {"windows-800-title", "windows-342-title"} <= set(ids)
    assert body.count('<figure class="broad">') == body.count('<figure class="narrow">') == 1
    assert "figure.narrow { display: none }" in style
    assert not re.search(r"figure[^{}]*\{[^{}]*(overflow-x|min-width)", style)


def test_a_table_that_may_scroll_is_reached_by_the_keys(plans):
    """Each table's frame takes the focus, and says which table it is where that has a heading."""
    page = plan_page(plans.eventful_evening())
    frames = re.findall(r'<div class="wide[^>]*>', page)
    assert frames
    assert all('tabindex="0"' in frame for frame in frames)
    assert any('aria-label="Windows"' in frame for frame in frames)


def test_words_on_lines_have_a_rim(plans):
    """Above a bar the load's line runs behind the words: they are drawn after it, with a rim of paper."""
    drawing = svg_of_chart(window_chart(plans.nine_sheets(), NARROW))
    words = [one for one in re.findall(r"<text[^>]*>[^<]*", drawing) if "Tolland" in one or "left" in one]
    assert words
    assert all('paint-order="stroke"' in one for one in words)


@pytest.mark.parametrize("name", [*PLANS, "many_sheets"])
def test_pages_stand_alone(plans, name):
    """Pages are whole, well nested, under 200 KB, fetch nothing, run nothing, and have one first heading."""
    plan = getattr(plans, name)()
    for page in (plan_page(plan), html_of_run_sheet(first_sheet(plan))):
        found = outline(page)
        assert len(page.encode()) < 200_000
        assert "script" not in found.tags
        assert "link" not in found.tags
        assert found.tags.count("h1") == 1
        assert found.tags.count("main") == 1
        assert not re.search(r"""(?:src|href)\s*=\s*["']?(?!data:)|url\((?!data:)|@import""", page.split("</style>")[0])
        assert "prefers-color-scheme: dark" in page
        assert "@media print" in page


@pytest.mark.parametrize("name", PLANS)
def test_every_line_is_on_the_page(plans, name):
    """Each act, time, detail, sheet and foot note stands on the run sheet's page as text."""
    plan = getattr(plans, name)()
    for load in plan.loads:
        sheet = run_sheet_of_load(plan, load)
        said = plain("".join(outline(html_of_run_sheet(sheet)).text))
        wanted = [sheet.title, sheet.tally, *(text for _, text in sheet.feet), *(place.sheet for place in sheet.places)]
        wanted += [part for row in sheet.rows for part in (row.time, row.act, row.detail)]
        assert [one for one in wanted if plain(one) not in said] == []


def test_files_are_written_whole_and_others_left_alone(plans, tmp_path):
    """The folder holds a PDF, page and picture a load, chart and plan; nothing half done, nothing else touched."""
    folder = tmp_path / "out" / "evening"
    folder.mkdir(parents=True)
    (folder / "notes.txt").write_text("mine")
    (folder / "load-1.pdf").write_text("old")
    paths = write_cards(plans.nine_sheets(), folder)
    wanted = {f"load-{n}.{end}" for n in (1, 2, 3, 4) for end in ("pdf", "html", "png")} | {"windows.svg", "plan.html"}
    assert {path.name for path in paths} == wanted
    assert {path.name for path in folder.iterdir()} == wanted | {"notes.txt"}
    assert (folder / "notes.txt").read_text() == "mine"
    assert (folder / "load-1.pdf").read_bytes().startswith(b"%PDF")
    assert (folder / "load-1.png").read_bytes().startswith(b"\x89PNG")


def test_a_second_page_has_a_picture_of_its_own(plans, tmp_path):
    """A run sheet of two pages gives two pictures."""
    paths = write_cards(plans.tray_evening(12), tmp_path, "letter")
    assert [path.name for path in paths if path.suffix == ".png"] == ["load-1.png", "load-1-2.png"]


def test_a_folder_that_cannot_be_made_is_named(plans, tmp_path):
    """Where a file stands in the way the error names it."""
    (tmp_path / "out").write_text("a file")
    with pytest.raises(InputError):
        write_cards(plans.plain_evening(), tmp_path / "out" / "deeper")


def test_typst_is_loaded_late():
    """Importing the package loads no typesetter."""
    import sys

    code = (
        "import sys, wetside.adapters.typesetting, wetside.adapters.typesetting.paper; sys.exit('typst' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_curves_are_well_formed():
    """Curves are drawn as SVG that parses and is described."""
    from wetside.cards.curve_chart import curve_chart
    from wetside.values.curve import characteristic_curve

    log_h = [0.15 * i for i in range(10)]
    curve = characteristic_curve(300.0, log_h, [0.1 + 0.5 * x for x in log_h], absolute=False)
    root = ET.fromstring(  # noqa: S314
        curve_svg(curve_chart([(5.0, curve)]))
    )
    assert "relative" in "".join(root.itertext())
