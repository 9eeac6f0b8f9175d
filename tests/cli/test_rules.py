"""`darby rules`: list, search and show the book."""

import json
import re

import pytest

from darby.rulebook import default
from tests.cli.running import darby


def rules(*words, **env):
    result = darby("rules", *words, **env)
    assert result.exit_code == 0, result.stderr
    return result.stdout


def test_a_search():
    said = rules("thickness", "block")
    assert "[thickness.block.two-coat.c926]" in said
    assert "nominal total on unit masonry" in said
    assert re.search(r"^1/2 in\. ", said, re.MULTILINE)
    assert "[cure.moist.ibc]" not in said
    (count,) = re.findall(r"(\d+) figures; rule book", said)
    assert int(count) == len(re.findall(r"\[[\w.-]+\]", said))


def test_everything():
    assert f"{len(list(default()))} figures; rule book {default().version}" in rules()


def test_one_with_its_source_and_the_other_voices():
    said = rules("--show", "thickness.block.two-coat.c926")
    for words in (r"Value +1/2 in\.", r"Source +Stucco FAQ", r"Portland Cement Association", r"Address +https?://",
                  r"Standing +published, second-hand", r"Rules here"):  # fmt: skip
        assert re.search(words, said), words
    assert "Other voices" in said
    assert "[thickness.block.two-coat.plasterer]" in said
    assert "3/4 in." in said


def test_a_voice_that_does_not_rule_says_so():
    assert re.search(r"Rules here +another voice", rules("--show", "thickness.block.two-coat.plasterer"))


@pytest.mark.parametrize("name", ["thickness.block.two-coat", "two-coat plasterer"])
def test_a_subject_or_words_show_its_voices(name):
    assert "thickness.block.two-coat" in rules("--show", name)


def test_a_year_is_a_year():
    assert re.search(r"^1978 ", rules("lead"), re.MULTILINE)


@pytest.mark.parametrize("words", [("wibble",), ("--show", "wibble.wobble")])
def test_nothing_found(words):
    result = darby("rules", *words)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "wibble" in result.stderr


def test_json():
    found = json.loads(rules("thickness", "block", "--json"))
    assert {"id", "subject", "value", "says", "standing", "voice", "where", "source", "applies"} == set(found[0])
    assert found[0]["source"]["title"]
    (first, *others) = json.loads(rules("--show", "thickness.block.two-coat.c926", "--json"))
    assert first["id"] == "thickness.block.two-coat.c926"
    assert {o["subject"] for o in others} == {"thickness.block.two-coat"}


def test_figures_of_every_subject_can_be_shown():
    for figure in list(default())[::15]:
        said = rules("--show", figure.id)
        assert figure.id in said


@pytest.mark.parametrize("columns", [80, 110])
def test_it_keeps_to_the_screen(columns):
    assert max(len(line) for line in rules(COLUMNS=str(columns)).split("\n")) <= columns


def test_in_metres():
    assert re.search(r"^12\.7 mm ", rules("thickness", "block", "--metric"), re.MULTILINE)


def test_in_spanish_a_figure_is_said_in_spanish_and_the_title_stays():
    said = rules("--es", "--show", "thickness.block.two-coat.c926", COLUMNS="200")
    assert "total nominal sobre mampostería de block, base y acabado" in said
    assert "respuesta sobre el grueso correcto" in said
    assert "Stucco FAQ, correct thickness" in said
    assert "sin fecha" in said
    assert "nominal total" not in said
    assert "undated" not in said
    assert re.search(r"Habla de +sellador: 25", rules("--es", "--show", "joint.sealant.25.c920"))


def test_a_rule_in_words_stands_among_the_words_in_spanish():
    assert "cómo se dejan las juntas para repellar: corte las juntas del block al ras" in " ".join(
        rules("--es", "joints-flush", COLUMNS="200").split()
    )


def test_spanish_words_find_figures_and_english_ones_still_do():
    assert "[prep.joints-flush.pca]" in rules("--es", "block", "al ras")
    assert "[prep.joints-flush.pca]" in rules("--es", "flush", "sponge")
    assert rules("--es", "--show", "corte las juntas").startswith("\nprep.joints-flush.pca\n")
    assert darby("rules", "al ras").exit_code == 2  # in English nobody reads it


def test_for_a_program_the_book_stays_as_it_is():
    (row,) = json.loads(rules("--es", "--json", "joints-flush"))
    assert row["says"] == "how joints are left for plaster"
