"""What else has to be done besides plaster: what he wrote, what a re-coat, a survey and a patch ask for, and the
tests of a doubtful base."""

from __future__ import annotations

from typing import TYPE_CHECKING

from quicktions import Fraction

from darby.answers.patch import cutting
from darby.answers.recoat import before
from darby.answers.stage import Answers
from darby.answers.survey import sounding

if TYPE_CHECKING:
    from darby.job.model import Also, Job


def also(job: Job, answers: Answers) -> tuple[Also, ...]:
    """His own entries, and one for testing first where a base wants it and he has not written it down himself.

    One visit tries every wall: the hours are the book's for one, not for each.
    """
    from darby.job.model import Also

    said = (*job.also, *before(job, answers), *sounding(job, answers), *cutting(job, answers))
    if any(entry.what == "test" for entry in said):
        return said
    names = {surface.id: surface.name for surface in job.surfaces}
    untried: dict[str, Fraction] = {}
    for surface, coats in answers.good("coats").items():
        for _, built in coats.zones:
            if built.test_time is not None:
                untried[names[surface]] = Fraction(built.test_time.value)
    if not untried:
        return said
    return (Also("test", "; ".join(untried), hours=max(untried.values())), *said)
