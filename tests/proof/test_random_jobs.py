"""Invented jobs in numbers: whatever is asked, steps are true as printed, edges all counted, columns add up."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

import darby
from darby.answers import Waiting
from darby.job import loads
from darby.words import LANGUAGES, say
from darby.working import Found
from darby.working.printing import line
from tests.proof.random_jobs import document
from tests.working.evaluator import true

FIRM = (Path(__file__).parents[2] / "examples" / "firm.toml").read_text(encoding="utf-8")
SEEDS = range(60)

pytestmark = pytest.mark.proof


@pytest.fixture(scope="module")
def answered():
    return {seed: darby.answer(loads(document(seed), firm=FIRM)) for seed in SEEDS}


def test_most_are_answered_whole(answered):
    """What fails, fails because a person asked for what cannot be; a fault says so, and nothing is raised."""
    whole = [seed for seed, answers in answered.items() if not answers.unanswered()]
    assert len(whole) >= len(SEEDS) // 2
    for answers in answered.values():
        for why in answers.unanswered().values():
            assert why.lacks or why.behind if isinstance(why, Waiting) else why.code in darby_sentences()


def darby_sentences():
    from darby.words import catalogue

    return catalogue("en")


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_every_printed_step_is_true(answered, seed, system):
    steps = [s for s in answered[seed].steps() if not isinstance(s, Found)]
    assert [f"{s.key}: {text}" for s in steps for text in [line(s, system)] if not true(text)] == []


@pytest.mark.parametrize("seed", SEEDS)
def test_no_edge_is_lost_or_counted_twice(answered, seed):
    answers = answered[seed]
    order = answers.answered("order")
    if order is None:
        return
    laid = set(answers.good("volumes"))
    runs = {r.id: r for name, wall in answers.good("wall").items() if name in laid for r in wall.runs}
    if "joints" in answers.stages:
        runs |= {r.id: r for at in answers.good("joints").values() for r in at.runs if not r.on_edge}
    counted = Counter(name for x in order.edges for name in x.runs)
    assert counted == Counter(dict.fromkeys(runs, 1))
    assert sum(x.length for x in order.edges) == sum(r.length * r.count for r in runs.values())


@pytest.mark.parametrize("seed", SEEDS)
def test_columns_add_up(answered, seed):
    price = answered[seed].answered("price")
    if price is None:
        return
    assert sum(x.amount.value for x in price.quote) == price.total.value
    assert sum(x.amount.value for x in price.lines) == price.loaded.cost.value
    assert all(x.amount.value >= 0 for x in price.quote)
    assert price.total.value == price.total.value.quantize(Decimal("0.01"))


@pytest.mark.parametrize("seed", SEEDS)
def test_everything_can_be_said_and_handed_on(answered, seed):
    answers = answered[seed]
    plain = answers.to_json()
    assert json.loads(json.dumps(plain, allow_nan=False)) == plain
    for language in LANGUAGES:
        for system in ("us", "metric"):
            for note in answers.notes:
                said = say(note.code, note.values, language, system)
                assert said
                assert "{" not in said
            for step in answers.steps():
                assert say(step.says, (), language, system)


@pytest.mark.parametrize("seed", SEEDS[::4])
def test_the_pages_of_any_job_keep_to_the_screen(answered, seed):
    from darby.tables.pages import page_of, pages
    from darby.tables.setting import Setting

    answers = answered[seed]
    for language in LANGUAGES:
        setting = Setting(language, "us")
        for page in [*pages(answers, setting), *(p for s in answers.stages for p in page_of(s, answers, setting))]:
            assert page.title
            for row in page.rows:
                assert len(row) in (1, len(page.heads))


@pytest.mark.parametrize("seed", SEEDS[::3])
def test_what_is_kept_is_what_would_be_answered_afresh(answered, seed):
    """The same job a week later, its cement dearer, one wall gone from it if it has two."""
    answers = answered[seed]
    job = answers.job
    buys = tuple(replace(b, price=b.price * 2) if b.item == "portland" else b for b in job.firm.buys)
    other = replace(job, firm=replace(job.firm, buys=buys), as_of=job.as_of.replace(day=1))
    kept = darby.answer(other, since=answers)
    assert kept.asked < len(kept.kept)
    assert kept.to_json() == darby.answer(other).to_json()
