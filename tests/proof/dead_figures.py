"""Finds figures of the rule book that no check depends on: shift one by a tenth, and see whether anything turns red.

    python -m tests.proof.dead_figures [--only ID ...] [--out FILE] [PATH ...]

1. One run of the suite notes which test file reads which figure (a number by reading it, a rule in words by being
   ruled with). A figure that no file reads is dead.
2. For each figure a forked child shifts it in the loaded book by +10 % (value, low and high together, in its own unit),
   before any test is imported, and runs the files that read it, the most particular first, until one test fails. Where
   none does, −10 % is tried. A rule in words has no number: it is taken out of the book instead.
3. Where nothing failed the figure is dead. Tests of the book itself, tests that read most of it (every entry has a
   source ...), and tests that fail without any shift pin nothing and do not count; every test that pinned a figure is
   run once more without a shift to see that it is green. A file that cannot be imported is no check that turns red.

Each verdict is told on standard error as it comes. Beside the dead, the report names the idle: pinned by a check that
copies them, but no room asked for them.
Forking makes it quick: everything but the tests is imported once.
"""

from __future__ import annotations

import argparse
import contextlib
import importlib
import json
import os
import pkgutil
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest

import darby
from darby.rulebook import Book, Figure, default
from darby.rulebook.model import Ruled

ROOT = Path(__file__).parents[2]
NUMBERS = ("low", "value", "high")
BOTH_WAYS = (1.1, 0.9)
OWN = ("tests/rulebook/", "tests/proof/")
"""Tests of the book and of this program."""
ROOMS = tuple(str(Path(p)) for p in darby.__path__)
FLOOR = tuple(
    f"{room}/{name}/" for room in ROOMS for name in ("measure", "rulebook", "working", "words", "cli", "desk", "job")
)
"""Where reading a figure is no use of it: the book, the working, lists and wording."""
MOST = 0.5
"""A test that reads more than this part of the book pins no figure of it."""
AT_FIRST = 3
"""So many files are run before all others that read the figure."""
PATIENCE = 1800
"""Seconds for one run; longer is a fault of this program, not of the figure."""


@dataclass
class Trace:
    """Who reads what: figure id to files, and the tests that do not count."""

    files: dict[str, list[str]] = field(default_factory=dict)
    used: list[str] = field(default_factory=list)
    discounted: list[str] = field(default_factory=list)
    red: list[str] = field(default_factory=list)


@dataclass
class Verdict:
    """What became of one figure: the test that turned red, or why it is dead."""

    id: str
    pinned_by: str = ""
    dead: str = ""
    seconds: float = 0.0


# --- reading, noted ----------------------------------------------------------------------------------


def name_of(node: pytest.Item | pytest.Collector) -> str:
    """The same name whichever paths pytest was given."""
    path = node.path.relative_to(ROOT) if node.path.is_relative_to(ROOT) else node.path
    return f"{path}::{node.nodeid.partition('::')[2]}"


class Recorder:
    """A pytest plugin that notes every figure read, by the test (or the file being imported) that reads it."""

    def __init__(self) -> None:
        self.now = ("", "")
        self.read: dict[tuple[str, str], set[str]] = defaultdict(set)
        self.red: set[str] = set()
        self.broken: set[str] = set()
        self.used: set[str] = set()

    def watch(self) -> None:
        """Numbers are noted when they are read; a rule in words when the book rules with it or names it beside."""
        for name in NUMBERS:
            setattr(Figure, name, self._watched(Figure.__dict__[name]))
        rule = Book.rule

        def noted(book: Book, subject: str, /, **where: str) -> Ruled:
            ruled = rule(book, subject, **where)
            for figure in (ruled.figure, *ruled.others):
                if figure.kind == "rule":
                    self.read[self.now].add(figure.id)
            self._use(ruled.figure.id)
            return ruled

        Book.rule = noted  # type: ignore[method-assign]

    def _watched(self, slot: Any) -> property:
        def get(figure: Figure) -> Any:
            self.read[self.now].add(figure.id)
            self._use(figure.id)
            return slot.__get__(figure)

        return property(get, lambda figure, value: slot.__set__(figure, value))

    def _use(self, figure_id: str) -> None:
        """A room uses a figure when it is ruled with for it, or reads its number."""
        if figure_id in self.used:
            return
        frame = sys._getframe(2)
        while frame is not None and (file := frame.f_code.co_filename).startswith(FLOOR):
            frame = frame.f_back  # type: ignore[assignment]
        if frame is not None and file.startswith(ROOMS):
            self.used.add(figure_id)

    @pytest.hookimpl(wrapper=True)
    def pytest_make_collect_report(self, collector: pytest.Collector) -> Iterator[None]:
        self.now = (str(collector.path), name_of(collector))
        return (yield)

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self.now = (str(item.path), name_of(item))
        return (yield)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.red.add(self.now[1])

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self.red.add(self.now[1])
            self.broken.add(self.now[0])


