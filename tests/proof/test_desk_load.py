"""Ten people for a minute, reading and writing at once: no error, and how long the slow ones waited."""

from __future__ import annotations

import json
import threading
import time
import urllib.request
from pathlib import Path
from uuid import uuid4

import pytest

from tests.desk.running import Browserless, started

pytestmark = pytest.mark.proof
PEOPLE, SECONDS = 10, 60.0
PAGES = ("/", "/job/garden-wall/wall/", "/job/garden-wall/coats/", "/job/firehall/days/", "/job/firehall/record/")


def _worked(who: Browserless, n: int, until: float, took: list[float], wrong: list[str]) -> None:
    try:
        token = json.loads(who.get("/token").text)["token"]
        turn = n
        while time.monotonic() < until:
            turn += 1
            begun = time.perf_counter()
            if turn % 4:
                path = PAGES[turn % len(PAGES)]
                status = who.get(path).status
            else:
                path = "/job/firehall/lines"
                line = {"id": str(uuid4()), "kind": "note", "at": "job", "said": {"text": f"{n} {turn}"}}
                kind = {"Content-Type": "application/json", "X-CSRFToken": token}
                sent = urllib.request.Request(who.address + path, json.dumps({"lines": [line]}).encode(), kind)
                status = who._open(sent).status
            took.append(time.perf_counter() - begun)
            if status != 200:
                wrong.append(f"{path}: {status}")
    except Exception as error:  # whatever ends one person's minute is an error of the desk
        wrong.append(repr(error))


def test_ten_people_for_a_minute(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    desk, server = started(tmp_path / "data")
    people = [Browserless(desk.address, desk.link(f"person {n}", "owner" if n % 2 else "crew")) for n in range(PEOPLE)]
    took: list[float] = []
    wrong: list[str] = []
    until, worked = time.monotonic() + SECONDS, time.process_time()
    threads = [
        threading.Thread(target=_worked, args=(who, n, until, took, wrong)) for n, who in enumerate(people)
    ]  # fmt: skip
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    worked = time.process_time() - worked
    server.close()  # type: ignore[attr-defined]
    took.sort()
    middle, slow = (took[int(len(took) * share)] * 1e3 for share in (0.5, 0.95))
    with capsys.disabled():
        print(f"\n{len(took)} answers, median {middle:.0f} ms, p95 {slow:.0f} ms", end="; ")
        print(f"{worked / len(took) * 1e3:.1f} ms of the processor each, those who ask included")
    assert not wrong, wrong[:5]
    assert len(took) > PEOPLE * 10
