"""What the job file says of surveys and patches, and what a survey's own wall is not."""

from fractions import Fraction

import pytest

import darby
from darby.job import JobError, loads
from darby.measure import length
from tests.job.documents import FIRM, JOB, SHAPES

BACK = (
    '\n[[survey]]\nid = "back"\nname = "Back wall"\nsize = "10 ft x 8 ft"\nopenings = ["window 2020 at 4 ft up 3 ft"]\n'
)


def job(text):
    return loads(JOB + SHAPES + text, firm=FIRM)


@pytest.mark.parametrize(("grid", "good"), [("3 in", True), ("2-15/16 in", False), ("4'", True)])
def test_taps_are_no_closer_than_a_hand(grid, good):
    if good:
        assert job(f'{BACK}grid = "{grid}"\n').survey[0].grid == length(grid)
        return
    with pytest.raises(JobError, match=r"condition\.grid"):
        job(f'{BACK}grid = "{grid}"\n')


def test_without_a_grid_the_taps_stand_by_the_books():
    assert job(f"{BACK}taps = {['s' * 10] * 8}\n".replace("'ssssssssss'", '"ssssssssss"')).survey[0].grid is None


def test_a_wall_that_is_only_looked_at_is_in_no_area_and_no_price():
    plain, looked = (darby.answer(job(text)) for text in ("", BACK))
    assert [s.id for s in plain.job.surfaces] == [s.id for s in looked.job.surfaces]
    assert looked.of("survey").walls[0].surface == "back"
    assert plain.by[("price", "job")] == looked.by[("price", "job")]
    assert plain.job_hash != looked.job_hash


def test_a_crack_written_twice_alike_is_one():
    crack = '[[survey.crack]]\nwidth = "1/16 in"\nline = ["1\', 1\'", "2\', 2\'"]\n'
    back = '[[survey.crack]]\nwidth = "1/16 in"\nline = ["2\', 2\'", "1\', 1\'"]\n'
    assert len(job(BACK + crack + back).survey[0].cracks) == 1


def test_readings_are_kept_as_they_were_taken():
    reading = (
        'gauge = "0.1 mm"\nreading = [{ on = 2026-02-14, width = "0.8 mm", air = "50 °F" },'
        ' { on = 2026-03-14, width = "0.7 mm" }]\n'
    )
    (crack,) = job(f"{BACK}[[survey.crack]]\nline = [\"1', 1'\", \"2', 2'\"]\n{reading}").survey[0].cracks
    assert [(r.on.isoformat(), r.width * 10_000, r.air) for r in crack.readings] == [
        ("2026-02-14", 8, Fraction(10)), ("2026-03-14", 7, None),
    ]  # fmt: skip


def test_a_patch_knows_the_room_that_its_ring_has():
    (patch,) = job('\n[[patch]]\nsurface = "hole"\n').patches
    # a 3 by 4 ft window at 3 ft and up 3 ft of a wall 20 by 9 ft
    assert {side: x / length("1'") for side, x in patch.room} == {"left": 3, "sill": 3, "right": 14, "head": 2}
    assert (patch.width, patch.sides) == (length("6 in"), ("head", "sill", "left", "right"))
