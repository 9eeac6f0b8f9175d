"""Each base, its joints and its suction: what comes first, in what coats, how thick, and what is said against it."""

import pytest

from darby.buildup import choose
from darby.measure.faults import Unreadable

from .asking import BOOK, chosen, codes, following, inch, option, said, sixteenths, up


def order(**fields):
    return [o.id for o in up(**fields).options]


def names(o):
    return [c.name for c in o.coats]


# --- block ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("joints", ["flush", "struck"])
@pytest.mark.parametrize("weight", ["dense", "lightweight"])
@pytest.mark.parametrize("suction", [None, "high", "usual", "low", "none"])
def test_block_takes_two_coats_first_and_a_skim_last(weight, joints, suction):
    answer = up(weight=weight, joints=joints, suction=suction)
    assert (answer.options[0].id, answer.options[-1].id) == ("two-coat", "heavy-skim")
    dashed = suction in ("low", "none")
    first = answer.chosen
    assert names(first) == (["dash-bond"] if dashed else []) + ["base", "finish"]
    assert ("dash-bond" in first.preparation) == dashed
    assert ("damp" in first.preparation) == (not dashed)
    assert ("fill-joints" in first.preparation) == (joints == "struck")
    assert sixteenths(first.least, first.nominal, first.most) == ("3/8", "1/2", "5/8")


def test_untested_block_is_taken_as_its_kind_drinks_and_that_is_noted():
    for weight, taken in (("dense", "usual"), ("lightweight", "high")):
        answer = up(weight=weight, joints="flush")
        assert answer.suction == taken
        (note,) = (n for n in answer.notes if n.code == f"buildup.assumed-suction-{taken}")
        assert note.grade == "assumed"
    assert "suction-low" in codes(up(suction="low").notes)
    assert not any(n.code.startswith("buildup.assumed-suction") for n in up(suction="low").notes)


def test_damp_or_dash_each_has_its_source():
    for suction, rule in (("usual", "prep.damp.pca"), ("low", "prep.surface.nyc")):
        (note,) = (n for n in up(suction=suction).notes if n.code == f"buildup.suction-{suction}")
        assert note.rules == ("prep.splash.practice", rule)


def test_fast_block_is_damped_twice_and_warned_of():
    fast, slow = up(weight="lightweight"), up(weight="dense")
    assert "damp-again" in fast.chosen.preparation
    assert "damp-again" not in slow.chosen.preparation
    assert "uneven-suction" in codes(fast.notes)
    assert "uneven-suction" not in codes(slow.notes)


def test_a_sealed_face_is_roughened_and_tried_first():
    answer = up(suction="none")
    assert answer.chosen.preparation == ("clean", "roughen", "dash-bond")
    assert "test-patch" in codes(answer.notes)


def test_joints_nobody_spoke_of_are_taken_as_flush_and_the_mason_is_told():
    assert "assumed-joints" in codes(up().notes)
    assert "assumed-joints" not in codes(up(joints="flush").notes)
    assert "struck-joints" in codes(up(joints="struck").notes)


def test_the_single_base_is_laid_as_heavy_as_one_coat_goes():
    o = option("single-base", joints="flush")
    assert sixteenths(*(c.nominal for c in o.coats)) == ("1/2", "1/8")
    assert sixteenths(o.coats[0].least, o.coats[0].most) == ("3/8", "1/2")
    assert sixteenths(o.least, o.nominal, o.most) == ("1/2", "5/8", "5/8")
    assert o.cautions == ()


def test_three_coats_on_block_share_five_eighths():
    o = option("three-coat")
    assert names(o) == ["scratch", "brown", "finish"]
    assert sixteenths(*(c.nominal for c in o.coats)) == ("1/4", "1/4", "1/8")
    assert [c.levels for c in o.coats] == [False, True, False]


def test_a_heavy_skim_shows_its_joints_counts_as_no_covering_and_follows_the_wall():
    o = option("heavy-skim", joints="flush", out_of_plane=inch("1/8"))
    assert names(o) == ["finish"]
    assert sixteenths(o.nominal, o.grounds, o.wander) == ("1/4", "1/4", "1/8")
    assert codes(o.cautions) >= {"skim-shows", "joints-show", "fewer-coats", "no-code-row"}
    assert "skim-on-struck" in codes(option("heavy-skim", joints="struck").cautions)


def test_a_skim_is_too_thin_to_bury_a_dash_and_gets_a_bonding_agent():
    o = option("heavy-skim", suction="low")
    assert names(o) == ["finish"]
    assert "bonding-agent" in o.preparation
    assert "dash-bond" not in o.preparation


