"""People with accounts, and what each may do; there are none on a desk of one's own."""

from __future__ import annotations

import functools
from collections.abc import Callable
from datetime import UTC, datetime
from functools import wraps

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.contrib.auth.models import AbstractUser
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as lazy
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from rodbook.desk.entrance import people
from rodbook.desk.entrance.second_step import has_second
from rodbook.desk.entrance.views import turnstile, wait
from rodbook.desk.models import Person, Role, Second
from rodbook.desk.platform.access import needs_owner
from rodbook.desk.platform.deeds import Doing, note
from rodbook.desk.platform.faults import Form, in_words
from rodbook.desk.platform.turnstile import Refused
from rodbook.errors import Fault, InputError

__all__ = ["active", "add", "index", "new_password", "own_password", "role", "second_off", "shared_only"]

ROLES = (
    (Role.OWNER.value, lazy("owner: everything, prices and people too")),
    (Role.MAKER.value, lazy("maker: everything on jobs, but no prices")),
    (Role.READER.value, lazy("reader: looks, changes nothing, sees no prices")),
)


def shared_only[**P](view: Callable[P, HttpResponse]) -> Callable[P, HttpResponse]:
    """A desk of one's own has no accounts, so there is no such page."""

    @wraps(view)
    def guarded(*args: P.args, **kwargs: P.kwargs) -> HttpResponse:
        if not settings.SHARED:
            raise Http404
        return view(*args, **kwargs)

    return guarded


def _render(request: HttpRequest, form: Form) -> HttpResponse:
    second = set(Second.objects.filter(since__isnull=False).values_list("user_id", flat=True))
    context = {"people": people.everybody(), "roles": ROLES, "form": form, "second": second}
    return render(request, "desk/people.html", context, status=422 if form.faults else 200)


@require_safe
@shared_only
@needs_owner
def index(request: HttpRequest) -> HttpResponse:
    """Everybody with an account."""
    return _render(request, Form({"role": Role.MAKER.value}))


@sensitive_post_parameters("password")
@require_POST
@shared_only
@needs_owner
def add(request: HttpRequest) -> HttpResponse:
    """Make an account."""
    typed = {"name": request.POST.get("name", "").strip(), "role": request.POST.get("role", "")}
    try:
        person = people.add_person(typed["name"], typed["role"], request.POST.get("password", ""), given=True)
    except InputError as error:
        return _render(request, Form({**typed, "password": ""}, error.faults))
    note(request, Doing.ACCOUNT_MADE, person=person.user.get_username(), role=person.role)
    messages.success(
        request, _("%(person)s may come in as %(role)s.") % {"person": person.user.get_username(), "role": person.role}
    )
    return redirect("people")


def _done(
    request: HttpRequest, deed: Callable[[], None], text: str, doing: Doing, person: Person, **parameters: str
) -> HttpResponse:
    try:
        deed()
    except InputError as error:
        messages.error(request, f"{(words := in_words(error.faults[0]))[:1].upper()}{words[1:]}.")
    else:
        note(request, doing, person=person.user.get_username(), **parameters)
        messages.success(request, text)
    return redirect("people")


@require_POST
@shared_only
@needs_owner
def role(request: HttpRequest, pk: int) -> HttpResponse:
    """Give somebody another role."""
    person = get_object_or_404(Person, pk=pk)
    wanted, before = request.POST.get("role", ""), person.role
    return _done(
        request,
        lambda: people.set_role(person, wanted),
        _("%(person)s is %(wanted)s now.") % {"person": person.user.get_username(), "wanted": wanted},
        Doing.ROLE_CHANGED,
        person,
        before=before,
        after=wanted,
    )


@require_POST
@shared_only
@needs_owner
def active(request: HttpRequest, pk: int) -> HttpResponse:
    """Shut an account, or open it again."""
    person = get_object_or_404(Person, pk=pk)
    opened = request.POST.get("active") == "1"
    text = f"{person.user.get_username()} {'may come in again' if opened else 'can no longer come in'}."
    doing = Doing.ACCOUNT_OPENED if opened else Doing.ACCOUNT_SHUT
    return _done(request, lambda: people.set_active(person, active=opened), text, doing, person)


@sensitive_post_parameters("password")
@require_POST
@shared_only
@needs_owner
def new_password(request: HttpRequest, pk: int) -> HttpResponse:
    """Give somebody who forgot theirs another password."""
    person = get_object_or_404(Person, pk=pk)
    password = request.POST.get("password", "")
    given = person.user.pk != request.user.pk
    text = f"{person.user.get_username()} has another password; tell them: they change it when they come in."
    deed = functools.partial(people.set_password, person.user, password, given=given)
    return _done(request, deed, text, Doing.PASSWORD_GIVEN, person)


@require_POST
@shared_only
@needs_owner
def second_off(request: HttpRequest, pk: int) -> HttpResponse:
    """Let somebody who lost the phone in with the password alone, and end their sessions."""
    person = get_object_or_404(Person, pk=pk)
    text = _("%(person)s signs in with the password alone now; have them switch the second step on again.")
    deed = functools.partial(people.take_second_off, person)
    return _done(request, deed, text % {"person": person.user.get_username()}, Doing.SECOND_OFF, person)


@sensitive_post_parameters("old", "password")
@require_http_methods(["GET", "HEAD", "POST"])
@shared_only
def own_password(request: HttpRequest) -> HttpResponse:
    """Change one's own password."""
    form = Form({})
    user = request.user
    assert isinstance(user, AbstractUser), "the gate lets nobody else in"
    here = request.session.session_key or ""
    if request.method == "POST" and "end" in request.POST:
        ended = people.end_sessions(user, but=here)
        note(request, Doing.SESSIONS_ENDED, number=ended)
        messages.success(request, _("Wherever else you were signed in, you are no longer."))
        return redirect("own-password")
    if request.method == "POST":
        place = f"own password of {user.pk}"
        try:
            with turnstile.passed(place, known=True):
                if not user.check_password(request.POST.get("old", "")):
                    turnstile.wrong(place)
                    note(request, Doing.WRONG_PASSWORD)
                    form = Form({"old": ""}, (Fault("old", "form.not_the_password_now"),))
                else:
                    people.set_password(user, request.POST.get("password", ""))
        except Refused as refused:
            return wait(request, refused)
        except InputError as error:
            form = Form({"password": ""}, error.faults)
        if not form.faults:
            update_session_auth_hash(request, user)
            note(request, Doing.PASSWORD_CHANGED)
            messages.success(request, _("Your password is changed; your other sessions are ended."))
            return redirect("jobs")
    sessions = [(datetime.fromtimestamp(began, UTC), key == here) for key, began in people.sessions_of(user)]
    given = Person.objects.filter(user=user, given=True).exists()
    context = {"form": form, "second": has_second(user), "sessions": sessions, "given": given}
    return render(request, "desk/password.html", context, status=422 if form.faults else 200)
