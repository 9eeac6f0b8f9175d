"""Older files are brought up; newer ones are refused."""

from __future__ import annotations

import pytest

from darby.job import JobError, loads
from darby.job.upgrades import UPGRADES, VERSION, from_0, upgrade

OLD = """
darby = 0
name = "Wash house"
customer = "nobody"
date = 2026-03-02
number = "7"
finish = "dash"

[[walls]]
label = "front"
title = "Front wall"
length = "20'"
height = "9'"
base_kind = "block"
block = "dense"
openings = ["door 3068 at 2', reveal 4\\""]

[[ordered]]
item = "portland"
amount = "12 bags"
"""

NEW = """
darby = 1
[job]
name = "Wash house"
customer = "nobody"
as_of = 2026-03-02
number = "7"

[coats]
finish = "dash"

[[wall]]
id = "front"
name = "Front wall"
length = "20'"
height = "9'"
base = "block"
block = "dense"
openings = ["door 3068 at 2', reveal 4\\""]

[[ordered]]
item = "portland"
amount = "12 bags"
"""


def test_version_0_is_read_as_the_same_job() -> None:
    assert loads(OLD) == loads(NEW)
    assert loads(OLD).hash == loads(NEW).hash


def test_there_is_a_step_from_every_version_to_ours() -> None:
    assert sorted(UPGRADES) == list(range(VERSION))


def test_steps_are_pure() -> None:
    old = {"darby": 0, "name": "x", "walls": [{"label": "a"}]}
    assert from_0(old) == {"darby": 1, "job": {"name": "x"}, "wall": [{"id": "a"}]}
    assert old == {"darby": 0, "name": "x", "walls": [{"label": "a"}]}
    assert upgrade({"darby": 1, "job": {}}, 1) == {"darby": 1, "job": {}}


def test_a_fault_in_an_old_file_is_said_in_todays_words() -> None:
    with pytest.raises(JobError) as caught:
        loads(OLD.replace('label = "front"\n', "").replace('base_kind = "block"', 'base_kind = "blok"'))
    assert [(f.code, f.place) for f in caught.value.faults] == [
        ("job.not-one-of", "surface 1, base"), ("job.missing", "surface 1, id"),
    ]  # fmt: skip


@pytest.mark.parametrize("walls", ["3", '"none"', "[1, 2]", '["a"]', "[[]]", "{ a = 1 }"])
def test_an_old_file_of_no_shape_is_still_only_faults(walls: str) -> None:
    with pytest.raises(JobError):
        loads(f"darby = 0\nwalls = {walls}\n")


def test_both_forms_at_once_are_a_fault() -> None:
    with pytest.raises(JobError) as caught:
        loads(OLD.replace("[[ordered]]", "[job]\nname = 'twice'\n\n[[ordered]]"))
    assert caught.value.faults
