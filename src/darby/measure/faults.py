"""What a person wrote wrongly: always a value that can be listed, never a traceback."""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong: ``code`` of its sentence in words/, where it stands, what was found, what is allowed.

    ``nearest`` is the allowed word or value closest to what was found, if there is one.
    """

    code: str
    place: str
    found: str
    allowed: str
    nearest: str = ""

    def at(self, place: str) -> Fault:
        """The same fault, seen from a place further out (``surface "bay south", opening 3``)."""
        return replace(self, place=f"{place}, {self.place}" if self.place else place)


class Unreadable(ValueError):
    """A piece of text that is not a length, area, opening ... Carries its Fault."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(f"{fault.code}: found {fault.found!r}, allowed {fault.allowed}")
        self.fault = fault
