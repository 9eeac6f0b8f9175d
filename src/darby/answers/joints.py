"""Stage "joints": where the plaster of each surface is allowed to part."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.coats import SOFFIT_TILT, SurfaceCoats
from darby.answers.stage import Answers, Stage
from darby.answers.wall import Wall
from darby.job.joints import GapWanted, JointsWanted
from darby.joints import lay_out_joints
from darby.joints.model import Axis, Forbidden, Ground, Joints, JointsAsk, Limits, Pin, PinWhy, Sealing

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book

NOUGHT = Fraction(0)


def wanted_on(job: Job, surface: str) -> JointsWanted:
    """What was said about joints on a surface: by its own id, else by its house's; of its gaps, else for every one."""
    own = [j for j in job.joints if j.surface == surface]
    house = [j for j in job.joints if j.surface and j.surface != surface and surface.startswith(f"{j.surface}-")]
    every = [j for j in job.joints if not j.surface]
    lines = next(iter((*own, *house)), JointsWanted(surface))
    gap = next((j.gap for j in (*own, *house, *every) if j.gap is not None), None)
    return replace(lines, gap=gap)


def _sealing(gap: GapWanted | None) -> Sealing:
    if gap is None:
        return Sealing()
    hot, cold, installed, swing = (
        None if x is None else float(x) for x in (gap.hot, gap.cold, gap.installed, gap.swing)
    )
    return Sealing(
        hot, cold, installed, swing, gap.sealant or Sealing().sealant, gap.tolerance or NOUGHT, gap.moisture or NOUGHT,
        gap.shrinkage,
    )  # fmt: skip


def _pinned(wanted: JointsWanted) -> tuple[Pin, ...]:
    """Joints that have to be: he wants them, or the wall behind has them."""
    lines: tuple[tuple[Axis, PinWhy, tuple[Fraction, ...]], ...] = (
        ("vertical", "pinned", wanted.upright), ("horizontal", "pinned", wanted.level),
        ("vertical", "framing", wanted.framing), ("horizontal", "framing", wanted.framing_level),
        ("vertical", "through-wall", wanted.through), ("horizontal", "through-wall", wanted.through_level),
    )  # fmt: skip
    return tuple(Pin(axis, at, why) for axis, why, places in lines for at in places)


def _ask(job: Job, book: Book, answers: Answers, at: str) -> JointsAsk:
    surface, wanted = job.surface(at), wanted_on(job, at)
    wall: Wall = answers.of("wall", at)
    coats: SurfaceCoats = answers.of("coats", at)
    return JointsAsk(
        book=book,
        surface=surface,
        grounds=tuple(
            Ground(z.zone, job.base(at, z.zone).kind, coats.of(z.zone).chosen.lath is not None) for z in wall.zones
        ),
        position="horizontal" if surface.tilt > SOFFIT_TILT else "curved" if wanted.curved else "vertical",
        block_joints=wanted.block,
        floor_lines=wanted.floors,
        pinned=_pinned(wanted),
        forbidden=(
            *(Forbidden("vertical", *span) for span in wanted.not_upright),
            *(Forbidden("horizontal", *span) for span in wanted.not_level),
        ),
        limits=Limits(wanted.area, wanted.side, wanted.ratio),
        sealing=_sealing(wanted.gap),
        choose=wanted.choose,
    )


STAGE: Stage[JointsAsk, Joints] = Stage("joints", ("wall", "coats"), "surface", "now", _ask, lay_out_joints)
