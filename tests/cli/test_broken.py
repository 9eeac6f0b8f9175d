"""Broken files: every fault on standard error, exit 2, no traceback, nothing written."""

import json

import pytest

from tests.cli.running import FIREHALL, darby, files_in, job_file

FIVE = (
    ('name = "Alder Flat fire hall"', 'nmae = "Alder Flat fire hall"'),
    ('length = "34\'"', 'length = "34"'),
    ('outline = ["4\'-8\\", 0\\""', 'outline = ["4\'-8\\""'),
    ('suction = "low" ', 'suction = "lo" '),
    ('amount = "10 bags"', 'amount = "ten bags"'),
)
PLACES = ("job", 'surface "bay-east"', "bay-south", "coats", "ordered")


@pytest.mark.parametrize("command", ["check", "answer", "why", "papers"])
def test_all_faults_at_once_and_nothing_written(command, tmp_path, monkeypatch):
    path = job_file(tmp_path, *FIVE)
    monkeypatch.chdir(tmp_path)
    before = files_in(tmp_path)
    result = darby(command, path)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert "Traceback" not in result.stderr
    for place in PLACES:
        assert place in result.stderr
    assert "Nothing was written" in " ".join(result.stderr.split())  # a long path wraps the line
    assert files_in(tmp_path) == before


def test_a_fault_says_what_was_found_what_would_do_and_what_is_nearest(tmp_path):
    said = darby("check", job_file(tmp_path, FIVE[3])).stderr
    for word in ("“lo”", "low", "usual", "high"):
        assert word in said


@pytest.mark.parametrize("command", ["check", "answer"])
def test_faults_as_json(command, tmp_path):
    result = darby(command, job_file(tmp_path, FIVE[1]), "--json")
    assert result.exit_code == 2
    (fault,) = json.loads(result.stdout)["faults"]
    assert fault["code"] == "measure.no-unit"
    assert fault["place"] == 'surface "bay-east", length'
    assert fault["found"] == "34"


def test_in_spanish(tmp_path):
    said = darby("check", job_file(tmp_path, FIVE[1]), "--es").stderr
    assert "No se escribió nada" in said


@pytest.mark.parametrize(
    "content",
    [b"", b"\xff\xfe\x00", b"not toml", b"darby = 1\n", b'darby = 1\n[job]\nname = "x"\n', b"\x00" * 100],
    ids=["empty", "bytes", "no toml", "no job", "half", "nothing"],
)
def test_what_is_no_job_at_all(content, tmp_path):
    path = tmp_path / "job.toml"
    path.write_bytes(content)
    result = darby("answer", path)
    assert result.exit_code == 2
    assert result.stderr
    assert "Traceback" not in result.stderr


def test_a_file_that_is_not_there(tmp_path):
    for path in (tmp_path / "none.toml", tmp_path):
        result = darby("check", path)
        assert result.exit_code == 2
        assert str(path) in result.stderr.replace("\n    ", "")


def test_a_broken_firm_file_is_named(tmp_path):
    result = darby("answer", job_file(tmp_path, firm=[('wage = "$34.00/h"', 'wage = "34"')]))
    assert result.exit_code == 2
    assert "firm" in result.stderr


def test_square_brackets_in_a_file_are_not_taken_for_colours(tmp_path):
    """Rich reads [bold] as a colour; a person's own words are printed as they are."""
    path = job_file(tmp_path, ('name = "Alder Flat fire hall"', 'name = "The [red]old[/red] hall :fire:"'))
    assert "The [red]old[/red] hall :fire:" in darby("answer", path).stdout
    assert "The [red]old[/red] hall :fire:" in darby("check", path).stdout


def test_a_good_job_says_nothing_on_standard_error():
    assert darby("check", FIREHALL).stderr == ""
