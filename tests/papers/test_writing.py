"""A set is changed as a whole: whatever happens to the writer, a whole set stands in the folder."""

from __future__ import annotations

import hashlib
import json
import os
import random
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from darby.papers import NotOurs, write_set, writing
from tests.papers import samples


def whole(folder: Path) -> dict[str, str]:
    """Every file of a set checked against the set's own list; hands back the list."""
    listed: dict[str, str] = json.loads((folder / "papers.json").read_text())["files"]
    assert {p.name for p in folder.iterdir()} == set(listed) | {"papers.json"}
    for name, digest in listed.items():
        assert hashlib.sha256((folder / name).read_bytes()).hexdigest() == digest, name
    return listed


def beside(folder: Path) -> list[str]:
    return sorted(p.name for p in folder.parent.iterdir())


def test_a_set_is_written_and_listed(tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "demo"
    made = write_set({**samples.everything(), "bay-south.dxf": b"0\nEOF\n"}, folder)
    assert [p.name for p in made] == [*samples.everything(), "bay-south.dxf"]
    assert (folder / "quote.pdf").read_bytes().startswith(b"%PDF")
    assert set(whole(folder)) == {p.name for p in made}
    assert beside(folder) == ["demo"]


def test_a_new_set_takes_the_place_of_the_old(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    write_set({"a.txt": b"1", "b.txt": b"1"}, folder)
    write_set({"a.txt": b"2"}, folder)
    assert set(whole(folder)) == {"a.txt"} and (folder / "a.txt").read_bytes() == b"2"
    assert beside(folder) == ["demo"]


def test_an_empty_folder_may_be_taken(tmp_path: Path) -> None:
    (tmp_path / "demo").mkdir()
    write_set({"a.txt": b"1"}, tmp_path / "demo")
    assert set(whole(tmp_path / "demo")) == {"a.txt"}


@pytest.mark.parametrize("own", ["notes.txt", "papers.json"])
def test_a_folder_with_anything_else_in_it_is_left_alone(tmp_path: Path, own: str) -> None:
    folder = tmp_path / "demo"
    folder.mkdir()
    (folder / own).write_text("mine")
    with pytest.raises(NotOurs) as caught:
        write_set({"a.txt": b"1"}, folder)
    assert caught.value.names == (own,)
    assert [(p.name, p.read_text()) for p in folder.iterdir()] == [(own, "mine")] and beside(folder) == ["demo"]


def test_what_was_added_to_a_set_is_not_thrown_away(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    write_set({"a.txt": b"1"}, folder)
    (folder / "signed.pdf").write_text("signed")
    with pytest.raises(NotOurs, match=r"signed\.pdf"):
        write_set({"a.txt": b"2"}, folder)
    assert (folder / "a.txt").read_bytes() == b"1" and (folder / "signed.pdf").exists()


def test_a_file_in_the_way_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "demo").write_text("mine")
    with pytest.raises(NotOurs):
        write_set({"a.txt": b"1"}, tmp_path / "demo")
    assert (tmp_path / "demo").read_text() == "mine"


@pytest.mark.parametrize("name", ["../a.txt", "a/b.txt", "", ".hidden", "papers.json", ".."])
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="not a file name"):
        write_set({name: b"1"}, tmp_path / "demo")
    assert not list(tmp_path.iterdir())


def test_a_paper_that_cannot_be_set_changes_nothing(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    write_set({"a.txt": b"1"}, folder)
    with pytest.raises(KeyError):
        write_set({"a.txt": b"2", "b.pdf": object()}, folder)  # type: ignore[dict-item]
    assert (folder / "a.txt").read_bytes() == b"1" and beside(folder) == ["demo"]


def test_what_a_killed_writer_left_is_cleared_away(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    write_set({"a.txt": b"1"}, folder)
    for left in (".demo.new", ".demo.old"):
        (tmp_path / left).mkdir()
        (tmp_path / left / "a.txt").write_text("half")
    write_set({"a.txt": b"2"}, folder)
    assert beside(folder) == ["demo"] and (folder / "a.txt").read_bytes() == b"2"


def test_where_folders_cannot_be_exchanged_the_old_set_is_brought_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(writing, "_exchange", lambda one, other: False)
    folder = tmp_path / "demo"
    write_set({"a.txt": b"1"}, folder)
    write_set({"a.txt": b"2"}, folder)
    assert (folder / "a.txt").read_bytes() == b"2" and beside(folder) == ["demo"]
    folder.rename(tmp_path / ".demo.old")  # killed between the two renames
    with pytest.raises(KeyError):
        write_set({"b.pdf": object()}, folder)  # type: ignore[dict-item]
    write_set({"a.txt": b"3"}, folder)
    assert whole(folder) and beside(folder) == ["demo"]


def test_two_writers_take_turns(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    faults: list[BaseException] = []

    def write(mark: bytes) -> None:
        try:
            for _ in range(5):
                write_set({f"{n}.txt": mark * 1000 for n in range(4)}, folder)
        except BaseException as fault:
            faults.append(fault)

    threads = [threading.Thread(target=write, args=(mark,)) for mark in (b"a", b"b")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert not faults
    assert len({(folder / name).read_bytes() for name in whole(folder)}) == 1 and beside(folder) == ["demo"]


WRITER = """
import sys
from pathlib import Path
from darby.papers.writing import write_set
folder = Path(sys.argv[1])
print("ready", flush=True)
n = 0
while True:
    n += 1
    write_set({f"{i:02}.txt": (f"{n} {i} " * 20000).encode() for i in range(12)}, folder)
"""


def killed(folder: Path, after: float) -> None:
    """A writer that writes set after set, killed without warning."""
    writer = subprocess.Popen([sys.executable, "-c", WRITER, str(folder)], stdout=subprocess.PIPE)
    assert writer.stdout is not None
    writer.stdout.readline()
    time.sleep(after)
    os.kill(writer.pid, signal.SIGKILL)
    writer.wait()
    writer.stdout.close()


def check(folder: Path) -> None:
    listed = whole(folder)
    assert len(listed) == 12
    runs = {(folder / name).read_bytes().split()[0] for name in listed}
    assert len(runs) == 1, "files of two sets stand together"


@pytest.mark.skipif(os.name != "posix", reason="kills by signal")
def test_a_killed_writer_leaves_a_whole_set(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    write_set({f"{i:02}.txt": b"0" for i in range(12)}, folder)
    chance = random.Random(4)
    for _ in range(3):
        killed(folder, chance.uniform(0.0, 0.15))
        check(folder)
    write_set({"last.txt": b"1"}, folder)
    assert beside(folder) == ["demo"], "and what they left is cleared away"


@pytest.mark.proof
@pytest.mark.skipif(os.name != "posix", reason="kills by signal")
def test_a_writer_killed_a_hundred_times_leaves_a_whole_set(tmp_path: Path) -> None:
    folder = tmp_path / "demo"
    write_set({f"{i:02}.txt": b"0" for i in range(12)}, folder)
    chance = random.Random(26)
    for _ in range(100):
        killed(folder, chance.uniform(0.0, 0.3))
        check(folder)
    write_set({"last.txt": b"1"}, folder)
    assert beside(folder) == ["demo"]


STOPPED = """
import os, signal, sys
from pathlib import Path
from darby.papers.writing import write_set
folder, at, seen = sys.argv[1], int(sys.argv[2]), 0
TOUCHES = ("open", "os.rename", "os.mkdir", "os.remove", "os.rmdir", "os.listdir", "os.scandir", "ctypes.dlsym")
def hook(event, given):
    global seen
    if event in TOUCHES or event.startswith("shutil."):
        seen += 1
        if seen == at:
            os.kill(os.getpid(), signal.SIGKILL)
papers = {f"{i:02}.txt": (f"1 {i} " * 2000).encode() for i in range(12)}
sys.addaudithook(hook)
write_set(papers, Path(folder))
print(seen)
"""


def stopped(folder: Path, at: int) -> int | None:
    """A writer killed just before it touches the disk for the ``at``-th time; how often it did if it came through."""
    run = subprocess.run([sys.executable, "-c", STOPPED, str(folder), str(at)], capture_output=True, check=False)
    return int(run.stdout) if run.returncode == 0 else None


@pytest.mark.parametrize("share", [None, pytest.param(1, marks=pytest.mark.proof)], ids=["some", "every"])
@pytest.mark.skipif(os.name != "posix", reason="kills by signal")
def test_a_writer_killed_before_any_touch_of_the_disk_leaves_a_whole_set(tmp_path: Path, share: int | None) -> None:
    """Not left to chance: the counted touches of the disk, one kill before each (in the suite before some)."""
    folder = tmp_path / "demo"
    write_set({f"{i:02}.txt": b"0" for i in range(12)}, folder)
    touches = stopped(folder, 0)
    assert touches is not None and touches > 20
    for at in range(1, touches + 1) if share else {touches // 2, *range(touches - 12, touches, 4)}:
        write_set({f"{i:02}.txt": b"0" for i in range(12)}, folder)
        assert stopped(folder, at) is None
        check(folder)
