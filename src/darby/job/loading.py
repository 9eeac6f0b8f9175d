"""From a file or a text to a Job, or to every fault at once."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from darby.job import allowed as ok
from darby.job.building import build
from darby.job.document import job_document
from darby.job.draft import Draft
from darby.job.hashing import hash_of
from darby.job.model import Job, JobError
from darby.job.part import Part, Reading
from darby.job.places import Loc, shown
from darby.job.sections import SECTIONS
from darby.job.shape import check
from darby.job.upgrades import FIRM_VERSION, UPGRADES, VERSION, upgrade
from darby.measure.faults import Fault

Raw = dict[str, Any]

MOST_BYTES = 2_000_000
"""A longer text is refused unread: a job of a thousand walls is a quarter of it."""

MOST_DEEP = 20
"""Tables and lists within each other. The deepest that means anything is seven."""

SHAPES = ("wall", "house", "garden_wall", "box", "strip", "ring")
"""The lists that write surfaces."""

JOB_FILE, FIRM_FILE = "job file", "firm file"
KEYED = {"crew": "role", "buys": "item", "bagged": "id", "access": "kind", "rule": "subject"}
"""Lists of the firm file, and the key by which an entry of the job's [firm] takes the place of one of them."""


def load(path: str | Path) -> Job:
    """The job in a file; its firm file is looked for from the file's own folder.

    Raises
    ------
    JobError
        with every fault.
    """
    place = Path(path)
    text, fault = _text_of(place, JOB_FILE)
    if fault is not None:
        raise JobError((fault,))
    return loads(text, folder=place.parent)


def loads(
    text: str | Mapping[str, Any],
    *,
    firm: str | Mapping[str, Any] | None = None,
    folder: str | Path | None = None,
) -> Job:
    """The job in a text (or already in tables).

    Parameters
    ----------
    text
        TOML, or what TOML becomes: tables, lists, text, numbers, dates.
    firm
        the firm file in the same forms; the document's own ``firm = "..."`` is then not looked up.
    folder
        where ``firm = "firm.toml"`` and files of readings are looked for. Without it no file is opened, whatever the
        document says.

    Raises
    ------
    JobError
        with every fault, whatever its depth.
    """
    raw = _tables(text, JOB_FILE)
    raw = upgrade(raw, _version(raw, "darby", VERSION, JOB_FILE, oldest=min(UPGRADES)))
    firm_faults: tuple[Fault, ...] = ()
    laid: Raw | None = None
    try:
        laid = _firm(raw, firm, folder)
    except JobError as error:
        firm_faults = error.faults
    document = {key: value for key, value in raw.items() if key != "firm"}
    if isinstance(raw.get("firm", {}), Mapping):
        document |= {"firm": laid} if laid is not None else {}
    else:
        document["firm"] = raw["firm"]
    return _read(document, firm_faults, folder)


def _read(document: Raw, firm_faults: tuple[Fault, ...], folder: str | Path | None) -> Job:
    """Shape pass, then meaning pass over all whose shape was right."""
    reading = Reading(document)
    left = check(document, job_document(), reading)
    root = Part(reading, left)
    root.use_units("units")
    root.has("darby")
    has_firm = "firm" in left
    firm_readable = has_firm or not (firm_faults or "firm" in document)
    draft = Draft(reading, has_firm=has_firm, firm_readable=firm_readable, folder=folder)
    for section in SECTIONS:
        section.read(root, draft)
    surfaces, bases = build(draft)
    for look in draft.later:
        look(surfaces)
    if not draft.walls and not any(root.said(key) for key in SHAPES):
        *some, last = (f"[[{key}]]" for key in SHAPES)
        reading.fault((), "job.no-walls", "", f"{', '.join(some)} or {last}")
    faults = (*firm_faults, *reading.sorted_faults())
    if faults:
        raise JobError(faults)
    if not has_firm:
        root.assume("job.assumed-no-firm", "job")
    if not any(Part(reading, row).has("tilt") for row in left.get("wall", ())):
        root.assume("job.assumed-upright", "job")
    job = Job(**draft.fields, surfaces=surfaces, bases=bases, has_firm=has_firm, assumed=tuple(reading.assumed))
    return replace(job, hash=hash_of(job))


# --- text to tables ----------------------------------------------------------------------------------


def _text_of(path: Path, which: str) -> tuple[str, Fault | None]:
    """The file's text, or why there is none."""
    try:
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except (OSError, ValueError):
        found = shown(str(path))
        return "", Fault("job.no-file", which, found, ok.READABLE_FILE)
    if len(raw) > MOST_BYTES:
        return "", _too_long(which)
    try:
        return raw.decode("utf-8-sig"), None
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return "", Fault("job.not-utf-8", which, f"line {line}", ok.UTF_8)


def _too_long(which: str) -> Fault:
    return Fault("job.too-long", which, f"more than {MOST_BYTES:,} bytes", ok.SHORTER)


def _tables(text: str | Mapping[str, Any], which: str) -> Raw:
    """The text as tables.

    Raises
    ------
    JobError
        with the one fault of a text that is no TOML, with line and column.
    """
    if isinstance(text, Mapping):
        raw = dict(text)
    else:
        if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
            raise JobError((_too_long(which),))
        raw = _parsed(text, which)
    if _depth(raw) > MOST_DEEP:
        raise JobError((Fault("job.too-deep", which, f"more than {MOST_DEEP} deep", ok.FLATTER),))
    return raw


