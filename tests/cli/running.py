"""Runs darby as a user does, in this process; and the files that the tests write."""

from pathlib import Path

from typer.testing import CliRunner

from tests.answers.jobs import FIRM, HEAD, JOB, WALL, changed

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples"
FIREHALL = EXAMPLES / "firehall.toml"
JOBS = sorted(p for p in EXAMPLES.glob("*.toml") if "darby_firm" not in p.read_text(encoding="utf-8"))

PLAIN = {"COLUMNS": "110", "LANG": "C", "LC_ALL": "C", "DARBY_LANGUAGE": "", "NO_COLOR": "1"}


def darby(*words, **env):
    """What ``darby words`` prints and how it ends. A programming error is raised, not printed."""
    from darby.cli.app import app

    return CliRunner().invoke(app, [str(w) for w in words], env=PLAIN | env, catch_exceptions=False, prog_name="darby")


def job_file(folder, *changes, firm=(), text=JOB, firm_text=FIRM):
    """The example in ``folder`` with changes to job and firm."""
    (folder / "firm.toml").write_text(changed(firm_text, *firm), encoding="utf-8")
    path = folder / "job.toml"
    path.write_text(changed(text, *changes), encoding="utf-8")
    return path


def lone_wall(folder):
    """A job without a firm."""
    path = folder / "lone.toml"
    path.write_text(HEAD + WALL.format(n=0, length=24), encoding="utf-8")
    return path


def files_in(folder):
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}
