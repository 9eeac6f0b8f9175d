"""Money: a quote that was sent stays as it was sent, whatever changes, and can be taken again byte for byte."""

from __future__ import annotations

import hashlib
import re
import sqlite3
from pathlib import Path
from uuid import UUID, uuid4

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
FIREHALL = (EXAMPLES / "firehall.toml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def who(desk):
    return desk.person("money", "owner")


@pytest.fixture
def job(who):
    from darby.desk.kept import saving

    name = f"money-{uuid4().hex[:8]}"
    saving.keep(name, FIREHALL, who)
    return name


def keep(job, who, was, now):
    from darby.desk.kept import saving

    latest = saving.latest(job)
    assert was in latest.text
    saving.keep(job, latest.text.replace(was, now), who, base=latest.number)


def fields(page):
    """The hidden fields of the form that sends."""
    form = re.search(r'<form class="fill send".*?</form>', page, re.DOTALL)[0]
    return dict(re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)"', form))


def send(owner, job, **other):
    address = f"/job/{job}/quote/"
    sent = fields(owner.get(address).text) | other
    sent.pop("csrfmiddlewaretoken")
    return owner.post(f"{address}send", _from=address, **sent), sent


@pytest.fixture
def sent(owner, job):
    from darby.desk.quoting import frozen

    reply, _ = send(owner, job)
    assert (reply.status, reply.address) == (302, f"/job/{job}/quote/")
    (one,) = frozen.quotes(job)
    return one


def taken(owner, job, one):
    from darby.desk.quoting import frozen

    data = frozen.pdf_of(job, one.id)
    reply = owner.get(f"/job/{job}/quote/sent/{one.id}")
    assert reply.headers["Content-Type"] == "application/pdf"
    assert reply.text == data.decode("utf-8", "replace")
    return data


# --- freezing -----------------------------------------------------------------------------------------


def test_a_sent_quote_says_what_it_was_made_of(owner, job, sent):
    from darby.answers import answer
    from darby.desk.kept import FIRM, saving
    from darby.job import loads
    from darby.papers import paper_set, render

    answers = answer(loads(FIREHALL, firm=saving.firm_text()))
    assert sent.total == f"${answers.of('price').total.value:,}"
    assert sent.stood == {
        "revision": "1", "firm": str(saving.latest(FIRM).number), "book": answers.book_version,
        "made": answers.made_with,
    }  # fmt: skip
    data = taken(owner, job, sent)
    assert data == render(paper_set(answers)["quote.pdf"])
    assert hashlib.sha256(data).hexdigest() == sent.paper
    page = owner.get(f"/job/{job}/quote/").text
    assert sent.paper[:8] in page
    assert "Every number still reads as it was sent." in page


def test_sent_twice_under_one_id_it_is_sent_once(owner, job):
    from darby.desk.quoting import frozen

    _, fields_sent = send(owner, job)
    reply, _ = send(owner, job, **fields_sent)
    assert reply.status == 302
    assert len(frozen.quotes(job)) == 1


def test_what_changed_while_he_looked_is_not_sent(owner, job, who):
    from darby.desk.quoting import frozen

    keep(job, who, 'height = "12\'"', 'height = "13\'"')
    reply, _ = send(owner, job, revision="1")
    assert reply.status == 409
    assert "Not sent." in reply.text
    assert frozen.quotes(job) == []


def test_a_wrong_id_is_nobodys(owner, job):
    assert send(owner, job, id="no-id")[0].status == 404
    assert owner.get(f"/job/{job}/quote/sent/{uuid4()}").status == 404


def test_where_something_has_no_price_nothing_can_be_sent(owner, who):
    from darby.desk.kept import FIRM, saving
    from darby.desk.quoting import frozen
    from darby.desk.reading import read

    firm = saving.latest(FIRM)
    name = f"money-{uuid4().hex[:8]}"
    saving.keep(name, FIREHALL.replace('number = "26-41"', 'number = "26-42"'), who)
    without = re.sub(r"\[\[buys\]\]\nitem = \"lime\".*?(?=\n\[)", "", firm.text, flags=re.DOTALL)
    assert without != firm.text
    saving.keep(FIRM, without, who, base=firm.number)
    try:
        with pytest.raises(frozen.Incomplete):
            frozen.freeze(uuid4(), read(name), who)
        page = owner.get(f"/job/{name}/quote/").text
        assert "quote/send" not in page
        assert 'class="warn"' in page
        assert owner.get(f"/job/{name}/quote/sheet/1").status == 404
    finally:
        saving.keep(FIRM, firm.text, who, base=saving.latest(FIRM).number)
    assert frozen.quotes(name) == []


def with_a_longer_wait(book):
    """The book with twice the wait on a base coat."""
    from dataclasses import replace

    from darby.rulebook import Book

    one = book["cure.wait.base.irc"]
    other = replace(
        one, low=one.low and one.low * 2, value=one.value * 2, high=one.high and one.high * 2, written="14 day"
    )
    return Book([other if figure.id == one.id else figure for figure in book.figures.values()], book.sources)


# --- what comes later ---------------------------------------------------------------------------------


def test_a_changed_wall_shows_beside_it_and_not_in_it(owner, job, who, sent):
    from darby.desk.quoting import frozen

    before = taken(owner, job, sent)
    keep(job, who, 'height = "12\'"', 'height = "13\'"')
    page = owner.get(f"/job/{job}/quote/").text
    assert re.search(r"Revision of the job: 1 → 2", page)
    assert re.search(rf"<td[^>]*>{re.escape(sent.total)}</td>", page), "the price as it was sent"
    assert taken(owner, job, sent) == before
    assert frozen.quotes(job) == [sent]


def test_a_changed_price_of_the_firm_leaves_it(owner, job, who, sent):
    from darby.desk.kept import FIRM, saving
    from darby.desk.quoting import frozen
    from darby.desk.reading import read
    from darby.tables.setting import Setting

    before = taken(owner, job, sent)
    firm = saving.latest(FIRM)
    dearer = re.sub(r"wage = \"\$(\d+)", lambda m: f'wage = "${int(m[1]) + 10}', firm.text)
    assert dearer != firm.text
    saving.keep(FIRM, dearer, who, base=firm.number)
    try:
        answers = read(job).answers
        found = frozen.differs(sent, answers, Setting("en", "us"))
        total = next(change for change in found if change.what == "All of it")
        assert (total.was, total.now) == (sent.total, f"${answers.of('price').total.value:,}")
        assert total.was != total.now
        assert f"Revision of the firm file: {firm.number} → {firm.number + 1}" in owner.get(f"/job/{job}/quote/").text
        assert taken(owner, job, sent) == before
        assert frozen.quotes(job) == [sent]
    finally:
        saving.keep(FIRM, firm.text, who, base=firm.number + 1)


def test_a_changed_rule_book_leaves_it(owner, job, who, sent, monkeypatch):
    """Another darby comes with another book: the numbers then are those of the frozen tables, not answered again."""
    from darby.answers import book
    from darby.desk import reading
    from darby.desk.quoting import frozen
    from darby.rulebook import default
    from darby.tables.setting import Setting

    before = taken(owner, job, sent)
    other = with_a_longer_wait(default())
    assert other.version != default().version
    monkeypatch.setattr(book, "default", lambda: other)
    reading._kept.clear()
    try:
        answers = reading.read(job).answers
        assert answers.book_version != sent.stood["book"]
        found = frozen.differs(sent, answers, Setting("en", "us"))
        assert any(change.where == "When" for change in found)
        assert "Rule book: " in owner.get(f"/job/{job}/quote/").text
        assert taken(owner, job, sent) == before
        assert frozen.quotes(job) == [sent]
    finally:
        reading._kept.clear()


@pytest.mark.parametrize("say", ["UPDATE kept_paper SET kind = 'x'", "DELETE FROM kept_paper"])
def test_the_data_base_itself_keeps_what_was_sent(desk, sent, say):
    with (
        sqlite3.connect(desk.folder / "desk.sqlite3") as base,
        pytest.raises(sqlite3.IntegrityError, match="only added"),
    ):
        base.execute(say)


def test_the_tables_are_frozen_in_every_language(sent, job):
    """Whoever reads later in Spanish compares Spanish with Spanish: nothing differs."""
    from darby.desk.quoting import frozen
    from darby.desk.reading import read
    from darby.tables.setting import Setting

    for language in ("en", "es"):
        for system in ("us", "metric"):
            assert frozen.differs(sent, read(job).answers, Setting(language, system)) == []


# --- who may ------------------------------------------------------------------------------------------


def test_the_crew_neither_sends_nor_sees(crew, owner, job, sent):
    assert crew.get(f"/job/{job}/quote/").status == 403
    assert crew.get(f"/job/{job}/quote/sent/{sent.id}").status == 403
    assert crew.get(f"/job/{job}/quote/sheet/1").status == 403
    assert crew.post(f"/job/{job}/quote/send", id=str(UUID(int=1))).status == 403


def test_it_can_be_looked_at_before_it_goes(owner, job):
    page = owner.get(f"/job/{job}/quote/?look=1").text
    numbers = [int(n) for n in re.findall(r"quote/sheet/(\d+)", page)]
    assert numbers == list(range(1, len(numbers) + 1))
    reply = owner.get(f"/job/{job}/quote/sheet/1")
    assert (reply.status, reply.headers["Content-Type"]) == (200, "image/png")
    assert owner.get(f"/job/{job}/quote/sheet/{len(numbers) + 1}").status == 404


# --- order, cut list, price ---------------------------------------------------------------------------


def cells(page, first):
    row = re.search(rf"<tr><th[^>]*>{first}(?:<br>[^<]*)?</th>(.*?)</tr>", page, re.DOTALL)[1]
    return [re.sub(r"<[^>]+>", "", cell) for cell in re.findall(r"<td[^>]*>(.*?)</td>", row)]


def test_the_order_says_only_the_difference(owner):
    """10 bags are on order in the example; 13.47 are needed (tests/quantities), so that 4 are still to order."""
    page = owner.get("/job/firehall/order/").text
    assert cells(page, "Portland cement, Type I/II") == ["13.47 bags (1,266 lb)", "10 bags", "4 bags"]
    assert page.index("Alder Flat Building Supply") < page.index("Portland cement") < page.index("Cold Fork Sand")
    files = re.findall(r'href="/job/firehall/paper/(order-[\w.-]+)"', page)
    assert files == ["order-alder-flat-building-supply.pdf", "order-cold-fork-sand-gravel.pdf"]
    assert owner.get(f"/job/firehall/paper/{files[1]}").headers["Content-Type"] == "application/pdf"


def test_every_bar_is_drawn_once_for_each_way_it_is_sawn(owner):
    from darby.desk.reading import read

    page = owner.get("/job/firehall/cuts/").text
    lists = read("firehall", later=True).answers.of("cuts")
    ways = sum(len(x.cuts.patterns) for x in lists.lists if x.cuts)
    assert page.count('class="narrow"') == page.count('class="wide"') == ways
    assert len(re.findall(r'aria-label="', page)) > 0
    assert f"${lists.cost.value:,}" in page
    drawn = re.findall(r'<div class="wide"><svg.*?</svg>', page, re.DOTALL)
    pieces = [n for x in lists.lists if x.cuts for bars in x.cuts.patterns for n in [len(bars[0].cuts)]]
    assert [len(re.findall(r'class="d-cut-edge"', svg)) for svg in drawn] == pieces


def test_the_lines_of_the_price_are_all_there_and_add_up(owner):
    from decimal import Decimal

    from darby.desk.reading import read
    from darby.tables.priced import built_pages
    from darby.tables.setting import Setting

    answers = read("firehall").answers
    price = answers.of("price")
    first, *rest = built_pages(price, answers, Setting("en", "us"))
    shown = [Decimal(row[1].strip("$").replace(",", "")) for t in rest for row in t.rows if len(row) > 1]
    assert sorted(shown) == sorted(line.amount.value for line in price.lines)
    assert sum(shown) == price.loaded.cost.value
    assert first.last[1] == f"${price.total.value:,}"
    page = owner.get("/job/firehall/price/").text
    for table in (first, *rest):
        assert table.title in page


def test_what_moves_the_price_and_what_he_might_rather_have(owner):
    from darby.answers.alternatives import alternatives
    from darby.answers.moves import moves
    from darby.desk.reading import read

    page = owner.get("/job/firehall/price/").text
    answers = read("firehall").answers
    for one in (*moves(answers), *alternatives(answers)):
        assert f"{'+' if one.change > 0 else '-'}${abs(one.change):,}" in page


# --- in a browser -------------------------------------------------------------------------------------


@pytest.mark.parametrize("language", ["en", "es"])
def test_money_reads_well_at_both_widths(desk, browser, job, who, language):
    from axe_playwright_python.sync_playwright import Axe

    from darby.desk.quoting import frozen
    from darby.desk.reading import read
    from tests.browser import LAPTOP, PHONE

    frozen.freeze(uuid4(), read(job), who)
    keep(job, who, 'height = "12\'"', 'height = "13\'"')
    context = browser.new_context(viewport=PHONE, reduced_motion="reduce", service_workers="block")
    page = context.new_page()
    page.goto(desk.link(f"owner {language}", "owner", language=language))
    for name in ("order/", "cuts/", "price/", "quote/?look=1"):
        page.goto(f"{desk.address}/job/{job}/{name}")
        for size in (PHONE, LAPTOP):
            page.set_viewport_size(size)
            where = (name, size["width"], language)
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), where
        found = Axe().run(page, options={"resultTypes": ["violations"]}).response["violations"]
        assert not found, (where, [(v["id"], [n["html"][:160] for n in v["nodes"][:3]]) for v in found])
    page.locator(".sheets img").first.evaluate("i => i.decode()")
    assert page.locator(".sent .changes tbody tr").count() > 3
    context.close()
