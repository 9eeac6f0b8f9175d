"""The invented jobs that a new desk begins with."""

from __future__ import annotations

from pathlib import Path

import darby

SKIPPED = "firm"


def folder() -> Path:
    """Where they lie: inside an installed darby, beside ``src`` in its own repository."""
    inside = Path(darby.__file__).parent / "examples"
    return inside if inside.is_dir() else Path(darby.__file__).parents[2] / "examples"


def firm() -> str:
    """The invented firm."""
    return (folder() / "firm.toml").read_text(encoding="utf-8")


def jobs() -> dict[str, str]:
    """The invented jobs by name; those that need files beside them are left out."""
    found = {path.stem: path.read_text(encoding="utf-8") for path in sorted(folder().glob("*.toml"))}
    return {name: text for name, text in found.items() if name != SKIPPED and "csv =" not in text}
