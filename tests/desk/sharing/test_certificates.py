"""The certificate of this machine, judged by OpenSSL through Python's own ssl module."""

from __future__ import annotations

import ipaddress
import socket
import ssl
import stat
import threading
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509

from darby.desk.sharing import Certificate, certificate
from darby.desk.sharing.certificates import _named, _sign

NOW = datetime.now(UTC)
NAMES = ("shop.local", "192.168.1.20", "127.0.0.1")


def _greeting(made: Certificate, name: str) -> None:
    """A phone that trusts the authority greets a server that shows the certificate, both without a network."""
    trusting = ssl.create_default_context(cafile=made.authority)
    showing = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    showing.load_cert_chain(made.chain, made.key)
    here, there = socket.socketpair()

    def serve() -> None:
        try:
            showing.wrap_socket(there, server_side=True).close()
        except (ssl.SSLError, OSError):
            there.close()

    thread = threading.Thread(target=serve)
    thread.start()
    try:
        trusting.wrap_socket(here, server_hostname=name).close()
    finally:
        here.close()
        thread.join()


@pytest.mark.parametrize("name", NAMES)
def test_a_phone_that_trusts_the_authority_is_content(tmp_path: Path, name: str) -> None:
    _greeting(certificate(tmp_path, NAMES, NOW), name)


def test_it_speaks_for_no_other_name(tmp_path: Path) -> None:
    with pytest.raises(ssl.SSLCertVerificationError):
        _greeting(certificate(tmp_path, NAMES, NOW), "192.168.1.21")


@pytest.mark.parametrize("name", ["bank.example", "203.0.113.5"])
def test_the_authority_cannot_speak_for_the_world(tmp_path: Path, name: str) -> None:
    """Even with its key in hand: OpenSSL holds it to the name constraints."""
    made = certificate(tmp_path, NAMES, NOW)
    from cryptography.hazmat.primitives import serialization

    authority = x509.load_pem_x509_certificate(made.authority.read_bytes())
    key = serialization.load_pem_private_key((tmp_path / "authority.key").read_bytes(), None)
    _sign(made, authority, key, (name,), NOW)  # type: ignore[arg-type]
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree"):
        _greeting(made, name)


def test_keys_are_their_owners_alone(tmp_path: Path) -> None:
    certificate(tmp_path / "tls", NAMES, NOW)
    for file in (tmp_path / "tls").iterdir():
        assert stat.S_IMODE(file.stat().st_mode) == 0o600, file
    assert stat.S_IMODE((tmp_path / "tls").stat().st_mode) == 0o700


def test_it_is_kept_while_it_serves(tmp_path: Path) -> None:
    first = certificate(tmp_path, NAMES, NOW)
    before = first.chain.read_bytes(), first.authority.read_bytes()
    again = certificate(tmp_path, (*reversed(NAMES),), NOW + timedelta(days=300))
    assert (again.chain.read_bytes(), again.authority.read_bytes()) == before


def test_another_address_asks_for_another_certificate_but_no_new_trust(tmp_path: Path) -> None:
    first = certificate(tmp_path, NAMES, NOW)
    chain, trusted = first.chain.read_bytes(), first.fingerprint
    second = certificate(tmp_path, ("shop.local", "10.0.0.7"), NOW)
    assert second.chain.read_bytes() != chain
    assert second.fingerprint == trusted
    _greeting(second, "10.0.0.7")


def test_it_is_made_anew_before_it_runs_out(tmp_path: Path) -> None:
    first = certificate(tmp_path, NAMES, NOW)
    ends = first.last_day
    later = certificate(tmp_path, NAMES, ends - timedelta(days=10))
    assert later.last_day > ends


def test_phones_take_it(tmp_path: Path) -> None:
    """At most 398 days, server authentication, names in the alternative names (CA/Browser Forum BR 6.3.2, 7.1.2)."""
    made = x509.load_pem_x509_certificate(certificate(tmp_path, NAMES, NOW).chain.read_bytes())
    assert made.not_valid_after_utc - made.not_valid_before_utc <= timedelta(days=398)
    names = made.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert set(names.get_values_for_type(x509.IPAddress)) == {ipaddress.ip_address(n) for n in NAMES[1:]}
    assert names.get_values_for_type(x509.DNSName) == ["shop.local"]
    assert _named("127.0.0.1") in names
