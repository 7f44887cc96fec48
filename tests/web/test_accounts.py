"""Coming in over the network: who is turned away, who waits, what a link and a signed-out device are worth."""

from __future__ import annotations

import datetime as dt
import json
import re
from http.cookies import SimpleCookie

import pytest
from django.test import Client

from wetside.adapters.clock import now
from wetside.records.models import SignedIn, SignInAttempts, TelephoneCode
from wetside.services.archive.tables import tables
from wetside.services.records import accounts, sign_in, telephone

pytestmark = pytest.mark.django_db

PASSWORD = "wet sleeves 4 ever"  # noqa: S105 (of a test)
HERE = "192.168.7.5"
BACKENDS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture
def lan(settings):
    settings.LAN = "https"
    settings.LAN_ADDRESS = f"https://{HERE}:8017/"
    settings.LAN_CERTIFICATE = f"http://{HERE}:8018/"
    settings.ALLOWED_HOSTS = [HERE, "127.0.0.1", "darkroom.local"]
    settings.PASSWORD_HASHERS = BACKENDS
    accounts.add_account("ines", PASSWORD)
    return settings


@pytest.fixture
def device(lan):
    return Client(headers={"host": HERE, "accept": "text/html"}, enforce_csrf_checks=False)


def come_in(client: Client, name: str = "ines", password: str = PASSWORD, **more):
    return client.post("/sign-in/", {"name": name, "password": password, **more}, secure=True)


def test_without_lan_nobody_signs_in(client) -> None:
    """Loopback alone: pages are open, the link's page says what is needed."""
    assert client.get("/", headers={"host": "127.0.0.1"}).status_code == 200
    assert "wetside serve --lan" in client.get("/telephone/", headers={"host": "127.0.0.1"}).text


def every_address() -> list[str]:
    from django.urls import get_resolver

    def walk(resolver, before: str = ""):
        for one in resolver.url_patterns:
            path = before + str(one.pattern)
            if hasattr(one, "url_patterns"):
                yield from walk(one, path)
            else:
                yield path

    filled = {"uuid": "00000000-0000-4000-8000-000000000000", "int": "1", "slug": "film", "str": "x"}
    found = [re.sub(r"<(?:(\w+):)?\w+>", lambda one: filled[one[1] or "str"], path) for path in walk(get_resolver())]
    # The interface takes all of its paths at one address; whoever has no token is told so at each.
    return ["/" + ("api/v1/sheets" if path.startswith("^api/v1/") else path) for path in found]


def test_every_page_and_endpoint_is_shut_to_a_stranger(device) -> None:
    """All addresses of the site, read off its own table; from loopback as from elsewhere."""
    addresses = every_address()
    assert len(addresses) > 40
    for address in addresses:
        if address.startswith(("/sign-in/", "/telephone/x/")):
            continue
        for host in (HERE, "127.0.0.1"):
            for send in (device.get, device.post):
                answer = send(address, secure=True, headers={"host": host}, REMOTE_ADDR="127.0.0.1")
                assert answer.status_code in (302, 401, 405), (address, answer.status_code)
                if answer.status_code == 302:
                    assert answer["Location"].startswith("/sign-in/"), address


def test_a_script_is_told_401_and_a_page_comes_back_to_where_it_wanted(device) -> None:
    """No redirect for what cannot follow one; after signing in, the page that was wanted, and none elsewhere."""
    told = device.get("/sheets/", secure=True, headers={"accept": "application/json"})
    assert told.status_code == 401
    assert json.loads(told.content)["code"] == "web.lan.sign_in_first"
    turned = device.get("/sheets/?page=2", secure=True)
    assert turned["Location"] == "/sign-in/?next=%2Fsheets%2F%3Fpage%3D2"
    assert come_in(device, next="/sheets/?page=2")["Location"] == "/sheets/?page=2"
    assert device.get("/sheets/", secure=True).status_code == 200
    for elsewhere in ("https://evil.example/", "//evil.example", "/\\evil.example", "javascript:alert(1)"):
        other = Client(headers={"host": HERE, "accept": "text/html"})
        assert come_in(other, next=elsewhere)["Location"] == "/"


def test_a_strange_name_is_refused_even_for_files(device) -> None:
    """A name that was made to lead here opens nothing: no page, no file, no signing in."""
    for address in ("/", "/sign-in/", "/static/web/wetside.css"):
        answer = device.get(address, secure=True, headers={"host": "evil.example"})
        assert answer.status_code == 400
        assert "darkroom.local" in answer.text


