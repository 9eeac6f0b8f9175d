"""The entries: whole, two sentences and one, no number of their own, both languages."""

import re
import tomllib
from importlib import resources

import pytest

from darby.rulebook import default
from darby.words.asking import Question, Symptom, entries, entry
from darby.words.asking.entries import PLACEHOLDER, entries_of, wanted

ENTRIES = entries()
QUESTIONS = [e for e in ENTRIES if isinstance(e, Question)]
SYMPTOMS = [e for e in ENTRIES if isinstance(e, Symptom)]
DRAWINGS = {"", "section", "elevation"}
LAWS = r"29 CFR 1926(?:\.\d+)?|40 CFR (?:745|61)|[Ss]ubpart[e]? M"
"""Numbers that are names."""


def by_id(entry):
    return entry.id


def told(entry, language):
    """Every sentence of an entry that carries advice."""
    said = entry.said[language]
    if isinstance(entry, Question):
        return [said.answer, said.more, said.here, said.reckoned]
    return [*said.causes, *said.checks, said.cure, said.caution]


def sentences(text):
    return [s for s in re.split(r"(?<=[.?!])\s+", text) if s]


def test_how_many_there_are():
    assert len(QUESTIONS) >= 60
    assert len(SYMPTOMS) >= 12
    assert {e.id.startswith("fault.") for e in SYMPTOMS} == {True}
    assert {e.id.startswith("fault.") for e in QUESTIONS} == {False}


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("question", QUESTIONS, ids=by_id)
def test_two_sentences_and_one_more(question, language):
    said = question.said[language]
    assert len(sentences(said.answer)) == 2
    assert len(sentences(said.more)) == 1
    assert len(said.asked) >= 2


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("fault", SYMPTOMS, ids=by_id)
def test_a_fault_has_causes_checks_a_cure_and_a_caution(fault, language):
    said = fault.said[language]
    assert len(said.causes) >= 2
    assert said.checks
    assert 1 <= len(sentences(said.cure)) <= 2
    assert len(sentences(said.caution)) == 1


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("one", ENTRIES, ids=by_id)
def test_no_number_stands_in_a_sentence(one, language):
    for text in told(one, language):
        assert not re.search(r"\d", re.sub(LAWS, "", PLACEHOLDER.sub("", text))), text


@pytest.mark.parametrize("one", ENTRIES, ids=by_id)
def test_nothing_is_left_in_english(one):
    english = {*told(one, "en"), *one.said["en"].asked} - {""}
    spanish = {*told(one, "es"), *one.said["es"].asked} - {""}
    assert {text for text in english & spanish if re.search(r"[a-z]", PLACEHOLDER.sub("", text))} == set()


def test_no_two_entries_have_one_heading():
    for language in ("en", "es"):
        asked = [line for e in ENTRIES for line in e.said[language].asked]
        assert len(asked) == len(set(asked))


@pytest.mark.parametrize("one", ENTRIES, ids=by_id)
def test_drawings_are_ones_that_darby_draws(one):
    assert one.drawing in DRAWINGS


def test_the_reference_rows_are_all_here():
    """One row of the reference, one published figure that stands behind a first cause (two faults share one row)."""
    first = {e.stands[0] for e in SYMPTOMS if e.stands and e.stands[0].startswith("fault.")}
    assert len(first) >= 12
    assert {default()[f].kind for f in first} == {"rule"}


def test_figures_that_only_faults_need_are_all_used():
    used = {name for e in SYMPTOMS for name in e.stands} | {w.subject for e in ENTRIES for w in e.figures}
    used |= {w.subject for e in QUESTIONS for w in e.rests}
    ours = [f for f in default() if f.id.startswith(("fault.", "ask."))]
    assert [f.id for f in ours if f.id not in used and f.subject not in used] == []


def test_an_entry_that_is_not_there():
    assert entry("paint-when").id == "paint-when"
    with pytest.raises(KeyError):
        entry("nobody-asks-this")


# --- how an entry is written -----------------------------------------------------------------------------


def test_a_figure_is_wanted_in_five_ways():
    assert wanted("w", "cure.wait coat=brown").where == (("coat", "brown"),)
    assert wanted("w", "id:cure.moist.pca").voice
    assert wanted("w", "written:safety.lead.year").form == "written"
    low = wanted("w", "low:id:cure.moist.pca")
    assert (low.form, low.voice, low.subject) == ("low", True, "cure.moist.pca")
    assert wanted("w", "mix.bucket in=cu-ft").unit == "cu ft"
    assert wanted("w", "mix.sand coat=scratch cement=plastic-cement").where[1] == ("cement", "plastic cement")


@pytest.mark.parametrize("text", ["middle:cure.moist", "cure.moist brown"])
def test_a_figure_wanted_wrongly(text):
    with pytest.raises(ValueError, match=r"middle|brown"):
        wanted("w", text)


GOOD = {
    "id": "why",
    "figures": {"thick": "thickness.block.two-coat"},
    "en": {"asked": ["Why?"], "answer": "So it is {thick}. Yes.", "more": "More."},
    "es": {"asked": ["¿Por qué?"], "answer": "Así es, {thick}. Sí.", "more": "Más."},
}


def without(row, language, key):
    return row | {language: {k: v for k, v in row[language].items() if k != key}}


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (without(GOOD, "es", "more"), "lacks 'more' in es"),
        ({k: v for k, v in GOOD.items() if k != "es"}, "says nothing in es"),
        (GOOD | {"colour": "red"}, "colour is no part"),
        (GOOD | {"en": GOOD["en"] | {"hint": "x"}}, "hint is no part"),
        (GOOD | {"figures": {}}, "thick is named in one place"),
        (GOOD | {"figures": GOOD["figures"] | {"wide": "parting.width"}}, "wide is named in one place"),
        (GOOD | {"es": GOOD["es"] | {"answer": "Así es. Sí."}}, "thick is named in one place"),
        (GOOD | {"wall": "thickness"}, "'here' goes with a wall"),
        ({k: v for k, v in GOOD.items() if k != "id"} | {"wall": "x"}, "an entry without id"),
    ],
)
def test_an_entry_that_is_not_whole_is_named(row, says):
    assert entries_of([GOOD], [])[0].id == "why"
    with pytest.raises(ValueError, match=re.escape(says)):
        entries_of([row], [])


def test_an_entry_twice():
    with pytest.raises(ValueError, match="why stands twice"):
        entries_of([GOOD, GOOD], [])


SEEN = {"asked": ["x"], "causes": ["a", "b"], "checks": ["c"], "cure": "d.", "caution": "e."}


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ({"es": SEEN | {"causes": ["a"]}}, "as many causes"),
        ({"stands": ["x", "y", "z"]}, "more figures than causes"),
        ({"source": "x"}, "source is no part"),
    ],
)
def test_a_fault_that_is_not_whole_is_named(row, says):
    good = {"id": "fault.x", "en": SEEN, "es": SEEN}
    assert entries_of([], [good])[0].id == "fault.x"
    with pytest.raises(ValueError, match=says):
        entries_of([], [good | row])


def test_the_files_are_where_the_package_looks():
    folder = resources.files("darby.words")
    assert tomllib.loads(folder.joinpath("questions.toml").read_text(encoding="utf-8"))["question"]
    assert tomllib.loads(folder.joinpath("faults.toml").read_text(encoding="utf-8"))["fault"]