def traced(paths: Sequence[str]) -> Trace:
    """One whole run, with the reading noted."""
    recorder = Recorder()
    book = {f.id: f for f in default()}
    whole = {f.id for f in book.values() if f.kind != "rule"}
    recorder.watch()
    pytest.main([*_OPTIONS, *paths], plugins=[recorder, Calm()])
    trace = Trace(red=sorted(recorder.red), used=sorted(recorder.used))
    files: dict[str, set[str]] = defaultdict(set)
    for (file, name), ids in recorder.read.items():
        if len(ids & whole) > MOST * len(whole):
            trace.discounted.append(name)
            continue
        if file and file not in recorder.broken and not name.startswith(OWN):
            for figure_id in ids & book.keys():
                files[figure_id].add(file)
    per_file = Counter(file for several in files.values() for file in several)
    texts = {file: Path(file).read_text(encoding="utf-8") for file in per_file}
    for figure_id, several in files.items():
        figure = book[figure_id]
        # a file that names the figure or its subject, or reads few others, speaks most particularly of it
        trace.files[figure_id] = sorted(
            several, key=lambda f: (figure.id not in texts[f], figure.subject not in texts[f], per_file[f], f)
        )
    return trace


# --- one figure shifted ------------------------------------------------------------------------------


class Calm:
    """Property tests: no searching for the smallest failure, the same examples every time."""

    def pytest_sessionstart(self) -> None:
        from hypothesis import HealthCheck, Phase, settings

        settings.register_profile(
            "dead-figures",
            derandomize=True,
            database=None,
            deadline=None,
            phases=(Phase.explicit, Phase.generate),
            suppress_health_check=list(HealthCheck),
        )
        settings.load_profile("dead-figures")


class Chosen:
    """Leaves out what does not count, and notes the tests that turn red."""

    def __init__(self, trace: Trace) -> None:
        self._out = {*trace.discounted, *trace.red}
        self._now = ""
        self.failed: list[str] = []

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = [i for i in items if name_of(i) not in self._out and i.get_closest_marker("proof") is None]

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        self._now = name_of(item)
        return (yield)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed.append(self._now)


def shift(figure: Figure, by: float) -> None:
    """Every number of the figure ``by`` times as much, in the unit it is written in; done to the loaded object."""
    for name in NUMBERS:
        value = getattr(figure, name)
        if value is not None:
            shown = figure.unit.from_si(value)
            object.__setattr__(figure, name, float(figure.unit.to_si(float(shown) * by)))


def take_out(book: Book, figure: Figure) -> None:
    """The book as if the figure had never stood in it; done to the loaded object."""
    left = Book([f for f in book if f is not figure], book.sources)
    book.__dict__.clear()
    book.__dict__.update(left.__dict__)


def red_after(change: Callable[[], None], files: Sequence[str], trace: Trace) -> str:
    """The first test that fails once ``change`` is done ("" = none); run in a forked child."""

    def work() -> str:
        change()
        for some in (files[:AT_FIRST], files[AT_FIRST:]):
            chosen = Chosen(trace)
            if some:
                pytest.main([*_OPTIONS, "-x", *some], plugins=[chosen, Calm()])
            if chosen.failed:
                return chosen.failed[0]
        return ""

    return str(in_child(work))


def red_anyway(names: Sequence[str], trace: Trace) -> list[str]:
    """Those of the tests that fail without any shift."""

    def work() -> list[str]:
        chosen = Chosen(trace)
        pytest.main([*_OPTIONS, *sorted({name.partition("::")[0] for name in names})], plugins=[chosen, Calm()])
        return [name for name in chosen.failed if name in names]

    return list(in_child(work))


def in_child(work: Callable[[], Any]) -> Any:
    """``work()`` in a forked child that prints nothing, its result back as JSON: this process stays as it was."""
    with tempfile.TemporaryDirectory() as folder:
        result, fault = Path(folder) / "result.json", Path(folder) / "fault"
        child = os.fork()
        if child == 0:
            try:
                signal.alarm(PATIENCE)
                nowhere = os.open(os.devnull, os.O_WRONLY)
                os.dup2(nowhere, 1)
                os.dup2(nowhere, 2)
                result.write_text(json.dumps(work()), encoding="utf-8")
            except BaseException:
                fault.write_text(traceback.format_exc(), encoding="utf-8")
            finally:
                os._exit(0)
        _, status = os.waitpid(child, 0)
        if not result.exists():
            why = fault.read_text(encoding="utf-8") if fault.exists() else f"status {status}"
            raise RuntimeError(f"a run of the suite died: {why}")
        return json.loads(result.read_text(encoding="utf-8"))


