"""What the photograph's page shows: the pictures of the job, one of them with its marks, and what they say."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from uuid import uuid4

from django.http import HttpRequest

from darby.desk.doors import person_of
from darby.desk.forms import fault_text
from darby.desk.kept.models import Entry
from darby.desk.photographed.confirming import KINDS, entry_of, said, takes_openings
from darby.desk.photographed.sheet import CONFIRMED, KIND, Frame, Line, Mark, Sheet, kept
from darby.desk.photographed.shot import drawn, letter
from darby.desk.photographed.worked import SIZES, Worked, work
from darby.desk.speaking import said_in
from darby.measure import number
from darby.words import surface_called

if TYPE_CHECKING:
    from darby.desk.reading import Read
    from darby.measure.surface import Surface
    from darby.tables.setting import Setting

FEWEST = 4
"""Known points that make a photograph straight, and of which none checks another."""
LOUPE = 84
"""Picture [px] in the magnified part; it stands twice as large."""


@dataclass(frozen=True, slots=True)
class Photo:
    """A photograph of the job's log and its size [px]."""

    entry: Entry
    width: int
    height: int

    @property
    def sha(self) -> str:
        """The hash of its bytes, by which everything else calls it."""
        return str(self.entry.photograph_id)

    @property
    def size(self) -> tuple[int, int]:
        """Width and height [px]."""
        return self.width, self.height


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a list with what is said of it: ``wrong`` or what was found."""

    number: str
    row: Mark | Frame | Line
    said: str = ""
    wrong: bool = False
    corners: tuple[tuple[int, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Opening:
    """An opening as the photograph shows it: its numbers, and how the job file stands to them."""

    n: int
    letter: str
    sizes: tuple[tuple[str, str, str], ...]
    stands: str
    was: str
    kind: str
    name: str
    askew: str


@dataclass(frozen=True, slots=True)
class Sent:
    """What a view hands to the page: the sheet as it was sent and not kept; what could not be confirmed, and why."""

    sha: str
    sheet: Sheet | None = None
    refused: tuple[int, tuple[str, ...]] | None = None
    form: dict[str, Any] | None = None


def photos(document: str) -> list[Photo]:
    """The photographs of a job, each once, newest first."""
    found: dict[str, Photo] = {}
    entries = Entry.objects.filter(document=document, photograph__isnull=False).order_by("-made", "-when")
    for entry in entries.select_related("who"):
        size = str(entry.said.get("size", "")).split(" x ")
        if len(size) == 2 and all(side.isdigit() for side in size):  # one kept without its size cannot be marked
            found.setdefault(str(entry.photograph_id), Photo(entry, int(size[0]), int(size[1])))
    return list(found.values())


def newest(document: str, kind: str, sha: str) -> list[Entry]:
    """Lines of the log at a photograph, newest first (by when they came in)."""
    return list(Entry.objects.filter(document=document, kind=kind, at=sha).order_by("-when"))


def surface_of(read: Read, sheet: Sheet | None, photo: Photo) -> Surface | None:
    """The wall that the photograph shows: as the sheet says, else as it was handed in, else the first."""
    surfaces = read.job.surfaces if read.job is not None else ()
    wanted = (sheet.surface if sheet is not None else "", photo.entry.at)
    return next((s for id in wanted for s in surfaces if s.id == id), surfaces[0] if surfaces else None)


def more(request: HttpRequest, read: Read) -> dict[str, Any]:
    """The photographs; of the one that was asked for (``?photo=``) its marks and numbers."""
    setting = said_in(request)
    sent: Sent | None = getattr(request, "photograph", None)
    all_ = photos(read.id)
    sha = sent.sha if sent is not None else request.GET.get("photo", "")
    photo = next((p for p in all_ if p.sha == sha), all_[0] if all_ else None)
    surfaces = read.job.surfaces if read.job is not None else ()
    context: dict[str, Any] = {
        "photos": all_,
        "photo": photo,
        "photo_id": uuid4(),
        "surfaces": [(s.id, surface_called(s, setting.language)) for s in surfaces],
    }
    if photo is None:
        return context
    lines = newest(read.id, KIND, photo.sha)
    stands = kept(lines[0].said) if lines else Sheet()
    sheet = sent.sheet if sent is not None and sent.sheet is not None else stands
    surface = surface_of(read, sheet, photo)
    worked = work(sheet, photo.size, surface, setting.system)
    roomy = sheet.with_room()
    fault = worked.faults.get("marks")
    return context | {
        "sub": setting.say("desk.photograph.sub"),
        "surface": surface,
        "over": drawn(worked, photo.size, surface),
        "loupe": LOUPE,
        "marks": [_mark(n, mark, worked, setting) for n, mark in enumerate(roomy.marks)],
        "frames": [_row(f"frame {n}", letter(n), one, worked, setting) for n, one in enumerate(roomy.frames)],
        "lengths": [_length(n, one, worked, setting) for n, one in enumerate(roomy.lines)],
        "refusal": fault_text(fault, setting) if fault is not None else "",
        "straight": worked.straight is not None,
        "share": f"{number(100 * worked.straight.share)}\u00a0%" if worked.straight and worked.straight.share else "",
        "jog": number(worked.jog),
        "rough": bool(sheet.jog),
        "few": worked.straight is not None and not worked.straight.lens_from_marks,
        "openings": _openings(read, photo, sheet, worked, surface),
        "refused_at": sent.refused[0] if sent is not None and sent.refused and sent.refused[0] in worked.frames else -1,
        "unkept": sheet.said() != stands.said() if sheet is not stands else False,
        "sheet_id": lines[0].id if lines else "",
        "may_confirm": person_of(request).is_owner,
        "takes": surface is not None and takes_openings(read.tables, surface.id),
        "kinds": KINDS,
        "confirm_id": uuid4(),
        "keep_id": uuid4(),
        "refused": sent.refused if sent is not None else None,
        "sent": sent.form if sent is not None else None,
        "all_sizes": SIZES,
    }


def _mark(n: int, mark: Mark, worked: Worked, setting: Setting) -> Row:
    row = _row(f"mark {n}", str(n + 1), mark, worked, setting)
    if row.wrong or n not in worked.misses or len(worked.misses) == FEWEST:  # four agree whatever they say
        return row
    off = setting.say("desk.photograph.misses", pixels=number(worked.misses[n], 1))
    return Row(row.number, mark, off)


def _length(n: int, line: Line, worked: Worked, setting: Setting) -> Row:
    row = _row(f"line {n}", str(n + 1), line, worked, setting)
    told = worked.lines.get(n)
    if row.wrong or told is None:
        return row
    return Row(row.number, line, f"{told.text} ± {told.give_text}")


def _row(at: str, called: str, row: Mark | Frame | Line, worked: Worked, setting: Setting) -> Row:
    fault = worked.faults.get(at)
    corners = tuple(enumerate(row.corners, 1)) if isinstance(row, Frame) else ()
    return Row(called, row, fault_text(fault, setting) if fault is not None else "", fault is not None, corners)


def _openings(read: Read, photo: Photo, sheet: Sheet, worked: Worked, surface: Surface | None) -> list[Opening]:
    lines = newest(read.id, CONFIRMED, photo.sha)
    found = []
    for n, told in worked.frames.items():
        line = next((e for e in lines if e.said.get("key") == sheet.frames[n].key), None)
        entry = None
        if line is not None and surface is not None and line.said.get("surface") == surface.id:
            entry = entry_of(read.tables, surface.id, str(line.said.get("opening")))
        same = entry is not None and all(entry.get(key) == text for key, text in said(told).items())
        askew = worked.askew.get(n)
        found.append(
            Opening(
                n=n,
                letter=letter(n),
                sizes=tuple((name, told[name].text, told[name].give_text) for name in SIZES),
                stands=str(entry.get("name") or entry.get("id")) if entry is not None and same else "",
                was=", ".join(str(entry.get(k, "")) for k in said(told)) if entry is not None and not same else "",
                kind=str(entry.get("kind", "")) if entry is not None else "",
                name=str(entry.get("name", "")) if entry is not None else "",
                askew=askew.text if askew is not None else "",
            )
        )
    return found
