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
    OSError
        if one of the two cannot be written; neither is there then.
    """
    if file.exists():
        raise FileExistsError(17, "there already", str(file))
    kept = resources.files("darby.cli") / "starter"
    beside = firm or file.parent / "firm.toml"
    named = beside.name if beside.parent == file.parent else beside.resolve().as_posix()
    text = (kept / "job.toml").read_text(encoding="utf-8").replace('firm = "firm.toml"', f'firm = "{named}"')
    written = [(file, text)]
    if not beside.exists():
        written.append((beside, (kept / "firm.toml").read_text(encoding="utf-8")))
    done: list[Path] = []
    try:
        for path, content in written:
            path.parent.mkdir(parents=True, exist_ok=True)
            with path.open("x", encoding="utf-8") as out:
                done.append(path)
                out.write(content)
    except OSError:
        for path in done:
            path.unlink(missing_ok=True)
        raise
    return done
