"""Many who write at once wait for each other: none is answered with an error, and all that was told is there."""

from __future__ import annotations

import json
import sqlite3
import threading
import time
import urllib.parse
import urllib.request
from contextlib import closing
from uuid import uuid4

import pytest

from tests.desk.running import Browserless

WRITERS, EACH = 10, 4
JOB = """
darby = 1
[job]
name = "Many at once"
as_of = 2026-09-30
[[wall]]
id = "south"
length = "20'"
height = "10'"
base = "concrete"
openings = []
[coats]
finish = "float"
"""


@pytest.fixture
def job(desk):
    from darby.desk.kept import saving

    name = f"many-{uuid4().hex[:8]}"
    saving.keep(name, JOB, desk.person("many", "owner"))
    return name


def at_once(count: int, act) -> list:
    """What ``count`` threads that begin together come back with."""
    gate, found = threading.Barrier(count), [None] * count

    def one(n: int) -> None:
        gate.wait()
        found[n] = act(n)

    threads = [threading.Thread(target=one, args=(n,)) for n in range(count)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return found


def note(who: Browserless, document: str, token: str) -> tuple[int, str]:
    id = str(uuid4())
    body = json.dumps({"lines": [{"id": id, "kind": "note", "at": "job", "said": {"text": "at once"}}]}).encode()
    headers = {"Content-Type": "application/json", "X-CSRFToken": token, "Accept": "application/json"}
    return who._open(urllib.request.Request(f"{who.address}/job/{document}/lines", body, headers)).status, id


def test_many_who_write_lines_and_sign_in_wait_for_each_other(desk, job):
    links = [desk.link(f"many {n}", "crew") for n in range(WRITERS)]

    def act(n: int) -> list[tuple[int, str]]:
        who = Browserless(desk.address, links[n])  # signing in writes too
        token = json.loads(who.get("/token").text)["token"]
        return [note(who, job, token) for _ in range(EACH)]

    found = [one for some in at_once(WRITERS, act) for one in some]
    assert {status for status, _ in found} == {200}
    from darby.desk.kept import saving

    assert {str(entry.id) for entry in saving.log(job)} == {id for _, id in found}
    assert len(found) == WRITERS * EACH


def test_many_who_change_one_job_are_all_kept(desk, job):
    from darby.desk.kept import saving

    owner = desk.signed_in("owner")
    token = json.loads(owner.get("/token").text)["token"]

    def act(n: int) -> int:
        who = Browserless(desk.address)
        for cookie in owner.jar:
            who.jar.set_cookie(cookie)
        data = (
            f"base=1&job.{('customer', 'address', 'number')[n % 3]}=the+same&job.name=Many+at+once&job.as_of=2026-09-30"
        )
        headers = {"X-CSRFToken": token, "Referer": who.address}
        request = urllib.request.Request(f"{who.address}/document/{job}/section/job", data.encode(), headers)
        return who._open(request).status

    assert set(at_once(9, act)) == {200}
    head = saving.tables(saving.latest(job).text)["job"]
    assert [head.get(key) for key in ("customer", "address", "number")] == ["the same"] * 3


def test_two_who_begin_a_job_of_one_name_at_once_have_one_each(desk):
    from darby.desk.kept.models import Revision

    owner = desk.signed_in("owner")
    token = json.loads(owner.get("/token").text)["token"]
    name = f"begun {uuid4().hex[:6]}"

    def act(_: int) -> str:
        who = Browserless(desk.address)
        for cookie in owner.jar:
            who.jar.set_cookie(cookie)
        said = {"job.name": name, "job.as_of": "2026-09-30", "wall.0.length": "9'", "wall.0.height": "8'"}
        said |= {"wall.0.base": "block", "wall.0.block": "dense", "coats.finish": "float"}
        headers = {"X-CSRFToken": token, "Referer": who.address}
        return who._open(
            urllib.request.Request(f"{who.address}/new/wall", urllib.parse.urlencode(said).encode(), headers)
        ).address

    found = set(at_once(4, act))
    assert len(found) == 4
    assert Revision.objects.filter(document__startswith=name.replace(" ", "-")).count() == 4


def held(desk, seconds: float, began: threading.Event) -> None:
    with closing(sqlite3.connect(desk.folder / "desk.sqlite3", isolation_level=None)) as base:
        base.execute("BEGIN IMMEDIATE")
        began.set()
        time.sleep(seconds)
        base.execute("ROLLBACK")


def test_who_writes_while_another_holds_the_data_base_waits(desk, job, crew):
    token = json.loads(crew.get("/token").text)["token"]
    began = threading.Event()
    holder = threading.Thread(target=held, args=(desk, 1.5, began))
    holder.start()
    began.wait()
    start = time.monotonic()
    status, _ = note(crew, job, token)
    holder.join()
    assert status == 200
    assert time.monotonic() - start > 1


def test_who_waits_too_long_is_told_to_send_it_again(desk, job, crew, monkeypatch):
    from django.db.utils import OperationalError

    from darby.desk.kept import saving

    def locked(*_, **__):
        raise OperationalError("database is locked")

    token = json.loads(crew.get("/token").text)["token"]
    monkeypatch.setattr(saving, "note_down", locked)
    status, _ = note(crew, job, token)
    assert status == 503
    page = crew.post(f"/job/{job}/log", id=str(uuid4()), at="job", text="x")
    assert page.status == 503
    assert "send it again in a moment" in page.text
    assert page.headers["Retry-After"]
