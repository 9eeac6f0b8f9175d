"""What a newcomer writes in forms, in his own words: openings and walls on lines, entries without short names."""

import tomllib
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.desk.forms import Form, filled_in
from darby.desk.spelled import lines_of, read_lines, way_of
from darby.desk.starting import SHAPES, blank, document_of, with_lines, with_names
from darby.job import dump, loads, schema
from darby.tables.setting import Setting

EXAMPLES = Path(__file__).parents[2] / "examples"
FIRM = (EXAMPLES / "firm.toml").read_text(encoding="utf-8")
EN, ES = Setting("en", "us"), Setting("es", "us")
TODAY = date(2026, 1, 15)


def node(table, key):
    return schema("job")["$defs"][table]["properties"][key]


def test_which_keys_are_written_on_lines():
    assert way_of(node("WallDocument", "openings")) == "opening"
    assert way_of(node("HouseDocument", "openings")) == "openings by number"
    assert way_of(node("HouseDocument", "gables")) == "by number"
    assert way_of(node("ReadingsDocument", "points")) == "row"
    assert way_of(node("HouseDocument", "walls")) == way_of(node("ZoneDocument", "outline")) == ""


def test_openings_of_a_house_stand_a_line_each_with_the_number_of_their_wall():
    house = tomllib.loads((EXAMPLES / "recoat.toml").read_text(encoding="utf-8"))["house"][0]
    lines = lines_of(house["openings"], "openings by number")
    assert lines[0] == '1: door "front door" 3068 at 16\', frame 3/4 in'
    assert read_lines(lines, "openings by number", None) == house["openings"]
    changed = [*lines[1:], "4: ventana 3040 a 2', antepecho 3'"]
    read = read_lines(changed, "openings by number", house["openings"])
    assert read["1"] == house["openings"]["1"][1:]
    assert read["4"] == [*house["openings"]["4"], "window 3040 at 2', up 3'"]


def test_which_reveals_are_plastered_can_be_said():
    read = read_lines(["door \"engine door\" 12' x 10' at 9', reveal 4\", plaster head left right"], "opening", None)
    assert read == [{"kind": "door", "size": "12' x 10'", "at": "9'", "reveal": '4"', "name": "engine door",
                     "plaster": ["head", "left", "right"]}]  # fmt: skip


def test_what_the_lines_cannot_say_stays_as_the_file_writes_it():
    there = [{"id": "bay", "kind": "door", "size": "3068", "at": "4'"}, "window 3040 at 10' up 3'"]
    lines = lines_of(there, "opening")
    assert lines[0].startswith('{ id = "bay"')
    assert read_lines(lines, "opening", there) == there
    assert read_lines(lines, "opening", None) == there


@given(st.lists(st.lists(st.text("0123456789'\"/ -", min_size=1).map(str.strip).filter(bool), min_size=2, max_size=4)))
def test_rows_come_back_as_they_were(rows):
    lines = lines_of(rows, "row")
    assert read_lines(lines, "row", rows) == read_lines(lines, "row", None) == rows


def test_lengths_of_one_line_are_several():
    sent = {"job.name": "A", "house.0.walls": "36' + 24', 36'\n24'", "house.0.height": "9'", "house.0.facing": "sur",
            "house.0.gables": "2: 5'\nmuro 4: 5'"}  # fmt: skip
    house = document_of(SHAPES["house"], sent, TODAY)["house"][0]
    assert house["walls"] == ["36'", "24'", "36'", "24'"]
    assert house["facing"] == "south"
    assert house["gables"] == {"2": "5'", "4": "5'"}
    sent = {"job.name": "B", "box.0.sides": "4' x 2'-8\"", "box.0.height": "6'"}
    assert document_of(SHAPES["chimney"], sent, TODAY)["box"][0]["sides"] == ["4'", "2'-8\""]


@pytest.mark.parametrize(("first", "second"), [("outside corner", ""), ("meets old work", "7/8 in")])
def test_an_end_is_chosen_and_stays_one_word_where_one_word_says_it(first, second):
    tables = blank(SHAPES["wall"], TODAY)
    field = {f.name: f for f in Form("", tables, EN).section("wall").inside[0].inside}["wall.0.left"]
    assert field.usual
    kind = next(f for f in field.inside if f.word == "kind")
    assert first in dict(kind.choices)
    made = filled_in("", tables, {"wall.0.left.kind": first, "wall.0.left.thickness": second}, ("wall",))
    assert made["wall"][0]["left"] == ({"kind": first, "thickness": second} if second else first)


def test_who_gives_no_short_name_gets_one():
    tables = {"darby": 1, "wall": [{"id": "shed", "length": "1'", "height": "1'", "base": "concrete"}]}
    sent = {"wall.1.name": "Shed", "wall.1.length": "2'", "wall.2.length": "3'", "wall.4.length": "5'"}
    made = filled_in("", tables, sent, ("wall",))
    assert [(w["id"], w["length"]) for w in made["wall"]] == [
        ("shed", "1'"), ("shed-2", "2'"), ("wall", "3'"), ("wall-2", "5'"),
    ]  # fmt: skip


