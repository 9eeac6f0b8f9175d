"""Stage "paint": hours and trips of painting, where painting is wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from darby.answers.match import old_sides
from darby.answers.stage import Answers, Stage, Waiting
from darby.days.paint import Paint, PaintAsk, paint
from darby.measure.units import unit
from darby.working import Quantity

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook import Book

NO_PACE = Quantity(1)
SQ_FT = unit("sq ft")


def _ask(job: Job, book: Book, answers: Answers, at: str) -> PaintAsk | Waiting:  # noqa: ARG001 -- of the whole job
    places = tuple(
        (f"{name}/{area.zone}", area.area)
        for name, volumes in answers.good("volumes").items()
        for area in volumes.areas
        if area.paint
    )
    sides = [(at, Quantity(area, SQ_FT), painted) for at, area, painted in old_sides(job)]
    places += tuple((at, area) for at, area, painted in sides if not painted)
    again = tuple((at, area) for at, area, painted in sides if painted)
    pace, day = job.firm.pace_of("paint"), job.firm.labor.day
    if (places or again) and pace is None:
        return Waiting(lacks=("answers.lacks.pace-paint",))
    if (places or again) and day is None:
        return Waiting(lacks=("answers.lacks.day",))
    return PaintAsk(book, places, Quantity(pace.rate, pace.unit) if pace is not None else NO_PACE, day or 1, again)


STAGE: Stage[PaintAsk, Paint] = Stage("paint", ("volumes",), "job", "now", _ask, paint)
