"""Where the plaster of a wall parts: its joints drawn and lettered, and what the crew sets there."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from darby.drawing import Joint as Drawn
from darby.papers.model import BeadRow, Both
from darby.words import Verbatim

if TYPE_CHECKING:
    from darby.joints import Joints
    from darby.joints.model import Joint
    from darby.papers.filled.writer import Writer
    from darby.words import Language

ITEMS = {"control": "control-joint", "expansion": "expansion-joint", "casing": "casing-bead"}
WAYS = {"vertical": "upright", "horizontal": "level"}


def _laid(writer: Writer, surface: str) -> Joints | None:
    laid: Joints | None = writer.answers.good("joints").get(surface)
    return laid


def _lettered(writer: Writer, surface: str) -> dict[str, tuple[str, Joint]]:
    """Joints that no edge of the wall is already, by id: (letter, joint)."""
    laid = _laid(writer, surface)
    own = [joint for joint in laid.chosen.joints if not joint.on_edge] if laid is not None else []
    return {joint.id: (_letter(n), joint) for n, joint in enumerate(own)}


def _letter(n: int) -> str:
    """A, B ... Z, then AA, AB ..."""
    more, one = divmod(n, 26)
    return (_letter(more - 1) if more else "") + chr(ord("A") + one)


def drawn_joints(writer: Writer, surface: str) -> Iterator[Drawn]:
    """Each piece of each joint; the letter stands over the highest piece of an upright one."""
    for letter, joint in _lettered(writer, surface).values():
        highest = max(joint.pieces, key=lambda piece: max(v for _, v in piece))
        for n, piece in enumerate(joint.pieces):
            over = letter if piece is highest and joint.axis == "vertical" else ""
            yield Drawn(f"{joint.id}-{n}" if n else joint.id, piece, over)


def joint_rows(writer: Writer, surface_id: str, ground: str) -> list[BeadRow]:
    """Which joint is set where. ``ground``: how deep its beads are, in words."""
    laid = _laid(writer, surface_id)
    lettered = _lettered(writer, surface_id)
    rows = []
    for run in laid.runs if laid is not None else ():
        if run.joint in lettered:
            letter, joint = lettered[run.joint]
            name = f"quantities.item.{ITEMS[run.kind]}"
            bead = writer.both(name)
            if run.beads > 1:
                two = [writer.say("paper.crew.two-beads", one, bead=Verbatim(writer.say(name, one)))
                       for one in writer.crew_languages]  # fmt: skip
                bead = Both(*two)
            rows.append(
                BeadRow(
                    edge=writer.both("paper.joint", letter=letter),
                    where=_where(writer, surface_id, joint),
                    bead=bead,
                    length=writer.feet(run.length * run.count),
                    ground=ground,
                )
            )
    return rows


def _where(writer: Writer, surface_id: str, joint: Joint) -> Both:
    outline = writer.answers.job.surface(surface_id).outline
    if joint.axis not in WAYS:
        return Both("")
    first = 0 if joint.axis == "vertical" else 1
    away = joint.start[first] - min((corner.u, corner.v)[first] for corner in outline)
    code = f"paper.joint.{WAYS[joint.axis]}"
    return Both(*(writer.say(code, one, at=Verbatim(writer.feet(away, one))) for one in writer.crew_languages))


def joint_called(writer: Writer, surface: str, name: str, language: Language) -> str:
    """A joint by its letter, an edge by its side; "" if that is no joint of the surface."""
    lettered = _lettered(writer, surface)
    if name in lettered:
        return writer.say("paper.joint", language, letter=lettered[name][0])
    laid = _laid(writer, surface)
    if laid is not None and any(joint.id == name for joint in laid.chosen.joints):
        return writer.say("paper.joint.base", language)
    return writer.place(f"{surface}/{name}", language).removeprefix(writer.place(surface, language)).lstrip(", ")