def test_wrong_names_and_wrong_passwords_are_answered_alike(device) -> None:
    """The same page whether the account exists, is removed, or never was."""
    accounts.add_account("tom", PASSWORD)
    accounts.remove_account("tom")
    told = set()
    for name, password in (("ines", "wrong wrong"), ("tom", PASSWORD), ("nobody", PASSWORD)):
        answer = come_in(device, name, password)
        assert answer.status_code == 422
        told.add(re.sub(r'value="[^"]*"', "", answer.text))
    assert len(told) == 1


def test_the_same_work_is_done_for_unknown_names(device, monkeypatch) -> None:
    """A password is hashed once whether the name is known or not: time tells nothing."""
    from django.contrib.auth import hashers

    counted: list[int] = []
    real = hashers.MD5PasswordHasher.encode
    monkeypatch.setattr(hashers.MD5PasswordHasher, "encode", lambda *a, **k: (counted.append(1), real(*a, **k))[1])
    work = []
    for name in ("ines", "nobody", "INES"):
        counted.clear()
        come_in(device, name, "wrong wrong")
        work.append(len(counted))
    assert work[0] == work[1] == work[2] >= 1


def test_failures_make_the_next_attempt_wait_and_the_right_password_waits_too(device) -> None:
    """After the free ones the wait is told with its seconds; it holds for known and unknown names."""
    for name in ("ines", "nobody"):
        for _ in range(sign_in.FREE["account"] + 1):
            assert come_in(device, name, "wrong wrong").status_code == 422
        SignInAttempts.objects.update(waits_until=now() + dt.timedelta(seconds=30))
        answer = come_in(device, name, PASSWORD)
        assert answer.status_code == 429
        assert 28 <= int(answer["Retry-After"]) <= 30
        assert "30 seconds" in answer.text or "29 seconds" in answer.text
        SignInAttempts.objects.all().delete()
    assert come_in(device).status_code == 302


def test_a_copied_session_is_worth_nothing_after_signing_out(device) -> None:
    """The cookie is kept by a thief; signing out ends it on the server."""
    come_in(device)
    thief = Client(headers={"host": HERE, "accept": "text/html"})
    thief.cookies = SimpleCookie({name: one.value for name, one in device.cookies.items()})
    assert thief.get("/sheets/", secure=True).status_code == 200
    assert device.post("/sign-out/", secure=True)["Location"] == "/sign-in/"
    assert thief.get("/sheets/", secure=True).status_code == 302


@pytest.mark.parametrize("end", ["password", "remove", "device"])
def test_other_devices_can_be_signed_out(device, end: str) -> None:
    """By another password, by removing the account, or one by one."""
    come_in(device)
    other = Client(headers={"host": HERE, "accept": "text/html"})
    come_in(other)
    if end == "password":
        accounts.change_password("INES", "another pair of sleeves")
    elif end == "remove":
        accounts.remove_account("ines")
    else:
        theirs = SignedIn.objects.order_by("made_at").first()
        other.post(f"/telephone/devices/{theirs.pk}/out/", secure=True)
        assert other.get("/sheets/", secure=True).status_code == 200
    assert device.get("/sheets/", secure=True).status_code == 302
    if end == "remove":
        accounts.bring_back_account("ines")
        assert device.get("/sheets/", secure=True).status_code == 302, "a device that was signed out stays out"
        assert come_in(device).status_code == 302
        assert device.get("/sheets/", secure=True).status_code == 200


def test_nobody_signs_out_a_device_of_another_account(device) -> None:
    """Its address is known; it stays signed in."""
    come_in(device)
    accounts.add_account("tom", PASSWORD)
    tom = Client(headers={"host": HERE, "accept": "text/html"})
    come_in(tom, "tom")
    theirs = SignedIn.objects.get(account__username="ines")
    tom.post(f"/telephone/devices/{theirs.pk}/out/", secure=True)
    assert device.get("/sheets/", secure=True).status_code == 200


