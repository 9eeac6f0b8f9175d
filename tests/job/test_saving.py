"""Written and read again it is the same job; killed on the way, the old file stands whole."""

from __future__ import annotations

import os
import tomllib
from pathlib import Path

import pytest

from darby.job import dump, load, loads, save
from tests.job.documents import FIRM, JOB


def test_dumped_and_loaded_it_is_the_same_job() -> None:
    raw, firm = tomllib.loads(JOB), tomllib.loads(FIRM)
    again = loads(dump(raw), firm=dump(firm))
    assert again == loads(JOB, firm=FIRM)
    assert again.hash == loads(JOB, firm=FIRM).hash
    assert tomllib.loads(dump(raw)) == raw


def test_the_example_dumped_and_loaded() -> None:
    examples = Path(__file__).parents[2] / "examples"
    raw = tomllib.loads((examples / "firehall.toml").read_text("utf-8"))
    assert tomllib.loads(dump(raw)) == raw


def test_save_and_load(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    save(tomllib.loads(JOB), path)
    assert load(path) == loads(JOB)
    save(tomllib.loads(JOB.replace("Wash house", "Wäscherei ½")), path)
    assert load(path).name == "Wäscherei ½"
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_the_files_own_mode_stays(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    save({"darby": 1}, path)
    assert path.stat().st_mode & 0o777 == 0o644
    path.chmod(0o600)
    save({"darby": 1}, path)
    assert path.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize("broken", ["write", "fsync", "replace"])
def test_a_save_that_fails_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str) -> None:
    path = tmp_path / "job.toml"
    save(tomllib.loads(JOB), path)

    def fail(*_: object, **__: object) -> None:
        raise OSError("the disk is full")

    if broken == "write":
        monkeypatch.setattr(os, "fdopen", fail)
    elif broken == "fsync":
        monkeypatch.setattr(os, "fsync", fail)
    else:
        monkeypatch.setattr(Path, "replace", fail)
    with pytest.raises(OSError, match="full"):
        save({"darby": 1}, path)
    monkeypatch.undo()
    assert path.read_text("utf-8") == dump(tomllib.loads(JOB))
    assert [p.name for p in tmp_path.iterdir()] == ["job.toml"]


def test_nothing_that_is_no_document_is_written(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    with pytest.raises(TypeError):
        save({"darby": object()}, path)
    assert list(tmp_path.iterdir()) == []
