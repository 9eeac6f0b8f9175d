"""The desk's folder: where the data base lies, and the secret that signs sessions. Nobody else may read it."""

from __future__ import annotations

import os
import secrets
from dataclasses import dataclass
from pathlib import Path

VARIABLE = "DARBY_DESK_DATA"
"""Environment variable that tells Django's settings where the folder is."""


@dataclass(frozen=True, slots=True)
class Home:
    """The folder of one desk."""

    folder: Path

    @property
    def base(self) -> Path:
        """The SQLite file."""
        return self.folder / "desk.sqlite3"

    @property
    def secret_file(self) -> Path:
        """What signs sessions."""
        return self.folder / "secret"

    def make(self) -> None:
        """Make the folder (0700) and the secret (0600) unless they are there.

        Raises
        ------
        OSError
            if the folder cannot be made or written.
        """
        self.folder.mkdir(parents=True, exist_ok=True)
        self.folder.chmod(0o700)
        if not self.secret_file.exists():
            self.write_secret("secret", secrets.token_urlsafe(64))
        if not self.base.exists():
            os.close(os.open(self.base, os.O_CREAT | os.O_RDWR, 0o600))

    def write_secret(self, name: str, text: str) -> None:
        """Write a file that only this user reads; one that is there stays as it is."""
        try:
            handle = os.open(self.folder / name, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
        except FileExistsError:
            return
        with os.fdopen(handle, "w", encoding="utf-8") as out:
            out.write(text)
            out.flush()
            os.fsync(out.fileno())

    @property
    def secret(self) -> str:
        """The secret."""
        return self.secret_file.read_text(encoding="utf-8").strip()


def usual() -> Home:
    """The folder that this system keeps for a user's data of darby."""
    from platformdirs import user_data_path

    return Home(user_data_path("darby", appauthor=False) / "desk")


def named() -> Home | None:
    """The folder that the environment names; None outside a running desk."""
    folder = os.environ.get(VARIABLE)
    return Home(Path(folder)) if folder else None
