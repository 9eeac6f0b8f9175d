"""Which voice rules, and what a firm may lay on top."""

from __future__ import annotations

import pytest

from darby.rulebook import BookError
from tests.rulebook.invented import book, local, row

WALL = {"position": ["wall"]}
CEILING = {"position": ["ceiling"]}


def test_the_only_voice_rules() -> None:
    ruled = book(row("thick.block.pca")).rule("thick.block")
    assert (ruled.figure.id, ruled.others, ruled.why) == ("thick.block.pca", (), "only voice")


def test_the_book_s_order_breaks_ties() -> None:
    ruled = book(row("thick.block.pca", standing="second-hand"), row("thick.block.ibc")).rule("thick.block")
    assert ruled.figure.voice == "pca" and ruled.why == "book's order"
    assert [f.voice for f in ruled.others] == ["ibc"]


@pytest.mark.parametrize("better", ["read", "second-hand", "common practice", "trial"])
def test_memory_never_rules_while_a_better_standing_speaks(better: str) -> None:
    ruled = book(row("thick.block.c926", standing="memory"), row("thick.block.pca", standing=better)).rule(
        "thick.block"
    )
    assert ruled.figure.voice == "pca" and ruled.why == "best standing"


def test_memory_rules_where_nothing_better_speaks_of_this_place() -> None:
    small = book(row("thick.c926", standing="memory", applies=WALL), row("thick.pca", applies=CEILING))
    assert small.rule("thick", position="wall").figure.standing == "memory"
    assert small.rule("thick", position="ceiling").figure.voice == "pca"


def test_unknown_subject_or_place_is_a_key_error() -> None:
    small = book(row("thick.pca", applies=WALL))
    with pytest.raises(KeyError, match="thin"):
        small.rule("thin")
    with pytest.raises(KeyError, match="soffit"):
        small.rule("thick", position="soffit")


# --- places -----------------------------------------------------------------------------------------


def test_a_kind_of_place_that_is_not_given_is_not_held_against_a_figure() -> None:
    assert book(row("thick.pca", applies=WALL)).number("thick").voice == "pca"


def test_a_ruling_that_depends_on_a_place_not_given_is_refused() -> None:
    small = book(row("thick.pca", applies=WALL), row("thick.ibc", "3/8 in", applies=CEILING))
    with pytest.raises(BookError, match=r"position.*not given \(wall, ceiling\)"):
        small.rule("thick")
    assert small.number("thick", position="ceiling").voice == "ibc"


def test_a_general_figure_before_a_particular_one_leaves_nothing_open() -> None:
    small = book(row("thick.pca"), row("thick.ibc", applies=WALL), row("thick.sma", applies=CEILING))
    assert small.number("thick").voice == "pca"


def test_a_place_of_another_kind_does_not_matter() -> None:
    assert book(row("thick.pca", applies=WALL)).number("thick", position="wall", sky="blue").voice == "pca"


# --- the firm's voices ------------------------------------------------------------------------------


def three() -> tuple[dict[str, object], ...]:
    return (
        row("thick.block.pca"),
        row("thick.block.c926", "5/8 in", standing="memory"),
        row("cure.wait.ibc", "48 h"),
        row("cure.wait.c926", "24 h"),
    )


def test_the_followed_voice_rules_and_displaces() -> None:
    ruled = book(*three()).following({"thick": "c926"}).rule("thick.block")
    assert (ruled.figure.voice, ruled.why) == ("c926", "firm follows")
    assert ruled.displaced is not None and ruled.displaced.voice == "pca"
    assert book(*three()).following({"thick": "pca"}).rule("thick.block").displaced is None


def test_the_longest_subject_goes_first_and_the_shorter_stands_behind() -> None:
    rows = (*three(), row("thick.block.two.pca", "3/4 in"), row("thick.block.two.ibc", "7/8 in"))
    firm = book(*rows).following({"": "ibc", "thick": "c926"})
    assert firm.number("cure.wait").voice == "ibc"
    assert firm.number("thick.block").voice == "c926"
    ruled = firm.rule("thick.block.two")
    assert (ruled.figure.voice, ruled.silent) == ("ibc", "c926")


