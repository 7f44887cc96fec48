"""Tokens in a browser: made, shown once, used by a program, revoked; a run shows what its thermometer sends."""

from __future__ import annotations

import json
import urllib.error
import urllib.request
from typing import Any

THEMES = ("light", "dark", "dim")


def sound(page: Any, axe_findings: Any, sideways: Any) -> None:
    page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
    assert not sideways(page), page.url
    for theme in THEMES:
        page.evaluate("theme => document.documentElement.dataset.theme = theme", theme)
        assert not axe_findings(page), (page.url, theme)


def send(server: Any, token: str, shown_c: float) -> tuple[int, dict[str, Any]]:
    """A program of its own posts a reading; status and answer."""
    headers = {"Authorization": f"Bearer {token}", "Content-Type": "application/json"}
    body = json.dumps({"shown_c": shown_c}).encode()
    call = urllib.request.Request(f"{server.address}/api/v1/runs/now/readings", body, headers)  # noqa: S310 (ours)
    try:
        with urllib.request.urlopen(call, timeout=10) as answer:  # noqa: S310 (ours)
            return answer.status, json.load(answer)
    except urllib.error.HTTPError as error:
        return error.code, json.load(error)


def made_token(page: Any) -> str:
    page.goto("/darkroom/tokens/")
    page.get_by_label("For which program").fill("probe by the sink")
    page.get_by_role("button", name="Make it").click()
    return str(page.get_by_label("Token", exact=True).input_value())


def test_a_token_from_page_to_program_and_back(page: Any, server: Any, axe_findings: Any, sideways: Any) -> None:
    """Every state of the page is whole in every light and at every width."""
    page.goto("/darkroom/")
    page.get_by_role("link", name="Tokens of programs").click()
    assert page.locator("h1").inner_text() == "No program may write here"
    sound(page, axe_findings, sideways)
    token = made_token(page)
    assert page.locator("h1").inner_text() == "The new token is shown this once"
    sound(page, axe_findings, sideways)
    page.get_by_role("link", name="I have it").click()
    assert page.locator("h1").inner_text() == "One token lets a program in"
    assert token not in page.content()
    assert send(server, token, 20.0)[1]["code"] == "services.reading.no_run"
    page.reload()
    assert page.get_by_role("cell", name="never").count() == 0
    sound(page, axe_findings, sideways)
    page.get_by_role("button", name="Revoke the token of probe by the sink").click()
    page.get_by_text("gets in no more").wait_for()
    assert send(server, token, 20.0)[0] == 401
    sound(page, axe_findings, sideways)


def test_a_name_that_is_taken_is_told_beside_its_field(page: Any, axe_findings: Any, sideways: Any) -> None:
    """What was typed stays."""
    made_token(page)
    page.goto("/darkroom/tokens/")
    page.get_by_label("For which program").fill("Probe by the sink")
    page.get_by_role("button", name="Make it").click()
    page.get_by_text("There is a good token").wait_for()
    assert page.get_by_label("For which program").input_value() == "Probe by the sink"
    page.wrong.clear()  # the browser notes each answer 422 in its log
    sound(page, axe_findings, sideways)


def test_a_live_run_shows_what_is_not_used(page: Any, server: Any, axe_findings: Any, sideways: Any) -> None:
    """The page that is open hears of it at once, and says why."""
    token = made_token(page)
    page.goto("/runs/new/")
    for name, value in (("film", "Tolland 100"), ("developer", "Brackwater"), ("time", "8:00")):
        page.locator(f"main [name={name}]").fill(value)
    page.get_by_role("button", name="Start", exact=True).click()
    page.locator("[data-run-tell]").click()
    for _ in range(50):  # the page hands its answer over in its own time; then the run goes on
        status, answer = send(server, token, 85.0)
        if status == 201:
            break
        page.wait_for_timeout(200)
    assert (status, answer["used"]) == (201, False), answer
    page.locator("[data-run-aside]").wait_for()
    assert "no bath is that cold or that hot" in page.locator("[data-run-aside]").inner_text()
    sound(page, axe_findings, sideways)
