"""The models, the JSON Schema and the docs say the same; and no key is let in and then ignored."""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from darby.job import loading, loads, schema
from darby.job.document import START, tables, with_tables
from darby.job.firm import COAT_NAMES
from tests.job.documents import FIRM, JOB, SHAPES

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))


def as_json(thing: Any) -> Any:
    """The form of a document in JSON: dates are text."""
    if isinstance(thing, dict):
        return {key: as_json(value) for key, value in thing.items()}
    if isinstance(thing, list):
        return [as_json(value) for value in thing]
    return thing.isoformat() if isinstance(thing, date) else thing


def validator(kind: str) -> jsonschema.Draft202012Validator:
    made = schema(kind)  # type: ignore[arg-type]
    jsonschema.Draft202012Validator.check_schema(made)
    return jsonschema.Draft202012Validator(made, format_checker=jsonschema.FormatChecker())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.name)
def test_the_schema_takes_the_examples(path: Path) -> None:
    raw = as_json(tomllib.loads(path.read_text("utf-8")))
    assert list(validator("firm" if "darby_firm" in raw else "job").iter_errors(raw)) == []


def test_the_schema_takes_the_good_documents() -> None:
    assert list(validator("job").iter_errors(as_json(tomllib.loads(JOB + SHAPES)))) == []
    assert list(validator("firm").iter_errors(as_json(tomllib.loads(FIRM)))) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [("customer", "custumer"), ("built = 1990", 'built = "1990"'), ('block = "dense"', 'block = "dence"'),
     ("as_of = 2026-03-02\n", ""), ("as_of = 2026-03-02", 'as_of = "March"'), ("[days]", "[[days]]"),
     ("darby = 1\n", "darby = 2\n"), ('plaster = ["head"]', 'plaster = ["haed"]')],
)  # fmt: skip
def test_the_schema_refuses_what_the_shape_pass_refuses(old: str, new: str) -> None:
    assert list(validator("job").iter_errors(as_json(tomllib.loads(JOB.replace(old, new)))))


def test_a_document_in_json_is_the_same_job() -> None:
    assert loads(as_json(tomllib.loads(JOB)), firm=as_json(tomllib.loads(FIRM))) == loads(JOB, firm=FIRM)


def test_a_document_is_not_changed_by_loading() -> None:
    raw, firm = tomllib.loads(JOB + '\n[firm]\nsystem = "metric"\n'), tomllib.loads(FIRM)
    before = copy.deepcopy((raw, firm))
    loads(raw, firm=firm)
    assert (raw, firm) == before


@pytest.mark.parametrize("kind", ["job", "firm"])
def test_every_field_is_described(kind: str) -> None:
    made = schema(kind)  # type: ignore[arg-type]
    for definition in (made, *made.get("$defs", {}).values()):
        assert definition["description"]
        for key, field in definition.get("properties", {}).items():
            assert field.get("description"), f"{definition.get('title')}: {key}"


def test_the_docs_are_made_from_the_models() -> None:
    """If this fails: python -m darby.job.document."""
    text = (ROOT / "docs" / "job-file.md").read_text("utf-8")
    assert all(START.format(kind=kind) in text for kind in ("job", "firm", "codes"))
    assert with_tables(text) == text
    assert "| `out_of_plane` | measure |" in tables("job")


def test_the_jobs_in_the_docs_load() -> None:
    """The pieces of a job in the docs, put together, are a job."""
    text = (ROOT / "docs" / "job-file.md").read_text("utf-8")
    pieces = [block.split("```")[0] for block in text.split("```toml\n")[1:]]
    job = "\n".join(piece for piece in pieces if "[firm" not in piece)
    firm = "\n".join(piece for piece in pieces if "[firm" in piece)
    job = job.replace('firm = "firm.toml"', "")
    side = '[[wall]]\nid = "side"\nlength = "30\'"\nheight = "9\'"\nbase = "concrete"\n'
    assert {s.id for s in loads(f"{job}\n{side}\n{firm}", firm=FIRM).surfaces} == {
        "front", "side", "shed-1", "shed-2", "shed-3", "shed-4", "gw-front", "gw-back", "gw-left", "gw-right",
        "gw-front-returns", "gw-back-returns", "ch-1", "ch-2", "ch-3", "ch-4", "eave", "hole",
    }  # fmt: skip


# --- no key is let in and then ignored ---

