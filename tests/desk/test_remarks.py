"""What somebody wrote behind a ``#`` outlives every change that the desk makes, in every example."""

from __future__ import annotations

import re
import tomllib
from uuid import uuid4

import pytest

from darby.desk import examples
from darby.job.spans import remarks

JOBS = examples.jobs()


@pytest.fixture
def copied(desk):
    """A copy of an example as it was written."""
    from darby.desk.kept import saving

    def copy(name: str) -> str:
        made = f"remarks-{uuid4().hex[:8]}"
        saving.keep(made, JOBS[name], desk.person("remarks", "owner"))
        return made

    return copy


def text(document: str) -> str:
    from darby.desk.kept import saving

    return saving.latest(document).text


def fields(page: str, form: str) -> dict[str, str]:
    """What stands in a form, as a browser would send it."""
    part = re.search(rf"<form[^>]*{form}.*?</form>", page, re.S)
    assert part, form
    found = dict[str, str]()
    for tag in re.findall(r"<input[^>]*>", part[0], re.S):
        name, value = (re.search(rf'\b{key}="([^"]*)"', tag, re.S) for key in ("name", "value"))
        if name and 'type="checkbox"' not in tag and name[1] != "csrfmiddlewaretoken":
            found[name[1]] = _plain(value[1]) if value else ""
    for name, inner in re.findall(r'<textarea[^>]*\bname="([^"]*)"[^>]*>(.*?)</textarea>', part[0], re.S):
        found[name] = _plain(inner)
    for name, inner in re.findall(r'<select[^>]*\bname="([^"]*)"[^>]*>(.*?)</select>', part[0], re.S):
        chosen = re.search(r'value="([^"]*)"[^>]*\bselected', inner)
        found[name] = _plain(chosen[1]) if chosen else ""
    return found


def _plain(said: str) -> str:
    for sign, means in (("&quot;", '"'), ("&#x27;", "'"), ("&lt;", "<"), ("&gt;", ">"), ("&amp;", "&")):
        said = said.replace(sign, means)
    return said


def one_line_changed(document: str, name: str, *, lines: int = 1) -> None:
    old, new = JOBS[name].split("\n"), text(document).split("\n")
    assert remarks(text(document)) == remarks(JOBS[name])
    gone, come = ([row for row in one if row not in other] for one, other in ((old, new), (new, old)))
    assert len(gone) <= lines, gone
    assert 1 <= len(come) <= lines, come
    assert [row for row in new if row in old] == [row for row in old if row in new]


@pytest.mark.parametrize("name", JOBS)
def test_by_a_form(owner, copied, name):
    document = copied(name)
    at = f"/document/{document}/section/job"
    said = fields(owner.get(at).text, 'class="fill"') | {"job.customer": 'the "Grange"'}
    assert owner.post(at, _form=at, **said).status == 200
    assert tomllib.loads(text(document))["job"]["customer"] == 'the "Grange"'
    one_line_changed(document, name)


SECTIONS = [
    (name, key) for name in JOBS for key in tomllib.loads(JOBS[name]) if key not in ("darby", "job", "firm", "units")
]


@pytest.mark.parametrize(("name", "key"), SECTIONS)
def test_a_form_that_is_sent_as_it_stands_changes_nothing(owner, copied, name, key):
    document = copied(name)
    at = f"/document/{document}/section/{key}"
    page = owner.get(at)
    assert page.status == 200
    reply = owner.post(at, _form=at, **fields(page.text, 'class="fill"'))
    assert reply.status == 200
    assert text(document) == JOBS[name]


BY_SKETCH = {
    "firehall": ("bay-east", "length", "34'-1\"", 1),
    "garden-wall": ("wall-front", "length", "61'", 1),
    "recoat": ("house-1", "o.1.at", "6'", 1),
}


