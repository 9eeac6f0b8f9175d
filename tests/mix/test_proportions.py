from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby import mix
from darby.measure.faults import Unreadable
from darby.mix import MixParts
from darby.rulebook import Book, default
from tests.mix.asking import codes, grades

COATS = ("scratch", "brown", "base", "finish", "skim")
SUCTIONS = ("low", "usual", "high", "none")
CEMENTS = ("portland", "masonry cement", "plastic cement")


def test_sand_is_counted_per_sum_of_cement_and_lime() -> None:
    verdict = mix.check({"portland": 1, "lime": Fraction(3, 4), "sand": 5}, "base", "high")
    assert verdict.ratio.value == pytest.approx(5 / 1.75)
    assert verdict.inside
    assert verdict.sand_least is not None and verdict.sand_least.value == pytest.approx(4.375)
    assert verdict.sand_most is not None and verdict.sand_most.value == pytest.approx(7)


@pytest.mark.parametrize(
    ("sand", "code"),
    [(Fraction(5, 2), "inside"), (4, "inside"), (Fraction(249, 100), "short"), (Fraction(401, 100), "over")],
)
def test_the_ends_of_a_range_belong_to_it(sand: Fraction, code: str) -> None:
    assert f"mix.sand-{code}" in codes(mix.check({"portland": 1, "sand": sand}, "scratch", "low"))


def test_what_is_outside_says_what_would_bring_it_inside() -> None:
    verdict = mix.check({"portland": 1, "lime": Fraction(1, 4), "sand": 3}, "scratch", "low")
    (note,) = [n for n in verdict.notes if n.code == "mix.sand-short"]
    needs = dict(note.values)["needs"]
    assert needs.value == pytest.approx(2.5 * 1.25)  # type: ignore[attr-defined]
    assert note.rules == ("mix.sand.irc.first.portland",)
    mended = mix.check({"portland": 1, "lime": Fraction(1, 4), "sand": needs.value}, "scratch", "low")  # type: ignore[attr-defined]
    assert mended.inside


def test_lime_by_suction() -> None:
    lean, fat = {"portland": 1, "lime": Fraction(1, 4), "sand": 4}, {"portland": 1, "lime": 1, "sand": 6}
    assert "mix.lime-inside" in codes(mix.check(lean, "base", "low"))
    assert grades(mix.check(lean, "base", "high"), "mix.lime-short") == ["caution"]
    assert grades(mix.check(fat, "base", "low"), "mix.lime-over") == ["caution"]
    assert "mix.lime-inside" in codes(mix.check(fat, "base", "high"))
    # on lath, and where suction is nothing out of the way, both lists are in use: said, not warned of
    assert grades(mix.check(lean, "scratch", "none"), "mix.lime-short") == ["assumed"]
    assert mix.check(lean, "scratch", "none").inside and mix.check(fat, "scratch", "none").inside


def test_lime_of_a_finish_is_inside_either_letter() -> None:
    f = mix.check({"portland": 1, "lime": 1, "sand": 4}, "finish")
    fl = mix.check({"portland": 1, "lime": Fraction(7, 4), "sand": 5}, "finish")
    assert (f.letter, f.inside, fl.letter, fl.inside) == ("F", True, "FL", True)
    assert "mix.lime-other-voice" in codes(f)  # the code row asks for more lime
    assert grades(fl, "mix.lime-over") == ["assumed"]
    assert not mix.check({"portland": 1, "lime": Fraction(9, 4), "sand": 6}, "finish").inside


def test_a_firm_that_follows_a_voice_is_held_to_it() -> None:
    book = default()
    irc = Book(book, book.sources, follows={"mix.lime": "irc"})
    verdict = mix.check({"portland": 1, "lime": 1, "sand": 4}, "finish", book=irc)
    assert grades(verdict, "mix.lime-short") == ["caution"]
    assert not verdict.inside


@pytest.mark.parametrize("cement", ["masonry cement", "plastic cement"])
def test_no_lime_with_masonry_or_plastic_cement(cement: str) -> None:
    verdict = mix.check({cement: 1, "lime": Fraction(1, 4), "sand": 4}, "scratch")
    assert grades(verdict, "mix.lime-not-with") == ["stop"]
    assert not verdict.inside and verdict.letter == ""


def test_brown_is_never_richer_than_scratch() -> None:
    scratch = {"portland": 1, "lime": 1, "sand": 7}
    rich = mix.check({"portland": 1, "lime": 1, "sand": Fraction(13, 2)}, "brown", "high", scratch=scratch)
    same = mix.check(scratch, "brown", "high", scratch=scratch)
    assert grades(rich, "mix.brown-richer") == ["caution"] and not rich.inside
    (note,) = [n for n in rich.notes if n.code == "mix.brown-richer"]
    assert dict(note.values)["needs"].value == pytest.approx(7)  # type: ignore[attr-defined]
    assert "mix.brown-leaner" in codes(same) and same.inside


