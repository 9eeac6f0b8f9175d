"""Whatever is given to the loader: a Job or a JobError with faults, nothing else."""

from __future__ import annotations

import copy
import tomllib
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from darby.job import Job, JobError, load, loads
from darby.job.document import job_document
from darby.job.sections.firm_file import FirmDocument
from tests.job.documents import FIRM, JOB, SHAPES

GOOD, GOOD_FIRM = tomllib.loads(JOB + SHAPES), tomllib.loads(FIRM)
quiet = settings(deadline=None, suppress_health_check=list(HealthCheck), max_examples=150)


def job_or_faults(text: Any, **how: Any) -> Job | JobError:
    try:
        job = loads(text, **how)
    except JobError as error:
        assert error.faults
        rooms = ("job.", "measure.", "grounds.", "condition.", "finish.")
        assert all(f.code.startswith(rooms) and f.allowed for f in error.faults), error.faults
        assert all(isinstance(part, str) for f in error.faults for part in (f.place, f.found, f.allowed, f.nearest))
        assert str(error)
        return error
    assert isinstance(job, Job)
    assert job.surfaces
    return job


def keys_of(model: Any) -> list[str]:
    return [field.alias or name for name, field in model.model_fields.items()]


INNER = [
    "id",
    "length",
    "height",
    "base",
    "left",
    "kind",
    "with",
    "openings",
    "zone",
    "outline",
    "on",
    "surface",
    "item",
    "amount",
    "price",
    "package",
    "walls",
    "up_to",
    "size",
    "at",
    "up",
    "reveal",
    "subject",
    "value",
    "why",
    "voice",
    "coat",
    "parts",
    "scratch",
    "brown",
    "portland",
    "lime",
    "sand",
    "bagged",
    "role",
    "people",
    "wage",
    "cap",
    "fall",
    "pilasters",
    "every",
    "out",
    "thick",
    "roof",
    "pitch",
    "down",
    "tests",
    "pull",
    "retains",
    "wall",
    "sides",
]
KEYS = sorted({*keys_of(job_document()), *keys_of(FirmDocument), *INNER})
SCRAPS = st.sampled_from(
    ["20'", "8'", "1/2 in", "7' 10 1/2\"", "door 3068 at 2'", "window 3' x 4' at 5' up 3'", "4', 2'", "block", "frame",
     "outside corner", "meets old work", "front", "side", "shed-1", "patch", "rest", "$16.80", "$34.00/h", "94 lb bag",
     "12 bags", "10 %", "42 % of wage", "8 h", "south", "190 deg", "-1'", "1e400 ft", "0/0 in", "9" * 130, "1,250", "",
     "\x00", "½\"", "firm.toml", "../../etc/passwd", "thickness.block.two-coat", "c926", "5/8 in"]
)  # fmt: skip
SCALARS = st.one_of(
    SCRAPS, st.text(max_size=12), st.integers(), st.integers(min_value=-3, max_value=3), st.booleans(),
    st.floats(), st.dates(), st.datetimes(), st.times(),
)  # fmt: skip
NAMES = st.sampled_from(KEYS) | st.text(max_size=5)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(NAMES, inner, max_size=4)),
    max_leaves=12,
)
TABLES = st.dictionaries(st.sampled_from(KEYS), VALUES, max_size=8)


@quiet
@given(st.binary(max_size=300))
def test_random_bytes(tmp_path_factory: Any, data: bytes) -> None:
    path: Path = tmp_path_factory.mktemp("fuzz") / "job.toml"
    path.write_bytes(data)
    try:
        assert isinstance(load(path), Job)
    except JobError as error:
        assert error.faults


@quiet
@given(st.text(max_size=300))
def test_random_text(text: str) -> None:
    job_or_faults(text)
    job_or_faults(f"darby = 1\n{text}")


@quiet
@given(TABLES, TABLES)
def test_random_tables(job: dict[str, Any], firm: dict[str, Any]) -> None:
    job_or_faults({"darby": 1, **job}, firm={"darby_firm": 1, **firm})
    job_or_faults({"darby": 0, **job})
    job_or_faults({**job})


def places(thing: Any) -> list[tuple[Any, Any]]:
    """Every (table or list, key or index) of a document."""
    found: list[tuple[Any, Any]] = []
    inner = thing.items() if isinstance(thing, dict) else enumerate(thing) if isinstance(thing, list) else ()
    for key, value in list(inner):
        found.append((thing, key))
        found += places(value)
    return found


@settings(quiet, max_examples=300)
@given(st.data())
def test_random_changes_of_good_documents(data: st.DataObject) -> None:
    job, firm = copy.deepcopy(GOOD), copy.deepcopy(GOOD_FIRM)
    for _ in range(data.draw(st.integers(1, 4))):
        spots = places(job if data.draw(st.booleans()) else firm)
        if not spots:
            break
        there, key = spots[data.draw(st.integers(0, len(spots) - 1))]
        match data.draw(st.sampled_from(["change", "change", "drop", "add", "double"])):
            case "change":
                there[key] = data.draw(VALUES)
            case "drop":
                del there[key]
            case "add" if isinstance(there, dict):
                there[data.draw(st.sampled_from(KEYS))] = data.draw(VALUES)
            case _ if isinstance(there, list):
                there.append(copy.deepcopy(there[key]))
    job_or_faults(job, firm=firm)


@quiet
@given(st.integers(0, len(JOB)), st.integers(0, 12), st.text(max_size=6))
def test_random_cuts_of_good_text(at: int, cut: int, put: str) -> None:
    job_or_faults(JOB[:at] + put + JOB[at + cut :], firm=FIRM)


@quiet
@given(st.integers(0, len(SHAPES)), st.integers(0, 12), st.text(max_size=6))
def test_random_cuts_of_good_shapes(at: int, cut: int, put: str) -> None:
    job_or_faults(JOB + SHAPES[:at] + put + SHAPES[at + cut :], firm=FIRM)


@quiet
@given(st.integers(0, len(FIRM)), st.integers(0, 12), st.text(max_size=6))
def test_random_cuts_of_a_good_firm(at: int, cut: int, put: str) -> None:
    job_or_faults(JOB, firm=FIRM[:at] + put + FIRM[at + cut :])


def test_values_no_toml_holds() -> None:
    """Tables may come from elsewhere than TOML: every spot of a good document, holding what TOML never does."""
    head = 'darby = 1\n[job]\nname = "x"\nas_of = 2026-03-02\n'
    for good, firm in ((tomllib.loads(JOB), FIRM), (tomllib.loads(head + SHAPES), None)):
        for n in range(len(places(good))):
            for odd in (None, (1, 2), b"x", {1: 2}):
                job = copy.deepcopy(good)
                there, key = places(job)[n]
                there[key] = odd
                job_or_faults(job, firm=firm)
