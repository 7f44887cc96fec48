"""The certificate authority: what it vouches for, when it renews, and that clients believe just that."""

from __future__ import annotations

import datetime as dt
import ipaddress
import socket
import ssl
import threading

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import load_pem_private_key
from cryptography.x509.oid import ExtendedKeyUsageOID
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError

from wetside.adapters.authority_keys import keys_open_to_others
from wetside.adapters.clock import now
from wetside.adapters.lan_addresses import served
from wetside.adapters.local_authority import LEAF_DAYS, RENEWED_DAYS, authority_for
from wetside.errors import InputError, RefusedError

HOSTS = (["192.168.7.5", "127.0.0.1"], ["localhost", "cellar.local"])
DAY = dt.timedelta(days=1)


def leaf_of(authority) -> x509.Certificate:
    return x509.load_pem_x509_certificate(authority.certificate.read_bytes())


def test_root_and_leaf_are_what_they_should_be(tmp_path) -> None:
    """Ten years and a year; keys closed; only private addresses and the served names; no leaf that signs."""
    at = now()
    made = authority_for(tmp_path, *HOSTS, at)
    root = x509.load_der_x509_certificate(made.root_der)
    leaf = leaf_of(made)
    assert made.made_root
    assert made.made_leaf
    assert 3650 <= (root.not_valid_after_utc - root.not_valid_before_utc).days <= 3653
    assert (leaf.not_valid_after_utc - leaf.not_valid_before_utc).days == LEAF_DAYS <= 397
    leaf.verify_directly_issued_by(root)
    limits = root.extensions.get_extension_for_class(x509.NameConstraints)
    assert limits.critical
    for one in limits.value.permitted_subtrees:
        assert one.value in ("localhost", "cellar.local") or ipaddress.ip_network(one.value).is_private
    assert root.extensions.get_extension_for_class(x509.BasicConstraints).value == x509.BasicConstraints(True, 0)
    assert not leaf.extensions.get_extension_for_class(x509.BasicConstraints).value.ca
    usage = leaf.extensions.get_extension_for_class(x509.ExtendedKeyUsage).value
    assert list(usage) == [ExtendedKeyUsageOID.SERVER_AUTH]
    for path in (tmp_path / "authority").iterdir():
        if path.suffix == ".key":
            assert path.stat().st_mode & 0o777 == 0o600
    assert (tmp_path / "authority").stat().st_mode & 0o777 == 0o700


def test_an_independent_verifier_takes_the_chain_for_served_hosts_alone(tmp_path) -> None:
    """The library's verifier of the web's profile."""
    made = authority_for(tmp_path, *HOSTS, now())
    store = Store([x509.load_der_x509_certificate(made.root_der)])

    def holds(name: x509.GeneralName) -> bool:
        try:
            PolicyBuilder().store(store).time(now()).build_server_verifier(name).verify(leaf_of(made), [])
        except VerificationError:
            return False
        return True

    assert holds(x509.IPAddress(ipaddress.ip_address("192.168.7.5")))
    assert holds(x509.DNSName("cellar.local"))
    assert not holds(x509.IPAddress(ipaddress.ip_address("192.168.7.6")))
    assert not holds(x509.DNSName("bank.example"))


def test_a_root_that_was_stolen_vouches_for_no_other_name(tmp_path) -> None:
    """A leaf for another name, signed with its real key, is refused by the system's own library."""
    from wetside.adapters.local_authority import _make_leaf, _read_root

    made = authority_for(tmp_path, *HOSTS, now())
    within = tmp_path / "authority"
    root, key = _read_root(within)
    _make_leaf(within, root, key, ["127.0.0.1"], ["bank.example"], now())
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree"):
        shake_hands(made, "bank.example", made.root_pem.decode())


def shake_hands(made, host: str, trusted: str | None) -> str:
    """One handshake over loopback; the version of the protocol, or the client's refusal."""
    serving = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    serving.load_cert_chain(made.certificate, made.key)
    listening = socket.create_server(("127.0.0.1", 0))

    def answer() -> None:
        raw, _ = listening.accept()
        try:
            with serving.wrap_socket(raw, server_side=True) as one:
                one.recv(1)
        except OSError:
            pass

    thread = threading.Thread(target=answer, daemon=True)
    thread.start()
    asking = ssl.create_default_context(cadata=trusted)
    try:
        with (
            socket.create_connection(listening.getsockname(), 5) as raw,
            asking.wrap_socket(raw, server_hostname=host) as one,
        ):
            return str(one.version())
    finally:
        listening.close()
        thread.join(5)


