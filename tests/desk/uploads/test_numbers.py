"""Numbers and moments that a form or a phone says: whatever it is, it is read or refused."""

from __future__ import annotations

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from darby.desk.kept.signs import odd, odd_signs
from darby.desk.uploads import Refused, moment, number, whole


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("7", 7),
        ("0", 0),
        ("٣", 3),
        ("²", None),
        ("-1", None),
        ("", None),
        (" 7", None),
        ("9" * 10, None),
        ("1.5", None),
    ],
)
def test_a_whole_number(text: str, read: int | None) -> None:
    assert number(text) == read
    assert whole({"base": text}, "base", -1) == (-1 if read is None else read)


@given(st.text())
def test_no_text_is_an_error(text: str) -> None:
    found = number(text)
    assert found is None or found >= 0


def test_a_moment_with_its_zone() -> None:
    said = moment("2026-05-04T07:30:00-05:00")
    assert said is not None
    assert said.utcoffset() == timedelta(hours=-5)
    assert moment("2026-05-04T12:30:00.000Z") == said
    assert moment("") is None
    assert moment(None) is None


@pytest.mark.parametrize(
    "written",
    [
        "yesterday", "0000-01-01T00:00:00Z", "0001-01-01T00:00:00+14:00", "1970-01-01T00:00:00Z",
        "2026-13-01T00:00:00Z", "9999-12-31T23:59:59-12:00", "9999-12-31T23:59:59Z", "2999-01-01T00:00:00Z",
        "2026-05-04T07:30:00", "2026-05-04", "2026-05-04T07:30:00+99:00", 7, ["2026-05-04T07:30:00Z"], {"a": 1}, "\x00",
    ],
)  # fmt: skip
def test_a_moment_of_no_clock_is_refused(written: object) -> None:
    with pytest.raises(Refused) as refused:
        moment(written)
    assert refused.value.code == "desk.refused.made"
    assert len(str(refused.value.values["found"])) <= 40


@pytest.mark.parametrize("sign", ["\x00", "\x07", "\x1b", "\x7f", "\x85", "\ud800"])
def test_a_sign_that_nobody_writes(sign: str) -> None:
    assert odd(f"a{sign}b") == f"U+{ord(sign):04X}"
    assert list(odd_signs({"a": ["x", {"b": sign}]})) == [(("a", 1, "b"), f"U+{ord(sign):04X}")]
    assert list(odd_signs({sign: 1}))


def test_what_people_write_is_kept() -> None:
    for text in ("", "two\nlines\r\n\tin", "año, 3/8″ – “so”", "\N{BRICK}", "e\u0301", "\u200d"):
        assert odd(text) == ""
