"""Garden walls, boxes, strips and rings as a job file says them: what they become, and what is taken for granted."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from darby.job import Job, JobError, loads
from darby.job.model import REST, Tried
from darby.measure.units import FT, IN
from tests.job.documents import FIRM, JOB, SHAPES

HEAD = 'darby = 1\n[job]\nname = "x"\nas_of = 2026-03-02\n'
GARDEN = """
[[garden_wall]]
id = "gw"
length = "30'"
height = "6'"
thick = "8 in"
base = "block"
cap = "drip"
"""


def job(text: str, **more: Any) -> Job:
    return loads(HEAD + text, **more)


def assumed(made: Job) -> set[tuple[str, str]]:
    return {(note.code, note.at) for note in made.assumed}


def faults(text: str) -> list[tuple[str, str]]:
    with pytest.raises(JobError) as caught:
        job(text)
    return [(f.code, f.place) for f in caught.value.faults]


@pytest.fixture(scope="module")
def whole() -> Job:
    from darby.job.loading import loads as load

    return load(JOB + SHAPES, firm=FIRM)


def test_one_of_each(whole: Job) -> None:
    ids = [s.id for s in whole.surfaces]
    assert ids[6:] == [
        "gw-front", "gw-back", "gw-left", "gw-right", "gw-front-returns", "gw-back-returns",
        "ch-1", "ch-2", "ch-3", "ch-4", "eave", "hole",
    ]  # fmt: skip
    assert {s.shape for s in whole.surfaces if s.id.startswith("gw")} == {"gw"}
    places = {b.surface: b.place for b in whole.bases}
    assert (places["gw-left"], places["ch-2"], places["eave"], places["hole"]) == (
        "garden wall", "chimney", "soffit", "patch",
    )  # fmt: skip
    assert all(whole.base(s.id, REST) for s in whole.surfaces)


def test_what_was_said_of_a_shape_is_said_of_all_its_surfaces(whole: Job) -> None:
    wall = whole.base("gw-back-returns", REST)
    assert (wall.retains, wall.sprinklers, wall.block, wall.out_of_plane) == (FT, True, "dense", IN / 4)
    assert whole.base("ch-3", REST).brick == "soft"
    hole = whole.base("hole", REST)
    assert (hole.replaced, hole.behind, hole.built) == (True, "frame", 1960)
    assert hole.tests == Tried("holds", "beads", "sound", "held")
    assert "soft" in whole.surface("ch-1").zones[0].traits


def test_the_opening_through_a_wall_is_as_deep_as_the_wall_half_on_each_face(whole: Job) -> None:
    front, back = whole.surface("gw-front"), whole.surface("gw-back")
    assert [s.openings[0].reveal for s in (front, back)] == [4 * IN, 4 * IN]
    one = job(GARDEN + "faces = 1\nopenings = [\"window 2' x 2' at 2' up 2'\"]\n")
    assert one.surface("gw-front").openings[0].reveal == 8 * IN
    said = job(GARDEN + "openings = [\"window 2' x 2' at 2' up 2', reveal 2 in\"]\n")
    assert said.surface("gw-back").openings[0].reveal == 2 * IN
    assert not any(code == "job.assumed-no-reveal" for code, _ in assumed(one))


def test_coats_on_a_shape_are_on_all_of_it_and_on_one_surface_on_that_one() -> None:
    on = '[[coats.on]]\nsurface = "gw"\nfinish = "dash"\n[[coats.on]]\nsurface = "gw-left"\nfinish = "smooth"\n'
    made = job(GARDEN + on)
    assert made.coats.wanted("gw-back", REST).finish == "dash"
    assert made.coats.wanted("gw-left", REST).finish == "smooth"
    assert faults(GARDEN + on.replace('"gw-left"', '"gw-lefft"')) == [
        ("job.no-such-surface", "coats, on 2, surface"),
    ]  # fmt: skip


def test_a_shape_that_cannot_be_made_is_blamed_once() -> None:
    on = '[coats]\n[[coats.on]]\nsurface = "gw-back"\nfinish = "dash"\n'
    assert faults(GARDEN.replace('thick = "8 in"', "thick = 8") + on) == [
        ("measure.no-unit", 'garden wall "gw", thick'),
    ]  # fmt: skip


def test_what_nobody_said_is_taken_and_noted() -> None:
    made = job(GARDEN)
    assert {
        ("job.assumed-outside-corner", "gw/left"), ("job.assumed-outside-corner", "gw/right"),
        ("job.unsaid-block", "gw"), ("job.unsaid-joints", "gw"), ("job.unsaid-out-of-plane", "gw"),
        ("job.unsaid-facing", "gw"),
    } <= assumed(made)  # fmt: skip
    eave = job('[[strip]]\nid = "e"\nkind = "soffit"\nlength = "9\'"\nwidth = "1\'"\nbase = "concrete"\n')
    assert {("job.assumed-soffit-foot", "e"), ("job.assumed-strip-end", "e/left")} <= assumed(eave)
    column = (
        '[[box]]\nid = "c"\nkind = "column"\nsides = ["1\'", "1\'"]\nheight = "8\'"\ncap = "under"\nbase = "brick"\n'
    )
    assert {("job.assumed-base-edge", "c"), ("job.unsaid-brick", "c")} <= assumed(job(column))
    assert ("job.assumed-foot", "c") in assumed(job(column + 'roof = "4 in 12"\n'))
    ring = '[[ring]]\nid = "r"\nsize = "3\' x 4\'"\nwidth = "6 in"\nbase = "old plaster"\n'
    assert {
        ("job.assumed-proud", "r"), ("job.assumed-no-reveal", "r"), ("job.unsaid-behind", "r"),
    } <= assumed(job(ring))  # fmt: skip


def test_a_wall_end_that_meets_old_work() -> None:
    made = job(GARDEN + 'left = { kind = "meets old work", thickness = "1 in", proud = "1 in" }\n')
    assert [s.id for s in made.surfaces] == ["gw-front", "gw-back", "gw-right"]
    edges = {e.id: e for e in made.surface("gw-front").edges}
    assert edges["left"].kind == "meets old work"
    assert edges["left"].meets is not None
    assert {e.id: e.kind for e in made.surface("gw-back").edges}["right"] == "meets old work"


def test_a_slope_is_plastered_and_open_to_the_sky() -> None:
    made = job(GARDEN.replace('cap = "drip"', 'cap = { kind = "slope", fall = "6 in", to = "both" }'))
    assert [s.id for s in made.surfaces][-2:] == ["gw-top-front", "gw-top-back"]
    assert made.base("gw-top-front", REST).place == "top"
    assert made.base("gw-front", REST).place == "garden wall"


def test_a_roof_as_text_and_as_a_table_are_the_same() -> None:
    box = (
        '[[box]]\nid = "c"\nkind = "chimney"\nsides = ["3\'", "2\'"]\nheight = "5\'"\ncap = "drip"\nbase = "brick"\n'
        'foot = "9\'"\n'
    )
    text, table = (job(box + roof).surfaces for roof in ('roof = "6 in 12"\n', 'roof = { pitch = "6 in 12" }\n'))
    assert text == table
    assert text[2].foot == 10 * FT
    assert {e.kind for s in text for e in s.edges if e.id.startswith("base")} == {"roof line"}


def test_units_hold_for_shapes_too() -> None:
    text = (
        'darby = 1\nunits = "ft"\n[job]\nname = "x"\nas_of = 2026-03-02\n[[garden_wall]]\nid = "gw"\nlength = 30\n'
        'height = 6\nthick = "8 in"\nbase = "block"\ncap = "drip"\npilasters = { at = [10, 20], width = 2, out = 1 }\n'
        '[[ring]]\nid = "r"\nsize = "3 x 4"\nwidth = 1\nwall = "20 x 9"\nat = 3\nup = 2\nbase = "frame"\n'
    )
    made = loads(text)
    assert made.surface("gw-front-returns").count == 4
    assert made.surface("r").foot == FT


def test_tests_of_a_zone_are_its_own() -> None:
    wall = (
        '[[wall]]\nid = "w"\nlength = "9\'"\nheight = "8\'"\nbase = "painted plaster"\nbehind = "block"\n'
        'place = "parapet"\ntests = { pull = "held", tap = "sound" }\n'
        '[[wall.zone]]\nid = "z"\nbase = "old plaster"\noutline = ["0\'\', 0\'\'", "1\', 0\'\'", "1\', 1\'"]\n'
    )
    made = job(wall)
    zone = made.base("w", "z")
    assert (zone.tests, zone.behind, zone.place) == (None, "block", "parapet")
    assert made.base("w", REST).tests == Tried(tap="sound", pull="held")


def test_every_second_pilaster_may_stand_on_one_face_only() -> None:
    more = 'pilasters = { at = ["10\'"], width = "16 in", out = "4 in", faces = "front" }\n'
    made = job(GARDEN + more)
    assert [s.id for s in made.surfaces if "returns" in s.id] == ["gw-front-returns"]
    assert made.surface("gw-front").projections[0].out == 4 * IN
    assert made.surface("gw-front-returns").outline[1].u == Fraction(4) * IN


def test_two_shapes_cannot_write_one_surface() -> None:
    wall = '[[wall]]\nid = "gw-front"\nlength = "9\'"\nheight = "8\'"\nbase = "block"\n'
    assert ("job.twice", 'garden wall "gw", id') in faults(wall + GARDEN)


def test_what_cannot_stand_is_said_even_where_something_else_cannot_be_read() -> None:
    text = GARDEN.replace('cap = "drip"', 'cap = "flat"')
    text += 'pilasters = { every = "1\'", width = "16 in", out = "4 in" }\n'
    box = '[[box]]\nid = "c"\nkind = "column"\nsides = []\nheight = 9\nroof = "steep"\nbase = "brik"\ncap = "none"\n'
    assert set(faults(text + box)) == {
        ("job.flat-top", 'garden wall "gw", cap'), ("measure.pilasters-overlap", 'garden wall "gw", pilasters'),
        ("measure.box-sides", 'box "c", sides'), ("measure.no-unit", 'box "c", height'),
        ("measure.pitch", 'box "c", roof'), ("job.not-one-of", 'box "c", base'), ("job.flat-top", 'box "c", cap'),
    }  # fmt: skip
