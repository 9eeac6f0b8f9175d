"""The lines that docs/working.md shows are true."""

from pathlib import Path

import pytest

from tests.working.evaluator import true

DOC = (Path(__file__).parents[2] / "docs" / "working.md").read_text(encoding="utf-8")
LINES = DOC.partition("```true\n")[2].partition("```")[0].splitlines()


@pytest.mark.parametrize("line", LINES)
def test_shown_lines_are_true(line: str) -> None:
    assert true(line)


def test_there_are_some() -> None:
    assert len(LINES) > 10
