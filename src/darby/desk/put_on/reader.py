"""Papers' words for whoever reads the page: his language alone, his measures."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from darby.papers.filled.writer import Writer

if TYPE_CHECKING:
    from darby.answers import Answers
    from darby.measure.units import System
    from darby.tables.setting import Setting
    from darby.words import Language


@dataclass(frozen=True)
class Reader(Writer):
    """A writer that writes for one reader, where a paper is written for the firm's people."""

    spoken: Language = "en"
    measures: System = "us"

    @property
    def system(self) -> System:
        """His."""
        return self.measures

    @property
    def crew_languages(self) -> tuple[Language, ...]:
        """His alone."""
        return (self.spoken,)


def reader(answers: Answers, setting: Setting) -> Reader:
    """Who reads this page."""
    return Reader(answers, setting.language, setting.system)