def test_a_link_signs_one_telephone_in_once(device) -> None:
    """Made by who is signed in; looking at it uses nothing up; a second use is refused; only its hash is kept."""
    come_in(device)
    page = device.post("/telephone/", secure=True).text
    link = re.search(rf'href="https://{re.escape(HERE)}:8017(/telephone/[^"]+/)"', page)[1]
    assert "style=" not in page
    text = link.strip("/").rpartition("/")[2]
    assert not TelephoneCode.objects.filter(code_hash=text).exists()
    phone = Client(headers={"host": HERE, "accept": "text/html", "user-agent": "A telephone"})
    for _ in range(3):
        assert "signs you in as ines" in phone.get(link, secure=True).text
    assert phone.post(link, secure=True)["Location"] == "/"
    assert phone.get("/sheets/", secure=True).status_code == 200
    second = Client(headers={"host": HERE, "accept": "text/html"})
    assert second.post(link, secure=True).status_code == 422
    assert second.get(link, secure=True).status_code == 422
    assert second.get("/sheets/", secure=True).status_code == 302
    assert "A telephone" in device.get("/telephone/", secure=True).text


def test_a_link_ends_after_ten_minutes_and_with_its_account(lan) -> None:
    """Both ends of the ten minutes; and a removed account's links open nothing."""
    at = now()
    code = telephone.make_code("ines", at)
    nearly = at + dt.timedelta(seconds=599)
    assert telephone.account_of_code(code.text, nearly) == "ines"
    assert telephone.account_of_code(code.text, at + dt.timedelta(seconds=600)) is None
    accounts.remove_account("ines")
    assert telephone.account_of_code(code.text, nearly) is None


def test_few_links_hold_at_once(lan) -> None:
    """One more ends the oldest."""
    at = now()
    codes = [telephone.make_code("ines", at + dt.timedelta(seconds=n)) for n in range(telephone.OPEN_MOST + 1)]
    later = at + dt.timedelta(seconds=30)
    held = [telephone.account_of_code(code.text, later) for code in codes]
    assert held == [None] + ["ines"] * telephone.OPEN_MOST


def test_guessed_links_are_counted(device) -> None:
    """An address that tries links waits like one that tries passwords."""
    for n in range(sign_in.FREE["address"] + 1):
        assert device.get(f"/telephone/guess{n}/", secure=True).status_code == 422
    assert "seconds" in device.get("/telephone/guess/", secure=True).text


def test_forms_need_their_token(lan) -> None:
    """Signing in, a link's use and a request for a link are refused without the form's token."""
    strict = Client(headers={"host": HERE, "accept": "text/html"}, enforce_csrf_checks=True)
    code = telephone.make_code("ines", now())
    assert come_in(strict).status_code == 403
    assert strict.post(f"/telephone/{code.text}/", secure=True).status_code == 403
    assert telephone.account_of_code(code.text, now()) == "ines"


def test_the_history_tells_the_account(device) -> None:
    """Who is signed in stands in the history, unless a name was given for the device."""
    from wetside.records.models import Darkroom

    come_in(device)
    device.post("/darkroom/", {"name": "North cellar", "revision": "0"}, secure=True)
    assert Darkroom.objects.get().history.first().history_user_id == "ines"


def test_a_bearer_header_opens_no_page(device) -> None:
    """Only the interface for programs looks at tokens: a page is shut to them."""
    answer = device.get("/sheets/", secure=True, headers={"authorization": "Bearer made-up"})
    assert answer.status_code == 302
    for address in (one for one in every_address() if one.startswith("/api/")):
        for send in (device.get, device.post):
            told = send(address, secure=True, headers={"authorization": "Bearer made-up", "accept": "application/json"})
            assert told.status_code in (401, 404, 405), (address, told.status_code)


def test_secrets_are_no_tables_of_an_export() -> None:
    """Devices, codes, counts and the framework's accounts stay behind; the records go along."""
    names = {table.name for table in tables()}
    assert not names & {"signedin", "telephonecode", "signinattempts", "user"}
    assert "sheet" in names


def test_nothing_secret_is_kept_in_the_open(device) -> None:
    """Neither tokens, codes nor names that were tried stand in the tables."""
    come_in(device)
    come_in(Client(headers={"host": HERE}), "my secret typed here", "x" * 12)
    token = device.session["device"]
    code = telephone.make_code("ines", now())
    kept = [
        *SignedIn.objects.values_list("token_hash", flat=True),
        *TelephoneCode.objects.values_list("code_hash", flat=True),
        *SignInAttempts.objects.values_list("whose_hash", flat=True),
    ]
    assert len(kept) >= 3
    assert not {token, code.text, "my secret typed here"} & set(kept)
    assert all(re.fullmatch(r"[0-9a-f]{64}", one) for one in kept)
