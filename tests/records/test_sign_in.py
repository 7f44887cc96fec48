"""Counting of attempts to sign in, on the database that the suite runs on."""

from __future__ import annotations

import datetime as dt
import json

import pytest

from wetside.errors import ConflictError, InputError, RefusedError
from wetside.records.models import SignInAttempts
from wetside.services.records import accounts, sign_in

PASSWORD = "wet sleeves 4 ever"  # noqa: S105 (of a test)
AT = dt.datetime(2031, 5, 2, 20, 0, tzinfo=dt.UTC)
S = dt.timedelta(seconds=1)


@pytest.fixture(autouse=True)
def _quick_hash(settings) -> None:
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


def fail(name: str, address: str, at: dt.datetime) -> None:
    assert sign_in.check_password(name, "wrong wrong", address, at) is None


@pytest.mark.django_db
def test_the_wait_doubles_and_stays_below_its_limit() -> None:
    """Worked by hand: 4 failures are free, then 1, 2, 4 … s, never more than 900 s; a day's quiet forgets them."""
    at = AT
    waits = []
    for _ in range(17):
        fail("ines", f"10.0.0.{len(waits)}", at)
        row = SignInAttempts.objects.order_by("-failed").first()
        waits.append(round((row.waits_until - at).total_seconds()))
        at = row.waits_until
    assert waits == [0, 0, 0, 0, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900, 900]
    at += dt.timedelta(days=1, seconds=1)
    fail("ines", "10.0.1.1", at)
    assert SignInAttempts.objects.order_by("-failed").first().failed == 1


@pytest.mark.django_db
def test_the_wait_is_told_and_an_attempt_in_it_is_not_looked_at() -> None:
    """Rounded up to whole seconds; the right password in it is refused too, and costs nothing more."""
    accounts.add_account("ines", PASSWORD)
    for _ in range(6):
        fail("ines", "10.0.0.1", AT + 10 * S if _ == 5 else AT)
    row = SignInAttempts.objects.order_by("-failed").first()
    before = row.failed, row.waits_until
    with pytest.raises(RefusedError) as told:
        sign_in.check_password("Ines", PASSWORD, "10.0.0.2", AT + 10.5 * S)
    assert told.value.params == {"wait_s": 2}
    row.refresh_from_db()
    assert (row.failed, row.waits_until) == before
    assert sign_in.check_password("Ines", PASSWORD, "10.0.0.2", row.waits_until).username == "ines"


@pytest.mark.django_db
def test_an_address_waits_across_names_and_its_success_with_one_does_not_free_it() -> None:
    """Eight are free for an address; an account of one's own gives only its own attempt back."""
    accounts.add_account("tom", PASSWORD)
    for n in range(8):
        fail(f"name{n}", "10.0.0.9", AT)
        assert sign_in.check_password("tom", PASSWORD, "10.0.0.9", AT) is not None
    fail("name8", "10.0.0.9", AT)
    with pytest.raises(RefusedError):
        sign_in.check_password("tom", PASSWORD, "10.0.0.9", AT)
    fail("name9", "10.0.0.10", AT)


@pytest.mark.django_db
def test_success_frees_the_account() -> None:
    """Three slips today and three tomorrow are not six."""
    accounts.add_account("ines", PASSWORD)
    for day in range(3):
        for n in range(4):
            fail("ines", f"10.0.{day}.{n}", AT)
        assert sign_in.check_password("ines", PASSWORD, "10.1.0.1", AT) is not None


@pytest.mark.django_db
def test_a_clock_that_is_set_back_locks_nobody_out_for_years() -> None:
    """A wait that lies further ahead than the longest wait is no wait."""
    for _ in range(6):
        fail("ines", "10.0.0.1", AT + (dt.timedelta(days=400) if _ == 5 else 0 * S))
    fail("ines", "10.0.0.1", AT)


