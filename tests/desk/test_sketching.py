"""Lines and lists as they become the document: read strictly, changed only where something was touched."""

from __future__ import annotations

import copy
import tomllib
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from darby.desk.sketching.entries import NotSo, changed, sketch, tapped, wrote
from darby.desk.sketching.lines import Misspelled, said_line, said_opening
from darby.desk.sketching.spelling import exactly, free_name
from darby.job import dump, loads
from darby.measure import length
from darby.measure.units import FT, IN

WALL = """
darby = 1
[job]
name = "Shed"
as_of = 2026-09-30
[[wall]]
id = "w"
length = "20'"
height = "10'"
base = "block"
facing = "south"
openings = ["door 3068 at 2', reveal 4\\"", { id = "big", kind = "opening", size = "8' x 7'", at = "8'", up = "1'" }]
"""
TABLES = tomllib.loads(WALL)


def there(tables, id="w", system="us"):
    surface = loads(dump(tables)).surface(id)
    return sketch(tables, surface, wrote(tables, id), system)


def entry(tables, **posted):
    made = changed(tables, there(tables), {k.replace("__", "."): v for k, v in posted.items()}, "us")
    loads(dump(made))
    return made["wall"][0]


# --- one line ----------------------------------------------------------------------------------------

LINES = {
    "wall 24' x 8', block": ("wall", {"length": "24'", "height": "8'", "base": "block"}),
    "24' x 8', concrete": ("wall", {"length": "24'", "height": "8'", "base": "concrete"}),
    'garden wall 60\' x 6\' x 8", pilasters every 10\', 16" x 4", block, cap drip': (
        "garden_wall",
        {"length": "60'", "height": "6'", "thick": '8"', "base": "block", "cap": "drip",
         "pilasters": {"every": "10'", "width": '16"', "out": '4"'}},
    ),
    "wall 24' x 8', dense block, struck joints, faces north-west, gable 3', sprinklers": (
        "wall",
        {"length": "24'", "height": "8'", "base": "block", "block": "dense", "joints": "struck",
         "facing": "north-west", "gable": "3'", "sprinklers": True},
    ),
    "wall 24' x 8', frame, sheathing wood, 3068 at 4', window 3040 at 10', sill 3', reveal 4\"": (
        "wall",
        {"length": "24'", "height": "8'", "base": "frame", "sheathing": "wood",
         "openings": ["door 3068 at 4'", "window 3040 at 10', up 3', reveal 4\""]},
    ),
    "house 40' x 24' x 9', frame": (
        "house", {"walls": ["40'", "24'", "40'", "24'"], "height": "9'", "base": "frame"},
    ),
    "house 14' + 12' + 14' x 8', frame": (
        "house", {"walls": ["14'", "12'", "14'"], "height": "8'", "closed": False, "base": "frame"},
    ),
    "chimney 3' x 2' x 8', brick, cap flashing": (
        "box", {"kind": "chimney", "sides": ["3'", "2'"], "height": "8'", "base": "brick", "cap": "flashing"},
    ),
    "soffit 40' x 2', frame": ("strip", {"kind": "soffit", "length": "40'", "width": "2'", "base": "frame"}),
    "barda 18 m x 1.8 m x 200 mm, pilastras cada 3 m, 400 mm x 100 mm, block, remate goterón, mira al sur": (
        "garden_wall",
        {"length": "18 m", "height": "1.8 m", "thick": "200 mm", "base": "block", "cap": "drip", "facing": "south",
         "pilasters": {"every": "3 m", "width": "400 mm", "out": "100 mm"}},
    ),
    "muro 24' x 8', block, ventana 3040 a 10', antepecho 3'": (
        "wall",
        {"length": "24'", "height": "8'", "base": "block", "openings": ["window 3040 at 10', up 3'"]},
    ),
}  # fmt: skip


@pytest.mark.parametrize("line", LINES)
def test_a_line_makes_an_entry_that_the_job_file_reads(line):
    said = said_line(line, {})
    section, wanted = LINES[line]
    assert (said.section, {k: v for k, v in said.entry.items() if k != "id"}) == (section, wanted)
    document = {"darby": 1, "job": TABLES["job"], section: [said.entry]}
    assert loads(dump(document)).surfaces


