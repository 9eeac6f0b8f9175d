"""Every address by owner, crew and stranger, from the list of addresses: a new one without a decision fails."""

import pytest
from django.urls import get_resolver, reverse

from tests.desk.running import Browserless

ALL = {"sign-in", "drawing-css", "by-link", "here", "worker", "no-signal", "trust", "authority"}
"""Whoever comes."""
CREW = {
    "first", "sign-out", "token", "day-down", "reading",
    "pocket", "me", "look", "job", "log", "lines", "photographs", "photograph", "marks",
    "paper", "stage",
}  # fmt: skip
"""The crew too. All else is the owner's."""
VALUES = {"document": "garden-wall", "number": 1, "id": 1, "secret": "x", "shape": "wall", "key": "coats",
          "sha256": "0" * 64, "name": "wall", "at": "wall-front"}  # fmt: skip
ODD = ("../../etc/passwd", "..%2f..%2fetc%2fpasswd", "%00", "a%00b", "x" * 5000, "%C3%B1and%C3%BA", "%FF%FE", "-1",
       "9" * 40, "'%3B--", "%0d%0aSet-Cookie:%20a=b")  # fmt: skip
NO_ANSWER = {400, 403, 404, 405, 302}


def value(name: str, converter: object) -> object:
    if type(converter).__name__ == "UUIDConverter":
        return "00000000-0000-4000-8000-000000000000"
    return VALUES.get(name, "x")


def addresses() -> list[tuple[str, str]]:
    return [
        (p.name, reverse(p.name, kwargs={k: value(k, c) for k, c in p.pattern.converters.items()}))
        for p in get_resolver().url_patterns
    ]


def marks() -> dict[str, str]:
    return {
        p.name: "all" if getattr(p.callback, "for_all", False) else
        "crew" if getattr(p.callback, "for_crew", False) else "owner"
        for p in get_resolver().url_patterns
    }  # fmt: skip


def test_whom_each_address_is_for_was_decided_here(desk):
    found = marks()
    assert {n for n, m in found.items() if m == "all"} == ALL
    assert {n for n, m in found.items() if m == "crew"} == CREW
    assert "owner" in found.values()


def bare(who: Browserless, address: str) -> int:
    """What is sent without this browser's own token."""
    import urllib.request

    return who._open(urllib.request.Request(who.address + address, b"x=1")).status


def test_nothing_is_taken_without_a_token(desk, owner, crew):
    stranger = Browserless(desk.address)
    for name, address in addresses():
        assert bare(owner, address) in (403, 405), address
        assert bare(crew, address) in (403, 405), address
        assert bare(stranger, address) in ((403, 405) if name in ALL else (302,)), address


def test_the_crew_is_sent_away_from_what_is_the_owners(desk, crew):
    for name, address in addresses():
        if name not in ALL | CREW:
            assert crew.get(address).status == 403, address


def test_a_stranger_gets_to_the_door_only(desk):
    stranger = Browserless(desk.address)
    for name, address in addresses():
        if name not in ALL:
            reply = stranger.get(address)
            assert reply.status == 302 and reply.address.endswith("/sign-in"), address


@pytest.mark.parametrize("odd", ODD)
def test_no_odd_name_leads_anywhere(desk, owner, odd):
    for p in get_resolver().url_patterns:
        for wanted in p.pattern.converters:
            whole = {k: value(k, c) for k, c in p.pattern.converters.items()}
            mark = "0" if type(p.pattern.converters[wanted]).__name__ == "IntConverter" else "MARK"
            if mark == "0" or type(p.pattern.converters[wanted]).__name__ == "UUIDConverter":
                continue
            address = reverse(p.name, kwargs=whole | {wanted: mark}).replace("MARK", odd)
            reply = owner.get(address)
            assert reply.status in NO_ANSWER, (address[:120], reply.status)
            assert "root:" not in reply.text and "a=b" not in reply.headers.get("Set-Cookie", "")
    for address in (f"/people/{odd}/shut-out", f"/document/garden-wall/history/{odd}"):
        assert owner.get(address).status in NO_ANSWER, address[:120]
