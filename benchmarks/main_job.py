"""The main job: commands as ratios to bare Python, answering in process, growth with the number of walls, memory."""

from __future__ import annotations

import gc
import os
import sys
import tempfile
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from functools import partial
from pathlib import Path
from time import perf_counter, process_time

import darby
from benchmarks.table import Row, show
from darby.answers.moves import moves
from darby.job import Job, loads
from darby.papers import paper_set, write_set

ROOT = Path(__file__).parents[1]
FIREHALL = ROOT / "examples" / "firehall.toml"
ROUNDS = 10
MB = 1024 * 1024

WALL = """
[[wall]]
id = "wall-{n}"
name = "Wall {n}"
length = "{length}'"
height = "8'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/8 in"
left = {{ kind = "outside corner" }}
right = {{ kind = "outside corner" }}
base_edge = "grade"
top = "drip"
"""


def main() -> None:
    """Every table of the main job."""
    commands()
    in_process()
    growth()


# --- commands ------------------------------------------------------------------------------------------


def commands() -> None:
    """Each command as a process of its own; every round runs them all, so that a busy minute falls on all alike."""
    with tempfile.TemporaryDirectory() as folder:
        job = str(FIREHALL)
        lines = {
            "python -c pass": ["-c", "pass"],
            "darby --version": ["-m", "darby", "--version"],
            "darby --help": ["-m", "darby", "--help"],
            "darby sum": ["-m", "darby", "sum", "60' x 6' x 2, 1/2 block"],
            "darby check": ["-m", "darby", "check", job],
            "darby answer": ["-m", "darby", "answer", job],
            "darby papers": ["-m", "darby", "papers", job, "--into", f"{folder}/papers"],
        }
        env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        env["PYTHONPYCACHEPREFIX"] = f"{folder}/compiled"  # compiled once, as where darby is installed
        for words in lines.values():
            process(words, env)
        quickest = dict.fromkeys(lines, 1e9)
        memory = dict.fromkeys(lines, 0.0)
        for _ in range(ROUNDS):
            for name, words in lines.items():
                seconds, peak = process(words, env)
                quickest[name], memory[name] = min(quickest[name], seconds), max(memory[name], peak)
    bare = quickest["python -c pass"]
    show(
        f"Commands on the example, best of {ROUNDS}",
        [Row(name, t * 1e3, "ms", f"{t / bare:.1f} x bare Python") for name, t in quickest.items()],
    )
    heavy = ("darby check", "darby answer", "darby papers")
    show("Most memory held", [Row(name, memory[name] / MB, "MB", most=250) for name in heavy])


def process(words: list[str], env: dict[str, str]) -> tuple[float, float]:
    """Seconds from start to end [s], and the most memory it held [bytes]."""
    begun = perf_counter()
    with Path(os.devnull).open("w") as nothing:
        files = [(os.POSIX_SPAWN_DUP2, nothing.fileno(), 1), (os.POSIX_SPAWN_DUP2, nothing.fileno(), 2)]
        child = os.posix_spawn(sys.executable, [sys.executable, *words], env, file_actions=files)
        _, status, used = os.wait4(child, 0)
    seconds = perf_counter() - begun
    if os.waitstatus_to_exitcode(status):
        raise SystemExit(f"{' '.join(words)} ended with {os.waitstatus_to_exitcode(status)}")
    return seconds, used.ru_maxrss * (1024 if sys.platform.startswith("linux") else 1)


# --- in process ----------------------------------------------------------------------------------------


def in_process() -> None:
    """What the desk does all day: the job is loaded, something changes, it is answered again."""
    job = darby.load(FIREHALL)
    answers = darby.answer(job)
    dearer = changed_price(job)
    assert darby.answer(dearer, since=answers).asked == 1
    show(
        f"In process, processor time, best of {2 * ROUNDS}",
        [
            Row("load", best(lambda: darby.load(FIREHALL)), "ms"),
            Row("answer, all stages", best(lambda: darby.answer(job)), "ms", most=50),
            Row("answer, one price changed", best(lambda: darby.answer(dearer, since=answers)), "ms", most=10),
            Row("answer, nothing changed", best(lambda: darby.answer(job, since=answers)), "ms"),
            Row("what moves the price most", best(lambda: moves(answers), 5), "ms"),
            Row("to_json", best(answers.to_json, 5), "ms"),
        ],
    )
    with tempfile.TemporaryDirectory() as folder:
        filled = paper_set(answers)
        rows = [
            Row("filled", best(lambda: paper_set(answers), 5, perf_counter), "ms"),
            Row("written", best(lambda: write_set(filled, Path(folder) / "set"), 5, perf_counter), "ms"),
        ]
        rows.append(Row("papers", sum(row.value for row in rows), "ms", f"{len(filled)} files", most=1000))
        show("Papers in process, best of 5", rows)


def changed_price(job: Job) -> Job:
    """The same job, its cement a dime dearer."""
    buys = tuple(replace(b, price=b.price + Decimal("0.10")) if b.item == "portland" else b for b in job.firm.buys)
    return replace(job, firm=replace(job.firm, buys=buys))


def best(what: Callable[[], object], rounds: int = 2 * ROUNDS, clock: Callable[[], float] = process_time) -> float:
    """Milliseconds of the quickest of ``rounds``, by processor time unless another clock is given."""
    quickest = 1e9
    for _ in range(rounds):
        gc.collect()
        begun = clock()
        what()
        quickest = min(quickest, clock() - begun)
    return quickest * 1e3


# --- growth --------------------------------------------------------------------------------------------


def growth() -> None:
    """Ten times the walls may take twelve times the time."""
    took = {}
    for count in (10, 100, 1000):
        job = walls(count)
        took[count] = best(partial(darby.answer, job), 5)
    rows = [Row(f"answer {count:,} walls", t, "ms", f"{t / count:.2f} ms a wall") for count, t in took.items()]
    rows.append(Row("1,000 walls in the time of 100", took[1000] / took[100], "times", most=12))
    show("Growth, processor time, best of 5", rows)


def walls(count: int) -> Job:
    """``count`` invented block walls."""
    head = 'darby = 1\n[job]\nname = "Walls"\nas_of = 2026-03-02\n'
    firm = (FIREHALL.parent / "firm.toml").read_text(encoding="utf-8")
    return loads(head + "".join(WALL.format(n=n, length=10 + n % 30) for n in range(count)), firm=firm)


if __name__ == "__main__":
    main()
