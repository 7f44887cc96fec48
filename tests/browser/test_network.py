"""The telephone by the sink: signing in by keyboard, the link, HTTPS with and without the certificate taken in."""

from __future__ import annotations

import base64
import hashlib
import json
import os
import shutil
import signal
import subprocess
import sys
from typing import TYPE_CHECKING, Any, NamedTuple

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

CHROMIUM = shutil.which("chromium")
PROGRAM = [sys.executable, "-c", "import sys; from wetside.cli import main; sys.exit(main())"]
PASSWORD = "wet sleeves 4 ever"  # noqa: S105 (of a test)
PHONE = {"width": 390, "height": 844}


class Lan(NamedTuple):
    """A running program on the network's loopback address, and what its terminal told."""

    told: dict[str, Any]
    data: Path
    process: int

    @property
    def address(self) -> str:
        return str(self.told["address"]).rstrip("/")


def start(folder: Path, *words: str) -> tuple[subprocess.Popen[str], dict[str, Any]]:
    environment = {**os.environ, "WETSIDE_DATA": str(folder), "PYTHONUNBUFFERED": "1"}
    environment.pop("DJANGO_ALLOW_ASYNC_UNSAFE", None)
    subprocess.run(
        [*PROGRAM, "account", "add", "ines", "--stdin"], input=PASSWORD, env=environment, text=True, check=True
    )
    command = [*PROGRAM, "serve", "--lan", "--address", "127.0.0.1", "--port", "0", "--json", *words]
    process = subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    told = ""
    while True:
        line = process.stdout.readline()
        assert line, told
        told += line
        try:
            return process, json.loads(told)
        except ValueError:
            continue


def stop(process: subprocess.Popen[str]) -> None:
    process.send_signal(signal.SIGINT)
    try:
        process.wait(30)
    finally:
        process.kill()  # one that does not stop fails the test, and is not left behind


@pytest.fixture
def lan(empty_darkroom: Path, tmp_path: Path) -> Iterator[Lan]:
    shutil.copytree(empty_darkroom, tmp_path / "darkroom")
    process, told = start(tmp_path / "darkroom")
    yield Lan(told, tmp_path / "darkroom", process.pid)
    stop(process)


@pytest.fixture
def plain(empty_darkroom: Path, tmp_path: Path) -> Iterator[Lan]:
    shutil.copytree(empty_darkroom, tmp_path / "plain")
    process, told = start(tmp_path / "plain", "--plain")
    yield Lan(told, tmp_path / "plain", process.pid)
    stop(process)


@pytest.fixture
def outside(browser: Any, lan: Lan) -> Iterator[Any]:
    """Page at phone width that goes on past the browser's warning: the certificate is not taken in."""
    context = browser.new_context(viewport=PHONE, base_url=lan.address, ignore_https_errors=True, has_touch=True)
    yield context.new_page()
    context.close()


def sign_in(page: Any, *, by_keyboard: bool = False) -> None:
    page.goto("/sign-in/")
    if by_keyboard:
        page.get_by_label("Name").focus()
        page.keyboard.type("ines")
        page.keyboard.press("Tab")
        page.keyboard.type(PASSWORD)
        page.keyboard.press("Enter")
    else:
        page.get_by_label("Name").fill("ines")
        page.get_by_label("Password").fill(PASSWORD)
        page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda address: "/sign-in/" not in address)


def whole(page: Any, axe_findings: Callable[[Any], list[str]], sideways: Callable[[Any], int]) -> None:
    """In each light: nothing that axe finds, and no wider than the phone."""
    for light in ("light", "dark", "dim"):
        page.evaluate("light => { document.documentElement.dataset.theme = light }", light)
        assert not axe_findings(page), light
    assert sideways(page) <= 0


def test_signing_in_by_keyboard_leads_to_where_one_wanted(outside, axe_findings, sideways) -> None:
    """A wrong password is told and heard; the name stays; then in, and out again."""
    outside.goto("/plans/")
    assert "/sign-in/" in outside.url
    whole(outside, axe_findings, sideways)
    outside.get_by_label("Name").fill("ines")
    outside.get_by_label("Password").fill("not this one")
    outside.keyboard.press("Enter")
    outside.get_by_role("alert").wait_for()
    assert outside.get_by_label("Name").input_value() == "ines"
    assert outside.get_by_label("Password").input_value() == ""
    whole(outside, axe_findings, sideways)
    outside.get_by_label("Password").focus()
    outside.keyboard.type(PASSWORD)
    outside.keyboard.press("Enter")
    outside.wait_for_url("**/plans/")
    whole(outside, axe_findings, sideways)
    outside.get_by_role("button", name="Sign out").click()
    outside.wait_for_url("**/sign-in/")


def test_the_link_signs_a_telephone_in_once(outside, browser, lan, axe_findings, sideways) -> None:
    """Asked for on one device, opened on another; a third gets nothing by it."""
    sign_in(outside)
    outside.goto("/telephone/")
    whole(outside, axe_findings, sideways)
    outside.get_by_role("button", name="Show a link").click()
    outside.get_by_role("img", name="signs in").wait_for()
    whole(outside, axe_findings, sideways)
    link = outside.locator("a.address").last.get_attribute("href")
    modules = outside.locator(".link-code svg").last.bounding_box()
    assert 200 < modules["width"] <= 390
    for expected in (True, False):
        other = browser.new_context(viewport=PHONE, ignore_https_errors=True).new_page()
        other.goto(link)
        whole(other, axe_findings, sideways)
        button = other.get_by_role("button", name="Sign this device in")
        assert bool(button.count()) is expected
        if expected:
            button.press("Enter")
            other.wait_for_url(f"{lan.address}/")
            other.goto(f"{lan.address}/darkroom/")
            assert other.get_by_text("Signed in as ines").count()
        other.context.close()
    outside.goto("/telephone/")
    assert outside.get_by_role("heading", level=1).inner_text().startswith("2 devices")
    outside.get_by_role("button", name="Sign out the device").press("Enter")
    outside.get_by_text("That device is signed out").wait_for()


