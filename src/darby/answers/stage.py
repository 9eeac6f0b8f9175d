"""What a stage is, and what a whole job's answers are. The graph is data: ``STAGES`` in ``answers/stages``."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Generic, Literal, TypeVar

from darby.measure.faults import Fault
from darby.working.model import Found, Note, Step, Working, note

if TYPE_CHECKING:
    from darby.job.model import Job
    from darby.rulebook.book import Book

Ask = TypeVar("Ask")
Answer = TypeVar("Answer")

Key = tuple[str, str]
"""(stage name, surface id or "job")."""

SAID_BETTER = {
    "mix.wet-cement": "safety.cement",
    "mix.dust": "safety.silica-mix",
    "job.assumed-top": "quantities.assumed.top-covered",
    "job.unsaid-out-of-plane": "buildup.assumed-plane",
    "quantities.no-package": "job.assumed-no-firm",
    "lath.assumed.studs": "quantities.assumed.studs",
    "lath.no-paper-on-masonry": "quantities.no-paper-on-masonry",
}
"""Notes that another note on the same place says better: the room that decides speaks, not who read the file."""


BESIDE = ("joints", "lath")
"""Stages of a surface without which it still stands in the order, the days and the price."""


@dataclass(frozen=True, slots=True)
class Waiting:
    """A stage that cannot be answered yet: codes of what it lacks, and the stages it stands behind."""

    lacks: tuple[str, ...] = ()
    behind: tuple[Key, ...] = ()


NOT_ASKED = Waiting(lacks=("answers.later",))
"""A slow stage that nobody asked for."""
NOTHING = Waiting()
"""A stage that has nothing to answer here: a wall that nobody read has no grounds to set."""


@dataclass(frozen=True, slots=True)
class Stage(Generic[Ask, Answer]):
    """One entry of the graph.

    ``ask`` is the only code that knows both the job's words and the trade room's; ``run`` is the trade room, pure.
    An ``ask`` that lacks something hands back ``Waiting``.
    """

    name: str
    needs: tuple[str, ...]
    per: Literal["surface", "job"]
    pace: Literal["now", "later"]
    ask: Callable[[Job, Book, Answers, str], Ask | Waiting]
    run: Callable[[Ask], tuple[Answer, Working]]


@dataclass(frozen=True, slots=True)
class Kept:
    """A stage's ask, its answer and its working: equal ask = the old answer stands."""

    ask: Any
    answer: Any
    working: Working


@dataclass(frozen=True)
class Answers:
    """All answers of a job. ``by`` holds an answer, ``Waiting`` or ``Fault`` for each (stage, surface id or "job")."""

    job: Job
    job_hash: str
    book: Book
    made_with: str
    kept: Mapping[Key, Kept] = field(default_factory=dict)
    asked: int = 0
    """How many stages were run anew for these answers (the others were kept)."""

    @property
    def book_version(self) -> str:
        """The rule book's version: the hash of its content."""
        return self.book.version

    @property
    def by(self) -> Mapping[Key, Any]:
        """Every answer by (stage, surface id or "job")."""
        return {key: kept.answer for key, kept in self.kept.items()}

    @property
    def stages(self) -> tuple[str, ...]:
        """Names of the stages, in their order."""
        return tuple(dict.fromkeys(name for name, _ in self.kept))

    def of(self, stage: str, at: str = "job") -> Any:
        """The answer of ``stage`` at a surface (or for the job): may be ``Waiting`` or a ``Fault``."""
        return self.kept[(stage, at)].answer

    def good(self, stage: str) -> dict[str, Any]:
        """Surface id (or "job") to answer, for those that were answered."""
        places = (*(surface.id for surface in self.job.surfaces), "job")
        found = ((at, self.kept.get((stage, at))) for at in places)
        return {at: k.answer for at, k in found if k is not None and not isinstance(k.answer, (Waiting, Fault))}

    def answered(self, stage: str, at: str = "job") -> Any | None:
        """The answer of ``stage`` at a surface (or for the job); None if it waits, failed or was never asked."""
        kept = self.kept.get((stage, at))
        return None if kept is None or isinstance(kept.answer, (Waiting, Fault)) else kept.answer

    def unanswered(self) -> dict[Key, Waiting | Fault]:
        """What waits or failed, with why. What nobody asked for, or needs no answer, is not missing."""
        return {
            key: k.answer
            for key, k in self.kept.items()
            if isinstance(k.answer, (Waiting, Fault)) and k.answer not in (NOT_ASKED, NOTHING)
        }

    @property
    def working(self) -> Working:
        """All steps and notes of all stages together, in the order of the stages."""
        whole = Working()
        for kept in self.kept.values():
            whole.add(kept.working)
        return whole

    def steps(self) -> Iterator[Step | Found]:
        """Every step, in order, without building one working."""
        for kept in self.kept.values():
            yield from kept.working.steps.values()

    def step(self, key: str) -> Step | Found:
        """The step called ``key``.

        Raises
        ------
        KeyError
            if no stage computed it.
        """
        for kept in self.kept.values():
            found = kept.working.steps.get(key)
            if found is not None:
                return found
        raise KeyError(key)

    @property
    def notes(self) -> tuple[Note, ...]:
        """What the loader assumed, every note of every stage, then the surfaces that the job's answers are without.

        What a later note on the same place settles keeps silent, so that no two notes contradict each other.
        """
        said = [*self.job.assumed, *(n for kept in self.kept.values() for n in kept.working.notes)]
        settled: dict[str, set[str]] = {}
        for n in said:
            settled.setdefault(n.code, set()).add(n.at.partition("/")[0])
        spoken = (n for n in said if not _settled(n, settled.get(SAID_BETTER.get(n.code, ""), set())))
        return (
            *spoken,
            *(note("answers.left-out", "stop", at) for at in self.left_out),
            *(note("answers.without-joints", "stop", at) for at in self._without("joints")),
        )

    def _without(self, stage: str) -> tuple[str, ...]:
        """Surfaces that are in the order, but without what this stage would add to it."""
        return tuple(at for name, at in self.unanswered() if name == stage and at not in self.left_out)

    @property
    def left_out(self) -> tuple[str, ...]:
        """Surfaces of which something is not answered: they are in no order, no day and no price."""
        return tuple(dict.fromkeys(at for name, at in self.unanswered() if at != "job" and name not in BESIDE))

    def to_json(self) -> dict[str, Any]:
        """A plain document with stable keys; docs/answers.md says what each holds."""
        from darby.answers.plain import document

        return document(self)


def _settled(note: Note, places: set[str]) -> bool:
    """Whether a better note stands at the place of ``note``, at a wall of its shape, or for the whole job."""
    at = note.at.partition("/")[0]
    return any(p in (at, "job") or p.startswith(f"{at}-") for p in places)
