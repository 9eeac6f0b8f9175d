"""Reading a PDF back: its words, where every letter stands, how large it is, and where there is ink."""

from __future__ import annotations

import ctypes
from dataclasses import dataclass

import pypdfium2
import pypdfium2.raw as raw
import shapely
from shapely import STRtree


@dataclass(frozen=True, slots=True)
class Letter:
    """One letter: its character, its box in points (left, low, right, high), and its size in points."""

    text: str
    box: tuple[float, float, float, float]
    size: float
    place: int


def letters(page: pypdfium2.PdfPage) -> list[Letter]:
    text = page.get_textpage()
    found = []
    for i in range(text.count_chars()):
        char = chr(raw.FPDFText_GetUnicode(text, i))
        if raw.FPDFText_IsGenerated(text, i) or char.isspace():
            continue
        matrix = raw.FS_MATRIX()
        raw.FPDFText_GetMatrix(text, i, ctypes.byref(matrix))
        scale = abs(matrix.a * matrix.d - matrix.b * matrix.c) ** 0.5
        found.append(Letter(char, text.get_charbox(i), raw.FPDFText_GetFontSize(text, i) * scale, i))
    return found


def overlaps(page: pypdfium2.PdfPage, share: float = 0.12) -> list[str]:
    """Letters that stand on others by more than ``share`` of the smaller; neighbours in a word may kern."""
    kept = [x for x in letters(page) if x.box[2] > x.box[0] and x.box[3] > x.box[1]]
    boxes = shapely.box(*zip(*(x.box for x in kept), strict=True)) if kept else []
    said = []
    for i, j in STRtree(boxes).query(boxes).T if kept else ():
        one, other = kept[i], kept[j]
        if i >= j or abs(one.place - other.place) <= 3:
            continue
        common = shapely.intersection(boxes[i], boxes[j]).area
        if common > share * min(boxes[i].area, boxes[j].area):
            said.append(f"{one.text!r} at {one.box} on {other.text!r} at {other.box}")
    return said


def ink(page: pypdfium2.PdfPage, scale: float = 1.5) -> tuple[float, float, float, float]:
    """How far the ink keeps from the page's edges [pt]: left, bottom, right, top."""
    image = page.render(scale=scale, grayscale=True).to_pil().convert("L")
    box = image.point(lambda p: 255 if p < 250 else 0).getbbox()
    if box is None:
        return image.width / scale, image.height / scale, image.width / scale, image.height / scale
    left, top, right, bottom = (edge / scale for edge in box)
    return left, image.height / scale - bottom, image.width / scale - right, top
