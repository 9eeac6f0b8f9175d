"""A desk that serves, for tests: its own folder, waitress in a thread, people who may sign in."""

from __future__ import annotations

import http.cookiejar
import re
import threading
import urllib.error
import urllib.parse
import urllib.request
from dataclasses import dataclass
from pathlib import Path

BREAKS = r"(?<=>)\s*\n\s*|\s*\n\s*(?=<)"  # of a page, between its elements: how a template is set out is no matter

TAG = re.compile(r"<[a-z][^<>]*>")


@dataclass
class Reply:
    status: int
    text: str
    headers: dict[str, str]
    address: str


class Browserless:
    """Somebody with a session, without a browser."""

    def __init__(self, address: str, sign_in: str = "") -> None:
        self.address = address
        jar = http.cookiejar.CookieJar()
        self.jar = jar
        self.opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(jar), _Stay())
        if sign_in:
            self.get(sign_in)

    def get(self, path: str, **headers: str) -> Reply:
        return self._open(urllib.request.Request(self._at(path), headers=_named(headers)))

    def post(self, path: str, _from: str = "/me", _form: str = "", **fields: str) -> Reply:
        token = re.search(r'csrfmiddlewaretoken" value="(\w+)"', self.get(_form or _from).text)
        data = {"csrfmiddlewaretoken": token[1] if token else "", **fields}
        body = urllib.parse.urlencode(data).encode()
        return self._open(urllib.request.Request(self._at(path), body, {"Referer": self._at(path)}))

    def _at(self, path: str) -> str:
        return path if path.startswith("http") else self.address + path

    def _open(self, request: urllib.request.Request) -> Reply:
        try:
            with self.opener.open(request, timeout=120) as reply:
                raw, status, headers = reply.read(), reply.status, dict(reply.headers)
        except urllib.error.HTTPError as error:
            raw, status, headers = error.read(), error.code, dict(error.headers)
        text = raw.decode("utf-8", "replace")
        if headers.get("Content-Type", "").startswith("text/html"):
            text = re.sub(TAG, lambda tag: re.sub(r"\s*\n\s*", " ", tag[0]), re.sub(BREAKS, "", text))
        return Reply(status, text, headers, headers.get("Location", ""))


class _Stay(urllib.request.HTTPRedirectHandler):
    """A redirect is an answer of its own."""

    def redirect_request(self, *_):
        return None


def _named(headers: dict[str, str]) -> dict[str, str]:
    return {name.replace("_", "-"): value for name, value in headers.items()}


@dataclass
class Desk:
    address: str
    folder: Path

    def person(self, name: str, role: str, **more: str):
        from darby.desk.kept.models import Person

        return Person.objects.filter(name=name).first() or Person.objects.add(name, role, **more)

    def link(self, name: str, role: str, **more: str) -> str:
        from darby.desk.tickets import ticket_for

        return f"{self.address}/in/{ticket_for(self.person(name, role, **more))}"

    def signed_in(self, role: str, language: str = "en") -> Browserless:
        return Browserless(self.address, self.link(f"{role} {language}", role, language=language))


def started(folder: Path) -> tuple[Desk, object]:
    from waitress.server import create_server

    from darby.desk.home import Home
    from darby.desk.serving import application, prepare
    from darby.desk.uploads.limits import WAITRESS

    prepare(Home(folder))
    server = create_server(application(), host="127.0.0.1", port=0, threads=4, **WAITRESS)
    threading.Thread(target=server.run, daemon=True).start()
    return Desk(f"http://127.0.0.1:{server.effective_port}", folder), server
