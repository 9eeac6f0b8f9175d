"""Wrong changes in the trade rooms, drawn by ``tests/proof/mutants.py``, and whether a test turns red.

    python -m tests.proof.mutation [--seed N] [--formulas N] [--codes N] [--rooms ROOM ...] [--named TEXT ...]

1. The rooms are copied into a folder of their own; nothing is ever written into the tree.
2. Each room's tests are run once without any change: they must be green. A room's tests are its folder of ``tests/``
   and those of ``tests/published`` and ``tests/against`` that name it.
3. One mutant after another: the change is written into the copy, the room's tests are run until one fails, the file
   is put back. A mutant under which no test fails survives: either it is an equal one, which computes the same, and
   stands with its reason in ``tests/proof/equal.py``, or a test is missing.

A mutant that ends in no time (an endless loop) or that the working refuses (units that do not agree) is found too, and
counted apart. Property tests draw the same examples every time.
"""

from __future__ import annotations

import argparse
import compileall
import contextlib
import importlib
import json
import os
import py_compile
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, Literal

import pytest

from tests.proof.equal import EQUAL
from tests.proof.mutants import ROOMS, Mutant, drawn, mutants

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "darby"
PATIENCE = 120
"""Seconds of the processor that a room's tests may take: so many that only an endless loop takes more."""
MEMORY = 8 << 30
BESIDE = ("published", "against")
AHEAD = ("numpy", "scipy.optimize", "scipy.sparse", "shapely", "quicktions", "hypothesis.strategies",
         "playwright.sync_api", "xdist.plugin", "jsonschema")  # fmt: skip
"""Loaded once, before any child is forked, so that no child waits for them."""
AT_FIRST = 3
"""So many files are run before all others."""
OPTIONS = (
    "-c", str(ROOT / "pyproject.toml"), "--rootdir", str(ROOT), "-p", "no:cacheprovider", "-p", "no:xdist",
    "-q", "-x", "-m", "not proof", "--no-header", "--tb=line", "-W", "ignore",
)  # fmt: skip

Fate = Literal["killed", "refused", "endless", "equal", "survived"]


@dataclass
class Verdict:
    """What became of one mutant: ``by`` the test that turned red, or why it is an equal one."""

    name: str
    room: str
    kind: str
    line: int
    fate: Fate
    by: str = ""
    seconds: float = 0.0


class _Watch:
    """Property tests draw the same examples every time and look for no smaller one; the first red test is noted."""

    def __init__(self) -> None:
        self.red = ""
        self.why = ""
        self.count = 0

    def pytest_sessionstart(self) -> None:
        from hypothesis import HealthCheck, Phase, settings

        settings.register_profile(
            "mutation", derandomize=True, database=None, deadline=None,
            phases=(Phase.explicit, Phase.generate), suppress_health_check=list(HealthCheck),
        )  # fmt: skip
        settings.load_profile("mutation")

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.count += report.when == "call"
        if report.failed:
            self._note(report.nodeid, report.longreprtext)

    def pytest_collectreport(self, report: pytest.CollectReport) -> None:
        if report.failed:
            self._note(report.nodeid, report.longreprtext)

    def _note(self, name: str, why: str) -> None:
        self.red = self.red or name
        self.why = self.why or why


def tests_of(room: str) -> list[Path]:
    """Files that hold the room's tests, its own first."""
    top = room.partition("/")[0]
    own = sorted((ROOT / "tests" / top).glob("test_*.py"))
    others = [f for folder in BESIDE for f in sorted((ROOT / "tests" / folder).glob("test_*.py"))]
    names = [f for f in others if f"darby.{top}" in f.read_text(encoding="utf-8")]
    return [*own, *names]


def in_order(mutant: Mutant, files: Sequence[Path]) -> list[Path]:
    """Those first that speak of the mutant's file, by their name or in their text."""
    about = Path(mutant.path).stem

    def far(file: Path) -> tuple[bool, bool]:
        return about not in file.stem, about not in file.read_text(encoding="utf-8")

    return sorted(files, key=far)


@contextlib.contextmanager
def copied() -> Iterator[Path]:
    """A copy of the whole package, compiled so that a changed file is noticed whatever the clock says."""
    with tempfile.TemporaryDirectory(prefix="darby-mutants-") as folder:
        copy = Path(folder) / "darby"
        shutil.copytree(SOURCE, copy, ignore=shutil.ignore_patterns("__pycache__"))
        compileall.compile_dir(copy, quiet=2, invalidation_mode=py_compile.PycInvalidationMode.CHECKED_HASH)
        yield copy


