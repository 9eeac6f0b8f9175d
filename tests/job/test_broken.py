"""Every broken job says what is wrong, where, what was found and what is allowed: all of it, at once."""

from __future__ import annotations

import pytest

from darby.job import JobError, loads
from tests.job.broken import BROKEN, FIVE, Broken
from tests.job.documents import FIRM, JOB, SHAPES


def broken_texts(broken: Broken) -> tuple[str, str]:
    texts = {"job": JOB, "firm": FIRM, "shapes": SHAPES}
    for old, new in broken.edits:
        assert texts[broken.file].count(old) == 1, f"{old!r} must stand once in the good document"
        texts[broken.file] = texts[broken.file].replace(old, new)
    shapes = texts["shapes"] if broken.file == "shapes" else ""
    return texts["job"] + shapes, texts["firm"]


def test_there_are_enough_of_them() -> None:
    assert len(BROKEN) + len(FIVE) >= 60
    assert len(FIVE) >= 5
    assert len({broken.name for broken in (*BROKEN, *FIVE)}) == len(BROKEN) + len(FIVE)


def test_the_documents_they_are_made_of_are_good() -> None:
    assert loads(JOB, firm=FIRM).name == "Wash house"
    assert loads(JOB + SHAPES, firm=FIRM).name == "Wash house"


@pytest.mark.parametrize("broken", [*BROKEN, *FIVE], ids=lambda b: b.name)
def test_broken(broken: Broken) -> None:
    job, firm = broken_texts(broken)
    with pytest.raises(JobError) as caught:
        loads(job, firm=firm)
    faults = caught.value.faults
    found = [(f.code, f.place, f.found, f.allowed, f.nearest) for f in faults]
    assert found == list(broken.faults)
    assert all(f.allowed for f in faults)


@pytest.mark.parametrize("broken", FIVE, ids=lambda b: b.name)
def test_five_are_five_at_different_depths(broken: Broken) -> None:
    assert len(broken.faults) == 5
    assert len({place.count(",") for _, place, *_ in broken.faults}) >= 2
