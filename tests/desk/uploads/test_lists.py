"""Parcels of log lines: what is no list, too much or too deep is refused before anything looks into it."""

from __future__ import annotations

import json

import pytest

from darby.desk.uploads import Refused, lines_of
from darby.desk.uploads.limits import LINES, LIST_BYTES


def test_a_parcel_is_read() -> None:
    assert lines_of(b'{"lines": [{"kind": "note", "said": {"text": "damp"}}]}') == [
        {"kind": "note", "said": {"text": "damp"}}
    ]


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (b"", "no-list"),
        (b"\xff\xfe", "no-list"),
        (b"[]", "no-list"),
        (b'{"lines": {}}', "no-list"),
        (b'{"lines": [1]}', "no-list"),
        (b'{"lines": [{"at": NaN}]}', "no-list"),
        (b'{"lines": [{"at": Infinity}]}', "no-list"),
        (b"[" * 500_000 + b"]" * 500_000, "no-list"),
        (b'{"lines": [{"a": ' + b"9" * 100_000 + b"}]}", "no-list"),
        (json.dumps({"lines": [{}] * (LINES + 1)}).encode(), "too-many"),
        (b'{"lines": [{"a":' + b'{"a":' * 20 + b"1" + b"}" * 20 + b"}]}", "too-deep"),
        (b'{"lines": [{"a": "' + b"x" * LIST_BYTES + b'"}]}', "too-large"),
    ],
    ids=["empty", "bytes", "array", "table", "number", "nan", "inf", "nested", "digits", "many", "deep", "large"],
)
def test_what_is_no_parcel_is_refused(body: bytes, code: str) -> None:
    with pytest.raises(Refused) as refused:
        lines_of(body)
    assert refused.value.code == f"desk.refused.{code}"