OWN_MIXES = ", ".join(f"{coat} = {{ portland = 1, sand = 4 }}" for coat in COAT_NAMES)
TESTED = 'tests = { scrape = "holds", water = "beads", tap = "sound", pull = "held" }'
WHOLE = (
    JOB.replace(
        'wait = { scratch = "48 h" }',
        f'wait = {{ scratch = "48 h" }}\nmoist = {{ brown = "24 h" }}\nmixes = {{ {OWN_MIXES} }}',
    )
    .replace('why = "the county asks for it"', 'why = "the county asks for it"\napplies = { coat = ["brown"] }')
    .replace('reveal 0\\""]', 'reveal 0\\"", { size = "2020", at = "7\'", up = "3\'" }]')
    .replace(
        'studs = "16 in"',
        'studs = "16 in"\nclosed = false\nleft = { kind = "outside corner" }\nright = { kind = "outside corner" }\n'
        'corners = ["outside", "outside", "outside"]',
    )
    .replace('right = "outside corner"', 'right = { kind = "outside corner" }')
    + '\n[[joints]]\nsurface = "front"\nupright = ["6\'"]\nlevel = ["4\'"]\nnot_upright = ["7\'"]\n'
    'not_level = ["5\'"]\nblock = ["10\'"]\nfloors = ["8\'"]\nchoose = "fewest"\n'
    'framing = ["3\'"]\nframing_level = ["2\'"]\nthrough = ["9\'"]\nthrough_level = ["6\'"]\ncurved = true\n'
    'area = "120 sq ft"\nside = "16\'"\nratio = "2"\ngap = { cold = "0 F", hot = "120 F", installed = "50 F", '
    'sealant = "50", tolerance = "1/8 in", moisture = "0.02 %", shrinkage = true }\n'
    '\n[[joints]]\ngap = { swing = "130 F" }\n'
    '\n[[lath]]\nsurface = "front"\nfirst_stud = "8 in"\nsheet = "27 x 97 in sheet"\nside_lap = "1 in"\n'
    'end_lap = "1 in"\npaper = 1\nroll = "40 in x 50 ft roll"\nplies = 2\noutside = "round"\ninside = "bead"\n'
    '\n[[readings]]\nsurface = "side"\nunits = "ft"\npoints = [[0, 0, 0], [30, 0, 0], [0, 9, 0]]\n'
    'fixed = [[0, 0, 0]]\nleast = "3/8 in"\nheld = "lath"\nmeasured = "back"\nface = "leaning"\nspacing = "5 ft"\n'
    '\n[[finished]]\nsurface = "side"\nunits = "ft"\npoints = [[0, 0, 0], [5, 0, 0], [9, 0, 0]]\nmeasured = "out"\n'
    '\n[[done]]\nsurface = "front"\nzone = "patch"\ncoat = "scratch"\non = 2026-03-05\n'
    '\n[cuts]\nblade = "1/8 in"\nsplice = "2 ft"\none_piece = ["corner bead"]\n'
    '\n[[cuts.on_truck]]\nitem = "weep screed"\nlength = "6 ft"\ncount = 2\nname = "red"\n'
    '\n[[match]]\nsurface = "side"\nsays = "shed"\nlooks = "dash"\nretained = [["No. 16", "2 g"], ["pan", "1 g"]]\n'
    'depths = ["1/16 in"]\nread_by = "putty"\npaint_coats = 2\npaint = "paint"\n'
    'board = [{ sand = ["No. 30", "No. 20"], method = "float", thickness = "1/8 in", how = "tight" }]\n'
    'also_paint = { to = "the corner", length = "9 ft", height = "8 ft" }\n'
    'signed = { board = 1, by = "the owner", on = 2026-02-20, light = "shade", off = "10 ft" }\n'
    '\n[[match]]\nsurface = "front"\npassing = [["No. 16", "96 %"]]\nfilm = "12 mil"\n'
    'also_paint = { to = "the corner", area = "90 sq ft" }\n'
    '\n[[survey]]\nsurface = "side"\ngrid = "1 ft"\ntaps = []\npace = "300 sq ft/h"\n'
    '[[survey.hollow]]\nid = "h"\nname = "h"\noutline = ["1 ft, 1 ft", "2 ft, 1 ft", "2 ft, 2 ft"]\n'
    'push = "firm"\nlath = "tight"\n'
    '[[survey.loose]]\nid = "l"\nname = "l"\nsize = "1 ft x 1 ft"\nat = "3 ft"\nup = "1 ft"\n'
    '[[survey.loose]]\noutline = ["1 ft, 5 ft", "2 ft, 5 ft", "2 ft, 6 ft"]\n'
    '[[survey.hollow]]\nsize = "1 ft x 1 ft"\nat = "3 ft"\nup = "3 ft"\n'
    '[[survey.crack]]\nid = "c"\nname = "c"\nline = ["1 ft, 3 ft", "2 ft, 4 ft"]\nwidth = "1 mm"\nleaks = true\n'
    'returned = true\ngauge = "0.1 mm"\nreading = [{ on = 2026-01-02, width = "1 mm", air = "40 F" }]\n'
    '\n[[survey]]\nid = "back"\nname = "Back"\nsize = "9 ft x 8 ft"\n'
    'openings = [{ id = "w", name = "w", size = "2020", kind = "window", at = "3 ft", up = "3 ft", reveal = "0 in", '
    'frame = "1 in", rise = "0 in", plaster = [] }]\n'
    '\n[[patch]]\nsurface = "hole"\nflange = "1 in"\nold = "soft"\ncut = "6 sq ft/h"\n'
    'hollow = { head = "1 in", sill = "1 in", left = "1 in", right = "1 in" }\n'
    'lines = { head = "6 in", sill = "6 in", left = "6 in", right = "6 in" }\n'
    '\n[[match]]\nsurface = "shed-1"\ngrains = [["No. 30", "No. 20"]]\n'
    '\n[recoat]\nsurfaces = ["old", "cot"]\nadds = "1/4 in"\nframes = "1 in"\nreturns = "1 in"\nweep = "1 in"\n'
    'mask = "60 ft/h"\nwash = "400 sq ft/h"\nroughen = "90 sq ft/h"\n'
    '[[recoat.vent]]\nsurface = "old"\nname = "hood"\nat = "2 ft"\nup = "2 ft"\nclear = "1 in"\ncount = 2\n'
    '[[recoat.eave]]\nsurface = "cot"\nname = "eave"\nclear = "1 in"\n'
    '[[recoat.fixture]]\nwhat = "lamp"\ncount = 2\neach = "30 min"\n'
    + SHAPES
    + f"""
[[wall]]
id = "old"
length = "10'"
height = "8'"
base = "old plaster"
{TESTED}
[[wall.zone]]
id = "bare"
base = "old plaster"
outline = ["0'', 0''", "1', 0''", "1', 1'"]
{TESTED}
[[house]]
id = "cot"
walls = ["10'", "8'", "10'", "8'"]
height = "8'"
base = "painted plaster"
{TESTED}
[[garden_wall]]
id = "gw2"
length = "60'"
height = "6'"
thick = "8 in"
base = "painted block"
cap = {{ kind = "slope", fall = "1 in", to = "both" }}
pilasters = {{ at = ["10'", "30'"], width = "16 in", out = "4 in" }}
left = {{ kind = "meets old work" }}
right = {{ kind = "meets old work" }}
openings = [{{ size = "2' x 2'", at = "2'", up = "2'" }}]
{TESTED}
[[box]]
id = "pl"
kind = "planter"
sides = ["2'", "3'", "2'"]
height = "5'"
base = "painted block"
cap = {{ kind = "slope", fall = "1 in" }}
roof = {{ pitch = "6 in 12", down = 2, ridge = true }}
left = {{ kind = "meets old work" }}
right = {{ kind = "meets old work" }}
openings = {{ 1 = [{{ size = "1' x 1'", at = "6 in", up = "2'" }}] }}
{TESTED}
[[strip]]
id = "sill"
kind = "foundation"
length = "10'"
width = "2'"
base = "painted block"
left = {{ kind = "meets old work" }}
right = {{ kind = "meets old work" }}
openings = [{{ size = "1' x 1'", at = "6 in", up = "6 in" }}]
retains = "1'"
{TESTED}
"""
)
FIRM_MIXES = "".join(
    f"[mixes.{coat}]\nportland = 1\nsand = 4\n" for coat in COAT_NAMES if coat not in ("base", "finish")
)
WHOLE_FIRM = (
    FIRM.replace("[mixes.base]", f"{FIRM_MIXES}[mixes.base]")
    + '\n[[rule]]\nsubject = "cure.wait"\nvalue = "9 day"\nwhy = "slow"\napplies = { coat = ["brown"] }\n'
    '\n[[buys]]\nitem = "drip screed"\npackage = "10 ft piece"\nprice = "$9.00"\n'
    'lengths = [{ length = "8 ft", price = "$7.50" }]\n'
)
FREE = {"gables", "openings", "follow", "applies"}
LISTED = {"wall", "garden_wall", "strip", "survey"}
"""Where openings are a list, not a table by number."""


