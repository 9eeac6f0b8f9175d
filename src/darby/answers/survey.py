"""Stage "survey": what was found on an old wall, and what each finding asks for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.stage import Answers, Stage
from darby.condition import Crack, GaugeReading, Hollow, Loose, Survey, SurveyAsk, survey
from darby.working import Quantity, Working

if TYPE_CHECKING:
    from darby.job import condition as job_condition
    from darby.job.model import Also, Job
    from darby.measure.surface import Surface
    from darby.rulebook import Book


@dataclass(frozen=True, slots=True)
class Surveys:
    """Every wall that was looked at, in the job's order; () where there is no [[survey]]."""

    walls: tuple[Survey, ...]

    def of(self, surface: str) -> Survey | None:
        """The survey of one wall; None if nobody looked at it."""
        return next((wall for wall in self.walls if wall.surface == surface), None)


def _ask(job: Job, book: Book, answers: Answers, at: str) -> tuple[SurveyAsk, ...]:  # noqa: ARG001
    return tuple(_wall(job, book, said) for said in job.survey)


def _wall(job: Job, book: Book, said: job_condition.Survey) -> SurveyAsk:
    years = [b.built for b in job.bases if b.surface == said.surface and b.built is not None]
    return SurveyAsk(
        book=book,
        surface=said.wall or job.surface(said.surface),
        grid=said.grid,
        taps=said.taps,
        hollow=tuple(Hollow(h.id, h.outline, h.name, h.push, h.lath) for h in said.hollow),
        cracks=tuple(
            Crack(c.id, c.line, c.name, c.width, c.leaks, c.returned, c.gauge,
                  tuple(GaugeReading(r.on, r.width, r.air) for r in c.readings))
            for c in said.cracks
        ),
        loose=tuple(Loose(x.id, x.outline, x.name) for x in said.loose),
        built=min(years) if years else job.built,
        pace=Quantity(*said.pace) if said.pace is not None else None,
    )  # fmt: skip


def survey_all(asks: tuple[SurveyAsk, ...]) -> tuple[Surveys, Working]:
    """Every wall by itself; steps and notes together."""
    working = Working()
    walls = []
    for ask in asks:
        found, own = survey(ask)
        working.add(own)
        walls.append(found)
    return Surveys(tuple(walls)), working


def sounding(job: Job, answers: Answers) -> tuple[Also, ...]:
    """Tapping as an entry beside his own: of walls that are not tapped yet; what he wrote down himself stands."""
    from darby.job.model import Also

    if any(entry.what == "sound" for entry in job.also):
        return ()
    done = {said.surface for said in job.survey if said.taps}
    got: Surveys | None = answers.answered("survey")
    walls = got.walls if got is not None else ()
    return tuple(
        Also("sound", called(job, wall.surface), hours=Fraction(wall.hours.value))
        for wall in walls
        if wall.hours is not None and wall.surface not in done
    )


def looked_at(job: Job, surface: str) -> Surface:
    """The wall that was looked at: one of the job's, or one of the survey's own."""
    own = next((said.wall for said in job.survey if said.surface == surface and said.wall is not None), None)
    return own or job.surface(surface)


def called(job: Job, surface: str) -> str:
    """The name of a wall that was looked at."""
    return looked_at(job, surface).name or surface


def found_at(job: Job, at: str) -> str:
    """The wall that was looked at and what he calls the thing on it: "east/hollow-1"; "" for any other place."""
    surface, _, id = at.partition("/")
    for said in job.survey:
        if said.surface == surface:
            names = {h.id: h.name for h in said.hollow}
            names |= {c.id: c.name for c in said.cracks} | {x.id: x.name for x in said.loose}
            name = names.get(id, "")
            if said.wall is not None or name:
                return ", ".join(filter(None, (called(job, surface), name)))
    return ""


STAGE: Stage[tuple[SurveyAsk, ...], Surveys] = Stage("survey", (), "job", "now", _ask, survey_all)
