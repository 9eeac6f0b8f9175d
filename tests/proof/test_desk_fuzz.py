"""Whatever is posted to whichever address of the desk: it is kept, refused or not there, and never an error of ours.

Hypothesis makes the forms: fields that are missing, twice, enormous, of another kind, numbers of revisions that never
were, signs that nobody writes. In one process, by Django's test client, as the owner.
"""

from __future__ import annotations

import hashlib
import json
import logging
import os
from collections.abc import Iterator
from typing import Any
from uuid import uuid4

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

pytestmark = pytest.mark.proof
EXAMPLES = 10
"""Of forms for each address."""
SHED = """
darby = 1
[job]
name = "Shed"
as_of = 2026-09-30
[[wall]]
id = "south"
name = "Shed, south"
length = "20'"
height = "10'"
base = "block"
block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
openings = ["door 3068 at 2', reveal 4\\"", "window 3040 at 10', up 3', reveal 4\\""]
[[readings]]
surface = "south"
points = [["1'", "1'", "0 in"], ["6'", "5'", "1/8 in"], ["9'", "9'", "1/8 in"]]
[[survey]]
surface = "south"
hollow = [{ outline = ["1', 1'", "3', 1'", "3', 3'"] }]
[coats]
finish = "float"
"""
DOCUMENT = "fuzzed-shed"
PICTURE = b"a picture that nobody opens"
SHA = hashlib.sha256(PICTURE).hexdigest()
ODD = (
    "", " ", "\x00", "a\x00b", "\x07", "\x7f", "²", "--5", "-1", "0", "1", "2", "٣", "１", "9" * 40, "9" * 5000,
    "1e999", "nan", "inf", "x" * 200_000, "[" * 3000, "{", "{ a = ", "{}", "[]", "[1, [2]]", "{ kind = 1 }",
    '"""', "'", "\\",
    "2026-13-45", "0000-00-00", "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-12:00", "2026-01-01", "true", "null",
    "<script>", "../..", "%00", "\u202e", "a\r\nb", "12'", "1/0", "1/0 in", "-3'", "99999999999999'", "1e400'", "12 x",
    "door 3068 at 3'", "wall 24' x 8', block", "south", "south/all", "front", "job", "o.0.at", "o.9.gap", "c.0.u",
    "x.y.z", "o.².gap", "o.0.gap", "hollow", "forward", "keep", "take", "leave", "work", "brown",
    "00000000-0000-4000-8000-000000000000",
)  # fmt: skip
VALUES = st.sampled_from(ODD) | st.text(max_size=12)
BASES = st.sampled_from(["1", "0", "-1", "2", "999999", "9" * 25, "²", "", "x"])

