"""Who may open what. A page is the owner's unless its view says otherwise; no money reaches the crew."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from time import time
from typing import Any, TypeVar, cast

from django.contrib.auth import authenticate, login, logout
from django.db import transaction
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone

from darby.desk.kept.models import Attempt, Person
from darby.desk.money import MONEY
from darby.desk.passwords import MOST_SIGNS
from darby.desk.speaking import setting_of

View = TypeVar("View", bound=Callable[..., HttpResponseBase])

TRIES, WITHIN = 5, timedelta(minutes=15)
FROM_ONE_ADDRESS = 20
LASTS = timedelta(days=30)
"""After that everybody signs in anew, used or not."""
FRESH = timedelta(minutes=15)
"""For so long somebody who has no password counts as just signed in."""
SINCE = "since"


def for_crew(view: View) -> View:
    """The crew may open it too."""
    view.for_crew = True  # type: ignore[attr-defined]
    return view


def for_all(view: View) -> View:
    """Whoever comes: signing in, and nothing else."""
    view.for_all = True  # type: ignore[attr-defined]
    return view


def person_of(request: HttpRequest) -> Person:
    """Who is signed in; the doors have seen to it that somebody is."""
    return cast(Person, request.user)


class Doors:
    """Asks of every view whom it is for, and of every answer to the crew whether money stands in it."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Answer; to the crew only what holds no money."""
        request.setting = setting_of(request)  # type: ignore[attr-defined]
        response = self.get_response(request)
        crew = request.user.is_authenticated and not person_of(request).is_owner
        if crew and isinstance(response, HttpResponse) and _with_money(response):
            return refused(request, "desk.door.money")
        return response

    def process_view(self, request: HttpRequest, view: Callable[..., Any], *_: Any) -> HttpResponseBase | None:
        """Send strangers to the door, and the crew away from what is the owner's."""
        if getattr(view, "for_all", False):
            return None
        if time() - request.session.get(SINCE, time()) > LASTS.total_seconds():
            logout(request)
        if not request.user.is_authenticated:
            if request.headers.get("HX-Request"):
                return HttpResponse(status=401, headers={"HX-Redirect": "/sign-in"})
            return redirect("sign-in")
        if person_of(request).is_owner or getattr(view, "for_crew", False):
            return None
        return refused(request, "desk.door.owner")


def refused(request: HttpRequest, code: str, status: int = 403) -> HttpResponse:
    """A page that says why not."""
    return render(request, "desk/refused.html", {"code": code}, status=status)


def _with_money(response: HttpResponse) -> bool:
    kind = response.headers.get("Content-Type", "")
    if not kind.startswith(("text/html", "text/plain", "text/csv", "application/json", "image/svg")):
        return False  # a script or a style sheet is the same for everybody; a paper asks for itself (papers.render)
    return MONEY.search(response.content.decode("utf-8", "replace")) is not None


# --- signing in ----------------------------------------------------------------------------------------


def let_in(request: HttpRequest, name: str, password: str) -> bool:
    """Sign in by name and password. After a few failures within a quarter of an hour nobody is let in by that name."""
    attempt = _counted(name[:80], str(request.META.get("REMOTE_ADDR", ""))[:45])
    if attempt is None or len(password) > MOST_SIGNS:
        return False
    person = authenticate(request, username=name, password=password)
    if person is None:
        return False
    attempt.delete()
    open_to(request, person)
    return True


def open_to(request: HttpRequest, person: Person) -> None:
    """From now on this browser is this person's, by a session of its own."""
    login(request, person, backend="django.contrib.auth.backends.ModelBackend")
    request.session.cycle_key()  # also where he was signed in already
    request.session[SINCE] = time()


def proved(request: HttpRequest) -> bool:
    """Whether it is himself who asks for what is grave, not whoever found his phone: asked again at the doors.

    By the password that stands, as ``password-now``, counted like signing in; who has none must have come in just now.
    """
    person = person_of(request)
    if not person.has_usable_password():
        return time() - float(request.session.get(SINCE, 0.0)) < FRESH.total_seconds()
    password = request.POST.get("password-now", "")
    attempt = _counted(person.name, str(request.META.get("REMOTE_ADDR", ""))[:45]) if password else None
    if attempt is None or len(password) > MOST_SIGNS or not person.check_password(password):
        return False
    attempt.delete()
    return True


def ask_again(request: HttpRequest) -> HttpResponse:
    """The page that asks for the password and then sends the same form once more; without one, to sign in anew."""
    again = [(key, value) for key, value in request.POST.items() if key not in ("csrfmiddlewaretoken", "password-now")]
    wrong = bool(request.POST.get("password-now"))
    return render(request, "desk/prove.html", {"again": again, "wrong": wrong}, status=403)


def _counted(name: str, address: str) -> Attempt | None:
    """The attempt, counted before it is looked at, so that many at once get no further; None if it is one too many."""
    with transaction.atomic():
        Attempt.objects.filter(when__lt=timezone.now() - WITHIN).delete()
        by_name = Attempt.objects.filter(name=name).count()
        if by_name >= TRIES or Attempt.objects.filter(address=address).count() >= FROM_ONE_ADDRESS:
            return None
        return Attempt.objects.create(name=name, address=address)
