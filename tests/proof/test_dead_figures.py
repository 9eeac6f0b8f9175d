"""No figure stands in the rule book that no check depends on (make proof)."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from darby.rulebook import default

ROOT = Path(__file__).parents[2]

pytestmark = pytest.mark.proof


@pytest.fixture(autouse=True)
def _only_in_proof(request: pytest.FixtureRequest) -> None:
    if "proof" not in request.config.getoption("-m").replace("not proof", ""):
        pytest.skip("long; make proof")


def judged(out: Path, *arguments: str) -> dict[str, Any]:
    run = subprocess.run(
        [sys.executable, "-m", "tests.proof.dead_figures", "--out", str(out), *arguments],
        cwd=ROOT, capture_output=True, text=True, check=False, timeout=3600,
    )  # fmt: skip
    assert out.exists(), run.stderr
    return json.loads(out.read_text(encoding="utf-8"))  # type: ignore[no-any-return]


TOY = """
import pytest
from darby.rulebook import default, figure

KEPT = default()["{number}"].number      # taken when the file is imported


def test_pins_the_number():
    assert default()["{number}"].number == pytest.approx({value})


def test_pins_the_range():
    assert default()["{span}"].low < {middle} < default()["{span}"].high


def test_reads_and_checks_nothing():
    assert default()["{idle}"].number == default()["{idle}"].number


def test_code_against_itself():
    assert default()["{number}"].number == KEPT


def test_names_the_rule():
    assert figure("{subject}").figure.id == "{rule}"


def test_reads_the_whole_book():
    assert [(f.value, f.low) for f in default()] == {whole}
"""


def test_the_proof_itself_tells_the_living_from_the_dead(tmp_path: Path) -> None:
    book = default()
    numbers = [f for f in book if f.kind == "number" and f.value]
    number, idle, unread = numbers[:3]
    span = next(f for f in book if f.kind == "range" and f.low and f.high and f.low * 1.1 > (f.low + f.high) / 2.1)
    rule = next(f for f in book if f.kind == "rule" and len(book.on(f.subject)) == 1)
    text = TOY.format(
        number=number.id, value=number.value, span=span.id, middle=(span.low or 0) * 1.05, idle=idle.id,
        subject=rule.subject, rule=rule.id, whole=[(f.value, f.low) for f in book],
    )  # fmt: skip
    (tmp_path / "test_toy.py").write_text(text, encoding="utf-8")
    ids = (number.id, idle.id, unread.id, span.id, rule.id)
    found = judged(tmp_path / "out.json", str(tmp_path), "--workers", "1", "--only", *ids)
    pinned = {v["id"]: v["pinned_by"].rpartition("::")[2] for v in found["verdicts"]}
    assert pinned == {
        number.id: "test_pins_the_number", span.id: "test_pins_the_range", rule.id: "test_names_the_rule",
        idle.id: "", unread.id: "",
    }  # fmt: skip
    dead = {v["id"]: v["dead"] for v in found["verdicts"] if v["dead"]}
    assert dead == {
        idle.id: "no check turns red when it is shifted by a tenth", unread.id: "no check reads it",
    }  # fmt: skip
    assert [n.rpartition("::")[2] for n in found["discounted"]] == ["test_reads_the_whole_book"]


def test_no_figure_is_dead(tmp_path: Path) -> None:
    found = judged(tmp_path / "out.json")
    assert [f"{v['id']}: {v['dead']}" for v in found["verdicts"] if v["dead"]] == []
