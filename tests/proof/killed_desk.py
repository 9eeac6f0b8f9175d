"""A desk in a process of its own, to be killed: ``python -m tests.proof.killed_desk FOLDER [early]``.

With ``early`` it tells that a line is kept before it is: a fault made on purpose, that the test of kills must find.
"""

from __future__ import annotations

import sys
import threading
from pathlib import Path
from typing import Any

from darby.desk.home import Home
from darby.desk.serving import serve


def _tell_early() -> None:
    from uuid import UUID

    from darby.desk.kept import saving

    keeping = saving.note_down

    def early(id: UUID, *args: Any, **more: Any) -> tuple[Any, bool]:
        threading.Timer(0.05, lambda: keeping(id, *args, **more)).start()
        return None, True

    saving.note_down = early  # type: ignore[assignment]


def main() -> None:
    home = Home(Path(sys.argv[1]))
    if "early" in sys.argv[2:]:
        # Django is ready only while it serves: the fault is put in just before the first link is made.
        from darby.desk import serving

        making = serving.link

        def link(address: str) -> str:
            _tell_early()
            return making(address)

        serving.link = link
    serve(home, port=0, browser=False, say=lambda code, value: print(code, value, flush=True))


if __name__ == "__main__":
    main()
