"""Help that a plasterer can read, in both languages, and completion."""

import re

import pytest

from tests.cli.running import darby

COMMANDS = ("new", "check", "answer", "why", "sum", "papers", "rules", "schema")
PYTHON = r"[<>{}]|\b(?:str|int|bool|float|path|True|False|TEXT|INTEGER|PATH)\b|\blist\[|\bNone\b(?!:)"


def test_every_command_is_listed_in_one_line():
    said = darby("--help").stdout
    for name in COMMANDS:
        (line,) = re.findall(rf"^  {name} .*$", said, re.MULTILINE)
        assert not line.endswith("...")
        assert len(line) <= 80


@pytest.mark.parametrize("command", COMMANDS)
def test_no_word_of_python(command):
    said = darby(command, "--help").stdout
    assert not re.search(PYTHON, said), said
    assert said.startswith(f"Usage: darby {command}")


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_what_is_asked_wrongly(command):
    result = darby(*([command] if command else []), "--wibble")
    assert result.exit_code == 2
    assert "Traceback" not in result.stderr
    assert not re.search(r"<\w", result.stderr)


def test_no_words_at_all_are_answered_with_help():
    result = darby()
    assert "Usage: darby" in result.stdout + result.stderr


def test_an_unknown_command():
    result = darby("anser")
    assert result.exit_code == 2
    assert "answer" in result.stderr  # the nearest


def test_a_file_is_asked_for_by_its_name():
    result = darby("answer")
    assert result.exit_code == 2
    assert "FILE" in result.stderr