def test_dash_bond_is_cement_and_at_most_two_of_sand() -> None:
    assert mix.check({"portland": 1, "sand": 2}, "dash-bond").inside
    assert grades(mix.check({"portland": 1, "sand": Fraction(5, 2)}, "dash-bond"), "mix.sand-over") == ["caution"]
    assert grades(mix.check({"portland": 1, "lime": Fraction(1, 4), "sand": 2}, "dash-bond"), "mix.dash-lime") == [
        "caution"
    ]
    # neither the code nor the association names masonry cement for a dash-bond coat
    assert "mix.no-limit" in codes(mix.check({"masonry cement": 1, "sand": 2}, "dash-bond"))


def test_what_nobody_published_is_said() -> None:
    assert "mix.no-limit" in codes(mix.check({"lime": 1, "sand": 3}, "scratch"))
    assert "mix.skim-as-base" in codes(mix.check({"portland": 1, "lime": 1, "sand": 6}, "skim"))
    assert "mix.no-limit" in codes(mix.check({"portland": 1, "plastic cement": 1, "sand": 6}, "scratch"))


def test_masonry_cement_to_portland() -> None:
    assert mix.check({"portland": 1, "masonry cement": 1, "sand": 6}, "scratch").letter == "CM"
    three = mix.check({"portland": 1, "masonry cement": 3, "sand": 12}, "scratch")
    assert grades(three, "mix.masonry-over") == ["caution"]


@pytest.mark.parametrize(
    "parts", [{"gypsum": 1}, {"portland": -1, "sand": 3}, {"sand": 3}, {}, {"portland": 1, "sand": float("nan")}]
)
def test_what_is_no_mix_is_refused(parts: dict[str, float]) -> None:
    with pytest.raises(Unreadable) as refused:
        mix.check(parts, "base")
    assert refused.value.fault.code.startswith("mix.")


@given(st.sampled_from(COATS), st.sampled_from(SUCTIONS), st.sampled_from(CEMENTS))
def test_every_proposal_is_inside(coat: str, suction: str, cement: str) -> None:
    parts = mix.proposed(coat, suction, cement)  # type: ignore[arg-type]
    verdict = mix.check(parts, coat, suction)  # type: ignore[arg-type]
    assert verdict.inside
    assert (Fraction(parts.sand) * 2).denominator == 1 and (Fraction(parts.lime) * 4).denominator == 1


def test_proposals_in_figures() -> None:
    # By hand from the rule book's ranges: lime in the middle down to a quarter, sand a third up, up to a half part.
    assert mix.proposed("scratch", "high") == MixParts(1, 1, 6)  # 2.5 + 1.5/3 = 3.0 of 2
    assert mix.proposed("brown", "high") == MixParts(1, 1, Fraction(15, 2))  # 3 + 2/3 = 3.67 of 2 = 7.33
    assert mix.proposed("base", "low") == MixParts(1, Fraction(1, 4), 4)  # 3.0 of 1.25 = 3.75
    assert mix.proposed("finish") == MixParts(1, 1, 4)  # 1.5 + 1.5/3 = 2.0 of 2
    assert mix.proposed("dash-bond") == MixParts(1, 0, Fraction(3, 2))
    assert mix.proposed("scratch", cement="masonry cement") == MixParts(masonry=1, sand=3)


@given(st.fractions(min_value=Fraction(5, 2), max_value=4, max_denominator=8), st.sampled_from(SUCTIONS))
def test_a_proposed_brown_coat_is_never_richer_than_the_scratch_coat_given(ratio: Fraction, suction: str) -> None:
    scratch = MixParts(1, 1, 2 * ratio)
    brown = mix.proposed("brown", suction, scratch=scratch)  # type: ignore[arg-type]
    verdict = mix.check(brown, "brown", suction, scratch=scratch)  # type: ignore[arg-type]
    assert "mix.brown-leaner" in codes(verdict) and "mix.sand-inside" in codes(verdict)


amount = st.fractions(min_value=0, max_value=20, max_denominator=16)


@given(amount, amount, amount, amount, amount, st.sampled_from((*COATS, "dash-bond")), st.sampled_from(SUCTIONS))
def test_any_mix_gets_a_verdict_or_a_fault(
    portland: Fraction, lime: Fraction, sand: Fraction, masonry: Fraction, plastic: Fraction, coat: str, suction: str
) -> None:
    try:
        verdict = mix.check(MixParts(portland, lime, sand, masonry, plastic), coat, suction)  # type: ignore[arg-type]
    except Unreadable as refused:
        assert refused.fault.code == "mix.no-binder"
        return
    assert verdict.notes
    assert verdict.inside == (not [n for n in verdict.notes if n.grade in ("caution", "stop")])
    assert verdict.ratio.value == pytest.approx(float(sand / (portland + lime + masonry + plastic)))
