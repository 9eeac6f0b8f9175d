"""[[readings]]: points as they were written, typed or in a file; and every way in which they cannot be."""

from __future__ import annotations

from fractions import Fraction

import pytest

from darby.job import JobError, load, loads
from darby.job.readings import WallReadings

FT = Fraction(3048, 10_000)
INCH = FT / 12
JOB = """
darby = 1
[job]
name = "One wall"
as_of = 2026-03-02
[[wall]]
id = "front"
length = "24'"
height = "12'"
gable = "3'"
base = "block"
openings = ["door 3068 at 2'"]
[[readings]]
surface = "front"
"""
THREE = '["0\'", "0\'", "0 in"], ["24\'", "0\'", "1/8 in"], ["12\'", "15\'", "-1/4 in"]'
POINTS = ((0, 0, 0), (24 * FT, 0, INCH / 8), (12 * FT, 15 * FT, -INCH / 4))


def read(more: str) -> WallReadings:
    return loads(JOB + more).readings[0]


def faults(more: str, folder: object = None) -> list[tuple[str, str, str, str]]:
    with pytest.raises(JobError) as error:
        loads(JOB + more, folder=folder)  # type: ignore[arg-type]
    return [(f.code, f.place, f.found, f.allowed) for f in error.value.faults]


def test_points_are_kept_as_they_were_read():
    assert read(f"points = [{THREE}]") == WallReadings("front", POINTS)


def test_everything_that_can_be_said():
    said = read(
        f'points = [{THREE}]\nfixed = [["0\'", "4\'", "7/8 in"]]\nleast = "3/8 in"\nheld = "dub out"\n'
        'face = "wandering"\nspacing = "4\'"\n'
    )
    assert said == WallReadings(
        "front", POINTS, ((0, 4 * FT, INCH * 7 / 8),), INCH * 3 / 8, "dub out", "wandering", 4 * FT
    )


def test_bare_numbers_are_in_the_units_that_are_said():
    said = read('units = "in"\npoints = [[0, 0, 0], [288, 0, 0.125], [144, 180, -0.25]]')
    assert said.points == POINTS
    found = faults("points = [[0, 0, 0], [288, 0, 1], [144, 180, 1]]")
    assert {code for code, *_ in found} == {"measure.no-unit"}
    assert found[0][1] == "readings 1, points 1"


def test_a_wall_without_readings_has_none():
    assert loads(JOB.partition("[[readings]]")[0]).readings == ()


@pytest.mark.parametrize(
    "text",
    [
        "0', 0', 0 in\n24', 0', 1/8 in\n12', 15', -1/4 in\n",
        "across,up,out\n0', 0', 0 in\n24', 0', 1/8 in\n\n12', 15', -1/4 in\n",
        "0;0;0\n288;0;0.125\n144;180;-0.25\n",
        "u\tv\tout\n0\t0\t0\n288\t0\t0.125\n144\t180\t-.25\n",
    ],
)
def test_readings_come_from_a_file_as_well(tmp_path, text):
    (tmp_path / "readings.csv").write_text(text, encoding="utf-8")
    units = 'units = "in"\n' if "288" in text else ""
    (tmp_path / "job.toml").write_text(JOB + units + 'csv = "readings.csv"\n', encoding="utf-8")
    assert load(tmp_path / "job.toml").readings[0].points == POINTS


def test_the_hash_is_of_the_readings_not_of_the_file(tmp_path):
    (tmp_path / "readings.csv").write_text("0', 0', 0 in\n24', 0', 1/8 in\n12', 15', -1/4 in\n", encoding="utf-8")
    filed = loads(JOB + 'csv = "readings.csv"\n', folder=tmp_path)
    assert filed.hash == loads(JOB + f"points = [{THREE}]").hash
    (tmp_path / "readings.csv").write_text("0', 0', 0 in\n24', 0', 1/8 in\n12', 15', 0 in\n", encoding="utf-8")
    assert loads(JOB + 'csv = "readings.csv"\n', folder=tmp_path).hash != filed.hash


WALL = "at 0\" … 24', up 0\" … 15'"


