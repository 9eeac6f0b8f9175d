"""What nobody writes is refused with a sentence wherever it may come in, and what stood before stands."""

from __future__ import annotations

import json
import urllib.request
from uuid import uuid4

import pytest

from tests.desk.running import Browserless, Reply

SHED = """
darby = 1
[job]
name = "Shed of odd signs"
as_of = 2026-09-30
[[wall]]
id = "south"
length = "20'"
height = "10'"
base = "concrete"
[coats]
finish = "float"
"""


@pytest.fixture
def shed(desk):
    from darby.desk.kept import saving

    name = f"odd-{uuid4().hex[:8]}"
    saving.keep(name, SHED, desk.person("odd signs", "owner"))
    return name


def parcel(who: Browserless, document: str, **line: object) -> Reply:
    token = json.loads(who.get("/token").text)["token"]
    said = {"id": str(uuid4()), "kind": "note", "at": "job", "said": {"text": "damp"}, **line}
    body = json.dumps({"lines": [said]}).encode()
    headers = {"Content-Type": "application/json", "X-CSRFToken": token}
    return who._open(urllib.request.Request(f"{who.address}/job/{document}/lines", body, headers))


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ({"said": {"text": "da\x00mp"}}, "U+0000"),
        ({"said": {"text": "\ud800"}}, "U+D800"),
        ({"said": {"text": "damp", "\x1b": "x"}}, "U+001B"),
        ({"at": "so\x07uth"}, "U+0007"),
        ({"made": "0000-01-01T00:00:00Z"}, "no moment"),
        ({"made": "9999-12-31T23:59:59-12:00"}, "no moment"),
        ({"made": "2026-05-04T07:30:00"}, "no moment"),
    ],
)
def test_a_line_of_the_log_is_refused_and_the_others_are_not(crew, shed, line, says):
    from darby.desk.kept import saving

    reply = parcel(crew, shed, **line)
    told = json.loads(reply.text)
    assert (reply.status, told["kept"]) == (200, [])
    assert says in told["refused"][0]["says"]
    assert saving.log(shed) == []
    assert json.loads(parcel(crew, shed).text)["kept"]


@pytest.mark.parametrize(
    ("fields", "says"),
    [({"text": "a\x00b"}, "U+0000"), ({"text": "a", "made": "9999-12-31T23:59:59-12:00"}, "no moment")],
)
def test_a_note_by_a_form_is_refused(crew, shed, fields, says):
    from darby.desk.kept import saving

    reply = crew.post(f"/job/{shed}/log", id=str(uuid4()), at="job", **fields)
    assert reply.status == 400
    assert says in reply.text
    assert saving.log(shed) == []


def test_a_name_of_a_job_is_refused_at_its_field(owner, shed):
    from darby.desk.kept import saving

    reply = owner.post(f"/document/{shed}/section/job", base="1", **{"job.name": "Sh\x00ed", "job.as_of": "2026-09-30"})
    assert reply.status == 422
    assert "signs that cannot be printed" in reply.text
    assert saving.latest(shed).number == 1
    reply = owner.post("/new/wall", **{"job.name": "\x1b", "wall.0.length": "9'", "wall.0.height": "8'"})
    assert reply.status == 422
    assert "signs that cannot be printed" in reply.text


def test_it_is_refused_in_the_text_however_it_is_spelled(owner, shed):
    for name in ('"a\\u0000b"', '"a\x00b"'):
        text = SHED.replace('"Shed of odd signs"', name)
        reply = owner.post(f"/document/{shed}/text", base="1", text=text)
        assert reply.status == 422, name


def test_a_name_of_somebody_is_refused(owner):
    reply = owner.post("/people", name="Jo\x00", role="crew")
    assert reply.status == 400
    assert "U+0000" in reply.text