@pytest.mark.django_db
def test_the_table_stays_small(monkeypatch) -> None:
    """Old counts go; beyond the limit the oldest go."""
    monkeypatch.setattr(sign_in, "KEPT_MOST", 10)
    for n in range(12):
        fail(f"name{n}", f"10.0.0.{n}", AT + n * S)
    assert SignInAttempts.objects.count() <= 12
    fail("late", "10.0.0.99", AT + dt.timedelta(days=2))
    assert SignInAttempts.objects.count() == 2


AT_ONCE = """
import threading
from wetside.web.serve import set_up
set_up()
from django.conf import settings
settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]
from django.db import connection
from wetside.adapters.clock import now
from wetside.errors import RefusedError
from wetside.services.records import accounts, sign_in, telephone
accounts.add_account("ines", "wet sleeves 4 ever")
code = telephone.make_code("ines", now())
at = now()
begin = threading.Barrier(8)
told = []
def attempt(n):
    begin.wait()
    try:
        DOES
    except RefusedError as error:
        told.append(error.code)
    finally:
        connection.close()
threads = [threading.Thread(target=attempt, args=(n,)) for n in range(8)]
[one.start() for one in threads]
[one.join() for one in threads]
print(sorted(told))
"""


def at_once(archive, does: str) -> list[str]:
    ran = archive.run(python=AT_ONCE.replace("DOES", does))
    assert ran.code == 0, ran.err
    told: list[str] = json.loads(ran.out.replace("'", '"'))
    return told


def test_attempts_at_the_same_moment_do_not_slip_through(live) -> None:
    """Eight at once on connections of their own: each is counted before its password is looked at."""
    told = at_once(live, 'told.append(str(sign_in.check_password("ines", "wrong wrong", f"10.0.0.{n}", at)))')
    looked = sign_in.FREE["account"] + 1
    assert told == ["None"] * looked + ["services.sign_in.wait"] * (8 - looked)


def test_a_link_is_used_by_one_of_many_at_once(live) -> None:
    """Eight telephones press at the same moment: one is let in."""
    told = at_once(live, 'told.append(telephone.use_code(code.text, f"10.0.0.{n}", now()).username)')
    assert told == ["ines"] + ["services.telephone.code"] * 7


def test_a_restart_does_not_reset_the_wait(live) -> None:
    """Another process finds the counts that the first one wrote."""
    start = "from wetside.web.serve import set_up; set_up()\n"
    start += (
        "from wetside.services.records.sign_in import check_password as check\nfrom datetime import datetime, UTC\n"
    )
    start += "at = datetime(2031, 5, 2, tzinfo=UTC)\n"
    assert live.run(python=start + "[check('ines', 'wrong wrong', f'10.0.0.{n}', at) for n in range(5)]").code == 0
    again = live.run(python=start + "check('ines', 'wrong wrong', '10.0.0.77', at)")
    assert again.code != 0
    assert "services.sign_in.wait" in again.err


def test_a_backup_is_closed_to_others_and_an_export_holds_no_secret(live, tmp_path) -> None:
    """Accounts do not travel by an export; the copy of the database that holds hashes is for its owner alone."""
    begin = "from wetside.web.serve import set_up; set_up()\nfrom wetside.adapters.clock import now\n"
    begin += "from wetside.services.records import accounts, telephone, sign_in\n"
    begin += "accounts.add_account('ines', 'wet sleeves 4 ever'); print(telephone.make_code('ines', now()).text)\n"
    begin += "from django.contrib.auth.models import User; me = User.objects.get(); print(me.password)\n"
    begin += "print(sign_in.sign_device_in(me, 'password', 'x', now()))"
    made = live.run(python=begin)
    assert made.code == 0, made.err
    assert live.run("backup").code == 0
    assert live.run("export", tmp_path / "out").code == 0
    secrets = [*made.out.split(), *(sign_in.hash_of(one) for one in made.out.split())]
    for path in (tmp_path / "out").rglob("*"):
        if path.is_file():
            text = path.read_bytes()
            assert not any(one.encode() in text for one in secrets), path
    for path in (live.folder / "backups").iterdir():
        assert path.stat().st_mode & 0o077 == 0 or path.parent.stat().st_mode & 0o077 == 0, path
    assert live.run("check").code == 0


