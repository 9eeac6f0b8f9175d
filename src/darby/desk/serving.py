"""`darby desk`: makes the folder, brings the data base up to date, begins with the examples, and serves."""

from __future__ import annotations

import gc
import os
import socket
import sys
import webbrowser
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, cast

from darby.desk import pocketing
from darby.desk.home import VARIABLE, Home
from darby.desk.open_now import serving
from darby.desk.uploads.limits import WAITRESS
from darby.desk.uploads.slow import hurried

if TYPE_CHECKING:
    from django.core.handlers.wsgi import WSGIHandler

    from darby.desk.kept.models import Person

LOOPBACK = "127.0.0.1"
THREADS = 8


def prepare(home: Home) -> None:
    """Django ready on this folder: secrets made, the data base up to date, the examples in a new one.

    Raises
    ------
    OSError
        if the folder cannot be made or written.
    """
    home.make()
    os.environ[VARIABLE] = str(home.folder)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "darby.desk.settings")
    import django
    from django.core.management import call_command

    django.setup()
    call_command("migrate", verbosity=0, interactive=False)
    _begin()


def application() -> WSGIHandler:
    """The desk as a WSGI application."""
    from django.core.wsgi import get_wsgi_application

    return get_wsgi_application()


def owner() -> Person:
    """The first owner; made if there is none yet, in the language of this system."""
    from darby.desk.kept.models import OWNER, Person
    from darby.words import LANGUAGES

    found = Person.objects.filter(role=OWNER, is_active=True).order_by("id").first()
    if found is not None:
        return found
    asked = next(
        (os.environ[n][:2] for n in ("DARBY_LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG") if os.environ.get(n)), ""
    )
    return Person.objects.add("owner", OWNER, language=asked if asked in LANGUAGES else "en")


def _begin() -> None:
    """The invented firm and its jobs, in a data base that holds no document yet."""
    from django.db import transaction

    from darby.desk import examples
    from darby.desk.kept import FIRM, saving
    from darby.desk.kept.models import Revision

    who = owner()
    if Revision.objects.exists():
        return
    with transaction.atomic():
        saving.keep(FIRM, examples.firm(), who)
        for name, text in examples.jobs().items():
            saving.keep(name, text, who)


def link(address: str) -> str:
    """A link that signs the owner in, once."""
    from darby.desk.tickets import ticket_for

    return f"{address}/in/{ticket_for(owner())}"


def serve(
    home: Home, *, port: int, browser: bool, say: Callable[[str, str], None], share: bool = False, name: str = ""
) -> None:
    """Serve on this machine until it is stopped; ``say(code, value)`` tells the terminal.

    Parameters
    ----------
    share
        serve the network of the house too, by https with a certificate made here.
    name
        the name under which another server on this machine hands requests on, after it has spoken https with them.

    Raises
    ------
    NoNetwork
        if it is to be shared and this machine is on no network.
    IsOpen
        if a copy is put back in the folder just now.
    OSError
        if the folder cannot be used, or a port is taken.
    """
    with serving(home):
        _serve(home, port=port, browser=browser, say=say, share=share, name=name)


def _serve(home: Home, *, port: int, browser: bool, say: Callable[[str, str], None], share: bool, name: str) -> None:
    from waitress.server import create_server  # type: ignore[import-untyped]

    _told(share=share, name=name)
    prepare(home)
    listening = socket.socket()
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    listening.bind((LOOPBACK, port))
    server = hurried(
        create_server(application(), sockets=[listening], threads=THREADS, **WAITRESS, **(IN_FRONT if name else {}))
    )
    address = f"https://{name}" if name else f"http://{LOOPBACK}:{listening.getsockname()[1]}"
    first = link(address)
    say("desk.serving-name" if name else "desk.serving", address)
    if name and not sys.stdout.isatty():  # what it prints is kept by whatever started it, for many to read
        say("desk.sign-in-file", str(_written(home, first)))
    else:
        say("desk.sign-in-link", first)
    _pocket_sheet()
    front = None
    if share:
        from darby.desk.sharing import open_to_network

        front = open_to_network(home, application(), port=port + 1 if port else 0, say=say, sign_in=link)
    if browser:
        webbrowser.open(first)
    _seldom_looked_through()
    try:
        server.run()
    finally:
        server.close()
        pocketing.stop()
        if front is not None:
            front.close()


SELDOM = (20_000, 10, 10)
"""Objects made until the youngest are looked through for rubbish, and how often until the older ones are."""


def _seldom_looked_through() -> None:
    """What is loaded by now stays for good: looking through all of it held up a page for 0.1 s, again and again."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(*SELDOM)


def _written(home: Home, first: str) -> Path:
    """The link in a file that only this user reads, in place of the one of the last start."""
    file = home.folder / "sign-in-link"
    file.unlink(missing_ok=True)
    home.write_secret(file.name, f"{first}\n")
    return file


def _pocket_sheet() -> None:
    """The pocket sheet, in the owner's language, is made in a while: who asks for it first need not wait."""
    from darby.desk.kept import saving
    from darby.words import Language

    pocketing.begin(saving.firm_text(), cast(Language, owner().language))


IN_FRONT = {
    "url_scheme": "https",
    "trusted_proxy": LOOPBACK,
    "trusted_proxy_headers": {"x-forwarded-for"},
    "clear_untrusted_proxy_headers": True,
}
"""What waitress is told when a server on this machine has spoken https with whoever comes."""


def _told(*, share: bool, name: str) -> None:
    """Tell Django's settings, before they are read, how the desk is called from outside."""
    if share:
        from darby.desk.sharing import at_home

        os.environ["DARBY_DESK_HOSTS"] = ",".join(at_home())
    if name:
        os.environ |= {"DARBY_DESK_HOSTS": name, "DARBY_DESK_TLS": "1"}
