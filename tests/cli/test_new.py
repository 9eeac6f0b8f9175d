"""`darby new`: a starter that is good as it stands, and never writes over anything."""

import re

import pytest

from darby.job import loads
from tests.cli.running import EXAMPLES, darby, files_in


def test_it_writes_a_job_and_a_firm_that_check_and_answer(tmp_path):
    path = tmp_path / "hall" / "job.toml"
    result = darby("new", path)
    assert result.exit_code == 0
    assert set(files_in(tmp_path)) == {"hall/job.toml", "hall/firm.toml"}
    assert f"darby check {path}" in result.stdout
    checked = darby("check", path)
    assert checked.exit_code == 0
    assert "1 wall, nothing wrong" in checked.stdout
    answered = darby("answer", path)
    assert answered.exit_code == 0
    # 24 x 8 less a 3068 door of 20 and a window of 12, and three reveals of the door 4 in. deep:
    # 192 - 32 + (3 + 2 x 6'-8") / 3 = 165.4
    assert re.search(r"Front wall +165\.4 sq ft +Two coats", answered.stdout)
    assert "All of it" in answered.stdout


def test_it_never_writes_over_a_job(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text("mine", encoding="utf-8")
    result = darby("new", path)
    assert result.exit_code == 2
    assert "there already" in result.stderr
    assert files_in(tmp_path) == {"job.toml": b"mine"}


def test_a_firm_file_that_is_there_stays(tmp_path):
    (tmp_path / "firm.toml").write_bytes((EXAMPLES / "firm.toml").read_bytes())
    before = files_in(tmp_path)
    assert darby("new", tmp_path / "job.toml").exit_code == 0
    after = files_in(tmp_path)
    assert after["firm.toml"] == before["firm.toml"]
    assert "Three Coats & Daughters" in loads(after["job.toml"].decode(), folder=tmp_path).firm.name


def test_a_firm_file_elsewhere(tmp_path):
    result = darby("new", tmp_path / "job.toml", "--firm", EXAMPLES / "firm.toml")
    assert result.exit_code == 0
    assert set(files_in(tmp_path)) == {"job.toml"}
    assert darby("check", tmp_path / "job.toml").exit_code == 0


def test_where_nothing_can_be_written(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = darby("new", tmp_path / "file" / "job.toml")
    assert result.exit_code == 2
    assert "cannot be written" in result.stderr
    assert files_in(tmp_path) == {"file": b""}


def test_half_a_pair_is_not_left_behind(tmp_path):
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = darby("new", tmp_path / "job.toml", "--firm", tmp_path / "file" / "firm.toml")
    assert result.exit_code == 2
    assert files_in(tmp_path) == {"file": b""}


@pytest.mark.parametrize("name", ["job.toml", "firm.toml"])
def test_every_line_of_the_starter_that_is_switched_off_is_good_when_switched_on(name, tmp_path):
    """What stands behind "# [[" is an example that a person will use."""
    path = tmp_path / "job.toml"
    darby("new", path)
    file = tmp_path / name
    text = file.read_text(encoding="utf-8")
    on = re.sub(r"^# (?=\[\[|\w+ = )", "", text, flags=re.MULTILINE)
    file.write_text(on, encoding="utf-8")
    result = darby("check", path)
    assert result.exit_code == 0, result.stderr