def test_what_is_named_is_called_by_it_and_no_name_is_given_twice():
    said = said_line("wall \"Shed, south\" 24' x 8', block", {})
    assert (said.entry["id"], said.entry["name"]) == ("shed-south", "Shed, south")
    assert said_line("wall 24' x 8', block", {"wall": [{"id": "wall"}]}).entry["id"] == "wall-2"
    assert free_name("crew", ["crew-1"]) == "crew-2"  # "crew" itself begins the name of another surface


def test_a_base_that_is_not_said_is_the_one_before_and_is_told():
    said = said_line("wall 24' x 8'", TABLES)
    assert (said.entry["base"], said.taken, said.like) == ("block", ("base",), "w")
    assert "base" not in said_line("wall 24' x 8'", {}).entry  # nobody guesses: the job file will ask for it


@pytest.mark.parametrize(
    ("line", "wrong"),
    [
        ("wal 24' x 8'", "wal 24' x 8'"), ("wall 24'", "24'"), ("wall 24' x 8 furlongs", "8 furlongs"),
        ("wall 24' x 8', blok", "blok"), ("garden wall 60' x 6'", "60' x 6'"), ("", ""),
        ("wall 24' x 8', block, 3068 on 4'", "3068 on 4'"), ("house 40' x 9'", "40' x 9'"),
        ("wall 24' x 8', sheathing cheese", "sheathing cheese"), ("house 9' x 9' x 9', 3068 at 1'", "3068 at 1'"),
        ("garden wall 60' x 6' x 8\", pilasters 10'", "pilasters 10'"), ("wall 24' x 8', count many", "count many"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_marked_in_the_line(line, wrong):
    with pytest.raises(Misspelled) as refused:
        said_line(line, {})
    assert line[refused.value.start : refused.value.stop] == wrong


@given(st.text(alphabet="wal 0123456789'\"x,.-/abcdefghij×;+“”", max_size=60))
@settings(max_examples=300, deadline=None)
def test_any_line_is_an_entry_or_one_fault_within_it(line):
    try:
        said = said_line(line, TABLES)
    except Misspelled as refused:
        assert 0 <= refused.start <= refused.stop <= len(line)
    else:
        assert said.entry["id"]


@pytest.mark.parametrize(
    ("line", "written"),
    [
        ("3068 at 4'", "door 3068 at 4'"), ("window 3040 at 10', sill 3'", "window 3040 at 10', up 3'"),
        ("3' x 4' at 2', sill 3', reveal 4\"", "opening 3' x 4' at 2', up 3', reveal 4\""),
        ("puerta 3068 a 4', mocheta 4\"", "door 3068 at 4', reveal 4\""),
        ("door 3068 at 1'-8\", reveal 4\"", "door 3068 at 1'-8\", reveal 4\""),
    ],
)  # fmt: skip
def test_an_opening_by_shorthand(line, written):
    assert said_opening(line) == written


@pytest.mark.parametrize("line", ["3068", "window 3040 at 10'", "gate 3068 at 4'", "3068 at 4 furlongs", ""])
def test_no_opening_by_what_says_too_little(line):
    with pytest.raises(Misspelled):
        said_opening(line)


# --- the list ----------------------------------------------------------------------------------------


def test_what_is_not_touched_stays_as_it_was_written():
    shown = {cell.name: cell.text for cell in there(TABLES).cells.values()}
    assert changed(TABLES, there(TABLES), shown, "us") == TABLES
    assert changed(TABLES, there(TABLES, system="metric"), {}, "metric") == TABLES


def test_a_corner_off_the_rectangle_is_an_outline_and_back_on_it_is_none():
    lean = entry(TABLES, c__2__v="9'")
    assert lean["outline"] == ['0", 0"', "20', 0\"", "20', 9'", "0\", 10'"]
    assert (lean["length"], lean["height"]) == ("20'", "10'")
    again = entry({**TABLES, "wall": [lean]}, c__2__v="10'")
    assert "outline" not in again
    assert (again["length"], again["height"]) == ("20'", "10'")


def test_a_corner_that_was_not_moved_stays_as_it_was_written():
    outline = ["0 in, 0 in", "20 ft, 0 in", "240 in, 9'", "0', 120 in"]
    lean = {**entry(TABLES, c__2__v="9'"), "length": "20 ft", "outline": outline}
    again = entry({**TABLES, "wall": [lean]}, c__3__v="11'")
    assert again["outline"] == [*outline[:3], "0\", 11'"]
    assert (again["length"], again["height"]) == ("20 ft", "11'")


def test_a_new_corner_in_the_middle_is_a_gable_and_elsewhere_an_outline():
    gable = entry(TABLES, c__new__u="10'", c__new__v="13'")
    assert (gable["height"], gable["gable"], "outline" in gable) == ("10'", "3'", False)
    skew = entry(TABLES, c__new__u="8'", c__new__v="13'")
    assert skew["outline"][3] == "8', 13'"
    assert skew["height"] == "13'"


def test_the_whole_height_of_an_outline_moves_its_highest_corners():
    lean = entry(TABLES, c__2__v="9'")
    higher = entry({**TABLES, "wall": [lean]}, height="12'", length="21'")
    assert higher["outline"] == ['0", 0"', "21', 0\"", "21', 9'", "0\", 12'"]


def test_lines_stay_lines_and_tables_tables():
    now = entry(TABLES, o__0__at="3'", o__1__width="7'")
    assert now["openings"][0] == "door 3068 at 3', reveal 4\""
    assert now["openings"][1] == {"id": "big", "kind": "opening", "size": "7' x 7'", "at": "8'", "up": "1'"}


def test_every_field_that_cannot_be_read_is_told():
    with pytest.raises(NotSo) as refused:
        changed(TABLES, there(TABLES), {"length": "x", "c.1.u": "-2'", "o.0.at": "1 2"}, "us")
    assert set(refused.value.faults) == {"length", "c.1.u", "o.0.at"}


def test_a_size_that_is_tapped_is_the_field_it_says_or_moves_the_opening():
    shown = there(TABLES)
    assert tapped(shown, "length", "21'", "us") == {"length": "21'"}
    assert tapped(shown, "o.0.gap", "1' 6\"", "us") == {"o.0.at": "1' 6\""}
    assert tapped(shown, "o.1.gap", "2'", "us") == {"o.1.at": "7'"}  # the door ends at 5'
    assert tapped(shown, "o.1.rest", "1'", "us") == {"o.1.at": "11'"}  # 20' - 1' - 8'
    with pytest.raises(NotSo):
        tapped(shown, "o.1.rest", "13'", "us")
    with pytest.raises(KeyError):
        tapped(shown, "o.1.colour", "13'", "us")


def test_a_document_in_parts_is_not_changed_where_it_stands():
    before = copy.deepcopy(TABLES)
    entry(TABLES, length="22'", o__0__gone="1")
    assert before == TABLES


@given(st.fractions(min_value=0, max_value=100, max_denominator=10**4), st.sampled_from(["us", "metric"]))
@settings(max_examples=200, deadline=None)
def test_a_length_that_is_written_reads_back_as_the_same(value, system):
    assert length(exactly(value, system)) == value


@given(
    st.integers(2, 40), st.integers(2, 20), st.integers(0, 479), st.integers(1, 239),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_wherever_a_corner_is_dragged_the_document_reads_or_says_why(long, high, u, v):
    """Half inches over the wall: what comes of it has its corners where they were put."""
    tables = copy.deepcopy(TABLES)
    tables["wall"][0] |= {"length": f"{long}'", "height": f"{high}'"}
    del tables["wall"][0]["openings"]
    to = (Fraction(u, 2) * IN, Fraction(v, 2) * IN)
    made = changed(tables, there(tables), {"c.2.u": exactly(to[0], "us"), "c.2.v": exactly(to[1], "us")}, "us")
    from darby.job import JobError

    try:
        surface = loads(dump(made)).surface("w")
    except JobError as error:
        assert error.faults
    else:
        assert to in {(c.u, c.v) for c in surface.outline}
        assert max(c.u for c in surface.outline) == max(to[0], long * FT)
