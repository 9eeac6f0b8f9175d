"""`darby days`: the list over all open jobs."""

import json
import shutil

from tests.cli.running import EXAMPLES, darby, job_file, lone_wall

DONE = '\n[[done]]\nsurface = "crew"\ncoat = "brown"\non = 2026-10-05\n\n[days]\npromised = 2026-10-23\n\n[price]'


def folder_of(tmp_path):
    job_file(tmp_path, ("\n[price]", DONE))
    shutil.copy(EXAMPLES / "garden-wall.toml", tmp_path / "garden.toml")
    return tmp_path


def test_a_folder_is_its_jobs_and_firm_files_are_none(tmp_path):
    result = darby("days", folder_of(tmp_path), "--on", "2026-10-06", COLUMNS="400")
    assert result.exit_code == 0, result.stderr
    out = " ".join(result.stdout.split())
    assert "Open jobs, Tuesday, October 6" in out
    assert out.index("Alder Flat fire hall") < out.index("Alder Flat, garden wall")  # promised first
    assert "Promised for Friday, October 23." in out and "Not begun." in out
    assert "Damp until Wednesday, October 7" in out


def test_as_json_it_is_the_same_list(tmp_path):
    result = darby("days", folder_of(tmp_path), "--on", "2026-10-06", "--json")
    document = json.loads(result.stdout)
    assert document["on"] == "2026-10-06"
    first, second = document["open"]
    assert (first["title"], first["by"], first["by_date"]) == ("Alder Flat fire hall", "promised", "2026-10-23")
    assert (second["do"], second["must_by"]) == ("begin", None)


def test_on_a_narrow_screen_one_job_stands_under_the_other_and_in_spanish(tmp_path):
    result = darby("days", folder_of(tmp_path), "--on", "2026-10-06", "--es", COLUMNS="48")
    assert max(map(len, result.stdout.splitlines())) <= 48
    out = " ".join(result.stdout.split())
    assert "Alder Flat fire hall - A más tardar: " in out and "Prometido para el viernes, 23 de octubre." in out


def test_a_job_that_is_wrong_is_said_and_the_others_stand(tmp_path):
    folder = folder_of(tmp_path)
    (folder / "bad.toml").write_text("darby = 1\n[job]\n", encoding="utf-8")
    result = darby("days", folder, "--on", "2026-10-06", COLUMNS="400")
    assert result.exit_code == 2
    assert "bad.toml" in result.stderr and "Alder Flat fire hall" in " ".join(result.stdout.split())


def test_a_job_that_cannot_be_planned_says_what_is_missing(tmp_path):
    result = darby("days", lone_wall(tmp_path), "--on", "2026-03-02", COLUMNS="400")
    assert result.exit_code == 0
    assert "It cannot be planned yet. Missing: the firm's crew" in " ".join(result.stdout.split())


def test_no_date_no_folder(tmp_path):
    assert "is no date" in darby("days", tmp_path, "--on", "tomorrow").stderr
    empty = darby("days", tmp_path)
    assert empty.exit_code == 2 and "There is no job file in" in empty.stderr


def test_today_is_the_day_unless_another_is_given(tmp_path):
    from datetime import date

    before = date.today().isoformat()
    said = json.loads(darby("days", lone_wall(tmp_path), "--json").stdout)["on"]
    assert before <= said <= date.today().isoformat()


def test_what_was_done_is_marked_in_the_plan(tmp_path):
    """The plan of the one job marks trips that were made, and says that it counts from them."""
    path = folder_of(tmp_path) / "job.toml"
    out = " ".join(darby("answer", path, "--stage", "days").stdout.split())
    first = out[out.index("Monday, October 5") : out.index("Tuesday, October 6")]
    assert "Brown: Crew room" in first and "(done)" in first
    assert out.count("(done)") == 1
    assert "(hecho)" in darby("answer", path, "--stage", "days", "--es").stdout
