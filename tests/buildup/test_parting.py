"""What new plaster meets: how it is parted, and where the mason must set the block."""

import pytest

from darby.buildup import MeetsOld, Override
from darby.rulebook import LOCAL, figure_of

from .asking import BOOK, chosen, codes, inch, option, run, said, sixteenths, up


def meets(proud=None, thickness=None, edge="left", what="old plaster"):
    return MeetsOld(edge, what, None if thickness is None else inch(thickness), None if proud is None else inch(proud))


def back(total, proud):
    return chosen(out_of_plane=0, override=Override(total=inch(total)), meets=(meets(proud),))


def test_a_new_face_that_would_stand_proud_asks_the_base_to_sit_back():
    # t = 3/4, p = 1/2: the base goes 1/4 farther back, and ends 3/4 behind the old face
    o = back("3/4", "1/2")
    assert sixteenths(o.set_back, o.parting[0].set_back) == ("1/4", "1/4")
    values = said(o.cautions, "set-back-back")
    assert sixteenths(values["by"], values["total"], values["proud"]) == ("1/4", "3/4", "1/2")


def test_a_new_face_that_would_lie_behind_asks_the_base_to_come_forward():
    # t = 1/2, p = 7/8: the base comes 3/8 forward
    o = chosen(out_of_plane=0, meets=(meets("7/8", "7/8"),))
    assert sixteenths(o.set_back) == ("-3/8",)
    values = said(o.cautions, "set-back-forward")
    assert sixteenths(values["by"], values["total"], values["proud"]) == ("3/8", "1/2", "7/8")


def test_faces_that_come_flush_are_said_so():
    o = back("7/8", "7/8")
    assert "set-back-flush" in codes(o.reasons)
    assert not {"set-back-back", "set-back-forward"} & codes(o.cautions)


def test_a_face_nobody_measured_is_taken_as_thick_as_the_old_plaster_and_noted():
    o = chosen(out_of_plane=0, meets=(meets(thickness="3/4"),))
    assert sixteenths(o.set_back) == ("-1/4",)
    (note,) = (n for n in o.reasons if n.code == "buildup.assumed-proud")
    assert note.grade == "assumed"
    assert "assumed-proud" not in codes(chosen(meets=(meets("1/2", "3/4"),)).reasons)


def test_with_nothing_measured_there_is_no_set_back_but_a_caution():
    o = chosen(meets=(meets(),))
    assert o.set_back is None
    assert "set-back-unmeasured" in codes(o.cautions)


def test_the_largest_set_back_governs_and_the_others_are_said():
    o = chosen(out_of_plane=0, meets=(meets("1/2", edge="left"), meets("1/4", edge="right")))
    assert sixteenths(o.set_back) == ("1/4",)
    assert "set-back-differs" in codes(o.cautions)
    same = chosen(out_of_plane=0, meets=(meets("1/4", edge="left"), meets("1/4", edge="right")))
    assert "set-back-differs" not in codes(same.cautions)


def test_the_set_back_is_a_step_that_goes_back_to_the_whole():
    answer, working = run(out_of_plane=0, meets=(meets("7/8"),))
    step = working.steps[answer.chosen.set_back.key]
    assert step.formula == "total - proud"
    assert answer.chosen.bead.key in step.after


def test_on_a_frame_the_framer_is_told():
    o = chosen(base="frame", meets=(meets("1/2"),))
    assert sixteenths(said(o.cautions, "set-back-back-frame")["by"]) == ("3/8",)
    assert "set-back-forward-frame" in codes(chosen(base="frame", meets=(meets("1"),)).cautions)


def test_over_dubbed_out_hollows_the_face_lies_where_it_does_elsewhere():
    o = option("dub-out", out_of_plane=inch("5/8"), meets=(meets("1/2"),))
    assert "set-back-flush" in codes(o.reasons)


@pytest.mark.parametrize(
    ("what", "how", "beads", "width"),
    [("old plaster", "casing bead, rod and sealant", 1, "3/8"), ("trim", "casing bead, rod and sealant", 1, "3/8"),
     ("other base", "two casing beads, rod and sealant", 2, "3/8"), ("roof", "casing bead kept off the roof", 1, None)],
)  # fmt: skip
def test_each_neighbour_is_parted_in_its_way(what, how, beads, width):
    o = chosen(meets=(meets("1/2", what=what),))
    (parting,) = o.parting
    assert (parting.edge, parting.how, parting.beads) == ("left", how, beads)
    assert (parting.width is None) == (width is None)
    if width:
        assert sixteenths(parting.width) == (width,)
    assert (parting.set_back is not None) == (what == "old plaster")
    assert ("off-the-roof" in codes(o.cautions)) == (what == "roof")
    # cutting old work back can free lead and asbestos
    assert ("old-edge" in codes(o.cautions)) == (what == "old plaster")


def test_the_gap_is_never_less_than_two_beads_want_between_them():
    row = {"id": "parting.separation.local", "subject": "parting.separation", "value": "1/2 in", "says": "beads apart",
           "source": "local", "where": "job", "standing": "common practice", "why": "the inspector"}  # fmt: skip
    town = BOOK.with_local([figure_of(row, {"local": LOCAL})])
    assert sixteenths(chosen(book=town, meets=(meets("1/2"),)).parting[0].width) == ("1/2",)


def test_base_is_parted_from_base_and_not_from_itself():
    o = chosen(next_to=(("hollow", "lath over block"), ("more", "block")))
    assert [(p.edge, p.beads) for p in o.parting] == [("hollow", 2)]
    assert {"parted", "expanded-flange"} <= codes(o.reasons)
    alone = chosen(next_to=(("more", "block"),))
    assert alone.parting == ()
    assert "parted" not in codes(alone.reasons)


def test_joints_follow_the_base_or_the_panels():
    values = said(up(base="frame").chosen.reasons, "joints-panels")
    assert [values[k].written for k in ("area", "side", "ratio")] == ["144 sq ft", "18 ft", "2.5"]
    overhead = said(up(base="frame", position="horizontal").chosen.reasons, "joints-panels")
    assert overhead["area"].written == "100 sq ft"
    assert "joints-panels" not in codes(up().chosen.reasons)
