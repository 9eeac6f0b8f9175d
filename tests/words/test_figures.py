"""What the rule book says, in Spanish: every figure, none left over, the same numbers, the house's words."""

import re

import pytest

from darby.rulebook import Book, Figure, default
from darby.rulebook.book import LOCAL
from darby.rulebook.load import figure_of
from darby.words import figure_applies, figure_says, figure_value, figure_where, source_words
from darby.words.figures import figure_texts
from tests.words.test_glossary import CHECKED, keeps, speaks_of

BOOK = default()
FIGURES = list(BOOK)
TEXTS = figure_texts("es")
RULES = {f.id: f for f in FIGURES if f.kind == "rule"}
BARE = re.compile(r"[\d/]+")
"""A rule that is only sieve numbers ("20/30") reads the same in both languages."""
CITED = re.compile(
    r"R?[\d.]+(\(\w+\))*(-\d+)*|(?:Tables?|tables?|sections?|articles?|pages?|p\.) [\d.\-]+(, page \d+)?"
    r"|benchmarks/joints\.py|Measuring sand by shovel|Stuccoing over masonry"
)
"""A bare citation, and titles of articles: they are looked for in an English publication as they stand there."""
NUMBER = re.compile(r"\d+(?:[.,/-]\d+)*")
ENGLISH = re.compile(
    r"\b(the|of|and|with|on|over|for|lath|coat|coats|sand|wall|joint|joints|not|from|at|least|in\.|ft|sq|cu)\b"
)
QUOTED = re.compile(r"[A-Z][\w.]*|\b(sections?|articles?|tables?|part|clause|page|item|figure|example)\b[^;,]*")


def numbers(text):
    return sorted(NUMBER.findall(re.sub(r"\b(m|yd|pies?|pulg)[23²³]", "", text)))


def pairs():
    """(place, English, Spanish) of every text."""
    for f in FIGURES:
        yield f"{f.id} says", f.says, TEXTS["says"].get(f.id, "")
        if f.id in TEXTS["value"]:
            yield f"{f.id} value", f.written, TEXTS["value"][f.id]
    for english, spanish in TEXTS["where"].items():
        yield english, english, spanish


PAIRS = list(pairs())


def test_every_figure_has_a_spanish_text_and_none_is_for_a_figure_that_is_gone():
    assert sorted(TEXTS["says"]) == sorted(f.id for f in FIGURES)


def test_every_rule_in_words_has_its_spanish():
    assert sorted(TEXTS["value"]) == sorted(id for id, f in RULES.items() if not BARE.fullmatch(f.written))


def test_every_place_is_a_citation_or_has_its_spanish():
    places = {f.where for f in FIGURES}
    assert {p for p in places if p not in TEXTS["where"] and not CITED.fullmatch(p)} == set()
    assert set(TEXTS["where"]) - places == set()


def test_what_stands_of_a_source_is_still_said_by_one():
    parts = {part for s in BOOK.sources.values() for part in (s.title, s.publisher, s.year)}
    assert set(TEXTS["source"]) - parts == set()


def test_remarks_beside_a_title_are_some_sources_and_the_longest_stand_first():
    parts = [part for s in BOOK.sources.values() for part in (s.title, s.publisher, s.year)]
    assert [r for r in TEXTS["remark"] if not any(r in part for part in parts)] == []
    remarks = list(TEXTS["remark"])
    shadowed = [(a, b) for n, a in enumerate(remarks) for b in remarks[n + 1 :] if a in b]
    assert shadowed == []


def test_no_remark_of_ours_is_left_in_english():
    said = [text for s in BOOK.sources.values() for text in source_words(s, "es")]
    ours = re.compile(r"\b(undated|not stated|reprint|restated|hosted|transcription|quot(ed|ing)|report(s|ing)|seen)\b")
    assert [text for text in said if ours.search(text)] == []


def test_every_word_that_says_where_a_figure_speaks():
    kinds = {kind for f in FIGURES for kind in f.applies}
    places = {place for f in FIGURES for allowed in f.applies.values() for place in allowed}
    assert set(TEXTS["kind"]) == kinds
    assert {p for p in places if not re.fullmatch(r"[\d./]+", p)} == set(TEXTS["place"])


