"""The desk on the firm's own network: its addresses, a certificate made on this machine, and https in front."""

from darby.desk.sharing.certificates import Certificate, certificate
from darby.desk.sharing.front import Front
from darby.desk.sharing.network import NoNetwork, addresses, at_home, host_name
from darby.desk.sharing.opening import open_to_network

__all__ = [
    "Certificate",
    "Front",
    "NoNetwork",
    "addresses",
    "at_home",
    "certificate",
    "host_name",
    "open_to_network",
]
