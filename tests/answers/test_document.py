"""The document that programs read: it survives JSON, and docs/answers.md says what every key of it holds."""

import json
import re
from dataclasses import dataclass, fields, is_dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from typing import get_args, get_type_hints

import pytest

import darby
from darby.answers import STAGES, Waiting
from darby.answers.plain import plain
from darby.answers.stage import NOTHING
from darby.measure import Fault
from darby.measure.units import Unit, unit
from darby.rulebook import Book, Figure, default
from darby.working import Amount, Note, Quantity
from tests.answers.jobs import firehall as example
from tests.answers.jobs import without_firm

ROOT = Path(__file__).parents[2]
DOC = (ROOT / "docs" / "answers.md").read_text(encoding="utf-8")
LEAVES = (Unit, Book, Figure)
SHARED = {kind.__name__: kind for kind in (Quantity, Amount, Note, Waiting, Fault)}


@pytest.fixture(scope="module")
def document(firehall):
    return firehall.to_json()


def test_it_survives_json(document):
    assert json.loads(json.dumps(document, allow_nan=False)) == document


def test_what_waits_and_what_failed_survive_json_too():
    for answers in (darby.answer(without_firm()), darby.answer(example(('total = "5/8 in"', 'total = "1/16 in"')))):
        document = answers.to_json()
        assert json.loads(json.dumps(document, allow_nan=False)) == document
        unanswered = {
            (stage, at): answer["is"]
            for stage, by in document["answers"].items()
            for at, answer in by.items()
            if "is" in answer and answer != plain(NOTHING)  # nobody read an old face there: no answer is missing
        }
        later = {stage.name for stage in STAGES if stage.pace == "later"}
        slow = [key for key in unanswered if key[0] in later]
        assert {unanswered.pop(key) for key in slow} == {"Waiting"}  # nobody asked for them
        assert unanswered == {key: type(why).__name__ for key, why in answers.unanswered().items()}


def test_the_same_job_is_the_same_document(firehall):
    assert darby.answer(example()).to_json() == firehall.to_json()


def test_money_is_text_to_the_cent(document, firehall):
    total = document["answers"]["price"]["job"]["total"]["value"]
    assert total == str(firehall.of("price").total.value)
    assert re.fullmatch(r"\d+\.\d\d", total)
    quote = document["answers"]["price"]["job"]["quote"]
    assert sum(Decimal(line["amount"]["value"]) for line in quote) == Decimal(total)


def test_numbers_are_si_and_the_unit_is_only_how_they_are_shown(document):
    (_, built), *_ = document["answers"]["coats"]["bay-east"]["zones"]
    nominal = built["chosen"]["nominal"]
    assert nominal["unit"] == "in"
    assert nominal["value"] == pytest.approx(0.0127)  # half an inch


def test_every_step_that_an_answer_names_is_in_the_working(document):
    steps = document["working"]

    def named(thing):
        if isinstance(thing, dict):
            if set(thing) == {"value", "unit", "key"} and thing["key"]:
                yield thing["key"]
            for value in thing.values():
                yield from named(value)
        elif isinstance(thing, list):
            for value in thing:
                yield from named(value)

    keys = set(named(document["answers"]))
    assert len(keys) > 300
    assert keys <= set(steps)


def test_stages_stand_in_the_order_they_are_answered(document):
    assert list(document["answers"]) == [stage.name for stage in STAGES]


def test_plain_forms():
    @dataclass(frozen=True)
    class Thing:
        a: Fraction
        b: tuple

    figure = default().number("thickness.finish", base="block", position="vertical")
    assert plain(Thing(Fraction(1, 4), (Decimal("1.50"), date(2026, 1, 2), None, True, figure))) == {
        "a": 0.25,
        "b": ["1.50", "2026-01-02", None, True, figure.id],
    }
    assert plain(frozenset({"b", "a"})) == ["a", "b"]
    assert plain({"x": unit("sq ft")}) == {"x": "sq ft"}
    with pytest.raises(TypeError):
        plain(object())


# --- docs/answers.md ---------------------------------------------------------------------------------------


def documented():
    """Heading to the keys of its table."""
    found = {}
    for part in re.split(r"^#{2,3} ", DOC, flags=re.MULTILINE)[1:]:
        heading, _, body = part.partition("\n")
        keys = re.findall(r"^\| `(\w+)` \|", body, flags=re.MULTILINE)
        assert len(keys) == len(set(keys)), heading
        if keys:
            found[heading.strip()] = set(keys)
    return found


def kinds(answers):
    """Heading to fields, for every dataclass that an answer of any stage can hold, seen or not in this job."""
    found = {}

    def parts(hint):
        yield hint
        for inner in get_args(hint):
            yield from parts(inner)

    def walk(stage, kind):
        heading = kind.__name__ if kind in SHARED.values() else f"{stage}: {kind.__name__}"
        if heading in found or kind in LEAVES:
            return
        found[heading] = {f.name for f in fields(kind)}
        for hint in get_type_hints(kind).values():
            for part in parts(hint):
                if isinstance(part, type) and is_dataclass(part):
                    walk(stage, part)

    for stage in STAGES:
        for kind in {type(answer) for answer in answers.good(stage.name).values()}:
            walk(stage.name, kind)
    return found


def test_the_page_and_the_answers_agree(firehall, document):
    expected = kinds(firehall)
    for name in ("Waiting", "Fault"):
        expected[name] = {"is", *(f.name for f in fields(SHARED[name]))}
    steps = document["working"].values()
    expected["Step"] = next(set(s) for s in steps if "formula" in s)
    expected["Found"] = next(set(s) for s in steps if "method" in s)
    expected["The document"] = set(document)
    assert documented() == expected


def test_the_page_names_every_stage():
    named = re.findall(r"^## (\w+)$", DOC, flags=re.MULTILINE)
    assert [name for name in named if name != "Everywhere"] == [stage.name for stage in STAGES]
    for stage in STAGES:
        assert f"`{stage.name}`" in DOC


def test_the_pages_example_runs(firehall, monkeypatch):
    monkeypatch.chdir(ROOT)
    (code,) = re.findall(r"^```python\n(.*?)^```", DOC, flags=re.MULTILINE | re.DOTALL)
    names = {}
    exec(code, names)
    assert names["total"] == str(firehall.of("price").total.value)
    assert (names["zone"], names["built"]["at"]) == ("rest", "bay-east/rest")


def test_no_note_says_what_another_note_on_the_same_place_denies(firehall):
    """ "An open top is taken" (the loader) and "taken as covered" (the order): who decides, speaks."""
    said = {(n.code, n.at.partition("/")[0]) for n in firehall.notes}
    for loader, room in (
        ("job.assumed-top", "quantities.assumed.top-covered"),
        ("job.unsaid-out-of-plane", "buildup.assumed-plane"),
    ):
        assert {at for code, at in said if code == loader}.isdisjoint({at for code, at in said if code == room})
        assert (room, "bay-north") in said
    loaded = {n.code for n in firehall.job.assumed}
    assert {"job.assumed-top", "job.unsaid-out-of-plane"} <= loaded
