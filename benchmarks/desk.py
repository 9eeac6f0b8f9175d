"""The desk at the server: pages of the example against a bare page of Django's, a change, the first load, questions."""

from __future__ import annotations

import gzip
import logging
import os
import re
import tempfile
from pathlib import Path
from time import perf_counter, process_time
from uuid import uuid4

from django.http import HttpResponse
from django.urls import path

from benchmarks.table import Row, show

ROUNDS = 7
SAID = b"<!doctype html><html lang=en><title>bare</title><p>One sentence.</p></html>"
NAMED_IN = re.compile(rb"""<(?:script|link)[^>]*?(?:src|href)="(/[^"]+)\"""")
BROUGHT_IN = re.compile(rb"""import [^"]*"\./([\w.]+)\"""")


def bare(_request) -> HttpResponse:
    """What Django needs to say one sentence."""
    return HttpResponse(SAID)


urlpatterns = [path("bare", bare)]
"""Addresses of the bare page: this benchmark's own, no part of the desk."""


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


def took(client, address: str) -> tuple[float, float]:
    """Milliseconds by the clock, and of the processor, of the quickest of some."""
    clock = processor = 1e9
    for _ in range(ROUNDS):
        began, began_working = perf_counter(), process_time()
        answer = client.get(address)
        clock, processor = min(clock, perf_counter() - began), min(processor, process_time() - began_working)
        if answer.status_code != 200:
            raise SystemExit(f"{address}: {answer.status_code}")
    return clock * 1e3, processor * 1e3


def bare_pages() -> tuple[tuple[float, float], tuple[float, float]]:
    """The bare page with nothing around it, and behind the desk's own doors: session, person, policy, compression."""
    from django.conf import settings
    from django.test import Client, override_settings

    from darby.desk.doors import for_crew
    from darby.desk.serving import owner

    for_crew(bare)
    with override_settings(ROOT_URLCONF=__name__, MIDDLEWARE=[]):
        alone = took(Client(), "/bare")
    with override_settings(ROOT_URLCONF=__name__, MIDDLEWARE=settings.MIDDLEWARE):
        behind = Client()
        behind.force_login(owner())
        guarded = took(behind, "/bare")
    return alone, guarded


def pages(client) -> None:
    from darby.desk.places import stage_pages

    alone, guarded = bare_pages()
    every = {"/": "/"} | {n: f"/job/firehall/{n}/" for n in stage_pages()}
    rows = [
        Row("a bare page of Django's", alone[0], "ms", f"{alone[1]:.2f} ms of the processor"),
        Row("the same behind the desk's doors", guarded[0], "ms", f"{guarded[1]:.2f} ms of the processor"),
    ]
    for name, address in every.items():
        clock, processor = took(client, address)
        ratios = f"{processor / alone[1]:.0f} x bare, {processor / guarded[1]:.1f} x behind the doors"
        rows.append(Row(name, clock, "ms", f"{processor:.1f} ms of the processor: {ratios}", most=150))
    show(f"Pages of the example at the server, best of {ROUNDS}, answers kept", rows)


def change(client) -> None:
    from darby.desk.kept import saving

    rows = []
    for document, feet in (("garden-wall", 61), ("firehall", 25)):
        clock = processor = 1e9
        for n in range(ROUNDS):
            now = saving.latest(document)
            text = re.sub(r'length = "[^"]+"', f'length = "{feet + n}\'"', now.text, count=1)
            if text == now.text:
                raise SystemExit(f"{document}: nothing was changed")
            began, began_working = perf_counter(), process_time()
            answer = client.post(f"/document/{document}/text", {"text": text, "base": now.number})
            clock, processor = min(clock, perf_counter() - began), min(processor, process_time() - began_working)
            if answer.status_code != 200 or b'class="changed"' not in answer.content:
                raise SystemExit(f"change: {answer.status_code}")
        rows.append(Row(document, clock * 1e3, "ms", f"{processor * 1e3:.0f} ms of the processor", most=200))
    show(f"A length changed, to the page with every answer that changed, best of {ROUNDS}", rows)


def first_load(client) -> None:
    """Everything that a browser fetches for its first page: what the page names, and what its scripts bring in."""
    rows = []
    for document in ("firehall", "garden-wall"):
        page = f"/job/{document}/wall/"
        files, ahead = {page: b"".join(client.get(page))}, []
        ahead = [name.decode() for name in NAMED_IN.findall(files[page])]
        while ahead:
            address = ahead.pop()
            if address in files:
                continue
            files[address] = b"".join(client.get(address))
            folder = address.rpartition("/")[0]
            if address.endswith(".js"):
                ahead += [f"{folder}/{name.decode()}" for name in BROUGHT_IN.findall(files[address])]
        sent = sum(len(gzip.compress(part, 6)) for part in files.values())
        whole = sum(map(len, files.values()))
        most = max(files, key=lambda name: len(files[name]))
        called = most.rpartition("/")[2] or "the page"
        beside = f"{len(files)} files, the heaviest {called} {len(files[most]) / 1e3:.0f} kB"
        rows += [
            Row(f"{document} as sent, compressed", sent / 1e3, "kB", beside, most=150),
            Row(f"{document} as written", whole / 1e3, "kB", f"the page {len(files[page]) / 1e3:.0f} kB"),
        ]
    show("First load of a wall, the owner's: page with its drawings, styles, scripts", rows)


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
        rows.append(
            Row(
                f"the list with {many} jobs", asked("/"), "questions", f"{took(client, '/')[1]:.0f} ms of the processor"
            )
        )
    lines = 0
    for many in (10, 1000):
        for _ in range(lines, many):
            saving.note_down(uuid4(), "garden-wall", "note", who, said={"text": "scratched"})
        lines = many
        rows.append(Row(f"the record with {many:,} lines", asked("/job/garden-wall/record/"), "questions"))
    show("What the data base is asked", rows)


if __name__ == "__main__":
    main()
