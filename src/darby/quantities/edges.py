"""Edges to accessories. Every run lands in exactly one line, an accessory's or a "none, because": nothing is lost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from quicktions import Fraction

from darby.quantities.items import called_in_a_note
from darby.quantities.model import EdgeLine, EdgeRun
from darby.rulebook import Book
from darby.working import Working

Choice = tuple[str | None, str, str | None]
"""Accessory or None, code of the reason, subject of the figure that says so (None = the trade's custom)."""

COVERS = frozenset({"threshold", "soffit", "frieze", "flashing", "trim", "cap", "frame"})
"""What may lie over an edge so that it needs no accessory, and has a sentence of its own."""

_MASONRY = frozenset({"block", "concrete", "lath over block"})

_BY_KIND: Mapping[str, Choice] = {
    "outside corner": ("corner bead", "outside-corner", "parting.corner-bead"),
    "soffit": (None, "soffit-covers", None),
    "top": (None, "top-covered", None),
    "drip": ("drip screed", "drip", None),
    "flashing": (None, "covered-by-flashing", None),
    "change of base": ("casing bead", "base-from-base", "parting.unlike"),
    "meets old work": ("casing bead", "new-from-old", "parting.old"),
    "control joint": ("control joint", "control-joint", None),
    "expansion joint": ("expansion joint", "expansion-joint", "joint.two-piece"),
}


def edge_lines(working: Working, book: Book, runs: Iterable[EdgeRun]) -> tuple[EdgeLine, ...]:
    """Every run in one line; runs of one accessory and one reason stand together. Lengths are exact.

    A corner line that two surfaces share is one corner: the surface on which it is longer takes the bead (the first
    by name where they are alike), the other's runs land in "none, because counted with the other".
    """
    ordered = sorted(runs, key=lambda r: (r.surface, r.id))
    counts = _counted_on(ordered)
    lines: dict[tuple[str | None, str], tuple[list[EdgeRun], str | None]] = {}
    for run in ordered:
        choice = accessory_for(run)
        if run.bare:
            choice = None, "bare", None
        elif run.elsewhere or counts.get(run.shared or "", run.surface) != run.surface:
            choice = None, "counted-with-other", None
        _say(working, run, choice)
        lines.setdefault(choice[:2], ([], choice[2]))[0].append(run)
    return tuple(
        EdgeLine(
            item,
            f"quantities.because.{because}",
            sum((_long(r) for r in taken), Fraction(0)),
            sum((bead_length(r) for r in taken if item is not None), Fraction(0)),
            tuple(r.id for r in taken),
            (book.rule(subject).figure.id,) if subject is not None else (),
        )
        for (item, because), (taken, subject) in sorted(lines.items(), key=_in_order)
    )


def accessory_for(run: EdgeRun) -> Choice:
    """Which accessory a run takes, and why: what someone chose, what covers it, then what the edge is."""
    if run.accessory is not None:
        return (None if run.accessory == "none" else run.accessory), "chosen", None
    if run.covered_by is not None:
        return None, f"covered-by-{run.covered_by}" if run.covered_by in COVERS else "covered", None
    plain = _BY_KIND.get(run.kind)
    if plain is not None:
        return plain
    match run.kind:
        case "inside corner":
            return _inside(run)
        case "base" | "grade":
            return _foot(run)
        case "roof line":
            return (None, "roof-covers", None) if run.where == "top" else ("casing bead", "above-roof", None)
        case "sill" | "head" | "jamb" if run.plastered_reveal:
            return "corner bead", "plastered-reveal", "parting.corner-bead"
        case "sill" | "head" | "jamb":
            return "casing bead", "opening", "parting.width"
        case "floor line" if run.lathed:
            return "expansion joint", "floor-line", "joint.two-piece"
        case "floor line":
            return None, "floor-line-solid", None
    return None, "unknown-edge", None


def bead_length(run: EdgeRun) -> Fraction:
    """Length of accessory a run takes if it takes one [m]: two beads stand back to back where base meets base."""
    twice = run.kind == "change of base" and run.accessory is None
    beads = run.beads if run.beads is not None else 2 if twice else 1
    return _long(run) * beads


def parted(line: EdgeLine) -> bool:
    """Whether the casing beads of this line leave a joint that is sealed: at frames, old work and another base."""
    reasons = ("opening", "new-from-old", "base-from-base")
    return line.item == "casing bead" and line.because.rpartition(".")[2] in reasons


def _inside(run: EdgeRun) -> Choice:
    if run.other_base is not None and (run.other_base == "frame") != (run.base == "frame"):
        return "casing bead", "base-from-base", "parting.unlike"
    if run.lathed:
        return "corner lath", "inside-corner-lath", "lath.corner"
    return None, "inside-corner-solid", None


def _foot(run: EdgeRun) -> Choice:
    if run.base in _MASONRY:
        return "casing bead", "foot-of-masonry", "prep.weep.masonry"
    return "weep screed", "foot-of-frame", "weep.where"


def _counted_on(runs: Iterable[EdgeRun]) -> Mapping[str, str]:
    """Shared line to the surface that counts it. Runs that say themselves who counts them take no part."""
    along: dict[str, dict[str, Fraction]] = {}
    for run in runs:
        if run.shared is not None and not run.elsewhere and not run.bare:
            on = along.setdefault(run.shared, {})
            on[run.surface] = on.get(run.surface, Fraction(0)) + _long(run)
    return {line: max(on, key=lambda name: on[name]) for line, on in along.items()}


def _in_order(line: tuple[tuple[str | None, str], object]) -> tuple[bool, str, str]:
    (item, because), _ = line
    return item is None, item or "", because


def _long(run: EdgeRun) -> Fraction:
    return run.length * run.count


def _say(working: Working, run: EdgeRun, choice: Choice) -> None:
    """Notes where someone's choice or darby's own assumption decided."""
    at = f"{run.surface}/{run.id}"
    if choice[1] == "chosen":
        working.note(
            "quantities.edge-chosen",
            "fact",
            at,
            edge=run.id,
            item=called_in_a_note(run.accessory or ""),
            why=run.why or "-",
        )
    elif choice[1] == "top-covered":
        working.note("quantities.assumed.top-covered", "assumed", at, edge=run.id)
    elif choice[1] == "unknown-edge":
        working.note("quantities.unknown-edge", "caution", at, edge=run.id, kind=run.kind)
