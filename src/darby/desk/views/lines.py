"""What a phone kept while there was no signal: lines of the log and photographs, each with an id of its own."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponseBase, JsonResponse, RawPostDataException
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from darby.desk.doors import for_crew, person_of
from darby.desk.kept import saving
from darby.desk.onsite.lines import faulty
from darby.desk.speaking import said_in
from darby.desk.uploads import Refused, lines_of, moment, picture
from darby.desk.views.job import job_or_404
from darby.measure import length
from darby.measure.faults import Unreadable
from darby.words import Verbatim

MOST_TEXT = 4000
READING = ("u", "v", "out")


@for_crew
@require_POST
def lines(request: HttpRequest, document: str) -> HttpResponseBase:
    """Keep a parcel of lines, each once: ``{"kept": [id], "refused": [{"id", "says"}]}``, told when it is on the disk.

    A line that is refused takes no other with it. As a file (the export of a phone) it answers by a page.
    """
    job_or_404(document)
    setting = said_in(request)
    file = request.FILES.get("file")
    try:
        parcel = lines_of(file.read() if file is not None else _body(request))
    except Refused as refused:
        says = setting.say(refused.code, **refused.values)
        if file is not None:
            return render(request, "desk/refused.html", {"code": refused.code, "values": refused.values}, status=400)
        return JsonResponse({"kept": [], "refused": [], "says": says}, status=400)
    kept, not_kept = [], []
    for line in parcel:
        try:
            kept.append(str(keep_line(request, document, line)))
        except Refused as refused:
            not_kept.append({"id": str(line.get("id", "")), "says": setting.say(refused.code, **refused.values)})
    if file is None:
        return JsonResponse({"kept": kept, "refused": not_kept})
    if not_kept:
        values = {"kept": len(kept), "found": len(not_kept), "says": Verbatim(not_kept[0]["says"])}
        return render(request, "desk/refused.html", {"code": "desk.refused.some", "values": values}, status=422)
    return redirect("stage", document, "record")


def _body(request: HttpRequest) -> bytes:
    """What a script sent; nothing, where it is a form without a file."""
    try:
        return request.body
    except RawPostDataException:
        return b""


@for_crew
@require_POST
def photographs(request: HttpRequest, document: str) -> HttpResponseBase:
    """Keep a photograph, once. To a script it tells as ``lines`` does; else the record's page follows."""
    job_or_404(document)
    setting = said_in(request)
    script = request.headers.get("Accept", "").startswith("application/json")
    posted = request.POST.dict()
    handed_in = request.FILES.get("photograph")
    line = {"id": posted.get("id"), "at": posted.get("at"), "made": posted.get("made"), "kind": "photograph"}
    try:
        said = {"text": _whole(str(posted.get("text", "")).strip())}
        kept = _picture(request, document, line, said, handed_in.read() if handed_in is not None else b"")
    except Refused as refused:
        if script:
            says = setting.say(refused.code, **refused.values)
            return JsonResponse({"kept": [], "refused": [{"id": str(line["id"]), "says": says}]})
        return render(request, "desk/refused.html", {"code": refused.code, "values": refused.values}, status=400)
    if script:
        return JsonResponse({"kept": [str(kept)], "refused": []})
    return redirect("stage", document, "photograph" if posted.get("from") == "photograph" else "record")


def keep_line(request: HttpRequest, document: str, line: Mapping[str, Any]) -> UUID:
    """Keep one line of the log, once.

    Raises
    ------
    Refused
        with what is wrong with it; nothing is kept.
    """
    kind, said = line.get("kind"), line.get("said")
    if kind not in ("note", "reading", "done") or not isinstance(said, dict):
        raise Refused("kind")
    if kind == "reading":
        said = {key: _length(said.get(key)) for key in READING} | _text(said)
    else:
        said = {key: _whole(str(value)) for key, value in said.items()}
        if kind == "note" and not said.get("text", "").strip():
            raise Refused("empty-note")
        if kind == "done" and faulty(said):
            raise Refused("no-coat")
    return _note_down(request, document, line, kind, said, None)


def _picture(
    request: HttpRequest, document: str, line: Mapping[str, Any], said: dict[str, str], handed_in: bytes
) -> UUID:
    made = picture(handed_in)
    if made.taken is not None:
        said["taken"] = made.taken.isoformat(" ", "minutes")
    said["size"] = f"{made.width} x {made.height}"
    return _note_down(request, document, line, "photograph", said, (made.data, made.kind))


def _note_down(
    request: HttpRequest,
    document: str,
    line: Mapping[str, Any],
    kind: str,
    said: Mapping[str, Any],
    photograph: tuple[bytes, str] | None,
) -> UUID:
    try:
        id = UUID(str(line.get("id")))
    except ValueError:
        raise Refused("id") from None
    at = str(line.get("at") or "job")[:120]
    try:
        saving.note_down(
            id, document, kind, person_of(request), said=said, at=at, made=moment(line.get("made")),
            photograph=photograph,
        )  # fmt: skip
    except saving.SentOtherwise:
        raise Refused("sent-otherwise") from None
    return id


def _whole(text: str) -> str:
    """The text as it was sent: one that is too long is refused, never cut."""
    if len(text) > MOST_TEXT:
        raise Refused("too-long", found=len(text), most=MOST_TEXT)
    return text


def _length(written: object) -> str:
    """As he wrote it, once it is known to be a length."""
    text = str(written or "")[:40]
    try:
        length(text)
    except Unreadable:
        raise Refused("length", found=text) from None
    return text


def _text(said: Mapping[str, Any]) -> dict[str, str]:
    text = _whole(str(said.get("text") or "").strip())
    return {"text": text} if text else {}