@pytest.mark.parametrize(
    ("said", "code", "place", "found", "allowed"),
    [
        ("", "grounds.points-or-csv", "readings 1", "", "points … / csv …"),
        (f'points = [{THREE}]\ncsv = "a.csv"', "grounds.points-or-csv", "readings 1", "points, csv",
         "points … / csv …"),
        ('csv = "a.csv"', "grounds.no-csv", "readings 1, csv", "a.csv", "readings.csv"),
        ("points = []", "grounds.few", "readings 1, points", "0", "3 …"),
        (f"points = [{', '.join(THREE.split(', [')[:1])}]", "grounds.few", "readings 1, points", "1", "3 …"),
        ('points = [["0\'", "0\'", "0 in"], ["2\'", "1\'", "0 in"], ["8\'", "4\'", "1 in"]]',
         "grounds.in-line", "readings 1, points", "3", "3 …"),
        (f'points = [{THREE}, ["25\'", "1\'", "0 in"]]', "grounds.off-wall", "readings 1, points 4",
         "at 25', up 1'", WALL),
        (f'points = [{THREE}, ["1\'", "14\'", "0 in"]]', "grounds.off-wall", "readings 1, points 4",
         "at 1', up 14'", WALL),
        (f'points = [{THREE}, ["3\'", "2\'", "0 in"]]', "grounds.in-opening", "readings 1, points 4",
         "at 3', up 2'", "door-1"),
        (f'points = [{THREE}]\nfixed = [["3\'", "13\'-6\\"", "0 in"]]', "grounds.off-wall", "readings 1, fixed 1",
         "at 3', up 13' 6\"", WALL),
        (f'points = [{THREE}, ["24\'", "0\'", "1/4 in"]]', "grounds.disagree", "readings 1, points 4",
         '1/8", 1/4"', "at 24', up 0\""),
        (f'points = [{THREE}, ["3\'", "8\'"]]', "grounds.no-number", "readings 1, points 4", "3', 8'",
         "[\"2'\", \"3'\", \"1/8 in\"]"),
        (f'points = [{THREE}]\nspacing = "6 in"', "grounds.close", "readings 1, spacing", "6 in", "2 ft …"),
        (f'points = [{THREE}]\nheld = "glue"', "job.not-one-of", "readings 1, held", "glue", "lath, follow, dub out"),
        (f'points = [{THREE}]\n[[readings]]\nsurface = "front"\npoints = [{THREE}]', "job.twice",
         "readings 2, surface", "front", "each surface once"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said(said, code, place, found, allowed):
    assert faults(said) == [(code, place, found, allowed)]


def test_a_frame_may_stand_in_an_opening():
    assert read(f'points = [{THREE}]\nfixed = [["3\'", "2\'", "0 in"]]').fixed == ((3 * FT, 2 * FT, 0),)


def test_readings_of_a_wall_that_is_not_there():
    found = faults(f"points = [{THREE}]" + '\n[[readings]]\nsurface = "frnt"\npoints = []\n')
    assert ("job.no-such-surface", "readings 2, surface", "frnt", "front") in found


@pytest.mark.parametrize(
    ("text", "code", "found"),
    [
        ("0', 0', 0 in\n24', 0'\n12', 15', 0 in\n1',1',0 in\n", "grounds.no-number", "24', 0'"),
        ("0', 0', 0 in\n24', 0', much\n12', 15', 0 in\n1',1',0 in\n", "measure.unreadable", "much"),
        ("0', 0', 0 in\n", "grounds.few", "1"),
        ("", "grounds.few", "0"),
    ],
)
def test_a_file_says_where_it_cannot_be_read(tmp_path, text, code, found):
    (tmp_path / "readings.csv").write_text(text, encoding="utf-8")
    got = faults('csv = "readings.csv"', folder=tmp_path)
    assert [(c, f) for c, _, f, _ in got] == [(code, found)]
    assert got[0][1].startswith("readings 1, csv")
    assert ("line 2" in got[0][1]) == (code != "grounds.few")


def test_a_file_that_is_no_text(tmp_path):
    (tmp_path / "readings.csv").write_bytes(b"\xff\xfe\x00")
    assert faults('csv = "readings.csv"', folder=tmp_path)[0][0] == "grounds.no-csv"
    (tmp_path / "readings.csv").write_bytes(b"0" * 2_000_001)
    assert faults('csv = "readings.csv"', folder=tmp_path)[0][0] == "job.too-long"
    assert faults('csv = "../readings\\u0000.csv"', folder=tmp_path)[0][0] in ("grounds.no-csv", "job.bad-text")


@pytest.mark.parametrize("tilt", ["180 deg", "80 deg", "0 deg"])
def test_a_soffit_or_a_leaning_wall_has_no_plumb_face(tilt):
    """Never silence: readings off a plumb line on what is not upright are refused, and the way out is said."""
    text = (JOB + f"points = [{THREE}]").replace('gable = "3\'"\n', f'gable = "3\'"\ntilt = "{tilt}"\n')
    with pytest.raises(JobError) as error:
        loads(text)
    (fault,) = error.value.faults
    assert (fault.code, fault.place) == ("grounds.not-upright", "readings 1, surface")


def test_a_finished_face_is_read_like_a_bare_one_and_needs_no_plumb(tmp_path):
    (tmp_path / "finished.csv").write_text("0, 48, 0\n24, 48, 0.125\n60, 48, 0\n", encoding="utf-8")
    text = JOB.partition("[[readings]]")[0].replace('gable = "3\'"\n', 'tilt = "180 deg"\n')
    job = loads(text + '[[finished]]\nsurface = "front"\nunits = "in"\ncsv = "finished.csv"\n', folder=tmp_path)
    assert job.readings == ()
    (found,) = job.finished
    assert found.points == ((0, 4 * FT, 0), (2 * FT, 4 * FT, INCH / 8), (5 * FT, 4 * FT, 0))


def test_what_is_measured_back_from_a_string_in_front_is_turned_about():
    """A string 1 in. in front: a hollow of 1/4 in. reads 1 1/4 in.; what is fixed is read off the same string."""
    rows = '["0\'", "0\'", "1 in"], ["24\'", "0\'", "7/8 in"], ["12\'", "15\'", "1 1/4 in"]'
    said = read(f'measured = "back"\npoints = [{rows}]\nfixed = [["0\'", "4\'", "1/8 in"]]')
    assert [out for _, _, out in said.points] == [-INCH, -INCH * 7 / 8, -INCH * 5 / 4]
    assert said.fixed == ((0, 4 * FT, -INCH / 8),)
    (fault,) = faults(f'measured = "forward"\npoints = [{THREE}]')
    assert fault[:3] == ("job.not-one-of", "readings 1, measured", "forward")
