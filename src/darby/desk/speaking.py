"""In which language and measures a request is answered."""

from __future__ import annotations

from typing import Any, cast

from django.http import HttpRequest

from darby.desk.kept.models import Person
from darby.measure.units import System
from darby.tables.setting import Setting
from darby.words import LANGUAGES, Language


def setting_of(request: HttpRequest) -> Setting:
    """A person's own language and measures; a stranger's as his browser asks."""
    if request.user.is_authenticated:
        person = request.user
        return Setting(cast(Language, person.language), cast(System, person.system))
    for part in request.headers.get("Accept-Language", "").split(","):
        for language in LANGUAGES:
            if part.strip().lower().startswith(language):
                return Setting(language, "us")
    return Setting("en", "us")


def said_in(request: HttpRequest) -> Setting:
    """The setting of this request; of one that never came to the doors, its own."""
    found = getattr(request, "setting", None)
    if isinstance(found, Setting):
        return found
    return setting_of(request) if hasattr(request, "user") else Setting("en", "us")


def spoken(request: HttpRequest) -> dict[str, Any]:
    """For every template: the setting, and who reads."""
    user = getattr(request, "user", None)
    signed_in = user is not None and user.is_authenticated
    return {
        "setting": said_in(request),
        "person": user if signed_in else None,
        "evening": bool(signed_in and cast(Person, user).evening),
    }
