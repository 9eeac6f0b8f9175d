"""The desk on the firm's own network: its addresses, a certificate made on this machine, and https in front."""

from darby.desk.sharing.addresses import addresses, host_name
from darby.desk.sharing.certificates import Certificate, certificate
from darby.desk.sharing.front import Front

__all__ = ["Certificate", "Front", "addresses", "certificate", "host_name"]
