"""The left and right ends of a wall: what they are, and with which wall they share a corner."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal, get_args

from darby.job import allowed as ok
from darby.job.fields import AsTable, AsText, Document, Measured, OrTable, key, must
from darby.job.part import Part
from darby.job.places import Loc
from darby.measure.surface import Length, Meets

EndKind = Literal["outside corner", "inside corner", "meets old work", "change of base"]
Corner = Literal["outside corner", "inside corner"]
CORNERS: tuple[str, ...] = get_args(Corner)
END_KINDS: tuple[str, ...] = get_args(EndKind)


class EndDocument(Document):
    """The left or right end of a wall, seen from outside."""

    kind: EndKind = must("What the end is.")
    with_: str = key("The wall that has the other side of this corner.", alias="with")
    up_to: Measured = key("It is so from the base up to here; left out, to the top.")
    above: Corner = key("What it is above that; an outside corner unless you say.")
    what: Literal["old plaster", "trim", "roof", "other base"] = key(
        "What old work it meets; old plaster unless you say."
    )
    thickness: Measured = key("Thickness of the old plaster.")
    proud: Measured = key("How far the old face stands out past your bare base.")


EndEntry = Annotated[AsText | AsTable[EndDocument], OrTable]


@dataclass(slots=True)
class End:
    """One end as it was written. ``readable`` is False where its kind could not be read: it is then not judged."""

    loc: Loc
    kind: EndKind = "outside corner"
    other: str | None = None
    up_to: Length | None = None
    above: Corner = "outside corner"
    meets: Meets | None = None
    readable: bool = True


def read_end(part: Part, side: str, surface: str) -> End | None:
    """The end of a wall under ``side`` ("left", "right"); None if it is not said."""
    loc = (*part.loc, side)
    if not part.has(side):
        return End(loc, readable=False) if part.said(side) else None
    inner = part.part(side)
    if inner is None:
        kind = part.text(side)
        if kind not in END_KINDS:
            part.unknown(side, "job.not-one-of", kind, END_KINDS)
            return End(loc, readable=False)
        end = End(loc, kind)  # type: ignore[arg-type]
    else:
        kind = inner.word("kind")
        end = _from_table(inner, loc, kind or "outside corner", readable=kind is not None)
        if inner.has("up_to") and not inner.said("above"):
            inner.assume("job.assumed-above", f"{surface}/{side}")
    if end.kind == "meets old work" and end.readable:
        end.meets = end.meets or Meets("old plaster")
        if end.meets.proud is None and end.meets.what == "old plaster":
            part.assume("job.assumed-proud", f"{surface}/{side}")
    return end


def _from_table(inner: Part, loc: Loc, kind: EndKind, *, readable: bool) -> End:
    old = kind == "meets old work"
    for name in ("what", "thickness", "proud"):
        if inner.has(name) and not old and readable:
            inner.fault(name, "job.not-here", inner.raw[name], 'kind = "meets old work"')
    if inner.has("with") and kind not in CORNERS and readable:
        inner.fault("with", "job.not-here", inner.raw["with"], 'kind = "outside corner" or kind = "inside corner"')
    if inner.has("above") and not inner.has("up_to"):
        inner.fault("above", "job.not-here", inner.raw["above"], ok.WITH_UP_TO)
    thickness, proud = inner.length("thickness", positive=True), inner.length("proud")
    up_to = inner.length("up_to", positive=True)
    meets = Meets(inner.word("what") or "old plaster", thickness, proud) if old else None
    other = inner.text("with", must=True) if inner.has("with") else None
    return End(loc, kind, other or None, up_to, inner.word("above") or "outside corner", meets, readable)
