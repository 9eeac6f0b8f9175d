"""No wrong change drawn by chance goes unnoticed by the tests of its room (make proof)."""

from __future__ import annotations

import ast
import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.proof.equal import EQUAL
from tests.proof.mutants import ROOMS, Mutant, drawn, mutants

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src" / "darby"
SEED = 1

pytestmark = pytest.mark.proof


@pytest.fixture(autouse=True)
def _only_in_proof(request: pytest.FixtureRequest) -> None:
    if "proof" not in request.config.getoption("-m").replace("not proof", ""):
        pytest.skip("long; make proof")


TOY = '''
"""A room of one file."""


def area(w, long, high, least, bars):
    """1 - 1 is no formula here."""
    if long < 1 or not high:
        return None
    w.step("k", "max(long * high - 2, least)", "sq ft", "room.area", long=long, high=high, least=least)
    return min(bars + 1, 3)
'''


def said(toy: str, folder: Path) -> set[tuple[str, str, str]]:
    (folder / "room").mkdir(parents=True, exist_ok=True)
    (folder / "room" / "area.py").write_text(toy, encoding="utf-8")
    return {(m.kind, m.was, m.now) for m in mutants(folder, "room")}


def test_every_small_change_of_a_toy_is_found(tmp_path: Path) -> None:
    assert said(TOY, tmp_path) == {
        ("code", "<", "<="), ("code", "1", "2"), ("code", "or", "and"), ("code", "not ", ""), ("code", "min", "max"),
        ("code", "+", "-"), ("code", "3", "4"),
        ("formula", "max", "min"), ("formula", "*", "/"), ("formula", "-", "+"), ("formula", "2", "3"),
        ("formula", "2", "0 * 2"), ("formula", "high", "(2 * high)"),
        ("formula", "max(long * high - 2, least)", "(long * high - 2 + 0 * (least))"),
        ("formula", "max(long * high - 2, least)", "(least + 0 * (long * high - 2))"),
    }  # fmt: skip


def test_the_draw_does_not_hang_on_where_a_line_stands(tmp_path: Path) -> None:
    said(TOY, tmp_path)
    before = [m.name for m in drawn(tmp_path, SEED, 4, 4, ("room",))]
    said(TOY.replace("    return min", "    w.note('a longer file')\n\n    return min"), tmp_path)
    assert [m.name for m in drawn(tmp_path, SEED, 4, 4, ("room",))] == before
    assert [m.name for m in drawn(tmp_path, SEED + 1, 4, 4, ("room",))] != before


def every() -> list[Mutant]:
    return [m for room in ROOMS for m in mutants(SOURCE, room)]


def test_every_mutant_of_the_rooms_is_another_program_with_a_name_of_its_own() -> None:
    found = every()
    assert len({m.name for m in found}) == len(found) > 5000
    texts = {m.path: (SOURCE / m.path).read_text(encoding="utf-8") for m in found}
    for m in found[::7]:
        changed = m.applied(texts[m.path])
        assert ast.dump(ast.parse(changed)) != ast.dump(ast.parse(texts[m.path])), m.name


def test_an_equal_mutant_is_one_that_can_still_be_made() -> None:
    assert set(EQUAL) - {m.name for m in every()} == set()


def judged(out: Path, *arguments: str) -> list[dict[str, Any]]:
    run = subprocess.run(
        [sys.executable, "-m", "tests.proof.mutation", "--out", str(out), *arguments],
        cwd=ROOT, capture_output=True, text=True, check=False, timeout=7200,
    )  # fmt: skip
    assert out.exists(), run.stderr
    return json.loads(out.read_text(encoding="utf-8"))  # type: ignore[no-any-return]


def test_a_mutant_that_is_called_equal_is_killed_by_no_test(tmp_path: Path) -> None:
    found = judged(tmp_path / "out.json", "--named", *EQUAL)
    assert {v["name"]: v["fate"] for v in found} == dict.fromkeys(EQUAL, "equal")


def test_no_wrong_change_that_is_drawn_goes_unnoticed(tmp_path: Path) -> None:
    found = judged(tmp_path / "out.json", "--seed", str(SEED))
    assert len(found) > 100
    assert [v["name"] for v in found if v["fate"] == "survived"] == []
