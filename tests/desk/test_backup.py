"""Copies that cannot be made or put back: said in a sentence, exit code 2, and nothing is half written."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from darby.desk.backup import backup, restore
from darby.desk.home import Home
from darby.desk.open_now import IsOpen, alone, serving


@pytest.fixture(scope="module")
def whole(desk, tmp_path_factory) -> Path:
    """A copy that is whole."""
    file = tmp_path_factory.mktemp("copies") / "whole.sqlite3"
    backup(Home(desk.folder), file)
    return file


@pytest.fixture
def home(whole, tmp_path) -> Home:
    """A desk that nobody serves."""
    made = Home(tmp_path / "data")
    restore(made, whole)
    return made


def run(home: Home, *words: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "darby", "desk", "--data", str(home.folder), *words]
    env = os.environ | {"DARBY_LANGUAGE": "en"}
    return subprocess.run(command, capture_output=True, text=True, timeout=60, check=False, env=env)


def jobs(file: Path) -> int:
    with closing(sqlite3.connect(file)) as base:
        return int(base.execute("SELECT count(*) FROM kept_revision").fetchone()[0])


def stands(home: Home) -> tuple[set[str], int]:
    """What lies in the folder, and how much is kept."""
    return {p.name for p in home.folder.iterdir()}, jobs(home.base)


def refused(done: subprocess.CompletedProcess[str], *says: str) -> None:
    assert done.returncode == 2, done.stderr
    assert done.stdout == ""
    assert len(done.stderr.strip().split("\n")) == 1, done.stderr
    for part in says:
        assert part in done.stderr


def damage(file: Path) -> None:
    raw = bytearray(file.read_bytes())
    raw[4096:20480] = os.urandom(16384)
    file.write_bytes(raw)


def test_nothing_is_put_back_under_a_desk_that_is_open(home, whole):
    before = stands(home)
    with serving(home):
        refused(run(home, "restore", str(whole)), "is open", "Nothing was changed")
        with pytest.raises(IsOpen):
            restore(home, whole)
    assert stands(home)[1] == before[1]
    assert run(home, "restore", str(whole)).returncode == 0


def test_a_desk_that_serves_is_found_open_and_one_that_was_killed_is_not(home, whole):
    root = Path(__file__).parents[2]
    running = subprocess.Popen(
        [sys.executable, "-m", "tests.proof.killed_desk", str(home.folder)],
        cwd=root, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
    )  # fmt: skip
    try:
        assert running.stdout is not None
        assert any(said.startswith("desk.sign-in-link") for said in running.stdout)
        refused(run(home, "restore", str(whole)), "is open")
        assert run(home, "backup", str(home.folder.parent / "copy.sqlite3")).returncode == 0
    finally:
        running.kill()
        running.wait()
    assert run(home, "restore", str(whole)).returncode == 0


def test_no_desk_opens_while_a_copy_is_put_back(home):
    with alone(home):
        refused(run(home, "--no-browser", "--port", "0"), "is put back")


@pytest.mark.parametrize("content", [b"", b"not a data base at all" * 1000, None])
def test_what_is_no_copy_is_said_so(home, tmp_path, content):
    file = tmp_path / "bad"
    if content is not None:
        file.write_bytes(content)
    before = stands(home)
    refused(run(home, "restore", str(file)), "no whole copy" if content is not None else f"no file {file}")
    assert stands(home) == before


def test_a_copy_that_is_cut_off_or_damaged_is_said_so(home, whole, tmp_path):
    before = stands(home)
    cut, broken = tmp_path / "cut.sqlite3", tmp_path / "broken.sqlite3"
    cut.write_bytes(whole.read_bytes()[: whole.stat().st_size // 2])
    shutil.copy(whole, broken)
    damage(broken)
    for file in (cut, broken):
        refused(run(home, "restore", str(file)), "no whole copy")
    assert stands(home) == before


def test_no_copy_is_made_of_what_is_damaged_and_the_last_one_stays(home, whole, tmp_path):
    last = tmp_path / "last.sqlite3"
    shutil.copy(whole, last)
    damage(home.base)
    refused(run(home, "backup", str(last)), "is damaged", "No copy was made")
    assert last.read_bytes() == whole.read_bytes()
    assert {p.name for p in tmp_path.iterdir()} == {"last.sqlite3", "data"}


def test_a_whole_copy_is_put_back_over_a_damaged_desk_which_is_kept_aside(home, whole):
    damage(home.base)
    broken = home.base.read_bytes()
    done = run(home, "restore", str(whole))
    assert done.returncode == 0, done.stderr
    assert jobs(home.base) == jobs(whole)
    (aside,) = home.folder.glob("before-restore-*.sqlite3")
    assert aside.read_bytes() == broken


def test_where_there_is_no_desk_nothing_is_copied(tmp_path):
    refused(run(Home(tmp_path / "none"), "backup", str(tmp_path / "x")), "no desk in")
    assert list(tmp_path.iterdir()) == []


def test_the_desks_own_file_is_no_place_for_a_copy(home):
    before = stands(home)
    for words in (("backup", str(home.base)), ("restore", str(home.base)), ("backup", str(home.secret_file))):
        refused(run(home, *words), "belongs to the desk itself")
    assert stands(home)[1] == before[1]


def test_a_place_that_cannot_be_written_is_said_so(home, tmp_path):
    (tmp_path / "file").write_text("")
    (tmp_path / "folder").mkdir()
    for place in (tmp_path / "file" / "copy", tmp_path / "folder"):
        done = run(home, "backup", str(place))
        assert done.returncode == 2
        assert "Traceback" not in done.stderr
    assert {p.name for p in tmp_path.iterdir()} == {"file", "folder", "data"}


def on_a_full_disk(folder: Path, kilobytes: int, command: str) -> subprocess.CompletedProcess[str]:
    """Run it where ``folder`` is a disk of so much room."""
    script = f"mount -t tmpfs -o size={kilobytes}k none {folder} && {command}; code=$?; ls -A {folder}; exit $code"
    return subprocess.run(
        ["unshare", "-rm", "sh", "-c", script], capture_output=True, text=True, timeout=60, check=False,
        env=os.environ | {"DARBY_LANGUAGE": "en"},
    )  # fmt: skip


needs_a_disk = pytest.mark.skipif(
    not shutil.which("unshare")
    or subprocess.run(["unshare", "-rm", "mount", "-t", "tmpfs", "none", "/mnt"], capture_output=True).returncode != 0,
    reason="this system lets nobody make a small disk",
)


@needs_a_disk
def test_no_room_for_the_copy_is_said_and_nothing_of_it_is_left(home, tmp_path):
    (tmp_path / "disk").mkdir()
    copy = f"{sys.executable} -m darby desk --data {home.folder} backup {tmp_path / 'disk' / 'copy.sqlite3'}"
    done = on_a_full_disk(tmp_path / "disk", 100, copy)
    assert (done.returncode, done.stdout) == (2, ""), done.stderr
    assert "no room left" in done.stderr


@needs_a_disk
def test_no_room_to_put_it_back_leaves_what_stood(home, whole, tmp_path):
    (tmp_path / "disk").mkdir()
    size = whole.stat().st_size // 1024
    disk, data = tmp_path / "disk", tmp_path / "disk" / "data"
    there = f"mkdir {data} && cp -p {home.base} {home.secret_file} {data}/"
    put = f"{there} && {sys.executable} -m darby desk --data {data} restore {whole}"
    done = on_a_full_disk(
        disk, size + size // 2, f"{put}; code=$?; ls -A {data}; sha256sum {data}/desk.sqlite3; exit $code"
    )
    assert done.returncode == 2, done.stderr
    assert "no room left" in done.stderr
    assert "Nothing was changed" in done.stderr
    assert "before-restore" not in done.stdout
    assert ".part" not in done.stdout