def test_the_dash_bond_lies_inside_the_whole():
    plain, dashed = chosen(suction="usual"), chosen(suction="low")
    assert sixteenths(dashed.nominal, dashed.grounds, dashed.bead) == sixteenths(
        plain.nominal, plain.grounds, plain.bead
    )
    assert sixteenths(*(c.nominal for c in dashed.coats)) == ("1/16", "5/16", "1/8")


# --- concrete, frame, lath over block -----------------------------------------------------------------------


def test_concrete_is_roughened_and_dashed_unless_it_drinks():
    answer = up(base="concrete")
    assert answer.suction == "low"
    assert answer.chosen.preparation == ("clean", "roughen", "dash-bond")
    assert sixteenths(*(c.nominal for c in answer.chosen.coats)) == ("1/16", "3/16", "1/8")
    assert up(base="concrete", suction="usual").chosen.preparation == ("clean", "roughen", "damp")
    assert [o.id for o in answer.options] == ["two-coat", "three-coat", "lath-three-coat"]


def test_a_concrete_ceiling_is_held_to_its_most_and_follows_the_slab():
    o = chosen(base="concrete", position="horizontal", out_of_plane=inch("3/16"))
    assert o.id == "two-coat"
    assert sixteenths(o.least, o.nominal, o.most) == ("3/8", "3/8", "3/8")
    assert sixteenths(o.wander) == ("3/16",)
    assert "reason.ceiling" in codes(o.reasons)


def test_a_block_ceiling_is_taken_as_a_concrete_one_and_that_is_noted():
    answer = up(position="horizontal")
    assert sixteenths(answer.chosen.nominal) == ("3/8",)
    assert "block-ceiling" in codes(answer.notes)


@pytest.mark.parametrize("sheathing", ["wood", "gypsum", "foam", "open studs", None])
def test_a_frame_takes_three_coats_on_lath_and_two_papers(sheathing):
    answer = up(base="frame", sheathing=sheathing)
    o = answer.chosen
    assert o.id == "lath-three-coat"
    assert o.paper_layers == 2
    assert o.lath == ("paper-backed" if sheathing == "open studs" else "self-furring")
    assert sixteenths(*(c.nominal for c in o.coats)) == ("3/8", "3/8", "1/8")
    assert sixteenths(o.nominal, o.grounds, o.bead) == ("7/8", "3/4", "7/8")
    assert o.preparation == ("check-framing", "paper", "weep-screed", "lath")
    assert ("assumed-sheathing" in codes(answer.notes)) == (sheathing is None)
    assert answer.suction is None
    assert "no-bonding-on-lath" in codes(answer.notes)
    assert not {"dash-bond", "bonding-agent"} & set(o.preparation)


def test_a_soffit_on_open_joists_hangs_on_rib_lath_and_is_thinner():
    o = chosen(base="frame", sheathing="open studs", position="horizontal")
    assert o.lath == "rib"
    # the whole is published second-hand, the scratch coat is from memory
    assert sixteenths(*(c.nominal for c in o.coats)) == ("1/4", "1/4", "1/8")
    assert "weep-screed" not in o.preparation


def test_doubling_back_comes_first_only_where_it_is_wanted():
    assert order(base="frame") == ["lath-three-coat", "double-back"]
    assert order(base="frame", cure="double-back") == ["double-back", "lath-three-coat"]


def test_lath_over_block_has_no_paper_and_its_own_panels():
    o = chosen(base="lath over block")
    assert (o.id, o.lath, o.paper_layers) == ("lath-three-coat", "self-furring", 0)
    assert "joints-panels" in codes(o.reasons)
    assert "joints-follow-base" in codes(chosen(base="block").reasons)
    assert "joints-panels" in codes(option("lath-three-coat", base="block").reasons)


def test_studs_too_far_apart_stop_and_two_feet_pass():
    assert "studs-too-wide" not in codes(up(base="frame", stud_spacing=inch("24")).notes)
    (stop,) = (n for n in up(base="frame", stud_spacing=inch("25")).notes if n.code == "buildup.studs-too-wide")
    assert stop.grade == "stop"


# --- the order --------------------------------------------------------------------------------------------


def test_a_firm_that_follows_a_three_coat_voice_gets_three_coats_first():
    book = following(thickness="ufgs")
    answer = up(book=book)
    assert answer.chosen.id == "three-coat"
    assert sixteenths(answer.chosen.nominal, answer.chosen.coats[0].nominal) == ("1", "3/8")
    assert "fewer-coats" in codes(answer.option("two-coat").cautions)
    assert "past-no-lath" in codes(answer.chosen.cautions)


