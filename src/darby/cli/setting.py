"""How this run speaks: language, system of measures, and a console that respects NO_COLOR and narrow screens."""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass
from typing import TYPE_CHECKING

from darby.measure.units import System
from darby.words import LANGUAGES, Language, say, written

if TYPE_CHECKING:
    from rich.console import Console

WIDE = 110
"""Columns of what is not printed on a screen, unless COLUMNS says otherwise."""


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

    def write(self, value: object) -> str:
        """A value with its unit in this language and system."""
        return written(value, self.language, self.system)


def console(*, err: bool = False) -> Console:
    """Where things are printed. Colour is never the only sign, so plain text loses nothing."""
    from rich.console import Console

    file = sys.stderr if err else sys.stdout
    fixed = None if file.isatty() or os.environ.get("COLUMNS", "").isdigit() else WIDE
    return Console(file=file, highlight=False, markup=False, emoji=False, soft_wrap=False, width=fixed)
