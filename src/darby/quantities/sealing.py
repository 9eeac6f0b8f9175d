"""Sealant and backer rod: from joint width x depth x length."""

from __future__ import annotations

from collections.abc import Iterable

from quicktions import Fraction

from darby.measure.surface import Length
from darby.measure.units import unit
from darby.quantities.lath import AT, Need
from darby.quantities.lines import total
from darby.quantities.model import EdgeRun, Part, SealedJoint
from darby.rulebook import Book, Figure
from darby.working import Quantity, Working


def sealant_depth(working: Working, book: Book, key: str, width: Quantity | Figure) -> Quantity:
    """Depth of the seal [m]: half the width, within the least and the most the book gives."""
    return working.step(
        key,
        "min(max(width / ratio, least), most)",
        "in",
        "quantities.sealant-depth",
        width=width,
        ratio=book.number("sealant.width-to-depth"),
        least=book.number("sealant.depth.least"),
        most=book.number("sealant.depth.most"),
    )


def sealing_needs(
    working: Working,
    book: Book,
    parted: Iterable[EdgeRun],
    joints: Iterable[SealedJoint],
    cut: Quantity | Figure,
) -> list[Need]:
    """Sealant [m3] and backer rod [m] for the joints that casing beads leave and those that were named besides.

    Joints of one width and depth are one step; the width not given is the book's least round an opening.
    """
    usual = book.number("parting.width")
    by_size: dict[tuple[Fraction | None, Fraction | None], Length] = {}
    for run in parted:
        size: tuple[Fraction | None, Fraction | None] = (run.joint_width, None)
        by_size[size] = by_size.get(size, Fraction(0)) + run.length * run.count
    for joint in joints:
        size = (joint.width, joint.depth)
        by_size[size] = by_size.get(size, Fraction(0)) + joint.length
    sealed, rods = [], []
    for n, (size, length) in enumerate(sorted(by_size.items(), key=_by_size), start=1):
        key = f"{AT}/sealant/{n}"
        width: Quantity | Figure = usual if size[0] is None else Quantity(size[0], unit("in"))
        if size[0] is None:
            working.note("quantities.assumed.joint-width", "assumed", "job", rules=(usual.id,), width=usual)
        depth = (
            sealant_depth(working, book, f"{key}/depth", width) if size[1] is None else Quantity(size[1], unit("in"))
        )
        run_length = Quantity(length, unit("ft"))
        sealed.append(
            working.step(
                f"{key}/volume",
                "length * width * depth",
                "cu in",
                "quantities.sealant",
                length=run_length,
                width=width,
                depth=depth,
            )
        )
        rods.append(run_length)
    if not sealed:
        return []
    volume = total(working, f"{AT}/sealant/net", "quantities.sealant", "cu in", sealed)
    over = working.step(f"{AT}/sealant/cutting", "volume * cut", "cu in", "quantities.cutting", volume=volume, cut=cut)
    needed = working.step(
        f"{AT}/sealant/needed", "volume + cutting", "cu in", "quantities.needed", volume=volume, cutting=over
    )
    return [
        Need("sealant", needed, (Part("quantities.sealant", volume), Part("quantities.cutting", over))),
        length_need(working, "backer rod", "quantities.rod", rods, cut),
    ]


def length_need(working: Working, item: str, says: str, lengths: list[Quantity], cut: Quantity | Figure) -> Need:
    """A thing bought by length [m]: the runs, and the cutting allowance on a line of its own."""
    key = f"{AT}/{item.replace(' ', '-')}"
    net = total(working, f"{key}/length", says, "ft", lengths)
    cutting = working.step(f"{key}/cutting", "length * cut", "ft", "quantities.cutting", length=net, cut=cut)
    needed = working.step(f"{key}/needed", "length + cutting", "ft", "quantities.needed", length=net, cutting=cutting)
    return Need(item, needed, (Part(says, net), Part("quantities.cutting", cutting)))


def _by_size(entry: tuple[tuple[Fraction | None, Fraction | None], Length]) -> tuple[Fraction, Fraction]:
    (width, depth), _ = entry
    return (Fraction(-1) if width is None else width, Fraction(-1) if depth is None else depth)
