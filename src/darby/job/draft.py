"""A job while it is being read: what the sections have found so far, and the names later ones may refer to."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from darby.job.firm import ITEMS, Firm
from darby.job.model import REST
from darby.job.part import Part, Reading
from darby.measure.surface import Surface
from darby.rulebook.model import Figure

if TYPE_CHECKING:
    from darby.job.sections.plans import Plan


class Draft:
    """Fields of the Job to be, and every id that was written, whether or not its entry could be read."""

    def __init__(
        self, reading: Reading, *, has_firm: bool, firm_readable: bool, folder: str | Path | None = None
    ) -> None:
        self.reading = reading
        self.folder = folder
        """Where the document's other files are looked for; None = nowhere."""
        self.has_firm = has_firm
        self.firm_readable = firm_readable
        self.fields: dict[str, Any] = {}
        self.bags: tuple[str, ...] = ()
        """Ids of the firm's bagged materials, readable or not."""
        self.ids: set[str] = set()
        """Ids of walls and houses so far."""
        self.walls: list[Plan] = []
        self.houses: dict[str, list[str]] = {}
        """Id of each house -> ids of its walls."""
        self.zones: dict[str, list[str]] = {}
        """Id of each surface written down -> the ids of its zones."""

        self.later: list[Callable[[Sequence[Surface]], None]] = []
        """What is looked at when the surfaces are built."""

    def when_built(self, look: Callable[[Sequence[Surface]], None]) -> None:
        """Look at something once the surfaces stand: whether readings lie on their wall."""
        self.later.append(look)

    def put(self, **fields: Any) -> None:
        """Keep fields of the Job."""
        self.fields.update(fields)

    @property
    def firm(self) -> Firm:
        """The firm, or nobody."""
        return self.fields.get("firm") or Firm()

    def items(self) -> Sequence[str] | None:
        """What may be ordered: darby's items and the firm's bagged materials; None if the firm cannot be read."""
        if not self.firm_readable:
            return None
        return (*ITEMS, *self.bags)

    def surface_named(self, part: Part, key: str, *, houses: bool = False) -> str | None:
        """The surface (or house, where that will do) that ``key`` names; one that does not exist is a fault."""
        if not part.has(key):
            return None
        name = part.text(key, must=True)
        there = (*self.zones, *(self.houses if houses else ()))
        if name and name not in there:
            part.unknown(key, "job.no-such-surface", name, there)
            return None
        return name or None

    def zones_of(self, surface: str | None) -> list[str] | None:
        """The zones of a surface; None if it is not known."""
        if surface in self.houses:
            return [REST]
        return self.zones.get(surface) if surface else None

    def firm_rules(self) -> tuple[Figure, ...]:
        """The firm's local rules."""
        return self.firm.rules
