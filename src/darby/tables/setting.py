"""How a reader is spoken to: language and system of measures."""

from __future__ import annotations

from dataclasses import dataclass

from darby.measure.units import System
from darby.words import Language, say, written


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