@pytest.mark.parametrize("name", BY_SKETCH)
def test_by_the_sketch(owner, copied, name):
    document = copied(name)
    at, key, to, lines = BY_SKETCH[name]
    page = f"/job/{document}/wall/?at={at}"
    said = fields(owner.get(page).text, 'id="sketch-list"') | {key: to}
    assert owner.post(f"/job/{document}/sketch?at={at}", _form=page, **said).status == 200
    one_line_changed(document, name, lines=lines)
    assert to.replace('"', '\\"') in text(document)


def test_an_opening_by_the_sketch_leaves_the_others_as_they_were_written(owner, copied):
    document = copied("firehall")
    page = f"/job/{document}/wall/?at=bay-south"
    said = fields(owner.get(page).text, 'id="sketch-list"') | {"o.0.at": "2'"}
    assert owner.post(f"/job/{document}/sketch?at=bay-south", _form=page, **said).status == 200
    one_line_changed(document, "firehall")
    assert "door 3068 at 2', reveal 4" in text(document)


@pytest.mark.parametrize(
    ("name", "page", "said"),
    [
        ("firehall", "coats", {"at": "bay-east", "way": "two-coat"}),
        ("firehall", "joints", {"at": "bay-south", "place.new": "8'", "state.new": "pinned", "way.new": "upright"}),
        ("chimney-soffit", "joints", {"at": "eave", "place.new": "10'", "state.new": "pinned", "way.new": "upright"}),
    ],
)
def test_by_put_on(owner, copied, name, page, said):
    document = copied(name)
    act = {"coats": "take", "joints": "keep"}[page]
    reply = owner.post(f"/job/{document}/{page}/{act}", _form=f"/job/{document}/{page}/", base="1", **said)
    assert reply.status == 200, re.sub(r"<[^>]+>", " ", reply.text)[-3000:]
    assert remarks(text(document)) == remarks(JOBS[name])
    old, new = JOBS[name].split("\n"), text(document).split("\n")
    assert len(new) > len(old)
    assert [row for row in new if row in set(old)][: len(old)]
    assert all(row in new for row in old)


def test_by_a_line_of_the_crew_and_a_reading(owner, crew, copied):
    document = copied("firehall")
    day = {"coat": "dash-bond", "on": "2026-10-01", "at": "bay-north/rest", "id": str(uuid4())}
    assert crew.post(f"/job/{document}/days/down", **day).status == 302
    assert owner.post(f"/job/{document}/days/take", line=day["id"], do="take").status == 200
    assert remarks(text(document)) == remarks(JOBS["firehall"])
    assert all(row in text(document).split("\n") for row in JOBS["firehall"].split("\n"))
    assert "[[done]]" in text(document)


def test_by_a_finding_on_an_old_wall(owner, copied):
    document = copied("window-patch")
    page = f"/job/{document}/survey/?at=east"
    said = {"base": "1", "kind": "loose", "points": "15', 7'\n17', 7'\n17', 8'"}
    assert owner.post(f"/job/{document}/survey/add?at=east", _form=page, **said).status == 200
    assert remarks(text(document)) == remarks(JOBS["window-patch"])
    assert all(row in text(document).split("\n") for row in JOBS["window-patch"].split("\n"))
    assert tomllib.loads(text(document))["survey"][0]["loose"]


def test_a_remark_alone_is_a_revision_of_its_own_that_says_so(owner, copied):
    document = copied("garden-wall")
    more = JOBS["garden-wall"] + "# ask about the gate\n"
    assert owner.post(f"/document/{document}/text", base="1", text=more).status == 200
    assert text(document) == more
    assert "every value is as it was" in owner.get(f"/document/{document}/history").text


def test_back_and_forward_again(owner, copied):
    document = copied("firehall")
    at = f"/document/{document}/section/job"
    said = fields(owner.get(at).text, 'class="fill"') | {"job.customer": "the Grange"}
    owner.post(at, _form=at, **said)
    changed = text(document)
    assert owner.post(f"/job/{document}/step", base="2", way="back", page="wall").status == 200
    assert text(document) == JOBS["firehall"]
    assert owner.post(f"/job/{document}/step", base="3", way="forward", page="wall").status == 200
    assert text(document) == changed
