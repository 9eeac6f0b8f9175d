"""Grounds of the example's south wall: three faces, none thinner than it may be, the wandering one the least."""

import pytest

from darby.answers import Waiting, with_later

IN = 0.0254


@pytest.fixture(scope="module")
def trued(firehall):
    return with_later(firehall)


def test_a_wall_that_nobody_read_is_not_missing(trued):
    assert trued.of("grounds", "bay-east") == Waiting()
    assert trued.unanswered() == {}


def test_three_faces_take_less_and_less_plaster(trued):
    volumes = [float(face.volume) for face in trued.of("grounds", "bay-south").faces]
    assert volumes == sorted(volumes, reverse=True)


def test_every_reading_has_its_least(trued):
    # struck block, 1/2 in. nominal, true within 1/4 in.: the least is 3/8 in. on the highest spot
    for face in trued.of("grounds", "bay-south").faces:
        assert float(face.least.value) >= 3 / 8 * IN - 1e-9


def test_a_plumb_face_lies_between_its_skin_and_the_deepest_hollow(trued):
    """184 sq ft at 3/8 in. is 5.75 cu ft: what a skin would take; from 1/4 in. out to 3/8 in. in it takes more."""
    found = trued.of("grounds", "bay-south")
    foot = 0.3048**3
    assert float(found.untrued) / foot == pytest.approx(184 * 3 / 8 / 12)
    assert found.faces[0].name == "plumb"
    assert float(found.faces[0].volume) > float(found.untrued)
