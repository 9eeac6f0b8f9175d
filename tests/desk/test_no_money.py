"""Whatever the crew's session can fetch, of every example: pages, answers to scripts, PDFs. No sum stands in it."""

from __future__ import annotations

import dataclasses
import io
import re
import urllib.parse
import urllib.request
from decimal import Decimal

import pytest
from pypdf import PdfReader

from darby.desk.money import MONEY

JOBS = ("chimney-soffit", "firehall", "garden-wall", "recoat", "window-patch")
ADDRESS = re.compile(r"""(?:href|src|action|hx-get|data-try)="(/[^"#]*)""")
SCRIPT = re.compile(r"<script.*?</script>", re.DOTALL)
PLACES = re.compile(r"""\s(?:d|points|x|y|cx|cy|r|width|height|viewBox|transform)="[^"]*\"""")
"""Where things of a drawing lie on the screen is no money, though it may read like it."""
OWNERS = ("quote", "working", "order", "letter", "wall-")


def sums(value: object) -> set[str]:
    """Every amount of money in an answer, as papers write it."""
    if isinstance(value, Decimal):
        return {f"{value:,.2f}"}
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return set().union(*(sums(getattr(value, field.name)) for field in dataclasses.fields(value)))
    if isinstance(value, (tuple, list, frozenset)):
        return set().union(*(sums(one) for one in value))
    if isinstance(value, dict):
        return set().union(*(sums(one) for one in value.values()))
    return set()


def fetched(who, address: str) -> tuple[int, str, bytes]:
    request = urllib.request.Request(who.address + address)
    try:
        with who.opener.open(request, timeout=120) as reply:
            return reply.status, reply.headers.get("Content-Type", ""), reply.read()
    except urllib.error.HTTPError as error:
        return error.code, "", b""


def words_of(kind: str, data: bytes) -> str:
    if kind == "application/pdf":
        return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)
    return PLACES.sub("", SCRIPT.sub("", data.decode("utf-8", "replace")))


@pytest.fixture(scope="module")
def papers(desk) -> dict[str, tuple[str, ...]]:
    from darby.desk.reading import read
    from darby.papers import each_paper

    return {job: tuple(name for name, _ in each_paper(read(job).answers)) for job in JOBS}


@pytest.mark.parametrize("job", JOBS)
def test_no_sum_is_in_anything_that_the_crew_can_fetch(desk, crew, papers, job):
    from darby.desk.places import stage_pages
    from darby.desk.reading import read

    price = read(job).answers.answered("price")
    amounts = {s for s in sums(price) if len(s) > 5}
    assert price is None or len(amounts) > 5
    pattern = re.compile("|".join(rf"(?<![\d.,]){re.escape(s)}(?!\d)" for s in amounts)) if amounts else None
    ahead = ["/", f"/job/{job}/", "/token", "/pocket", "/drawing.css", "/me"]
    ahead += [f"/job/{job}/{page}/" for page in stage_pages()] + [f"/job/{job}/paper/{name}" for name in papers[job]]
    seen: dict[str, str] = {}
    while ahead:
        address = ahead.pop()
        if address in seen or address.startswith("/static/"):
            continue
        status, kind, data = fetched(crew, address)
        seen[address] = kind if status == 200 else ""
        if status != 200:
            continue
        text = words_of(kind, data)
        if not kind.startswith(("text/css", "text/javascript")):
            assert not MONEY.search(text), (address, MONEY.search(text))
            assert pattern is None or not pattern.search(text), (address, pattern.search(text))
        if kind.startswith("text/html"):
            found = (urllib.parse.unquote(a).replace("&amp;", "&") for a in ADDRESS.findall(text))
            ahead += [a for a in found if a.startswith(f"/job/{job}/") and a not in seen]
    kinds = [kind.partition(";")[0] for kind in seen.values() if kind]
    assert kinds.count("application/pdf") >= 2 and kinds.count("text/html") >= 8, seen


@pytest.mark.parametrize("job", JOBS)
def test_the_owners_papers_are_refused_to_the_crew(crew, owner, papers, job):
    own = [name for name in papers[job] if name.startswith(OWNERS)]
    assert own and any(name.startswith("working") for name in own)
    for name in own:
        assert crew.get(f"/job/{job}/paper/{name}").status == 403, name
    assert owner.get(f"/job/{job}/paper/{own[-1]}").status == 200


def test_the_search_finds_what_it_looks_for(owner):
    """The same search on the owner's quote: or it would find nothing anywhere."""
    from darby.desk.reading import read

    _, kind, data = fetched(owner, "/job/garden-wall/paper/quote.pdf")
    text = words_of(kind, data)
    total = f"{read('garden-wall').answers.good('price')['job'].total.value:,.2f}"
    assert MONEY.search(text) and total in text and total in sums(read("garden-wall").answers.good("price")["job"])
