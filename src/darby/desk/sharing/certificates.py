"""A certificate made on this machine, signed by an authority made on this machine that can speak for nothing else.

A phone that trusts the authority trusts it for the addresses of private networks and names under ``.local`` only (name
constraints, RFC 5280 section 4.2.1.10): who steals its key cannot pretend to be a bank. Its own key never leaves the
folder, and both keys are readable by their owner alone.
"""

from __future__ import annotations

import ipaddress
import os
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from darby.desk.sharing.network import HOME

AT_HOME = (*HOME, "127.0.0.0/8")
"""Networks that no one on the internet has, and this machine itself (RFC 1122)."""
UNDER = "local"
"""Names that are looked up on the same network only (RFC 6762)."""
AUTHORITY_LASTS, LASTS, RENEW = timedelta(days=3650), timedelta(days=397), timedelta(days=30)
"""Phones refuse certificates that run longer than 398 days."""
SKEW = timedelta(days=1)
"""A phone's clock may be behind."""


@dataclass(frozen=True, slots=True)
class Certificate:
    """Where the files lie: what phones are asked to trust, what the server shows, and the key that it keeps."""

    authority: Path
    chain: Path
    key: Path

    @property
    def fingerprint(self) -> str:
        """SHA-256 of what phones are asked to trust, in pairs, to compare by eye."""
        made = x509.load_pem_x509_certificate(self.authority.read_bytes())
        return made.fingerprint(hashes.SHA256()).hex(":").upper()

    @property
    def last_day(self) -> datetime:
        """Until when the server's own certificate holds."""
        return x509.load_pem_x509_certificate(self.chain.read_bytes()).not_valid_after_utc


def certificate(folder: Path, names: tuple[str, ...], now: datetime) -> Certificate:
    """The certificate of this machine for ``names`` (host names under ``.local``, addresses), made anew if it must be.

    It is kept while the names are the same and it holds for another month; the authority is kept for as long as it
    holds, so that phones which trust it need not be asked again.

    Raises
    ------
    OSError
        if the folder cannot be written.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    files = _files(folder)
    authority, key = _authority(files.authority, folder / "authority.key", now)
    if not _holds(files, authority, names, now):
        _sign(files, authority, key, names, now)
    return files


def lying(folder: Path) -> Certificate | None:
    """The certificate that lies there; None if none was made."""
    files = _files(folder)
    return files if files.authority.exists() else None


def _files(folder: Path) -> Certificate:
    return Certificate(folder / "authority.crt", folder / "desk.crt", folder / "desk.key")


def _authority(file: Path, keyfile: Path, now: datetime) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    if file.exists() and keyfile.exists():
        kept = x509.load_pem_x509_certificate(file.read_bytes())
        key = serialization.load_pem_private_key(keyfile.read_bytes(), None)
        if kept.not_valid_after_utc - LASTS > now and isinstance(key, ec.EllipticCurvePrivateKey):
            return kept, key
    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"darby on this machine, made {now:%Y-%m-%d}")])
    allowed: list[x509.GeneralName] = [x509.IPAddress(ipaddress.IPv4Network(n)) for n in AT_HOME]
    allowed += [x509.DNSName(UNDER), x509.DNSName("localhost")]
    made = (
        _begun(called, called, key.public_key(), now, AUTHORITY_LASTS)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs=True), critical=True)
        .add_extension(x509.NameConstraints(permitted_subtrees=allowed, excluded_subtrees=None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    _keep(keyfile, _secret(key))
    _keep(file, made.public_bytes(serialization.Encoding.PEM))
    return made, key


def _sign(
    files: Certificate,
    authority: x509.Certificate,
    signing: ec.EllipticCurvePrivateKey,
    names: tuple[str, ...],
    now: datetime,
) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    called = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "darby desk")])
    made = (
        _begun(called, authority.subject, key.public_key(), now, LASTS)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName([_named(n) for n in names]), critical=False)
        .add_extension(x509.AuthorityKeyIdentifier.from_issuer_public_key(signing.public_key()), critical=False)
        .sign(signing, hashes.SHA256())
    )
    _keep(files.key, _secret(key))
    pem = serialization.Encoding.PEM
    _keep(files.chain, made.public_bytes(pem) + authority.public_bytes(pem))


def _holds(files: Certificate, authority: x509.Certificate, names: tuple[str, ...], now: datetime) -> bool:
    """Whether the certificate that lies there is this authority's, for these names, and runs for a while yet."""
    if not (files.chain.exists() and files.key.exists()):
        return False
    kept = x509.load_pem_x509_certificate(files.chain.read_bytes())
    said = kept.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    mine = kept.extensions.get_extension_for_class(x509.AuthorityKeyIdentifier).value
    by = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.public_key())  # type: ignore[arg-type]
    return mine == by and set(said) == {_named(n) for n in names} and kept.not_valid_after_utc - RENEW > now


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, lasts: timedelta
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - SKEW)
        .not_valid_after(now + lasts - SKEW)
    )


def _usage(*, signs: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs,
        key_cert_sign=signs,
        crl_sign=signs,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _named(name: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _secret(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def _keep(file: Path, content: bytes) -> None:
    """Write it whole and readable by its owner alone, or not at all."""
    new = file.with_suffix(f"{file.suffix}.new")
    new.unlink(missing_ok=True)
    handle = os.open(new, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(handle, "wb") as out:
        out.write(content)
        out.flush()
        os.fsync(out.fileno())
    new.replace(file)
