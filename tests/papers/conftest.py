"""The papers of the example job, built once a session: everything that looks at them looks at the same set."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

import darby
from darby.answers import Answers
from darby.job import Job
from darby.papers import Paper, paper_set, render
from darby.papers.filled.on_request import on_request

EXAMPLE = Path(__file__).parents[2] / "examples" / "firehall.toml"


@cache
def example() -> Job:
    return darby.load(EXAMPLE)


@cache
def answered(languages: tuple[str, ...] = ("en", "es"), system: str = "us") -> Answers:
    """The example as a firm with other languages or another system writes it."""
    job = example()
    firm = replace(job.firm, languages=languages, system=system)  # type: ignore[arg-type]
    return darby.answer(replace(job, firm=firm))


@cache
def papers(languages: tuple[str, ...] = ("en", "es"), system: str = "us") -> dict[str, Paper]:
    """The set, and the letter that is written when it is asked for."""
    found = answered(languages, system)
    made = paper_set(found) | on_request(found, ["ways"])[1]["ways"]
    return {name: paper for name, paper in made.items() if not isinstance(paper, bytes)}


@cache
def pdf(name: str, languages: tuple[str, ...] = ("en", "es"), system: str = "us") -> bytes:
    return render(papers(languages, system)[name])


@pytest.fixture(scope="session")
def answers() -> Answers:
    return answered()


@pytest.fixture(scope="session")
def real() -> Callable[..., dict[str, Paper]]:
    return papers


@pytest.fixture(scope="session")
def real_pdf() -> Callable[..., bytes]:
    return pdf
