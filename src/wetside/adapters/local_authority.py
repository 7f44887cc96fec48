"""The darkroom's own certificate authority: a root for ten years, and a short server certificate that it signs.

The root may vouch for nothing but private addresses and the names of this machine: its name constraints say so, and a
device that trusts it trusts it for nothing else. Its key never leaves the data folder.
"""

from __future__ import annotations

import datetime as dt
import ipaddress
from typing import TYPE_CHECKING, NamedTuple

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from wetside.adapters.authority_keys import LEAF_KEY, ROOT_KEY
from wetside.adapters.data_folder import AUTHORITY
from wetside.adapters.lan_addresses import LOOPBACK, PRIVATE
from wetside.adapters.whole_file import write_whole
from wetside.errors import Place, RefusedError

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

ROOT_YEARS = 10
LEAF_DAYS = 396
"""Days for which a server certificate holds; some clients refuse more than 398. [d]"""
RENEWED_DAYS = 60
"""A server certificate is made anew at a start when so many days or fewer are left. [d]"""
ROOT, LEAF = "root.pem", "server.pem"


class Authority(NamedTuple):
    """Where the server's files lie, the root as a device takes it in, and what was done now."""

    certificate: Path
    key: Path
    root_der: bytes
    root_pem: bytes
    fingerprint: str
    ends_at: dt.datetime
    made_root: bool
    made_leaf: bool
    names_left_out: tuple[str, ...]


def authority_for(folder: Path, addresses: Sequence[str], names: Sequence[str], now: dt.datetime) -> Authority:
    """Root and server certificate for these addresses and names, made or renewed where they have to be.

    Parameters
    ----------
    folder : Path
        The data folder.
    addresses, names : sequence of str
        What is served. A name that the root may not vouch for (the machine was renamed) is left out and told.
    now : datetime

    Raises
    ------
    RefusedError
        If the files of the root cannot be read or do not belong together: a new root is never made in their place
        unasked, for every device would have to learn it anew.
    """
    within = folder / AUTHORITY
    within.mkdir(mode=0o700, exist_ok=True)
    within.chmod(0o700)
    made_root = not (within / ROOT).exists() and not (within / LEAF).exists()  # a start that broke off left a key alone
    if made_root:
        _make_root(within, names, now)
    root, key = _read_root(within)
    if not root.not_valid_before_utc <= now < root.not_valid_after_utc - dt.timedelta(days=LEAF_DAYS):
        raise RefusedError(
            "adapters.lan.time", place=Place(file=str(within)), ends=f"{root.not_valid_after_utc:%Y-%m-%d}"
        )
    allowed = tuple(name for name in names if _may_name(root, name))
    made_leaf = not _leaf_serves(within, root, addresses, allowed, now)
    if made_leaf:
        _make_leaf(within, root, key, addresses, allowed, now)
    for secret in (ROOT_KEY, LEAF_KEY):
        (within / secret).chmod(0o600)
    return Authority(
        within / LEAF,
        within / LEAF_KEY,
        root.public_bytes(serialization.Encoding.DER),
        root.public_bytes(serialization.Encoding.PEM),
        fingerprint_of(root),
        root.not_valid_after_utc,
        made_root,
        made_leaf,
        tuple(name for name in names if name not in allowed),
    )