def test_a_wall_is_chosen_from_those_of_the_job():
    known = {"surface": (("bay", "The bay"), ("shed", "The shed"))}
    form = Form("", {"readings": [{"surface": "gone"}]}, EN, known=known).section("readings")
    fields = [next(f for f in row.inside if f.word == "surface") for row in form.inside]
    assert fields[0].kind == "choice" and fields[0].value == "gone"
    assert [code for code, _ in fields[0].choices] == ["bay", "shed", "gone"]
    assert [code for code, _ in fields[1].choices] == ["bay", "shed"]


def test_what_a_job_says_otherwise_than_the_firm_has_a_form():
    sent = {"firm.crew.0.role": "plasterer", "firm.crew.0.people": "1", "firm.access.0.kind": "scaffold",
            "firm.access.0.per_day": "$32.00", "firm.usual.price": "$8 to $400/sq ft"}  # fmt: skip
    made = filled_in("", {"darby": 1}, sent, ("firm",))
    assert made["firm"] == {
        "crew": [{"role": "plasterer", "people": 1}], "access": [{"kind": "scaffold", "per_day": "$32.00"}],
        "usual": {"price": "$8 to $400/sq ft"},
    }  # fmt: skip
    field = Form("", {}, EN).section("firm")
    assert not any(inner.must for table in field.inside for row in table.inside for inner in row.inside)


def test_the_firms_own_name_has_a_form():
    tables = tomllib.loads(FIRM)
    made = filled_in("firm", tables, {"letterhead.name": "Ours", "letterhead.invented": ""}, ("letterhead",))
    assert made["name"] == "Ours" and "invented" not in made and made["darby_firm"] == 1
    assert made["buys"] == tables["buys"] and tomllib.loads(dump(made))["name"] == "Ours"


LINES = """
wall "shed, south" 24' x 8', block, facing south
  window 3040 at 10', sill 3'
casa 40' x 24' x 9', frame
2: puerta 3068 a 4'
chimney 4' x 2'-8" x 6', roof 6 in 12, sound brick, cap drip
"""


def test_walls_a_line_each_with_their_openings_beneath():
    made, wrong = with_lines(blank(SHAPES["lines"], TODAY), LINES)
    assert wrong == ()
    assert made["wall"][0]["openings"] == ["window 3040 at 10', up 3'"]
    assert made["house"][0]["openings"] == {"2": ["door 3068 at 4'"]}
    assert made["box"][0] | {"brick": "sound", "kind": "chimney", "roof": "6 in 12"} == made["box"][0]
    made["job"]["name"] = "Lines"
    assert len(loads(dump(made), firm=FIRM).surfaces) == 9


@pytest.mark.parametrize(
    ("text", "number"),
    [("wall 24' x 8'\nwal 3' x 4'", 2), ("wall 24' x 8'\n2: door 3068 at 4'", 2), ("door 3068 at 4'", 1),
     ("house 40' x 24' x 9'\ndoor 3068 at 4'", 2), ("wall 24' x 8 furlongs", 1)],
)  # fmt: skip
def test_what_cannot_be_read_is_told_with_its_line(text, number):
    _, wrong = with_lines(blank(SHAPES["lines"], TODAY), text)
    assert [n for n, _, _ in wrong] == [number]


def test_hints_of_a_new_job_are_in_spanish_too():
    for shape in SHAPES.values():
        for field in Form("", blank(shape, TODAY), ES).only(shape.ways):
            assert field.hint, (shape.name, field.name)
            english = Form("", blank(shape, TODAY), EN).only([field.name])[0]
            assert field.hint != english.hint, field.name


def test_every_kind_of_other_work_is_called_something_on_the_desk_and_on_papers():
    from darby.words import catalogue

    kinds = node("AlsoDocument", "what")["enum"]
    assert "test" in kinds
    for language in ("en", "es"):
        words = catalogue(language)
        assert [k for k in kinds if f"cli.also.{k}" not in words or f"paper.also.{k}" not in words] == []


def test_a_shape_that_nobody_named_is_called_what_it_is():
    made, _ = with_lines(blank(SHAPES["lines"], TODAY), "barda 60' x 6' x 8\"\nmuro 3' x 4'\nmuro 5' x 6'", "es")
    named = with_names(made, "es")
    assert [e["name"] for s in ("garden_wall", "wall") for e in named[s]] == ["Barda", "Muro", "Muro 2"]
    assert made["garden_wall"][0]["cap"] == "drip", "as the form of a garden wall begins with it"


def test_painted_block_stays_painted_when_its_kind_is_said_too():
    made, _ = with_lines(blank(SHAPES["lines"], TODAY), "wall 3' x 4', painted block, dense block")
    assert made["wall"][0]["base"] == "painted block" and made["wall"][0]["block"] == "dense"
    made, _ = with_lines(
        blank(SHAPES["lines"], TODAY), "muro 3' x 4', ladrillo firme, izquierda esquina de afuera", "es"
    )
    assert made["wall"][0] | {"base": "brick", "brick": "sound", "left": "outside corner"} == made["wall"][0]
