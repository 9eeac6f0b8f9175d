"""Fasteners: on framing counted support by support, on masonry by the wall that one of them may hold."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from darby.lath.face import Face
from darby.lath.model import Joint, LathAsk
from darby.measure.limits import whole
from darby.measure.surface import Length
from darby.measure.units import unit
from darby.measure.writing import write
from darby.rulebook import Figure
from darby.working import Quantity, Working


def supports(face: Face, studs: tuple[Length, Length], least: Length) -> tuple[Length, ...]:
    """Where framing stands: the studs, and the posts at the ends and beside the openings that no stud is near to.

    Within half the least strip of a stud a post is that stud's.
    """
    first, apart = studs
    left, right, _, _ = face.box
    u = first + -((first - left) // apart) * apart
    found = []
    while u <= right:
        found.append(u)
        u += apart
    posts = [x for x in face.jumps() if all(abs(x - s) >= least / 2 for s in found)]
    return tuple(sorted({*found, *posts}))


def on_framing(working: Working, ask: LathAsk, face: Face, places: Sequence[Length], along: Figure) -> Quantity:
    """Fasteners along every support, both ends of every run of lath included."""
    lengths: Counter[Length] = Counter()
    for u in places:
        for low, high in face.spans_at(u):
            stops = [low, *_cuts(ask.joints, u, low, high), high]
            for bottom, top in pairwise(stops):
                lengths[top - bottom] += 1
    proof = []
    counts = []
    for length, times in sorted(lengths.items(), reverse=True):
        each = whole(float(length) / along.number) + 1
        counts.append(each * times)
        proof.append(f"{times} × (⌈{write(length, 'ft-in')} / {write(along.number, 'in')}⌉ + 1) = {each * times}")
    total = sum(counts)
    if len(counts) > 1:
        proof.append(f"{' + '.join(str(n) for n in counts)} = {total}")
    return working.found(
        f"{ask.at}/lath/fasteners",
        total,
        "pieces",
        "lath.fasteners",
        method="lath.method.support-by-support",
        proof=tuple(proof),
        rules=(along.id,),
    )


def _cuts(joints: Sequence[Joint], u: Length, low: Length, high: Length) -> list[Length]:
    """Level joints that cut the lath on the line at ``u``."""
    level = [(j.start[1], *sorted((j.start[0], j.end[0]))) for j in joints if j.start[1] == j.end[1]]
    return sorted({v for v, left, right in level if left <= u <= right and low < v < high})


def by_area(working: Working, ask: LathAsk, area: Quantity, studs: Length | None, along: Figure) -> Quantity:
    """The rule beside it: wall over stud spacing times spacing along the stud; on masonry over what one may hold."""
    key = f"{ask.at}/lath/fasteners-by-area"
    if studs is None:
        return working.step(key, "ceil(area / each)", "pieces", "lath.fasteners-masonry", area=area, each=along)
    return working.step(
        key,
        "ceil(area / (studs * along))",
        "pieces",
        "lath.fasteners-by-area",
        area=area,
        studs=Quantity(studs, unit("in")),
        along=along,
    )
