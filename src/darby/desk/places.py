"""The four places of a job and the pages under them. A page is a folder of ``stages``: listing folders finds it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from darby.answers import Waiting
from darby.measure.faults import Fault
from darby.words import catalogue

if TYPE_CHECKING:
    from django.http import HttpRequest

    from darby.answers import Answers
    from darby.desk.reading import Read
    from darby.tables.setting import Setting

Place = Literal["wall", "put-on", "day", "money"]
PLACES: tuple[Place, ...] = ("wall", "put-on", "day", "money")
State = Literal["done", "caution", "asks", "bare"]
FOLDER = Path(__file__).parent / "stages"


@dataclass(frozen=True, slots=True)
class StagePage:
    """What a folder's ``page.py`` says of its page (``PAGE``).

    Parameters
    ----------
    place, order
        where it stands on the rod, and its number there.
    stages
        the stages of ``darby.answers`` whose tables, cautions and numbers it shows.
    sections
        keys of the job file that go into it: shown under "what went in", each with its form.
    crew
        whether the crew may open it.
    later
        whether the slow stages are run for it.
    notes
        False: its cautions stand elsewhere already.
    more
        what its own ``page.html`` needs beyond the common frame. ``at`` among it narrows cautions and ledger to one
        surface; ``title`` and ``sub`` take the place of the page's own.
    """

    place: Place
    order: int
    stages: tuple[str, ...] = ()
    sections: tuple[str, ...] = ()
    crew: bool = False
    later: bool = False
    notes: bool = True
    more: Callable[[HttpRequest, Read], Mapping[str, Any]] | None = None
    name: str = ""
    template: str = "desk/stage.html"

    def title(self, setting: Setting) -> str:
        """What it is called: ``desk.stage.<name>``, else as the terminal calls its stage."""
        words = catalogue(setting.language)
        codes = (f"desk.stage.{self.name}", f"cli.part.{self.name}")
        return next((words[code] for code in codes if code in words), self.name)

    def state(self, answers: Answers | None) -> State:
        """By shape on the rod: answered, answered with a caution, needs an answer, not begun."""
        if answers is None:
            return "bare"
        kept = [k for (stage, _), k in answers.kept.items() if stage in self.stages]
        missing = answers.unanswered()
        if any(key[0] in self.stages for key in missing):
            return "asks"
        if not any(not isinstance(k.answer, (Waiting, Fault)) for k in kept):
            return "bare"
        serious = any(n.grade in ("caution", "stop") for k in kept for n in k.working.notes)
        return "caution" if serious and self.notes else "done"


@cache
def stage_pages() -> Mapping[str, StagePage]:
    """Every page by its name, in the order of the rod."""
    from dataclasses import replace

    found: list[StagePage] = []
    for file in FOLDER.glob("*/page.py"):
        page: StagePage = import_module(f"darby.desk.stages.{file.parent.name}.page").PAGE
        own = file.parent / "page.html"
        template = f"{file.parent.name}/page.html" if own.exists() else page.template
        found.append(replace(page, name=file.parent.name.replace("_", "-"), template=template))
    found.sort(key=lambda page: (PLACES.index(page.place), page.order, page.name))
    return {page.name: page for page in found}


def pages_for(*, owner: bool) -> list[StagePage]:
    """The pages that somebody may open."""
    return [page for page in stage_pages().values() if owner or page.crew]
