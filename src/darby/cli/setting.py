"""How this run speaks: language, system of measures, and a console that respects NO_COLOR and narrow screens."""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass

from rich.console import Console

from darby.measure.units import System
from darby.words import LANGUAGES, Language, say


def spoken() -> Language:
    """The language asked for by DARBY_LANGUAGE, else by the system, else English."""
    for name in ("DARBY_LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        asked = os.environ.get(name, "")[:2].lower()
        if asked in LANGUAGES:
            return asked
    return "en"


@dataclass(frozen=True, slots=True)
class Setting:
    """Language and system of one run."""

    language: Language
    system: System

    def say(self, code: str, **values: object) -> str:
        """A sentence of the catalogue in this language and system."""
        return say(code, values, self.language, self.system)


def console(*, err: bool = False) -> Console:
    """Where things are printed. Colour is never the only sign, so plain text loses nothing."""
    file = sys.stderr if err else sys.stdout
    return Console(file=file, highlight=False, soft_wrap=False, width=None if file.isatty() else 110)