def run(copy: Path, files: Sequence[Path]) -> dict[str, Any]:
    """The files' tests over the copy until one fails: which, why, how many; in a forked child that prints nothing."""

    def work() -> dict[str, Any]:
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        resource.setrlimit(resource.RLIMIT_CPU, (PATIENCE, 2 * PATIENCE))
        sys.dont_write_bytecode = True
        sys.path.insert(0, str(copy.parent))
        watch = _Watch()
        for some in (files[:AT_FIRST], files[AT_FIRST:]):
            if some and not watch.red:
                pytest.main([*OPTIONS, *map(str, some)], plugins=[watch])
        darby = sys.modules.get("darby")
        if darby is not None:
            assert Path(str(darby.__file__)).is_relative_to(copy), darby.__file__
        return {"red": watch.red, "why": watch.why, "count": watch.count}

    with tempfile.TemporaryDirectory(prefix="darby-mutants-") as folder:
        result, fault = Path(folder) / "result.json", Path(folder) / "fault"
        child = os.fork()
        if child == 0:
            _child(work, result, fault)
        _, status = os.waitpid(child, 0)
        if result.exists():
            return json.loads(result.read_text(encoding="utf-8"))  # type: ignore[no-any-return]
        if os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGXCPU:
            return {"red": "endless", "why": "", "count": 0}
        why = fault.read_text(encoding="utf-8") if fault.exists() else f"status {status}"
        raise RuntimeError(f"a run of the tests died: {why}")


def _child(work: Callable[[], Any], result: Path, fault: Path) -> None:
    try:
        signal.signal(signal.SIGXCPU, signal.SIG_DFL)
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, 1)
        os.dup2(nowhere, 2)
        result.write_text(json.dumps(work()), encoding="utf-8")
    except BaseException:
        fault.write_text(traceback.format_exc(), encoding="utf-8")
    finally:
        os._exit(0)


def judged(mutant: Mutant, copy: Path, files: Sequence[Path]) -> Verdict:
    """One mutant's fate. The file in the copy is put back whatever happens."""
    start = time.perf_counter()
    file = copy / mutant.path
    text = file.read_text(encoding="utf-8")
    file.write_text(mutant.applied(text), encoding="utf-8")
    try:
        found = run(copy, in_order(mutant, files))
    finally:
        file.write_text(text, encoding="utf-8")
    fate: Fate = "killed"
    by = str(found["red"])
    if by == "endless":
        fate, by = "endless", ""
    elif not by:
        fate, by = ("equal", EQUAL[mutant.name]) if mutant.name in EQUAL else ("survived", "")
    elif "FormulaError" in found["why"]:
        fate = "refused"
    return Verdict(mutant.name, mutant.room, mutant.kind, mutant.line, fate, by, time.perf_counter() - start)


def prove(lot: Sequence[Mutant], tell: Callable[[Verdict], None] = lambda _: None) -> list[Verdict]:
    """The fate of each; a room whose tests are red without any change proves nothing and is a fault."""
    for name in AHEAD:
        with contextlib.suppress(ImportError):
            importlib.import_module(name)
    assert "darby" not in sys.modules, "this program must not hold the rooms itself: each child loads the copy"
    found: list[Verdict] = []
    with copied() as copy:
        for room in dict.fromkeys(m.room for m in lot):
            files = tests_of(room)
            plain = run(copy, files)
            if plain["red"] or not plain["count"]:
                raise RuntimeError(f"the tests of {room} are not green without any change: {plain['red']}")
            for mutant in lot:
                if mutant.room == room:
                    found.append(judged(mutant, copy, files))
                    tell(found[-1])
    return found


def main(arguments: Sequence[str] | None = None) -> int:
    """Report; 1 if a mutant survived."""
    parser = argparse.ArgumentParser(prog="mutation", description="Wrong changes that no test notices.")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--formulas", type=int, default=5, help="of every room")
    parser.add_argument("--codes", type=int, default=5, help="of every room")
    parser.add_argument("--rooms", nargs="*", default=list(ROOMS), choices=ROOMS, metavar="ROOM")
    parser.add_argument("--named", nargs="*", default=[], metavar="TEXT", help="instead: all whose name holds a text")
    parser.add_argument("--out", type=Path)
    given = parser.parse_args(arguments)
    start = time.perf_counter()
    if given.named:
        lot = [m for room in given.rooms for m in mutants(SOURCE, room) if any(text in m.name for text in given.named)]
    else:
        lot = drawn(SOURCE, given.seed, given.formulas, given.codes, tuple(given.rooms))
    found = prove(lot, lambda v: print(f"{v.fate:9}{v.seconds:5.1f} s  {v.name}  [{v.by}]", flush=True))
    fates = Counter(v.fate for v in found)
    if given.out:
        given.out.write_text(json.dumps([asdict(v) for v in found], indent=1), encoding="utf-8")
    print(f"{len(found)} mutants, {dict(sorted(fates.items()))}, {time.perf_counter() - start:.0f} s")
    return 1 if fates["survived"] else 0


if __name__ == "__main__":
    os.chdir(ROOT)
    sys.exit(main())
