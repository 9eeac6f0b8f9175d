"""How much a person writes before darby names a price: counted entry by entry, the firm file apart."""

from __future__ import annotations

import copy
import json
import tomllib
from collections.abc import Iterator

import pytest
import tomli_w

from tests.cli.running import EXAMPLES, darby

TWO_OPENINGS = """darby = 1
[job]
name = "Ruth's back wall"
as_of = 2026-09-30
firm = "firm.toml"
[[wall]]
id = "back"
length = "34'"
height = "9'-4\\""
base = "block"
openings = ["door 3068 at 4'", "window 3' x 4' at 12' up 3'"]
"""
LOOKED_AT = """block = "dense"
joints = "flush"
out_of_plane = "1/4 in"
left = "outside corner"
base_edge = "grade"
"""
"""What decides most of the rest, for who looked: added to the wall."""
GARDEN = """darby = 1
[job]
name = "Ruth's garden wall"
as_of = 2026-09-30
firm = "firm.toml"
[[garden_wall]]
id = "wall"
length = "60'"
height = "6'"
thick = "8 in"
base = "block"
pilasters = { every = "10'", width = "16 in", out = "4 in" }
cap = "drip"
"""
Way = tuple[str | int, ...]


def entries(document: object, way: Way = ()) -> Iterator[Way]:
    """The way to every value that was written; an entry of a list (an opening, a point) counts as one."""
    inner = (
        document.items() if isinstance(document, dict) else enumerate(document) if isinstance(document, list) else ()
    )
    for key, value in inner:
        if isinstance(value, dict | list):
            yield from entries(value, (*way, key))
        else:
            yield (*way, key)


def without(document: dict, way: Way) -> dict:
    cut = copy.deepcopy(document)
    here = cut
    for step in way[:-1]:
        here = here[step]
    del here[way[-1]]
    return cut


def priced(folder, document: dict) -> bool:
    """Whether `darby answer` names a price for the job."""
    (folder / "firm.toml").write_bytes((EXAMPLES / "firm.toml").read_bytes())
    path = folder / "job.toml"
    path.write_text(tomli_w.dumps(document), encoding="utf-8")
    result = darby("answer", path, "--json")
    if result.exit_code == 2:
        return False
    price = json.loads(result.stdout)["answers"]["price"]["job"]
    return price.get("is") not in ("Waiting", "Fault") and float(price["total"]["value"]) > 0


@pytest.mark.parametrize(("text", "most"), [(TWO_OPENINGS, 15), (GARDEN, 25)], ids=["two openings", "garden wall"])
def test_a_price_is_reached_with_few_entries(tmp_path, text, most):
    document = tomllib.loads(text)
    assert len(list(entries(document))) <= most
    assert priced(tmp_path, document)


def test_the_counts_are_those_that_the_readme_names():
    counts = [len(list(entries(tomllib.loads(text)))) for text in (TWO_OPENINGS, GARDEN)]
    assert counts == [10, 13]


def test_a_wall_that_was_looked_at_is_no_more_than_15(tmp_path):
    """Block, joints, how true it is, what it ends in: then joints and plane are not guessed."""
    document = tomllib.loads(TWO_OPENINGS + LOOKED_AT)
    assert len(list(entries(document))) <= 15
    assert priced(tmp_path, document)
    assumed = {n["code"] for n in json.loads(darby("answer", tmp_path / "job.toml", "--json").stdout)["notes"]}
    assert not {"job.unsaid-block", "job.unsaid-joints", "buildup.assumed-plane", "job.unsaid-out-of-plane"} & assumed


def test_the_whole_garden_wall_of_the_examples_is_at_most_25():
    """With its facing, its joints, how true it is, its sprinklers and for whom it is."""
    document = tomllib.loads((EXAMPLES / "garden-wall.toml").read_text(encoding="utf-8"))
    assert len(list(entries(document))) <= 25


def test_nothing_of_a_wall_could_be_left_out(tmp_path):
    """What stands in the short job must stand there; openings are what is measured."""
    document = tomllib.loads(TWO_OPENINGS)
    spare = [way for way in entries(document) if "openings" not in way and priced(tmp_path, without(document, way))]
    assert spare == []


def test_a_list_is_as_many_entries_as_stand_in_it():
    assert list(entries({"a": 1, "b": [{"c": "x", "d": ["1", "2"]}], "e": {}})) == [
        ("a",), ("b", 0, "c"), ("b", 0, "d", 0), ("b", 0, "d", 1),
    ]  # fmt: skip
