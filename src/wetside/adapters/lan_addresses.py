"""Addresses and names under which this machine is reached from its own network, and no wider."""

from __future__ import annotations

import ipaddress
import re
import socket
from typing import NamedTuple

import psutil

from wetside.errors import InputError, RefusedError

PRIVATE = tuple(
    ipaddress.ip_network(text)
    for text in ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "fc00::/7")
)
"""Networks that no router carries on to the world: RFC 1918, RFC 3927, RFC 4193."""
LOOPBACK = (ipaddress.ip_network("127.0.0.0/8"), ipaddress.ip_network("::1/128"))
NAME = re.compile(r"[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?")


class Served(NamedTuple):
    """What is listened on, and by which names it may be asked for."""

    addresses: tuple[str, ...]
    names: tuple[str, ...]

    @property
    def hosts(self) -> list[str]:
        """All of them as they stand in an address, IPv6 in brackets."""
        return [host_of(address) for address in self.addresses] + list(self.names)


def host_of(address: str) -> str:
    """Address as it stands in a link.

    Examples
    --------
    >>> host_of("fd00::2"), host_of("192.168.1.5")
    ('[fd00::2]', '192.168.1.5')
    """
    return f"[{address}]" if ":" in address else address


def is_private(address: str) -> bool:
    """Whether an address belongs to a private network.

    Examples
    --------
    >>> is_private("192.168.1.5"), is_private("8.8.8.8"), is_private("fd00::2"), is_private("127.0.0.1")
    (True, False, True, False)
    """
    return _within(address, PRIVATE)


def is_loopback(address: str) -> bool:
    """Whether an address is reached from this machine alone."""
    return _within(address, LOOPBACK)


def _within(address: str, networks: tuple[ipaddress.IPv4Network | ipaddress.IPv6Network, ...]) -> bool:
    try:
        parsed = ipaddress.ip_address(address)
    except ValueError:
        return False
    return any(parsed.version == network.version and parsed in network for network in networks)


def private_addresses() -> tuple[str, ...]:
    """Private addresses of this machine; IPv4 first."""
    found = {
        str(one.address)
        for of_card in psutil.net_if_addrs().values()
        for one in of_card
        if one.family in (socket.AF_INET, socket.AF_INET6)
    }
    return tuple(sorted((one for one in found if is_private(one)), key=lambda one: (":" in one, one)))


def served(wanted: list[str] | None = None) -> Served:
    """What shall be listened on: the private addresses of this machine, or those of them that are named; and loopback.

    Parameters
    ----------
    wanted : list of str, optional
        Addresses to listen on.

    Raises
    ------
    WetsideError
        If there is no private address, or one that is named is none.
    """
    addresses = private_addresses()
    if wanted:
        for one in wanted:
            if one not in addresses and not _within(one, LOOPBACK):
                raise InputError("adapters.lan.address", value=one, known=list(addresses))
        addresses = tuple(dict.fromkeys(wanted))
    elif not addresses:
        raise RefusedError("adapters.lan.no_address")
    return Served(tuple(dict.fromkeys((*addresses, "127.0.0.1"))), _names(addresses))


def _names(addresses: tuple[str, ...]) -> tuple[str, ...]:
    """Names of this machine: the one that multicast DNS answers for, and its bare one where that leads here."""
    bare = socket.gethostname().partition(".")[0].casefold()
    names = ["localhost"]
    if NAME.fullmatch(bare) and bare != "localhost":
        names.append(f"{bare}.local")  # RFC 6762: no name server of the world answers for it
        try:
            leads_to = {str(one[4][0]) for one in socket.getaddrinfo(bare, None)}
        except OSError:
            leads_to = set()
        if leads_to and all(one in addresses or _within(one, LOOPBACK) for one in leads_to):
            names.append(bare)
    return tuple(names)