def _parsed(text: str, which: str) -> Raw:
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        message = str(error)
        at = re.search(r"\(at (line \d+, column \d+|end of document)\)$", message)
        found = at[1] if at else "somewhere"
        reason = message[: at.start()].strip() if at else message
        raise JobError((Fault("job.not-toml", which, found, reason),)) from None
    except RecursionError:
        raise JobError((Fault("job.too-deep", which, "very deep", ok.FLATTER),)) from None
    except ValueError:  # a number or a date that Python cannot hold
        raise JobError((Fault("job.not-toml", which, "a number or date", ok.REAL_NUMBER),)) from None


def _depth(thing: Any) -> int:
    """How many tables and lists stand within each other, counted without recursion."""
    deepest, ahead = 0, [(thing, 1)]
    while ahead:
        here, depth = ahead.pop()
        if isinstance(here, (Mapping, list)) and depth <= MOST_DEEP + 1:
            deepest = max(deepest, depth)
            inner = here.values() if isinstance(here, Mapping) else here
            ahead += [(entry, depth + 1) for entry in inner if isinstance(entry, (Mapping, list))]
    return deepest


def _version(raw: Raw, key: str, ours: int, which: str, *, oldest: int) -> int:
    """The document's version.

    Raises
    ------
    JobError
        with one fault if there is none, or none that we know: what else stands there cannot be judged then.
    """
    allowed = f"{key} = {ours}"
    if key not in raw:
        raise JobError((Fault("job.no-version", which, "", allowed),))
    version = raw[key]
    if isinstance(version, bool) or not isinstance(version, int):
        raise JobError((Fault("job.wrong-kind", f"{which}, {key}", shown(version), allowed),))
    if version > ours:
        raise JobError((Fault("job.version-newer", f"{which}, {key}", shown(version), allowed),))
    if version < oldest:
        raise JobError((Fault("job.version-unknown", f"{which}, {key}", shown(version), allowed),))
    return version


# --- the firm ----------------------------------------------------------------------------------------


def _firm(raw: Raw, firm: str | Mapping[str, Any] | None, folder: str | Path | None) -> Raw | None:
    """The firm file with the job's own [firm] laid over it; None if there is neither.

    Raises
    ------
    JobError
        if there should be one and it cannot be read.
    """
    over = raw.get("firm")
    head = raw.get("job")
    name = head.get("firm") if isinstance(head, Mapping) else None
    if firm is not None:
        base = _tables(firm, FIRM_FILE)
    elif isinstance(name, str):
        base = _tables(_beside(name, folder), FIRM_FILE)
    elif isinstance(over, Mapping):
        base = {"darby_firm": FIRM_VERSION, "name": ""}
    else:
        return None
    _version(base, "darby_firm", FIRM_VERSION, FIRM_FILE, oldest=FIRM_VERSION)
    return _laid_over(base, over) if isinstance(over, Mapping) else base


def _beside(name: str, folder: str | Path | None) -> str:
    place: Loc = ("job", "firm")
    at = ", ".join(str(step) for step in place)
    if folder is None:
        raise JobError((Fault("job.no-firm-file", at, shown(name), ok.FIRM_GIVEN),))
    if "\x00" in name or not name.strip():
        raise JobError((Fault("job.no-firm-file", at, shown(name), "firm.toml, seen from the job's folder"),))
    text, fault = _text_of(Path(folder) / name, FIRM_FILE)
    if fault is not None and fault.code == "job.no-file":
        beside = _toml_files(Path(folder))
        close = beside[0] if len(beside) == 1 else ""
        raise JobError((Fault("job.no-firm-file", at, shown(name), ", ".join(beside) or "firm.toml", close),))
    if fault is not None:
        raise JobError((fault,))
    return text


def _toml_files(folder: Path) -> list[str]:
    """Firm files in the folder, to offer in place of one that is not there."""
    try:
        return sorted(path.name for path in folder.glob("*firm*.toml"))[:5]
    except OSError:
        return []


def _laid_over(base: Raw, over: Mapping[str, Any]) -> Raw:
    """``base`` with what ``over`` says: tables key by key, named entries of lists by name, the rest replaced."""
    laid = dict(base)
    for key, value in over.items():
        there = laid.get(key)
        if isinstance(value, Mapping) and isinstance(there, Mapping):
            laid[key] = _laid_over(dict(there), value)
        elif key in KEYED and isinstance(value, list) and isinstance(there, list):
            laid[key] = _entries(there, value, KEYED[key])
        else:
            laid[key] = value
    return laid


def _entries(there: list[Any], over: list[Any], name: str) -> list[Any]:
    laid = list(there)
    for entry in over:
        wanted = entry.get(name) if isinstance(entry, Mapping) else None
        at = next((n for n, e in enumerate(laid) if isinstance(e, Mapping) and e.get(name) == wanted), None)
        if wanted is None or at is None:
            laid.append(entry)
        else:
            laid[at] = {**laid[at], **entry}
    return laid
