"""`darby days`: the list over all open jobs."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from rich.console import Console

    from darby.answers import Answers
    from darby.tables.setting import Setting


NARROW = 80
"""Columns below which a table of five columns cannot be read."""
TITLE = 2
"""The column of the job's name."""


def job_files(given: Iterable[Path]) -> list[Path]:
    """The files as they were given; of a folder its job files by name (firm files and other TOML are left out).

    Raises
    ------
    FileNotFoundError
        if a path is not there, or a folder has no job file.
    """
    found: list[Path] = []
    for path in given:
        if not path.is_dir():
            found.append(path)
            continue
        inside = sorted(p for p in path.glob("*.toml") if _is_job(p))
        if not inside:
            raise FileNotFoundError(path)
        found += inside
    return list(dict.fromkeys(found))


def _is_job(path: Path) -> bool:
    """Whether it is a job file; one that is broken is taken for a job, so that its faults are said."""
    try:
        return "darby_firm" not in tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError):
        return True


def print_open(out: Console, answers_by_name: Mapping[str, Answers], on: date, setting: Setting) -> None:
    """The list: a table, or on a narrow screen one job under the other."""
    from darby.answers.open_jobs import open_jobs
    from darby.cli.tables import print_line, print_lines, print_page
    from darby.tables.open_jobs import open_jobs_page

    page = open_jobs_page(open_jobs(answers_by_name, on), answers_by_name, on, setting)
    if out.width >= NARROW or not page.rows:
        print_page(out, page)
        return
    print_page(out, replace(page, heads=(), rows=(), lines=()))
    for row in page.rows:
        told = [f"{head}: {cell}" for head, cell in zip(page.heads, row, strict=True) if cell]
        print_line(out, row[TITLE], style="bold")
        print_lines(out, [line for n, line in enumerate(told) if n != TITLE])
    print_lines(out, page.lines)


def open_json(answers_by_name: Mapping[str, Answers], on: date) -> dict[str, Any]:
    """The list as a plain document; seconds for waits, dates as text."""
    from darby.answers.open_jobs import open_jobs
    from darby.answers.plain import plain

    return {"on": on.isoformat(), "open": [plain(job) for job in open_jobs(answers_by_name, on)]}
