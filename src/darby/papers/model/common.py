"""What every paper has: the firm, the stamp, drawings, cautions, words in two languages."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Both:
    """The same words in the sheet's first language and in its second ("" = the sheet has one language)."""

    first: str
    second: str = ""


EMPTY = Both("")
"""Nothing to say."""


@dataclass(frozen=True, slots=True)
class Firm:
    """Who the paper is from: name, what the firm does, address, further lines (telephone, licence)."""

    name: str
    line: str = ""
    address: str = ""
    more: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Stamp:
    """What every page says at its foot, and when the paper was made.

    Parameters
    ----------
    job, number
        the job's name and number.
    revision, job_hash, book, made_with
        revision of the document, its hash, version of the rule book, version of darby.
    date
        the job's day as it is printed.
    seconds
        the same day in seconds since 1970, for the PDF's date: the same job is the same file.
    invented
        whether every page says that the job is invented.
    """

    job: str
    number: str
    revision: str
    job_hash: str
    book: str
    made_with: str
    date: str
    seconds: int
    invented: bool = False


@dataclass(frozen=True, slots=True)
class KeyItem:
    """One entry of a drawing's key: a swatch (SVG) and what it means."""

    svg: str
    text: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing as SVG in points, placed at its own size. ``alt`` says in words what it shows."""

    svg: str
    alt: str
    caption: str = ""
    key: tuple[KeyItem, ...] = ()


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut through the wall with the words beside it."""

    picture: Picture
    opening: str
    text: str


@dataclass(frozen=True, slots=True)
class Caution:
    """A bold opening of two to five words, then one or two sentences."""

    opening: str
    text: str


@dataclass(frozen=True, slots=True)
class BothCaution:
    """A caution in both languages."""

    opening: Both
    text: Both