def test_a_silent_voice_is_said() -> None:
    small = book(row("thick.pca", applies=WALL), row("thick.c926", applies=CEILING))
    ruled = small.following({"thick": "c926"}).rule("thick", position="wall")
    assert (ruled.figure.voice, ruled.silent) == ("pca", "c926")


def test_a_voice_that_says_nothing_on_the_subject_is_refused_with_those_that_do() -> None:
    with pytest.raises(BookError, match="'pca' says nothing on 'cure'; there are: ibc, c926"):
        book(*three()).following({"cure": "pca"})
    with pytest.raises(BookError, match="'nobody' says nothing on 'any subject'"):
        book(*three()).following({"": "nobody"})
    with pytest.raises(BookError, match="says nothing on 'cur'; it speaks on thick, cure"):
        book(*three()).following({"cur": "ibc"})


# --- local rules ------------------------------------------------------------------------------------


def test_a_local_rule_rules_and_both_are_known() -> None:
    town = book(*three()).following({"thick": "c926"}).with_local([local("thick.block", "3/4 in", "the inspector")])
    ruled = town.rule("thick.block")
    assert (ruled.figure.why, ruled.why) == ("the inspector", "local rule")
    assert ruled.displaced is not None and ruled.displaced.voice == "c926"
    assert {f.voice for f in ruled.others} == {"pca", "c926"}
    assert town["thick.block.local"] is ruled.figure and town["thick.block.pca"].voice == "pca"
    assert town.source_of(ruled.figure).id == "local"


def test_a_local_rule_holds_only_where_it_applies() -> None:
    town = book(row("thick.pca")).with_local([local("thick", "3/4 in", applies=WALL)])
    assert town.number("thick", position="wall").why and not town.number("thick", position="ceiling").why


def test_two_local_rules_on_one_place_clash() -> None:
    town = book(row("thick.pca")).with_local([local("thick", "1 in"), local("thick", "2 in", id="thick.other")])
    with pytest.raises(BookError, match=r"thick\.local, thick\.other"):
        town.rule("thick")


def test_a_local_rule_has_a_why_a_known_subject_and_the_same_measure() -> None:
    small = book(row("thick.pca"))
    for bad, said in (
        (local("thick", "1 in", ""), "says why"),
        (local("thin", "1 in"), "no subject 'thin'"),
        (local("thick", "1 h"), "'1 h' is not measured as '1/2 in' is"),
    ):
        with pytest.raises(BookError, match=said):
            small.with_local([bad])


# --- sameness ---------------------------------------------------------------------------------------


def test_equal_by_content() -> None:
    one, other = book(*three()), book(*three())
    assert one == other and hash(one) == hash(other) and one is not other
    assert one.following({"cure": "ibc"}) == other.following({"cure": "ibc"}) != one
    assert one.with_local([local("thick.block", "1 in")]) != one
    assert one.following({}) == one != "a book"


@pytest.mark.parametrize(
    "change",
    [
        {"value": "5/8 in"}, {"value": "1/2 ft"}, {"says": "else"}, {"where": "page 4"}, {"standing": "memory"},
        {"voice": "x"}, {"edition": "2020"}, {"applies": {"base": ["block"]}}, {"id": "thick.block.x"},
        {"kind": "rule"},
    ],
)  # fmt: skip
def test_the_version_changes_with_everything(change: dict[str, object]) -> None:
    assert book(row("thick.block.pca") | change).version != book(row("thick.block.pca")).version


def test_a_local_rule_s_words_change_the_version() -> None:
    small = book(row("thick.pca"))
    one, other = (small.with_local([local("thick", "1 in", why)]) for why in ("a", "b"))
    assert one.version != other.version