def test_no_text_is_the_english_one():
    alike = [place for place, english, spanish in PAIRS if english.casefold() == spanish.casefold()]
    assert alike == []


@pytest.mark.parametrize(("place", "english", "spanish"), PAIRS, ids=[p for p, _, _ in PAIRS])
def test_numbers_in_a_text_are_the_books(place, english, spanish):
    assert numbers(english) == numbers(spanish)


def test_no_english_is_left_in_a_spanish_text():
    left = {place: m.group() for place, _, spanish in PAIRS if (m := ENGLISH.search(QUOTED.sub("", spanish)))}
    assert left == {}


@pytest.mark.parametrize("row", CHECKED, ids=lambda row: row["en"])
def test_spanish_figures_keep_to_the_words_of_the_house(row):
    assert [(place, s) for place, e, s in PAIRS if speaks_of(row, e) and not keeps(row, s)] == []


def test_english_is_the_rule_book_itself():
    for figure in FIGURES:
        assert figure_says(figure) == figure.says
        assert figure_where(figure) == figure.where
        if figure.kind == "rule":
            assert figure_value(figure) == figure.written
        assert source_words(BOOK.sources[figure.source])[0] == BOOK.sources[figure.source].title


def test_a_figure_is_printed_with_its_unit_a_plain_number_as_it_stands():
    assert figure_value(BOOK["joint.block.most.ncma"], "es") == "25 pies"
    assert figure_value(BOOK["joint.block.most.ncma"], "es", "metric") == "7.62 m"
    assert figure_value(BOOK["safety.lead.year.epa"], "es") == "1978"
    assert figure_value(BOOK["ask.fresh-ph.engineer-fix"], "es") == "12 a 13"
    assert figure_value(BOOK["prep.damp.pca"], "es") == "húmeda pareja, no empapada"
    assert figure_value(BOOK["finish.skip-trowel.lemongrove"], "es") == "20/30"


def test_where_a_figure_speaks():
    figure = BOOK["prep.paper.wood.ubc"]
    assert figure_applies(figure) == "sheathing: wood"
    assert figure_applies(figure, "es") == "forro: madera"
    assert figure_applies(BOOK["days.week.practice"], "es") == ""


def local(**row) -> Figure:
    like = {
        "id": "thickness.block.two-coat.local.job", "subject": "thickness.block.two-coat", "value": "5/8 in",
        "says": "the county asks for it", "source": LOCAL.id, "where": "job", "standing": "common practice",
        "why": "the county asks for it",
    }  # fmt: skip
    return figure_of(like | row, {LOCAL.id: LOCAL})


def test_a_local_rule_speaks_in_its_own_words():
    rule = Book(FIGURES, BOOK.sources).with_local([local()]).local[0]
    assert figure_says(rule, "es") == "the county asks for it"
    assert figure_value(rule, "es") == "5/8 pulg."
    assert figure_where(rule) == "the job's file"
    assert figure_where(rule, "es") == "el archivo de la obra"


def test_a_local_rule_in_words_is_not_translated():
    row = {
        "id": "prep.damp.local.firm", "subject": "prep.damp", "kind": "rule", "value": "soak it the night before",
        "where": "firm",
    }  # fmt: skip
    rule = local(**row)
    assert figure_value(rule, "es") == "soak it the night before"
    assert figure_where(rule, "es") == "el archivo de la empresa"


def test_a_published_title_stays_and_our_own_words_are_translated():
    source = BOOK.sources["jo-wc"]
    assert source_words(source, "es") == (source.title, source.publisher, "sin fecha")
    assert (
        source_words(BOOK.sources["bu-pca-faq"], "es")[0] == "Stucco FAQ, correct thickness (repite ASTM C926 Table 1)"
    )
    assert source_words(BOOK.sources["bu-practice"], "es")[0] == "Práctica común del oficio; sin texto publicado"


def test_a_stray_number_and_a_stray_word_are_found():
    assert numbers("lap 1/2 in.") != numbers("traslape de 3/8 pulg.")
    assert numbers("up to 0.5 m2, off both") == numbers("hasta 0.5 m², de las dos")
    assert ENGLISH.search(QUOTED.sub("", "traslape of malla"))
