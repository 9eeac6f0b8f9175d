"""``darby``: ``--version`` is answered before anything heavy is loaded."""

from __future__ import annotations

import sys


def main() -> None:
    """The command."""
    if sys.argv[1:] in (["--version"], ["-V"]):
        from darby import __version__

        print(f"darby {__version__}")
        return
    from darby.cli import run

    run()


if __name__ == "__main__":
    main()
