"""What a phone asks for its own sake: whether there is a signal, the script that keeps pages, whom it is to trust."""

from __future__ import annotations

from pathlib import Path

from django.http import FileResponse, Http404, HttpRequest, HttpResponse, HttpResponseBase, JsonResponse
from django.middleware.csrf import get_token
from django.shortcuts import render
from django.views.decorators.http import require_GET

from darby.desk.doors import for_all, for_crew, person_of, refused
from darby.desk.home import named
from darby.desk.kept import saving
from darby.desk.pocketing import NotMade, sheet
from darby.desk.sharing import Certificate
from darby.desk.sharing.certificates import lying
from darby.desk.speaking import said_in

ASK_AGAIN = 4
"""Seconds until a page asks again whether the pocket sheet is made."""
WORKER = Path(__file__).parents[1] / "static" / "desk" / "worker.js"


@for_crew
@require_GET
def token(request: HttpRequest) -> HttpResponseBase:
    """A fresh form token: a page that was kept for days may hold an old one."""
    return JsonResponse({"token": get_token(request), "person": person_of(request).pk})


@for_all
@require_GET
def here(_: HttpRequest) -> HttpResponseBase:
    """Whether there is a signal at all."""
    return HttpResponse(status=204)


@for_all
@require_GET
def worker(_: HttpRequest) -> HttpResponseBase:
    """The script that keeps pages; from the root, so that it may keep all of them."""
    return FileResponse(
        WORKER.open("rb"), content_type="text/javascript; charset=utf-8", headers={"Cache-Control": "no-cache"}
    )


@for_all
@require_GET
def no_signal(request: HttpRequest) -> HttpResponseBase:
    """The page that stands for one that this phone does not keep."""
    return render(request, "desk/no_signal.html", {"title": said_in(request).say("desk.signal.none")})


@for_all
@require_GET
def trust(request: HttpRequest) -> HttpResponseBase:
    """How to trust a desk whose certificate was made on this machine."""
    made = _certificate()
    fingerprint = made.fingerprint if made is not None else ""
    context = {"title": said_in(request).say("desk.trust"), "fingerprint": fingerprint}
    return render(request, "desk/trust.html", context)


@for_all
@require_GET
def authority(_: HttpRequest) -> HttpResponseBase:
    """The certificate that a phone is asked to trust; it is no secret."""
    made = _certificate()
    if made is None:
        raise Http404
    named_as = {"Content-Disposition": 'attachment; filename="darby-desk.crt"'}
    return FileResponse(made.authority.open("rb"), content_type="application/x-x509-ca-cert", headers=named_as)


@for_crew
@require_GET
def pocket(request: HttpRequest) -> HttpResponseBase:
    """The pocket sheet of this firm as a file for the phone; no prices on it, whoever asks."""
    setting = said_in(request)
    try:
        html = sheet(saving.firm_text(), setting.language)
    except NotMade:
        return refused(request, "desk.pocket.failed", 500)
    if html is None:
        page = render(request, "desk/pocket.html", {"title": setting.say("desk.pocket")}, status=202)
        page.headers["Refresh"] = str(ASK_AGAIN)
        return page
    named_as = {"Content-Disposition": 'attachment; filename="pocket.html"'}
    return HttpResponse(html, content_type="application/octet-stream", headers=named_as)


def _certificate() -> Certificate | None:
    home = named()
    return lying(home.folder / "tls") if home is not None else None
