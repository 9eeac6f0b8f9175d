"""Every entry of the book that ships: whole, honest, and read back as it is written."""

from __future__ import annotations

import re
from collections import Counter
from fractions import Fraction

from darby.measure.units import UNITS
from darby.rulebook import STANDINGS, default

BOOK = default()


def test_every_entry_has_source_place_and_standing() -> None:
    for figure in BOOK:
        assert figure.standing in STANDINGS, figure.id
        assert BOOK.sources[figure.source].title and figure.where.strip() and figure.says.strip(), figure.id
        assert not figure.why, figure.id


OTHERWISE = {"mix.bucket.grain", "mix.shovel.grain", "mix.use-within.orono"}
"""Named after the thing (a bucket), where the subject is named after the question (how finely one counts in it)."""


def test_ids_begin_with_their_subject() -> None:
    assert {f.id for f in BOOK if not f"{f.id}.".startswith(f"{f.subject}.")} <= OTHERWISE


def test_ids_are_plain_words() -> None:
    assert [f.id for f in BOOK if not re.fullmatch(r"[a-z0-9]+([.-][a-z0-9]+)*", f.id)] == []


def test_every_source_is_used() -> None:
    assert set(BOOK.sources) == {f.source for f in BOOK}


def test_figures_on_one_subject_are_measured_alike() -> None:
    for subject in BOOK.subjects():
        assert len({f.unit.dim for f in BOOK.on(subject) if f.kind != "rule"}) <= 1, subject


def test_values_are_what_is_written() -> None:
    # read again here, the plain way: numbers first, then the unit's name
    for figure in BOOK:
        if figure.kind == "rule":
            continue
        numbers = re.match(r"(-?[\d./-]+)(?: to (-?[\d./-]+))? ?(.*)$", figure.written)
        assert numbers is not None and numbers[3] == figure.unit.name, figure.id
        ends = [sum(map(Fraction, re.split(r"(?<=\d)-", text))) for text in numbers.groups()[:2] if text]
        kept = [figure.value] if len(ends) == 1 else [figure.low, figure.high]
        assert kept == [float(UNITS[numbers[3]].to_si(end)) for end in ends], figure.id


def test_a_rule_in_words_is_no_number() -> None:
    for figure in BOOK:
        assert (figure.kind == "rule") == (figure.value is None and figure.low is None), figure.id
        assert figure.kind == "rule" or not figure.written[0].isalpha(), figure.id


def test_no_voice_speaks_twice_of_one_place() -> None:
    for subject in BOOK.subjects():
        spoken = Counter((f.voice, f.edition, tuple(sorted(f.applies.items()))) for f in BOOK.on(subject) if f.voice)
        assert max(spoken.values(), default=1) == 1, subject


def test_no_figure_from_memory_rules_over_a_better_one() -> None:
    for figure in BOOK:
        place = {kind: min(allowed) for kind, allowed in figure.applies.items()}
        others = [f for f in BOOK.on(figure.subject) if f.speaks_at(place) and f.applies.keys() <= place.keys()]
        if len(others) > 1 and any(f.standing != "memory" for f in others):
            ruled = BOOK.rule(figure.subject, **place)
            assert ruled.figure.standing != "memory", figure.id
