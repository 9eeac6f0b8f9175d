"""The quote as pictures, so that it is read before it is sent; and the list of all papers, which takes long."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from darby.desk import made
from darby.desk.kept import saving
from darby.desk.quoting.frozen import quote_paper

if TYPE_CHECKING:
    from darby.desk.reading import Read

DOTS = 110.0
"""Dots to the inch of a sheet that is looked at: 8.5 in. are 935 px, wider than the page on a laptop."""


def picture_of(read: Read, number: int) -> bytes | None:
    """Sheet ``number`` of the quote as PNG, from 1; None if it has none."""
    if not 0 < number <= how_many(read):
        return None
    kept = made.read(made.place_of("sheet", *_texts(read), str(number)))
    return kept if kept is not None else _set(read)[number - 1]


def how_many(read: Read) -> int:
    """The sheets of the quote; 0 where there is none."""
    kept = made.read(made.place_of("sheets", *_texts(read)))
    return int(kept) if kept is not None else len(_set(read))


def _set(read: Read) -> list[bytes]:
    from darby.papers.render import sheets

    paper = quote_paper(read.answers) if read.answers is not None else None
    pictures = sheets(paper, DOTS) if paper is not None else []
    for number, picture in enumerate(pictures, 1):
        made.write(made.place_of("sheet", *_texts(read), str(number)), picture)
    made.write(made.place_of("sheets", *_texts(read)), str(len(pictures)).encode())
    return pictures


def paper_names(read: Read) -> list[str]:
    """The file names of all papers; they are set when they are opened."""
    from darby.papers import each_paper
    from darby.papers.filled.drawn_walls import drawn_names

    if read.answers is None:
        return []
    place = made.place_of("papers", *_texts(read))
    kept = made.read(place)
    if kept is not None:
        return [str(name) for name in json.loads(kept)]
    names = [*(name for name, _ in each_paper(read.answers)), *drawn_names(read.answers)]
    made.write(place, json.dumps(names).encode())
    return names


def _texts(read: Read) -> tuple[str, str, str]:
    return read.id, read.revision.text, saving.firm_text() or ""