@pytest.mark.parametrize(
    ("voice", "total", "finish"),
    [("c926", "1/2", "1/8"), ("pca", "1/2", "1/8"), ("indian-river", "5/8", "1/4"), ("merritt", "5/8", "1/4"),
     ("sma", "5/8", "1/8"), ("florida", "1/2", "1/8"), ("plasterer", "3/4", "1/8")],
)  # fmt: skip
def test_each_voice_on_block_rules_where_a_firm_follows_it(voice, total, finish):
    o = option("two-coat", book=following(thickness=voice))
    assert o.voices[0].voice == voice
    assert len(o.voices) == 7
    assert sixteenths(o.nominal, o.coats[-1].nominal) == (total, finish)


def test_the_plasterers_three_quarters_stays_first_in_his_own_firm_and_is_cautioned():
    answer = up(book=following(thickness="plasterer"))
    assert answer.chosen.id == "two-coat"
    assert {"past-no-lath", "two-passes"} <= codes(answer.chosen.cautions)
    assert sixteenths(said(answer.chosen.cautions, "past-no-lath")["total"]) == ("3/4",)


def test_without_a_finish_the_base_coat_gets_the_whole():
    o = option("two-coat", finish="none")
    assert names(o) == ["base"]
    assert sixteenths(o.nominal, o.grounds) == ("1/2", "1/2")
    assert "leave-open" not in o.coats[0].notes
    assert up(finish="none").option("heavy-skim") is None


def test_the_sand_goes_with_the_texture():
    for finish in ("float", "smooth", "dash", "lace", "scraped"):
        assert chosen(finish=finish).coats[-1].sand == f"finish-{finish}"
    assert [c.sand for c in chosen(suction="low").coats] == ["sharp", "plaster", "finish-float"]
    assert "smooth-finish" in codes(up(finish="smooth").notes)


def test_paint_waits_for_the_wall():
    assert "paint-waits" in codes(up(paint=True).notes)
    assert "paint-waits" not in codes(up().notes)


# --- choosing by hand ---------------------------------------------------------------------------------------


def test_what_he_chooses_is_chosen_and_the_better_one_is_named():
    answer = up(choose="three-coat")
    assert answer.chosen.id == "three-coat"
    assert answer.options[0].id == "two-coat"
    assert said(answer.notes, "chosen-by-hand") == {
        "chosen": "buildup.option.three-coat",
        "best": "buildup.option.two-coat",
    }
    assert "chosen-by-hand" not in codes(up(choose="two-coat").notes)


def test_a_plasterers_shorter_names_are_understood():
    assert chosen(choose="skim").id == "heavy-skim"
    assert chosen(base="frame", choose="three-coat").id == "lath-three-coat"
    assert chosen(base="block", choose="three-coat").id == "three-coat"


def test_an_unknown_option_is_refused_with_the_nearest():
    with pytest.raises(Unreadable) as refused:
        up(choose="two-coats")
    fault = refused.value.fault
    assert (fault.code, fault.place, fault.found, fault.nearest) == (
        "buildup.no-such-option", "bay-south/rest", "two-coats", "two-coat",
    )  # fmt: skip
    assert "heavy-skim" in fault.allowed
    with pytest.raises(Unreadable):
        up(base="frame", choose="two-coat")


def test_an_unknown_finish_is_refused():
    with pytest.raises(Unreadable) as refused:
        up(finish="flote")
    assert (refused.value.fault.code, refused.value.fault.nearest) == ("buildup.no-such-finish", "float")


def test_the_public_door_takes_trade_words():
    options = choose(base="block", position="vertical", finish="float", weight="dense", joints="flush")
    assert [o.id for o in options] == order(weight="dense", joints="flush")
    assert choose(base="block", book=BOOK, out_of_plane=inch("5/8"))[0].wander is not None
    with pytest.raises(TypeError):
        choose(base="block", thickness=1)


def test_the_working_holds_every_option_and_the_notes_of_the_chosen_one():
    from .asking import run

    answer, working = run(choose="three-coat")
    for o in answer.options:
        assert o.nominal.key in working.steps
        assert f"/{o.id}/" in o.nominal.key
    assert working.notes == [*answer.notes, *answer.chosen.reasons, *answer.chosen.cautions]
    assert "buildup.skim-shows" not in {n.code for n in working.notes}