def test_a_client_that_trusts_the_root_comes_in_and_one_that_does_not_stays_out(tmp_path) -> None:
    """The standard library's client, with the root and without."""
    made = authority_for(tmp_path, *HOSTS, now())
    for host in ("127.0.0.1", "localhost", "cellar.local", "192.168.7.5"):
        assert shake_hands(made, host, made.root_pem.decode()).startswith("TLSv1.")
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(made, "127.0.0.1", None)
    with pytest.raises(ssl.SSLCertVerificationError):
        shake_hands(made, "192.168.7.6", made.root_pem.decode())


def test_the_leaf_is_renewed_when_it_must_be_and_the_root_never(tmp_path) -> None:
    """The same hosts: kept. Another address, or 60 days before its end: made anew."""
    at = now()
    first = authority_for(tmp_path, *HOSTS, at)
    again = authority_for(tmp_path, *HOSTS, at + DAY)
    assert (again.made_root, again.made_leaf) == (False, False)
    moved = authority_for(tmp_path, ["192.168.7.9"], HOSTS[1], at + DAY)
    assert (moved.made_root, moved.made_leaf) == (False, True)
    assert not authority_for(tmp_path, ["192.168.7.9"], HOSTS[1], at + (LEAF_DAYS - RENEWED_DAYS) * DAY - DAY).made_leaf
    late = authority_for(tmp_path, ["192.168.7.9"], HOSTS[1], at + (LEAF_DAYS - RENEWED_DAYS + 2) * DAY)
    assert late.made_leaf
    assert {one.fingerprint for one in (first, again, moved, late)} == {first.fingerprint}


def test_a_name_that_the_root_does_not_know_is_left_out_and_told(tmp_path) -> None:
    """The machine was renamed: addresses go on."""
    authority_for(tmp_path, *HOSTS, now())
    renamed = authority_for(tmp_path, HOSTS[0], ["localhost", "attic.local"], now())
    assert renamed.names_left_out == ("attic.local",)
    names = leaf_of(renamed).extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert names.get_values_for_type(x509.DNSName) == ["localhost"]


@pytest.mark.parametrize("harm", ["no key", "garbage", "another key", "clock"])
def test_a_root_that_cannot_be_used_is_told_and_never_replaced_unasked(tmp_path, harm: str) -> None:
    """Every device would have to learn a new one: the person decides."""
    made = authority_for(tmp_path, *HOSTS, now())
    within, at = tmp_path / "authority", now()
    if harm == "no key":
        (within / "root.key").unlink()
    elif harm == "garbage":
        (within / "root.pem").write_text("no certificate")
    elif harm == "another key":
        (within / "root.key").write_bytes(made.key.read_bytes())
    else:
        at -= 30 * DAY
    before = {path.name: path.read_bytes() for path in within.iterdir()}
    with pytest.raises(RefusedError):
        authority_for(tmp_path, *HOSTS, at)
    assert {path.name: path.read_bytes() for path in within.iterdir()} == before


def test_a_start_that_broke_off_before_the_root_was_whole_begins_again(tmp_path) -> None:
    """Only its key was written: no device can know it yet."""
    (tmp_path / "authority").mkdir()
    (tmp_path / "authority" / "root.key").write_text("half")
    made = authority_for(tmp_path, *HOSTS, now())
    assert made.made_root
    assert load_pem_private_key(made.key.read_bytes(), None)


def test_a_key_that_others_may_read_is_found_and_closed_at_the_next_start(tmp_path) -> None:
    """For the examination; starting closes it."""
    authority_for(tmp_path, *HOSTS, now())
    assert keys_open_to_others(tmp_path) == ()
    (tmp_path / "authority" / "root.key").chmod(0o644)
    assert keys_open_to_others(tmp_path) == ("authority/root.key",)
    authority_for(tmp_path, *HOSTS, now())
    assert keys_open_to_others(tmp_path) == ()


def test_only_private_addresses_of_this_machine_are_listened_on(monkeypatch) -> None:
    """A public one is neither taken by itself nor when it is named; without a private one nothing is served."""
    from wetside.adapters import lan_addresses

    class Card:
        def __init__(self, address: str) -> None:
            self.family = socket.AF_INET6 if ":" in address else socket.AF_INET
            self.address = address

    cards = {"one": [Card("203.0.113.9"), Card("192.168.7.5"), Card("fd12::5"), Card("fe80::1%one")]}
    monkeypatch.setattr(lan_addresses.psutil, "net_if_addrs", lambda: cards)
    assert served().addresses == ("192.168.7.5", "fd12::5", "127.0.0.1")
    assert served(["192.168.7.5"]).addresses == ("192.168.7.5", "127.0.0.1")
    assert "[fd12::5]" in served().hosts
    for wrong in ("203.0.113.9", "0.0.0.0", "::", "nonsense", "192.168.7.6"):  # noqa: S104 (refused)
        with pytest.raises(InputError):
            served([wrong])
    cards["one"] = [Card("203.0.113.9")]
    with pytest.raises(RefusedError):
        served()