_OPTIONS = (
    "-c", str(ROOT / "pyproject.toml"), "--rootdir", str(ROOT), "-p", "no:cacheprovider", "-p", "no:xdist",
    "-q", "-m", "not proof", "--no-header", "--tb=no",
    "--continue-on-collection-errors", "-W", "ignore",
)  # fmt: skip


def verdict(figure: Figure, trace: Trace) -> Verdict:
    """Shift (or take out) one figure and see."""
    files = trace.files.get(figure.id, [])
    if not files:
        return Verdict(figure.id, dead="no check reads it")
    start = time.perf_counter()
    if figure.kind == "rule":
        first = red_after(lambda: take_out(default(), figure), files, trace)
        dead = "no check misses it when it is taken out"
    else:
        first = ""
        for by in BOTH_WAYS:
            first = first or red_after(lambda by=by: shift(figure, by), files, trace)  # type: ignore[misc]
        dead = "no check turns red when it is shifted by a tenth"
    return Verdict(figure.id, first, "" if first else dead, time.perf_counter() - start)


# --- all of them -------------------------------------------------------------------------------------


def verdicts(figures: Sequence[Figure], trace: Trace, workers: int) -> list[Verdict]:
    """Each worker takes every so-many-th figure."""
    pipes = []
    for worker in range(workers):
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(reading)
            code = 1
            try:
                with os.fdopen(writing, "w", encoding="utf-8") as out:
                    for figure in figures[worker::workers]:
                        out.write(json.dumps(verdict(figure, trace).__dict__) + "\n")
                        out.flush()
                code = 0
            finally:
                os._exit(code)
        os.close(writing)
        pipes.append((child, reading))
    found: list[Verdict] = []
    for child, reading in pipes:
        with os.fdopen(reading, encoding="utf-8") as lines:
            for line in lines:
                found.append(Verdict(**json.loads(line)))
                print(f"{found[-1].id}: {found[-1].pinned_by or found[-1].dead}", file=sys.stderr, flush=True)
        os.waitpid(child, 0)
    if len(found) != len(figures):
        raise RuntimeError(f"{len(figures) - len(found)} figures were not judged")
    return found


def prove(paths: Sequence[str], only: Sequence[str] = (), workers: int = 0) -> tuple[list[Verdict], Trace]:
    """The verdict on every figure (or on ``only`` these), and the trace it rests on."""
    for room in pkgutil.iter_modules(darby.__path__, "darby."):
        if room.name in (
            "darby.__main__",
            "darby.desk",
        ):  # the desk wants its framework set up first: its tests do that
            continue
        importlib.import_module(room.name)
        for module in pkgutil.walk_packages(getattr(sys.modules[room.name], "__path__", ()), f"{room.name}."):
            with contextlib.suppress(ImportError):  # its tests will say so
                importlib.import_module(module.name)
    figures = [f for f in default() if not only or f.id in only]
    trace = Trace(**in_child(lambda: traced(paths).__dict__))
    workers = workers or os.cpu_count() or 1
    found = verdicts(figures, trace, workers)
    unsound = red_anyway([v.pinned_by for v in found if v.pinned_by], trace)
    if unsound:  # a test that fails now and then is no proof: judge what it pinned without it
        trace.red += unsound
        again = {v.id for v in found if v.pinned_by in unsound}
        found = [v for v in found if v.id not in again]
        found += verdicts([f for f in figures if f.id in again], trace, workers)
    return found, trace


def main(arguments: Sequence[str] | None = None) -> int:
    """Report; 1 if a figure is dead."""
    parser = argparse.ArgumentParser(prog="dead_figures", description="Figures that no check depends on.")
    parser.add_argument("paths", nargs="*", default=["tests"])
    parser.add_argument("--only", nargs="*", default=[], metavar="ID")
    parser.add_argument("--out", type=Path)
    parser.add_argument("--workers", type=int, default=0)
    given = parser.parse_args(arguments)
    start = time.perf_counter()
    found, trace = prove(given.paths, given.only, given.workers)
    dead = [v for v in found if v.dead]
    idle = [v.id for v in found if not v.dead and v.id not in trace.used]
    if given.out:
        rows = {"idle": idle, "verdicts": [v.__dict__ for v in found], "red": trace.red, "discounted": trace.discounted}
        given.out.write_text(json.dumps(rows, indent=1), encoding="utf-8")
    for v in dead:
        print(f"dead: {v.id}: {v.dead}")
    for figure_id in idle:
        print(f"idle: {figure_id}: pinned, but no room asks for it")
    for name in trace.red:
        print(f"does not count, red without any shift: {name}")
    print(f"{len(found)} figures, {len(dead)} dead, {len(idle)} idle, {time.perf_counter() - start:.0f} s")
    return 1 if dead else 0


if __name__ == "__main__":
    os.chdir(ROOT)
    sys.exit(main())