WALL = {f"o.{n}.{key}" for n in (0, 1, 7) for key in ("at", "up", "width", "height", "gone")} | {
    *(f"c.{n}.{key}" for n in (0, 3, 9, "new") for key in ("u", "v", "gone")), "length", "height",
    "gable", "what", "typed",
}  # fmt: skip
LINES = {f"{key}.{n}" for n in ("0", "1", "new", "²", "99") for key in ("place", "state", "way", "gone")} | {
    "at",
    "lay",
}
MARKS = {
    "surface", "act", "x", "y", "u", "v", "mark-rough", "key", *(f"corner{n}" for n in range(1, 5)), "frame-rough",
    "start", "end", "line-rough", "kind", "n", "tick", "shown", "sheet", "id", "name",
}  # fmt: skip
LINE = {"id", "kind", "at", "text", "made", "from"}
FIELDS: dict[str, set[str]] = {
    f"/job/{DOCUMENT}/sketch?at=south": WALL,
    f"/job/{DOCUMENT}/sketch/line": {"line"},
    f"/job/{DOCUMENT}/sketch/opening?at=south": {"line"},
    f"/job/{DOCUMENT}/step": {"page", "way"},
    f"/job/{DOCUMENT}/readings?at=south": {"u", "v", "out", "id"},
    f"/job/{DOCUMENT}/readings/take?at=south": {"take"},
    f"/job/{DOCUMENT}/survey/add?at=south": {"kind", "points", "name", "push", "lath", "width"},
    f"/job/{DOCUMENT}/survey/keep?at=south": {
        "taps", *(f"hollow.{n}.{k}" for n in (0, 9) for k in ("points", "name", "push", "gone")),
    },
    f"/job/{DOCUMENT}/days/down": {"coat", "on", "remark", "id", "at"},
    f"/job/{DOCUMENT}/days/take": {"line", "do"},
    f"/job/{DOCUMENT}/quote/send": {"id", "revision", "firm", "book", "made"},
    f"/job/{DOCUMENT}/joints/keep": LINES,
    f"/job/{DOCUMENT}/joints/try": LINES,
    f"/job/{DOCUMENT}/mixes/measure": {"gauge", "box", "count", "holds", "mixer", "at"},
    f"/job/{DOCUMENT}/match/keep": {
        "at", "board", "by", "on", "light", "off", "sand", "paint_coats", "depths", "says", "sieve.0", "amount.0",
    },
    f"/job/{DOCUMENT}/coats/take": {"at", "way"},
    f"/job/{DOCUMENT}/log": LINE,
    f"/job/{DOCUMENT}/lines": LINE,
    f"/job/{DOCUMENT}/photographs": LINE,
    f"/job/{DOCUMENT}/away": {"away", "id", "back"},
    f"/job/{DOCUMENT}/photograph/{SHA}/marks": MARKS,
    f"/job/{DOCUMENT}/photograph/{SHA}/confirm": MARKS,
    f"/document/{DOCUMENT}/text": {"text"},
    f"/document/{DOCUMENT}/back/1": set(),
    f"/document/{DOCUMENT}/back/{'9' * 30}": set(),
    "/people": {"name", "role", "language", "again"},
    "/people/9/shut-out": set(),
    "/me": {"language", "system", "name", "password", "password-now"},
    "/look": {"back"},
    "/new": set(),
    "/new/wall": set(), "/new/house": set(), "/new/garden_wall": set(),
    "/sign-in": {"name", "password", "next"},
}  # fmt: skip
"""What a form of each address may hold; those of sections and shapes are read off their own pages."""
PAGES = [
    f"/document/{DOCUMENT}/section/{key}"
    for key in ("job", "wall", "coats", "readings", "survey", "price", "done", "house")
]
PAGES += [f"/document/firm/section/{key}" for key in ("crew", "materials", "name")] + ["/new/wall", "/new/house"]
AFTER_ALL = {"sign-out"}
"""Takes the session away: posted to last."""


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "1"
    from django.conf import settings as of_django

    from darby.desk.home import Home
    from darby.desk.serving import prepare

    if not of_django.configured:
        prepare(Home(tmp_path_factory.mktemp("fuzz") / "data"))
    from django.test import Client

    from darby.desk.kept import saving
    from darby.desk.kept.models import Person

    who = Person.objects.filter(name="fuzz").first() or Person.objects.add("fuzz", "owner")
    if saving.latest(DOCUMENT) is None:
        saving.keep(DOCUMENT, SHED, who)
        said = {"text": "", "size": "400 x 300"}
        saving.note_down(uuid4(), DOCUMENT, "photograph", who, said=said, photograph=(PICTURE, "image/jpeg"))
    made = Client(raise_request_exception=False, SERVER_NAME="localhost")
    made.force_login(who, "django.contrib.auth.backends.ModelBackend")
    logging.disable(logging.CRITICAL)
    yield made
    logging.disable(logging.NOTSET)


def names(client: Any, page: str) -> list[str]:
    """Every field of the forms on a page."""
    import re

    reply = client.get(page)
    assert reply.status_code in (200, 404), page
    return sorted(set(re.findall(r'\bname="([^"]+)"', reply.content.decode())) - {"csrfmiddlewaretoken"})


