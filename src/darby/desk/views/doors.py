"""Signing in and out; what is said when a door stays shut."""

from __future__ import annotations

from django.contrib.auth import logout
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from darby.desk.doors import for_all, for_crew, let_in, open_to, refused
from darby.desk.tickets import redeem


@for_all
@require_http_methods(["GET", "POST"])
def sign_in(request: HttpRequest) -> HttpResponseBase:
    """By name and password."""
    if request.method == "POST":
        if let_in(request, request.POST.get("name", "").strip(), request.POST.get("password", "")):
            return redirect("first")
        return render(request, "desk/sign_in.html", {"wrong": True, "name": request.POST.get("name", "")}, status=403)
    if request.user.is_authenticated:
        return redirect("first")
    return render(request, "desk/sign_in.html", {})


@for_all
@require_GET
def by_link(request: HttpRequest, secret: str) -> HttpResponseBase:
    """By a link that works once."""
    person = redeem(secret)
    if person is None:
        return refused(request, "desk.door.link")
    open_to(request, person)
    return redirect("first")


@for_crew
@require_POST
def sign_out(request: HttpRequest) -> HttpResponseBase:
    """Leave."""
    logout(request)
    return redirect("sign-in")


def form_too_old(request: HttpRequest, reason: str = "") -> HttpResponse:  # noqa: ARG001 -- Django names it
    """A form without this browser's own token."""
    return refused(request, "desk.door.form")


def not_there(request: HttpRequest, exception: Exception) -> HttpResponse:  # noqa: ARG001 -- Django names it
    """No such page."""
    return refused(request, "desk.door.not-there", 404)


def went_wrong(request: HttpRequest) -> HttpResponse:
    """The desk itself failed."""
    return refused(request, "desk.door.failed", 500)


@for_all
@require_GET
def drawing_css(_: HttpRequest) -> HttpResponse:
    """The drawing room's own style sheet: its classes in the page's colours."""
    from darby.drawing import stylesheet

    return HttpResponse(stylesheet(), content_type="text/css; charset=utf-8", headers={"Cache-Control": "max-age=300"})
