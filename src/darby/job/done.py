"""What is on the wall already, as it was written down: a coat, a place, a date."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

DoneWork = Literal["paper-and-lath", "beads", "dash-bond", "scratch", "brown", "base", "finish"]


@dataclass(frozen=True, slots=True)
class Done:
    """A coat (or lath, or beads) that was finished ``on`` a day; ``zone`` None = all of the surface that takes it."""

    surface: str
    zone: str | None
    coat: DoneWork
    on: date
