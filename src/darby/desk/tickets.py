"""Links that sign one person in, once."""

from __future__ import annotations

import hashlib
import secrets
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from darby.desk.kept.models import Person, Ticket

STANDS = timedelta(days=1)


def ticket_for(person: Person) -> str:
    """A new secret for the link /in/<secret>; only its hash is kept."""
    secret = secrets.token_urlsafe(32)
    Ticket.objects.create(sha256=_hash(secret), person=person, until=timezone.now() + STANDS)
    return secret


def redeem(secret: str) -> Person | None:
    """Whose link it is, if it was not used and still stands; from now on it is used."""
    with transaction.atomic():
        found = Ticket.objects.filter(sha256=_hash(secret)).select_related("person").first()
        now = timezone.now()
        if found is None or found.used is not None or found.until < now or not found.person.is_active:
            return None
        found.used = now
        found.save(update_fields=["used"])
        return found.person


def _hash(secret: str) -> str:
    return hashlib.sha256(secret.encode()).hexdigest()
