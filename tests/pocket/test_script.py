"""The page holds no rule of its own: no figure stands in its script, and nothing is fetched."""

import re
from pathlib import Path

import pytest

import darby.pocket
from darby.pocket.asking import Asker
from darby.pocket.builds import Host
from darby.pocket.choices import KINDS
from darby.pocket.sheet import MOST_BYTES, scripts
from darby.pocket.takes import takes
from tests.answers.jobs import FIRM as FIRM_TEXT
from tests.pocket.conftest import FIRM, tables_of

SOURCE = Path(darby.pocket.__file__).parent / "page"
ALLOWED = {"0", "1", "2", "0n", "1n", "2n"}
TOKEN = re.compile(
    r"""
    (?P<comment>//[^\n]*|/\*.*?\*/)
  | (?P<string>"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')
  | (?P<name>[A-Za-z_$][\w$]*)
  | (?P<number>0[xXbBoO][\da-fA-F]+n?|(?:\d[\d_]*\.?[\d_]*|\.\d+)(?:[eE][+-]?\d+)?n?)
  | (?P<space>\s+)
  | (?P<mark>[^\s])
    """,
    re.VERBOSE | re.DOTALL,
)
BEFORE_PATTERN = set("(,=:[!&|?{};+-*%<>~^") | {"return", "typeof", "case", "=>"}


def tokens(text):
    """(kind, text) of everything outside comments, strings, templates' own text and patterns."""
    at, last = 0, ""
    depth = []  # of braces within templates
    while at < len(text):
        if text[at] == "`" or (text[at] == "}" and depth and depth[-1] == 0):
            if text[at] == "}":
                depth.pop()
            at, opened = template(text, at + 1)
            if opened:
                depth.append(0)
            last = "`"
            continue
        if text[at] == "/" and text[at + 1] not in "/*" and (last in BEFORE_PATTERN or not last):
            found = re.compile(r"/(?:\\.|\[(?:\\.|[^\]\\])*\]|[^/\\\n\[])+/[a-z]*").match(text, at)
            assert found, text[at : at + 40]
            at, last = found.end(), "/"
            continue
        found = TOKEN.match(text, at)
        kind, token = found.lastgroup, found[0]
        if depth and token == "{":
            depth[-1] += 1
        if depth and token == "}":
            depth[-1] -= 1
        if kind not in ("space", "comment"):
            last = token
            yield kind, token
        at = found.end()


def template(text, at):
    """To the end of a template, or to the next value within it."""
    while text[at] != "`":
        if text[at] == "\\":
            at += 1
        elif text.startswith("${", at):
            return at + 2, True
        at += 1
    return at + 1, False


def read(name):
    return (SOURCE / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("name", scripts())
def test_no_number_stands_in_the_script_but_nought_one_and_two(name):
    assert [token for kind, token in tokens(read(name)) if kind == "number" and token not in ALLOWED] == []


def test_the_scan_finds_numbers_where_they_hide():
    text = (
        'a = 5; b = x / 16; c = `${n * 7} 8 ${"9" + 1.5}`; d = /[0-9]{3}/.test(10n); // 11\ne = "12"; f = {g: 0x1f}; .5'
    )
    found = [token for kind, token in tokens(text) if kind == "number"]
    assert found == ["5", "16", "7", "1.5", "10n", "0x1f", ".5"]


def test_nothing_is_fetched_and_no_text_is_run():
    names = {token for name in scripts() for kind, token in tokens(read(name)) if kind == "name"}
    assert (
        names & {"fetch", "XMLHttpRequest", "WebSocket", "EventSource", "sendBeacon", "eval", "Function", "import"}
        == set()
    )
    assert names & {"innerHTML", "outerHTML", "insertAdjacentHTML"} == set()


def test_every_file_is_short_enough_to_read():
    assert all(len(read(name).splitlines()) < 500 for name in scripts())


def test_a_sheet_is_one_file_under_its_most(firm_sheet, lone_sheet):
    for sheet in (firm_sheet, lone_sheet):
        text = sheet.read_text(encoding="utf-8")
        assert len(text.encode()) < MOST_BYTES == 250_000
        assert (
            re.findall(r"""(?:src|href)\s*=\s*["'](?!#)|url\((?!#)|@import|https?://(?!www\.w3\.org/2000/svg)""", text)
            == []
        )
        assert "default-src 'none'" in text


def test_prices_are_in_it_only_if_they_were_asked_for(firm_tables, lone_sheet):
    assert 'price = "$16.80"' in FIRM_TEXT
    assert firm_tables["items"]["portland"]["price"] == "84/5"
    host = Host(tuple(next(KINDS[0].choices()).items()), "two-coat")
    items = takes(Asker(FIRM), [host], prices=False).items
    assert items["portland"]["holds"] == firm_tables["items"]["portland"]["holds"]
    assert all("price" not in item for item in items.values())
    assert tables_of(lone_sheet)["made"]["usual"] is None
