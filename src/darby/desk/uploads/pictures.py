"""A photograph as it is kept: looked at by another process, which is stopped when it takes too long, and written anew.

What is kept is only the pixels, turned the right way up: no place, no owner's name, no second file hidden behind the
first. When it was taken is read before it goes.
"""

from __future__ import annotations

import io
import json
import subprocess
import sys
import warnings
from dataclasses import dataclass
from datetime import datetime

from darby.desk.uploads.limits import BYTES, LONGEST, PIXELS, SECONDS, Refused

KINDS = ("JPEG", "PNG", "WEBP")
TAKEN = 36867
"""DateTimeOriginal (Exif 2.32, table 8)."""
CAMERA = 0x8769
"""Where the camera's own entries begin (Exif IFD)."""
QUALITY = 88


@dataclass(frozen=True, slots=True)
class Picture:
    """Bytes of a JPEG, its size in pixels, and when it was taken if the camera said."""

    data: bytes
    width: int
    height: int
    taken: datetime | None

    kind = "image/jpeg"


def picture(handed_in: bytes, *, seconds: float = SECONDS) -> Picture:
    """The photograph as it is kept.

    Raises
    ------
    Refused
        too-large, empty, no-picture (another kind, or damaged), too-many-pixels, too-slow.
    """
    if not handed_in:
        raise Refused("empty")
    if len(handed_in) > BYTES:
        raise Refused("too-large", found=len(handed_in) // 2**20, most=BYTES // 2**20)
    try:
        looked = subprocess.run(
            [sys.executable, "-I", "-m", __name__], input=handed_in, capture_output=True, timeout=seconds, check=False
        )
    except subprocess.TimeoutExpired:
        raise Refused("too-slow") from None
    head, _, data = looked.stdout.partition(b"\n")
    if looked.returncode != 0 or not head:
        raise Refused("no-picture")
    said = json.loads(head)
    if "refused" in said:
        raise Refused(said.pop("refused"), **said)
    taken = datetime.fromisoformat(said["taken"]) if said["taken"] else None
    return Picture(data, said["width"], said["height"], taken)


def look(handed_in: bytes) -> tuple[dict[str, object], bytes]:
    """In the other process: what was found, and the picture written anew."""
    from PIL import Image, ImageOps

    Image.MAX_IMAGE_PIXELS = PIXELS
    warnings.simplefilter("error", Image.DecompressionBombWarning)
    try:
        with Image.open(io.BytesIO(handed_in), formats=KINDS) as shown:
            taken = _taken(shown.getexif().get_ifd(CAMERA).get(TAKEN))
            shown.draft("RGB", (LONGEST, LONGEST))
            upright = ImageOps.exif_transpose(shown).convert("RGB")
            upright.thumbnail((LONGEST, LONGEST))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        return {"refused": "too-many-pixels", "most": PIXELS // 1_000_000}, b""
    except Exception:  # a damaged file may fail in any way that a decoder can
        return {"refused": "no-picture"}, b""
    out = io.BytesIO()
    upright.save(out, "JPEG", quality=QUALITY, optimize=True)
    return {"width": upright.width, "height": upright.height, "taken": taken}, out.getvalue()


def _taken(written: object) -> str | None:
    try:
        return datetime.strptime(str(written), "%Y:%m:%d %H:%M:%S").isoformat()
    except ValueError:
        return None


if __name__ == "__main__":
    found, again = look(sys.stdin.buffer.read(BYTES + 1))
    sys.stdout.buffer.write(json.dumps(found).encode() + b"\n" + again)