def test_a_restored_backup_brings_no_device_back(begun) -> None:
    """A telephone that was lost and signed out stays out; the account itself is as in the backup."""
    set_up = "from wetside.web.serve import set_up; set_up()\nfrom wetside.adapters.clock import now\n"
    set_up += "from django.contrib.auth.models import User\nfrom wetside.services.records import accounts, sign_in\n"
    made = begun.run(
        python=set_up + "accounts.add_account('ines', 'wet sleeves 4 ever')\n"
        "print(sign_in.sign_device_in(User.objects.get(), 'telephone', 'x', now()))"
    )
    token = made.out.strip()
    asks = set_up + f"print(sign_in.is_signed_in(User.objects.get().pk, {token!r}))"
    assert begun.run(python=asks).out.strip() == "True"
    name = json.loads(begun.run("backup", "--json").out)["backup"]["name"]
    assert begun.run("backup", "--restore", name).code == 0
    assert begun.run(python=asks).out.strip() == "False"
    assert begun.run("check").code == 0


def test_a_restored_backup_brings_no_token_back(begun) -> None:
    """One that was revoked after the backup stays out; no program gets in until it has a new one, and that is said."""
    set_up = "from wetside.web.serve import set_up; set_up()\nfrom wetside.adapters.clock import now\n"
    set_up += "from wetside.services.records import tokens\n"
    made = begun.run(python=set_up + "print(tokens.make_token('thermometer', 'readings', now()).secret)")
    asks = set_up + f"print(tokens.token_of({made.out.strip()!r}, now()) is not None)"
    assert begun.run(python=asks).out.strip() == "True"
    name = json.loads(begun.run("backup", "--json").out)["backup"]["name"]
    begun.run(python=set_up + "tokens.revoke_token(tokens.list_tokens()[0].key, now())")
    assert begun.run(python=asks).out.strip() == "False"
    restored = begun.run("backup", "--restore", name)
    assert restored.code == 0
    assert "make the tokens anew" in restored.out
    assert begun.run(python=asks).out.strip() == "False"
    assert begun.run("check").code == 0


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("name", "password", "code"),
    [
        ("", PASSWORD, "services.accounts.no_name"),
        ("x" * 61, PASSWORD, "services.accounts.long_name"),
        ("two words", PASSWORD, "services.accounts.odd_name"),
        ("ines", "short7", "services.accounts.short_password"),
        ("ines", "x" * 1001, "services.accounts.long_password"),
        ("ines", "7305518246", "services.accounts.digits_only"),
        ("darkroomines", "darkroomines1", "services.accounts.like_the_name"),
        ("ines", "basketball", "services.accounts.common_password"),
    ],
)
def test_what_cannot_be_an_account_is_told(name: str, password: str, code: str) -> None:
    """Each with its own sentence; nothing is made."""
    with pytest.raises(InputError) as told:
        accounts.add_account(name, password)
    assert told.value.code == code
    assert accounts.list_accounts() == ()


@pytest.mark.django_db
def test_a_name_is_taken_in_any_capitals_and_by_a_removed_account() -> None:
    """It would not be told apart when it is typed."""
    accounts.add_account("Ines", PASSWORD)
    with pytest.raises(ConflictError):
        accounts.add_account("ines", PASSWORD)
    accounts.remove_account("INES")
    with pytest.raises(ConflictError) as told:
        accounts.add_account("ines", PASSWORD)
    assert told.value.code == "services.accounts.taken_removed"
    with pytest.raises(RefusedError):
        accounts.remove_account("ines")
    assert accounts.active_names() == ()
    accounts.bring_back_account("ines")
    assert accounts.active_names() == ("Ines",)