def posted(client: Any, address: str, fields: dict[str, Any], **more: Any) -> None:
    reply = client.post(address, fields, **more)
    if reply.status_code >= 500:
        import traceback

        told = reply.exc_info if hasattr(reply, "exc_info") else None
        pytest.fail(f"{address} {str(fields)[:600]}: {''.join(traceback.format_exception(*told)) if told else reply}")


def forms(fields: list[str]) -> st.SearchStrategy[dict[str, Any]]:
    value = VALUES | st.lists(VALUES, max_size=3)
    known = st.dictionaries(st.sampled_from(fields), value, max_size=8) if fields else st.just({})
    base = st.fixed_dictionaries({}, optional={"base": BASES, "from": VALUES, "": VALUES, "nobody": VALUES})
    return st.tuples(known, base).map(lambda both: {**both[1], **both[0]})


def fuzzed(times: int) -> Any:
    """Found is enough: to make it small would ask the desk a hundred times more."""
    return settings(
        max_examples=times,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )


@pytest.mark.parametrize("address", FIELDS)
def test_a_form_is_never_an_error(client: Any, address: str) -> None:
    @seed(7)
    @fuzzed(EXAMPLES)
    @given(forms(sorted(FIELDS[address])))
    def one(fields: dict[str, Any]) -> None:
        posted(client, address, fields)

    one()


@pytest.mark.parametrize("page", PAGES)
def test_a_form_made_from_the_file_is_never_an_error(client: Any, page: str) -> None:
    fields = names(client, page)

    @seed(7)
    @fuzzed(EXAMPLES)
    @given(forms(fields))
    def one(fields: dict[str, Any]) -> None:
        posted(client, page, fields)

    one()


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | VALUES | st.just("\ud800"),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(VALUES, inner, max_size=3),
    max_leaves=6,
)
LOG_LINE = st.fixed_dictionaries(
    {},
    optional={
        "id": st.uuids().map(str) | JSON,
        "kind": st.sampled_from(["note", "reading", "done"]) | JSON,
        "at": st.sampled_from(["job", "south"]) | JSON,
        "made": JSON,
        "said": st.dictionaries(st.sampled_from(["text", "u", "v", "out", "coat", "on"]) | VALUES, JSON, max_size=5)
        | JSON,
    },
)


def test_a_parcel_of_lines_is_never_an_error(client: Any) -> None:
    @seed(7)
    @fuzzed(EXAMPLES * 5)
    @given(st.fixed_dictionaries({"lines": st.lists(LOG_LINE, max_size=4) | JSON}) | JSON)
    def one(parcel: Any) -> None:
        body = json.dumps(parcel)
        posted(client, f"/job/{DOCUMENT}/lines", body, content_type="application/json")  # type: ignore[arg-type]

    one()
    for page in ("record", "days", "grounds"):
        assert client.get(f"/job/{DOCUMENT}/{page}/").status_code == 200, page


def test_every_address_that_takes_something_is_here(client: Any) -> None:
    from django.urls import get_resolver, resolve

    here = {resolve(address.partition("?")[0]).url_name for address in (*FIELDS, *PAGES)} | AFTER_ALL
    takes = set()
    for pattern in get_resolver().url_patterns:
        kwargs = {name: _value(name, kind) for name, kind in pattern.pattern.converters.items()}
        from django.urls import reverse

        if pattern.name not in AFTER_ALL and client.post(reverse(pattern.name, kwargs=kwargs)).status_code not in (
            405,
            404,
        ):
            takes.add(pattern.name)
    assert takes - here == set()


def _value(name: str, converter: Any) -> Any:
    if type(converter).__name__ == "UUIDConverter":
        return uuid4()
    known = {"document": DOCUMENT, "number": 1, "id": 1, "shape": "wall", "key": "coats", "sha256": SHA, "name": "wall"}
    return known.get(name, "x")
