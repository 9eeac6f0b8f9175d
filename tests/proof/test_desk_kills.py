"""The desk is killed while it writes: what it said it had kept is there, and the data base is whole.

kill -9 ends a process and leaves the machine running: this shows that nothing is told before it is committed, not what
a cut of power does to a disk (for that there is ``synchronous = FULL``, whose promise is SQLite's and the disk's).
"""

from __future__ import annotations

import http.client
import http.cookiejar
import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import threading
import time
import urllib.error
import urllib.request
from contextlib import closing
from pathlib import Path
from uuid import uuid4

import pytest

pytestmark = pytest.mark.proof
ROOT = Path(__file__).parents[2]
KILLS = 200
EARLY_KILLS = 40


class Client:
    """Writes lines and revisions as fast as the desk takes them; remembers what the desk said it kept."""

    def __init__(self, link: str) -> None:
        self.base = link.rpartition("/in/")[0]
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar()))
        self.opener.open(link, timeout=20).read()
        self.token = json.load(self.opener.open(f"{self.base}/token", timeout=20))["token"]
        self.told: list[str] = []
        self.failed: list[str] = []

    def one(self) -> None:
        id = str(uuid4())
        line = {"id": id, "kind": "note", "at": "job", "said": {"text": f"line {id}"}}
        request = urllib.request.Request(
            f"{self.base}/job/firehall/lines",
            json.dumps({"lines": [line]}).encode(),
            {"Content-Type": "application/json", "X-CSRFToken": self.token},
        )
        with self.opener.open(request, timeout=20) as answer:
            self.told += json.load(answer)["kept"]

    def until_it_dies(self) -> None:
        try:
            while True:
                self.one()
        except urllib.error.HTTPError as error:  # it answered, and lives: an error of its own
            self.failed.append(f"{error.code} {error.read()[:300]!r}")
        except (OSError, ValueError, http.client.HTTPException):  # dead, perhaps in the middle of an answer
            return


def _started(folder: Path, *more: str) -> tuple[subprocess.Popen[str], str]:
    running = subprocess.Popen(
        [sys.executable, "-m", "tests.proof.killed_desk", str(folder), *more],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
    )  # fmt: skip
    assert running.stdout is not None
    for said in running.stdout:
        if said.startswith("desk.sign-in-link"):
            return running, said.split()[1]
    raise AssertionError("the desk did not start")


def _kept(base: Path) -> set[str]:
    with closing(sqlite3.connect(base)) as found:
        assert found.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return {str(id) for (id,) in found.execute("SELECT id FROM kept_entry")}


def _lost(folder: Path, kills: int, *more: str) -> int:
    """Kill it so often, at times by chance; how many lines it told of are not there."""
    chance, told, lost = random.Random(11), set[str](), 0
    for _ in range(kills):
        running, link = _started(folder, *more)
        client = Client(link)
        writing = [threading.Thread(target=client.until_it_dies) for _ in range(2)]
        for thread in writing:
            thread.start()
        until = time.monotonic() + 20  # on a busy machine the first line takes its time
        while not client.told and time.monotonic() < until:
            time.sleep(0.005)
        time.sleep(chance.uniform(0.0, 0.2))
        os.kill(running.pid, signal.SIGKILL)
        running.wait()
        for thread in writing:
            thread.join()
        assert not client.failed
        told |= {id.replace("-", "") for id in client.told}
        lost = len(told - {id.replace("-", "") for id in _kept(folder / "desk.sqlite3")})
    assert len(told) > kills, "it was killed before it wrote anything"
    return lost


def test_nothing_that_was_told_is_lost(tmp_path: Path) -> None:
    assert _lost(tmp_path / "data", KILLS) == 0


def test_the_test_finds_a_desk_that_tells_too_early(tmp_path: Path) -> None:
    assert _lost(tmp_path / "data", EARLY_KILLS, "early") > 0


def test_a_copy_under_load_holds_all_that_was_told_before_it_began(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    running, link = _started(folder)
    clients = [Client(link)]
    writing = [threading.Thread(target=clients[0].until_it_dies) for _ in range(4)]
    for thread in writing:
        thread.start()
    try:
        for n in range(10):
            time.sleep(0.3)
            before = {id.replace("-", "") for id in list(clients[0].told)}
            copy = tmp_path / f"copy-{n}.sqlite3"
            done = subprocess.run(
                [sys.executable, "-m", "darby", "desk", "--data", str(folder), "backup", str(copy)],
                cwd=ROOT,
                check=False,
            )
            assert done.returncode == 0
            assert before and before <= {id.replace("-", "") for id in _kept(copy)}
    finally:
        running.kill()
        running.wait()
        for thread in writing:
            thread.join()
    assert not clients[0].failed
    fresh = tmp_path / "fresh"
    done = subprocess.run(
        [sys.executable, "-m", "darby", "desk", "--data", str(fresh), "restore", str(copy)], cwd=ROOT, check=False
    )
    assert done.returncode == 0
    again, link = _started(fresh)
    try:
        page = Client(link).opener.open(link.rpartition("/in/")[0] + "/job/firehall/record/", timeout=30)
        assert page.status == 200
    finally:
        again.kill()
        again.wait()
    assert before <= {id.replace("-", "") for id in _kept(fresh / "desk.sqlite3")}
