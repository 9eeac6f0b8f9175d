"""A document written again keeps what its writer wrote: only what changed is another, and it reads as it was wanted."""

from __future__ import annotations

import re
import tomllib
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.job.alike import same
from darby.job.rewriting import _tried, rewritten
from darby.job.saving import dump
from darby.job.writing import blocks, is_blocks, line, name, written

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
ODD = '''
# what stands before everything
darby = 1     # the first line
"a key" = 'single # no remark'
dotted.one = 1
dotted.two.three = "x"   # dots
many = """
# no remark
[not.a.header]
a \\" and \\\\ and ""two"" """
lines = \'\'\'
 as # it is \'\'\'

  [ spaced . out ]   # a header with a remark
  inner = [ 1, # one
    2 ,
    # alone
    3 # three, no comma behind
  ]
  at = 1979-05-27 07:32:00   # a moment with a blank
  far = inf
  yes = true
[spaced.out.below]
t = { a = 1, "b c" = [ { d = 2 }, "}" ], e.f = 3 }

# right above the first
[[row]] # first
id = "one"
# inside
[row.sub]
k = "v"
[[row.more]]
m = 1

[[other]]
o = 1

[[row]]
id = "two"
# the end, with no line end'''


def leaves(value, way=()):
    """Ways to all that is neither table nor list."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from leaves(inner, (*way, key))
    elif isinstance(value, list):
        for n, inner in enumerate(value):
            yield from leaves(inner, (*way, n))
    else:
        yield way


def some(ways):
    """Every third: a table's keys are much alike."""
    found = sorted(ways, key=str)
    return found if len(found) < 40 else found[::3]


def changed(value, way, to):
    if not way:
        return to
    step, *rest = way
    if isinstance(value, dict):
        return {k: changed(v, rest, to) if k == step else v for k, v in value.items()}
    return [changed(v, rest, to) if n == step else v for n, v in enumerate(value)]


def without(value, way):
    step, *rest = way
    if isinstance(value, dict):
        return {k: without(v, rest) if rest and k == step else v for k, v in value.items() if rest or k != step}
    return [without(v, rest) if rest and n == step else v for n, v in enumerate(value) if rest or n != step]


def remarks(text):
    """What is written behind a ``#``, as far as the odd text goes: a line, or the end of one."""
    return [row[row.rindex("#") :] for row in text.split("\n") if "#" in row]


SIGNS = ("a key", "many", "lines")
"""Of the odd text: what holds a sign of a remark and is none."""
MORE = ("text", ["a", "b"], {"deep": {"er": 1}}, [{"id": "x"}, {"id": "y"}])
TEXTS = {**{path.stem: path.read_text() for path in EXAMPLES}, "odd": ODD}


@pytest.mark.parametrize("called", TEXTS)
def test_what_did_not_change_is_the_same_text(called):
    text = TEXTS[called]
    assert rewritten(text, tomllib.loads(text)) == text


@pytest.mark.parametrize("called", TEXTS)
def test_each_value_alone_changes_only_its_own_line(called):
    text = TEXTS[called]
    document = tomllib.loads(text)
    for way in some(leaves(document)):
        wanted = changed(document, way, "another")
        found = rewritten(text, wanted)
        assert same(tomllib.loads(found), wanted), way
        assert way[0] in SIGNS or remarks(found) == remarks(text), way
        old, new = text.split("\n"), found.split("\n")
        if len(old) == len(new):
            assert sum(a != b for a, b in zip(old, new, strict=True)) == 1, way
        else:
            assert called == "odd", way
            assert way[0] in SIGNS, way


@pytest.mark.parametrize("called", TEXTS)
def test_each_value_taken_out_takes_no_other_line_with_it(called):
    text = TEXTS[called]
    document = tomllib.loads(text)
    for way in some(leaves(document)):
        wanted = without(document, way)
        found = rewritten(text, wanted)
        assert same(tomllib.loads(found), wanted), way
        old = text.split("\n")
        gone = [row for row in old if row not in set(found.split("\n"))]
        assert len(gone) <= (4 if way[0] in (*SIGNS, "dotted") else 1), (way, gone)


@pytest.mark.parametrize("called", TEXTS)
def test_each_table_may_get_a_key_more(called):
    text = TEXTS[called]
    document = tomllib.loads(text)
    for way in some({leaf[:n] for leaf in leaves(document) for n in range(len(leaf))}):
        value = document
        for step in way:
            value = value[step]
        of_tables = isinstance(value, list) and all(isinstance(row, dict) for row in value)
        for more in MORE[2:3] if of_tables else MORE:
            wanted = changed(document, way, {**value, "new key": more} if isinstance(value, dict) else [*value, more])
            found = rewritten(text, wanted)
            assert same(tomllib.loads(found), wanted), (way, more)
            if called != "odd":
                assert remarks(found) == remarks(text), (way, more)


def test_it_stays_where_it_was_in_the_list():
    text = 'x = [\n  "a",  # of a\n  "b",  # of b\n  "c"   # of c\n]\n'
    assert rewritten(text, {"x": ["a", "c", "d"]}) == 'x = [\n  "a",  # of a\n  "c",   # of c\n  "d",\n]\n'
    assert rewritten(text, {"x": ["n", "b", "c2"]}) == 'x = [\n  "n",  # of a\n  "b",  # of b\n  "c2"   # of c\n]\n'
    assert rewritten('x = ["a", "b"]  # r\n', {"x": ["b"]}) == 'x = ["b"]  # r\n'
    assert rewritten('x = ["a", "b", "c"]\n', {"x": ["a"]}) == 'x = ["a"]\n'


