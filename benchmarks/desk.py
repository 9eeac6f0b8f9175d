"""The desk at the server: pages of the example, a change, the first load, what the data base is asked."""

from __future__ import annotations

import gzip
import logging
import os
import re
import tempfile
from pathlib import Path
from time import perf_counter
from uuid import uuid4

from benchmarks.table import Row, show

ROUNDS = 5
FILES = (
    "desk/desk.css",
    "desk/signal.css",
    "desk/desk.js",
    "desk/queue.js",
    "desk/mark.svg",
    "django_htmx/htmx-2.min.js",
)


def main() -> None:
    """One desk in a folder of its own; times are from request to answer, in process."""
    from darby.desk.home import Home
    from darby.desk.serving import owner, prepare

    with tempfile.TemporaryDirectory() as folder:
        prepare(Home(Path(folder) / "data"))
        from django.conf import settings
        from django.test import Client

        logging.disable(logging.WARNING)
        settings.ALLOWED_HOSTS.append("testserver")
        client = Client()
        client.force_login(owner())
        try:
            pages(client)
            change(client)
            first_load(client)
            questions(client)
        finally:
            os.environ.pop("DARBY_DESK_DATA", None)


def took(client, path: str) -> float:
    """Milliseconds of the quickest of some."""
    quickest = 1e9
    for _ in range(ROUNDS):
        begun = perf_counter()
        answer = client.get(path)
        quickest = min(quickest, perf_counter() - begun)
        if answer.status_code != 200:
            raise SystemExit(f"{path}: {answer.status_code}")
    return quickest * 1e3


def pages(client) -> None:
    from darby.desk.places import stage_pages

    bare = took(client, "/no-signal")
    every = {"/": took(client, "/")} | {n: took(client, f"/job/firehall/{n}/") for n in stage_pages()}
    rows = [Row("a page that says one sentence", bare, "ms")]
    rows += [Row(n, t, "ms", f"{t / bare:.1f} x a bare page", most=150) for n, t in every.items()]
    show(f"Pages of the example at the server, best of {ROUNDS}, answers kept", rows)


def change(client) -> None:
    from darby.desk.kept import saving

    quickest = 1e9
    for n in range(ROUNDS):
        now = saving.latest("garden-wall")
        text = re.sub(r'length = "[^"]+"', f'length = "{61 + n}\'"', now.text, count=1)
        begun = perf_counter()
        answer = client.post("/document/garden-wall/text", {"text": text, "base": now.number})
        quickest = min(quickest, perf_counter() - begun)
        if answer.status_code != 200:
            raise SystemExit(f"change: {answer.status_code}")
    show(
        "A length changed, to the page with every answer that changed", [Row("change", quickest * 1e3, "ms", most=200)]
    )


def first_load(client) -> None:
    from django.contrib.staticfiles.finders import find

    parts = [client.get("/job/firehall/wall/").content, client.get("/drawing.css").content]
    parts += [Path(find(name)).read_bytes() for name in FILES]
    whole, sent = sum(map(len, parts)), sum(len(gzip.compress(p, 6)) for p in parts)
    rows = [Row("as written", whole / 1e3, "kB"), Row("as sent, compressed", sent / 1e3, "kB", most=150)]
    show("First load of a wall: page with its drawing, styles, scripts", rows)


def questions(client) -> None:
    from django.db import connection
    from django.test.utils import CaptureQueriesContext

    from darby.desk.kept import saving
    from darby.desk.serving import owner

    who, rows = owner(), []

    def asked(path: str) -> int:
        client.get(path)
        with CaptureQueriesContext(connection) as seen:
            client.get(path)
        return len(seen)

    text, there = saving.latest("garden-wall").text, len(saving.jobs())
    for many in (there, 20, 100):
        for n in range(len(saving.jobs()), many):
            saving.keep(f"copy-{n}", text, who)
        rows.append(Row(f"the list with {many} jobs", asked("/"), "questions", f"{took(client, '/'):.0f} ms"))
    lines = 0
    for many in (10, 1000):
        for _ in range(lines, many):
            saving.note_down(uuid4(), "garden-wall", "note", who, said={"text": "scratched"})
        lines = many
        rows.append(Row(f"the record with {many:,} lines", asked("/job/garden-wall/record/"), "questions"))
    show("What the data base is asked", rows)


if __name__ == "__main__":
    main()
