"""`darby new`: a job file to fill in, and a firm file beside it if there is none yet."""

from __future__ import annotations

from importlib import resources
from pathlib import Path


def write_starter(file: Path, firm: Path | None) -> list[Path]:
    """Write ``file``, and ``firm.toml`` beside it unless it is there or another is named.

    Raises
    ------
    FileExistsError
        if ``file`` is there already; nothing is written then.
    """
    if file.exists():
        raise FileExistsError(17, "there already", str(file))
    kept = resources.files("darby.cli") / "starter"
    beside = firm or file.parent / "firm.toml"
    file.parent.mkdir(parents=True, exist_ok=True)
    written = [file]
    named = beside.name if beside.parent == file.parent else str(beside.resolve())
    if not beside.exists():
        beside.write_text((kept / "firm.toml").read_text(encoding="utf-8"), encoding="utf-8")
        written.append(beside)
    text = (kept / "job.toml").read_text(encoding="utf-8").replace('firm = "firm.toml"', f'firm = "{named}"')
    with file.open("x", encoding="utf-8") as out:
        out.write(text)
    return written
