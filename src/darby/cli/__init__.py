"""The commands. Exit codes: 0 done, 1 something is asked of you or waits, 2 what was written cannot be read."""

from __future__ import annotations


def run() -> None:
    """Run the command line."""
    import sys

    from darby.cli.app import app

    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")  # a screen that knows no ½ or ─ shows ?, and the words around it
    app(prog_name="darby")
