"""Where the plaster of a wall parts: its joints drawn and lettered, and what the crew sets there."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.drawing import Joint as Drawn
from darby.papers.model import BeadRow, Both
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.joints import Joints
    from darby.joints.model import Joint, Run
    from darby.papers.filled.writer import Writer
    from darby.words import Language

ITEMS = {"control": "control-joint", "expansion": "expansion-joint", "casing": "casing-bead"}
WAYS = {"vertical": "upright", "horizontal": "level"}
EIGHTHS = 8
"""A joint is marked to an eighth of an inch."""


def _laid(writer: Writer, surface: str) -> Joints | None:
    laid: Joints | None = writer.answers.answered("joints", surface)
    return laid


def _lettered(writer: Writer, surface: str) -> dict[str, tuple[str, Joint]]:
    """Joints that no edge of the wall is already, by id: (letter, joint)."""
    laid = _laid(writer, surface)
    own = [joint for joint in laid.chosen.joints if not joint.on_edge] if laid is not None else []
    return {joint.id: (letter_of(n), joint) for n, joint in enumerate(own)}


def letter_of(n: int) -> str:
    """A, B ... Z, then AA, AB ..."""
    more, one = divmod(n, 26)
    return (letter_of(more - 1) if more else "") + chr(ord("A") + one)


def drawn_joints(writer: Writer, surface: str) -> Iterator[Drawn]:
    """Each piece of each joint; the letter stands over the highest piece of an upright one."""
    for letter, joint in _lettered(writer, surface).values():
        highest = max(joint.pieces, key=lambda piece: max(v for _, v in piece))
        for n, piece in enumerate(joint.pieces):
            over = letter if piece is highest and joint.axis == "vertical" else ""
            yield Drawn(f"{joint.id}-{n}" if n else joint.id, piece, over)


def joint_rows(writer: Writer, surface_id: str, ground: str) -> list[BeadRow]:
    """Which joints are set where, those of one kind and one way together. ``ground``: how deep their beads are."""
    laid = _laid(writer, surface_id)
    lettered = _lettered(writer, surface_id)
    alike: dict[tuple[str, int, str], list[Run]] = defaultdict(list)
    for run in laid.runs if laid is not None else ():
        if run.joint in lettered:
            alike[(run.kind, run.beads, lettered[run.joint][1].axis)].append(run)
    return [_row(writer, surface_id, lettered, runs, ground) for runs in alike.values()]


def _row(
    writer: Writer, surface_id: str, lettered: Mapping[str, tuple[str, Joint]], runs: Sequence[Run], ground: str
) -> BeadRow:
    names = list(dict.fromkeys(run.joint for run in runs))
    letters = Verbatim(", ".join(lettered[name][0] for name in names))
    name = f"quantities.item.{ITEMS[runs[0].kind]}"
    bead = writer.both(name)
    if runs[0].beads > 1:
        two = [writer.say("paper.crew.two-beads", one, bead=Verbatim(writer.say(name, one)))
               for one in writer.crew_languages]  # fmt: skip
        bead = Both(*two)
    return BeadRow(
        edge=writer.both("paper.joint" if len(names) == 1 else "paper.joints", letter=letters),
        where=_where(writer, surface_id, [lettered[name][1] for name in names]),
        bead=bead,
        length=writer.feet(sum((run.length * run.count for run in runs), Fraction(0))),
        ground=ground,
    )


def _where(writer: Writer, surface_id: str, joints: Sequence[Joint]) -> Both:
    outline = writer.answers.job.surface(surface_id).outline
    axis = joints[0].axis
    if axis not in WAYS:
        return Both("")
    first = 0 if axis == "vertical" else 1
    start = min((corner.u, corner.v)[first] for corner in outline)
    said = []
    for one in writer.crew_languages:
        away = [writer.feet(joint.start[first] - start, one, EIGHTHS) for joint in joints]
        said.append(writer.say(f"paper.joint.{WAYS[axis]}", one, at=Verbatim(", ".join(dict.fromkeys(away)))))
    return Both(*said)


def joint_called(writer: Writer, surface: str, name: str, language: Language) -> str:
    """A joint by its letter, an edge by its side; "" if that is no joint of the surface."""
    lettered = _lettered(writer, surface)
    if name in lettered:
        return writer.say("paper.joint", language, letter=lettered[name][0])
    laid = _laid(writer, surface)
    if laid is not None and any(joint.id == name for joint in laid.chosen.joints):
        return writer.say("paper.joint.base", language)
    return writer.place(f"{surface}/{name}", language).removeprefix(writer.place(surface, language)).lstrip(", ")
