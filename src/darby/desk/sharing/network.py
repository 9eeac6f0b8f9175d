"""Under which addresses a phone on the same network finds this machine."""

from __future__ import annotations

import ipaddress
import re
import socket

HOME = ("10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16")
"""Networks that no one on the internet has (RFC 1918)."""
NOBODY = ("192.0.2.1", 9)
"""An address that nobody has (RFC 5737): asking the way to it sends nothing, and tells by which address we would go."""


def addresses() -> tuple[str, ...]:
    """Own IPv4 addresses of private networks (RFC 1918), the one that leads out first; () where there is no network."""
    found = dict.fromkeys([*_way_out(), *_by_name()])
    return tuple(a for a in found if _of_home(a))


class NoNetwork(OSError):
    """This machine is on no home network: no phone would find it."""


def at_home() -> tuple[str, ...]:
    """Everything that a phone may call this machine: its addresses, its name.

    Raises
    ------
    NoNetwork
        if it has no address there.
    """
    found = addresses()
    if not found:
        raise NoNetwork
    return (*found, host_name())


def host_name() -> str:
    """The name under which machines that speak multicast DNS find this one: ``shop.local``."""
    name = re.sub(r"[^a-z0-9-]+", "-", socket.gethostname().partition(".")[0].lower()).strip("-")
    return f"{name or 'darby'}.local"


def _way_out() -> list[str]:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(NOBODY)
        except OSError:
            return []
        return [str(asking.getsockname()[0])]


def _by_name() -> list[str]:
    try:
        found = socket.getaddrinfo(socket.gethostname(), None, socket.AF_INET, socket.SOCK_STREAM)
    except OSError:
        return []
    return [str(row[4][0]) for row in found]


def _of_home(address: str) -> bool:
    return any(ipaddress.ip_address(address) in ipaddress.ip_network(network) for network in HOME)
