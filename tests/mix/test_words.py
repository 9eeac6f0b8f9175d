"""Every note, title and fault of the room has its sentence in both languages, and every placeholder its value."""

from __future__ import annotations

import ast
import string
import tomllib
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

import darby.mix
from darby import mix
from darby.measure.faults import Fault, Unreadable
from darby.mix import BagLabel, CoatNeed, Gauge, Measured, MixAsk, MixParts, mixes
from darby.rulebook import Book, default
from darby.words import LANGUAGES, say
from darby.working import Working
from tests.mix.asking import CU_FT, LB_CU_FT

WORDS = Path(darby.mix.__file__).parent.parent / "words"


def _sentences(language: str) -> dict[str, str]:
    return tomllib.loads((WORDS / language / "mix.toml").read_text(encoding="utf-8"))


def _fields(sentence: str) -> set[str]:
    return {name for _, name, _, _ in string.Formatter().parse(sentence) if name}


def _workings() -> list[Working]:
    """Asks that bring out every note and every step."""
    label = BagLabel("b", "Bagged", 36, Fraction(1, 50))
    own = Measured(air=0.3, water=0.1, portland=1400, masonry=1100, plastic=1400, lime=500, sand=100 * LB_CU_FT)
    mixed = (
        MixParts(1, Fraction(1, 4), 3), MixParts(1, 2, 14), MixParts(1, 0, 4), MixParts(1, 1, 6),
        MixParts(1, 0, 0, 1, 0),
        MixParts(1, 0, 12, 3), MixParts(1, 0, 3, Fraction(1, 2)), MixParts(0, 1, 4, 1), MixParts(0, 0, 4, 0, 1),
        MixParts(0, 1, 3), MixParts(1, Fraction(7, 4), 5), MixParts(1, 0, 6, 0, 1),
    )  # fmt: skip
    coats = ("scratch", "brown", "base", "finish", "skim", "dash-bond")
    given = [
        CoatNeed(f"{n}/{coat}", coat, suction, 1.0, parts)  # type: ignore[arg-type]
        for n, (parts, suction) in enumerate((p, s) for p in mixed for s in ("low", "high"))
        for coat in coats
    ]
    asked = [CoatNeed(f"p/{c}/{k}", c, "high", 0, None, None, k) for c in coats for k in mix.model.CEMENTS]  # type: ignore[arg-type, attr-defined]
    richer = [
        CoatNeed("r/scratch", "scratch", "high", 0, MixParts(1, 1, 8)),
        CoatNeed("r/brown", "brown", "high", 0, MixParts(1, 1, 6)),
    ]
    bagged = [
        CoatNeed("f/1", "finish", volume=1.0, bagged=label),
        CoatNeed("f/2", "finish", volume=0.11, bagged=replace(label, water=0.003, use_within=60), hours=3600),
    ]
    ask = MixAsk(default(), (*given, *asked, *richer, *bagged), mixer=9 * CU_FT)
    odd = replace(ask, coats=tuple(given), gauge=Gauge("bucket", 2 * CU_FT), measured=own)
    small = replace(ask, coats=tuple(given[:3]), gauge=Gauge("shovel"), mixer=CU_FT / 2)
    found = [
        mixes(a)[1]
        for a in (ask, odd, small, replace(small, mixer=None), replace(small, measured=Measured(density=2000)))
    ]
    for more in ({"density": 3000}, {"factor": 1.33}, {"density": 1500}):
        working = Working()
        mix.yield_of(MixParts(1, 1, 6), working=working, **more)  # type: ignore[arg-type]
        found.append(working)
    strict = {"low": 2.9, "high": 3.1, "why": "the county asks it", "standing": "read"}
    book = default()
    local = [
        replace(book.number(subject, coat="scratch", cement="portland"), id=f"local.{subject}", **strict)  # type: ignore[arg-type]
        for subject in ("mix.sand", "mix.masonry")
    ]
    county = Book(book, book.sources, local=local)
    found.append(mixes(replace(ask, book=county, coats=tuple(given)))[1])
    jar = Working()
    mix.gauging.bulking_of(jar, "a", mix.model.Quantity(5), mix.model.Quantity(4))  # type: ignore[attr-defined]
    mix.gauging.damp_volume(jar, "b", mix.model.Quantity(5), mix.model.Quantity(0.2))  # type: ignore[attr-defined]
    return [*found, jar]


WORKINGS = _workings()
NOTES = {(n.code, n.grade): n for w in WORKINGS for n in w.notes}
TITLES = {code for w in WORKINGS for s in w.steps.values() for code in (s.says, getattr(s, "method", s.says))}
FAULTS = {
    node.args[0].value
    for path in Path(darby.mix.__file__).parent.glob("*.py")
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Fault"
    and isinstance(node.args[0], ast.Constant)
}  # fmt: skip


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_note_can_be_said(language: str) -> None:
    for note in NOTES.values():
        sentence = say(note.code, note.values, language)  # type: ignore[arg-type]
        assert sentence and "{" not in sentence


def test_both_languages_say_the_same_things_with_the_same_values() -> None:
    en, es = _sentences("en"), _sentences("es")
    assert list(en) == list(es)
    for code in en:
        assert _fields(en[code]) == _fields(es[code]), code
        assert en[code] != es[code], code


def test_every_title_and_fault_has_a_sentence_and_no_sentence_is_idle() -> None:
    en = _sentences("en")
    used = TITLES | FAULTS | {code for code, _ in NOTES}
    assert used <= set(en), used - set(en)
    assert set(en) <= used, set(en) - used
    assert not [code for code in TITLES if _fields(en[code])]


def test_faults_fill_their_sentences() -> None:
    fault = Fault("", "here", "x", "y", "z")
    values = {"place": fault.place, "found": fault.found, "allowed": fault.allowed, "nearest": fault.nearest}
    for code in FAULTS:
        for language in LANGUAGES:
            assert say(code, values, language)


def test_the_room_holds_no_figure() -> None:
    for path in Path(darby.mix.__file__).parent.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, (int, float)):
                assert node.value in (0, 1, 2, -1), f"{path.name}:{node.lineno} holds {node.value}"


def test_a_refusal_reads_well() -> None:
    with pytest.raises(Unreadable) as refused:
        mix.batch({"portland": 1, "sand": 4}, 3 * CU_FT, bags=1)
    fault = refused.value.fault
    told = say(fault.code, {"found": fault.found, "allowed": fault.allowed, "nearest": fault.nearest})
    assert "more than the mixer takes (3 cu ft)" in told and "portland 47 lb" in told
