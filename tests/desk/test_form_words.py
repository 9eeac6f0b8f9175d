"""Every key and every choice of the job and firm files has a name of its own in each language, not the file's word."""

import pytest

from darby.desk.forms import Form, _open, _schema, sections
from darby.desk.kept import FIRM
from darby.tables.setting import Setting
from darby.words import catalogue

SIZES = {"12.5", "16/20", "20/30", "25", "30", "50", "cm", "m", "mm", "us", "metric"}


def named(kind):
    """Keys and words of choices that a form of the schema can show."""
    keys: set[str] = set()
    choices: set[str] = set()

    def walk(node):
        choices.update(map(str, node.get("enum", ())))
        for key, inner in node.get("properties", {}).items():
            keys.add(key)
            walk(_open(inner, kind))
        if node.get("type") == "array":
            walk(_open(node["items"], kind))

    for node in _schema(kind)["properties"].values():
        walk(_open(node, kind))
    return keys, choices


@pytest.mark.parametrize("kind", ["job", "firm"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_every_key_and_choice_has_a_name(kind, language):
    words = catalogue(language)
    keys, choices = named(kind)
    assert len(keys) > 40
    assert {k for k in keys if f"desk.field.{k}" not in words} == set()
    unnamed = {c for c in choices if f"desk.choice.{c}" not in words and f"word.{c}" not in words}
    assert unnamed - SIZES == set()


def hints(document, language):
    """By its way, what stands under each field of every form of the document, its list entries empty."""
    found = {}

    def walk(field):
        if field.kind not in ("table", "tables"):
            found[field.name] = field.hint
        for inner in field.inside:
            walk(inner)

    form = Form(document, {}, Setting(language=language, system="us"))
    for key in sections(document):
        walk(form.section(key))
    return found


@pytest.mark.parametrize(("document", "fields"), [("job", 500), (FIRM, 100)])
def test_every_field_with_a_hint_has_it_in_both_languages(document, fields):
    english, spanish = hints(document, "en"), hints(document, "es")
    assert len(english) > fields
    assert {name for name, hint in english.items() if bool(hint) != bool(spanish[name])} == set()
    same = {name for name, hint in english.items() if hint and hint == spanish[name]}
    assert same == set()


def test_a_hint_says_again_what_the_schema_says():
    """A changed description of the schema would else leave its Spanish behind."""
    english = {*hints("job", "en").values(), *hints(FIRM, "en").values()}
    kept = {code: text for code, text in catalogue("en").items() if code.startswith("desk.says.")}
    assert len(kept) > 200
    assert {code for code, text in kept.items() if text not in english} == set()
