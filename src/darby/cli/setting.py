"""How this run speaks: language, system of measures, and a console that respects NO_COLOR and narrow screens."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

from darby.tables.setting import Setting
from darby.words import LANGUAGES, Language

if TYPE_CHECKING:
    from rich.console import Console

__all__ = ["Setting", "console", "spoken"]

WIDE = 110
"""Columns of what is not printed on a screen, unless COLUMNS says otherwise."""


def spoken() -> Language:
    """The language asked for by DARBY_LANGUAGE, else by the system, else English."""
    for name in ("DARBY_LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        asked = os.environ.get(name, "")[:2].lower()
        if asked in LANGUAGES:
            return asked
    return "en"


def console(*, err: bool = False) -> Console:
    """Where things are printed. Colour is never the only sign, so plain text loses nothing."""
    from rich.console import Console

    file = sys.stderr if err else sys.stdout
    fixed = None if file.isatty() or os.environ.get("COLUMNS", "").isdigit() else WIDE
    return Console(file=file, highlight=False, markup=False, emoji=False, soft_wrap=False, width=fixed)
