"""Stage "joints": where the plaster of each surface is allowed to part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.coats import SOFFIT_TILT, SurfaceCoats
from darby.answers.stage import Answers, Stage
from darby.answers.wall import Wall
from darby.job.joints import JointsWanted
from darby.joints import lay_out_joints
from darby.joints.model import Forbidden, Ground, Joints, JointsAsk, Pin

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book


def wanted_on(job: Job, surface: str) -> JointsWanted:
    """What was said about joints on a surface: by its own id, else by its house's."""
    own = next((j for j in job.joints if j.surface == surface), None)
    house = next((j for j in job.joints if surface.startswith(f"{j.surface}-")), None)
    return own or house or JointsWanted(surface)


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
        position="horizontal" if surface.tilt > SOFFIT_TILT else "vertical",
        block_joints=wanted.block,
        floor_lines=wanted.floors,
        pinned=(*(Pin("vertical", u) for u in wanted.upright), *(Pin("horizontal", v) for v in wanted.level)),
        forbidden=(
            *(Forbidden("vertical", u) for u in wanted.not_upright),
            *(Forbidden("horizontal", v) for v in wanted.not_level),
        ),
        choose=wanted.choose,
    )


STAGE: Stage[JointsAsk, Joints] = Stage("joints", ("wall", "coats"), "surface", "now", _ask, lay_out_joints)
