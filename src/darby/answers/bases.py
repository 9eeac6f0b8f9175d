"""How the rooms that order and hang things see a base: framing, block, concrete, or lath on masonry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.buildup.model import LATHED, OLD

if TYPE_CHECKING:
    from darby.job.model import Base

KNOWN = ("block", "concrete", *LATHED)
"""Bases that those rooms know by their own name."""


def as_hung(base: Base, *, lathed: bool) -> str:
    """The base as lath, fasteners and beads find it.

    Brick, stone, paint and old plaster are masonry to them; but lath over old plaster on a frame is fastened to its
    studs, and gets paper and a weep screed as on any frame.
    """
    if base.kind in KNOWN:
        return base.kind
    return "frame" if lathed and base.kind in OLD and base.behind == "frame" else "block"
