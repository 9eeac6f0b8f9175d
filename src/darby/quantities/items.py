"""What the order calls things by: the same words that a firm buys them by."""

from __future__ import annotations

ITEMS = frozenset(
    {
        "portland",
        "masonry cement",
        "plastic cement",
        "lime",
        "sand",
        "water",
        "lath",
        "paper",
        "corner bead",
        "casing bead",
        "weep screed",
        "drip screed",
        "control joint",
        "expansion joint",
        "corner lath",
        "lath fasteners",
        "masonry lath fasteners",
        "bonding agent",
        "sealant",
        "backer rod",
        "primer",
        "paint",
        "coating",
        "cover film",
        "masking tape",
        "none",
    }
)
"""Items that have a sentence of their own in words/; any other is called by its own name."""


def sentence_of(item: str) -> str:
    """Code of the sentence that names an item."""
    return f"quantities.item.{item.replace(' ', '-')}" if item in ITEMS else "quantities.item.other"


def called_in_a_note(item: str) -> str:
    """What a note calls an item: the code of its name, or the name itself where it has none."""
    return sentence_of(item) if item in ITEMS else item
