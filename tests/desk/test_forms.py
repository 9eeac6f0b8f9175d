"""A section as a form: nothing lost on the way out and back, faults at their place, little to fill in."""

import re
import tomllib
from datetime import date
from pathlib import Path

import pytest

from darby.desk.forms import Field, Form, filled_in, sections
from darby.desk.starting import SHAPES, blank, document_of
from darby.job import JobError, dump, loads
from darby.tables.setting import Setting

EXAMPLES = Path(__file__).parents[2] / "examples"
JOBS = sorted(p.stem for p in EXAMPLES.glob("*.toml") if p.stem != "firm")
EN = Setting("en", "us")
FIRM = (EXAMPLES / "firm.toml").read_text(encoding="utf-8")


def posted(field: Field) -> dict[str, str]:
    """What a browser sends for a form that nobody touched."""
    if field.inside or field.kind in ("table", "tables"):
        return {k: v for inner in field.inside for k, v in posted(inner).items()}
    return {field.name: field.value}


@pytest.mark.parametrize("name", JOBS)
def test_a_form_that_nobody_touched_changes_nothing(name):
    tables = tomllib.loads((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    for key in sections(name):
        sent = posted(Form(name, tables, EN).section(key))
        assert filled_in(name, tables, sent, (key,)) == tables, key


def test_the_firm_file_too():
    tables = tomllib.loads(FIRM)
    assert "buys" in sections("firm")
    for key in sections("firm"):
        sent = posted(Form("firm", tables, EN).section(key))
        assert filled_in("firm", tables, sent, (key,)) == tables, key


def hollow(value):
    """As many entries as there were, and nothing in them."""
    if isinstance(value, dict):
        return {k: hollow(v) for k, v in value.items() if isinstance(v, dict | list) and hollow(v)}
    return [hollow(v) for v in value] if all(isinstance(v, dict) for v in value) else []


@pytest.mark.parametrize("name", JOBS)
def test_a_form_retyped_from_scratch_says_the_same_job(name):
    """Every value written again by hand is read as the file reads it."""
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    tables = tomllib.loads(text)
    names = tuple(key for key in sections(name) if key in tables)
    sent = {}
    for key in names:
        sent |= posted(Form(name, tables, EN).section(key))
    rest = {key: value for key, value in tables.items() if key not in names}
    empty = {key: hollow(tables[key]) for key in names}
    again = filled_in(name, rest | empty, sent, names)
    assert loads(dump(again), firm=FIRM, folder=EXAMPLES).hash == loads(text, firm=FIRM, folder=EXAMPLES).hash


GARDEN = {
    "job.name": "A garden wall", "garden_wall.0.length": "60'", "garden_wall.0.height": "6'",
    "garden_wall.0.facing": "south", "garden_wall.0.block": "dense", "garden_wall.0.out_of_plane": "1/4 in",
    "garden_wall.0.pilasters.every": "10'", "garden_wall.0.pilasters.width": "16 in",
    "garden_wall.0.pilasters.out": "4 in",
    "garden_wall.0.sprinklers": "true",
}  # fmt: skip
WALL = {
    "job.name": "A wall", "wall.0.length": "24'", "wall.0.height": "8'", "wall.0.block": "dense",
    "wall.0.openings": "door 3068 at 4', reveal 4\"\nwindow 3' x 4' at 12' up 3'",
}  # fmt: skip


@pytest.mark.parametrize(("shape", "entries", "most", "lines"), [("garden_wall", GARDEN, 25, 0), ("wall", WALL, 15, 1)])
def test_so_few_entries_make_a_price(shape, entries, most, lines):
    from darby.answers import answer

    assert len(entries) + lines <= most
    assert len(SHAPES[shape].ways) <= most
    job = loads(dump(document_of(SHAPES[shape], entries, date(2026, 1, 15))), firm=FIRM)
    price = answer(job).good("price")["job"]
    assert price.complete and price.total.value > 1000


@pytest.mark.parametrize("shape", SHAPES)
def test_every_way_of_a_shape_is_a_field(shape):
    fields = Form("", blank(SHAPES[shape], date(2026, 1, 15)), EN).only(SHAPES[shape].ways)
    assert len(fields) == len(SHAPES[shape].ways)
    assert all(field.kind not in ("table", "tables") for field in fields)


def test_a_fault_stands_at_its_field():
    tables = blank(SHAPES["wall"], date(2026, 1, 15))
    tables["wall"] = [tables["wall"][0] | {"length": "24 furlongs", "height": "8'"}]
    with pytest.raises(JobError) as error:
        loads(dump(tables), firm=FIRM)
    form = Form("", tables, EN, error.value.faults)
    fields = {f.name: f for f in form.only(SHAPES["wall"].ways)}
    assert "24 furlongs" in fields["wall.0.length"].faults[0]
    assert not fields["wall.0.height"].faults
    assert not [text for text in form.loose if "furlongs" in text]


def test_what_is_wrong_is_shown_and_not_kept(owner):
    address = "/document/garden-wall/section/coats"
    text = owner.get(address).text
    base = text.partition('name="base" value="')[2].partition('"')[0]
    reply = owner.post(address, _form=address, base=base, **{"coats.finish": "velvet"})
    assert reply.status == 422
    assert "velvet" in reply.text
    assert "velvet" not in owner.get("/document/garden-wall/text").text


def test_a_change_shows_every_answer_that_changed(owner):
    address = "/document/garden-wall/section/coats?from=price"
    base = owner.get(address).text.partition('name="base" value="')[2].partition('"')[0]
    sent = {"base": base, "from": "price", "coats.finish": "smooth", "coats.paint": "true"}
    reply = owner.post(address, _form=address, **sent)
    assert reply.status == 200
    changed = reply.text.partition('class="changed"')[2].partition("</section>")[0]
    assert changed.count("<tr>") > 4
    assert "What it costs" in changed and "What to order" in changed


def test_two_editors_are_told_on_the_page(owner):
    address = "/document/firehall/section/price"
    base = owner.get(address).text.partition('name="base" value="')[2].partition('"')[0]
    assert owner.post(address, _form=address, base=base, **{"price.stands_days": "20"}).status == 200
    clash = owner.post(address, _form=address, base=base, **{"price.stands_days": "40"})
    assert clash.status == 409
    base = clash.text.partition('name="base" value="')[2].partition('"')[0]
    assert owner.post(address, _form=address, base=base, **{"price.stands_days": "40"}).status == 200


def test_nothing_to_add_is_not_offered(owner):
    """*Add:* stands where a section of the file has nothing yet, and only there."""
    some, none = owner.get("/job/firehall/wall/").text, owner.get("/job/firehall/coats/").text
    given = re.compile(r'<p class="begin">Add:\s*(.*?)</p>', re.S)
    assert given.search(some)[1].count("<a ") > 0
    assert "What went in" in none and "Add:" not in none
