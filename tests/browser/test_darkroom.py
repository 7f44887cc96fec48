"""The darkroom's page in a browser: settings show, backups and exports are made, what was removed comes back."""

from __future__ import annotations

import json
import zipfile
from typing import Any

import pytest

THEMES = ("light", "dark", "dim")


@pytest.fixture
def empty_darkroom(tmp_path):
    """No folder yet: these pages tell what a first start does."""
    return tmp_path / "none"


def sound(page: Any, axe_findings: Any, sideways: Any) -> None:
    assert not sideways(page), page.url
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert not sideways(page), page.url
    for theme in THEMES:
        page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
        assert not axe_findings(page), (page.url, theme)


def a_bottle(page: Any) -> str:
    page.goto("/shelf/bottles/new/")
    for name, value in (("mark", "D"), ("holds", "Brackwater"), ("volume", "500 ml")):
        page.locator(f"[name={name}]").first.fill(value)
    page.locator("[name=role]").first.select_option("developer")
    page.get_by_role("button", name="Put it on the shelf").click()
    page.wait_for_url("**/shelf/bottles/*-*/")
    return str(page.url)


def title(page: Any) -> str:
    return str(page.locator("h1").inner_text()).replace("\N{NO-BREAK SPACE}", " ")


def test_settings_show_on_the_pages(page: Any, axe_findings: Any, sideways: Any) -> None:
    """Units, decimal sign and the worker's name, each read again where it matters."""
    bottle = a_bottle(page)
    assert title(page) == "D: 500 ml of Brackwater"
    page.goto("/darkroom/")
    page.get_by_label("Units").select_option("us")
    page.get_by_label("Decimal sign").select_option("comma")
    page.get_by_label("Time zone").fill("Europe/Berln")
    page.get_by_role("button", name="Keep it so").click()
    page.get_by_text("Did you mean Europe/Berlin?").wait_for()
    assert page.get_by_label("Units").input_value() == "us", "what was chosen stays chosen"
    page.wrong.clear()  # the browser notes each answer 422 in its log
    sound(page, axe_findings, sideways)
    page.get_by_label("Time zone").fill("Europe/Berlin")
    page.get_by_role("button", name="Keep it so").click()
    page.get_by_text("All pages follow it").wait_for()
    assert page.get_by_text("(Europe/Berlin)").is_visible()
    page.get_by_label("Name", exact=True).fill("Ines")
    page.get_by_role("button", name="Take this name").click()
    page.get_by_text("told as by Ines").wait_for()
    page.goto(bottle)
    assert title(page) == "D: 16,9 fl oz of Brackwater"


def test_a_backup_is_made_and_told_and_an_export_comes_whole(
    page: Any, server: Any, tmp_path: Any, axe_findings: Any, sideways: Any
) -> None:
    """The title says how old the newest is; the zip holds what was entered."""
    a_bottle(page)
    page.goto("/darkroom/")
    assert title(page) == "Everything is kept, but there is no backup to go back to"
    page.get_by_role("button", name="Make one now").click()
    page.get_by_text("Backup made and read back").wait_for()
    assert title(page) == "Everything is kept; the newest backup is less than a minute old"
    assert len(list((server.data / "backups").glob("*-asked.sqlite3"))) == 1
    sound(page, axe_findings, sideways)
    assert page.get_by_text("yes, all rows").count() == 1
    with page.expect_download() as loading:
        page.get_by_role("link", name="Download an export").click()
    target = tmp_path / "export.zip"
    loading.value.save_as(target)
    with zipfile.ZipFile(target) as found:
        assert found.testzip() is None
        index = json.loads(found.read("index.json"))
        assert index["tables"]["bottle"]["rows"] == 1
        assert b"Brackwater" in found.read(index["tables"]["bottle"]["file"])


def test_what_was_removed_is_brought_back_by_keyboard(page: Any, axe_findings: Any, sideways: Any) -> None:
    """From the darkroom's page to the bin and back to the shelf, without a pointer."""
    bottle = a_bottle(page)
    page.get_by_role("button", name="Remove").first.click()
    page.wait_for_url("**/shelf/?*")
    page.goto("/darkroom/")
    link = page.get_by_role("link", name="One removed record can be brought back")
    link.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/darkroom/removed/")
    assert title(page) == "One record is removed, and can be brought back"
    sound(page, axe_findings, sideways)
    page.get_by_role("button", name="Bring it back D Brackwater").focus()
    page.keyboard.press("Enter")
    page.get_by_text("Bottle D is back").wait_for()
    assert title(page) == "Nothing is removed"
    sound(page, axe_findings, sideways)
    page.goto(bottle)
    assert title(page) == "D: 500 ml of Brackwater"
