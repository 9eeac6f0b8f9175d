"""darby as a process of its own: what a shell sees. Few, because each costs a start."""

import os
import subprocess
import sys

import pytest

from tests.cli.running import FIREHALL, PLAIN, ROOT, job_file


def shell(*words, **env):
    given = {k: v for k, v in os.environ.items() if not k.startswith(("LC_", "LANG", "DARBY"))} | PLAIN | env
    return run([sys.executable, "-m", "darby", *map(str, words)], env=given)


def run(words, **more):
    return subprocess.run(words, **{"capture_output": True, "text": True, "cwd": ROOT, "timeout": 120} | more)


def test_version_is_said_before_anything_heavy_is_loaded():
    code = (
        "import sys; sys.argv = ['darby', '--version']\n"
        "from darby.__main__ import main; main()\n"
        "heavy = {'typer', 'rich', 'pydantic', 'numpy', 'shapely', 'typst', 'tomllib'} & set(sys.modules)\n"
        "assert not heavy, heavy\n"
        "assert not [m for m in sys.modules if m.startswith('darby.') and m != 'darby.__main__']\n"
    )
    done = run([sys.executable, "-c", code])
    assert done.returncode == 0, done.stderr
    assert done.stdout == "darby 0.1.0\n"


@pytest.mark.parametrize("words", [("--help",), ("sum", "60' x 6' x 2, 1/2 block"), ("rules", "thickness")])
def test_what_needs_no_job_loads_no_geometry_and_no_solver(words):
    code = (
        f"import sys; sys.argv = ['darby', *{words!r}]\n"
        "from darby.__main__ import main\n"
        "try:\n    main()\nexcept SystemExit as end:\n    assert not end.code, end.code\n"
        "heavy = {'numpy', 'shapely', 'highspy', 'typst'} & set(sys.modules)\n"
        "assert not heavy, heavy\n"
    )
    done = run([sys.executable, "-c", code])
    assert done.returncode == 0, done.stderr


def test_importing_darby_loads_nothing_heavy():
    code = "import sys, darby; assert not {'typer', 'rich', 'pydantic', 'numpy', 'shapely'} & set(sys.modules)"
    assert run([sys.executable, "-c", code]).returncode == 0


def test_a_good_job():
    done = shell("answer", FIREHALL)
    assert (done.returncode, done.stderr) == (0, "")
    assert "All of it" in done.stdout


def test_a_broken_job(tmp_path):
    done = shell("answer", job_file(tmp_path, ('length = "34\'"', 'length = "34"')))
    assert (done.returncode, done.stdout) == (2, "")
    assert 'surface "bay-east"' in done.stderr
    assert "Traceback" not in done.stderr


def test_no_colour_where_none_is_wanted_and_none_in_a_pipe():
    asked = shell("rules", "thickness", "block", FORCE_COLOR="1", NO_COLOR="1").stdout
    assert "\x1b[3" not in asked
    assert "\x1b[9" not in asked
    env = {k: v for k, v in PLAIN.items() if k != "NO_COLOR"}
    given = {k: v for k, v in os.environ.items() if k not in ("NO_COLOR", "FORCE_COLOR")} | env
    piped = run([sys.executable, "-m", "darby", "sum", "24' x 8', 1/2"], env=given)
    assert "\x1b" not in piped.stdout


def test_a_reader_that_goes_away_is_no_fault():
    """``darby rules | head -1``."""
    done = run(["bash", "-c", f"{sys.executable} -m darby rules | head -1"])
    assert "Traceback" not in done.stderr


def test_an_old_screen_that_knows_no_fractions_or_rules_still_gets_the_words():
    """A pipe that is not UTF-8 must not end in a traceback."""
    done = shell("answer", FIREHALL, PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert "Traceback" not in done.stderr
    assert "All of it" in done.stdout


@pytest.mark.parametrize("shell_name", ["bash", "fish"])
def test_completion(shell_name):
    # the script is asked for by name: which shell this test runs under is nobody's business
    done = shell(_DARBY_COMPLETE=f"source_{shell_name}")
    assert "darby" in done.stdout
    assert "Traceback" not in done.stderr


def test_completion_names_the_commands():
    done = shell(_DARBY_COMPLETE="complete_bash", COMP_WORDS="darby an", COMP_CWORD="1")
    assert done.stdout.split() == ["answer"]
