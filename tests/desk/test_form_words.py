"""Every key and every choice of the job and firm files has a name of its own in each language, not the file's word."""

import pytest

from darby.desk.forms import _open, _schema
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
