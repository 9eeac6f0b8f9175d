"""Looking things up by words, and all that is said on one subject."""

from __future__ import annotations

import pytest

from darby.rulebook import search, show
from tests.rulebook.invented import book, local, row

SMALL = book(
    row("thick.block.pca", says="on block, two coats"),
    row("thick.block.c926", "5/8 in", standing="memory", says="on block"),
    row("thick.lath.c926", "7/8 in", says="over block or frame", applies={"position": ["wall"]}),
    row("thick.lath.ibc", "5/8 in", says="overhead", applies={"position": ["ceiling"]}),
    row("cure.wait.ibc", "48 h", says="between coats on block"),
)


def ids(words: str | list[str]) -> list[str]:
    return [f.id for f in search(SMALL, words)]


def test_search_wants_every_word_and_puts_the_subject_first() -> None:
    assert ids("block") == ["thick.block.pca", "thick.block.c926", "thick.lath.c926", "cure.wait.ibc"]
    assert ids("BLOCK two") == ["thick.block.pca"]
    assert ids(["memory"]) == ["thick.block.c926"]
    assert ids("ceiling") == ["thick.lath.ibc"]
    assert ids("handbook 48") == ["cure.wait.ibc"]
    assert ids("nowhere") == []
    assert len(ids("")) == 5


def test_search_finds_local_rules_by_their_why() -> None:
    town = SMALL.with_local([local("thick.block", "1 in", "the inspector wants it")])
    assert [f.id for f in search(town, "inspector")] == ["thick.block.local"]


def test_show_puts_the_ruling_figure_first() -> None:
    shown = show(SMALL, "thick.block")
    assert [(e.figure.voice, e.rules, e.why, e.standing) for e in shown.entries] == [
        ("pca", True, "book's order", "standing.read"), ("c926", False, "", "standing.memory"),
    ]  # fmt: skip
    assert shown.entries[0].source.title == "An invented handbook"


def test_show_a_figure_puts_it_first() -> None:
    shown = show(SMALL, "thick.block.c926")
    assert shown.subject == "thick.block"
    assert [(e.figure.voice, e.rules) for e in shown.entries] == [("c926", False), ("pca", True)]


def test_each_figure_rules_at_its_own_place() -> None:
    assert [(e.figure.voice, e.rules) for e in show(SMALL, "thick.lath").entries] == [("c926", True), ("ibc", True)]


def test_show_a_local_rule_with_what_it_displaces() -> None:
    town = SMALL.with_local([local("thick.block", "1 in", "the inspector")])
    first = show(town, "thick.block").entries[0]
    assert first.figure.why == "the inspector" and first.why == "local rule" and first.source.id == "local"
    assert first.displaces is not None and first.displaces.voice == "pca"


def test_show_nothing_names_the_closest() -> None:
    with pytest.raises(KeyError, match=r"thick\.block"):
        show(SMALL, "thick.blok")
