"""The commands. Exit codes: 0 done, 1 something is asked of you or waits, 2 what was written cannot be read."""

from __future__ import annotations


def run() -> None:
    """Run the command line."""
    from darby.cli.app import app

    app(prog_name="darby")
