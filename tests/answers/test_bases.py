"""Every base under every finish, end to end: answered, ordered, planned, priced, and said in both languages."""

from typing import get_args

import pytest

import darby
from darby.job import loads
from darby.job.model import Finish
from darby.words import LANGUAGES, say
from tests.answers.jobs import FIRM

HEAD = """darby = 1
[job]
name = "One wall"
as_of = 2026-09-30
built = 1950
"""
WALL = """
[[wall]]
id = "it"
length = "20'"
height = "8'"
{base}
left = {{ kind = "outside corner" }}
right = {{ kind = "outside corner" }}
openings = ["window 3' x 4' at 5' up 3', reveal 4\\""]
[coats]
finish = "{finish}"
"""
SOFFIT = """
[[strip]]
id = "it"
kind = "soffit"
length = "20'"
width = "3'"
{base}
[coats]
finish = "{finish}"
"""
GOOD = 'tests = { scrape = "holds", water = "soaks in", tap = "sound", pull = "held" }'
BAD = 'tests = { pull = "let go" }'

BASES = {
    "block": 'base = "block"\nblock = "dense"\njoints = "struck"',
    "lightweight block": 'base = "block"\nblock = "lightweight"\njoints = "flush"',
    "concrete": 'base = "concrete"',
    "frame": 'base = "frame"\nsheathing = "wood"\nstuds = "16 in"',
    "lath over block": 'base = "lath over block"',
    "soft brick": 'base = "brick"\nbrick = "soft"\njoints = "struck"',
    "sound brick": 'base = "brick"\nbrick = "sound"\njoints = "flush"',
    "stone": 'base = "stone"',
    "painted block, untried": 'base = "painted block"',
    "painted block, held": f'base = "painted block"\n{GOOD}',
    "painted block, let go": f'base = "painted block"\n{BAD}',
    "old plaster, sound": f'base = "old plaster"\nbehind = "block"\n{GOOD}',
    "old plaster, hollow": 'base = "old plaster"\nbehind = "frame"\ntests = { tap = "hollow" }',
    "painted plaster, untried": 'base = "painted plaster"\nbehind = "frame"',
    "painted plaster, held": f'base = "painted plaster"\nbehind = "frame"\n{GOOD}',
    "painted plaster, let go": f'base = "painted plaster"\nbehind = "frame"\n{BAD}',
}
LATHED = {"frame", "lath over block", "old plaster, hollow", *(b for b in BASES if "untried" in b or "let go" in b)}
FINISHES = get_args(Finish)


def answered(shape, base, finish):
    answers = darby.answer(loads(HEAD + shape.format(base=BASES[base], finish=finish), firm=FIRM))
    assert answers.unanswered() == {}
    assert answers.of("price").complete, answers.of("price").lacks
    return answers


def chosen(answers):
    return answers.of("coats", "it").zones[0][1].chosen


@pytest.mark.parametrize("finish", FINISHES)
@pytest.mark.parametrize("base", BASES)
def test_every_base_under_every_finish(base, finish):
    answers = answered(WALL, base, finish)
    option = chosen(answers)
    assert (option.lath is not None) == (base in LATHED)
    items = {line.item for line in answers.of("order").lines}
    assert ("lath" in items) == (base in LATHED)
    if base not in LATHED:
        keys = [a.name for c in answers.of("volumes", "it").coats for a in c.allowances]
        assert "keys" not in keys
        assert ("joints" in keys) == ("struck" in BASES[base])
        assert not items & {"paper", "lath fasteners", "masonry lath fasteners", "weep screed"}
    framed = 'base = "frame"' in BASES[base] or 'behind = "frame"' in BASES[base]
    if base in LATHED:
        assert ("lath fasteners" in items) == framed
        assert ("paper" in items) == framed
    assert (option.coat("finish") is None) == (finish == "none")


@pytest.mark.parametrize("finish", ["float", "wet dash"])
@pytest.mark.parametrize("base", ["frame", "concrete", "block", "soft brick", "painted plaster, held"])
def test_soffits(base, finish):
    option = chosen(answered(SOFFIT, base, finish))
    if base == "frame":
        assert option.lath is not None
    elif finish == "float":
        assert float(option.nominal.value) == pytest.approx(0.375 * 0.0254)


@pytest.mark.parametrize("base", BASES)
def test_a_skim_that_cannot_bury_a_dash_gets_its_bonding_agent(base):
    answers = answered(WALL, base, "float")
    if answers.of("coats", "it").zones[0][1].option("heavy-skim") is None:
        return
    on = '[[coats.on]]\nsurface = "it"\nchoose = "heavy-skim"\nsuction = "low"\n'
    text = HEAD + WALL.format(base=BASES[base], finish="float") + on
    items = {line.item for line in darby.answer(loads(text, firm=FIRM)).of("order").lines}
    assert "bonding agent" in items


@pytest.mark.parametrize("language", LANGUAGES)
def test_whatever_is_said_can_be_said(language):
    for base in BASES:
        for note in answered(WALL, base, "pebble").notes:
            assert "{" not in say(note.code, note.values, language)