def test_a_remark_stays_in_its_column():
    text = 'a = "dense"      # one\nb = "struck"     # other\n'
    wanted = {"a": "lightweight", "b": "struck"}
    assert rewritten(text, wanted) == 'a = "lightweight"  # one\nb = "struck"     # other\n'
    assert rewritten(text, {**wanted, "a": "x"}) == 'a = "x"          # one\nb = "struck"     # other\n'


def test_the_head_of_what_follows_stays_when_a_table_goes():
    text = '[[w]]\nid = "a"\n\n# its own\n[[w]]\nid = "b"\n\n# --- money ---\n\n[price]\nq = 1\n'
    assert rewritten(text, {"w": [{"id": "a"}], "price": {"q": 1}}) == (
        '[[w]]\nid = "a"\n\n# --- money ---\n\n[price]\nq = 1\n'
    )


def test_a_new_table_of_a_list_stands_behind_those_before_it():
    text = '[[w]]\nid = "a"\n\n# --- money ---\n\n[price]\nq = 1\n'
    wanted = {"w": [{"id": "a"}, {"id": "b"}], "price": {"q": 1}}
    assert rewritten(text, wanted) == (
        '[[w]]\nid = "a"\n\n[[w]]\nid = "b"\n\n# --- money ---\n\n[price]\nq = 1\n'
    )  # fmt: skip


# --- whatever the document -----------------------------------------------------------------------------


def _once(moment):
    """Of an hour that comes twice, the first: TOML does not say which."""
    return moment.replace(fold=0)


TEXT = st.one_of(st.sampled_from(["", "a # b", 'say "x"', "it's", "\\", "two\nlines", "[x]", "ñ"]), st.text(max_size=4))
LEAF = st.one_of(
    TEXT.filter(lambda t: all(c.isprintable() or c == "\n" for c in t)), st.integers(-5, 5), st.booleans(),
    st.floats(allow_nan=True), st.dates(date(1000, 1, 1)), st.times().map(_once), st.datetimes().map(_once),
)  # fmt: skip
KEY = st.sampled_from(["a", "b-c", "d e", "f.g", "id", "ñ"])
VALUE = st.recursive(
    LEAF,
    lambda inner: (
        st.dictionaries(KEY, inner, max_size=3)
        | st.lists(inner, max_size=4)
        | st.lists(st.dictionaries(KEY, inner, max_size=3), max_size=3)
    ),
    max_leaves=10,
)
DOCUMENT = st.dictionaries(KEY, VALUE, max_size=5)


@st.composite
def as_written(draw, document):
    """The document as one or the other might write it, with remarks."""
    made = []
    rest = dict(document)
    for key in [k for k in document if not is_blocks(document[k]) or draw(st.booleans())]:
        value = rest.pop(key)
        made.append(draw(_a_line(key, value)))
    for key, value in rest.items():
        made.append(blocks((key,), value))
    return "".join(f"{draw(REMARK)}{one}" for one in made) + draw(REMARK)


OURS = re.compile(r"# (?:a remark|--- head|\"odd|behind|of it)")
REMARK = st.sampled_from(["", "\n", "# a remark\n", "\n# --- head [x] ---\n\n", "  # \"odd' = {\n"])


@st.composite
def _a_line(draw, key, value):
    if isinstance(value, list) and draw(st.booleans()):
        rows = "".join(f"{draw(REMARK)}  {written(row)},{draw(st.sampled_from(['', '  # of it']))}\n" for row in value)
        return f"{name(key)} = [\n{rows}]\n"
    return draw(st.sampled_from([line(key, value), line(key, value).rstrip("\n") + "   # behind\n"]))


@given(st.data())
def test_it_reads_as_it_was_wanted(data):
    before = data.draw(DOCUMENT)
    text = data.draw(as_written(before))
    assert same(tomllib.loads(text), before)
    wanted = data.draw(DOCUMENT | _edited(before))
    assert same(tomllib.loads(rewritten(text, wanted)), wanted)


@given(st.data())
def test_a_plain_value_that_changed_needs_no_writing_anew(data):
    before = data.draw(DOCUMENT.filter(lambda d: any(leaves(d))))
    text = data.draw(as_written(before))
    wanted = changed(before, data.draw(st.sampled_from(list(leaves(before)))), data.draw(LEAF))
    found = _tried(text, tomllib.loads(text), wanted)
    assert found is not None
    assert OURS.findall(found) == OURS.findall(text)


def _edited(document):
    ways = [way for way in leaves(document) if way]
    if not ways:
        return st.just(document)
    one = st.sampled_from(ways)
    return one.map(lambda way: without(document, way)) | st.tuples(one, VALUE).map(
        lambda pair: changed(document, *pair)
    )


def test_what_cannot_be_changed_in_place_is_written_anew():
    text = "a.b = 1  # dots\nc = 2\n"
    wanted = {"a": {"b": 1, "d": [{"e": 1}]}, "c": 2}
    assert same(tomllib.loads(rewritten(text, wanted)), wanted)
    assert same(tomllib.loads(rewritten(text, {"z": [[{}]]})), {"z": [[{}]]})
    assert dump({"c": 2}).strip() == rewritten("c = 1", {"c": 2}).strip()


def test_line_ends_of_another_system_are_read():
    assert rewritten("a = 1\r\nb = 2\r\n", {"a": 1, "b": 3}) == "a = 1\nb = 3\n"
