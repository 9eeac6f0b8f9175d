"""Who may sign in, and how each is spoken to."""

from __future__ import annotations

from django.contrib.auth import update_session_auth_hash
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponseBase, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.http import require_http_methods, require_POST

from darby.desk.doors import ask_again, for_crew, person_of, proved
from darby.desk.kept.models import CREW, OWNER, Person
from darby.desk.tickets import ticket_for
from darby.desk.uploads import whole
from darby.words import LANGUAGES

SYSTEMS = ("us", "metric")


@require_http_methods(["GET", "POST"])
def people(request: HttpRequest) -> HttpResponseBase:
    """The firm's people. Adding one makes a link that signs him in once; he needs no password."""
    link, taken = "", False
    if request.method == "POST":
        if _of_an_owner(request) and not proved(request):
            return ask_again(request)
        who = _add_or_find(request)
        taken = who is None
        if who is not None:
            link = request.build_absolute_uri(f"/in/{ticket_for(who)}")
    everybody = Person.objects.order_by("role", "name")
    context = {"people": everybody, "link": link, "taken": taken, "roles": (CREW, OWNER), "languages": LANGUAGES}
    return render(request, "desk/people.html", context)


def _of_an_owner(request: HttpRequest) -> bool:
    """Whether what is asked for opens the desk to an owner: somebody new, or a link for one."""
    if again := whole(request.POST, "again"):
        return Person.objects.filter(id=again, role=OWNER).exists()
    return request.POST.get("role") == OWNER


def _add_or_find(request: HttpRequest) -> Person | None:
    posted = request.POST
    if again := whole(posted, "again"):
        return Person.objects.filter(id=again, is_active=True).first()
    name = posted.get("name", "").strip()[:80]
    if not name or Person.objects.filter(name=name).exists():
        return None
    role = OWNER if posted.get("role") == OWNER else CREW
    return Person.objects.add(name, role, language=_one_of(posted.get("language"), LANGUAGES))


@require_POST
def shut_out(request: HttpRequest, id: int) -> HttpResponseBase:
    """Somebody may not sign in any more, or may again; what he wrote stays. Nobody shuts out himself."""
    found = Person.objects.filter(id=id).exclude(id=person_of(request).id).first()
    if found is not None and found.is_owner and not proved(request):
        return ask_again(request)
    if found is not None:
        found.is_active = not found.is_active
        found.save(update_fields=["is_active"])
    return redirect("people")


@for_crew
@require_http_methods(["GET", "POST"])
def me(request: HttpRequest) -> HttpResponseBase:
    """A person's own language, measures, name and password."""
    person = person_of(request)
    wrong = False
    if request.method == "POST":
        person.language = _one_of(request.POST.get("language"), LANGUAGES)
        person.system = _one_of(request.POST.get("system"), SYSTEMS)
        name = request.POST.get("name", "").strip()[:80]
        if name and not Person.objects.filter(name=name).exclude(id=person.id).exists():
            person.name = name
        password = request.POST.get("password", "")
        if password:
            try:
                if (person.is_owner or person.has_usable_password()) and not proved(request):
                    raise ValidationError("not the one that stands")
                validate_password(password, person)
                person.set_password(password)
            except ValidationError:
                wrong = True
        if not wrong:
            person.save()
            update_session_auth_hash(request, person)
            return redirect("me")
    context = {"languages": LANGUAGES, "systems": SYSTEMS, "wrong": wrong}
    return render(request, "desk/me.html", context, status=422 if wrong else 200)


@for_crew
@require_POST
def look(request: HttpRequest) -> HttpResponseBase:
    """Day or evening, by hand."""
    person = person_of(request)
    person.evening = not person.evening
    person.save(update_fields=["evening"])
    back = request.POST.get("back", "/")
    safe = back.startswith("/") and url_has_allowed_host_and_scheme(back, allowed_hosts=None)
    return HttpResponseRedirect(back if safe else "/")


def _one_of(asked: str | None, allowed: tuple[str, ...]) -> str:
    return asked if asked in allowed else allowed[0]