def test_the_page_of_the_certificate_is_whole_and_gives_the_file(outside, lan, axe_findings, sideways) -> None:
    """Over plain HTTP: fingerprint as in the terminal, the file, the way on."""
    outside.goto(lan.told["certificate_page"])
    whole(outside, axe_findings, sideways)
    assert outside.locator("#fingerprint").inner_text() == lan.told["fingerprint_sha256"]
    with outside.expect_download() as fetched:
        outside.get_by_role("link", name="Fetch the certificate").click()
    taken = fetched.value.path().read_bytes()
    assert hashlib.sha256(taken).hexdigest() == lan.told["fingerprint_sha256"].replace(":", "").lower()


def holds(page: Any) -> str:
    page.goto("/telephone/")
    page.locator("[data-holds]").wait_for(state="attached")
    shown = page.locator("[data-when]:visible")
    assert shown.count() == 1
    word = page.locator("[data-holds]").get_attribute("data-holds")
    assert shown.get_attribute("data-when") == word
    return str(word)


def start_run(page: Any) -> None:
    """Film, developer, minutes: the page of a run that has begun."""
    page.goto("/runs/new/")
    page.get_by_label("Film").fill("Tolland 100")
    page.get_by_label("Developer", exact=False).first.fill("Brackwater 1+14")
    page.get_by_label("Developing time").fill("7:30")
    page.get_by_role("button", name="Start").click()
    page.locator("[data-run-head]:visible").wait_for()


def test_without_the_certificate_the_wake_lock_holds_and_a_reload_does_not(browser, lan) -> None:
    """Clicked through: a secure context with a wake lock, and no worker. The page says so before the run starts."""
    from playwright.sync_api import Error

    context = browser.new_context(viewport=PHONE, base_url=lan.address, ignore_https_errors=True, has_touch=True)
    page = context.new_page()
    sign_in(page)
    assert holds(page) == "no-worker"
    assert page.evaluate("isSecureContext && 'wakeLock' in navigator")
    page.goto("/runs/new/")
    page.locator("[data-when=no-worker]:visible").wait_for()
    start_run(page)
    page.wait_for_timeout(1500)
    os.kill(lan.process, signal.SIGKILL)
    assert page.locator("[data-run-head]").is_visible(), "the open page counts on"
    with pytest.raises(Error):
        page.reload()
    context.close()


def test_with_the_certificate_both_hold(lan, tmp_path) -> None:
    """A browser that was told this root's key: no warning before the run, and a reload with a dead server serves."""
    root = x509.load_pem_x509_certificate((lan.data / "authority" / "root.pem").read_bytes())
    leaf = x509.load_pem_x509_certificate((lan.data / "authority" / "server.pem").read_bytes())
    keys = [one.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo) for one in (root, leaf)]
    known = ",".join(base64.b64encode(hashlib.sha256(key).digest()).decode() for key in keys)
    words = [sys.executable, __file__, lan.address, str(lan.process), known, str(tmp_path / "profile")]
    ran = subprocess.run(words, capture_output=True, text=True, timeout=180, check=False)
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout.split() == ["trusted", "True", "0", "True"]


def trusting(address: str, server: int, known: str, profile: str) -> None:
    """In a process of its own: a browser is told the key at its start, and one driver runs in a process."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        context = playwright.chromium.launch_persistent_context(
            profile,
            executable_path=CHROMIUM,
            headless=True,
            base_url=address,
            args=["--no-sandbox", "--disable-gpu", f"--ignore-certificate-errors-spki-list={known}"],
        )
        page = context.new_page()
        sign_in(page)
        told = [holds(page), page.evaluate("isSecureContext && 'wakeLock' in navigator")]
        page.goto("/runs/new/")
        page.locator("[data-holds]").wait_for(state="attached")
        told.append(page.locator("[data-when]:visible").count())
        start_run(page)
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        page.wait_for_timeout(1500)
        os.kill(server, signal.SIGKILL)
        page.reload()
        page.locator("[data-run-head]:visible").wait_for()
        told.append(True)
        sys.stdout.write(" ".join(map(str, told)))
        context.close()


def test_over_plain_http_the_page_warns_and_says_what_is_missing(browser, plain, axe_findings, sideways) -> None:
    """By a name that is no loopback for the browser: no secure context, and the page says so."""
    import socket

    name = f"{socket.gethostname().partition('.')[0].casefold()}.local"
    started = browser.browser_type.launch(
        executable_path=CHROMIUM,
        args=["--no-sandbox", "--disable-gpu", f"--host-resolver-rules=MAP {name} 127.0.0.1"],
    )
    try:
        port = plain.address.rpartition(":")[2]
        page = started.new_context(viewport=PHONE, base_url=f"http://{name}:{port}").new_page()
        page.goto("/sign-in/")
        assert page.get_by_text("plain HTTP").count() == 1
        sign_in(page, by_keyboard=True)
        assert holds(page) == "insecure"
        assert not page.evaluate("isSecureContext")
        assert not page.evaluate("'wakeLock' in navigator")
        whole(page, axe_findings, sideways)
    finally:
        started.close()


if __name__ == "__main__":
    trusting(sys.argv[1], int(sys.argv[2]), sys.argv[3], sys.argv[4])
