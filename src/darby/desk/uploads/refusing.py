"""What a view will not take, and a data base that is held too long: said on a page, or to a script, never an error."""

from __future__ import annotations

from collections.abc import Callable

from django.db import OperationalError
from django.http import HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.shortcuts import render

from darby.desk.speaking import said_in
from darby.desk.uploads.limits import Refused

HELD = ("locked", "busy")
"""How SQLite says that somebody else writes, and has for longer than was waited."""
AGAIN = 5
"""Seconds until it is worth another try."""


class Refusing:
    """Answers where a view was refused."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Hand on."""
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """A page with the sentence; None: it is a fault of ours."""
        if isinstance(error, Refused):
            return _said(request, error, 400)
        if isinstance(error, OperationalError) and any(word in str(error) for word in HELD):
            response = _said(request, Refused("busy"), 503)
            response.headers["Retry-After"] = str(AGAIN)
            return response
        return None


def _said(request: HttpRequest, refused: Refused, status: int) -> HttpResponse:
    if request.headers.get("Accept", "").startswith("application/json"):
        says = said_in(request).say(refused.code, **refused.values)
        return JsonResponse({"kept": [], "refused": [], "says": says}, status=status)
    context = {"code": refused.code, "values": refused.values}
    return render(request, "desk/refused.html", context, status=status)