def keys(made: dict[str, Any], definition: dict[str, Any], way: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Every way to a key that the schema lets in; a free key is "*"."""
    for key, field in definition.get("properties", {}).items():
        yield (*way, key)
        yield from inner_keys(made, field, (*way, key))


def inner_keys(made: dict[str, Any], field: dict[str, Any], way: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    if "$ref" in field:
        yield from keys(made, made["$defs"][field["$ref"].rpartition("/")[2]], way)
    for one in (*field.get("oneOf", ()), *field.get("anyOf", ())):
        yield from inner_keys(made, one, way)
    if isinstance(field.get("items"), dict):
        yield from inner_keys(made, field["items"], way)
    if isinstance(field.get("additionalProperties"), dict):
        yield (*way, "*")
        yield from inner_keys(made, field["additionalProperties"], (*way, "*"))


def test_every_key_that_is_let_in_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[loading.Reading] = []

    class Watched(loading.Reading):
        def __init__(self, document: Any) -> None:
            super().__init__(document)
            seen.append(self)

    monkeypatch.setattr(loading, "Reading", Watched)
    loads(WHOLE, firm=WHOLE_FIRM)
    read = {
        tuple("*" if n and way[n - 1] in FREE and way[0] not in LISTED else step for n, step in enumerate(way))
        for way in seen[0].read
    }
    job, firm = schema("job"), schema("firm")
    let_in = set(keys(job, job)) | {("firm", *way) for way in keys(firm, firm)}
    let_in -= {("firm", "darby_firm"), ("job", "firm")}  # read before all else, with the versions
    assert let_in - read == set()
