"""What can be chosen on the sheet for a wall: its base with what is asked of it, its finish, how far it is out of true.

These are the words of the job file. No figure stands here: what follows from a choice is asked of the core.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from typing import Any, get_args

from darby.buildup.model import FINISHES
from darby.job.model import BLOCKS, JOINTS, SHEATHINGS, SUCTIONS, Brick

BRICKS: tuple[str, ...] = get_args(Brick)

UNSAID = ""
"""Nobody looked: the core takes something for granted and says so."""

PLANES = (UNSAID, "0 in", "1/8 in", "1/4 in", "3/8 in", "1/2 in", "5/8 in", "3/4 in")
"""How far a base is out of plane, as it can be read off a straightedge."""

FEW_PLANES = (UNSAID, "1/4 in", "1/2 in", "3/4 in")
"""The same for bases that are seldom plastered: the sheet has room for so many answers only."""

SPLASH = (UNSAID, *SUCTIONS)
FEW_SPLASH = (UNSAID, "low", "high")

TESTS: dict[str, dict[str, str]] = {
    UNSAID: {},
    "held and soaks in": {"scrape": "holds", "water": "soaks in", "tap": "sound", "pull": "held"},
    "held and beads": {"scrape": "holds", "water": "beads", "tap": "sound", "pull": "held"},
    "lets go": {"pull": "let go"},
    "hollow": {"tap": "hollow"},
}
"""How the tests of old plaster and paint came out, and what the job file then says of them."""

NOT_HOLLOW = tuple(word for word in TESTS if word != "hollow")
HUNG_ON = ("frame", "block")


@dataclass(frozen=True, slots=True)
class Kind:
    """A base: what is asked of it, as keys of the job file with their words; and how far it can be out of plane."""

    base: str
    asks: tuple[tuple[str, tuple[str, ...]], ...] = ()
    planes: tuple[str, ...] = PLANES

    @property
    def axes(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """Everything that is chosen on this base, in the order in which the tables run."""
        return (*self.asks, ("out_of_plane", self.planes), ("finish", FINISHES))

    def choices(self) -> Iterator[dict[str, str]]:
        """Every choice, the last axis running fastest: key of the job file to word."""
        names = [name for name, _ in self.axes]
        for words in product(*(values for _, values in self.axes)):
            yield {"base": self.base, **dict(zip(names, words, strict=True))}


KINDS: tuple[Kind, ...] = (
    Kind("block", (("block", BLOCKS), ("joints", JOINTS), ("suction", SPLASH))),
    Kind("concrete", (("suction", SPLASH),)),
    Kind("frame", (("sheathing", SHEATHINGS),)),
    Kind("lath over block"),
    Kind("painted block", (("joints", JOINTS), ("tests", NOT_HOLLOW)), FEW_PLANES),
    Kind("brick", (("brick", BRICKS), ("joints", JOINTS), ("suction", FEW_SPLASH)), FEW_PLANES),
    Kind("stone", (("suction", FEW_SPLASH),), FEW_PLANES),
    Kind("old plaster", (("behind", HUNG_ON), ("tests", tuple(TESTS))), FEW_PLANES),
    Kind("painted plaster", (("behind", HUNG_ON), ("tests", tuple(TESTS))), FEW_PLANES),
)

IN_COATS = ("finish", "suction", "choose")
"""What a job file says of a wall under [[coats.on]]; the rest stands with the wall."""


def entries(id: str, choice: dict[str, str], **more: Any) -> tuple[dict[str, Any], dict[str, Any]]:
    """A choice as a job file has it: its [[wall]] and its [[coats.on]]."""
    said: dict[str, Any] = {key: word for key, word in choice.items() if word != UNSAID}
    if "tests" in said:
        said["tests"] = TESTS[said["tests"]]
    wall = {"id": id, "length": "20'", "height": "9'"} | {k: w for k, w in said.items() if k not in IN_COATS} | more
    return wall, {"surface": id} | {k: w for k, w in said.items() if k in IN_COATS}
