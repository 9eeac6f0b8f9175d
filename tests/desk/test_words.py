"""What templates and code say stands in the catalogues; the drawings' style sheet is the drawing room's own."""

import re
from pathlib import Path

import darby.desk
from darby.drawing import stylesheet
from darby.words import catalogue

DESK = Path(darby.desk.__file__).parent
SAID = re.compile(r"""\{%-?\s*say\s+["']([\w.-]+)["']""")
WORDS = re.compile(r"""\{%-?\s*word\s+["']([\w.-]+\.)["']\|add:""")


def test_every_sentence_of_a_template_is_there():
    said = {code for file in DESK.rglob("*.html") for code in SAID.findall(file.read_text(encoding="utf-8"))}
    assert len(said) > 50
    assert {code for code in said if code not in catalogue("en")} == set()


def test_every_word_by_name_has_its_kind():
    starts = {start for file in DESK.rglob("*.html") for start in WORDS.findall(file.read_text(encoding="utf-8"))}
    assert {s for s in starts if not any(code.startswith(s) for code in catalogue("en"))} == set()


def test_no_template_says_anything_itself():
    """Text between tags comes from the catalogues: what is left without tags has no words of its own."""
    for file in DESK.rglob("*.html"):
        text = re.sub(r"\{%.*?%\}|\{\{.*?\}\}|<[^>]*>|&\w+;", " ", file.read_text(encoding="utf-8"), flags=re.DOTALL)
        left = [w for w in re.findall(r"[A-Za-zÁ-ú]{3,}", text) if w not in ("darby",)]
        assert not left, (file.name, left[:5])


def test_the_style_of_drawings_is_the_drawing_rooms(owner):
    reply = owner.get("/drawing.css")
    assert reply.text == stylesheet()
    assert 'href="/drawing.css"' in owner.get("/").text
