"""Photographs handed in: whole ones, bombs, scripts and other things that are no photograph."""

from __future__ import annotations

import io
import random
import struct
import zipfile
import zlib
from datetime import datetime

import pytest
from PIL import Image

from darby.desk.uploads import Refused, picture
from darby.desk.uploads.limits import BYTES, LONGEST


def _written(kind: str, size: tuple[int, int] = (640, 480), **more: object) -> bytes:
    out = io.BytesIO()
    Image.linear_gradient("L").resize(size).convert("RGB").save(out, kind, **more)
    return out.getvalue()


def _png(width: int, height: int, rows: bytes) -> bytes:
    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(rows, 9)) + chunk(b"IEND", b"")


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_photograph_is_kept_as_a_jpeg(kind: str) -> None:
    kept = picture(_written(kind))
    with Image.open(io.BytesIO(kept.data)) as again:
        assert (again.format, again.size) == ("JPEG", (640, 480)) == ("JPEG", (kept.width, kept.height))


def test_no_place_is_kept_and_the_day_is_read() -> None:
    exif = Image.Exif()
    exif.get_ifd(0x8769)[36867] = "2026:09:30 07:45:10"
    exif.get_ifd(0x8825)[2] = (47.0, 6.0, 0.0)
    exif[0x010F] = "Somebody's phone"
    handed_in = _written("JPEG", exif=exif)
    assert b"Somebody" in handed_in
    kept = picture(handed_in)
    assert kept.taken == datetime(2026, 9, 30, 7, 45, 10)
    assert b"Exif" not in kept.data and b"Somebody" not in kept.data


def test_it_is_turned_upright() -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    kept = picture(_written("JPEG", (640, 480), exif=exif))
    assert (kept.width, kept.height) == (480, 640)


def test_a_large_one_is_kept_smaller() -> None:
    kept = picture(_written("JPEG", (6000, 3000)))
    assert (kept.width, kept.height) == (LONGEST, LONGEST // 2)


def test_nothing_hidden_behind_it_is_kept() -> None:
    hidden = io.BytesIO()
    with zipfile.ZipFile(hidden, "w") as z:
        z.writestr("run.sh", "echo hidden")
    kept = picture(_written("JPEG") + hidden.getvalue())
    assert b"run.sh" not in kept.data


SCRIPT = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
ZIPPED = zlib.compress(bytes(10_000_000), 9)


@pytest.mark.parametrize(
    ("handed_in", "code"),
    [
        (b"", "empty"),
        (b"\xff\xd8" + bytes(BYTES), "too-large"),
        (SCRIPT, "no-picture"),
        (b"<!doctype html><script>alert(1)</script>", "no-picture"),
        (b"GIF89a" + bytes(100), "no-picture"),
        (b"%PDF-1.7\n", "no-picture"),
        (b"PK\x03\x04" + ZIPPED, "no-picture"),
        (_written("JPEG")[:900], "no-picture"),
        (_png(60_000, 60_000, bytes(1000)), "too-many-pixels"),
        (_png(10_000, 7_000, bytes(7_000 * 10_001)), "too-many-pixels"),
        (b"\x89PNG\r\n\x1a\n" + b"\x00" * 40, "no-picture"),
    ],
    ids=["empty", "large", "svg", "html", "gif", "pdf", "zip", "cut", "bomb", "bomb-2", "headless"],
)
def test_what_is_no_photograph_is_refused(handed_in: bytes, code: str) -> None:
    with pytest.raises(Refused) as refused:
        picture(handed_in)
    assert refused.value.code == f"desk.refused.{code}"


def test_damaged_ones_are_kept_or_refused_and_nothing_else() -> None:
    whole, chance = _written("JPEG"), random.Random(5)
    for _ in range(10):
        hurt = bytearray(whole)
        for _ in range(20):
            hurt[chance.randrange(len(hurt))] = chance.randrange(256)
        try:
            assert picture(bytes(hurt)).data.startswith(b"\xff\xd8")
        except Refused as refused:
            assert refused.code in ("desk.refused.no-picture", "desk.refused.too-many-pixels")


def test_what_takes_too_long_is_stopped() -> None:
    with pytest.raises(Refused, match="too-slow"):
        picture(_written("JPEG"), seconds=0.01)
