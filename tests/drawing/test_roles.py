"""The one table: every mark's role has a weight, a class and a layer, and the style sheet says the same."""

from __future__ import annotations

import re

import pytest

from darby.drawing import ROLES, stylesheet
from darby.drawing.key import KEYED
from darby.drawing.roles import DAY
from darby.words import LANGUAGES, catalogue


def test_every_role_has_its_own_class_and_a_known_ink() -> None:
    classes = [role.css for role in ROLES.values()]
    assert len(set(classes)) == len(classes)
    assert {role.ink for role in ROLES.values()} <= set(DAY)


@pytest.mark.parametrize(
    ("role", "weight", "dash"),
    [
        ("outline", 3, ()), ("apron", 3.5, ()), ("opening", 1.75, ()), ("swing", 0.9, (6, 4)), ("block", 1, ()),
        ("old dash", 1.1, ()), ("joint", 2, (14, 4, 2.5, 4)), ("parting", 2, ()), ("ground", 1.9, ()),
        ("dimension", 0.9, ()), ("tick", 1.7, ()), ("coat line", 1, (5, 3)), ("face", 2.6, ()),
    ],
)  # fmt: skip
def test_weights_and_dashes_are_those_of_the_look(role: str, weight: float, dash: tuple[float, ...]) -> None:
    assert (ROLES[role].weight, ROLES[role].dash) == (weight, dash)


def test_new_work_stands_five_clear_of_old() -> None:
    clear = 7.5 - ROLES["outline"].weight / 2 - ROLES["parting"].weight / 2
    assert clear == ROLES["gap"].weight == 5


def test_the_style_sheet_has_every_class_and_only_colours_of_the_page() -> None:
    css = stylesheet()
    assert {f".{role.css}{{" for role in ROLES.values()} <= {m[0] for m in re.finditer(r"\.[a-z-]+\{", css)}
    assert "#" not in css
    named = set(re.findall(r"var\(--(\w+)\)", css))
    assert named <= {"lime", "ink", "ink2", "hair", "faint", "brick", "slate", "plaster"}


def test_every_line_a_key_explains_has_its_words_in_both_languages() -> None:
    for language in LANGUAGES:
        for role in KEYED:
            assert catalogue(language)[f"drawing.key.{role}"]
    assert set(KEYED) <= set(ROLES)
