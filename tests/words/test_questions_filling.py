"""The rule book decides what an answer says: a local rule, a firm's voice, another language, another system."""

import dataclasses
import re

import pytest

from darby.rulebook import LOCAL, default, figure_of
from darby.words.asking import entries, entry, fill
from darby.words.asking.filling import tidy


def local(subject, value, why="the inspector here wants it"):
    row = {"id": f"{subject}.local", "subject": subject, "value": value, "says": why, "source": "local",
           "where": "job", "standing": "common practice", "why": why}  # fmt: skip
    return default().with_local([figure_of(row, {"local": LOCAL})])


@pytest.mark.parametrize("system", ["us", "metric"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_every_entry_fills(language, system):
    for one in entries():
        filled = fill(one, default(), language, system)
        texts = [filled.answer, filled.more, filled.cure, filled.caution, *filled.checks]
        texts += [cause.text for cause in filled.causes]
        assert not any(re.search(r"[{}]|\.\.", text) for text in texts), one.id
        assert all(told.source.title for told in filled.told)
        if system == "metric":
            assert not any(re.search(r"\d (?:in\.|pulg\.|ft|pies|sq ft|°F|lb|gal)\b", text) for text in texts), one.id


def test_a_local_rule_changes_the_answer():
    before = fill(entry("how-thick"), default())
    after = fill(entry("how-thick"), local("thickness.block.two-coat", "3/4 in"))
    assert "it comes to 1/2 in., on lath" in before.answer
    assert "it comes to 3/4 in., on lath" in after.answer
    (told,) = [t for t in after.told if t.figure.why]
    assert (told.value, told.figure.why) == ("3/4 in.", "the inspector here wants it")
    assert told.source == LOCAL


@pytest.mark.parametrize(
    ("name", "subject", "value", "says"),
    [
        ("paint-when", "cure.paint-ph", "9", "pH 9"),
        ("crack-bad", "ask.crack.fill-over", "1/8 in", "1/8 in."),
        ("fault.wide-crack", "ask.crack.fill-over", "1/8 in", "1/8 in."),
        ("scaffold", "safety.fall.scaffold", "6 ft", "Over 6 ft on a scaffold"),
        ("fault.corner-cracks", "cure.better", "21 to 28 day", "21 to 28 days"),
    ],
)
def test_a_changed_figure_changes_what_it_says(name, subject, value, says):
    def text(book):
        filled = fill(entry(name), book)
        return " ".join((filled.answer, *filled.checks, *(c.text for c in filled.causes), filled.cure))

    assert says not in text(default())
    assert says in text(local(subject, value))


def test_the_firms_voice_changes_the_answer():
    book = default().following({"thickness": "plasterer"})
    assert "it comes to 3/4 in." in fill(entry("how-thick"), book).answer


def test_one_voice_by_its_name_stays_what_it_is():
    assert "3/8 to 1/2 in." in fill(entry("why-not-thinner"), local("thickness.block.two-coat", "1 in")).more


def test_a_soft_standing_is_said_in_the_sentence_and_once():
    filled = fill(entry("scaffold"), default())
    assert "above 6 ft (common practice, no source) it wants" in filled.answer
    lines = fill(entry("power-lines"), default()).answer
    assert "10 ft (from memory, not checked against the standard) away from the lines" in lines
    seal = fill(entry("fault.block-ridges"), default())
    assert " ".join((*(c.text for c in seal.causes), seal.cure)).count("no source") == 1
    assert "published" not in fill(entry("weep-screed"), default()).answer


def test_a_local_rule_is_never_soft():
    assert "no source" not in fill(entry("scaffold"), local("access.ground-reach", "5 ft")).answer


def test_causes_keep_the_standing_of_their_own_source():
    causes = fill(entry("fault.white-powder"), default()).causes
    assert [c.stands.figure.standing if c.stands else None for c in causes] == ["second-hand", None, None]
    causes = fill(entry("fault.rust"), default()).causes
    assert [c.stands.figure.id if c.stands else None for c in causes] == [
        "fault.rust.aci", None, "ask.chloride.aci", None,
    ]  # fmt: skip


def test_every_figure_of_a_question_is_told_and_rules_in_words_without_a_value():
    told = {t.figure.subject: t.value for t in fill(entry("weep-screed"), default()).told}
    assert told["prep.weep.earth"] == "4 in."
    assert told["prep.weep.masonry"] == ""


def test_a_year_is_no_number_and_a_bucket_is_cubic_feet():
    assert "before 1978 and" in fill(entry("lead"), default()).answer
    bucket = fill(entry("bucket-size"), default())
    assert "holds 0.668 cu ft;" in bucket.answer
    assert "L;" in fill(entry("bucket-size"), default(), "en", "metric").answer


def test_one_end_of_a_range():
    filled = fill(entry("fault.block-lines"), default())
    assert "a base coat of 3/8 in. to 1/2 in. before" in filled.cure
    assert "3/8 to 1/2 in." in [told.value for told in filled.told]  # told once, as the source has it


def test_a_book_that_is_silent_is_an_error():
    question = entry("how-thick")
    mute = dataclasses.replace(question.figures[0], subject="thickness.of-nothing")
    with pytest.raises(KeyError, match="of-nothing"):
        fill(dataclasses.replace(question, figures=(mute, *question.figures[1:])), default())


def test_a_full_stop_stands_once():
    assert tidy("It is 1/2 in..") == "It is 1/2 in."
    assert tidy("It is 1/2 in.; so.") == "It is 1/2 in.; so."
