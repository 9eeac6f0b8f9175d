"""``python -m benchmarks``: the table of every module here that has a ``main()``; or of those that are named."""

from __future__ import annotations

import os
import platform
import subprocess
import sys
from importlib import import_module
from pkgutil import iter_modules

import benchmarks

NO_BENCHMARK = ("__main__", "table")


def main(asked: list[str]) -> int:
    names = [m.name for m in iter_modules(benchmarks.__path__) if m.name not in NO_BENCHMARK]
    unknown = sorted(set(asked) - set(names))
    if unknown:
        print(f"No benchmark called {', '.join(unknown)}. There are: {', '.join(names)}.", file=sys.stderr)
        return 2
    if len(asked) != 1:  # each in a process of its own: what a peer leaves behind in a solver is not the next one's
        return max(subprocess.run([sys.executable, "-m", "benchmarks", name], check=False).returncode for name in
                   [n for n in asked or names if hasattr(import_module(f"benchmarks.{n}"), "main")])  # fmt: skip
    load = f", load {os.getloadavg()[0]:.1f}" if hasattr(os, "getloadavg") else ""
    print(f"Python {platform.python_version()}, {os.cpu_count()} processors{load}")
    print("On a busy machine times are too long; ratios and processor time are less so.")
    print(f"\n=== {asked[0]} ===", flush=True)
    import_module(f"benchmarks.{asked[0]}").main()
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
