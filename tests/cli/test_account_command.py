"""``wetside account`` and the start on the network, by the program itself."""

from __future__ import annotations

import http.client
import json
import os
import pty
import signal
import ssl
import subprocess
import sys
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from pathlib import Path

PROGRAM = [sys.executable, "-c", "import sys; from wetside.cli import main; sys.exit(main())"]
PASSWORD = "wet sleeves 4 ever\n"  # noqa: S105 (of a test)


@pytest.fixture(scope="module")
def data(tmp_path_factory) -> Path:
    return tmp_path_factory.mktemp("accounts") / "darkroom"


def run(data: Path, *words: str, typed: str | None = None) -> subprocess.CompletedProcess[str]:
    command = [*PROGRAM, *words, "--data", str(data)]
    environment = {key: value for key, value in os.environ.items() if key != "WETSIDE_DATABASE"}
    done = subprocess.run(
        command, input=typed, env=environment, capture_output=True, text=True, timeout=120, check=False
    )
    assert "Traceback" not in done.stderr, done.stderr
    return done


def test_the_network_is_not_served_without_an_account(tmp_path) -> None:
    """A sentence says how; nothing listens."""
    done = run(tmp_path / "new", "serve", "--lan", "--address", "127.0.0.1", "--port", "0")
    assert done.returncode == 3
    assert "wetside account add" in done.stderr
    assert "open at" not in done.stdout


@pytest.mark.parametrize("words", [["--plain"], ["--address", "10.0.0.1"], ["--phone", "ines"]])
def test_options_of_the_network_need_it(tmp_path, words: list[str]) -> None:
    """Nobody believes that --plain alone opens the network."""
    done = run(tmp_path / "new", "serve", *words)
    assert done.returncode == 2
    assert words[0] in done.stderr
    assert "--lan" in done.stderr


def test_a_public_address_is_refused(tmp_path) -> None:
    """All addresses at once are none either."""
    done = run(tmp_path / "new", "serve", "--lan", "--address", "0.0.0.0")  # noqa: S104 (refused)
    assert done.returncode == 2
    assert "private address" in done.stderr


def test_an_account_from_its_making_to_its_return(data) -> None:
    """Add, list, password, remove, bring back; each tells what it did, in JSON too."""
    assert run(data, "account", "list").returncode == 2, "there is no archive yet"
    made = run(data, "account", "add", "ines", "--stdin", typed=PASSWORD)
    assert made.returncode == 0, made.stderr
    assert "wetside serve --lan" in made.stdout
    assert "may sign in" in run(data, "account", "list").stdout
    changed = run(data, "account", "password", "INES", "--stdin", "--json", typed="another pair of sleeves\n")
    assert json.loads(changed.stdout)["name"] == "ines"
    assert "bring-back ines" in run(data, "account", "remove", "ines").stdout
    assert json.loads(run(data, "account", "list", "--json").stdout)["accounts"][0]["active"] is False
    assert run(data, "account", "remove", "ines").returncode == 3
    assert run(data, "account", "bring-back", "ines").returncode == 0
    assert json.loads(run(data, "account", "list", "--json").stdout)["accounts"][0]["active"] is True


@pytest.mark.parametrize(
    ("words", "typed", "said"),
    [
        (["add"], "", "which account"),
        (["add", "tom"], "", "--stdin"),
        (["add", "tom", "--stdin"], "", "no line"),
        (["add", "tom", "--stdin"], "short\n", "10 letters"),
        (["add", "tom two", "--stdin"], PASSWORD, "no blanks"),
        (["password", "nobody", "--stdin"], PASSWORD, "no account"),
    ],
)
def test_mistakes_are_told(data, words: list[str], typed: str, said: str) -> None:
    """A sentence each, code 2, and no account."""
    run(data, "account", "add", "ines", "--stdin", typed=PASSWORD)
    done = run(data, "account", *words, typed=typed)
    assert done.returncode == 2
    assert said in done.stderr
    assert len(json.loads(run(data, "account", "list", "--json").stdout)["accounts"]) == 1


@pytest.mark.parametrize(("second", "code"), [(PASSWORD, 0), ("another one here\n", 2)])
def test_on_a_terminal_the_password_is_asked_twice_and_not_shown(tmp_path, second: str, code: int) -> None:
    """On a terminal of its own; what differs makes nothing."""
    ours, theirs = pty.openpty()
    command = [*PROGRAM, "account", "add", "ines", "--data", str(tmp_path / "new")]
    started = subprocess.Popen(
        command, stdin=theirs, stdout=theirs, stderr=theirs, close_fds=True, start_new_session=True
    )
    os.close(theirs)
    shown, typed = b"", 0
    while True:
        try:
            piece = os.read(ours, 1000)
        except OSError:
            break
        if not piece:
            break
        shown += piece
        if (b"Password:" in shown and typed == 0) or (b"Once more:" in shown and typed == 1):
            os.write(ours, (PASSWORD, second)[typed].encode())
            typed += 1
    assert started.wait(60) == code, shown
    os.close(ours)
    assert b"sleeves" not in shown