def fingerprint_of(certificate: x509.Certificate) -> str:
    """SHA-256 of a certificate in pairs of letters, as devices show it."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def _make_root(within: Path, names: Sequence[str], now: dt.datetime) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name(
        [
            x509.NameAttribute(NameOID.ORGANIZATION_NAME, "Wetside"),
            x509.NameAttribute(NameOID.COMMON_NAME, f"Darkroom of {_own(names)}, {now:%Y-%m-%d}"),
        ]
    )
    permitted: list[x509.GeneralName] = [x509.IPAddress(network) for network in (*PRIVATE, *LOOPBACK)]
    permitted += [x509.DNSName(name) for name in dict.fromkeys(("localhost", *names))]
    root = (
        _builder(called, called, key.public_key(), now, dt.timedelta(days=round(ROOT_YEARS * 365.25)))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs=True), critical=True)
        .add_extension(x509.NameConstraints(permitted, None), critical=True)
        .sign(key, hashes.SHA256())
    )
    _write_secret(within / ROOT_KEY, key)
    write_whole(within / ROOT, root.public_bytes(serialization.Encoding.PEM))


def _make_leaf(
    within: Path,
    root: x509.Certificate,
    root_key: ec.EllipticCurvePrivateKey,
    addresses: Sequence[str],
    names: Sequence[str],
    now: dt.datetime,
) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"Wetside on {_own(names)}")])
    served: list[x509.GeneralName] = [x509.IPAddress(ipaddress.ip_address(one)) for one in addresses]
    served += [x509.DNSName(name) for name in names]
    public = root_key.public_key()
    leaf = (
        _builder(called, root.subject, key.public_key(), now, dt.timedelta(days=LEAF_DAYS))
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName(served), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(public), critical=False)
        .sign(root_key, hashes.SHA256())
    )
    _write_secret(within / LEAF_KEY, key)
    write_whole(within / LEAF, leaf.public_bytes(serialization.Encoding.PEM))


def _builder(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: dt.datetime, holds: dt.timedelta
) -> x509.CertificateBuilder:
    begins = now - dt.timedelta(hours=12)  # devices' clocks differ
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(begins)
        .not_valid_after(begins + holds)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key), critical=False)
    )


def _usage(*, signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs,
        crl_sign=signs,
        encipher_only=False,
        decipher_only=False,
    )


def _own(names: Sequence[str]) -> str:
    return next((name.removesuffix(".local") for name in names if name != "localhost"), "this machine")[:40]


def _write_secret(path: Path, key: ec.EllipticCurvePrivateKey) -> None:
    """Write a key so that nobody else can read it at any moment: the folder is closed to others already."""
    write_whole(
        path,
        key.private_bytes(serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()),
    )
    path.chmod(0o600)


def _read_root(within: Path) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    try:
        root = x509.load_pem_x509_certificate((within / ROOT).read_bytes())
        key = serialization.load_pem_private_key((within / ROOT_KEY).read_bytes(), None)
    except (OSError, ValueError, TypeError) as error:
        raise RefusedError("adapters.lan.unreadable", place=Place(file=str(within))) from error
    if not isinstance(key, ec.EllipticCurvePrivateKey) or key.public_key() != root.public_key():
        raise RefusedError("adapters.lan.unreadable", place=Place(file=str(within)))
    return root, key


def _may_name(root: x509.Certificate, name: str) -> bool:
    constraints = root.extensions.get_extension_for_class(x509.NameConstraints).value
    return any(isinstance(one, x509.DNSName) and one.value == name for one in constraints.permitted_subtrees or ())


def _leaf_serves(
    within: Path, root: x509.Certificate, addresses: Sequence[str], names: Sequence[str], now: dt.datetime
) -> bool:
    """Whether the certificate that is there is of this root, for just these hosts, and has days enough left."""
    try:
        leaf = x509.load_pem_x509_certificate((within / LEAF).read_bytes())
        key = serialization.load_pem_private_key((within / LEAF_KEY).read_bytes(), None)
        leaf.verify_directly_issued_by(root)
        named = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (OSError, ValueError, TypeError, InvalidSignature, x509.ExtensionNotFound):
        return False
    hosts = {str(one) for one in named.get_values_for_type(x509.IPAddress)} | set(
        named.get_values_for_type(x509.DNSName)
    )
    return (
        key.public_key() == leaf.public_key()
        and hosts == {*addresses, *names}
        and leaf.not_valid_before_utc <= now < leaf.not_valid_after_utc - dt.timedelta(days=RENEWED_DAYS)
    )
