"""Broken job files as a table: a small edit of a good document, and every fault it must show.

A fault is (code, place, found, allowed, nearest).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from darby.job.cutting import BARS
from darby.job.firm import ITEMS

Expected = tuple[str, str, str, str, str]

LENGTH = "7' 10 1/2\", 94 1/2 in, 6.5 ft, 12 mm, 2.4 m"
TIME = "48 h, 7 days, 90 min, 1 h 30 min"
VOLUME = "9 cu ft, 2 cu yd, 1.5 gal, 20 L, 0.5 m3"
OPENING = "door 3068 at 1'-8\", reveal 4\"; window 3' x 4' at 5' up 3'"
PACKAGE = "94 lb bag, 27 x 97 in sheet, 10 ft piece, box of 1000, 162 sq ft roll, 5 gal pail, cu yd"
COUNTED = "20 bags, 36 sheets, 2 cu yd, 1.5 tons"
CENTS = "$16.80, $1,450.00"
SURFACES = "front, side, shed-1, shed-2, shed-3, shed-4"
ENDS = "outside corner, inside corner, meets old work, change of base"
TOP = (
    "darby, units, firm, job, wall, house, garden_wall, box, strip, ring, coats, joints, lath, readings, finished, "
    "cuts, match, ordered, recoat, survey, patch, also, done, days, price, rule"
)
WALL = (
    "id, name, height, facing, foot, base_edge, top, above_earth, above_paving, sprinklers, left, right, base, block, "
    "joints, brick, behind, tests, sheathing, studs, out_of_plane, built, length, gable, tilt, openings, zone, count, "
    "place, retains"
)
BASES = "block, concrete, frame, lath over block, painted block, brick, stone, old plaster, painted plaster"
ON_FRAME = 'base = "frame" or base = "old plaster" or base = "painted plaster"'
PACES = (
    "paper-and-lath, dash-bond, scratch, brown, base, finish, beads, paint, float, smooth, dash, lace, scraped, "
    "wet-dash, skip-trowel, pebble, one-coat"
)
COATS = "dash-bond, scratch, brown, base, finish"
ONCE = "each of them once"
HEADS = "thickness, cure, openings, allow, prep"


@dataclass(frozen=True)
class Broken:
    name: str
    edits: tuple[tuple[str, str], ...]
    faults: tuple[Expected, ...]
    file: Literal["job", "firm", "shapes"] = "job"


def job(name: str, old: str, new: str, *faults: Expected) -> Broken:
    return Broken(name, ((old, new),), faults)


def shape(name: str, old: str, new: str, *faults: Expected) -> Broken:
    """A small edit of the good shapes; the wash house stands before them."""
    return Broken(name, ((old, new),), faults, "shapes")


def firm(name: str, old: str, new: str, *faults: Expected) -> Broken:
    return Broken(name, ((old, new),), faults, "firm")


SLOPE = 'cap = { kind = "slope", fall = "1 in" }'
CAP = f"drip, flashing, under, {SLOPE}"
DOUBTFUL = 'base = "painted block" or base = "old plaster" or base = "painted plaster"'
DOOR = '"door 3068 at 2\', reveal 4\\""'
HOUSE = 'walls = ["10\'", "8\'", "10\'", "8\'"]'
PROFIT = 'profit = { markup = "12 % of cost and overhead" }'

BROKEN: tuple[Broken, ...] = (
    # --- versions and the text itself ---
    job("newer", "darby = 1\n", "darby = 2\n", ("job.version-newer", "job file, darby", "2", "darby = 1", "")),
    job("no version", "darby = 1\n", "", ("job.no-version", "job file", "", "darby = 1", "")),
    job("never was", "darby = 1\n", "darby = -1\n", ("job.version-unknown", "job file, darby", "-1", "darby = 1", "")),
    job("version as text", "darby = 1\n", 'darby = "1"\n', ("job.wrong-kind", "job file, darby", "1", "darby = 1", "")),
    job("not TOML", "[coats]\n", "[coats\n",
        ("job.not-toml", "job file", "line 60, column 7", "Expected ']' at the end of a table declaration", "")),
    job("no such day", "as_of = 2026-03-02", "as_of = 2026-02-30",
        ("job.not-toml", "job file", "line 6, column 9", "Invalid date or datetime", "")),
    # --- unknown, missing, wrong kind ---
    job("unknown table", "[price]", "[prise]", ("job.unknown-key", "prise", "prise", TOP, "price")),
    job("unknown key", 'customer = "nobody"', 'custumer = "nobody"',
        ("job.unknown-key", "job, custumer", "custumer",
         "name, as_of, customer, address, number, revision, invented, built, firm", "customer")),
    job("unknown key of a wall", "length = \"20'\"", "lenght = \"20'\"",
        ("job.unknown-key", 'surface "front", lenght', "lenght", WALL, "length"),
        ("job.missing", 'surface "front", length', "", "length = ...", "")),
    job("unknown coat", 'thickness = { scratch', 'thickness = { skratch',
        ("job.unknown-key", "coats, on 1, thickness, skratch", "skratch", COATS, "scratch")),
    job("no name", 'name = "Wash house"\n', "", ("job.missing", "job, name", "", "name = ...", "")),
    job("no date", "as_of = 2026-03-02\n", "", ("job.missing", "job, as_of", "", "as_of = ...", "")),
    job("opening without place", "at = \"10'\", ", "",
        ("job.missing", 'surface "front", opening 2, at', "", "at = ...", "")),
    job("rule without why", 'why = "the county asks for it"', "", ("job.missing", "rule 1, why", "", "why = ...", "")),
    job("empty name", 'name = "Wash house"', 'name = " "', ("job.empty", "job, name", "", "a few words", "")),
    job("bell in a name", 'name = "Wash house"', 'name = "a\\u0007"',
        ("job.bad-text", "job, name", "a?", "plain text, not longer than a page", "")),
    job("year as text", "built = 1990", 'built = "1990"',
        ("job.wrong-kind", "job, built", "1990", "a whole number", "")),
    job("flag as text", "paint = false", 'paint = "no"', ("job.wrong-kind", "coats, paint", "no", "true or false", "")),
    job("list for a length", "length = \"20'\"", "length = [\"20'\"]",
        ("job.wrong-kind", 'surface "front", length', "[20']", "a number with its unit, in quotation marks", "")),
    job("tables for a table", "[days]", "[[days]]",
        ("job.wrong-kind", "days", "[{damp_by, week, holidays}]", "a table", "")),
    job("date and time", "as_of = 2026-03-02", "as_of = 2026-03-02T10:00:00",
        ("job.wrong-kind", "job, as_of", "2026-03-02 10:00:00", "a date like 2026-09-30", "")),
    job("number for an opening", DOOR, "7",
        ("job.wrong-kind", 'surface "front", opening 1', "7", "text in quotation marks, or a table", "")),
    job("half a day", "stands_days = 30", "stands_days = 30.5",
        ("job.wrong-kind", "price, stands_days", "30.5", "a whole number", "")),
    # --- words that are not among those allowed ---
    job("brick", 'base = "block"\n', 'base = "blok"\n',
        ("job.not-one-of", 'surface "front", base', "blok", BASES, "block")),
    job("kind of block", 'block = "dense"', 'block = "dence"',
        ("job.not-one-of", 'surface "front", block', "dence", "dense, lightweight", "dense")),
    job("facing", 'facing = "south"', 'facing = "sooth"',
        ("job.not-one-of", 'surface "front", facing', "sooth",
         "north, north-east, east, south-east, south, south-west, west, north-west, 190 deg", "south")),
    job("kind of end", "right = \"outside corner\"", 'right = "outside"',
        ("job.not-one-of", 'surface "side", right', "outside", ENDS, "outside corner")),
    job("kind of end in a table", 'kind = "meets old work"', 'kind = "meets older work"',
        ("job.not-one-of", 'surface "front", left, kind', "meets older work", ENDS, "meets old work")),
    job("build-up", 'choose = "three-coat"', 'choose = "three coats"',
        ("job.not-one-of", "coats, on 1, choose", "three coats",
         "two-coat, single-base, three-coat, heavy-skim, dub-out, lath-three-coat, double-back, one-coat",
         "three-coat")),
    job("reveal's side", 'plaster = ["head"]', 'plaster = ["haed"]',
        ("job.not-one-of", 'surface "front", opening 2, plaster 1', "haed", "head, sill, left, right", "head")),
    job("units", "darby = 1\n", 'darby = 1\nunits = "feet"\n',
        ("job.not-one-of", "units", "feet", "ft, in, m, cm, mm", "ft")),
    # --- measures ---
    job("bare number", "length = \"20'\"", "length = 20",
        ("measure.no-unit", 'surface "front", length', "20", LENGTH, "")),
    job("bare text", "length = \"20'\"", 'length = "20"',
        ("measure.no-unit", 'surface "front", length', "20", LENGTH, "")),
    job("two readings", "length = \"20'\"", 'length = "1,250 m"',
        ("measure.ambiguous", 'surface "front", length', "1,250 m", "1250 m, 1.25 m", "")),
    job("no number", "length = \"20'\"", 'length = "twenty"',
        ("measure.unreadable", 'surface "front", length', "twenty", LENGTH, "")),
    job("below nought", "length = \"20'\"", "length = \"-20'\"",
        ("measure.not-positive", 'surface "front", length', "-20'", "more than 0", "")),
    job("too long a wall", "length = \"20'\"", 'length = "20000 m"',
        ("job.too-large", 'surface "front", length', "20000 m", "a smaller one", "")),
    job("no gable", "gable = \"2'\"", "gable = \"0'\"",
        ("measure.not-positive", 'surface "front", gable', "0'", "more than 0", "")),
    job("bare degrees", 'facing = "190 deg"', "facing = 190",
        ("measure.no-unit", 'house "shed", facing', "190", "190 deg", "")),
    job("degrees", 'facing = "190 deg"', 'facing = "400 deg"',
        ("job.out-of-span", 'house "shed", facing', "400 deg", "0 deg to 360 deg", "")),
    job("bare time", 'wait = { scratch = "48 h" }', "wait = { scratch = 48 }",
        ("measure.no-unit", "coats, on 1, wait, scratch", "48", TIME, "")),
    job("tenths of a cent", 'cost = "$40.00"', 'cost = "$40.1234"',
        ("measure.cents", "also 2, cost", "$40.1234", CENTS, "")),
    job("a week of eight days", "week = 5", "week = 8", ("job.out-of-span", "days, week", "8", "1 to 7", "")),
    job("a holiday in words", "holidays = [2026-03-09]", 'holidays = ["9 March"]',
        ("job.not-a-date", "days, holidays 1", "9 March", "a date like 2026-09-30", "")),
    # --- names that stand for nothing, or twice ---
    job("name with a blank", 'id = "side"', 'id = "the side"',
        ("job.no-such-surface", 'surface "front", right, with', "side", "shed-1, shed-2, shed-3, shed-4", ""),
        ("job.bad-id", 'surface "the side", id', "the side",
         "a short name of letters, figures and hyphens, like bay-south", ""),
        ("job.no-such-surface", "also 1, surface", "side", "front, shed-1, shed-2, shed-3, shed-4", "")),
    job("same name", 'id = "shed"', 'id = "side"', ("job.twice", 'house "side", id', "side", ONCE, "")),
    job("name of the rest", 'id = "patch"\nbase', 'id = "rest"\nbase',
        ("job.twice", 'surface "front", zone "rest", id', "rest", ONCE, ""),
        ("job.no-such-zone", "coats, on 1, zone", "patch", "rest", "")),
    job("coats on no wall", 'surface = "front"\n', 'surface = "frunt"\n',
        ("job.no-such-surface", "coats, on 1, surface", "frunt", f"{SURFACES}, shed", "front")),
    job("coats on no zone", 'zone = "patch"\n', 'zone = "pach"\n',
        ("job.no-such-zone", "coats, on 1, zone", "pach", "rest, patch", "patch")),
    job("corner with nobody", 'with = "side"', 'with = "sied"',
        ("job.no-such-surface", 'surface "front", right, with', "sied", "side, shed-1, shed-2, shed-3, shed-4",
         "side")),
    job("corner not answered", 'left = { kind = "outside corner", with = "front" }', 'left = "inside corner"',
        ("job.no-matching-edge", 'surface "front", right, with', "side",
         'side: left = { kind = "outside corner", with = "front" }', "")),
    job("no voice", 'cure = "ibc"\n', 'cure = "ibx"\n',
        ("job.no-such-voice", "coats, on 1, cure", "ibx", "ibc, ufgs", "ibc")),
    job("no item", 'item = "portland"', 'item = "portlnd"',
        ("job.unknown-item", "ordered 1, item", "portlnd", ", ".join((*ITEMS, "float-finish")), "portland")),
    job("no subject", 'subject = "thickness.block.two-coat"', 'subject = "thickness.block.twocoat"',
        ("job.no-such-subject", "rule 1, subject", "thickness.block.twocoat", HEADS, "thickness.block.two-coat")),
    job("rule in hours", 'value = "5/8 in"', 'value = "5 h"', ("job.rule-unit", "rule 1, value", "5 h", "1/2 in", "")),
    job("rule in words", 'value = "5/8 in"', 'value = "thick"',
        ("job.unreadable-figure", "rule 1, value", "thick", "1/2 in", "")),
    job("bags without a name", 'amount = "12 bags"', "amount = 12",
        ("measure.no-unit", "ordered 1, amount", "12", COUNTED, "")),
    job("nothing to price", 'what = "wash"\nhours = "2 h"', 'what = "wash"',
        ("job.nothing-to-price", "also 1", "", "hours, length, area or cost", "")),
    # --- what does not belong, geometry ---
    job("studs in block", 'joints = "flush"', 'studs = "16 in"',
        ("job.not-here", 'surface "front", studs', "16 in", ON_FRAME, "")),
    job("old plaster at a corner", 'kind = "meets old work"', 'kind = "inside corner"',
        ("job.not-here", 'surface "front", left, thickness', "3/4 in", 'kind = "meets old work"', ""),
        ("job.not-here", 'surface "front", left, proud', "3/4 in", 'kind = "meets old work"', "")),
    job("above the wall", "up_to = \"8'\"", "up_to = \"18'\"",
        ("measure.up-to", 'surface "front", left, up_to', "18'", "0\" … 9' 4\"", "")),
    job("door past the wall", "door 3068 at 2'", "door 3068 at 18'",
        ("measure.opening-outside", 'surface "front", opening 1', "at 21'", "at 0\" … 20'", "")),
    job("window over the door", "at = \"10'\"", "at = \"4'\"",
        ("measure.openings-overlap", 'surface "front", opening 2', "door-1, shop-window",
         "openings clear of each other", "")),
    job("door without place", DOOR, '"door 3068"',
        ("measure.opening-lacks", 'surface "front", opening 1', "door 3068", OPENING, "at")),
    job("no such opening", "\"door 3068 at 2'", "\"dor 3068 at 2'",
        ("measure.opening-kind", 'surface "front", opening 1', "dor 3068 at 2', reveal 4\"",
         "door, window, vent, opening", "door")),
    job("plaster in no reveal", 'reveal = "4\\"", plaster', "plaster",
        ("job.needs-key", 'surface "front", opening 2, plaster', "head", "an opening whose reveal is measured", "")),
    job("zone past the wall", "\"19', 2'\"", "\"23', 2'\"",
        ("measure.zone-outside", 'surface "front", zone "patch"', "at 23'", "at 0\" … 20'", "")),
    job("corner without comma", "\"19', 2'\"", "\"19' 2'\"",
        ("job.not-a-corner", 'surface "front", zone "patch", corner 3', "19' 2'", "4'-8\", 8'-6\"", "")),
    job("outline crosses", "\"19', 0\\\"\", \"19', 2'\"", "\"19', 2'\", \"19', 0\\\"\"",
        ("measure.outline-crosses", 'surface "front", zone "patch"', "at 18', up 1'", "corners in order round it", "")),
    job("two walls", HOUSE, "walls = [\"10'\", \"8'\"]",
        ("measure.too-few-walls", 'house "shed"', "2", "3 …", "")),
    job("wall of a house", HOUSE, "walls = [\"10'\", 8, \"10'\", \"8'\"]",
        ("measure.no-unit", 'house "shed", wall 2', "8", LENGTH, "")),
    job("gable on no wall", "gables = { 2", "gables = { 5",
        ("job.no-such-wall", 'house "shed", gables, 5', "5", "1 to 4", "")),
    job("one corner for four", 'studs = "16 in"', 'studs = "16 in"\ncorners = ["outside"]',
        ("measure.turns", 'house "shed", corners', "1", "4", "")),
    job("end of a closed house", 'studs = "16 in"', 'studs = "16 in"\nleft = "inside corner"',
        ("job.not-here", 'house "shed", left', "left", "closed = false", "")),
    # --- garden walls, boxes, strips, rings ---
    shape("flat top", 'cap = "drip"', 'cap = "flat"',
          ("job.flat-top", 'garden wall "gw", cap', "flat", CAP, "")),
    shape("open top in a table", 'cap = "flashing"', 'cap = { kind = "none" }',
          ("job.flat-top", 'box "ch", cap, kind', "none", CAP, "")),
    shape("no top", 'cap = "drip"\n', "", ("job.missing", 'garden wall "gw", cap', "", "cap = ...", "")),
    shape("unknown top", 'cap = "drip"', 'cap = "drips"',
          ("job.not-one-of", 'garden wall "gw", cap', "drips", "drip, flashing, under, slope", "drip")),
    shape("slope that does not say how much", 'cap = "drip"', 'cap = "slope"',
          ("job.needs-key", 'garden wall "gw", cap', "slope", SLOPE, "")),
    shape("fall of a cap that has none", 'cap = "flashing"', 'cap = { kind = "drip", fall = "1 in" }',
          ("job.not-here", 'box "ch", cap, fall', "1 in", 'kind = "slope"', "")),
    shape("pilasters that overlap", "every = \"10'\"", "at = [\"20'\", \"21'\"]",
          ("measure.pilasters-overlap", 'garden wall "gw", pilasters', "20', 21'", "> 1' 4\"", "")),
    shape("a pilaster past the end", "every = \"10'\"", "at = [\"20'\", \"60'\"]",
          ("measure.pilaster-outside", 'garden wall "gw", pilasters', "60'", "8\" … 59' 4\"", "")),
    shape("a pilaster in the gate", "every = \"10'\"", "at = [\"13'\"]",
          ("measure.opening-at-pilaster", 'garden wall "gw", opening 1', "12' … 15'", "12' 4\" … 13' 8\"", "")),
    shape("pilasters nowhere", "every = \"10'\", ", "",
          ("job.at-or-every", 'garden wall "gw", pilasters', "", "at or every, one of the two", "")),
    shape("pilasters twice", "every = \"10'\", ", "every = \"10'\", at = [\"20'\"], ",
          ("job.at-or-every", 'garden wall "gw", pilasters', "at, every", "at or every, one of the two", "")),
    shape("pilasters farther apart than the wall is long", "every = \"10'\"", "every = \"60'\"",
          ("job.out-of-span", 'garden wall "gw", pilasters, every', "0", "1 to 500 pilasters", "")),
    shape("pilasters a hair apart", "every = \"10'\"", 'every = "1 mm"',
          ("job.out-of-span", 'garden wall "gw", pilasters, every', "18287", "1 to 500 pilasters", "")),
    shape("a pilaster that cannot be read", "every = \"10'\"", "at = [\"20'\", 30]",
          ("measure.no-unit", 'garden wall "gw", pilasters, at 2', "30", LENGTH, "")),
    shape("three faces", "faces = 2", "faces = 3", ("job.out-of-span", 'garden wall "gw", faces', "3", "1 to 2", "")),
    shape("earth over the wall", "retains = \"1'\"", "retains = \"7'\"",
          ("measure.retains", 'garden wall "gw", retains', "7'", "0\" … 6'", "")),
    shape("gate past the wall", "x 2' at 12'", "x 2' at 58'",
          ("measure.opening-outside", 'garden wall "gw", opening 1', "at 61'", "at 0\" … 60'", ""),
          ("measure.opening-outside", 'garden wall "gw", opening 1', "at -1'", "at 0\" … 60'", "")),
    shape("a shape's corner with a wall", 'left = "outside corner"',
          'left = { kind = "outside corner", with = "front" }',
          ("job.not-here", 'garden wall "gw", left, with', "front", "[[wall]]", "")),
    shape("a box with no sides", "sides = [\"3'\", \"2'\"]", "sides = []",
          ("measure.box-sides", 'box "ch", sides', "0", "2 … 3", "")),
    shape("a box of four sides", "sides = [\"3'\", \"2'\"]", "sides = [\"3'\", \"2'\", \"3'\", \"2'\"]",
          ("measure.box-sides", 'box "ch", sides', "4", "2 … 3", "")),
    shape("a side that cannot be read", "sides = [\"3'\", \"2'\"]", "sides = [\"3'\", 2]",
          ("measure.no-unit", 'box "ch", side 2', "2", LENGTH, "")),
    shape("a roof that passes over the top", 'roof = "6 in 12"', 'roof = "30 in 12"',
          ("measure.slope-past-top", 'box "ch", roof', "5'", "< 5'", "")),
    shape("a roof without a pitch", 'roof = "6 in 12"', 'roof = "steep"',
          ("measure.pitch", 'box "ch", roof', "steep", "6 in 12, 6:12, 30 deg", "")),
    shape("a level roof", 'roof = "6 in 12"', 'roof = { pitch = "0 in 12" }',
          ("measure.not-positive", 'box "ch", roof, pitch', "0 in 12", "6 in 12, 6:12, 30 deg", "")),
    shape("a fifth side down the roof", 'roof = "6 in 12"', 'roof = { pitch = "6 in 12", down = 5 }',
          ("job.out-of-span", 'box "ch", roof, down', "5", "1 to 4", "")),
    shape("an opening in no side", "openings = { 1 =", "openings = { 5 =",
          ("job.no-such-wall", 'box "ch", side 5', "5", "1 to 4", "")),
    shape("an end of a box that has none", 'base_edge = "roof line"', 'base_edge = "roof line"\nleft = "inside corner"',
          ("job.not-here", 'box "ch", left', "left", "sides = [..., ..., ...]", "")),
    shape("kind of strip", 'kind = "soffit"', 'kind = "sofit"',
          ("job.not-one-of", 'strip "eave", kind', "sofit", "soffit, band, foundation", "soffit")),
    shape("a soffit past a soffit", 'tilt = "180 deg"', 'tilt = "190 deg"',
          ("job.out-of-span", 'strip "eave", tilt', "190 deg", "0 deg to 180 deg", "")),
    shape("a ring larger than its wall", 'width = "6 in"', "width = \"4'\"",
          ("measure.ring-outside", 'ring "hole", width', "left 4'", "≤ 3'", "")),
    shape("a ring without a side", 'sides = ["head", "sill", "left", "right"]', "sides = []",
          ("measure.ring-sides", 'ring "hole", sides', "-", "head, sill, left, right", "")),
    shape("size of a ring", "size = \"3' x 4'\"", "size = \"3'\"",
          ("measure.opening-size", 'ring "hole", size', "3'", "3068, 3' x 4', 900 x 2100 mm", "")),
    shape("a wall with one side", "wall = \"20' x 9'\"", "wall = \"20'\"",
          ("measure.unreadable", 'ring "hole", wall', "20'", "3' x 4', 27 x 97 in, 900 x 2100 mm", "")),
    shape("plaster in no reveal of a ring", 'reveal = "2 in"\n', "",
          ("job.needs-key", 'ring "hole", plaster', "head", "an opening whose reveal is measured", "")),
    shape("a shape called like a wall", 'id = "gw"', 'id = "shed"',
          ("job.twice", 'garden wall "shed", id', "shed", ONCE, "")),
    shape("tests of sound brick", 'brick = "soft"', 'tests = { tap = "sound" }',
          ("job.not-here", 'box "ch", tests', "{tap}", DOUBTFUL, "")),
    shape("what is behind brick", 'brick = "soft"', 'behind = "frame"',
          ("job.not-here", 'box "ch", behind', "frame", 'base = "old plaster" or base = "painted plaster"', "")),
    shape("a test that came out otherwise", 'pull = "held"', 'pull = "came off"',
          ("job.not-one-of", 'ring "hole", tests, pull', "came off", "held, let go", "")),
    # --- finishes ---
    job("sand in a dash", 'finish = "float"\n', 'finish = "dash"\nsand = "16/20"\n',
        ("job.not-here", "coats, sand", "16/20",
         'finish = "float" or finish = "skip trowel" or finish = "scraped"', "")),
    job("color twice", 'paint = false\n', 'paint = true\ncolored = true\n',
        ("job.color-twice", "coats, colored", "colored, paint", "colored or paint, one of the two", "")),
    # --- the firm file ---
    firm("newer firm", "darby_firm = 1", "darby_firm = 3",
         ("job.version-newer", "firm file, darby_firm", "3", "darby_firm = 1", "")),
    firm("firm not TOML", "[trip]", "[trip",
         ("job.not-toml", "firm file", "line 56, column 6", "Expected ']' at the end of a table declaration", "")),
    firm("firm's key", "beads = ", "beeds = ",
         ("job.unknown-key", "firm, pace, beeds", "beeds",
          PACES, "beads")),
    firm("language", '"en", "es"', '"en", "fr"', ("job.not-one-of", "firm, languages 2", "fr", "en, es", "")),
    firm("voice", 'thickness = "c926"', 'thickness = "c962"',
         ("job.no-such-voice", "firm, follow, thickness", "c962", "c926, pca", "c926")),
    firm("subject", 'thickness = "c926"', 'thicknes = "c926"',
         ("job.no-such-subject", "firm, follow, thicknes", "thicknes", HEADS, "thickness")),
    firm("mixer in feet", 'mixer = "9 cu ft"', 'mixer = "9 ft"',
         ("measure.unknown-unit", "firm, measures, mixer", "9 ft", VOLUME, "ft3")),
    firm("unmeasured bucket", 'bucket = "0.70 cu ft"\n', "",
         ("job.gauge-not-measured", "firm, measures, gauge", "bucket", 'bucket = "..."', "")),
    firm("nobody", "people = 2", "people = 0", ("job.out-of-span", "firm, crew 1, people", "0", "1 to 10000", "")),
    firm("wage a day", "$34.00/h", "$34.00/day",
         ("measure.unknown-unit", "firm, crew 1, wage", "$34.00/day", "$34.00/h", "")),
    firm("pace a day", "110 sq ft/h", "880 sq ft/day",
         ("measure.unknown-unit", "firm, pace, scratch", "880 sq ft/day", "75 sq ft/h", "")),
    firm("pace of beads", "60 ft/h", "60 sq ft/h",
         ("measure.unknown-unit", "firm, pace, beads", "60 sq ft/h", "60 ft/h", "")),
    firm("of what", "42 % of wage", "42 %",
         ("job.percent-of", "firm, labor, burden", "42 %", "% of wage", "% of wage")),
    firm("of the wrong thing", "22 % of cost", "22 % of price",
         ("job.percent-of", "firm, money, overhead", "22 % of price", "% of cost", "% of cost")),
    firm("bare share", 'spread = "10 %"', "spread = 0.1",
         ("measure.no-unit", "firm, allow, spread", "0.1", "10 %, 12 % of cost", "")),
    firm("part over nought", 'lime = "3/4"', 'lime = "3/0"',
         ("job.not-parts", "firm, mixes, base, lime", "3/0", "a number, or a fraction in quotation marks", "")),
    firm("sand alone", 'portland = 1\nlime = "3/4"\n', "",
         ("job.mix-without-cement", "firm, mixes, base", "sand", "cement or lime, or a bagged material", "")),
    firm("mix and bag", "sand = 5", 'sand = 5\nbagged = "float-finish"',
         ("job.mix-both", "firm, mixes, base, bagged", "float-finish, portland, lime, sand",
          "parts, or a bagged material, not both", "")),
    firm("no bag", 'bagged = "float-finish"', 'bagged = "float-finsh"',
         ("job.no-such-bag", "firm, mixes, finish, bagged", "float-finsh", "float-finish", "float-finish")),
    firm("bag without unit", 'yield = "0.75 cu ft"', 'yield = "0.75"',
         ("measure.no-unit", "firm, bagged 1, yield", "0.75", VOLUME, "")),
    firm("bought twice", 'item = "sand"', 'item = "portland"',
         ("job.twice", "firm, buys 2, item", "portland", ONCE, "")),
    firm("package", 'package = "cu yd"', 'package = "a yard or so"',
         ("measure.package", "firm, buys 2, package", "a yard or so", PACKAGE, "")),
    firm("price of nought", "$46.00", "$0.00",
         ("measure.not-positive", "firm, buys 2, price", "$0.00", "more than 0", "")),
    firm("price without sign", 'price = "$46.00"', 'price = "46"',
         ("measure.no-unit", "firm, buys 2, price", "46", CENTS, "")),
    firm("both profits", PROFIT, 'profit = { markup = "12 % of cost and overhead", margin = "10 % of price" }',
         ("job.profit-one", "firm, money, profit", "markup, margin", "markup or margin, one of the two", "")),
    firm("all of the price", PROFIT, 'profit = { margin = "100 % of price" }',
         ("job.out-of-span", "firm, money, profit, margin", "100 % of price", "0 % to 99 %", "")),
    firm("span upside down", "$8 to $34/sq ft", "$34 to $8/sq ft",
         ("measure.range", "firm, usual, price", "$34 to $8/sq ft", "$8 to $34/sq ft", "")),
    firm("no span", "$8 to $34/sq ft", "$8/sq ft",
         ("job.no-span", "firm, usual, price", "$8/sq ft", "$8 to $34/sq ft", "")),
    job("bead that is no bar", "[days]", '[cuts]\none_piece = ["corner beed"]\n\n[days]',
        ("job.not-one-of", "cuts, one_piece 1", "corner beed", ", ".join(BARS), "corner bead")),
    job("one piece twice", "[days]", '[cuts]\none_piece = ["corner bead", "corner bead"]\n\n[days]',
        ("job.twice", "cuts, one_piece 2", "corner bead", ONCE, "")),
    job("blade below nought", "[days]", '[cuts]\nblade = "-1/8 in"\n\n[days]',
        ("measure.not-positive", "cuts, blade", "-1/8 in", "0 or more", "")),
    job("no splice", "[days]", '[cuts]\nsplice = "0 in"\n\n[days]',
        ("measure.not-positive", "cuts, splice", "0 in", "more than 0", "")),
    job("none on the truck", "[days]", '[[cuts.on_truck]]\nitem = "casing bead"\nlength = "6\'"\ncount = 0\n\n[days]',
        ("job.out-of-span", "cuts, on_truck 1, count", "0", "1 to 10000", "")),
    job("offcut without a length", "[days]", '[[cuts.on_truck]]\nitem = "casing bead"\n\n[days]',
        ("job.missing", "cuts, on_truck 1, length", "", "length = ...", "")),
    job("finished face read at two places", "[days]",
        '[[finished]]\nsurface = "side"\npoints = [["1\'", "1\'", "0 in"], ["2\'", "1\'", "0 in"]]\n\n[days]',
        ("grounds.few", "finished 1, points", "2", "3 …", "")),
    job("finished face read off the wall", "[days]",
        '[[finished]]\nsurface = "side"\npoints = [["1\'", "1\'", "0 in"], ["2\'", "1\'", "0 in"], '
        '["400\'", "1\'", "0 in"]]\n\n[days]',
        ("grounds.off-wall", "finished 1, points 3", "at 400', up 1'", "at 0\" … 30', up 0\" … 9' 4\"", "")),
)  # fmt: skip

FIVE: tuple[Broken, ...] = (
    Broken(
        "five from the top to an opening's size",
        (
            ("[price]", "[prise]"),
            ('customer = "nobody"', 'custumer = "nobody"'),
            ('block = "dense"', 'block = "dence"'),
            ("size = \"6' x 4'\"", "size = \"6' x four\""),
            ('why = "the county asks for it"', ""),
        ),
        (
            ("job.unknown-key", "job, custumer", "custumer",
             "name, as_of, customer, address, number, revision, invented, built, firm", "customer"),
            ("job.not-one-of", 'surface "front", block', "dence", "dense, lightweight", "dense"),
            ("measure.unreadable", 'surface "front", opening 2, size', "four", LENGTH, ""),
            ("job.unknown-key", "prise", "prise", TOP, "price"),
            ("job.missing", "rule 1, why", "", "why = ...", ""),
        ),
    ),
    Broken(
        "five of shape and meaning in one wall",
        (
            ("length = \"20'\"", "length = 20"),
            ("gable = \"2'\"", "gable = [2]"),
            ("up_to = \"8'\"", 'up_to = "high"'),
            (DOOR, '"dor 3068 at 2\'"'),
            ("\"19', 2'\"", "\"19' 2'\""),
        ),
        (
            ("measure.no-unit", 'surface "front", length', "20", LENGTH, ""),
            ("job.wrong-kind", 'surface "front", gable', "[2]", "a number with its unit, in quotation marks", ""),
            ("measure.unreadable", 'surface "front", left, up_to', "high", LENGTH, ""),
            ("measure.opening-kind", 'surface "front", opening 1', "dor 3068 at 2'", "door, window, vent, opening",
             "door"),
            ("job.not-a-corner", 'surface "front", zone "patch", corner 3', "19' 2'", "4'-8\", 8'-6\"", ""),
        ),
    ),
    Broken(
        "five of names and geometry",
        (
            ('with = "side"', 'with = "sied"'),
            ("door 3068 at 2'", "door 3068 at 18'"),
            ("gables = { 2", "gables = { 5"),
            ('zone = "patch"\n', 'zone = "pach"\n'),
            ('item = "portland"', 'item = "portlnd"'),
        ),
        (
            ("job.no-such-surface", 'surface "front", right, with', "sied", "side, shed-1, shed-2, shed-3, shed-4",
             "side"),
            ("measure.opening-outside", 'surface "front", opening 1', "at 21'", "at 0\" … 20'", ""),
            ("job.no-such-wall", 'house "shed", gables, 5', "5", "1 to 4", ""),
            ("job.no-such-zone", "coats, on 1, zone", "pach", "rest, patch", "patch"),
            ("job.unknown-item", "ordered 1, item", "portlnd", ", ".join((*ITEMS, "float-finish")), "portland"),
        ),
    ),
    Broken(
        "five over the whole document",
        (
            ("as_of = 2026-03-02", 'as_of = "March"'),
            ("wait = { scratch = \"48 h\" }", "wait = { scratch = true }"),
            ('amount = "12 bags"', 'amount = "-2 bags"'),
            ('cost = "$40.00"', 'cost = "$40.1234"'),
            ("week = 5", "week = 0"),
        ),
        (
            ("job.not-a-date", "job, as_of", "March", "a date like 2026-09-30", ""),
            ("job.wrong-kind", "coats, on 1, wait, scratch", "true", "a number with its unit, in quotation marks", ""),
            ("measure.not-positive", "ordered 1, amount", "-2 bags", "more than 0", ""),
            ("measure.cents", "also 2, cost", "$40.1234", CENTS, ""),
            ("job.out-of-span", "days, week", "0", "1 to 7", ""),
        ),
    ),
    Broken(
        "five in the firm file",
        (
            ('system = "us"', "system = 1"),
            ('voice = "ibc", ', ""),
            ('wage = "$34.00/h"', 'wage = "$34.00"'),
            ('lime = "3/4"', 'lime = "some"'),
            (PROFIT, "profit = { }"),
        ),
        (
            ("job.not-one-of", "firm, system", "1", "us, metric", ""),
            ("job.missing", "firm, follow, cure, voice", "", "voice = ...", ""),
            ("measure.unreadable", "firm, crew 1, wage", "$34.00", "$34.00/h", ""),
            ("job.not-parts", "firm, mixes, base, lime", "some", "a number, or a fraction in quotation marks", ""),
            ("job.profit-one", "firm, money, profit", "", "markup or margin, one of the two", ""),
        ),
        "firm",
    ),
)  # fmt: skip
