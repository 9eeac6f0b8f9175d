"""The doors under attack: bodies, hosts, cookies, sessions, guesses; nothing of it reaches a page."""

import io
import json
import os
import re
import socket
import subprocess
import sys
import time
import urllib.request
import zlib
from uuid import uuid4

import pytest

from tests.desk.running import Browserless


def raw(desk, text: bytes, wait: float = 20) -> bytes:
    host, port = desk.address.removeprefix("http://").split(":")
    with socket.create_connection((host, int(port)), timeout=wait) as wire:
        wire.sendall(text)
        got = b""
        while piece := wire.recv(65536):
            got += piece
            if b"\r\n\r\n" in got:
                break
    return got


def test_a_body_that_is_too_long_is_refused_before_it_is_read(desk):
    begun = time.perf_counter()
    head = b"POST /sign-in HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 500000000\r\n\r\n"
    assert b" 413 " in raw(desk, head).splitlines()[0]
    assert time.perf_counter() - begun < 10


def test_headers_that_are_too_long_are_refused(desk):
    got = raw(desk, b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX: " + b"x" * 40_000 + b"\r\n\r\n")
    assert b" 431 " in got.splitlines()[0]


def test_another_host_gets_nothing(desk):
    for host in ("evil.example", "127.0.0.1.evil.example", "localhost@evil.example"):
        got = raw(desk, f"GET /sign-in HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n".encode())
        assert b" 400 " in got.splitlines()[0], host
        assert b"evil" not in got and b"Traceback" not in got


def test_a_forwarded_host_is_not_believed(owner):
    page = owner.get("/people", X_Forwarded_Host="evil.example", X_Forwarded_Proto="https")
    assert page.status == 200 and "evil" not in page.text


def test_look_leads_nowhere_else(desk):
    who = desk.signed_in("crew", "es")
    for back in ("https://evil.example/", "//evil.example", "/\\evil.example", "javascript:alert(1)", "http:///x.y"):
        reply = who.post("/look", back=back)
        assert reply.status == 302 and reply.address == "/", back


def test_the_session_is_another_after_signing_in_and_ends_at_signing_out(desk):
    who = Browserless(desk.address)
    who.get(desk.link("rotated", "crew"))
    first = {c.name: c.value for c in who.jar}["desk"]
    who.get(desk.link("rotated", "crew"))
    second = {c.name: c.value for c in who.jar}["desk"]
    assert first != second
    assert who.post("/sign-out").status == 302
    for old in (first, second):
        request = urllib.request.Request(desk.address + "/me", headers={"Cookie": f"desk={old}"})
        assert Browserless(desk.address)._open(request).status == 302


def test_cookies_are_not_for_scripts(desk):
    who = Browserless(desk.address)
    got = who.get(desk.link("cookie", "crew")).headers["Set-Cookie"]
    assert "HttpOnly" in got and "SameSite=Lax" in got


def test_under_a_name_cookies_go_by_https_only():
    code = (
        "import os; os.environ |= {'DARBY_DESK_TLS': '1', 'DARBY_DESK_HOSTS': 'stucco.example'}\n"
        "import darby.desk.settings as s\n"
        "assert s.SESSION_COOKIE_SECURE and s.CSRF_COOKIE_SECURE and s.SECURE_HSTS_SECONDS > 3e7\n"
        "assert s.SESSION_COOKIE_NAME.startswith('__Host-') and s.CSRF_COOKIE_NAME.startswith('__Host-')\n"
        "assert 'stucco.example' in s.ALLOWED_HOSTS and '*' not in s.ALLOWED_HOSTS and not s.DEBUG\n"
    )
    env = {k: v for k, v in os.environ.items() if not k.startswith("DJANGO")}
    subprocess.run([sys.executable, "-c", code], env=env, check=True, timeout=60)


def test_twenty_guesses_from_one_address_are_enough(desk):
    from darby.desk.kept.models import Attempt, Person

    Attempt.objects.all().delete()
    try:
        door = Browserless(desk.address)
        for n in range(20):
            Attempt.objects.create(name=f"nobody {n}", address="127.0.0.1")
        Person.objects.filter(name="known").delete()
        Person.objects.add("known", "crew", "float and darby 7")
        right = {"name": "known", "password": "float and darby 7"}
        assert door.post("/sign-in", _form="/sign-in", **right).status == 403
        Attempt.objects.all().delete()
        assert door.post("/sign-in", _form="/sign-in", **right).status == 302
    finally:
        Attempt.objects.all().delete()


def test_a_new_password_needs_the_one_that_stands(desk):
    from darby.desk.kept.models import Person

    who = Browserless(desk.address, desk.link("changer", "crew"))
    me = {"name": "changer", "language": "en", "system": "us"}
    assert who.post("/me", password="short", **me).status == 422
    assert who.post("/me", password="x9" * 70, **me).status == 422
    assert who.post("/me", password="lath and paper 4", **me).status == 302
    assert who.post("/me", password="another one 12345", **me, **{"password-now": "wrong"}).status == 422
    assert who.post("/me", password="another one 12345", **me, **{"password-now": "lath and paper 4"}).status == 302
    assert Person.objects.get(name="changer").check_password("another one 12345")


def upload(who: Browserless, path: str, field: str, data: bytes, **fields: str) -> int:
    token = re.search(r'csrfmiddlewaretoken" value="(\w+)"', who.get("/me").text)[1]
    mark = uuid4().hex
    parts = [f'--{mark}\r\nContent-Disposition: form-data; name="{k}"\r\n\r\n{v}\r\n'.encode()
             for k, v in {"csrfmiddlewaretoken": token, **fields}.items()]  # fmt: skip
    parts.append(f'--{mark}\r\nContent-Disposition: form-data; name="{field}"; filename="../../x.jpg"\r\n\r\n'.encode())
    body = b"".join(parts) + data + f"\r\n--{mark}--\r\n".encode()
    kind = {"Content-Type": f"multipart/form-data; boundary={mark}"}
    return who._open(urllib.request.Request(who.address + path, body, kind)).status


def test_bombs_and_scripts_are_refused_as_photographs(crew):
    bombs = (
        b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
        b"PK\x03\x04" + zlib.compress(bytes(10_000_000), 9),
        bomb(),
        b"",
    )
    for data in bombs:
        assert upload(crew, "/job/garden-wall/photographs", "photograph", data, id=str(uuid4())) == 400


def bomb() -> bytes:
    from PIL import Image

    out = io.BytesIO()
    Image.new("1", (20_000, 20_000)).save(out, "PNG")
    return out.getvalue()


def test_lists_that_nest_are_refused(crew):
    token = json.loads(crew.get("/token").text)["token"]
    for body in (
        b"[" * 100_000 + b"]" * 100_000,
        b'{"lines": [{"a": NaN}]}',
        b"\xff",
        b"{}",
        b'{"lines": [' + b"9" * 90_000,
    ):
        kind = {"Content-Type": "application/json", "X-CSRFToken": token}
        request = urllib.request.Request(crew.address + "/job/garden-wall/lines", body, kind)
        assert crew._open(request).status == 400


def test_crew_papers_hold_no_money(crew):
    from pypdf import PdfReader

    from darby.desk.money import MONEY

    request = urllib.request.Request(crew.address + "/job/garden-wall/paper/tickets.pdf")
    with crew.opener.open(request, timeout=120) as reply:
        text = "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(reply.read())).pages)
    assert len(text) > 200 and not MONEY.search(text)
    assert crew.get("/job/garden-wall/paper/quote.pdf").status == 403


def test_an_error_tells_nothing(owner):
    reply = owner.get("/job/no-such-job/wall/")
    assert reply.status == 404
    for word in ("Traceback", "urlpatterns", "darby/desk", "Django", "waitress"):
        assert word not in reply.text and word not in str(reply.headers)


# --- asked again before what is grave -------------------------------------------------------------------


def aged(who: Browserless, seconds: float) -> None:
    """The session as if it had begun so long ago."""
    from django.contrib.sessions.backends.db import SessionStore

    session = SessionStore({c.name: c.value for c in who.jar}["desk"])
    session["since"] -= seconds
    session.save()


def known(name: str):
    from darby.desk.kept.models import Attempt, Person

    Attempt.objects.all().delete()
    return Person.objects.filter(name=name).first()


def test_an_owner_is_made_only_by_somebody_who_says_his_password_again(desk):
    from darby.desk.kept.models import Person

    name, another = (f"{n} {uuid4().hex[:6]}" for n in ("careful", "another"))
    Person.objects.add(name, "owner", "hod and mortar 5")
    who = Browserless(desk.address)
    assert who.post("/sign-in", _form="/sign-in", name=name, password="hod and mortar 5").status == 302
    asked = {"name": another, "role": "owner", "language": "en"}
    page = who.post("/people", **asked)
    assert page.status == 403 and "Is it you?" in page.text and known(another) is None
    assert f'name="name" value="{another}"' in page.text, "the form is sent once more as it was"
    assert who.post("/people", **asked, **{"password-now": "wrong"}).status == 403 and known(another) is None
    assert who.post("/people", **asked, **{"password-now": "hod and mortar 5"}).status == 200
    made = known(another)
    assert made is not None and made.is_owner
    crew = {"name": f"hand {uuid4().hex[:6]}", "role": "crew", "language": "en"}
    assert who.post("/people", **crew).status == 200, "a hand is made as before"
    for address, more in (("/people", {"again": str(made.id)}), (f"/people/{made.id}/shut-out", {})):
        assert who.post(address, **more).status == 403, address
    assert known(another).is_active
    assert who.post(f"/people/{made.id}/shut-out", **{"password-now": "hod and mortar 5"}).status == 302
    assert not known(another).is_active
    assert who.post(f"/people/{known(crew['name']).id}/shut-out").status == 302


def test_an_owner_without_a_password_must_have_come_in_just_now(desk):
    name = f"by link {uuid4().hex[:6]}"
    who = Browserless(desk.address, desk.link(name, "owner"))
    asked = {"role": "owner", "language": "en"}
    assert who.post("/people", name=f"{name} a", **asked).status == 200 and known(f"{name} a")
    aged(who, 16 * 60)
    page = who.post("/people", name=f"{name} b", **asked)
    assert page.status == 403 and known(f"{name} b") is None and "sign in anew" in page.text
    me = {"name": name, "language": "en", "system": "us"}
    assert who.post("/me", password="a door of his own 1", **me).status == 422, "nor does he make himself a way round"
    assert not known(name).has_usable_password()
    who.get(desk.link(name, "owner"))
    assert who.post("/me", password="a door of his own 1", **me).status == 302


def test_guesses_of_the_password_that_stands_are_counted(desk):
    from darby.desk.kept.models import Attempt, Person

    Attempt.objects.all().delete()
    name = f"counted {uuid4().hex[:6]}"
    Person.objects.add(name, "crew", "hod and mortar 5")
    who = Browserless(desk.address)
    assert who.post("/sign-in", _form="/sign-in", name=name, password="hod and mortar 5").status == 302
    me = {"name": name, "language": "en", "system": "us", "password": "another 123456"}
    try:
        for _ in range(5):
            assert who.post("/me", **me, **{"password-now": "wrong"}).status == 422
        assert who.post("/me", **me, **{"password-now": "hod and mortar 5"}).status == 422
    finally:
        Attempt.objects.all().delete()


def test_after_thirty_days_everybody_signs_in_anew(desk):
    who = Browserless(desk.address, desk.link(f"old {uuid4().hex[:6]}", "crew"))
    assert who.get("/me").status == 200
    aged(who, 29 * 24 * 3600)
    assert who.get("/me").status == 200
    aged(who, 2 * 24 * 3600)
    assert who.get("/me").status == 302
    assert who.get("/me").status == 302


# --- what an answer says of itself ----------------------------------------------------------------------


def test_text_says_its_letters_and_json_is_no_page(owner):
    for address in ("/", "/job/garden-wall/wall/", "/drawing.css", "/worker.js", "/static/desk/desk.css",
                    "/static/desk/queue.js", "/static/desk/mark.svg", "/no-such"):  # fmt: skip
        kind = owner.get(address).headers["Content-Type"]
        assert "charset=utf-8" in kind.replace('"', "") or not kind.startswith("text/"), (address, kind)
    headers = owner.get("/token").headers
    assert headers["Content-Type"] == "application/json" and headers["Content-Disposition"].startswith("attachment")


def test_other_methods_do_nothing(owner):
    from tests.desk.test_every_address import addresses

    for _, address in addresses():
        for method in ("PUT", "DELETE", "PATCH", "TRACE", "CONNECT", "BREW"):
            status = owner._open(urllib.request.Request(owner.address + address, method=method)).status
            assert status in (302, 400, 403, 404, 405), (method, address, status)


def test_no_origin_opens_a_door(owner):
    request = urllib.request.Request(owner.address + "/token", headers={"Origin": "https://evil.example"})
    reply = owner._open(request)
    assert not [name for name in reply.headers if name.lower().startswith("access-control")]


def test_of_two_fields_with_one_name_the_last_counts_everywhere(desk):
    """A role written twice makes nobody an owner unseen: what is asked about is what is taken."""
    who = Browserless(desk.address, desk.link(f"twice {uuid4().hex[:6]}", "owner"))
    aged(who, 3600)
    token = re.search(r'csrfmiddlewaretoken" value="(\w+)"', who.get("/me").text)[1]
    for roles, made in (("role=crew&role=owner", None), ("role=owner&role=crew", "crew")):
        name = f"twofold-{uuid4().hex[:6]}"
        body = f"csrfmiddlewaretoken={token}&name={name}&{roles}&language=en".encode()
        who._open(urllib.request.Request(who.address + "/people", body, {"Referer": who.address}))
        found = known(name)
        assert (found.role if found else None) == made


def test_under_a_name_the_link_is_not_printed_into_a_log(tmp_path):
    from darby.desk.home import Home
    from darby.desk.serving import _written

    home = Home(tmp_path / "data")
    home.make()
    for link in ("https://a.example/in/first", "https://a.example/in/second"):
        file = _written(home, link)
        assert file.read_text().strip() == link and file.stat().st_mode & 0o777 == 0o600


TAG = "</title></text><b-x a='1'>"


@pytest.mark.parametrize("example", ["firehall", "window-patch", "garden-wall"])
def test_markup_in_what_people_write_stays_text(desk, owner, example):
    """Names of jobs, walls, openings, people, and lines of the log: on every page of the job, and in its drawings."""
    from darby.desk.kept import saving
    from darby.desk.places import stage_pages

    document = f"marked-{uuid4().hex[:6]}"
    text = re.sub(r'^(name|customer|address) = "[^"]*"', lambda m: f'{m[1]} = "{TAG}"', saving.latest(example).text,
                  flags=re.MULTILINE)  # fmt: skip
    assert TAG in text
    saving.keep(document, text, desk.person(f"writer {TAG}", "owner"))
    for kind, said in (("note", {"text": TAG}), ("done", {"coat": TAG, "on": "2026-09-01", "remark": TAG}),
                       ("reading", {"u": "1'", "v": "1'", "out": '1/4"', "text": TAG})):  # fmt: skip
        saving.note_down(uuid4(), document, kind, desk.person("writer", "owner"), said=said, at=TAG)
    shown = 0
    addresses = [f"/job/{document}/{page}/" for page in stage_pages()] + ["/", "/people", f"/document/{document}/text"]
    for address in (*addresses, f"/document/{document}/history", f"/job/{document}/log", f"/?q={TAG[2:7]}"):
        page = owner.get(address)
        assert page.status in (200, 302), (address, page.status)
        assert "<b-x" not in page.text, (address, page.text[page.text.index("<b-x") - 200 :][:400])
        shown += "&lt;b-x" in page.text
    assert shown > 8
    assert owner.post(f"/job/{document}/away", do="away").status == 302