@pytest.fixture(scope="module")
def served(data):
    """The program on the network's loopback address, over HTTPS, with what its terminal tells."""
    run(data, "account", "add", "ines", "--stdin", typed=PASSWORD)
    command = [*PROGRAM, "serve", "--lan", "--address", "127.0.0.1", "--port", "0", "--json", "--data", str(data)]
    started = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
    told = ""
    answer = None
    while answer is None:
        line = started.stdout.readline()
        assert line, told
        told += line
        try:
            answer = json.loads(told)
        except ValueError:
            continue
    yield answer
    started.send_signal(signal.SIGINT)
    assert started.wait(20) in (0, 130), "Ctrl-C ends both servers"


def ask(address: str, path: str, trusted: Path | None, **headers: str) -> tuple[int, http.client.HTTPMessage, bytes]:
    scheme, _, rest = address.partition("://")
    host = rest.strip("/")
    if scheme == "https":
        context = ssl.create_default_context(cafile=trusted)
        asked = http.client.HTTPSConnection(host, timeout=20, context=context)
    else:
        asked = http.client.HTTPConnection(host, timeout=20)
    asked.request("GET", path, headers=headers)
    answer = asked.getresponse()
    return answer.status, answer.headers, answer.read()


def test_a_client_with_the_root_comes_in_and_one_without_does_not(served, data) -> None:
    """The running server; and plain HTTP on its port is no way round."""
    root = data / "authority" / "root.pem"
    status, headers, _ = ask(served["address"], "/", root, Accept="text/html")
    assert (status, headers["Location"]) == (302, "/sign-in/?next=%2F")
    with pytest.raises(ssl.SSLCertVerificationError):
        ask(served["address"], "/", None)
    with pytest.raises((http.client.HTTPException, OSError)):
        ask(served["address"].replace("https", "http"), "/", None)


def test_cookies_are_for_https_alone_and_no_strange_name_is_answered(served, data) -> None:
    """With the prefix that keeps the plain page's port from setting them."""
    root = data / "authority" / "root.pem"
    _, headers, _ = ask(served["address"], "/sign-in/", root)
    cookie = headers["Set-Cookie"]
    assert cookie.startswith("__Host-wetside-form=")
    assert "Secure" in cookie
    assert "Strict-Transport-Security" not in headers
    for address in (served["address"], served["certificate_page"]):
        assert ask(address, "/", root, Host="evil.example")[0] == 400


def test_the_plain_page_gives_the_certificate_and_nothing_else(served, data) -> None:
    """Its bytes have the fingerprint that page and terminal show; no key, no record, no cookie."""
    import hashlib

    status, headers, page = ask(served["certificate_page"], "/", None)
    assert status == 200
    assert "Set-Cookie" not in headers
    assert served["fingerprint_sha256"] in page.decode().replace("<wbr>", "")
    assert served["address"] in page.decode()
    _, headers, der = ask(served["certificate_page"], "/wetside-authority.crt", None)
    assert headers["Content-Type"] == "application/x-x509-ca-cert"
    assert hashlib.sha256(der).hexdigest().upper() == served["fingerprint_sha256"].replace(":", "")
    for path in ("/root.key", "/authority/root.key", "/sheets/", "/sign-in/", "/../authority/root.key"):
        assert ask(served["certificate_page"], path, None)[0] == 404


def test_an_account_can_be_changed_beside_the_running_server(served, data) -> None:
    """No lock keeps a person from shutting somebody out at once."""
    assert run(data, "account", "add", "tom", "--stdin", typed=PASSWORD).returncode == 0
    assert run(data, "account", "remove", "tom").returncode == 0


def test_keys_are_in_no_backup_and_no_export(served, data, tmp_path) -> None:
    """The folder of the authority stays where it is; the examination minds its keys."""
    secret = (data / "authority" / "root.key").read_bytes()
    assert run(data, "export", str(tmp_path / "out.zip")).returncode == 0
    assert run(data, "backup").returncode == 0
    for path in [tmp_path / "out.zip", *(data / "backups").iterdir()]:
        assert secret not in path.read_bytes()
    (data / "authority" / "root.key").chmod(0o640)
    found = run(data, "check", "--json")
    (data / "authority" / "root.key").chmod(0o600)
    assert found.returncode != 0
    assert "services.check.open_key" in {one["code"] for one in json.loads(found.stdout)["findings"]}
    assert run(data, "check").returncode == 0
